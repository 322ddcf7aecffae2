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
from generator.model.entry import FOR_BUYERS, FOR_YOU, NOTES, NOTES_KEY, About, Entry, Key
from generator.model.money import Currency, Money, Price, rounded
from generator.model.quantities import Percentage, as_text, percentage, wrong
from generator.model.words import Count, FreeText, Id, Reference, StockCode

_ORDERS: Final = "every buyer's sheet prints it, and orders depend on it"
_DATES: Final = "a price without dates could be claimed for ever"
_PRICES: Final = "buyers' prices are calculated from it"
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

    off_retail_percent: Annotated[
        Percentage | None,
        About(_PRICES),
        Key("A discount from the retail price without its tax.", "50 %", FOR_YOU),
    ] = None
    off_trade_percent: Annotated[
        Percentage | None, About(_PRICES), Key("A discount from the trade price.", "5 %", FOR_YOU)
    ] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms(Entry):
    """The terms of every order; money without a currency is in the maker's.

    ``enquiry`` names the terms that the public enquiry page shows.
    """

    opening: Annotated[
        Price | None,
        Field(alias="opening_order"),
        About(_ORDERS),
        Key("The smallest first order.", "150.00", FOR_BUYERS),
    ] = None
    repeat: Annotated[
        Price | None,
        Field(alias="repeat_order"),
        About(_ORDERS),
        Key("The smallest order after the first.", "75.00", FOR_BUYERS),
    ] = None
    lead_time: Annotated[
        FreeText, About(_ORDERS), Key("How long an order takes.", "10 working days", FOR_BUYERS)
    ]
    payment: Annotated[
        FreeText,
        About(_ORDERS),
        Key("When and how shops pay.", "With the first order; 30 days from the second order on.", FOR_BUYERS),
    ]
    carriage: Annotated[
        FreeText,
        About(_ORDERS),
        Key(
            "Who pays for the delivery, and how much.",
            "£9.50 a carton in Great Britain, at cost elsewhere.",
            FOR_BUYERS,
        ),
    ]
    returns: Annotated[
        FreeText,
        About(_ORDERS),
        Key("What you take back.", "Breakages told within 3 days of delivery are replaced.", FOR_BUYERS),
    ]
    valid_from: Annotated[
        Day,
        Field(alias="from"),
        About(_DATES),
        Key("The first day of these terms and prices.", "2026-09-01", FOR_BUYERS),
    ]
    valid_until: Annotated[
        Day,
        Field(alias="until"),
        About(_DATES),
        Key("The last day of these terms and prices.", "2027-03-31", FOR_BUYERS),
    ]
    levels: Annotated[
        dict[Id, PriceLevel],
        About(_PRICES, "{...: {off_retail: ... %}}"),
        Key("Your discount levels, each by a name of your own.", "{shop: {off_retail: 50 %}}", FOR_YOU),
    ] = field(default_factory=dict)
    rounding: Annotated[
        Rounding, About(_PRICES), Key("How prices that are worked out are rounded.", "to 5 cents", FOR_YOU)
    ] = Rounding.CENT
    testers: Annotated[
        FreeText | None,
        About(_ORDERS),
        Key(
            "What you offer in the way of testers.",
            "One tester of each scent at half the trade price.",
            FOR_BUYERS,
        ),
    ] = None
    enquiry: Annotated[
        tuple[EnquiryTerm, ...],
        About(
            "the public page shows the terms that are listed here",
            "[lead_time, payment or another key of this file]",
        ),
        Key("The terms that the public page for shops may show.", "[lead_time, payment]", FOR_YOU),
    ] = ()
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Buyer(Entry):
    """One shop; money without a currency is in its own.

    ``language`` is None where the shop reads the maker's. ``offered`` is None where it may have everything offered
    to shops. A price of ``price_list`` comes before one of ``level``; a shop with neither pays the trade price.
    """

    id: Id
    name: Annotated[FreeText, About(_ORDERS), Key("The name of the shop.", "The Lamp Room", FOR_BUYERS)]
    level: Annotated[
        Reference | None,
        About(_PRICES, "... (a key of levels in trade/terms.yaml)"),
        Key("The shop's discount level: a key of levels in trade/terms.yaml.", "shop", FOR_YOU),
    ] = None
    price_list: Annotated[
        Reference | None,
        About(_PRICES, "... (the name of a list in prices.csv)"),
        Key("The shop's own price list in prices.csv; it comes before the level.", "ireland", FOR_YOU),
    ] = None
    country: Annotated[
        Country,
        About("tax and customs depend on it"),
        Key("The country of the shop, by its two letters.", "IE", FOR_YOU),
    ]
    currency: Annotated[
        Currency,
        About("a price without its currency means nothing"),
        Key("The currency the shop pays in.", "EUR", FOR_BUYERS),
    ]
    language: Annotated[
        FreeText | None,
        About("the buyer's sheet is written in it", "... (a language's code, such as de)"),
        Key("The language of its price sheet, if it is not yours.", "de", FOR_BUYERS),
    ] = None
    offered: Annotated[
        tuple[StockCode, ...] | None,
        About(_OFFERED, "[...]"),
        Key(
            "The only stock codes the shop is offered; without it, all of them.", "[SS-30, SS-22]", FOR_BUYERS
        ),
    ] = None
    withheld: Annotated[
        tuple[StockCode, ...],
        About(_OFFERED, "[...]"),
        Key("Stock codes the shop is not offered.", "[NL-3W]", FOR_YOU),
    ] = ()
    opening: Annotated[
        Price | None,
        Field(alias="opening_order"),
        About(_ORDERS),
        Key("Its smallest first order, if it is not that of the terms.", "180.00", FOR_BUYERS),
    ] = None
    repeat: Annotated[
        Price | None,
        Field(alias="repeat_order"),
        About(_ORDERS),
        Key("Its smallest order after the first, if it is not that of the terms.", "90.00", FOR_BUYERS),
    ] = None
    contact: Annotated[
        FreeText | None,
        About("it names the person to write to at the shop"),
        Key(
            "The person at the shop, and how to reach them.",
            "Merrin Oakshott, orders@fish-steps.example",
            FOR_BUYERS,
        ),
    ] = None
    bill_to: Annotated[
        tuple[FreeText, ...],
        About(_ORDERS, "[..., ...]"),
        Key(
            "The address for invoices, one item for each line.",
            "[Fish Steps Stores, 2 Fish Steps, Averness AV3 9QA]",
            FOR_BUYERS,
        ),
    ] = ()
    ship_to: Annotated[
        tuple[FreeText, ...],
        About(_ORDERS, "[..., ...]"),
        Key(
            "The address for parcels, one item for each line.",
            "[The Boat Shed, Slip Road, Carrow Head CH7 9QD]",
            FOR_BUYERS,
        ),
    ] = ()
    tax_number: Annotated[
        FreeText | None,
        About(_ORDERS),
        Key("The shop's VAT number or other tax number.", "SHOP 12", FOR_BUYERS),
    ] = None
    notes: Annotated[FreeText | None, About(NOTES), NOTES_KEY] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One row of ``prices.csv``: exactly one of ``stock_code`` and ``format``; both days count.

    ``includes_tax`` is the tax in the price, in percent of the price without it; 0 where it includes none.
    """

    __pydantic_config__ = ConfigDict(extra="forbid", frozen=True)

    stock_code: Annotated[
        StockCode | None,
        About(_WHOSE),
        Key("The stock code that the price is for, if it is for one alone.", "SS-30", FOR_BUYERS),
    ] = None
    format: Annotated[
        Reference | None,
        About(_WHOSE, "... (the name of a file in formats/, without .yaml)"),
        Key(
            "The size that the price is for, if it is for all candles of that size.", "tumbler-30", FOR_BUYERS
        ),
    ] = None
    list: Annotated[
        Id,
        About(_WHOSE, "... (retail, trade or a list of your own)"),
        Key("The price list: retail, trade or one of your own.", "ireland", FOR_YOU),
    ]
    currency: Annotated[
        Currency,
        About("a price without its currency means nothing"),
        Key("The currency of the price.", "EUR", FOR_BUYERS),
    ]
    price: Annotated[
        Price,
        About("it is printed and totalled on trade sheets"),
        Key("The price of one.", "13.20", FOR_BUYERS),
    ]
    includes_tax: Annotated[
        TaxWithin,
        About("prices are compared without tax"),
        Key("The tax that the price includes, or no.", "23 %", FOR_BUYERS),
    ] = _WITHOUT_TAX
    from_: Annotated[
        Day | None,
        Field(alias="from"),
        About("on other days another price applies"),
        Key("The first day of the price.", "2026-09-01", FOR_YOU),
    ] = None
    until: Annotated[
        Day | None,
        About("on other days another price applies"),
        Key("The last day of the price.", "2027-03-31", FOR_YOU),
    ] = None

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
