"""What a candle costs to make: exact amounts that add up, and what is not recorded, which never counts as zero."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from generator.model.money import Money, PricePerMass

Missing = Literal["price", "currency", "amount"]
"""Why a line has no amount: its price is not recorded, is in another currency, or how much is not recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One thing that a candle takes; ``amount`` is in the maker's currency, None where unknown."""

    name: str
    amount: Fraction | None
    missing: Missing | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceMargin:
    """The profit at a price without tax."""

    kept: Fraction
    percent: Fraction


def of_weight(name: str, weight_g: Fraction, price: PricePerMass | None, currency: str) -> CostLine:
    """An amount of a material at its recorded price by weight."""
    if price is None:
        return CostLine(name=name, amount=None, missing="price")
    return of_pieces(name, weight_g / Fraction(price.grams), price.price, currency)


def of_pieces(name: str, count: Fraction, price: Money | None, currency: str) -> CostLine:
    """A number of pieces, or hours, at a recorded price each."""
    if price is None:
        return CostLine(name=name, amount=None, missing="price")
    if price.currency not in (None, currency):
        return CostLine(name=name, amount=None, missing="currency")
    return CostLine(name=name, amount=count * Fraction(price.amount))


def known_sum(lines: Iterable[CostLine]) -> Fraction:
    """The sum of all known amounts; a paper that prints it states what is missing."""
    return sum((line.amount for line in lines if line.amount is not None), start=Fraction())


def margin(price: Decimal, cost: Fraction) -> PriceMargin | None:
    """The profit at a price without tax; None for a price of zero.

    margin = 100 (price - cost) / price

    price: what the maker is paid, without tax, in the currency of the cost.
    cost: what the candle costs her.
    Holds for a price above zero; where a cost is missing it is an upper bound.
    Source: the usual margin on the selling price (PRACTICE).

    >>> margin(Decimal("12.00"), Fraction(9)).percent
    Fraction(25, 1)
    """
    paid = Fraction(price)
    return PriceMargin(kept=paid - cost, percent=100 * (paid - cost) / paid) if paid else None
