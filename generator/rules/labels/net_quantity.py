"""The net quantity that labels print: its text per market, and whether it is proven.

Ounces and grams are each rounded down from one unrounded weight, since the larger of the two is enforced.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final

from generator.model.burn_safety import DeclaredStatus
from generator.model.markets import MARKETS, Market
from generator.model.quantities import GRAMS, GRAMS_PER_OUNCE, as_written
from generator.problems import Fault
from generator.rules.calculation import Calculation
from generator.rules.wax.net_weight import NetWeight
from generator.rules.wax.weighings import LEAST_NET_G

OUNCE_DECIMALS: Final = 1
MOST_OUNCE_DECIMALS: Final = 2
"""Decimals of an ounce: one by default, two at most (standards.md N10, FOUND)."""

WEIGHTS_KEPT: Final = 16
"""Each market prints the same weight, so the last few are not rounded again."""

OUNCES_PER_POUND: Final = 16
KILOGRAM_G: Final = 1000
_OUNCE_G: Final = Decimal(GRAMS["oz"])


@dataclass(frozen=True, kw_only=True)
class NetQuantity:
    """What is declared: grams, the maker's own ounces if she prints any, and how well that is known."""

    net_g: float
    ounces: float | None
    status: DeclaredStatus

    @cached_property
    def exact_g(self) -> Decimal:
        """The grams as written."""
        return as_written(self.net_g)

    @cached_property
    def whole_g(self) -> Calculation | None:
        """The grams declared, rounded down; None from a kilogram on, which is declared in kilograms."""
        return grams_below(self.exact_g) if self.exact_g < KILOGRAM_G else None


def declared(
    net: NetWeight, declared_g: float | None, declared_oz: float | None
) -> tuple[NetQuantity, tuple[Fault, ...]]:
    """What may be declared, compared with what the maker does declare.

    Proven: the proven weight supports grams and ounces. Refuted: one of them is above the best estimate.
    Where she declares nothing, the proven weight is declared, or else the estimate.
    """
    most_g = net.proven_g or net.net_g
    if declared_g is None:
        status: DeclaredStatus = "estimated" if net.proven_g is None else "proven"
        return NetQuantity(net_g=most_g, ounces=None, status=status), ()
    faults = (*_too_little(declared_g, declared_oz), *_overstated(net, declared_g, declared_oz))
    if faults:
        return NetQuantity(net_g=most_g, ounces=None, status="refuted"), faults
    proven = net.proven_g is not None and max(_printed_g(declared_g, declared_oz)) <= as_written(net.proven_g)
    return NetQuantity(net_g=declared_g, ounces=declared_oz, status="proven" if proven else "estimated"), ()


def quantity_text(market: Market, quantity: NetQuantity, decimals: int = OUNCE_DECIMALS) -> str:
    """The declaration as a market prints it: ``8.4 oz (240 g)`` in the US, ``240 g`` in the EU and GB.

    g: floor to 1 g, from 1000 g to 0.01 kg; oz = g / 28.349523125, floor to the decimals; from 16 oz in pounds

    market: its style decides whether ounces come first.
    quantity: net weight in g, and the maker's own ounces if any.
    decimals: places of the ounces, 1 or 2.
    Holds from 10 g up; refuses less.
    Source: 16 CFR 500.19 (FOUND), 500.9 (FOUND-2nd), UPLR 6.5 (MEMORY): standards.md N4 to N10.

    >>> quantity_text("US", NetQuantity(net_g=184.3, ounces=None, status="estimated"))
    '6.5 oz (184 g)'
    """
    if quantity.net_g < LEAST_NET_G:
        raise ValueError(f"{quantity.net_g} g is less than {LEAST_NET_G} g")
    match MARKETS[market].quantity:
        case "grams":
            return _grams_text(quantity.exact_g)
        case "ounces":
            return f"{_ounces_text(_ounces(quantity, decimals))} ({_grams_text(quantity.exact_g)})"


def _ounces(quantity: NetQuantity, decimals: int) -> Decimal:
    """The maker's own ounces, or those in the grams."""
    if quantity.ounces is None:
        return _decimal(ounces_below(quantity.exact_g, decimals))
    return _floored(as_written(quantity.ounces), MOST_OUNCE_DECIMALS)


