"""Which sheets have unissued changes, and what follows."""

from collections.abc import Iterator
from dataclasses import replace

from generator.documents.house import House
from generator.documents.pages.change_report import CHANGES, changes_lines
from generator.ledgers.sheet_changes import Change, change_of
from generator.ledgers.standing import SheetState
from generator.making.loaded_shop import LoadedShop
from generator.model.sizes import Status
from generator.problems import Problem
from generator.reading.languages import FIRST, words_of

SHOWN_CHANGES = 5


def changes_told(house: House, loaded: LoadedShop) -> Iterator[str]:
    """What changed since it was issued and what follows, in English like all commands; the page has all of it."""
    changes = changes_of(loaded)
    speech = replace(house.speech, words=words_of(FIRST)) if changes else house.speech
    speaking = replace(house, speech=speech)
    for change in changes[:SHOWN_CHANGES]:
        yield from changes_lines(speaking, change, loaded.places)
    if len(changes) > SHOWN_CHANGES:
        yield f"... and {len(changes) - SHOWN_CHANGES} more sheets; all are in {CHANGES}"


def not_in_force(loaded: LoadedShop) -> tuple[Problem, ...]:
    """Every public sheet with unissued changes: an error where only issued ones are asked for."""
    recorded = (gathered.recorded for gathered, _ in loaded.facts)
    states = ((one, loaded.sheets[one.stock_code]) for one in recorded)
    return tuple(
        Problem(
            place=loaded.places_of_codes[one.stock_code],
            what=_not_in_force(one.stock_code, state),
            why="you asked for issued sheets only, and the site would show something out of date",
            fix=f'wickwright issue {one.stock_code} --reason "..."',
        )
        for one, state in states
        if state.status != "issued" and one.status is not Status.TRIAL
    )


def _not_in_force(code: str, state: SheetState) -> str:
    if state.issued is None:
        return f"no sheet of {code} has been issued"
    return f"the sheet of {code} has changed since revision {state.issued.revision}"


def changes_of(loaded: LoadedShop) -> tuple[Change, ...]:
    """Every sheet that differs from what was issued."""
    found = (change_of(loaded.sheets[facts.stock_code], gathered) for gathered, facts in loaded.facts)
    return tuple(change for change in found if change is not None)
