"""What a buyer pays: list prices, levels and trade prices, each in the buyer's own currency and never converted.

A price in the buyer's own list comes first, then its level's discount, then the trade price. A candle without a
price in the buyer's currency is not offered.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from generator.model.formats import Trade
from generator.model.money import CURRENCIES, Money, rounded
from generator.model.shop import Shop
from generator.model.sizes import Status
from generator.model.trade import (
    RETAIL_LIST,
    ROUNDING_STEPS,
    TRADE_LIST,
    Buyer,
    Offer,
    PriceLevel,
    PriceRow,
    PriceSource,
    Rounding,
)
from generator.rules.references import sizes
from generator.rules.trade.pricing import margin_percent, retail_without_tax

_NEVER_OFFERED = frozenset({Status.TRIAL, Status.DISCONTINUED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """An amount in a currency known from context, and the tax in it in percent of the amount without it."""

    amount: Decimal
    tax_percent: Decimal

    @property
    def net(self) -> Decimal:
        """The amount without its tax, unrounded."""
        return retail_without_tax(self.amount, self.tax_percent)


@dataclass(frozen=True, slots=True, kw_only=True)
class SaleEntry:
    """The prices of one stock code in the entries."""

    stock_code: str
    format: str | None
    price: Money | None
    trade: Trade
    made_for: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """The prices valid on the day of the papers, by list, currency, and code or format."""

    sold: tuple[SaleEntry, ...]
    by_code: Mapping[tuple[str, str, str], PriceRow]
    by_format: Mapping[tuple[str, str, str], PriceRow]
    levels: Mapping[str, PriceLevel]
    rounding: Rounding
    currency: str
    retail_tax_percent: Decimal

    def listed(self, list_: str, currency: str, sold: SaleEntry) -> Priced | None:
        """A list's price for a stock code, before its price for the code's format."""
        row = self.by_code.get((list_, currency, sold.stock_code))
        row = row or self.by_format.get((list_, currency, sold.format or ""))
        return None if row is None else Priced(amount=row.price.amount, tax_percent=row.includes_tax)

    def retail(self, currency: str, sold: SaleEntry) -> Priced | None:
        """The suggested price: the list of retail prices before the entry's own."""
        own = self._own(sold.price, currency, self.retail_tax_percent)
        return self.listed(RETAIL_LIST, currency, sold) or own

    def trade(self, currency: str, sold: SaleEntry) -> Priced | None:
        """The trade price: the list of trade prices before the entry's own, which is without tax."""
        own = self._own(sold.trade.price, currency, Decimal(0))
        return self.listed(TRADE_LIST, currency, sold) or own

    def _own(self, price: Money | None, currency: str, tax_percent: Decimal) -> Priced | None:
        if price is None or (price.currency or self.currency) != currency:
            return None
        return Priced(amount=price.amount, tax_percent=tax_percent)


def price_book(shop: Shop) -> PriceBook:
    """The prices of a shop on the day of its papers; of two that hold, the one that began last."""
    day, terms = shop.as_of, shop.terms
    holding = sorted((row for row in shop.prices if row.holds_on(day)), key=lambda row: row.from_ or date.min)
    return PriceBook(
        sold=tuple(_sold(shop)),
        by_code={(row.list, row.currency, row.stock_code): row for row in holding if row.stock_code},
        by_format={(row.list, row.currency, row.format): row for row in holding if row.format},
        levels=terms.levels if terms else {},
        rounding=terms.rounding if terms else Rounding.CENT,
        currency=shop.maker.currency,
        retail_tax_percent=Decimal(str(shop.maker.prices_include_tax_percent or 0)),
    )


def prices_for(shop: Shop, buyer: Buyer) -> tuple[Offer, ...]:
    """What one buyer is offered, in the order of the entries; for many buyers `offers_by_buyer` is quicker."""
    book = price_book(shop)
    return tuple(offer for offer in _offers(book, _bargain(buyer)) if is_offered(offer, buyer))


def offers_by_buyer(shop: Shop) -> Mapping[str, tuple[Offer, ...]]:
    """What every buyer is offered, by its id; buyers on the same level, list and currency are priced once."""
    book = price_book(shop)
    bargains = {_bargain(buyer) for buyer in shop.buyers.values()}
    priced = {bargain: tuple(_offers(book, bargain)) for bargain in bargains}
    return {
        id_: tuple(offer for offer in priced[_bargain(buyer)] if is_offered(offer, buyer))
        for id_, buyer in shop.buyers.items()
    }


def prices_by_level(shop: Shop) -> Mapping[str, Mapping[str, Decimal | None]]:
    """What buyers on each level pay in the maker's own currency, without tax, by its name and stock code.

    None where the price that the level takes its discount from is not recorded.
    """
    book = price_book(shop)
    return {name: dict(_of_level(book, name)) for name in book.levels}


