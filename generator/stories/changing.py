"""Which sheets are not in force as they are, and what that comes to."""

from collections.abc import Iterator
from dataclasses import replace

from generator.documents.changes import CHANGES, changes_lines
from generator.documents.house import House
from generator.model.candle import Status
from generator.reading.languages import FIRST, words_of
from generator.revisions.changes import Change, change_of
from generator.stories.shop import Known

SHOWN_CHANGES = 5


def changes_told(house: House, known: Known) -> Iterator[str]:
    """What changed since it was issued and what follows, in English as all commands; the page tells of all of it."""
    changes = changes_of(known)
    speaking = replace(house, words=words_of(FIRST)) if changes else house
    for change in changes[:SHOWN_CHANGES]:
        yield from changes_lines(speaking, change, known.places)
    if len(changes) > SHOWN_CHANGES:
        yield f"... and {len(changes) - SHOWN_CHANGES} more sheets, all of them in {CHANGES}"


def not_in_force(known: Known) -> tuple[str, ...]:
    """Every public sheet that is not in force as it is, in a line."""
    states = ((facts, known.sheets[facts.stock_code]) for _, facts in known.facts)
    return tuple(
        f"{facts.stock_code}: no sheet has been issued"
        if state.issued is None
        else f"{facts.stock_code}: the sheet has changed since revision {state.issued.revision}"
        for facts, state in states
        if state.status != "issued" and facts.status is not Status.TRIAL
    )


def changes_of(known: Known) -> tuple[Change, ...]:
    """Every sheet that is no longer what was issued."""
    found = (change_of(known.sheets[facts.stock_code], gathered) for gathered, facts in known.facts)
    return tuple(change for change in found if change is not None)
