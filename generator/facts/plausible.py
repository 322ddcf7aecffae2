"""Doubts that need worked-out figures, such as a price below the cost, or the day the shop speaks for."""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Final

from generator.facts.costs import costs_of
from generator.facts.facts import Facts
from generator.facts.gather import Gathered, shared_keys
from generator.model.shop import Shop
from generator.problems import Fault, Severity
from generator.rules.plausible_entries import days_ahead
from generator.rules.typed_figures import typed_figures

_RETAIL: Final = "retail"

Sizes = Iterable[tuple[Gathered, Facts]]


def doubts(shop: Shop, sizes: Sizes, *, today: bool) -> Iterator[Fault]:
    """Everything doubtful that only the figures show, or the day the shop speaks for; another day proves nothing."""
    worked_out = tuple(sizes)
    ahead = days_ahead(shop) if today else ()
    return chain(ahead, _sold_at_a_loss(shop, worked_out), _typed(shop, worked_out))


def _sold_at_a_loss(shop: Shop, sizes: Sizes) -> Iterator[Fault]:
    if not any(wax.price for wax in shop.waxes.values()):
        return
    shared = shared_keys(shop)
    for gathered, facts in sizes:
        costs = costs_of(shop, gathered.recorded, facts, shared[facts.stock_code], {})
        retail = next(level.without_tax for level in costs.levels if level.name == _RETAIL)
        if retail and costs.total > retail:
            yield Fault(
                path=gathered.origin(("price",)),
                what=f"{facts.stock_code} costs {float(costs.total):.2f} {costs.currency} to make, "
                f"and its price is {float(retail):.2f} without tax",
                why="every one that is sold is a loss, or a price of a material is written by another weight",
                write=f"price: ...; wickwright papers cost {facts.stock_code} prints what its cost is made of",
                severity=Severity.WARNING,
                check="below-cost",
            )


def _typed(shop: Shop, sizes: Sizes) -> Iterator[Fault]:
    of_candle: dict[str, list[Facts]] = {}
    for _, facts in sizes:
        of_candle.setdefault(facts.candle, []).append(facts)
    for id_, candle in shop.candles.items():
        own = of_candle.get(id_, []) if candle.description else []
        hours = [each.burn_hours.claim for each in own if each.burn_hours and each.burn_hours.claim]
        weights = [each.net_weight_g for each in own]
        path = (f"candles/{id_}.yaml", "description")
        yield from typed_figures(path, candle.description or "", hours, weights)