def unpriced_by_buyer(shop: Shop) -> Mapping[str, tuple[str, ...]]:
    """The stock codes that each buyer may order but has no price for, by its id."""
    book = price_book(shop)
    bargains = {_bargain(buyer) for buyer in shop.buyers.values()}
    unpriced = {
        bargain: tuple(sold for sold in book.sold if _paid(book, bargain, sold) is None)
        for bargain in bargains
    }
    return {
        id_: tuple(sold.stock_code for sold in unpriced[_bargain(buyer)] if is_offered(sold, buyer))
        for id_, buyer in shop.buyers.items()
    }


def is_offered(one: Offer | SaleEntry, buyer: Buyer) -> bool:
    """Whether a buyer may order it: its own label always, another's never, else what it is offered."""
    if one.made_for is not None:
        return one.made_for == buyer.id
    among = buyer.offered is None or one.stock_code in buyer.offered
    return among and one.stock_code not in buyer.withheld


def off(exact: Decimal, discount_percent: Decimal) -> Decimal:
    """A price with a discount taken off, unrounded.

    price = exact (100 - discount) / 100

    exact: price before the discount, in its currency.
    discount_percent: discount in percent of that price, %.
    Holds for discounts from 0 to 100 %.
    Source: arithmetic of a percentage (COMPUTED).

    >>> off(Decimal("20.00"), Decimal(50))
    Decimal('10.00')
    """
    return exact * (100 - discount_percent) / 100


def rounded_to(exact: Decimal, rounding: Rounding, currency: str) -> Decimal:
    """A price at the nearest step of a named rounding, halves up.

    price = step round(exact / step), with step = the larger of the rounding's and the currency's smallest

    exact: price before rounding, in its currency.
    rounding: the named step, in hundredths of the currency's unit.
    currency: three letters of the currency.
    Holds for prices of zero and above.
    Source: half up is the usual rounding of price lists (PRACTICE).

    >>> rounded_to(Decimal("9.975"), Rounding.FIVE_CENTS, "GBP")
    Decimal('10.00')
    """
    step = max(ROUNDING_STEPS[rounding], Decimal(1).scaleb(-CURRENCIES[currency]))
    return rounded((exact / step).quantize(Decimal(1), rounding=ROUND_HALF_UP) * step, currency)


@dataclass(frozen=True, slots=True)
class _Bargain:
    """What buyers with the same prices have in common."""

    level: str | None
    price_list: str | None
    currency: str


def _bargain(buyer: Buyer) -> _Bargain:
    return _Bargain(buyer.level, buyer.price_list, buyer.currency)


def _sold(shop: Shop) -> Iterator[SaleEntry]:
    for _, candle, size, given in sizes(shop):
        if (size.status or candle.status) not in _NEVER_OFFERED:
            yield SaleEntry(
                stock_code=size.stock_code,
                format=size.format,
                price=size.price if size.price is not None else given.price,
                trade=size.trade or given.trade or Trade(),
                made_for=size.made_for,
            )


def _offers(book: PriceBook, bargain: _Bargain) -> Iterator[Offer]:
    for sold in book.sold:
        paid = _paid(book, bargain, sold)
        if paid is not None:
            yield _offer(book, bargain.currency, sold, paid)


def _of_level(book: PriceBook, name: str) -> Iterator[tuple[str, Decimal | None]]:
    bargain = _Bargain(level=name, price_list=None, currency=book.currency)
    for sold in book.sold:
        paid = _paid(book, bargain, sold)
        yield sold.stock_code, None if paid is None else paid[0]


def _paid(book: PriceBook, bargain: _Bargain, sold: SaleEntry) -> tuple[Decimal, PriceSource] | None:
    """The price without tax and where it comes from."""
    currency = bargain.currency
    listed = None if bargain.price_list is None else book.listed(bargain.price_list, currency, sold)
    if listed is not None:
        return rounded(listed.net, currency), "price list"
    level = book.levels.get(bargain.level or "")
    if level is not None:
        reduced = _reduced(book, level, currency, sold)
        return None if reduced is None else (rounded_to(reduced, book.rounding, currency), "level")
    trade = book.trade(currency, sold)
    return None if trade is None else (rounded(trade.net, currency), "trade price")


def _reduced(book: PriceBook, level: PriceLevel, currency: str, sold: SaleEntry) -> Decimal | None:
    """A level's price before rounding; a discount from retail is one from the price without tax."""
    if level.off_retail_percent is not None:
        retail = book.retail(currency, sold)
        return None if retail is None else off(retail.net, level.off_retail_percent)
    trade = book.trade(currency, sold)
    return None if trade is None else off(trade.net, level.off_trade_percent or Decimal(0))


def _offer(book: PriceBook, currency: str, sold: SaleEntry, paid: tuple[Decimal, PriceSource]) -> Offer:
    retail, (amount, source) = book.retail(currency, sold), paid
    tax_percent = retail.tax_percent if retail else Decimal(0)
    margin = margin_percent(retail.amount, amount, tax_percent) if retail and retail.amount else None
    return Offer(
        stock_code=sold.stock_code,
        trade=Money(amount, currency),
        retail=Money(rounded(retail.amount, currency), currency) if retail else None,
        retail_tax_percent=tax_percent,
        margin_percent=margin,
        case=sold.trade.case,
        minimum=sold.trade.minimum,
        source=source,
        made_for=sold.made_for,
    )
