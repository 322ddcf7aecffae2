"""The trade: the terms a maker sells on, the shops that buy, the price lists, and what a shop is offered."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator, ConfigDict, Field

from generator.model.countries import Country
from generator.model.dates import Day
from generator.model.entry import ENTRY
from generator.model.money import Currency, Money, Price, rounded
from generator.model.quantities import Percentage, percentage, text_schema, wrong
from generator.model.words import Count, FreeText, Id, Reference, StockCode

RETAIL_LIST: Final = "retail"
"""The price list of what a shop's customer pays."""

TRADE_LIST: Final = "trade"
"""The price list of what a shop pays where nothing else was agreed."""

_WITHOUT_TAX: Final = Decimal(0)


def tax_within(written: object) -> Decimal:
    """The tax that a price holds: ``20 %``, or ``no`` for none."""
    text = str(written).strip()
    if text.lower() in ("yes", "true"):
        raise wrong(
            f"is '{text}'; how much tax was expected", "prices are compared without it", "20 %, or no"
        )
    return _WITHOUT_TAX if text.lower() in ("no", "false") else percentage(text)


TaxWithin = Annotated[Decimal, BeforeValidator(tax_within), text_schema(r"^([0-9.]+\s*%|no)$", "20 %, or no")]


class Rounding(Enum):
    """To which step a price that was worked out is rounded, halves up."""

    CENT = "to the cent"
    FIVE_CENTS = "to 5 cents"
    TEN_CENTS = "to 10 cents"
    FIFTY_CENTS = "to 50 cents"
    WHOLE = "to whole units"


ROUNDING_STEPS: Final = {
    Rounding.CENT: Decimal("0.01"),
    Rounding.FIVE_CENTS: Decimal("0.05"),
    Rounding.TEN_CENTS: Decimal("0.10"),
    Rounding.FIFTY_CENTS: Decimal("0.50"),
    Rounding.WHOLE: Decimal(1),
}
"""Each step in the currency's unit: a cent stands for the hundredth part of any currency."""

EnquiryTerm = Literal[
    "opening_order", "repeat_order", "lead_time", "payment", "carriage", "returns", "testers"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLevel:
    """A discount: exactly one of ``off_retail`` (from the retail price without its tax) and ``off_trade``."""

    __pydantic_config__ = ConfigDict(**ENTRY, json_schema_extra={"minProperties": 1, "maxProperties": 1})

    off_retail_percent: Percentage | None = None
    off_trade_percent: Percentage | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What every order goes by; money without a currency is in the maker's.

    ``enquiry`` names the terms that the public enquiry page shows.
    """

    __pydantic_config__ = ENTRY

    opening: Annotated[Price | None, Field(alias="opening_order")] = None
    repeat: Annotated[Price | None, Field(alias="repeat_order")] = None
    lead_time: FreeText
    payment: FreeText
    carriage: FreeText
    returns: FreeText
    valid_from: Annotated[Day, Field(alias="from")]
    valid_until: Annotated[Day, Field(alias="until")]
    levels: dict[Id, PriceLevel] = field(default_factory=dict)
    rounding: Rounding = Rounding.CENT
    testers: FreeText | None = None
    enquiry: tuple[EnquiryTerm, ...] = ()
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Buyer:
    """One shop; money without a currency is in its own.

    ``language`` is None where the shop reads the maker's. ``offered`` is None where it may have all that shops are
    told of. A price of ``price_list`` comes before one of ``level``, and where a shop has neither, the trade price
    holds.
    """

    __pydantic_config__ = ENTRY

    id: Id
    name: FreeText
    level: Reference | None = None
    price_list: Reference | None = None
    country: Country
    currency: Currency
    language: FreeText | None = None
    offered: tuple[StockCode, ...] | None = None
    withheld: tuple[StockCode, ...] = ()
    opening: Annotated[Price | None, Field(alias="opening_order")] = None
    repeat: Annotated[Price | None, Field(alias="repeat_order")] = None
    contact: FreeText | None = None
    bill_to: tuple[FreeText, ...] = ()
    ship_to: tuple[FreeText, ...] = ()
    tax_number: FreeText | None = None
    notes: FreeText | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One row of ``prices.csv``: exactly one of ``stock_code`` and ``format``; both days count.

    ``includes_tax`` is the tax in the price, in percent of the price without it; 0 where it holds none.
    """

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    stock_code: StockCode | None = None
    format: Reference | None = None
    list: Id
    currency: Currency
    price: Price
    includes_tax: TaxWithin = _WITHOUT_TAX
    from_: Annotated[Day | None, Field(alias="from")] = None
    until: Day | None = None

    def holds_on(self, day: date) -> bool:
        """Whether the price is one of this day's."""
        return (self.from_ is None or self.from_ <= day) and (self.until is None or day <= self.until)


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkVersion:
    """One row of ``trade/links.csv``: since a day, a buyer's link is of this version; the last row counts."""

    __pydantic_config__ = ConfigDict(extra="ignore", frozen=True)

    buyer: Reference
    version: Count
    since: Day


PriceSource = Literal["price list", "level", "trade price"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One stock code at one buyer's price; ``trade`` is without tax.

    ``retail`` is the suggested price of the buyer's customers, in the same currency, and holds ``retail_tax_percent``
    of tax, 0 where it is without. ``margin_percent`` compares the two without tax, unrounded. ``made_for`` names the
    buyer of an own-label candle.
    """

    stock_code: str
    trade: Money
    retail: Money | None
    retail_tax_percent: Decimal
    margin_percent: Decimal | None
    case: int | None
    minimum: int | None
    source: PriceSource
    made_for: str | None

    @property
    def retail_includes_tax(self) -> bool:
        """Whether the suggested price is one with tax."""
        return self.retail_tax_percent > 0


def smallest_orders(terms: Terms | None, buyer: Buyer, home: str) -> tuple[Money | None, Money | None]:
    """The smallest opening and repeat order of a buyer, its own before that of the terms; None where none holds.

    ``home`` is the maker's currency. An order in another currency than the buyer's says nothing to it, and is never
    converted.
    """
    opening = _in_currency(buyer.opening, buyer.currency, buyer.currency)
    repeat = _in_currency(buyer.repeat, buyer.currency, buyer.currency)
    if terms is None:
        return opening, repeat
    return (
        opening or _in_currency(terms.opening, home, buyer.currency),
        repeat or _in_currency(terms.repeat, home, buyer.currency),
    )


def _in_currency(price: Money | None, bare: str, wanted: str) -> Money | None:
    """A price where it is in the wanted currency; ``bare`` is meant where it names none."""
    if price is None or (price.currency or bare) != wanted:
        return None
    return Money(rounded(price.amount, wanted), wanted)
