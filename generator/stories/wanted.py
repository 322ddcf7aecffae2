"""Which sheets are to be issued, and what stands in the way of one."""

from dataclasses import dataclass
from datetime import date

from generator.facts.facts import Facts
from generator.facts.gather import Gathered
from generator.model.candle import Status
from generator.model.ledger import short
from generator.revisions.standing import SheetState
from generator.stories.exit_codes import AT_FAULT, WRONG_USE


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a sheet is not issued, and what to do about it."""

    told: str
    exit_code: int


def is_due(one: Wanted) -> bool:
    """Whether a sheet is meant when none is named: trials are not public, and what is in force needs nothing."""
    return one.facts.status is not Status.TRIAL and one.state.status != "issued"


def refusal_of(one: Wanted) -> Refusal | None:
    """What stands in the way of issuing a sheet, if anything does."""
    state, hazards = one.state, one.facts.hazards
    unknown = {market: found for market, found in hazards.items() if found and found.status == "unknown"}
    if state.issued and one.on < state.issued.on:
        told = (
            f"revision {state.issued.revision} of {one.code} was issued on {state.issued.on}, after {one.on}"
        )
        return Refusal(told=f"{told}; write --date and that day or a later one", exit_code=WRONG_USE)
    if state.issued and state.status == "issued":
        told = f"revision {state.issued.revision} of {one.code} says the same ({short(state.fingerprint)})"
        kept = "`wickwright lots add` keeps the formula of each lot, also where no sheet shows a change of it"
        return Refusal(told=f"{told}; {kept}", exit_code=WRONG_USE)
    if unknown:
        told = f"the hazards of {one.code} are unknown, and it is sold in {' and '.join(unknown)}"
        reasons = dict.fromkeys(
            each.rpartition(" (")[0] for found in unknown.values() for each in found.reasons
        )
        return Refusal(told=f"{told}; {'; '.join(reasons)}", exit_code=AT_FAULT)
    return None
