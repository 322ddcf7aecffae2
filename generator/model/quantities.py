"""Quantities as a maker writes them: text with a unit in, one number in the program's unit out.

Inside the program: mm, ml, g, degC, h, g/ml, MJ/kg. This is the only module that converts.
Unit factors are the exact definitions (1 in = 25.4 mm, 1 lb = 453.59237 g, 1 US gal = 231 in3,
1 imp gal = 4.54609 l); the tests compare each of them with ``pint``.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator.model.entry import WEIGHT, Form
from generator.model.suggestions import as_choice, own, plain, respelled, summed

MM: Final = {"mm": "1", "cm": "10", "m": "1000", "in": "25.4", "inch": "25.4", "inches": "25.4"}
GRAMS: Final = {"g": "1", "oz": "28.349523125", "kg": "1000", "lb": "453.59237", "mg": "0.001"}
ML: Final = {
    "ml": "1",
    "US fl oz": "29.5735295625",
    "imp fl oz": "28.4130625",
    "cl": "10",
    "l": "1000",
}
HOURS: Final = {"h": "1", "min": "1/60", "days": "24", "day": "24"}
G_PER_ML: Final = {"g/ml": "1", "kg/l": "1", "g/cm3": "1", "kg/m3": "0.001"}
MJ_PER_KG: Final = {"MJ/kg": "1", "kJ/g": "1", "kJ/kg": "0.001"}
GRAMS_PER_OUNCE: Final = 28.349523125
MM_PER_INCH: Final = 25.4

NUMBER: Final = r"[0-9]{1,12}(?:\.[0-9]{1,9})?"
WITH_UNIT: Final = re.compile(rf"({NUMBER})\s*((?:[^0-9.,].*)?)", re.DOTALL)


def wrong(what: str, why: str, fix: str = "") -> PydanticCustomError:
    """The fault of one written value; the reader of files puts the key before ``what`` and ``fix``.

    ``fix`` has the maker's own figures; it is empty where she wrote none, and the field's form is then shown.
    """
    return PydanticCustomError("entry", "{what}", {"what": what, "why": why, "fix": fix})


def of_unknown_unit(text: str, unit: str, quantity: str, why: str, fix: str) -> PydanticCustomError:
    """The fault of a number with a unit that is none of its quantity's, or with more numbers behind it."""
    several = any(sign.isnumeric() for sign in unit)
    what = "expected one number with one unit" if several else f"'{unit}' is not a unit of {quantity}"
    return wrong(f"is '{text}'; {what}", why, fix)


@dataclass(frozen=True, slots=True)
class Measure:
    """One kind of quantity: its name, units and their factors, an example for editors, what a mistake would spoil.

    ``usual`` gives the range in which a unit is likely for a number written without one.
    """

    name: str
    units: Mapping[str, str]
    usual: Mapping[str, tuple[int, int]]
    example: str
    why: str

    def number(self, written: object) -> float:
        """The number in the program's unit."""
        return float(self.exact(written))

    def exact(self, written: object) -> Decimal:
        """The number in the program's unit, as an exact decimal."""
        text = str(written).strip()
        match = WITH_UNIT.fullmatch(text)
        if match is None:
            raise wrong(f"is '{text}'; expected {self.name}", self.why, self.offer(text))
        number, unit = match[1], match[2].strip()
        if not unit:
            raise wrong(f"is '{text}', without a unit", self.why, self.offer(text))
        if unit.lower() in BARE_FLUID_OUNCES and self.units is ML:
            raise wrong(
                f"is '{text}'; a fluid ounce has two sizes",
                "the imperial one is 4 % smaller than the US one, and the wax weight would be too",
                f"{number} US fl oz, or {number} imp fl oz",
            )
        factor = self.units.get(unit) or self.units.get(unit.lower())
        if factor is None:
            raise of_unknown_unit(text, unit, self.name, self.why, self.offer(text))
        return Decimal(number) * _factor(factor)

    def holds(self, text: str) -> bool:
        """Whether a text is such a quantity."""
        match = WITH_UNIT.fullmatch(text)
        return match is not None and (match[2] in self.units or match[2].lower() in self.units)

    def meant(self, text: str) -> str | None:
        """The maker's own number with the unit her words mean, or several added up."""
        return summed(text, {unit: _factor(each) for unit, each in self.units.items()}) or respelled(
            text, self.units
        )

    def offer(self, text: str) -> str:
        """What to write instead of a text that is not such a quantity; empty where it has no number."""
        meant, found = self.meant(text), own(text)
        if meant is not None:
            return meant
        if found is not None and not found.words:
            number = Decimal(found.number)
            likely = (unit for unit, (least, below) in self.usual.items() if least <= number < below)
            return " or ".join(f"{found.number} {unit}" for unit in likely)
        if not any(sign.isnumeric() for sign in text):
            return ""
        return f"{found.number if found else 'one number'} and one of {as_choice(tuple(self.units)[:5])}"


