"""Which sheets are to be issued, and what stands in the way of one."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.ledgers.standing import SheetState
from generator.making.exit_codes import AT_FAULT
from generator.making.report import Refusal
from generator.model.candle import Status
from generator.model.ledger import short
from generator.reading.text_files import UNPRINTABLE

NOTHING: Final = "nothing was issued"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One sheet that is to be issued, on a day."""

    gathered: Gathered
    facts: Facts
    state: SheetState
    on: date

    @property
    def code(self) -> str:
        """Its stock code."""
        return self.facts.stock_code


def is_due(one: Wanted) -> bool:
    """Whether a sheet is meant when none is named: trials are not public, and what is in force needs nothing."""
    return one.gathered.recorded.status is not Status.TRIAL and one.state.status != "issued"


def refusal_of(one: Wanted, then: str) -> Refusal | None:
    """What stands in the way of issuing a sheet, if anything does; ``then`` says what is not issued for that."""
    state, hazards = one.state, one.facts.hazards
    unknown = {
        market: found for market, found in hazards.items() if found and found.label.status == "unknown"
    }
    if state.issued and one.on < state.issued.on:
        what = (
            f"revision {state.issued.revision} of {one.code} was issued on {state.issued.on}, after {one.on}"
        )
        return Refusal(what=what, then=then, write="write --date and that day or a later one")
    if state.issued and state.status == "issued":
        what = f"revision {state.issued.revision} of {one.code} says the same ({short(state.fingerprint)})"
        kept = "`wickwright lots add` keeps the formula of each lot, also where no sheet shows a change of it"
        return Refusal(what=what, then=then, write=kept)
    if unknown:
        what = f"the hazards of {one.code} are unknown, and it is sold in {' and '.join(unknown)}"
        reasons = dict.fromkeys(
            each.rpartition(" (")[0] for found in unknown.values() for each in found.reasons
        )
        return Refusal(what=what, then=then, write="; ".join(reasons), exit_code=AT_FAULT)
    return None


def unfit(reason: str) -> Refusal | None:
    """What is wrong with a reason, if anything is."""
    if not reason:
        write = "write --reason and one line for anyone who reads the revisions in ten years"
        return Refusal(what="a revision needs a reason", then=NOTHING, write=write)
    # A list of revisions that holds such a character could not be read any more.
    odd = UNPRINTABLE.search(reason)
    if odd is None:
        return None
    what = f"the reason holds a character that cannot be printed (U+{ord(odd[0]):04X})"
    return Refusal(what=what, then=NOTHING, write="write it without")
