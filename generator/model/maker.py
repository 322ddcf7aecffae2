"""The maker: who answers for the candles, where they are sold, and how the shop speaks."""

from dataclasses import dataclass, field
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from generator.model.countries import Country
from generator.model.dates import FixedDay
from generator.model.entry import ENTRY
from generator.model.money import Price
from generator.model.quantities import Grams, Percent
from generator.model.words import Count, FreeText, Id, Text

Market = Literal["GB", "EU", "US"]

_SPOKEN: Final = "en"
"""What labels in Great Britain and the United States are written in unless the maker names others."""


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
"""One language, or several of which the first is the usual one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Somebody who answers for the candles in one market."""

    __pydantic_config__ = ENTRY

    name: Text
    address: tuple[Text, ...]
    email: Text | None = None
    phone: Text | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Maker:
    """The house; ``origin`` is where the candles are made, as invoices and customs papers say it.

    ``waste`` is what of a batch stays in pot, jug and test pieces. ``hour`` is what an hour of work costs, and
    ``overhead`` what rent, power and the like add to materials and work; costs say so where they are absent.
    ``language`` is what the site and the papers are written in; ``label_languages`` are those of labels that go to a
    market, the usual one first.
    """

    __pydantic_config__ = ENTRY

    name: Text
    address: tuple[Text, ...]
    country: Country
    email: Text
    phone: Text | None = None
    web: Text | None = None
    line: FreeText | None = None
    origin: Text | None = None
    markets: tuple[Market, ...]
    eu_contact: Contact | None = None
    gb_contact: Contact | None = None
    currency: Text
    prices_include_tax_percent: Percent | None = None
    as_of: FixedDay
    theme: Id = "netloft"
    language: Text = "en"
    label_languages: dict[Market, LabelLanguages] = field(default_factory=dict)
    scale_step_g: Grams = 1.0
    waste_percent: Percent | None = None
    hour: Price | None = None
    overhead_percent: Percent | None = None
    notes: FreeText | None = None

    def languages_of_labels(self, market: Market) -> tuple[str, ...]:
        """In which languages labels for a market may be printed, the usual one first."""
        usual = self.language if market == "EU" else _SPOKEN
        return self.label_languages.get(market, (usual,))


@dataclass(frozen=True, slots=True, kw_only=True)
class Collection:
    """A shelf of the catalogue."""

    __pydantic_config__ = ENTRY

    name: FreeText
    text: FreeText | None = None
    order: Count = 99
