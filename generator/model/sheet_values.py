"""Numbers as section 3 of a safety data sheet prints them: shares, limits, M-factors, doses; all exact."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Final

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.entry import FOR_YOU, About, Entry, Form, Key
from generator.model.hazard_classes import WHY_OF_CLASSES, HazardClass, hazard_class
from generator.model.quantities import NUMBER, as_text, wrong
from generator.model.suggestions import plain

_PPM: Final = 10_000
"""Parts per million in one percent."""

_SPAN: Final = rf"{NUMBER}(?: ?[-–] ?{NUMBER})?"
_NUMBERS: Final = re.compile(NUMBER)
_AT_LEAST: Final = r"(?:>=|≥|>)"
_AT_MOST: Final = r"(?:<=|≤|<)"
_SINGLE: Final = re.compile(rf"(>=|≥|>|<=|≤|<|=)?\s*({NUMBER})\s*%")
_RANGE: Final = re.compile(
    rf"{_AT_LEAST}?\s*({NUMBER})\s*%?\s*(?:-|–|—|to|,)\s*{_AT_MOST}?\s*({NUMBER})\s*%", re.IGNORECASE
)
_BETWEEN: Final = re.compile(
    rf"({NUMBER})\s*%?\s*{_AT_MOST}\s*(?:C|x)\s*{_AT_MOST}\s*({NUMBER})\s*%", re.IGNORECASE
)
_M_FACTORS: Final = "what is very toxic to aquatic life counts many times over"
_DOSES: Final = "the candle's acute toxicity is calculated from them"
_SHARE_WHY: Final = "the candle's label is calculated from its upper end"


@dataclass(frozen=True, slots=True)
class ShareRange:
    """A constituent's share of its oil, in percent, exactly as printed; a single figure has equal ends."""

    low_percent: Decimal
    high_percent: Decimal


@dataclass(frozen=True, slots=True)
class SpecificLimit:
    """A specific limit: the constituent makes a mixture ``hazard`` from ``from_percent`` on."""

    hazard: HazardClass
    from_percent: Decimal
    below_percent: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Dose:
    """A lethal dose or concentration; ``above`` where the sheet only states that it is greater."""

    value: Decimal
    above: bool = False


def share_range(written: object) -> ShareRange:
    """``5-10 %``, ``< 1 %``, ``2.5 %``, ``>= 5 - < 10 %``: a share or a range with an upper end."""
    text = " ".join(str(written).split())
    low, high = _interval(text, text, _share_meant(text), _SHARE_WHY)
    if high is None:
        raise wrong(f"is '{text}', without an upper end", _SHARE_WHY, f"{low}-... %")
    if high > 100:
        raise wrong(f"is '{text}'; {high} % is more than the whole oil", _SHARE_WHY)
    return ShareRange(Decimal(0) if low is None else low, high)


def specific_limit(written: object) -> SpecificLimit:
    """``Skin Sens. 1A: 0.01 %``, or a band such as ``Skin Irrit. 2: 1 - 3 %``."""
    text = " ".join(str(written).split())
    name, colon, band = text.rpartition(":")
    if not colon:
        raise wrong(f"is '{text}'; expected a class and its limit", WHY_OF_CLASSES)
    hazard = hazard_class(name)
    low, high = _interval(re.sub(r"^\s*(?:C|x)\b", "", band), text, f"{name}: ... %", WHY_OF_CLASSES)
    if low is None:
        raise wrong(
            f"is '{text}'; it gives an upper end, but no lower end", WHY_OF_CLASSES, f"{name}: ...-{high} %"
        )
    return SpecificLimit(hazard, low, None if high == low else high)