BARE_FLUID_OUNCES: Final = frozenset({"fl oz", "fl. oz", "fl. oz.", "floz", "fluid ounces", "fluid ounce"})


def as_written(number: float) -> Decimal:
    """The decimal a number was written as: the shortest one that reads back as the same float."""
    return Decimal(repr(number))


def _factor(text: str) -> Decimal:
    numerator, _, denominator = text.partition("/")
    return Decimal(numerator) / Decimal(denominator or "1")


_ANY: Final = 10**12
LENGTH: Final = Measure(
    "a length",
    MM,
    {"mm": (0, _ANY), "cm": (0, 30)},
    "62 mm",
    "mm, cm and inches give very different wax weights",
)
MASS: Final = Measure(
    "a weight",
    GRAMS,
    {"g": (0, _ANY), "oz": (0, 100)},
    "240 g",
    "grams and ounces differ 28-fold on every paper",
)
VOLUME: Final = Measure(
    "a volume",
    ML,
    {"ml": (0, _ANY), "US fl oz": (0, 40)},
    "390 ml",
    WEIGHT,
)
DURATION: Final = Measure(
    "a time", HOURS, {"h": (0, _ANY), "days": (0, 60)}, "14 days", "hours and days differ 24-fold"
)
LABOUR: Final = Measure(
    "a time", HOURS, {"min": (1, _ANY), "h": (0, 1)}, "7 min", "minutes and hours differ 60-fold"
)
DENSITY: Final = Measure(
    "a density",
    G_PER_ML,
    {"g/ml": (0, 10), "kg/m3": (10, _ANY)},
    "0.90 g/ml",
    WEIGHT,
)
ENERGY: Final = Measure(
    "a heating value",
    MJ_PER_KG,
    {"MJ/kg": (0, 1000), "kJ/kg": (1000, _ANY)},
    "37.5 MJ/kg",
    "the heat of the flames is calculated from it",
)

_HOTTEST_LIKELY_C: Final = 150
_COLDEST_LIKELY_F: Final = 60
_DEGREES: Final = {
    **dict.fromkeys(("", "deg", "degree", "degrees", "°"), ("C", "F")),
    **dict.fromkeys(("celsius", "centigrade", "deg c", "degrees c", "degrees celsius"), ("C",)),
    **dict.fromkeys(("fahrenheit", "deg f", "degrees f", "degrees fahrenheit"), ("F",)),
}
"""Other endings of a temperature, and the units they may mean."""


def celsius(written: object) -> float:
    """A temperature in degC from ``75 C``, ``75 °C``, ``167 F`` or ``167 °F``."""
    text = str(written).strip()
    match = re.fullmatch(rf"(-?{NUMBER})\s*°?\s*([CFcf]?)", text)
    why = "75 C is safe to pour, 75 F is not even molten, and 180 C burns"
    if match is None:
        raise wrong(f"is '{text}'; expected a temperature", why, _temperature_offer(text))
    if not match[2]:
        raise wrong(f"is '{text}', without a unit", why, _temperature_offer(text))
    number = Decimal(match[1])
    return float(number) if match[2] in "Cc" else float((number - 32) * 5 / 9)


def fahrenheit(temperature_c: float) -> float:
    """The same temperature in degF.

    >>> fahrenheit(75.0)
    167.0
    """
    return temperature_c * 9 / 5 + 32


def _temperature_offer(text: str) -> str:
    found = own(text.removeprefix("-"))
    if found is None or found.words not in _DEGREES:
        return ""
    number = f"-{found.number}" if text.startswith("-") else found.number
    units = _DEGREES[found.words]
    likely = {"C": Decimal(number) < _HOTTEST_LIKELY_C, "F": Decimal(number) >= _COLDEST_LIKELY_F}
    return ", or ".join(f"{number} {unit}" for unit in units if likely[unit] or len(units) == 1)


def percent_from_text(written: object) -> float:
    """A plain percentage such as ``20 %``."""
    return float(percentage(written))


def percentage(written: object) -> Decimal:
    """The same, exact as money needs it."""
    text = str(written).strip()
    match = re.fullmatch(rf"({NUMBER})\s*%", text)
    if match is None:
        why = "0.2 and 20 % are easily confused"
        raise wrong(f"is '{text}'; expected a percentage", why, _percent_offer(text))
    return Decimal(match[1])


_OF_HUNDRED: Final = re.compile(r"(?:(?:%|percent|per cent|pct)(?: ?(?:w/w|max\.?|off|vat))?)?")


def _percent_offer(text: str) -> str:
    found = own(text)
    if found is None or not _OF_HUNDRED.fullmatch(found.words):
        return ""
    number = Decimal(found.number)
    hundredfold = [f"{plain(number * 100)} %"] if not found.words and 0 < number < 1 else []
    return ", or ".join((*hundredfold, f"{found.number} %"))


