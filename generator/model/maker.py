"""The maker: who answers for the candles, where they are sold, and how the shop speaks."""

from dataclasses import dataclass
from typing import Literal

from generator.model.countries import Country
from generator.model.dates import FixedDay
from generator.model.entry import ENTRY
from generator.model.quantities import Grams, Percent
from generator.model.words import Count, Id, Text

Market = Literal["GB", "EU", "US"]


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
    """The house; ``origin`` is where the candles are made, as invoices and customs papers say it."""

    __pydantic_config__ = ENTRY

    name: Text
    address: tuple[Text, ...]
    country: Country
    email: Text
    phone: Text | None = None
    web: Text | None = None
    line: Text | None = None
    origin: Text | None = None
    markets: tuple[Market, ...]
    eu_contact: Contact | None = None
    gb_contact: Contact | None = None
    currency: Text
    prices_include_tax_percent: Percent | None = None
    as_of: FixedDay
    theme: Id = "netloft"
    language: Text = "en"
    scale_step_g: Grams = 1.0
    notes: Text | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Collection:
    """A shelf of the catalogue."""

    __pydantic_config__ = ENTRY

    name: Text
    text: Text | None = None
    order: Count = 99
