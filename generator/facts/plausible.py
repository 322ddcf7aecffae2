"""Doubts that need calculated figures, such as a price below cost, or the shop's day."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain
from typing import Final

from generator.facts.cost_facts import costs_of
from generator.facts.facts import Facts
from generator.facts.gather import Gathered, shared_keys
from generator.model.formats import Shared
from generator.model.shop import Shop
from generator.problems import Fault, warning
from generator.rules.entries.plausible_entries import days_ahead
from generator.rules.entries.typed_figures import typed_figures
from generator.rules.wax.batches import melted

_RETAIL: Final = "retail"
_SURELY_LESS: Final = 0.4
"""Of a price with its tax: no tax is so high that what costs less could be above the price without it (CHOICE)."""

Sizes = Iterable[tuple[Gathered, Facts]]


def doubts(shop: Shop, sizes: Sizes, *, today: bool) -> Iterator[Fault]:
    """Everything doubtful that only the figures or the shop's day show; another day proves nothing."""
    worked_out = tuple(sizes)
    ahead = days_ahead(shop) if today else ()
    return chain(ahead, _sold_at_a_loss(shop, worked_out), _typed(shop, worked_out))


def _sold_at_a_loss(shop: Shop, sizes: Sizes) -> Iterator[Fault]:
    """Only where the cost is near the price is it worked out exactly: a thousand exact sums take 0.2 s."""
    shared, per_g = shared_keys(shop), _prices_per_g(shop)
    for gathered, facts in sizes if per_g else ():
        code, price = facts.stock_code, gathered.recorded.price
        if price is None or _about(shop, per_g, facts, shared[code]) < _SURELY_LESS * float(price.amount):
            continue
        costs = costs_of(shop, gathered.recorded, facts, shared[code], {})
        retail = next(level.without_tax for level in costs.levels if level.name == _RETAIL)
        if retail and costs.total > retail:
            yield warning(
                path=gathered.origin(("price",)),
                what=(
                    f"{code} costs {float(costs.total):.2f} {costs.currency} to make, but its "
                    f"price is {float(retail):.2f} without tax"
                ),
                why="every one sold is a loss, or a material is priced for the wrong weight",
                fix=f"price: ...; wickwright papers cost {code} prints what makes up the cost",
                check="below-cost",
            )


def _prices_per_g(shop: Shop) -> Mapping[str, float]:
    return {
        id_: float(entry.price.price.amount / entry.price.grams)
        for id_, entry in shop.ingredients.items()
        if entry.price
    }


def _about(shop: Shop, per_g: Mapping[str, float], facts: Facts, shared: Shared) -> float:
    """The approximate cost of one; prices in other currencies count as well."""
    maker, wicks = shop.maker, shared.wick or {}
    blend = sum(float(part.of_total_percent) / 100 * per_g.get(part.id, 0.0) for part in facts.parts)
    pieces = [(shop.wicks[id_].price, count) for id_, count in wicks.items()]
    if facts.container is not None:
        pieces.append((shop.vessels[facts.container.id].price, 1))
    pieces.append((shared.packaging_price, 1))
    bought = sum(count * float(price.amount) for price, count in pieces if price)
    work = (shared.labour_h or 0.0) * float(maker.hour.amount if maker.hour else 0)
    melted_g = melted(1, facts.net_weight_g, maker.waste_percent or 0.0).value
    return (melted_g * blend + bought + work) * (1 + (maker.overhead_percent or 0.0) / 100)


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
