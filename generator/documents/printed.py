"""How numbers become text: the one place where a paper's grams, millimetres, hours, money and dates are written."""

import re
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from math import ceil, floor
from typing import Final

from generator.documents.house import Words
from generator.facts.facts import Facts, Figure, Hours, Input
from generator.model.maker import Market
from generator.model.money import CURRENCIES, Money, rounded

SPACE: Final = "\u00a0"
"""Between a number and its unit, so that no line breaks there."""

_SIGNS: Final = {"GBP": "£", "EUR": "€"}
PARCEL_UNITS: Final[Mapping[Market, tuple[str, float]]] = {
    "GB": ("kg", 1000.0), "EU": ("kg", 1000.0), "US": ("lb", 453.59237),
}  # fmt: skip
"""The unit in which a market weighs parcels, and its grams; the pound is exact by definition (MEMORY)."""

_DERIVATION_DIGITS: Final = 5
_RATE_DIGITS: Final = 2
_WHOLE_UNITS: Final = ("g", "ml")


def grams(weight_g: float) -> str:
    """A weight to the whole gram."""
    return f"{weight_g:,.0f}{SPACE}g"


def parcel(weight_g: float, market: Market) -> str:
    """A weight to be carried, to the tenth of the market's unit, halves up."""
    unit, unit_g = PARCEL_UNITS[market]
    return f"{floor(weight_g * 10 / unit_g + 0.5) / 10:,.1f}{SPACE}{unit}"


def millimetres(length_mm: float) -> str:
    """A length to the half millimetre, which is as fine as a drawing is read."""
    return f"{round(length_mm * 2) / 2:g}{SPACE}mm"


def at_least(depth_mm: float) -> str:
    """A depth to the whole millimetre above, where less than it must never be understood."""
    return f"{ceil(depth_mm)}{SPACE}mm"


def hours(duration_h: float, words: Words) -> str:
    """A duration in words, to the half hour below."""
    halves = f"{floor(duration_h * 2) / 2:g}"
    return words["site"]["one_hour" if halves == "1" else "hours"].format(hours=halves)


def money(price: Money, currency: str, market: Market) -> str:
    """A price with the sign or the letters of its currency."""
    code = price.currency or currency
    amount = f"{rounded(price.amount, code):,.{CURRENCIES[code]}f}"
    before, behind = around_money(code, market)
    return f"{before}{amount}{behind}"


def around_money(currency: str, market: Market) -> tuple[str, str]:
    """What stands before and behind an amount; a dollar stands alone only where it is the reader's own."""
    sign = "$" if (currency, market) == ("USD", "US") else _SIGNS.get(currency)
    return (sign, "") if sign else ("", f"{SPACE}{currency}")


def percent(share: Decimal | float) -> str:
    """A percentage to one place at most."""
    return f"{round(float(share), 1):g}{SPACE}%"


def day(when: date, words: Words) -> str:
    """A date in words, such as ``1 November 2026``."""
    site = words["site"]
    return site["date"].format(day=when.day, month=site[f"month_{when.month}"], year=when.year)


def listed(names: Iterable[str], words: Words) -> str:
    """Names one after the other."""
    return words["site"]["between"].join(names)


def net_quantity(facts: Facts, market: Market, words: Words) -> str:
    """The net quantity one market's paper prints, or the estimate, which says that it is one."""
    declared = facts.declared[market]
    if declared is not None:
        return declared
    return quantity_with_basis(facts.estimated[market], facts.net_weight_basis, words)


def quantity_with_basis(quantity: str, basis: str, words: Words) -> str:
    """A net quantity, which says what it rests on unless it is proven."""
    if basis == "proven":
        return quantity
    return words["candle"][f"net_{basis.replace(' ', '_')}"].format(quantity=quantity)


def burning(burn: Hours | None, words: Words) -> str | None:
    """The hours with their basis in words; None where nothing is known or nothing burns."""
    if burn is None:
        return None
    known = burn.claim if burn.claim is not None else burn.low
    if known is None:
        return None
    return hours_with_basis(floor(known), burn.basis, words)


def hours_with_basis(whole_h: int, basis: str, words: Words) -> str:
    """Whole hours and how they are known."""
    return words["candle"][f"hours_{basis.replace(' ', '_')}"].format(hours=hours(whole_h, words))


def derived(value: float, unit: str) -> str:
    """A number of a public derivation: so coarse in weight, volume and rate that no recipe can be told from it."""
    if unit in _WHOLE_UNITS:
        return f"{floor(value)}{SPACE}{unit}"
    return _to_digits(value, unit, _RATE_DIGITS if unit == "g/h" else _DERIVATION_DIGITS)


def exact(value: float, unit: str) -> str:
    """A number of a derivation in the workshop, fine enough to work the figure out again."""
    return _to_digits(value, unit, _DERIVATION_DIGITS)


def _to_digits(value: float, unit: str, significant: int) -> str:
    digits = f"{value:.{significant}g}"
    number = f"{float(digits):.0f}" if "e" in digits else digits
    return f"{number}{SPACE}{unit}".rstrip(SPACE)


def named(given: Input | Figure) -> str:
    """What an input or a figure is called in words: ``rate_high_g_per_h`` in g/h is ``rate high``."""
    unit = given.unit.lower().replace("/", "_per_").replace("%", "percent")
    return given.name.removesuffix(f"_{unit}").replace("_", " ")


def formula(figure: Figure, words: Words) -> str:
    """A figure's formula as a reader would say it, with the inputs' names in words."""
    names = {given.name: named(given) for given in figure.inputs}
    known = {name: words["candle"][f"formula_{name}"] for name in ("pi", "sqrt", "floor", "min", "max")}
    spoken = re.sub(r"[A-Za-z_][A-Za-z_0-9]*", lambda m: (names | known).get(m[0], m[0]), figure.formula)
    for sign, written in (("^2", "²"), ("^3", "³"), ("*", "×"), ("/", "÷"), ("-", "−")):
        spoken = spoken.replace(sign, written)
    apart = re.sub(r"\s*([×÷−+])\s*", r" \1 ", spoken)
    return re.sub(r"(?<=\w)\(", " (", apart).strip()