def _share_meant(text: str) -> str:
    """The maker's own share without the words around it, or her parts per million as a percentage; else empty."""
    match = re.fullmatch(
        rf"(up to|max\.?|about|approx\.?|ca\.?)? ?(<=?|≤)? ?({_SPAN}) ?(%|ppm)? ?(?:\(?(w/w|max\.?)\)?)?",
        text,
        re.IGNORECASE,
    )
    if match is None or match[4] is None:
        return ""
    ends = [
        plain(Decimal(end) / (_PPM if match[4].lower() == "ppm" else 1)) for end in _NUMBERS.findall(match[3])
    ]
    most = (
        match[2]
        or (match[1] or "").lower().startswith(("up", "max"))
        or (match[5] or "").lower().startswith("max")
    )
    return f"{'<= ' if most and len(ends) == 1 else ''}{'-'.join(ends)} %"


def _interval(band: str, text: str, offer: str, why: str) -> tuple[Decimal | None, Decimal | None]:
    """Lower and upper end in percent, None where there is none; ``text`` is the whole text as written."""
    bare = band.strip()
    if re.search(r"[0-9],[0-9]", bare):
        raise wrong(f"is '{text}', written with a comma", why, re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text))
    if re.search(r"[0-9]$", bare):
        raise wrong(f"is '{text}', without a unit", why, f"{text} %")
    match = _RANGE.fullmatch(bare) or _BETWEEN.fullmatch(bare)
    if match is not None:
        return _in_order(Decimal(match[1]), Decimal(match[2]), text, why)
    single = _SINGLE.fullmatch(bare)
    if single is None:
        raise wrong(f"is '{text}'; expected a percentage", why, offer)
    value = Decimal(single[2])
    if single[1] in (">=", "≥", ">"):
        return value, None
    return (None if single[1] in ("<=", "≤", "<") else value), value


def _in_order(low: Decimal, high: Decimal, text: str, why: str) -> tuple[Decimal, Decimal]:
    if low > high:
        raise wrong(f"is '{text}'; {low} % is more than {high} %", why, f"{high}-{low} %")
    return low, high


def exact_percent(written: object) -> Decimal:
    """A plain percentage, kept exact: ``2 %``."""
    text = str(written).strip()
    match = re.fullmatch(rf"({NUMBER})\s*%", text)
    if re.fullmatch(NUMBER, text):
        raise wrong(f"is '{text}', without a unit", "0.2 and 20 % are easily confused", f"{text} %")
    if match is None:
        raise wrong(f"is '{text}'; expected a percentage", "0.2 and 20 % are easily confused")
    if Decimal(match[1]) > 100:
        raise wrong(f"is '{text}', which is more than the whole", _SHARE_WHY)
    return Decimal(match[1])


def m_factor(written: object) -> int:
    """A multiplying factor: 1, 10, 100 ... (MEMORY, CLP Annex I Table 4.1.3: steps of ten)."""
    text = str(written).strip()
    match = re.fullmatch(r"(?:M\s*=\s*)?(10{0,6})", text, re.IGNORECASE)
    if match is None:
        raise wrong(f"is '{text}'; expected an M-factor of 1, 10, 100 ...", WHY_OF_CLASSES)
    return int(match[1])


