"""The maker: who answers for the candles, where they are sold, and the shop's languages."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from generator.model.addresses import Email, Phone, Web
from generator.model.countries import Country
from generator.model.dates import DayOrToday
from generator.model.entry import (
    COSTS,
    FOR_BUYERS,
    FOR_EVERYBODY,
    FOR_YOU,
    NOTES,
    NOTES_KEY,
    About,
    Entry,
    Key,
)
from generator.model.markets import MARKETS, Market, known_markets
from generator.model.money import Price
from generator.model.quantities import Grams, Percent
from generator.model.words import Count, FreeText, Id, Text
from generator.problems import Path

_ANSWERABLE: Final = "every label must say who answers for the candle"
_LANGUAGE: Final = "... (a language's code, such as de)"
_SPOKEN_AT_MARKET: Final = "labels are written in the language of their market"


BurnCharts = Literal["public", "private"]

CONTACT_KEYS: Final[Mapping[Market, str]] = {"EU": "eu_contact", "GB": "gb_contact"}
"""Markets whose contact has its own key; all others are under ``contacts``."""


def _one_or_several(written: object) -> object:
    return [written] if isinstance(written, str) else written


LabelLanguages = Annotated[
    tuple[Text, ...],
    BeforeValidator(_one_or_several),
    WithJsonSchema(
        {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}]}
    ),
    Field(min_length=1),
]
"""One language, or several, the usual one first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact(Entry):
    """Somebody who answers for the candles in one market."""

    name: Annotated[
        Text,
        About(_ANSWERABLE),
        Key(
            "The name of the person or firm that answers for your candles in that market.",
            "Atelier du Quai Gris",
            FOR_EVERYBODY,
        ),
    ]
    address: Annotated[
        tuple[Text, ...],
        About(_ANSWERABLE, "[..., ...]"),
        Key(
            "Their postal address, one item for each line.",
            '[4 quai Gris, "29999 Port-Lannec, France"]',
            FOR_EVERYBODY,
        ),
    ]
    email: Annotated[
        Email | None,
        About(_ANSWERABLE),
        Key("Their e-mail address.", "candles@quai-gris.example", FOR_EVERYBODY),
    ] = None
    phone: Annotated[
        Phone | None,
        About(_ANSWERABLE),
        Key(
            "Their telephone number, in quotes and with the country code.",
            '"+33 1 99 00 47 21"',
            FOR_EVERYBODY,
        ),
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Maker(Entry):
    """The house; ``origin`` is where the candles are made, as stated on invoices and customs papers.

    ``waste`` is the part of a batch left in pot, jug and test pieces. ``hour`` is the cost of an hour of work, and
    ``overhead`` what rent, power and the like add to materials and work; costs state which of them are missing.
    ``language`` is the language of the site and the papers; ``label_languages`` are those of labels for a
    market, the usual one first. Private ``burn_charts`` stay in the workshop.
    """

    name: Annotated[
        Text,
        About(_ANSWERABLE),
        Key(
            "The name of your business, as the site, the sheets and the labels give it.",
            "Quillfern Candles",
            FOR_EVERYBODY,
        ),
    ]
    address: Annotated[
        tuple[Text, ...],
        About(_ANSWERABLE, "[..., ...]"),
        Key(
            "Your postal address, one item for each line.",
            "[The Old Net Loft, 7 Ropewalk, Averness AV3 9QN]",
            FOR_EVERYBODY,
        ),
    ]
    country: Annotated[
        Country,
        About("it decides which markets need a contact of their own"),
        Key("The country you make your candles in, by its two letters.", "GB", FOR_EVERYBODY),
    ]
    email: Annotated[
        Email,
        About(_ANSWERABLE),
        Key("The e-mail address that customers write to.", "hello@quillfern.example", FOR_EVERYBODY),
    ]
    phone: Annotated[
        Phone | None,
        About(_ANSWERABLE),
        Key(
            "Your telephone number, in quotes and with the country code.", '"+44 1632 960188"', FOR_EVERYBODY
        ),
    ] = None
    web: Annotated[
        Web | None,
        About("the codes on labels lead to it"),
        Key(
            "The address of your site; the QR codes on labels and sheets lead there.",
            "https://quillfern.example",
            FOR_EVERYBODY,
        ),
    ] = None
    line: Annotated[
        FreeText | None,
        About("the home page prints it below the name"),
        Key(
            "One sentence for the home page, below your name.",
            "Poured one kettle at a time above the harbour.",
            FOR_EVERYBODY,
        ),
    ] = None
    origin: Annotated[
        Text | None,
        About("invoices and customs papers print it"),
        Key(
            "Where the candles are made, in the words that trade papers should use.",
            "Made in Great Britain",
            FOR_BUYERS,
        ),
    ] = None
    markets: Annotated[
        tuple[Market, ...],
        About("labels and burning advice differ by market", f"[{known_markets()}]"),
        Key(
            "The markets you sell to; the first one named comes first on the papers.",
            "[GB, EU]",
            FOR_EVERYBODY,
        ),
    ]
    eu_contact: Annotated[
        Contact | None,
        About("labels for the EU must name someone there"),
        Key(
            "Who answers for your candles in the EU.",
            "{name: Atelier du Quai Gris, address: [4 quai Gris, 29999 Port-Lannec]}",
            FOR_EVERYBODY,
        ),
    ] = None
    gb_contact: Annotated[
        Contact | None,
        About("labels for Great Britain must name someone there"),
        Key(
            "Who answers for your candles in Great Britain, if you are based elsewhere.",
            "{name: Harbour Imports Ltd, address: [2 Fish Steps, Averness AV3 9QA]}",
            FOR_EVERYBODY,
        ),
    ] = None
    currency: Annotated[
        Text,
        About("a price without its currency means nothing", "... (GBP, EUR, USD ...)"),
        Key("The currency of every price that names none.", "GBP", FOR_EVERYBODY),
    ]
    prices_include_tax_percent: Annotated[
        Percent | None,
        About("trade prices are calculated without the tax"),
        Key(
            "The tax that your retail prices include; leave it out if they include none.", "20 %", FOR_BUYERS
        ),
    ] = None
    as_of: Annotated[
        DayOrToday,
        About("prices and details are as of this day"),
        Key(
            "The date of prices and details: a fixed one, or today; today if you leave it out.",
            "today",
            FOR_EVERYBODY,
        ),
    ] = None
    theme: Annotated[
        Id,
        About("it lays out the pages and papers", "... (netloft, or a folder in themes/)"),
        Key("The theme that pages and papers are laid out in.", "netloft", FOR_EVERYBODY),
    ] = "netloft"
    language: Annotated[
        Text,
        About("the site and all papers are written in it", _LANGUAGE),
        Key("The language of the site and the papers.", "en", FOR_EVERYBODY),
    ] = "en"
    label_languages: Annotated[
        dict[Market, LabelLanguages],
        About(_SPOKEN_AT_MARKET, "{EU: [...]}"),
        Key(
            "The languages that labels for a market may be printed in, the usual one first.",
            "{EU: [de, fr]}",
            FOR_EVERYBODY,
        ),
    ] = field(default_factory=dict)
    scale_step_g: Annotated[
        Grams,
        About("weights to pour and to declare are rounded to what the scale can show"),
        Key("The smallest step your pouring scale shows; weights to pour are rounded to it.", "1 g", FOR_YOU),
    ] = 1.0
    waste_percent: Annotated[
        Percent | None,
        About("the batch to pour is calculated from it"),
        Key("How much of each batch stays behind in the pot, the jug and test pieces.", "3 %", FOR_YOU),
    ] = None
    hour: Annotated[Price | None, About(COSTS), Key("What an hour of your work costs.", "14.50", FOR_YOU)] = (
        None
    )
    overhead_percent: Annotated[
        Percent | None,
        About(COSTS),
        Key("What rent, power and the like add to materials and work.", "12 %", FOR_YOU),
    ] = None
    burn_charts: Annotated[
        BurnCharts,
        About("a chart on the site shows every weighing"),
        Key("Whether the charts of your burn tests are shown on the site.", "private", FOR_EVERYBODY),
    ] = "public"
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None
    contacts: Annotated[
        dict[Market, Contact],
        About(_ANSWERABLE, "{...: {...}}"),
        Key(
            "Who answers for your candles in each market, by the market.",
            "{EU: {name: Atelier du Quai Gris, address: [4 quai Gris, 29999 Port-Lannec]}}",
            FOR_EVERYBODY,
        ),
    ] = field(default_factory=dict)

    def contacts_by_market(self) -> Mapping[Market, Contact]:
        """Who answers for the candles in each market, whichever key it is under."""
        own: dict[Market, Contact | None] = {
            market: getattr(self, key) for market, key in CONTACT_KEYS.items()
        }
        return {market: one for market, one in (own | self.contacts).items() if one is not None}

    def languages_of_labels(self, market: Market) -> tuple[str, ...]:
        """The languages in which labels for a market may be printed, the usual one first."""
        usual = MARKETS[market].label_language or self.language
        return self.label_languages.get(market, (usual,))


def contact_path(market: Market) -> Path:
    """The path in the maker's entry of who answers in a market."""
    key = CONTACT_KEYS.get(market)
    return ("contacts", market) if key is None else (key,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Collection(Entry):
    """A shelf of the catalogue."""

    name: Annotated[
        FreeText,
        About("the collection would have no heading"),
        Key("The heading of the shelf in the catalogue.", "The Shoreline", FOR_EVERYBODY),
    ]
    text: Annotated[
        FreeText | None,
        About("the collection opens with it"),
        Key("A sentence or two that open the shelf.", "Candles for the wet end of the year.", FOR_EVERYBODY),
    ] = None
    order: Annotated[
        Count,
        About("it sets the order of the collections"),
        Key("Where the shelf comes in the catalogue; the lowest number is first.", "1", FOR_EVERYBODY),
    ] = 99
