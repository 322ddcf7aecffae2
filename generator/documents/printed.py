"""Numbers as text: the one place where a paper's grams, millimetres, hours, money and dates are written."""

import re
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from functools import lru_cache
from math import ceil, floor
from typing import Final

from generator.documents.house import LanguagePack, Words
from generator.facts.facts import Facts, Figure, Input
from generator.model.burn_safety import BurnAdvice, BurnHours, advice_written
from generator.model.markets import MARKETS, Market, ParcelUnit
from generator.model.money import CURRENCIES, Money, rounded
from generator.model.plurals import plural_category

SPACE: Final = "\u00a0"
"""Between a number and its unit: no line breaks there."""

_SIGNS: Final = {"GBP": "£", "EUR": "€"}
_PARCEL_UNITS_G: Final[Mapping[ParcelUnit, float]] = {"kg": 1000.0, "lb": 453.59237}
"""The grams in each unit of parcel weight; the pound is exact by definition (MEMORY)."""

_DERIVATION_DIGITS: Final = 5
_RATE_DIGITS: Final = 2
_WHOLE_UNITS: Final = ("g", "ml")
_INCHES: Final = re.compile(r"([\d./]+) in\b")
_FRACTION: Final = re.compile(r"(?<=\d)\.(?=\d)")


def number(plain: str, words: Words) -> str:
    """A number written ``1,234.5``, with the signs of a language."""
    signs = words["numbers"]
    return plain.translate({ord(","): signs["thousands"], ord("."): signs["decimal"]})


def measured(text: str, words: Words) -> str:
    """A quantity as a sheet records it, such as ``2.5 h`` or ``1/4 in``, in the signs and units of a language."""
    inches = _INCHES.sub(lambda found: _in_inches(found[1], words), text)
    return _FRACTION.sub(words["numbers"]["decimal"], inches)


@lru_cache(maxsize=1024)
def advised(advice: BurnAdvice, speech: LanguagePack) -> Mapping[str, str]:
    """Every figure of one market's advice by its name on the sheet; empty where the market gives none."""
    return {name: measured(text or "", speech.words) for name, text in advice_written(advice).items()}


def _in_inches(length: str, words: Words) -> str:
    """A fraction of an inch is written with a slash, and takes no plural in any language."""
    sentence = (
        words["numbers"]["inch_fraction"] if "/" in length else counted("counted_inches", length, words)
    )
    return sentence.format(length=length)


def grams(weight_g: float, words: Words) -> str:
    """A weight to the whole gram."""
    return f"{number(f'{weight_g:,.0f}', words)}{SPACE}g"


def parcel_unit(market: Market) -> tuple[ParcelUnit, float]:
    """The unit in which a market weighs parcels, and its grams."""
    unit = MARKETS[market].parcel_unit
    return unit, _PARCEL_UNITS_G[unit]


def parcel(weight_g: float, market: Market, words: Words) -> str:
    """A shipping weight, to the tenth of the market's unit, halves up."""
    unit, unit_g = parcel_unit(market)
    return f"{number(f'{floor(weight_g * 10 / unit_g + 0.5) / 10:,.1f}', words)}{SPACE}{unit}"


def millimetres(length_mm: float, words: Words) -> str:
    """A length to the half millimetre, as fine as a drawing is read."""
    return f"{number(f'{round(length_mm * 2) / 2:g}', words)}{SPACE}mm"


def at_least(depth_mm: float) -> str:
    """A depth rounded up to the whole millimetre, where less would be unsafe."""
    return f"{ceil(depth_mm)}{SPACE}mm"


def emergency_number(market: Market, words: Words) -> str:
    """The emergency numbers in case of fire, joined by "or"."""
    return words["labels"]["between_numbers"].join(MARKETS[market].emergency)


def hours(duration_h: float, words: Words) -> str:
    """A duration in words, to the half hour below."""
    halves = f"{floor(duration_h * 2) / 2:g}"
    return counted("counted_hours", halves, words).format(hours=number(halves, words))


def counted(subject: str, count: str, words: Words) -> str:
    """The sentence for a count, which is written ``1,234.5``; the subject has one for each category of the language."""
    return words[subject][plural_category(count.replace(",", ""), words["plurals"])]


def money(price: Money, currency: str, market: Market, words: Words) -> str:
    """A price with the sign or the letters of its currency."""
    code = price.currency or currency
    amount = number(f"{rounded(price.amount, code):,.{CURRENCIES[code]}f}", words)
    before, behind = around_money(code, market, words)
    return f"{before}{amount}{behind}"


def around_money(currency: str, market: Market, words: Words) -> tuple[str, str]:
    """What is before and after an amount; a plain dollar sign is only for the reader's own dollars."""
    sign = "$" if currency == MARKETS[market].dollar else _SIGNS.get(currency)
    pattern = words["numbers"]["price" if sign else "price_in_letters"]
    before, _, behind = pattern.format(amount="|", sign=sign, currency=currency).partition("|")
    return before, behind