@dataclass(frozen=True, slots=True)
class DensityAt:
    """A density and the temperature it was read at."""

    g_per_ml: float
    at_c: float


def density_at(written: object) -> DensityAt:
    """A molten density with its temperature: ``0.80 g/ml at 75 C``."""
    density, at, temperature = str(written).partition(" at ")
    if not at:
        raise wrong(
            f"is '{written}', without its temperature",
            "wax expands as it warms, so a density needs its temperature",
            f"{str(written).strip()} at ... C" if DENSITY.holds(str(written).strip()) else "",
        )
    return DensityAt(DENSITY.number(density), celsius(temperature))


@dataclass(frozen=True, slots=True)
class FlashPoint:
    """A flash point; ``above`` when the supplier's sheet says "greater than"."""

    celsius: float
    above: bool


def flash_point(written: object) -> FlashPoint:
    """``93 C``, or ``> 93 C`` as suppliers print it."""
    text = str(written).strip()
    return FlashPoint(celsius(text.lstrip(">≥ ").strip()), text.startswith((">", "≥")))


def duration_h(written: object) -> float:
    """Hours from ``4 h``, ``30 min``, ``14 days`` or a clock's ``3:45``."""
    text = str(written).strip()
    clock = re.fullmatch(r"([0-9]{1,3}):([0-5][0-9])", text)
    return int(clock[1]) + int(clock[2]) / 60 if clock else DURATION.number(written)


def bare_hours(written: object) -> float:
    """Hours where the key or column already says so: ``40``, ``3.5``, ``3:45`` or ``40 h``."""
    text = str(written).strip()
    return float(text) if re.fullmatch(NUMBER, text) else duration_h(written)


def number_from_text(written: object) -> float:
    """A plain number from a table whose column names the unit."""
    text = str(written).strip()
    if not re.fullmatch(NUMBER, text):
        raise wrong(
            f"is '{text}'; expected a number",
            "the figures are calculated from it",
            _number_alone(text),
        )
    return float(text)


def _number_alone(text: str) -> str:
    """The maker's own number, if it has no unit: with one it is another quantity, and nothing is offered."""
    found = own(text)
    return found.number if found is not None and not found.words else ""


def as_text(
    read: Callable[[object], object], pattern: str, example: str, form: str
) -> tuple[BeforeValidator, WithJsonSchema, Form]:
    """How a value is written as text: its reader, what an editor checks while typing, and a form with blanks."""
    schema = {"type": "string", "pattern": pattern, "description": example}
    return BeforeValidator(read), WithJsonSchema(schema), Form(form)


def quantity(kind: Measure) -> tuple[BeforeValidator, WithJsonSchema, Form]:
    """The same for a number with a unit; the form has the usual unit."""
    pattern = rf"^{NUMBER}\s*({'|'.join(map(re.escape, kind.units))})$"
    return as_text(kind.number, pattern, f"{kind.name}: {kind.example}", f"... {next(iter(kind.usual))}")


_BARE_NUMBER: Final = {"anyOf": [{"type": "number", "minimum": 0}, {"type": "string"}]}

Mm = Annotated[float, *quantity(LENGTH)]
Grams = Annotated[float, *quantity(MASS)]
Ml = Annotated[float, *quantity(VOLUME)]
GPerMl = Annotated[float, *quantity(DENSITY)]
MjPerKg = Annotated[float, *quantity(ENERGY)]
Labour = Annotated[float, *quantity(LABOUR)]
"""The work on one candle; no clock's 7:30, which could be minutes as well as hours."""

Celsius = Annotated[float, *as_text(celsius, r"^-?[0-9.]+\s*°?\s*[CFcf]$", "75 C, or 167 F", "... C")]
Hours = Annotated[
    float, *as_text(duration_h, r"^([0-9.]+\s*(h|min|days?)|[0-9]+:[0-5][0-9])$", "4 h", "... h")
]
BareHours = Annotated[float, BeforeValidator(bare_hours), WithJsonSchema(_BARE_NUMBER), Form("... (hours)")]
PlainNumber = Annotated[
    float, BeforeValidator(number_from_text), WithJsonSchema(_BARE_NUMBER), Form("... (a number)")
]
_PERCENT: Final = (r"^[0-9.]+\s*%$", "20 %", "... %")
Percent = Annotated[float, *as_text(percent_from_text, *_PERCENT)]
Percentage = Annotated[Decimal, *as_text(percentage, *_PERCENT)]
MoltenDensity = Annotated[
    DensityAt,
    *as_text(
        density_at, r"^[0-9.]+\s*\S+ at -?[0-9.]+\s*°?[CFcf]$", "0.80 g/ml at 75 C", "... g/ml at ... C"
    ),
]
Flash = Annotated[FlashPoint, *as_text(flash_point, r"^[>≥]?\s*-?[0-9.]+\s*°?[CFcf]$", "93 C", "... C")]
