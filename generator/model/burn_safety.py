"""What a burn-safety sheet says: one tree of values, from the rules that work them out to the paper that prints them.

It holds no sentences, only the keys of the chosen ones, so that one value can be printed in
any language. ``sheet_as_json`` is the JSON that is sealed, all of it text, without what is absent or
empty; ``sheet_from`` reads it back. A part that no older sheet lacks has no default.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import floor
from typing import Annotated, Any, Final, Literal

from pydantic import BeforeValidator, ConfigDict, PlainSerializer, TypeAdapter

from generator.model.canonical import Plain, canonical
from generator.model.entry import entry_key
from generator.model.kinds import Kind
from generator.model.markets import Market

HoursBasis = Literal["tested", "provisional", "thin test", "untested"]
WeightBasis = Literal["weighed", "poured to weight", "water", "geometry"]
DeclaredStatus = Literal["proven", "estimated", "refuted"]
HazardStatus = Literal["classified", "none", "unknown", "refused"]
"""``none``: known, and no class reached. ``unknown``: a sheet is missing, incomplete or too old. ``refused``: not to
be sold as it is, or only after asking an expert."""

SignalWord = Literal["Danger", "Warning"]
Pictogram = Literal["GHS02", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09"]
Toxicity = Literal["acute", "aquatic"]


def _without(unit: str) -> BeforeValidator:
    return BeforeValidator(lambda value: value.removesuffix(f" {unit}") if isinstance(value, str) else value)


_Count = Annotated[int, PlainSerializer(str)]
_Yes = Annotated[
    bool,
    BeforeValidator(lambda value: value in (True, "yes")),
    PlainSerializer(lambda value: "yes" if value else ""),
]
_Hours = Annotated[float, _without("h"), PlainSerializer(lambda value: f"{value:g} h")]
_WholeMm = Annotated[int, _without("mm"), PlainSerializer(lambda value: f"{value} mm")]
_DrawnMm = Annotated[float, PlainSerializer(lambda value: f"{value:g}")]
_DrawnPoint = Annotated[
    tuple[float, float],
    BeforeValidator(lambda value: value.split() if isinstance(value, str) else value),
    PlainSerializer(lambda value: " ".join(f"{each:g}" for each in value)),
]
_WITHOUT_UNITS: Final = ConfigDict(alias_generator=entry_key)


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnHours:
    """Burn hours with their basis; ``mean`` and ``high`` are absent without a test that supports them."""

    claim: _Count | None
    low: float | None = None
    mean: float | None = None
    high: float | None = None
    basis: HoursBasis

    @property
    def whole_h(self) -> int | None:
        """The hours that papers print: those claimed, else the low end of the range."""
        known = self.low if self.claim is None else self.claim
        return None if known is None else floor(known)


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnAdvice:
    """One market's burning advice: lengths in the units and words of that market, hours to the half hour."""

    __pydantic_config__ = _WITHOUT_UNITS

    trim: str
    longest_session_h: _Hours
    stop_at: str | None = None
    apart: str
    clear_of: str | None = None
    first_burn_h: _Hours
    cool_down_h: _Hours


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardLabel:
    """The hazard part of one market's label; labels with the same content are equal, under whichever law.

    ``sensitisers`` are the named substances that EUH208 lists, ``unknown`` the toxicity not known
    for part of the mixture. ``near`` is whether a limit counts as met that only a step of the scale could reach.
    """

    status: HazardStatus
    law: str = field(compare=False, default="")
    near: _Yes = field(compare=False, default=False)
    pictograms: tuple[Pictogram, ...] = ()
    signal_word: SignalWord | None = None
    h: tuple[str, ...] = ()
    euh: tuple[str, ...] = ()
    p: tuple[str, ...] = ()
    named_substances: tuple[str, ...] = ()
    sensitisers: tuple[str, ...] = ()
    unknown: tuple[Toxicity, ...] = ()

    @property
    def codes(self) -> tuple[str, ...]:
        """Every statement in printing order."""
        return (*self.h, *self.euh, *self.p)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetVessel:
    """The vessel by its name and what it is made of."""

    name: str
    material: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWicks:
    """The wicks by name, and their total number."""

    name: str
    count: _Count


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetDrawing:
    """The measurements of the drawn section, to the tenth; ``inside`` is (radius, height) from base to rim."""

    __pydantic_config__ = _WITHOUT_UNITS

    shape: str
    inside_mm: tuple[_DrawnPoint, ...]
    wall_mm: _DrawnMm | None = None
    wax_mm: _DrawnMm | None = None
    stop_mm: _DrawnMm | None = None
    wick_mm: _DrawnMm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cautions:
    """The keys of the sentences and signs chosen for such a candle."""

    core: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()
    emergencies: tuple[str, ...] = ()
    first_aid: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Answerable:
    """Who answers for the candle, as far as the sheet may show it."""

    name: str | None = None
    address: tuple[str, ...] = ()
    email: str | None = None
    phone: str | None = None
    web: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Everything printed on one sheet. ``stop_mm`` is the wax left when burning stops, rounded up to the millimetre."""

    __pydantic_config__ = _WITHOUT_UNITS

    language: str
    stock_code: str
    scent: str
    size: str
    kind: Kind
    markets: tuple[Market, ...]
    net_quantity: Mapping[Market, str]
    net_quantity_basis: WeightBasis | Literal["proven"]
    vessel: SheetVessel | None = None
    wick: SheetWicks | None = None
    burn_hours: BurnHours | None = None
    stop_mm: _WholeMm | None = None
    advice: Mapping[Market, BurnAdvice] = field(default_factory=dict)
    snuffing_lid: str | None = None
    drawing: SheetDrawing | None = None
    warnings: Cautions
    hazards: Mapping[Market, HazardLabel] = field(default_factory=dict)
    ufi: str | None = None
    brand: str | None = None
    responsible: Answerable | None = None
    maker: Answerable = Answerable()
    contacts: Mapping[Market, Answerable] = field(default_factory=dict)

    @property
    def home_advice(self) -> BurnAdvice | None:
        """The advice of the market whose units come first; none where nothing burns."""
        return self.advice.get(self.markets[0])

    @property
    def labels(self) -> Mapping[Market, HazardLabel]:
        """The hazard labels in the order in which the sheet names its markets."""
        return {market: self.hazards[market] for market in self.markets if market in self.hazards}

    @property
    def answers(self) -> Answerable:
        """Who answers for the candle: who does so in the maker's place, else the maker."""
        return self.responsible or self.maker

    @property
    def speaker(self) -> str:
        """Whose candle it is: the brand of an own label, else who answers for it."""
        return self.brand or self.answers.name or ""


_SHEET: Final = TypeAdapter(Sheet)
_ADVICE: Final = TypeAdapter(BurnAdvice)


def sheet_as_json(sheet: Sheet) -> str:
    """The canonical JSON of a sheet's value; equal values give the same text."""
    return canonical(_stated(_SHEET.dump_python(sheet, mode="json", by_alias=True, exclude_none=True)))


def sheet_from(said: str) -> Sheet:
    """The value of a canonical text; what this program does not know is ignored, and stays in the text."""
    return _SHEET.validate_json(said)


def advice_written(advice: BurnAdvice) -> dict[str, str | None]:
    """One market's advice as a sheet writes it, with what is absent as None."""
    told: dict[str, str | None] = _ADVICE.dump_python(advice, mode="json", by_alias=True)
    return told


def _stated(told: dict[str, Any]) -> dict[str, Plain]:
    """The value without what is empty; the serializers leave only text, lists of text and mappings."""
    stated: dict[str, Plain] = {}
    for key, each in told.items():
        said = _stated(each) if isinstance(each, dict) else each
        if said:
            stated[key] = said
    return stated