def percent(share: Decimal | float, words: Words) -> str:
    """A percentage to one place at most."""
    return f"{number(f'{round(float(share), 1):g}', words)}{SPACE}%"


def day(when: date, words: Words) -> str:
    """A date in words, such as ``1 November 2026``."""
    site = words["site"]
    of_month = site["first_day"] if when.day == 1 else when.day
    return site["date"].format(day=of_month, month=words["months"][str(when.month)], year=when.year)


def listed(names: Iterable[str], words: Words) -> str:
    """Names as a list."""
    return words["site"]["between"].join(names)


def net_quantity(facts: Facts, market: Market, words: Words) -> str:
    """The net quantity one market's paper prints, or the estimate, marked as one."""
    declared = facts.declared[market]
    if declared is not None:
        return measured(declared, words)
    estimated = measured(facts.estimated[market], words)
    # A second unit in brackets takes no bracket behind it.
    sentence = "net_about" if estimated.endswith(")") else "net_approx"
    return words["candle"][sentence].format(quantity=estimated)


def estimates_note(listed_facts: Iterable[Facts], market: Market, words: Words) -> str | None:
    """What the marks of estimates mean, once for a page that has any; None where all is weighed and tested."""
    is_marked = any(
        facts.declared[market] is None or (facts.burn_hours and facts.burn_hours.basis != "tested")
        for facts in listed_facts
    )
    return words["catalogue"]["estimates"] if is_marked else None


def quantity_with_basis(quantity: str, basis: str, words: Words) -> str:
    """A net quantity, with its basis unless it is proven."""
    written = measured(quantity, words)
    if basis == "proven":
        return written
    return words["net_by_basis"][basis].format(quantity=written)


def hours_in_words(burn: BurnHours | None, words: Words) -> str | None:
    """The hours, marked where they are not tested; None where nothing is known or nothing burns."""
    return _hours(burn, words["hours_by_basis"], words)


def hours_on_sheet(burn: BurnHours | None, words: Words) -> str | None:
    """The same with their basis in full."""
    return _hours(burn, words["sheet_hours"], words)


def _hours(burn: BurnHours | None, by_basis: Mapping[str, str], words: Words) -> str | None:
    if burn is None or burn.whole_h is None:
        return None
    return by_basis[burn.basis].format(hours=hours(burn.whole_h, words))


def derived(value: float, unit: str, words: Words) -> str:
    """A number of a public derivation: weight, volume and rate too coarse to reveal a recipe."""
    if unit in _WHOLE_UNITS:
        return f"{floor(value)}{SPACE}{unit}"
    return _to_digits(value, unit, _RATE_DIGITS if unit == "g/h" else _DERIVATION_DIGITS, words)


def exact(value: float, unit: str, words: Words) -> str:
    """A number of a workshop derivation, fine enough to work out the figure again."""
    return _to_digits(value, unit, _DERIVATION_DIGITS, words)


def _to_digits(value: float, unit: str, significant: int, words: Words) -> str:
    digits = f"{value:.{significant}g}"
    plain = f"{float(digits):.0f}" if "e" in digits else digits
    return f"{number(plain, words)}{SPACE}{unit}".rstrip(SPACE)


def named(given: Input | Figure, words: Words) -> str:
    """The name of an input or a figure: ``rate_high_g_per_h`` in g/h by its word ``rate_high``.

    Several of one kind are numbered. A material is named by its id.
    """
    unit = given.unit.lower().replace("/", "_per_").replace("%", "percent")
    bare = given.name.removesuffix(f"_{unit}")
    kind, _, place = bare.rpartition("_")
    known = words["quantities"]
    if bare in known:
        return known[bare]
    return f"{known[kind]} {place}" if kind in known else bare.replace("_", " ")


def formula(figure: Figure, words: Words) -> str:
    """A figure's formula with the inputs' names in words."""
    written = figure.formula.replace(", ", words["numbers"]["apart"])
    for sign, spoken in (("^2", "²"), ("^3", "³"), ("*", "×"), ("/", "÷"), ("-", "−")):
        written = written.replace(sign, spoken)
    written = _FRACTION.sub(words["numbers"]["decimal"], re.sub(r"\s*([×÷−+])\s*", r" \1 ", written))
    names = {given.name: named(given, words) for given in figure.inputs}
    functions = dict(words["functions"])
    told = re.sub(
        r"[A-Za-z_][A-Za-z_0-9]*", lambda found: (names | functions).get(found[0], found[0]), written
    )
    return re.sub(r"(?<=\w)\(", " (", told).strip()
