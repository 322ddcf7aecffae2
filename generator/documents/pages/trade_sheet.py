"""The trade sheet: what shops pay, as a page to print and as a table for their own programs."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import groupby
from typing import Final

from generator.document import Document, PlainText, Value
from generator.documents.csv_tables import BYTE_ORDER_MARK, as_table
from generator.documents.frame import home_market
from generator.documents.house import House, SizeOf
from generator.documents.outlines import outline_of
from generator.documents.printed import day, measured, money, percent
from generator.documents.shelves import Standing
from generator.documents.stock import (
    ShelvedScent,
    estimate,
    hours_for_shops,
    listed_scents,
    listed_sizes,
    remark_for_shops,
)
from generator.drawing.drawings import Caption, shelf
from generator.model.markets import MARKETS
from generator.model.money import Money, rounded
from generator.model.sizes import Status

_COLUMNS: Final = ("stock_code", "collection", "scent", "size", "status")
_COLUMNS_BEHIND: Final = (
    "weight_estimate",
    "burn_hours",
    "burn_hours_basis",
    "case",
    "minimum",
    "currency",
    "trade_price",
    "retail_price",
    "retail_tax_percent",
    "margin_percent",
    "barcode",
)

_HEADS: Final = (
    "scent", "size", "code", "net_quantity", "weight_estimate", "hours", "case", "minimum",
    "trade_price", "retail", "margin", "barcode",
)  # fmt: skip
SHEET: Final = "workshop/trade.html"
TRADE_TABLE: Final = "workshop/trade.csv"


def columns() -> tuple[str, ...]:
    """The table's columns: a net quantity only where proven, money and numbers with a decimal point."""
    return *_COLUMNS, *(f"net_quantity_{market}" for market in MARKETS), *_COLUMNS_BEHIND


def listed_codes(house: House) -> frozenset[str]:
    """The stock codes listed for shops."""
    return frozenset(size.facts.stock_code for _, size in listed_sizes(house))


def trade_sheet(house: House) -> Document:
    """The sheet as a page to print."""
    words, maker = house.words["trade"], house.maker
    tax = maker.prices_include_tax_percent
    value: dict[str, Value] = {
        "title": words["title"].format(maker=maker.name),
        "language": maker.language,
        "heading": words["heading"],
        "house": maker.name,
        "contact": tuple(text for text in (*maker.address, maker.email, maker.phone) if text),
        "for_day": words["for_day"].format(day=day(house.as_of, house.words), currency=maker.currency),
        "tax": words["with_tax"].format(percent=percent(tax, house.words)) if tax else words["no_tax"],
        "estimate_note": words["estimate_note"],
        "private": words["private"],
        "heads": {name: words[name] for name in _HEADS},
        "shelves": tuple(
            _section(house, list(group))
            for _, group in groupby(listed_scents(house), key=lambda one: one.place)
        ),
    }
    return Document(path=SHEET, template="pages/trade.html", value=value)


def _section(house: House, listed: list[ShelvedScent]) -> Mapping[str, Value]:
    return {
        "id": listed[0].shelf.id,
        "name": listed[0].shelf.collection.name,
        "scents": tuple(
            {
                "scent": one.scent.candle.scent,
                "span": len(one.scent.sizes),
                "sizes": tuple(_size(house, one, size) for size in one.scent.sizes),
            }
            for one in listed
        ),
    }


def _size(house: House, listed: ShelvedScent, size: SizeOf) -> Mapping[str, Value]:
    facts = size.facts
    return {
        "drawing": _drawing(house, listed, size),
        "size": size.recorded.size_name,
        "code": facts.stock_code,
        "remark": remark_for_shops(house, listed, size),
        "net_quantity": measured(facts.declared.get(home_market(house)) or "", house.words),
        "weight_estimate": estimate(house, facts, home_market(house)),
        "hours": hours_for_shops(house, facts),
        "case": _whole(size.recorded.case),
        "minimum": _whole(size.recorded.minimum),
        "trade_price": _price(house, size.recorded.trade_price),
        "retail": _price(house, size.recorded.price),
        "margin": "" if facts.margin_percent is None else percent(facts.margin_percent, house.words),
        "barcode": size.recorded.barcode or "",
    }


def _drawing(house: House, listed: ShelvedScent, size: SizeOf) -> str:
    """The candle without its lid, at the scale of the sheet."""
    outline = replace(outline_of(size, listed.scent.candle, house.speech.materials), lid=None)
    title = f"{size.recorded.scent}, {size.object_name}"
    return shelf((outline,), Caption(name=f"trade-{size.facts.stock_code}-", title=title))


def _price(house: House, price: Money | None) -> str:
    if price is None:
        return house.words["trade"]["unpriced"]
    return money(price, house.maker.currency, home_market(house), house.words)


def _whole(number: int | None) -> str:
    return "" if number is None else str(number)


def trade_table(house: House) -> PlainText:
    """The same rows in the same order, as a table."""
    rows = (_cells(house, one, size) for one, size in listed_sizes(house))
    return PlainText(path=TRADE_TABLE, text=f"{BYTE_ORDER_MARK}{as_table(columns(), rows)}")


def _cells(house: House, listed: ShelvedScent, size: SizeOf) -> Mapping[str, str]:
    facts, recorded = size.facts, size.recorded
    burn, coming = facts.burn_hours, listed.standing is Standing.COMING
    tax, margin = house.maker.prices_include_tax_percent, facts.margin_percent
    return {
        "stock_code": recorded.stock_code,
        "collection": listed.shelf.collection.name,
        "scent": recorded.scent,
        "size": recorded.size_name,
        "status": Status.COMING.value if coming else recorded.status.value,
        **{f"net_quantity_{market}": facts.declared.get(market) or "" for market in MARKETS},
        "weight_estimate": estimate(house, facts, home_market(house)),
        "burn_hours": "" if burn is None else _whole(burn.claim),
        "burn_hours_basis": "" if burn is None or burn.claim is None else burn.basis,
        "case": _whole(recorded.case),
        "minimum": _whole(recorded.minimum),
        "currency": recorded.currency,
        "trade_price": _plain(recorded.currency, recorded.trade_price),
        "retail_price": _plain(recorded.currency, recorded.price),
        "retail_tax_percent": "" if tax is None else f"{tax:g}",
        "margin_percent": "" if margin is None else f"{round(margin, 1):f}",
        "barcode": recorded.barcode or "",
    }


def _plain(currency: str, price: Money | None) -> str:
    return "" if price is None else f"{rounded(price.amount, price.currency or currency)}"