class _DoseIn:
    """Reads a dose in one unit, or one that is a plain multiple of it."""

    def __init__(self, example: str, units: Mapping[str, str]) -> None:
        self.example = example
        self.units = units

    def __call__(self, written: object) -> Dose:
        text = " ".join(str(written).split())
        match = re.fullmatch(rf"(>=|≥|>)?\s*({NUMBER})(?:\s*[-–]\s*{NUMBER})?\s*(\S.*)?", text)
        if match is None:
            raise wrong(f"is '{text}'; expected a dose", WHY_OF_CLASSES, self._meant(text))
        if match[3] is None:
            either = ", or ".join(
                f"{match[2]} {unit}" for unit in dict.fromkeys(u.rstrip("VL") for u in self.units)
            )
            raise wrong(f"is '{text}', without a unit", WHY_OF_CLASSES, either)
        factor = self.units.get(match[3].removesuffix(" bw"))
        if factor is None:
            raise wrong(
                f"is '{text}'; '{match[3]}' is not a unit of this dose", WHY_OF_CLASSES, self._meant(text)
            )
        return Dose(Decimal(match[2]) * Decimal(factor), match[1] is not None)

    def _meant(self, text: str) -> str:
        """The maker's own dose without the words around it."""
        units = "|".join(self.units)
        match = re.fullmatch(rf"[^0-9<>=≥]*((?:>=|≥|>)?\s*{NUMBER}\s*(?:{units}))\b[^0-9]*", text)
        return match[1] if match else ""

    def annotation(self) -> tuple[BeforeValidator, WithJsonSchema, Form]:
        """What pydantic needs to read and to describe it."""
        pattern = rf"^(>=?|≥)?\s*[0-9.]+(\s*[-–]\s*[0-9.]+)?\s*({'|'.join(self.units)})( bw)?$"
        return as_text(self, pattern, self.example, f"... {next(iter(self.units))}")


_BODY: Final = _DoseIn("500 mg/kg", {"mg/kg": "1", "g/kg": "1000"})
_GAS: Final = _DoseIn("4500 ppm", {"ppm": "1", "ppmV": "1"})
_AIR: Final = _DoseIn("3 mg/l", {"mg/l": "1", "mg/L": "1", "mg/m3": "0.001"})

ShareRangeOf = Annotated[
    ShareRange, *as_text(share_range, r"^[<≤>≥=]*\s*[0-9.]+.*%$", "5-10 %, or < 1 %", "...-... %")
]
SpecificLimitOf = Annotated[
    SpecificLimit, *as_text(specific_limit, r"^.+:.*[0-9.]+\s*%$", "Skin Sens. 1A: 0.01 %", "...: ... %")
]
ExactPercent = Annotated[Decimal, *as_text(exact_percent, r"^[0-9.]+\s*%$", "2 %", "... %")]
_M_FACTOR: Final = {
    "anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": "^(M *= *)?10*$"}]
}
MFactor = Annotated[int, BeforeValidator(m_factor), WithJsonSchema(_M_FACTOR), Form("...")]
MgPerKg = Annotated[Dose, *_BODY.annotation()]
Ppm = Annotated[Dose, *_GAS.annotation()]
MgPerL = Annotated[Dose, *_AIR.annotation()]


@dataclass(frozen=True, slots=True, kw_only=True)
class MFactors(Entry):
    """Multiplying factors of a substance very toxic to water life; absent where the sheet gives none."""

    acute: Annotated[
        MFactor | None, About(_M_FACTORS), Key("The M-factor for acute hazards to water life.", "1", FOR_YOU)
    ] = None
    chronic: Annotated[
        MFactor | None,
        About(_M_FACTORS),
        Key("The M-factor for lasting hazards to water life.", "10", FOR_YOU),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ate(Entry):
    """Acute toxicity estimates by the way in; of a range the lower end. Absent where the sheet gives none."""

    oral_mg_per_kg: Annotated[
        MgPerKg | None, About(_DOSES), Key("The estimate when swallowed.", "500 mg/kg", FOR_YOU)
    ] = None
    dermal_mg_per_kg: Annotated[
        MgPerKg | None, About(_DOSES), Key("The estimate in contact with skin.", "1100 mg/kg", FOR_YOU)
    ] = None
    gas_ppm: Annotated[
        Ppm | None, About(_DOSES), Key("The estimate when breathed in as a gas.", "4500 ppm", FOR_YOU)
    ] = None
    vapour_mg_per_l: Annotated[
        MgPerL | None, About(_DOSES), Key("The estimate when breathed in as a vapour.", "11 mg/l", FOR_YOU)
    ] = None
    dust_mg_per_l: Annotated[
        MgPerL | None,
        About(_DOSES),
        Key("The estimate when breathed in as dust or mist.", "1.5 mg/l", FOR_YOU),
    ] = None
