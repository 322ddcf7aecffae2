"""Lots whose sheet states other hazards than the formula they were poured by."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from generator.ledgers.record import poured_of, record_of
from generator.ledgers.sheet import sheet_value
from generator.ledgers.standing import SheetState, state_of
from generator.model.ledger import Issued
from generator.model.lots import Lot
from generator.model.markets import Market
from generator.model.recorded import Recorded
from generator.problems import Problem, Severity
from generator.reading.lot_book import LOTS

if TYPE_CHECKING:
    from generator.making.loaded_shop import LoadedShop

WHY_OF_OTHER_HAZARDS = "its label would leave out a hazard, or state one that it does not have"


def lots_of_other_hazards(loaded: "LoadedShop") -> Iterator[Problem]:
    """A warning at each such row of the book of lots; a lot without its own formula cannot be compared."""
    shop = loaded.shop
    made = {facts.stock_code: (gathered.recorded, facts) for gathered, facts in loaded.facts}
    for number, lot in enumerate(shop.lots):
        if lot.formula_fingerprint is None or lot.stock_code not in made:
            continue
        recorded, facts = made[lot.stock_code]
        # Not `loaded.sheets`: few lots are asked about, and that works out the sheet of every candle.
        state = state_of(sheet_value(recorded, facts, shop.maker), shop.ledgers.get(lot.stock_code))
        issued = state.revision(lot.sheet_revision)
        if issued and any(
            says_other_hazards(lot, issued, state, recorded, market) for market in shop.maker.markets
        ):
            yield Problem(
                place=loaded.places.of((LOTS, number)),
                what=(
                    f"lot {lot.lot} was poured by a recipe with other hazards than revision "
                    f"{issued.revision} states"
                ),
                why=WHY_OF_OTHER_HAZARDS,
                fix=how_to_mend(lot),
                severity=Severity.WARNING,
            )


def says_other_hazards(
    lot: Lot, issued: Issued, state: SheetState, recorded: Recorded, market: Market
) -> bool:
    """Whether today's sheet, or another revision, states other hazards for the formula of a lot.

    The lot's row names the sheet that was in force when it was poured, and the formula may have changed before that.
    """
    poured = lot.formula_fingerprint
    if poured is None or poured == poured_of(issued.record).name:
        return False
    said = [one.value for one in state.revisions if poured_of(one.record).name == poured]
    if poured_of(record_of(recorded)).name == poured:
        said.append(state.value)
    return any(value.hazards.get(market) != issued.value.hazards.get(market) for value in said)


def how_to_mend(lot: Lot) -> str:
    """What to do before such a lot is labelled."""
    return (
        f'wickwright issue {lot.stock_code} --reason "...", if that is not done yet; '
        f"then its number as sheet_revision of {lot.lot} in {LOTS}"
    )
