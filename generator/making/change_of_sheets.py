"""Which sheets are not in force as they are, and what that comes to."""

from collections.abc import Iterator
from dataclasses import replace

from generator.documents.house import House
from generator.documents.pages.change_report import CHANGES, changes_lines
from generator.ledgers.sheet_changes import Change, change_of
from generator.ledgers.standing import SheetState
from generator.making.load_shop import Known, places_of_codes
from generator.model.candle import Status
from generator.problems import Problem
from generator.reading.languages import FIRST, words_of

SHOWN_CHANGES = 5


def changes_told(house: House, known: Known) -> Iterator[str]:
    """What changed since it was issued and what follows, in English as all commands; the page tells of all of it."""
    changes = changes_of(known)
    speaking = replace(house, words=words_of(FIRST)) if changes else house
    for change in changes[:SHOWN_CHANGES]:
        yield from changes_lines(speaking, change, known.places)
    if len(changes) > SHOWN_CHANGES:
        yield f"... and {len(changes) - SHOWN_CHANGES} more sheets, all of them in {CHANGES}"


def not_in_force(known: Known) -> tuple[Problem, ...]:
    """Every public sheet that is not in force as it is: an error where only issued ones are asked for."""
    if known.shop is None:
        return ()
    places = places_of_codes(known.shop, known.places)
    recorded = (gathered.recorded for gathered, _ in known.facts)
    states = ((one, known.sheets[one.stock_code]) for one in recorded)
    return tuple(
        Problem(
            place=places[one.stock_code],
            what=_not_in_force(one.stock_code, state),
            why="only issued sheets were asked for, and the site would show what is not today's",
            write=f"wickwright issue {one.stock_code} --reason, and why in one line",
        )
        for one, state in states
        if state.status != "issued" and one.status is not Status.TRIAL
    )


def _not_in_force(code: str, state: SheetState) -> str:
    if state.issued is None:
        return f"no sheet of {code} has been issued"
    return f"the sheet of {code} has changed since revision {state.issued.revision}"


def changes_of(known: Known) -> tuple[Change, ...]:
    """Every sheet that is no longer what was issued."""
    found = (change_of(known.sheets[facts.stock_code], gathered) for gathered, facts in known.facts)
    return tuple(change for change in found if change is not None)
