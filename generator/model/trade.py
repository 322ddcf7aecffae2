"""Trade: the maker's terms, the shops that buy, the price lists, and what a shop is offered."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field

from generator.model.cell_text import harmless
from generator.model.countries import Country
from generator.model.dates import Day
from generator.model.entry import NOTES, About, Entry
from generator.model.money import Currency, Money, Price, rounded
from generator.model.quantities import Percentage, as_text, percentage, wrong
from generator.model.words import Count, FreeText, Id, Reference, StockCode

_ORDERS: Final = "every buyer's sheet prints it, and orders depend on it"
_DATES: Final = "a price without dates could be claimed for ever"
_PRICES: Final = "buyers' prices are worked out from it"
_OFFERED: Final = "it decides which candles the buyer's sheet shows"
_WHOSE: Final = "it decides whose price it is"


RETAIL_LIST: Final = "retail"
"""The price list for a shop's customers."""

TRADE_LIST: Final = "trade"
"""The price list for shops where nothing else was agreed."""

_WITHOUT_TAX: Final = Decimal(0)


def tax_within(written: object) -> Decimal:
    """The tax included in a price: ``20 %``, or ``no`` for none."""
    text = str(written).strip()
    if text.lower() in ("yes", "true"):
        raise wrong(f"is '{text}'; expected how much tax", "prices are compared without it")
    return _WITHOUT_TAX if text.lower() in ("no", "false") else percentage(text)


TaxWithin = Annotated[Decimal, *as_text(tax_within, r"^([0-9.]+\s*%|no)$", "20 %, or no", "... %, or no")]


class Rounding(Enum):
    """The step to which a calculated price is rounded, halves up."""

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
"""Each step in the currency's unit: a cent is a hundredth of any currency."""

