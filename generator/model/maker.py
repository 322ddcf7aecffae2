"""The maker: who answers for the candles, where they are sold, and the shop's languages."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from generator.model.addresses import Email, Phone, Web
from generator.model.countries import Country
from generator.model.dates import FixedDay
from generator.model.entry import COSTS, NOTES, About, Entry
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

    name: Annotated[Text, About(_ANSWERABLE)]
    address: Annotated[tuple[Text, ...], About(_ANSWERABLE, "[..., ...]")]
    email: Annotated[Email | None, About(_ANSWERABLE)] = None
    phone: Annotated[Phone | None, About(_ANSWERABLE)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Maker(Entry):
    """The house; ``origin`` is where the candles are made, as stated on invoices and customs papers.

    ``waste`` is the part of a batch left in pot, jug and test pieces. ``hour`` is the cost of an hour of work, and
    ``overhead`` what rent, power and the like add to materials and work; costs state which of them are missing.
    ``language`` is the language of the site and the papers; ``label_languages`` are those of labels for a
    market, the usual one first. Private ``burn_charts`` stay in the workshop.
    """

    name: Annotated[Text, About(_ANSWERABLE)]
    address: Annotated[tuple[Text, ...], About(_ANSWERABLE, "[..., ...]")]
    country: Annotated[Country, About("it decides which markets need a contact of their own")]
    email: Annotated[Email, About(_ANSWERABLE)]
    phone: Annotated[Phone | None, About(_ANSWERABLE)] = None
    web: Annotated[Web | None, About("the codes on labels lead to it")] = None
    line: Annotated[FreeText | None, About("the home page prints it below the name")] = None
    origin: Annotated[Text | None, About("invoices and customs papers print it")] = None
    markets: Annotated[
        tuple[Market, ...], About("labels and burning advice differ by market", f"[{known_markets()}]")
    ]
    eu_contact: Annotated[Contact | None, About("labels for the EU must name someone there")] = None
    gb_contact: Annotated[Contact | None, About("labels for Great Britain must name someone there")] = None
    currency: Annotated[Text, About("a price without its currency means nothing", "... (GBP, EUR, USD ...)")]
    prices_include_tax_percent: Annotated[
        Percent | None, About("trade prices are worked out without the tax")
    ] = None
    as_of: Annotated[
        FixedDay, About("the program never reads the clock, so papers take their date from here")
    ]
    theme: Annotated[
        Id, About("it lays out the pages and papers", "... (netloft, or a folder in themes/)")
    ] = "netloft"
    language: Annotated[Text, About("the site and all papers are written in it", _LANGUAGE)] = "en"
    label_languages: Annotated[dict[Market, LabelLanguages], About(_SPOKEN_AT_MARKET, "{EU: [...]}")] = field(
        default_factory=dict
    )
    scale_step_g: Annotated[
        Grams, About("weights to pour and to declare are rounded to what the scale can show")
    ] = 1.0
    waste_percent: Annotated[Percent | None, About("the batch to pour is worked out from it")] = None
    hour: Annotated[Price | None, About(COSTS)] = None
    overhead_percent: Annotated[Percent | None, About(COSTS)] = None
    burn_charts: Annotated[BurnCharts, About("a chart on the site shows every weighing")] = "public"
    notes: Annotated[FreeText | None, About(NOTES)] = None
    contacts: Annotated[dict[Market, Contact], About(_ANSWERABLE, "{...: {...}}")] = field(
        default_factory=dict
    )

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

    name: Annotated[FreeText, About("the collection would have no heading")]
    text: Annotated[FreeText | None, About("the collection opens with it")] = None
    order: Annotated[Count, About("it sets the order of the collections")] = 99
