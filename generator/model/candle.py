"""Candles as recorded: one scent, its formula, and the sizes it is sold in."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, Tag

from generator.model.amounts import AmountOf
from generator.model.dates import Day
from generator.model.entry import (
    BUYERS,
    BY_FORM,
    COSTS,
    EVERYBODY,
    NAME,
    NOTES,
    NOTES_KEY,
    WEIGHT,
    WORKSHOP,
    About,
    Entry,
    Key,
)
from generator.model.kinds import Kind
from generator.model.maker import Contact
from generator.model.money import Price
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

    to_mm: Annotated[
        Mm | None, About(WEIGHT), Key("How high the wax stands above the base.", "65 mm", EVERYBODY)
    ] = None
    below_rim_mm: Annotated[
        Mm | None, About(WEIGHT), Key("How far the wax stays below the rim.", "12 mm", EVERYBODY)
    ] = None
    weight_g: Annotated[
        Grams | None, About(WEIGHT), Key("How much wax is poured, by weight.", "240 g", EVERYBODY)
    ] = None
    volume_ml: Annotated[
        Ml | None, About(WEIGHT), Key("How much wax is poured, by volume.", "260 ml", EVERYBODY)
    ] = None
    level: Annotated[
        Level | None,
        About(_SETTLES),
        Key("Whether the line is that of the set wax or of the hot wax as poured.", "set", EVERYBODY),
    ] = None
    at_c: Annotated[
        Celsius | None,
        About(_SETTLES),
        Key("How hot the wax is when it is poured to that line.", "75 C", WORKSHOP),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade(Entry):
    """What a shop pays for one, how many come in a case, how many it must take."""

    price: Annotated[
        Price | None, About(_TRADE), Key("What a shop pays for one, without tax.", "12.00", BUYERS)
    ] = None
    case: Annotated[Count | None, About(_TRADE), Key("How many come in a case.", "6", BUYERS)] = None
    minimum: Annotated[Count | None, About(_TRADE), Key("The fewest a shop can order.", "6", BUYERS)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cased(Entry):
    """The outer case: its size and its own weight."""

    size: Annotated[
        tuple[Mm, Mm, Mm],
        About(_CASES, "[... mm, ... mm, ... mm]"),
        Key("The length, width and height of the outer case.", "[300 mm, 200 mm, 120 mm]", BUYERS),
    ]
    weight_g: Annotated[Grams, About(_CASES), Key("The weight of the empty case.", "350 g", WORKSHOP)]


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
        About("a candle and a melt have other papers"),
        Key("What sort of candle it is.", "container", EVERYBODY),
    ] = None
    vessel: Annotated[
        Reference | None,
        About(WEIGHT, _IN_VESSELS),
        Key("The vessel: the name of its file in vessels/, without .yaml.", "tumbler-30", EVERYBODY),
    ] = None
    wick: Annotated[
        Wicks | None,
        About("the burning advice is worked out from it", _IN_WICKS),
        Key(
            "The wick: the name of its file in wicks/; write {flat-braid-18: 3} for several.",
            "flat-braid-24",
            EVERYBODY,
        ),
    ] = None
    fill: Annotated[
        Fill | None,
        About(WEIGHT, "{to: ... mm, level: set or poured}"),
        Key(
            "How full the vessel is: one of to, below_rim, weight and volume.",
            "{to: 65 mm, level: set}",
            EVERYBODY,
        ),
    ] = None
    price: Annotated[
        Price | None, About("the catalogue shows it"), Key("The retail price.", "24.00", EVERYBODY)
    ] = None
    trade: Annotated[
        Trade | None,
        About(_TRADE, "{price: ..., case: ..., minimum: ...}"),
        Key(
            "What a shop pays, and how many it buys at a time.", "{price: 12.00, case: 6, minimum: 6}", BUYERS
        ),
    ] = None
    packaging_g: Annotated[
        Grams | None,
        About(_PARCEL),
        Key("The weight of the box and padding of one candle.", "40 g", WORKSHOP),
    ] = None
    packaging_price: Annotated[
        Price | None, About(COSTS), Key("What the box and padding of one candle cost you.", "0.85", WORKSHOP)
    ] = None
    labour_h: Annotated[
        Labour | None, About(COSTS), Key("How long you work on one candle.", "7 min", WORKSHOP)
    ] = None
    cased: Annotated[
        Cased | None,
        About(_CASES),
        Key("The outer case that shops are sent.", "{size: [300 mm, 200 mm, 120 mm], weight: 350 g}", BUYERS),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Format(Shared):
    """What all candles of one size share."""

    id: Id
    name: Annotated[
        Text | None,
        About(NAME),
        Key("What this size is called in the catalogue.", "Clear tumbler", EVERYBODY),
    ] = None
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing(Entry):
    """A finished candle on the scale: empty (vessel with its wick) and full."""

    empty_g: Annotated[
        Grams, About(WEIGHT), Key("The vessel with its wick, before pouring.", "285.2 g", WORKSHOP)
    ]
    full_g: Annotated[
        Grams, About(WEIGHT), Key("The same vessel with the finished candle in it.", "536.1 g", WORKSHOP)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Like(Entry):
    """Burn tests borrowed from another stock code."""

    like: Annotated[
        StockCode,
        About(_HOURS, "... (another stock code)"),
        Key("Another stock code whose burn tests count for this one as well.", "NL-30", WORKSHOP),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class DeclaredPair(Entry):
    """A declared net quantity in grams and ounces, as printed by the maker."""

    g: Annotated[PlainNumber, About(_NET), Key("The net quantity on the label in grams.", "240", EVERYBODY)]
    oz: Annotated[
        PlainNumber | None, About(_NET), Key("The net quantity on the label in ounces.", "8.4", EVERYBODY)
    ] = None


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
        StockCode,
        About("every page, sheet and label is found by it", "... (letters, digits and dashes)"),
        Key("Your code for this candle in this size.", "SS-30", EVERYBODY),
    ]
    format: Annotated[
        Reference | None,
        About(
            "kind, vessel, wick and fill come from it", "... (the name of a file in formats/, without .yaml)"
        ),
        Key(
            "The size it is made in: the name of a file in formats/, without .yaml.", "tumbler-30", EVERYBODY
        ),
    ] = None
    declared: Annotated[
        Declared | None,
        About(_NET, "... g, or {g: ..., oz: ...}"),
        Key("The net quantity that your label declares.", "240 g", EVERYBODY),
    ] = None
    weighed: Annotated[
        tuple[Weighed, ...],
        About(WEIGHT, "[{empty: ... g, full: ... g}], or [... g]"),
        Key(
            "Finished candles that you weighed, each empty and full, or the wax alone.",
            "[{empty: 285.2 g, full: 536.1 g}, 249.1 g]",
            WORKSHOP,
        ),
    ] = ()
    burn_time: Annotated[
        BurnTime | None,
        About(_HOURS, _TESTED),
        Key(
            "The table of burn tests, or {like: NL-30} for those of another stock code.",
            "burn-tests/SS-30.csv",
            WORKSHOP,
        ),
    ] = None
    claim_hours: Annotated[
        BareHours | None,
        About("a claim is held against the tests"),
        Key("The burn time you claim, in hours.", "40", EVERYBODY),
    ] = None
    longest_session_h: Annotated[
        Hours | None,
        About("the burning advice says it"),
        Key("The longest single burn you allow, if it is shorter than the advice.", "3 h", EVERYBODY),
    ] = None
    ufi: Annotated[
        Ufi | None,
        About(_CENTRES),
        Key(
            "The UFI of this size, if its formula differs from the candle's.",
            "D600-D0F0-D00N-1Y1X",
            EVERYBODY,
        ),
    ] = None
    barcode: Annotated[
        Text | None,
        About("tills and trade sheets read it", "... (its 8, 12, 13 or 14 digits)"),
        Key("The number below the barcode, in quotes.", '"2044710001139"', EVERYBODY),
    ] = None
    photos: Annotated[
        tuple[FileName, ...],
        About("the candle's page shows them", "[...]"),
        Key("The names of its photos in photos/.", "[ss-30-by-the-window.jpg]", EVERYBODY),
    ] = ()
    ingredients: Annotated[
        dict[Reference, AmountOf] | None,
        About(_FORMULA, "{...: ... g}"),
        Key(
            "Ingredients whose amount differs in this size from the candle's own formula.",
            "{samphire: 98 g}",
            WORKSHOP,
        ),
    ] = None
    status: Annotated[
        Status | None,
        About(_SHELVES),
        Key("Where this size is in its life, if not where the candle is.", "last few", EVERYBODY),
    ] = None
    made_for: Annotated[
        Reference | None,
        About(_OWN_LABEL, "... (a key of trade/buyers.yaml)"),
        Key("The shop that this own label is made for: its key in trade/buyers.yaml.", "lamp-room", WORKSHOP),
    ] = None
    brand: Annotated[
        Text | None, About(_OWN_LABEL), Key("The shop's brand on its own label.", "Carrow Lamp", BUYERS)
    ] = None
    responsible: Annotated[
        Contact | None,
        About(_OWN_LABEL),
        Key(
            "Who answers for the own label in your place.",
            "{name: The Lamp Room Ltd, address: [Old Signal House, Carrow Head CH7 9QB]}",
            BUYERS,
        ),
    ] = None
    public: Annotated[
        tuple[OwnLabelWord, ...],
        About("the safety page shows nothing of the shop that is not named here", "[brand or responsible]"),
        Key(
            "What the public safety page of an own label may show: brand, responsible, or both.",
            "[brand]",
            WORKSHOP,
        ),
    ] = ()
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None

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

    top: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What you smell first.", "[sea salt, green apple skin]", EVERYBODY),
    ] = ()
    heart: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What you smell next.", "[samphire]", EVERYBODY),
    ] = ()
    base: Annotated[
        tuple[FreeText, ...],
        About(_NOTES_OF_SCENT, "[...]"),
        Key("What stays longest.", "[wet slate]", EVERYBODY),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Entry):
    """The wax's colour by name and as drawn."""

    name: Annotated[
        Text,
        About("the candle's page names the colour"),
        Key("What the colour of the wax is called.", "wet slate", EVERYBODY),
    ]
    shade: Annotated[
        Shade,
        About("the drawings are tinted with it"),
        Key("The colour for the drawings, as six digits after #, in quotes.", '"#66727a"', EVERYBODY),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sold(Entry):
    """The days between which a candle stands on the shelves."""

    from_: Annotated[
        Day | None,
        Field(alias="from"),
        About(_SHELVES),
        Key("The first day the candle is on sale.", "2026-10-01", WORKSHOP),
    ] = None
    until: Annotated[
        Day | None, About(_SHELVES), Key("The last day the candle is on sale.", "2026-12-24", WORKSHOP)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Make(Entry):
    """How the batch is poured."""

    heat_to_c: Annotated[
        Celsius | None, About(_POUR), Key("How hot the wax is heated.", "88 C", WORKSHOP)
    ] = None
    fragrance_at_c: Annotated[
        Celsius | None, About(_POUR), Key("The temperature at which the fragrance goes in.", "82 C", WORKSHOP)
    ] = None
    pour_at_c: Annotated[
        Celsius | None, About(_POUR), Key("The temperature at which the wax is poured.", "75 C", WORKSHOP)
    ] = None
    cure_h: Annotated[
        Hours | None, About(_POUR), Key("How long the candle cures before it is sold.", "14 days", WORKSHOP)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candle(Entry):
    """One scent: what it is, what is in it, its sizes. Its ufi holds for sizes without own ingredients."""

    id: Id
    scent: Annotated[
        Text,
        About("the candle would have no name"),
        Key("The name of the candle.", "Slate & Samphire", EVERYBODY),
    ]
    collection: Annotated[
        Reference,
        About("the catalogue would not know its shelf", "... (a key of collections.yaml)"),
        Key("The shelf it stands on: a key of collections.yaml.", "shoreline", EVERYBODY),
    ]
    season: Annotated[
        FreeText | None,
        About("the candle's page names it"),
        Key("The season that the candle's page names.", "all year", EVERYBODY),
    ] = None
    status: Annotated[
        Status,
        About(_SHELVES),
        Key("Where the candle is in its life; trial keeps it off the shelves.", "current", EVERYBODY),
    ] = Status.CURRENT
    sold: Annotated[
        Sold | None,
        About(_SHELVES, "{from: year-month-day, until: year-month-day}"),
        Key("The days between which it is on sale.", "{from: 2026-10-01, until: 2026-12-24}", WORKSHOP),
    ] = None
    added: Annotated[
        Day | None,
        About("which law holds for the candle depends on it"),
        Key("The day you first sold it.", "2026-03-01", WORKSHOP),
    ] = None
    scent_notes: Annotated[
        ScentNotes | None,
        About(_NOTES_OF_SCENT, "{top: [...], heart: [...], base: [...]}"),
        Key(
            "The scent in its three parts.",
            "{top: [sea salt], heart: [samphire], base: [wet slate]}",
            EVERYBODY,
        ),
    ] = None
    colour: Annotated[
        Colour | None,
        About("the candle's page names the colour, and the drawings are tinted with it"),
        Key("The colour of the wax.", '{name: wet slate, shade: "#66727a"}', EVERYBODY),
    ] = None
    description: Annotated[
        FreeText | None,
        About("the candle's page says it"),
        Key(
            "The text on the candle's page.",
            "Salt first, then cold stone for as long as it burns.",
            EVERYBODY,
        ),
    ] = None
    ingredients: Annotated[
        dict[Reference, AmountOf],
        About(_FORMULA, "{...: ... g}"),
        Key(
            "The formula: each ingredient by its file's name, with its amount or share.",
            "{soy-paraffin: 1000 g, samphire: 85 g}",
            WORKSHOP,
        ),
    ]
    make: Annotated[
        Make | None,
        About(_POUR, "{heat_to: ... C, fragrance_at: ... C, pour_at: ... C, cure: ... days}"),
        Key(
            "How the batch is made.",
            "{heat_to: 88 C, fragrance_at: 82 C, pour_at: 75 C, cure: 14 days}",
            WORKSHOP,
        ),
    ] = None
    ufi: Annotated[
        Ufi | None,
        About(_CENTRES),
        Key(
            "The UFI of the mixture, by which a poison centre finds its formula.",
            "D600-D0F0-D00N-1Y1X",
            EVERYBODY,
        ),
    ] = None
    sizes: Annotated[
        tuple[Size, ...],
        About("a candle without a size cannot be sold", "[{stock_code: ..., format: ...}]"),
        Key("The sizes it is sold in.", "[{stock_code: SS-30, format: tumbler-30}]", EVERYBODY),
    ]
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


Outcome = Literal["ok", "stopped_at_heel", "self_extinguished_at_heel", "drowned", "fault"]