EnquiryTerm = Literal[
    "opening_order", "repeat_order", "lead_time", "payment", "carriage", "returns", "testers"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLevel:
    """A discount: exactly one of ``off_retail`` (from the retail price without its tax) and ``off_trade``."""

    __pydantic_config__ = ConfigDict(
        **Entry.__pydantic_config__, json_schema_extra={"minProperties": 1, "maxProperties": 1}
    )

    off_retail_percent: Annotated[Percentage | None, About(_PRICES)] = None
    off_trade_percent: Annotated[Percentage | None, About(_PRICES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms(Entry):
    """The terms of every order; money without a currency is in the maker's.

    ``enquiry`` names the terms that the public enquiry page shows.
    """

    opening: Annotated[Price | None, Field(alias="opening_order"), About(_ORDERS)] = None
    repeat: Annotated[Price | None, Field(alias="repeat_order"), About(_ORDERS)] = None
    lead_time: Annotated[FreeText, About(_ORDERS)]
    payment: Annotated[FreeText, About(_ORDERS)]
    carriage: Annotated[FreeText, About(_ORDERS)]
    returns: Annotated[FreeText, About(_ORDERS)]
    valid_from: Annotated[Day, Field(alias="from"), About(_DATES)]
    valid_until: Annotated[Day, Field(alias="until"), About(_DATES)]
    levels: Annotated[dict[Id, PriceLevel], About(_PRICES, "{...: {off_retail: ... %}}")] = field(
        default_factory=dict
    )
    rounding: Annotated[Rounding, About(_PRICES)] = Rounding.CENT
    testers: Annotated[FreeText | None, About(_ORDERS)] = None
    enquiry: Annotated[
        tuple[EnquiryTerm, ...],
        About(
            "the public page shows the terms that are listed here",
            "[lead_time, payment or another key of this file]",
        ),
    ] = ()
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Buyer(Entry):
    """One shop; money without a currency is in its own.

    ``language`` is None where the shop reads the maker's. ``offered`` is None where it may have everything offered
    to shops. A price of ``price_list`` comes before one of ``level``; a shop with neither pays the trade price.
    """

    id: Id
    name: Annotated[FreeText, About(_ORDERS)]
    level: Annotated[Reference | None, About(_PRICES, "... (a key of levels in trade/terms.yaml)")] = None
    price_list: Annotated[Reference | None, About(_PRICES, "... (the name of a list in prices.csv)")] = None
    country: Annotated[Country, About("tax and customs depend on it")]
    currency: Annotated[Currency, About("a price without its currency means nothing")]
    language: Annotated[
        FreeText | None, About("the buyer's sheet is written in it", "... (a language's code, such as de)")
    ] = None
    offered: Annotated[tuple[StockCode, ...] | None, About(_OFFERED, "[...]")] = None
    withheld: Annotated[tuple[StockCode, ...], About(_OFFERED, "[...]")] = ()
    opening: Annotated[Price | None, Field(alias="opening_order"), About(_ORDERS)] = None
    repeat: Annotated[Price | None, Field(alias="repeat_order"), About(_ORDERS)] = None
    contact: Annotated[FreeText | None, About("it names the person to write to at the shop")] = None
    bill_to: Annotated[tuple[FreeText, ...], About(_ORDERS, "[..., ...]")] = ()
    ship_to: Annotated[tuple[FreeText, ...], About(_ORDERS, "[..., ...]")] = ()
    tax_number: Annotated[FreeText | None, About(_ORDERS)] = None
    notes: Annotated[FreeText | None, About(NOTES)] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One row of ``prices.csv``: exactly one of ``stock_code`` and ``format``; both days count.

    ``includes_tax`` is the tax in the price, in percent of the price without it; 0 where it includes none.
    """

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    stock_code: Annotated[StockCode | None, About(_WHOSE)] = None
    format: Annotated[
        Reference | None, About(_WHOSE, "... (the name of a file in formats/, without .yaml)")
    ] = None
    list: Annotated[Id, About(_WHOSE, "... (retail, trade or a list of your own)")]
    currency: Annotated[Currency, About("a price without its currency means nothing")]
    price: Annotated[Price, About("it is printed and totalled on trade sheets")]
    includes_tax: Annotated[TaxWithin, About("prices are compared without tax")] = _WITHOUT_TAX
    from_: Annotated[Day | None, Field(alias="from"), About("on other days another price applies")] = None
    until: Annotated[Day | None, About("on other days another price applies")] = None

    def holds_on(self, day: date) -> bool:
        """Whether the price is valid on this day."""
        return (self.from_ is None or self.from_ <= day) and (self.until is None or day <= self.until)


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkVersion:
    """One row of ``trade/links.csv``: a buyer's link from a day on; the last row counts.

    ``link`` is the random name of the link, or ``ended``; ``name`` is the buyer's on that day. Rows older than
    seals have neither.
    """

    __pydantic_config__ = ConfigDict(extra="ignore", frozen=True)

    buyer: Annotated[Reference, About("a link belongs to one buyer", "... (a key of trade/buyers.yaml)")]
    version: Annotated[Count, About("an older version of a link opens nothing")]
    since: Annotated[Day, About("a link's version is identified by its day")]
    name: Annotated[FreeText | None, About("it shows when an id has been given to another shop")] = None
    link: Annotated[FreeText | None, About("the keys of a link are made with it")] = None
    seal: Annotated[FreeText | None, About("it shows when a row has been changed or deleted")] = None


def one_line(name: str) -> str:
    """A name in the form of a table's cell."""
    return harmless(" ".join(name.split()))


PriceSource = Literal["price list", "level", "trade price"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One stock code at one buyer's price; ``trade`` is without tax.

    ``retail`` is the suggested price for the buyer's customers, in the same currency, and includes
    ``retail_tax_percent`` of tax, 0 where there is none. ``margin_percent`` compares the two without tax, unrounded.
    ``made_for`` names the buyer of an own-label candle.
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


def smallest_orders(terms: Terms | None, buyer: Buyer, home: str) -> tuple[Money | None, Money | None]:
    """The minimum first order and reorder of a buyer, its own before that of the terms; None where none applies.

    ``home`` is the maker's currency. A minimum in another currency than the buyer's does not apply, and is never
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
    """A price if it is in the wanted currency; ``bare`` is assumed where it names none."""
    if price is None or (price.currency or bare) != wanted:
        return None
    return Money(rounded(price.amount, wanted), wanted)
