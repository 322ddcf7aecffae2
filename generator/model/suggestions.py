"""What to write instead of a quantity that cannot be read: always the maker's own number, never another."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

_OWN: Final = re.compile(
    r"(?:(?:about|approx\.?|ca\.?|circa|roughly|[~≈+])\s*)?(\.?[0-9]+(?:\.[0-9]+)?)\s*([^0-9]*)",
    re.IGNORECASE | re.DOTALL,
)
_PAIR: Final = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*([a-z]+)")
_BETWEEN_PAIRS: Final = re.compile(r"(?:\s|,|&|\+|and)*")

_SPELLED: Final[Mapping[str, tuple[str, int]]] = {
    **dict.fromkeys(("gr", "gm", "gms", "gram", "grams", "gramme", "grammes"), ("g", 1)),
    **dict.fromkeys(("ounce", "ounces", "ozs"), ("oz", 1)),
    **dict.fromkeys(("pound", "pounds", "lbs"), ("lb", 1)),
    **dict.fromkeys(("kilo", "kilos", "kgs", "kilogram", "kilograms"), ("kg", 1)),
    **dict.fromkeys(("mms", "millimetre", "millimetres", "millimeter", "millimeters"), ("mm", 1)),
    **dict.fromkeys(("cms", "centimetre", "centimetres", "centimeter", "centimeters"), ("cm", 1)),
    **dict.fromkeys(('"', "″", "”", "''", "ins"), ("in", 1)),
    **dict.fromkeys(("ft", "foot", "feet"), ("in", 12)),
    **dict.fromkeys(("mls", "millilitre", "millilitres", "milliliter", "milliliters"), ("ml", 1)),
    **dict.fromkeys(("litre", "litres", "liter", "liters"), ("l", 1)),
    **dict.fromkeys(("hr", "hrs", "hour", "hours"), ("h", 1)),
    **dict.fromkeys(("mins", "minute", "minutes"), ("min", 1)),
    **dict.fromkeys(("week", "weeks"), ("days", 7)),
}
"""Other spellings of units: the unit read here, and how many of it make one."""


@dataclass(frozen=True, slots=True)
class Own:
    """The one number in a text, and the words after it."""

    number: str
    words: str


def own(text: str) -> Own | None:
    """The only number in a text, at its start; None where there are more, or a fraction sign."""
    match = _OWN.fullmatch(text.strip())
    if match is None or any(sign.isnumeric() for sign in match[2]):
        return None
    number = f"0{match[1]}" if match[1].startswith(".") else match[1]
    return Own(number, " ".join(match[2].split()).lower().rstrip("."))


def respelled(text: str, units: Mapping[str, str]) -> str | None:
    """The text's own number with the unit its words mean; None where they mean none."""
    found = own(text)
    if found is None:
        return None
    if found.words in units:
        return f"{found.number} {found.words}"
    unit, times = _SPELLED.get(found.words, ("", 1))
    return f"{plain(Decimal(found.number) * times)} {unit}" if unit in units else None


_LONGEST_NUMBER: Final = 16
_LONGEST: Final = 200
"""Digits that can still be multiplied and rounded exactly, and letters to search for pairs, in quadratic time."""


def summed(text: str, units: Mapping[str, Decimal]) -> str | None:
    """Several numbers with a unit each, as one: in the last unit, and in the one that counts 1."""
    if len(text) > _LONGEST:
        return None
    pairs = _PAIR.findall(text.lower())
    if len(pairs) < 2 or not _BETWEEN_PAIRS.fullmatch(_PAIR.sub("", text.lower())):
        return None
    if any(len(number) > _LONGEST_NUMBER for number, _ in pairs):
        return None
    known = [(Decimal(number), *_SPELLED.get(word, (word, 1))) for number, word in pairs]
    if not all(unit in units for _, unit, _ in known):
        return None
    total = sum(number * times * units[unit] for number, unit, times in known)
    last = known[-1][1]
    ours = next(unit for unit, factor in units.items() if factor == 1)
    offers = [f"{plain(round(total / units[last], 3))} {last}", f"{plain(round(Decimal(total), 1))} {ours}"]
    return offers[0] if last == ours else ", or ".join(offers)


def as_choice(words: Sequence[str]) -> str:
    """Words as a choice, empty where there are none.

    >>> as_choice(("g", "oz", "kg"))
    'g, oz or kg'
    """
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def plain(number: Decimal) -> str:
    """A decimal without an exponent and without zeros at its end."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