@lru_cache(maxsize=WEIGHTS_KEPT)
def grams_below(net_g: Decimal) -> Calculation:
    """The whole grams of a weight below a kilogram."""
    return Calculation("floor(weight_to_declare_g)", {"weight_to_declare_g": Fraction(net_g)})


@lru_cache(maxsize=WEIGHTS_KEPT)
def ounces_below(net_g: Decimal, decimals: int) -> Calculation:
    """The ounces of a weight, rounded down to a number of decimals."""
    formula = f"floor(weight_to_declare_g / {GRAMS_PER_OUNCE} * {10**decimals}) / {10**decimals}"
    return Calculation(formula, {"weight_to_declare_g": Fraction(net_g)})


def _decimal(rounded: Calculation) -> Decimal:
    numerator, denominator = rounded.exact.as_integer_ratio()
    return Decimal(numerator) / denominator


def _printed_g(declared_g: float, declared_oz: float | None) -> tuple[Decimal, ...]:
    """The grams and the ounces that a label states, both in grams."""
    grams = as_written(declared_g)
    return (grams,) if declared_oz is None else (grams, as_written(declared_oz) * _OUNCE_G)


def _too_little(declared_g: float, declared_oz: float | None) -> Iterator[Fault]:
    if min(_printed_g(declared_g, declared_oz)) < as_written(LEAST_NET_G):
        yield Fault(
            path=("declared",),
            what=f"declared {_written(declared_g, declared_oz)} is less than {LEAST_NET_G:g} g",
            why="no candle contains so little wax, yet the label would say so",
            fix="declared: ... g, as on the label",
        )


def _overstated(net: NetWeight, declared_g: float, declared_oz: float | None) -> Iterator[Fault]:
    if max(_printed_g(declared_g, declared_oz)) <= as_written(net.net_g):
        return
    most_g = as_written(net.proven_g or net.net_g)
    fix = f"declared: at most {_grams_text(most_g)}"
    if declared_oz is not None:
        most_oz = _plain(_decimal(ounces_below(most_g, OUNCE_DECIMALS)))
        fix = f"declared: at most {{g: {_plain(_floored_g(most_g))}, oz: {most_oz}}}"
    yield Fault(
        path=("declared",),
        what=(
            f"declared {_written(declared_g, declared_oz)} is more than the {net.net_g:.2f} "
            f"g in the candle ({_BASIS_WORDS[net.basis]})"
        ),
        why="a net quantity must never overstate, and of grams and ounces the larger counts",
        fix=fix,
    )


_BASIS_WORDS: Final = {
    "weighed": "the mean of the weighings",
    "poured to weight": "as poured",
    "water": "calculated from the measured vessel",
    "geometry": "calculated from the vessel",
}


def _written(declared_g: float, declared_oz: float | None) -> str:
    grams = f"{_plain(as_written(declared_g))} g"
    return grams if declared_oz is None else f"{grams} and {_plain(as_written(declared_oz))} oz"


@lru_cache(maxsize=WEIGHTS_KEPT)
def _grams_text(net_g: Decimal) -> str:
    floored_g = _floored_g(net_g)
    return f"{_plain(floored_g)} g" if floored_g < KILOGRAM_G else f"{_plain(floored_g / KILOGRAM_G)} kg"


def _floored_g(net_g: Decimal) -> Decimal:
    """To the whole gram, from a kilogram to the hundredth of it."""
    return (
        _decimal(grams_below(net_g)) if net_g < KILOGRAM_G else _floored(net_g / KILOGRAM_G, 2) * KILOGRAM_G
    )


def _ounces_text(ounces: Decimal) -> str:
    if ounces < OUNCES_PER_POUND:
        return f"{_plain(ounces)} oz"
    pounds, rest = divmod(ounces, OUNCES_PER_POUND)
    return f"{_plain(pounds)} lb {_plain(rest)} oz" if rest else f"{_plain(pounds)} lb"


def _floored(number: Decimal, decimals: int) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_FLOOR)


def _plain(number: Decimal) -> str:
    """Without zeros at the end, and without an exponent."""
    return f"{number.normalize():f}"
