"""What finished candles of a pour must hold, one by one and on average, where their net quantity is proven."""

from dataclasses import dataclass
from decimal import Decimal

from generator.facts.pours import OUNCE_G, Wanted
from generator.model.markets import MARKETS
from generator.model.quantities import as_written
from generator.rules.labels.tolerances import (
    LARGEST_MAV_LABEL_G,
    LARGEST_NOMINAL_G,
    lowest_any_g,
    lowest_few_g,
    lowest_single_g,
    sample_size,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PackRules:
    """How many of so many candles are weighed, and what they must hold.

    ``few_below_g`` and ``none_below_g`` are one and two tolerable negative errors below, ``us_none_below_g`` is the
    maximum allowable variation below; None where no market of the shop has that rule, or the rule ends.
    """

    stock_code: str
    count: int
    sample: int
    average_g: Decimal
    few_below_g: Decimal | None
    none_below_g: Decimal | None
    us_none_below_g: Decimal | None


def pack_rules(one: Wanted) -> PackRules | None:
    """What the candles of a pour must hold; None where no market prints their quantity."""
    rules = {MARKETS[market].shortfall for market, said in one.facts.declared.items() if said is not None}
    if not rules or one.facts.declared_g is None:
        return None
    declared_g = Decimal(one.facts.declared_g)
    label_g = max(declared_g, as_written(one.recorded.declared_oz or 0.0) * OUNCE_G)
    metric = declared_g <= LARGEST_NOMINAL_G and "TNE" in rules
    us = label_g <= LARGEST_MAV_LABEL_G and "MAV" in rules
    return PackRules(
        stock_code=one.facts.stock_code,
        count=one.count,
        sample=sample_size(one.count),
        average_g=label_g,
        few_below_g=lowest_few_g(declared_g) if metric else None,
        none_below_g=lowest_any_g(declared_g) if metric else None,
        us_none_below_g=lowest_single_g(label_g) if us else None,
    )
