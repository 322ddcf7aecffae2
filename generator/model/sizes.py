"""Sizes: one stock code of a candle, and whose label it bears."""

from dataclasses import dataclass
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import Tag

from generator.model.amounts import AmountOf
from generator.model.entry import (
    BY_FORM,
    FOR_BUYERS,
    FOR_EVERYBODY,
    FOR_YOU,
    FORMULA,
    NOTES,
    NOTES_KEY,
    POISON_CENTRE,
    SHELVES,
    WEIGHT,
    About,
    Entry,
    Key,
)
from generator.model.formats import Shared
from generator.model.maker import Contact
from generator.model.quantities import BareHours, Grams, Hours, PlainNumber
from generator.model.ufi import Ufi
from generator.model.words import FileName, FreeText, Reference, StockCode, Text

_HOURS: Final = "the burn hours are calculated from it"
_NET: Final = "the label's net quantity is checked against it"
_OWN_LABEL: Final = "an own-label candle carries the shop's name in place of the maker's"
_TESTED: Final = "... (a table in burn-tests/), or {like: ...}"


class Status(Enum):
    """Where a candle is in its life; only the first four stand on the shelves."""

    CURRENT = "current"
    COMING = "coming"
    MADE_TO_ORDER = "made to order"
    LAST_FEW = "last few"
    DISCONTINUED = "discontinued"
    TRIAL = "trial"


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing(Entry):
    """A finished candle on the scale: empty (vessel with its wick) and full."""

    empty_g: Annotated[
        Grams, About(WEIGHT), Key("The vessel with its wick, before pouring.", "285.2 g", FOR_YOU)
    ]
    full_g: Annotated[
        Grams, About(WEIGHT), Key("The same vessel with the finished candle in it.", "536.1 g", FOR_YOU)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Like(Entry):
    """Burn tests borrowed from another stock code."""

    like: Annotated[
        StockCode,
        About(_HOURS, "... (another stock code)"),
        Key("Another stock code whose burn tests count for this one as well.", "NL-30", FOR_YOU),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class DeclaredPair(Entry):
    """A declared net quantity in grams and ounces, as printed by the maker."""

    g: Annotated[
        PlainNumber, About(_NET), Key("The net quantity on the label in grams.", "240", FOR_EVERYBODY)
    ]
    oz: Annotated[
        PlainNumber | None, About(_NET), Key("The net quantity on the label in ounces.", "8.4", FOR_EVERYBODY)
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
        Key("Your code for this candle in this size.", "SS-30", FOR_EVERYBODY),
    ]
    format: Annotated[
        Reference | None,
        About(
            "kind, vessel, wick and fill come from it", "... (the name of a file in formats/, without .yaml)"
        ),
        Key(
            "The size it is made in: the name of a file in formats/, without .yaml.",
            "tumbler-30",
            FOR_EVERYBODY,
        ),
    ] = None
    declared: Annotated[
        Declared | None,
        About(_NET, "... g, or {g: ..., oz: ...}"),
        Key("The net quantity that your label declares.", "240 g", FOR_EVERYBODY),
    ] = None
    weighed: Annotated[
        tuple[Weighed, ...],
        About(WEIGHT, "[{empty: ... g, full: ... g}], or [... g]"),
        Key(
            "Finished candles that you weighed, each empty and full, or the wax alone.",
            "[{empty: 285.2 g, full: 536.1 g}, 249.1 g]",
            FOR_YOU,
        ),
    ] = ()
    burn_time: Annotated[
        BurnTime | None,
        About(_HOURS, _TESTED),
        Key(
            "The table of burn tests, or {like: NL-30} for those of another stock code.",
            "burn-tests/SS-30.csv",
            FOR_YOU,
        ),
    ] = None
    claim_hours: Annotated[
        BareHours | None,
        About("a claim is checked against the tests"),
        Key("The burn time you claim, in hours.", "40", FOR_EVERYBODY),
    ] = None
    longest_session_h: Annotated[
        Hours | None,
        About("the burning advice states it"),
        Key("The longest single burn you allow, if it is shorter than the advice.", "3 h", FOR_EVERYBODY),
    ] = None
    ufi: Annotated[
        Ufi | None,
        About(POISON_CENTRE),
        Key(
            "The UFI of this size, if its recipe differs from the candle's.",
            "C23S-PQ2V-AMH9-VVRF",
            FOR_EVERYBODY,
        ),
    ] = None
    barcode: Annotated[
        Text | None,
        About("tills and trade sheets read it", "... (its 8, 12, 13 or 14 digits)"),
        Key("The number below the barcode, in quotes.", '"2044710001139"', FOR_EVERYBODY),
    ] = None
    photos: Annotated[
        tuple[FileName, ...],
        About("the candle's page shows them", "[...]"),
        Key("The names of its photos in photos/.", "[ss-30-by-the-window.jpg]", FOR_EVERYBODY),
    ] = ()
    ingredients: Annotated[
        dict[Reference, AmountOf] | None,
        About(FORMULA, "{...: ... g}"),
        Key(
            "Ingredients whose amount differs in this size from the candle's own recipe.",
            "{samphire: 98 g}",
            FOR_YOU,
        ),
    ] = None
    status: Annotated[
        Status | None,
        About(SHELVES),
        Key("Where this size is in its life, if not where the candle is.", "last few", FOR_EVERYBODY),
    ] = None
    made_for: Annotated[
        Reference | None,
        About(_OWN_LABEL, "... (a key of trade/buyers.yaml)"),
        Key("The shop that this own label is made for: its key in trade/buyers.yaml.", "lamp-room", FOR_YOU),
    ] = None
    brand: Annotated[
        Text | None, About(_OWN_LABEL), Key("The shop's brand on its own label.", "Carrow Lamp", FOR_BUYERS)
    ] = None
    responsible: Annotated[
        Contact | None,
        About(_OWN_LABEL),
        Key(
            "Who answers for the own label in your place.",
            "{name: The Lamp Room Ltd, address: [Old Signal House, Carrow Head CH7 9QB]}",
            FOR_BUYERS,
        ),
    ] = None
    public: Annotated[
        tuple[OwnLabelWord, ...],
        About("the safety page shows nothing of the shop that is not listed here", "[brand or responsible]"),
        Key(
            "What the public safety page of an own label may show: brand, responsible, or both.",
            "[brand]",
            FOR_YOU,
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
