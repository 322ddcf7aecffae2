"""Checks of the price lists: every row must state whose price it is, in one way, and leave shops a margin."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Final

from generator.model.accepted import check_of
from generator.model.money import rounded
from generator.model.shop import Shop
from generator.model.trade import RETAIL_LIST, TRADE_LIST, PriceRow
from generator.problems import Fault, Path, warning
from generator.rules.references import IsBroken, folders_of, id_faults
from generator.rules.trade.prices import PriceBook, SaleEntry, price_book

_PRICES: Final = "prices.csv"


def price_list_faults(shop: Shop, is_broken: IsBroken) -> Iterator[Fault]:
    """Every fault of a row, and of rows that answer the same question."""
    folders = folders_of(shop, is_broken)
    why = "no one would be charged this price"
    for number, row in enumerate(shop.prices):
        path = (_PRICES, number)
        if (row.stock_code is None) == (row.format is None):
            yield _of_what(path, row)
            continue
        if row.stock_code is not None:
            yield from id_faults(
                (*path, "stock_code"), row.stock_code, replace(folders["stock code"], why=why)
            )
        if row.format is not None:
            yield from id_faults((*path, "format"), row.format, replace(folders["format"], why=why))
        yield from _alone(path, row)
        if not is_broken("buyer", "*"):
            yield from _of_nobody((*path, "list"), row, shop)
    yield from _overlapping(shop)
    yield from _above_retail(shop)


def _of_what(path: Path, row: PriceRow) -> Fault:
    both = row.stock_code is not None
    what = f"the row names both stock code {row.stock_code} and format '{row.format}'"
    return Fault(
        path=(*path, "format") if both else path,
        what=what if both else "the row names neither a stock code nor a format",
        why="a price is for one candle, or for all in one format",
        fix="empty one of the two cells" if both else "enter a stock code or a format",
    )


def _alone(path: Path, row: PriceRow) -> Iterator[Fault]:
    """What is wrong with a row by itself."""
    if row.price.currency not in (None, row.currency):
        yield Fault(
            path=(*path, "price"),
            what=f"the price is in {row.price.currency}, but the row's currency is {row.currency}",
            why="only one of the two can be charged",
            fix=f"{row.price.amount}, or {row.price.currency} as the row's currency",
        )
    if row.from_ is not None and row.until is not None and row.until < row.from_:
        yield Fault(
            path=(*path, "until"),
            what=f"until {row.until} is before from {row.from_}",
            why="the price would never apply",
            fix=f"a day after {row.from_}",
        )


def _of_nobody(path: Path, row: PriceRow, shop: Shop) -> Iterator[Fault]:
    used = {buyer.price_list for buyer in shop.buyers.values() if buyer.price_list}
    if row.list not in {RETAIL_LIST, TRADE_LIST, *used}:
        known = ", ".join((RETAIL_LIST, TRADE_LIST, *sorted(used)))
        yield warning(
            path=path,
            what=f"no buyer has the price list '{row.list}'",
            why="no one would be shown the price",
            fix=f"{known}, or price_list: {row.list} for a buyer in trade/buyers.yaml",
            check=check_of("idle-list", row.list),
        )


def _overlapping(shop: Shop) -> Iterator[Fault]:
    """Two prices for one thing on one day."""
    seen: dict[tuple[str, ...], list[tuple[int, PriceRow]]] = {}
    for number, row in enumerate(shop.prices):
        key = (row.list, row.currency, row.stock_code or "", row.format or "")
        earlier = next((at for at, other in seen.get(key, ()) if _share_a_day(row, other)), None)
        if earlier is not None:
            yield Fault(
                path=(_PRICES, number, "price"),
                what=(
                    f"list '{row.list}' has two prices in {row.currency} for {row.stock_code or row.format} "
                    "on one day"
                ),
                why=(
                    f"a buyer could insist on the lower one (the other is in row {earlier + 1} "
                    "below the header)"
                ),
                fix="end the earlier row with until, a day before this one's from",
            )
        seen.setdefault(key, []).append((number, row))


def _share_a_day(one: PriceRow, other: PriceRow) -> bool:
    begins = max(one.from_ or date.min, other.from_ or date.min)
    return begins <= min(one.until or date.max, other.until or date.max)


def _above_retail(shop: Shop) -> Iterator[Fault]:
    """Prices valid today at which a shop would lose money."""
    book = price_book(shop)
    for number, row in enumerate(shop.prices):
        if row.holds_on(shop.as_of):
            for sold in book.sold:
                if row.stock_code == sold.stock_code or (row.format and row.format == sold.format):
                    yield from _loss((_PRICES, number, "price"), row, book, sold)


def _loss(path: Path, row: PriceRow, book: PriceBook, sold: SaleEntry) -> Iterator[Fault]:
    """The list's price above the customers', or that of the entry above the list of retail prices."""
    if row.list == RETAIL_LIST and book.listed(TRADE_LIST, row.currency, sold) is not None:
        return
    paid = (
        book.trade(row.currency, sold)
        if row.list == RETAIL_LIST
        else book.listed(row.list, row.currency, sold)
    )
    retail = book.retail(row.currency, sold)
    if paid is None or retail is None or not retail.net or paid.net <= retail.net:
        return
    asked, most = rounded(paid.net, row.currency), rounded(retail.net, row.currency)
    yield warning(
        path=path,
        what=f"{sold.stock_code} costs a shop {asked} {row.currency}, but its customers {most} without tax",
        why="a shop would lose money on it",
        fix=_remedy(row, asked, most),
        check=check_of("loss", sold.stock_code),
    )


def _remedy(row: PriceRow, asked: Decimal, most: Decimal) -> str:
    if row.list == RETAIL_LIST:
        return f"more than {asked} without tax"
    return f"less than {most}" if not row.includes_tax else f"less than {most} without tax"
