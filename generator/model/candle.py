"""Candles as recorded: one scent, its formula, and the sizes it is sold in."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, Tag

from generator.model.amounts import AmountOf
from generator.model.dates import Day
from generator.model.entry import BY_FORM, COSTS, NAME, NOTES, WEIGHT, About, Entry
from generator.model.kinds import Kind
from generator.model.maker import Contact
from generator.model.money import Price
from generator.model.notified import Notified
from generator.model.quantities import BareHours, Celsius, Grams, Hours, Labour, Ml, Mm, PlainNumber
from generator.model.ufi import Ufi
from generator.model.words import Count, FileName, FreeText, Id, Reference, Shade, StockCode, Text

_SETTLES: Final = "hot wax shrinks as it sets, so the same line would mean less wax"
_TRADE: Final = "trade sheets and order forms print it"
_PARCEL: Final = "the weight of the parcel is worked out from it"
_CASES: Final = "trade sheets and order forms give the size and weight of a case"
_HOURS: Final = "the burn hours are worked out from it"
_NET: Final = "the label's net quantity is held against it"
_POUR: Final = "the pour sheet prints it"
_NOTES_OF_SCENT: Final = "the candle's page lists it"
_SHELVES: Final = "whether the candle is on the shelves depends on it"
_OWN_LABEL: Final = "an own-label candle bears the shop's name in the maker's place"
_CENTRES: Final = "a poison centre finds the recipe by it in an emergency"
_NOTIFIED: Final = "a recipe that moves too far from what was notified needs a new UFI"
_HOW_NOTIFIED: Final = "{by: ..., countries: [...], on: year-month-day, shares: {...: ... %}}"
_FORMULA: Final = "every figure is worked out from the formula"
_IN_VESSELS: Final = "... (the name of a file in vessels/, without .yaml)"
_IN_WICKS: Final = "... (the name of a file in wicks/, without .yaml), or {that name: how many}"
_TESTED: Final = "... (a table in burn-tests/), or {like: ...}"


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
class Fill(Entry):
    """How full: exactly one of ``to``, ``below_rim``, ``weight``, ``volume``.

    ``level`` belongs to all but ``weight``; ``at_c`` is the pour temperature of a poured line.
    """

    to_mm: Annotated[Mm | None, About(WEIGHT)] = None
    below_rim_mm: Annotated[Mm | None, About(WEIGHT)] = None
    weight_g: Annotated[Grams | None, About(WEIGHT)] = None
    volume_ml: Annotated[Ml | None, About(WEIGHT)] = None
    level: Annotated[Level | None, About(_SETTLES)] = None
    at_c: Annotated[Celsius | None, About(_SETTLES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade(Entry):
    """What a shop pays for one, how many come in a case, how many it must take."""

    price: Annotated[Price | None, About(_TRADE)] = None
    case: Annotated[Count | None, About(_TRADE)] = None
    minimum: Annotated[Count | None, About(_TRADE)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cased(Entry):
    """The outer case: its size and its own weight."""

    size: Annotated[tuple[Mm, Mm, Mm], About(_CASES, "[... mm, ... mm, ... mm]")]
    weight_g: Annotated[Grams, About(_CASES)]


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

    kind: Annotated[Kind | None, About("a candle and a melt have other papers")] = None
    vessel: Annotated[Reference | None, About(WEIGHT, _IN_VESSELS)] = None
    wick: Annotated[Wicks | None, About("the burning advice is worked out from it", _IN_WICKS)] = None
    fill: Annotated[Fill | None, About(WEIGHT, "{to: ... mm, level: set or poured}")] = None
    price: Annotated[Price | None, About("the catalogue shows it")] = None
    trade: Annotated[Trade | None, About(_TRADE, "{price: ..., case: ..., minimum: ...}")] = None
    packaging_g: Annotated[Grams | None, About(_PARCEL)] = None
    packaging_price: Annotated[Price | None, About(COSTS)] = None
    labour_h: Annotated[Labour | None, About(COSTS)] = None
    cased: Annotated[Cased | None, About(_CASES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Format(Shared):
    """What all candles of one size share."""

    id: Id
    name: Annotated[Text | None, About(NAME)] = None
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing(Entry):
    """A finished candle on the scale: empty (vessel with its wick) and full."""

    empty_g: Annotated[Grams, About(WEIGHT)]
    full_g: Annotated[Grams, About(WEIGHT)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Like(Entry):
    """Burn tests borrowed from another stock code."""

    like: Annotated[StockCode, About(_HOURS, "... (another stock code)")]


@dataclass(frozen=True, slots=True, kw_only=True)
class DeclaredPair(Entry):
    """A declared net quantity in grams and ounces, as printed by the maker."""

    g: Annotated[PlainNumber, About(_NET)]
    oz: Annotated[PlainNumber | None, About(_NET)] = None


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

    stock_code: Annotated[
        StockCode, About("every page, sheet and label is found by it", "... (letters, digits and dashes)")
    ]
    format: Annotated[
        Reference | None,
        About(
            "kind, vessel, wick and fill come from it", "... (the name of a file in formats/, without .yaml)"
        ),
    ] = None
    declared: Annotated[Declared | None, About(_NET, "... g, or {g: ..., oz: ...}")] = None
    weighed: Annotated[tuple[Weighed, ...], About(WEIGHT, "[{empty: ... g, full: ... g}], or [... g]")] = ()
    burn_time: Annotated[BurnTime | None, About(_HOURS, _TESTED)] = None
    claim_hours: Annotated[BareHours | None, About("a claim is held against the tests")] = None
    longest_session_h: Annotated[Hours | None, About("the burning advice says it")] = None
    ufi: Annotated[Ufi | None, About(_CENTRES)] = None
    notified: Annotated[Notified | None, About(_NOTIFIED, _HOW_NOTIFIED)] = None
    barcode: Annotated[
        Text | None, About("tills and trade sheets read it", "... (its 8, 12, 13 or 14 digits)")
    ] = None
    photos: Annotated[tuple[FileName, ...], About("the candle's page shows them", "[...]")] = ()
    ingredients: Annotated[dict[Reference, AmountOf] | None, About(_FORMULA, "{...: ... g}")] = None
    status: Annotated[Status | None, About(_SHELVES)] = None
    made_for: Annotated[Reference | None, About(_OWN_LABEL, "... (a key of trade/buyers.yaml)")] = None
    brand: Annotated[Text | None, About(_OWN_LABEL)] = None
    responsible: Annotated[Contact | None, About(_OWN_LABEL)] = None
    public: Annotated[
        tuple[OwnLabelWord, ...],
        About("the safety page shows nothing of the shop that is not named here", "[brand or responsible]"),
    ] = ()
    notes: Annotated[FreeText | None, About(NOTES)] = None

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
class ScentNotes(Entry):
    """What the nose meets first, then, last."""

    top: Annotated[tuple[FreeText, ...], About(_NOTES_OF_SCENT, "[...]")] = ()
    heart: Annotated[tuple[FreeText, ...], About(_NOTES_OF_SCENT, "[...]")] = ()
    base: Annotated[tuple[FreeText, ...], About(_NOTES_OF_SCENT, "[...]")] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Entry):
    """The wax's colour by name and as drawn."""

    name: Annotated[Text, About("the candle's page names the colour")]
    shade: Annotated[Shade, About("the drawings are tinted with it")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold(Entry):
    """The days between which a candle stands on the shelves."""

    from_: Annotated[Day | None, Field(alias="from"), About(_SHELVES)] = None
    until: Annotated[Day | None, About(_SHELVES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Make(Entry):
    """How the batch is poured."""

    heat_to_c: Annotated[Celsius | None, About(_POUR)] = None
    fragrance_at_c: Annotated[Celsius | None, About(_POUR)] = None
    pour_at_c: Annotated[Celsius | None, About(_POUR)] = None
    cure_h: Annotated[Hours | None, About(_POUR)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candle(Entry):
    """One scent: what it is, what is in it, its sizes. Its ufi holds for sizes without own ingredients."""

    id: Id
    scent: Annotated[Text, About("the candle would have no name")]
    collection: Annotated[
        Reference, About("the catalogue would not know its shelf", "... (a key of collections.yaml)")
    ]
    season: Annotated[FreeText | None, About("the candle's page names it")] = None
    status: Annotated[Status, About(_SHELVES)] = Status.CURRENT
    sold: Annotated[Sold | None, About(_SHELVES, "{from: year-month-day, until: year-month-day}")] = None
    added: Annotated[Day | None, About("which law holds for the candle depends on it")] = None
    scent_notes: Annotated[
        ScentNotes | None, About(_NOTES_OF_SCENT, "{top: [...], heart: [...], base: [...]}")
    ] = None
    colour: Annotated[
        Colour | None, About("the candle's page names the colour, and the drawings are tinted with it")
    ] = None
    description: Annotated[FreeText | None, About("the candle's page says it")] = None
    ingredients: Annotated[dict[Reference, AmountOf], About(_FORMULA, "{...: ... g}")]
    make: Annotated[
        Make | None, About(_POUR, "{heat_to: ... C, fragrance_at: ... C, pour_at: ... C, cure: ... days}")
    ] = None
    ufi: Annotated[Ufi | None, About(_CENTRES)] = None
    notified: Annotated[Notified | None, About(_NOTIFIED, _HOW_NOTIFIED)] = None
    sizes: Annotated[
        tuple[Size, ...], About("a candle without a size cannot be sold", "[{stock_code: ..., format: ...}]")
    ]
    notes: Annotated[FreeText | None, About(NOTES)] = None


Outcome = Literal["ok", "stopped_at_heel", "self_extinguished_at_heel", "drowned", "fault"]
