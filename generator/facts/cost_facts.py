"""What one candle of a stock code costs its maker, from recorded prices, and the profit at each price."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from generator.facts.facts import Facts
from generator.model.formats import Shared
from generator.model.money import Money
from generator.model.quantities import as_written
from generator.model.recorded import Recorded
from generator.model.shop import Shop
from generator.rules.trade.pricing import retail_without_tax
from generator.rules.trade.unit_costs import (
    CostLine,
    PriceMargin,
    known_sum,
    margin,
    of_pieces,
    of_weight,
)
from generator.rules.wax.batches import melted
from generator.rules.wax.portions import ingredients_of

PriceName = Literal["retail", "trade", "level"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedLevel:
    """One price, the part of it without tax, and the profit; None where unknown.

    ``called`` is the name of the level in the shop's terms.
    """

    name: PriceName
    called: str | None = None
    without_tax: Decimal | None
    margin: PriceMargin | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """The materials, the work and the overhead of one candle, in the maker's currency.

    ``overhead`` has no amount where it is not recorded. ``waste_percent`` is None where it is not recorded.
    """

    stock_code: str
    scent: str
    size: str
    currency: str
    materials: tuple[CostLine, ...]
    labour: CostLine
    labour_h: float | None
    overhead: CostLine
    overhead_percent: float | None
    waste_percent: float | None
    levels: tuple[PricedLevel, ...]

    @property
    def lines(self) -> tuple[CostLine, ...]:
        """Everything that a candle takes."""
        return (*self.materials, self.labour, self.overhead)

    @property
    def total(self) -> Fraction:
        """The sum of all known amounts."""
        return known_sum(self.lines)

    @property
    def lacks(self) -> tuple[CostLine, ...]:
        """What has no amount: the cost is then at least, and the margin at most, the figure given."""
        return tuple(line for line in self.lines if line.amount is None)


def costs_of(
    shop: Shop, recorded: Recorded, facts: Facts, shared: Shared, at_levels: Mapping[str, Decimal | None]
) -> Costs:
    """Everything one candle takes, at the prices of today's entries; and the profit at each price and level."""
    maker = shop.maker
    materials = (
        *_melted(shop, recorded, facts),
        *_pieces(shop, recorded, maker.currency),
        of_pieces("packaging", Fraction(1), shared.packaging_price, maker.currency),
    )
    labour = _labour(shared, maker.hour, maker.currency)
    known = known_sum((*materials, labour))
    rate = maker.overhead_percent
    overhead = None if rate is None else known * Fraction(as_written(rate)) / 100
    total = known + (overhead or 0)
    return Costs(
        stock_code=recorded.stock_code,
        scent=recorded.scent,
        size=recorded.size_name,
        currency=maker.currency,
        materials=materials,
        labour=labour,
        labour_h=shared.labour_h,
        overhead=CostLine(name="overhead", amount=overhead, missing="price" if overhead is None else None),
        overhead_percent=rate,
        waste_percent=maker.waste_percent,
        levels=(
            _level("retail", recorded.price, recorded.prices_include_tax_percent, total, maker.currency),
            _level("trade", recorded.trade_price, None, total, maker.currency),
            *(_left("level", paid, total, called=name) for name, paid in at_levels.items()),
        ),
    )


def _melted(shop: Shop, recorded: Recorded, facts: Facts) -> Iterator[CostLine]:
    """Each ingredient of one candle with its part of the waste; prices are in the shop, not in a record."""
    ingredients = ingredients_of(recorded.build.formula)
    batch = sum((one.exact_g for one in ingredients), start=Fraction())
    net_g, waste = as_written(facts.net_weight_g), as_written(shop.maker.waste_percent or 0.0)
    one_g = Fraction(melted(1, Fraction(net_g), Fraction(waste)).exact)
    prices = {id_: entry.price for id_, entry in shop.ingredients.items()}
    for one in ingredients:
        melted_g = one_g * one.exact_g / batch
        yield of_weight(one.material.name, melted_g, prices[one.id], shop.maker.currency)


def _pieces(shop: Shop, recorded: Recorded, currency: str) -> Iterator[CostLine]:
    for use in recorded.build.wicks:
        yield of_pieces(use.wick.name, Fraction(use.count), shop.wicks[use.wick.id].price, currency)
    container = recorded.build.container
    if container is not None:
        yield of_pieces(container.name, Fraction(1), shop.vessels[container.id].price, currency)


def _labour(shared: Shared, hour: Money | None, currency: str) -> CostLine:
    if shared.labour_h is None:
        return CostLine(name="labour", amount=None, missing="amount")
    return of_pieces("labour", Fraction(as_written(shared.labour_h)), hour, currency)


def _level(
    name: PriceName, price: Money | None, tax_percent: float | None, cost: Fraction, currency: str
) -> PricedLevel:
    if price is None or price.currency not in (None, currency):
        return _left(name, None, cost)
    tax = as_written(tax_percent) if tax_percent is not None else Decimal()
    return _left(name, retail_without_tax(price.amount, tax), cost)


def _left(name: PriceName, paid: Decimal | None, cost: Fraction, called: str | None = None) -> PricedLevel:
    left = None if paid is None else margin(paid, cost)
    return PricedLevel(name=name, called=called, without_tax=paid, margin=left)
