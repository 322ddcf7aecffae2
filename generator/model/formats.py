"""Formats: what all candles of one size share, and how full their vessel is."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Final

from pydantic import BeforeValidator

from generator.model.entry import (
    COSTS,
    FOR_BUYERS,
    FOR_EVERYBODY,
    FOR_YOU,
    NAME,
    NOTES,
    NOTES_KEY,
    WEIGHT,
    About,
    Entry,
    Key,
)
from generator.model.kinds import Kind
from generator.model.money import Price
from generator.model.quantities import Celsius, Grams, Labour, Ml, Mm
from generator.model.tariff import TariffCode
from generator.model.words import Count, FreeText, Id, Reference, Text, YesNo

_SETTLES: Final = "hot wax shrinks as it sets, so the same line would mean less wax"
_TRADE: Final = "trade sheets and order forms print it"
_PARCEL: Final = "the weight of the parcel is calculated from it"
_CASES: Final = "trade sheets and order forms give the size and weight of a case"
_CUSTOMS: Final = "customs papers and price lists print it"
_FOOD: Final = "what a child could mistake for food may not be sold"
_IN_VESSELS: Final = "... (the name of a file in vessels/, without .yaml)"
_IN_WICKS: Final = "... (the name of a file in wicks/, without .yaml), or {that name: how many}"


class Level(Enum):
    """What a fill line marks: the cold finished surface, or the hot wax poured once."""

    SET = "set"
    POURED = "poured"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill(Entry):
    """How full: exactly one of ``to``, ``below_rim``, ``weight``, ``volume``.

    ``level`` belongs to all but ``weight``; ``at_c`` is the pour temperature of a poured line.
    """

    to_mm: Annotated[
        Mm | None, About(WEIGHT), Key("How high the wax stands above the base.", "65 mm", FOR_EVERYBODY)
    ] = None
    below_rim_mm: Annotated[
        Mm | None, About(WEIGHT), Key("How far the wax stays below the rim.", "12 mm", FOR_EVERYBODY)
    ] = None
    weight_g: Annotated[
        Grams | None, About(WEIGHT), Key("How much wax is poured, by weight.", "240 g", FOR_EVERYBODY)
    ] = None
    volume_ml: Annotated[
        Ml | None, About(WEIGHT), Key("How much wax is poured, by volume.", "260 ml", FOR_EVERYBODY)
    ] = None
    level: Annotated[
        Level | None,
        About(_SETTLES),
        Key("Whether the line is that of the set wax or of the hot wax as poured.", "set", FOR_EVERYBODY),
    ] = None
    at_c: Annotated[
        Celsius | None,
        About(_SETTLES),
        Key("How hot the wax is when it is poured to that line.", "75 C", FOR_YOU),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade(Entry):
    """What a shop pays for one, how many come in a case, how many it must take."""

    price: Annotated[
        Price | None, About(_TRADE), Key("What a shop pays for one, without tax.", "12.00", FOR_BUYERS)
    ] = None
    case: Annotated[Count | None, About(_TRADE), Key("How many come in a case.", "6", FOR_BUYERS)] = None
    minimum: Annotated[Count | None, About(_TRADE), Key("The fewest a shop can order.", "6", FOR_BUYERS)] = (
        None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cased(Entry):
    """The outer case: its size and its own weight."""

    size: Annotated[
        tuple[Mm, Mm, Mm],
        About(_CASES, "[... mm, ... mm, ... mm]"),
        Key("The length, width and height of the outer case.", "[300 mm, 200 mm, 120 mm]", FOR_BUYERS),
    ]
    weight_g: Annotated[Grams, About(_CASES), Key("The weight of the empty case.", "350 g", FOR_YOU)]


def _wicks(written: object) -> object:
    """One wick may be written by its id alone."""
    return {written: "1"} if isinstance(written, str) else written


Wicks = Annotated[
    dict[Reference, Count],
    BeforeValidator(_wicks, json_schema_input_type=Reference | dict[Reference, Count]),
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared(Entry):
    """The keys that a format gives to all its sizes and that a size may override."""

    kind: Annotated[
        Kind | None,
        About("a candle and a melt have different papers"),
        Key("What sort of candle it is.", "container", FOR_EVERYBODY),
    ] = None
    vessel: Annotated[
        Reference | None,
        About(WEIGHT, _IN_VESSELS),
        Key("The vessel: the name of its file in vessels/, without .yaml.", "tumbler-30", FOR_EVERYBODY),
    ] = None
    wick: Annotated[
        Wicks | None,
        About("the burning advice is calculated from it", _IN_WICKS),
        Key(
            "The wick: the name of its file in wicks/; write {flat-braid-18: 3} for several.",
            "flat-braid-24",
            FOR_EVERYBODY,
        ),
    ] = None
    fill: Annotated[
        Fill | None,
        About(WEIGHT, "{to: ... mm, level: set or poured}"),
        Key(
            "How full the vessel is: one of to, below_rim, weight and volume.",
            "{to: 65 mm, level: set}",
            FOR_EVERYBODY,
        ),
    ] = None
    price: Annotated[
        Price | None, About("the catalogue shows it"), Key("The retail price.", "24.00", FOR_EVERYBODY)
    ] = None
    trade: Annotated[
        Trade | None,
        About(_TRADE, "{price: ..., case: ..., minimum: ...}"),
        Key(
            "What a shop pays, and how many it buys at a time.",
            "{price: 12.00, case: 6, minimum: 6}",
            FOR_BUYERS,
        ),
    ] = None
    packaging_g: Annotated[
        Grams | None,
        About(_PARCEL),
        Key("The weight of the box and padding of one candle.", "40 g", FOR_YOU),
    ] = None
    packaging_price: Annotated[
        Price | None, About(COSTS), Key("What the box and padding of one candle cost you.", "0.85", FOR_YOU)
    ] = None
    labour_h: Annotated[
        Labour | None, About(COSTS), Key("How long you work on one candle.", "7 min", FOR_YOU)
    ] = None
    cased: Annotated[
        Cased | None,
        About(_CASES),
        Key(
            "The outer case that shops are sent.",
            "{size: [300 mm, 200 mm, 120 mm], weight: 350 g}",
            FOR_BUYERS,
        ),
    ] = None
    hs: Annotated[
        TariffCode | None,
        About(_CUSTOMS),
        Key("Its customs code, where that of its kind is not the one.", "3307.49", FOR_BUYERS),
    ] = None
    looks_like_food: Annotated[
        YesNo | None,
        About(_FOOD),
        Key("Whether a child could mistake it for food.", "no", FOR_YOU),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Format(Shared):
    """What all candles of one size share."""

    id: Id
    name: Annotated[
        Text | None,
        About(NAME),
        Key("What this size is called in the catalogue.", "Clear tumbler", FOR_EVERYBODY),
    ] = None
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None
