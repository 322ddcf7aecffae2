"""Candles as recorded: one scent, its formula, and the sizes it is sold in."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, Tag, WithJsonSchema

from generator.model.amounts import AmountOf
from generator.model.dates import Day
from generator.model.entry import BY_FORM, ENTRY
from generator.model.identifiers import Ufi
from generator.model.maker import Contact
from generator.model.money import Price
from generator.model.quantities import HOURS, BareHours, Celsius, Grams, Hours, Measure, Ml, Mm, Number
from generator.model.words import Count, FileName, FreeText, Id, Reference, Shade, StockCode, Text


class Kind(Enum):
    """What sort of candle it is; the last four have names but no rules yet."""

    CONTAINER = "container"
    MELT = "melt"
    TEALIGHT = "tealight"
    VOTIVE = "votive"
    PILLAR = "pillar"
    TAPER = "taper"
    SET = "set"


class Level(Enum):
    """What a fill line marks: the cold finished surface, or the hot wax poured once."""

    SET = "set"
    POURED = "poured"


class Status(Enum):
    """Where a candle is in its life; only the first four stand on the shelves."""

    CURRENT = "current"
    COMING = "coming"
    MADE_TO_ORDER = "made to order"
    LAST_FEW = "last few"
    DISCONTINUED = "discontinued"
    TRIAL = "trial"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """How full: exactly one of ``to``, ``below_rim``, ``weight``, ``volume``.

    ``level`` belongs to all but ``weight``; ``at_c`` is the pour temperature of a poured line.
    """

    __pydantic_config__ = ENTRY

    to_mm: Mm | None = None
    below_rim_mm: Mm | None = None
    weight_g: Grams | None = None
    volume_ml: Ml | None = None
    level: Level | None = None
    at_c: Celsius | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade:
    """What a shop pays for one, how many come in a case, how many it must take."""

    __pydantic_config__ = ENTRY

    price: Price | None = None
    case: Count | None = None
    minimum: Count | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cased:
    """The outer case: its size and its own weight."""

    __pydantic_config__ = ENTRY

    size: tuple[Mm, Mm, Mm]
    weight_g: Grams


def _wicks(written: object) -> object:
    """One wick may be written by its id alone."""
    return {written: "1"} if isinstance(written, str) else written


Wicks = Annotated[
    dict[Reference, Count],
    BeforeValidator(_wicks, json_schema_input_type=Reference | dict[Reference, Count]),
]


LABOUR: Final = Measure(
    "a time", HOURS, {"min": (1, 10**12), "h": (0, 1)}, "7 min", "minutes and hours differ 60-fold"
)
Labour = Annotated[float, BeforeValidator(LABOUR.number), WithJsonSchema(dict(LABOUR.schema()))]
"""The work on one candle; no clock's 7:30, which could be minutes as well as hours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """The keys that a format gives to all its sizes and that a size may override."""

    __pydantic_config__ = ENTRY

    kind: Kind | None = None
    vessel: Reference | None = None
    wick: Wicks | None = None
    fill: Fill | None = None
    price: Price | None = None
    trade: Trade | None = None
    packaging_g: Grams | None = None
    packaging_price: Price | None = None
    labour_h: Labour | None = None
    cased: Cased | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Format(Shared):
    """What all candles of one size share."""

    __pydantic_config__ = ENTRY

    id: Id
    name: Text | None = None
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """A finished candle on the scale: empty (vessel with its wick) and full."""

    __pydantic_config__ = ENTRY

    empty_g: Grams
    full_g: Grams


@dataclass(frozen=True, slots=True, kw_only=True)
class Like:
    """Burn tests borrowed from another stock code."""

    __pydantic_config__ = ENTRY

    like: StockCode


@dataclass(frozen=True, slots=True, kw_only=True)
class DeclaredPair:
    """A declared net quantity in grams and ounces, as printed by the maker."""

    __pydantic_config__ = ENTRY

    g: Number
    oz: Number | None = None


Weighed = Annotated[Annotated[Weighing, Tag("mapping")] | Annotated[Grams, Tag("text")], BY_FORM]
Declared = Annotated[Annotated[DeclaredPair, Tag("mapping")] | Annotated[Grams, Tag("text")], BY_FORM]
BurnTime = Annotated[
    Annotated[Like, Tag("mapping")] | Annotated[tuple[Text, ...], Tag("list")] | Annotated[Text, Tag("text")],
    BY_FORM,
]


OwnLabelWord = Literal["brand", "responsible"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size(Shared):
    """One stock code: a scent in one format.

    One that is ``made_for`` a buyer bears that shop's ``brand`` and who is ``responsible`` in the maker's place;
    ``public`` names which of the two its unlisted safety page may show.
    """

    __pydantic_config__ = ENTRY

    stock_code: StockCode
    format: Reference | None = None
    declared: Declared | None = None
    weighed: tuple[Weighed, ...] = ()
    burn_time: BurnTime | None = None
    claim_hours: BareHours | None = None
    longest_session_h: Hours | None = None
    ufi: Ufi | None = None
    barcode: Text | None = None
    photos: tuple[FileName, ...] = ()
    ingredients: dict[Reference, AmountOf] | None = None
    status: Status | None = None
    made_for: Reference | None = None
    brand: Text | None = None
    responsible: Contact | None = None
    public: tuple[OwnLabelWord, ...] = ()
    notes: FreeText | None = None

    @property
    def own_label(self) -> "OwnLabel | None":
        """The own label as a whole; that a part of it is missing is told elsewhere."""
        if self.made_for is None or self.brand is None or self.responsible is None:
            return None
        return OwnLabel(
            buyer=self.made_for, brand=self.brand, responsible=self.responsible, public=self.public
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLabel:
    """Whose candle it is in the maker's place; ``public`` names what of it anybody may be shown."""

    buyer: str
    brand: str
    responsible: Contact
    public: tuple[OwnLabelWord, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScentNotes:
    """What the nose meets first, then, last."""

    __pydantic_config__ = ENTRY

    top: tuple[FreeText, ...] = ()
    heart: tuple[FreeText, ...] = ()
    base: tuple[FreeText, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour:
    """The wax's colour by name and as drawn."""

    __pydantic_config__ = ENTRY

    name: Text
    shade: Shade


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold:
    """The days between which a candle stands on the shelves."""

    __pydantic_config__ = ENTRY

    from_: Annotated[Day | None, Field(alias="from")] = None
    until: Day | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Make:
    """How the batch is poured."""

    __pydantic_config__ = ENTRY

    heat_to_c: Celsius | None = None
    fragrance_at_c: Celsius | None = None
    pour_at_c: Celsius | None = None
    cure_h: Hours | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candle:
    """One scent: what it is, what is in it, its sizes. Its ufi holds for sizes without own ingredients."""

    __pydantic_config__ = ENTRY

    id: Id
    scent: Text
    collection: Reference
    season: FreeText | None = None
    status: Status = Status.CURRENT
    sold: Sold | None = None
    added: Day | None = None
    scent_notes: ScentNotes | None = None
    colour: Colour | None = None
    description: FreeText | None = None
    ingredients: dict[Reference, AmountOf]
    make: Make | None = None
    ufi: Ufi | None = None
    sizes: tuple[Size, ...]
    notes: FreeText | None = None


Outcome = Literal["ok", "stopped_at_heel", "self_extinguished_at_heel", "drowned", "fault"]
