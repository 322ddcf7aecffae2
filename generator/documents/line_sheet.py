"""A buyer's lines as a table with the page's columns, with or without an order."""

from collections.abc import Mapping, Sequence
from typing import Final

from generator.document import PlainText
from generator.documents.csv_tables import BYTE_ORDER_MARK, as_table
from generator.documents.stock_lines import OfferedLine, Stock
from generator.model.money import of_coins
from generator.model.trade import Buyer, Offer

LINE_COLUMNS: Final = (
    "stock_code",
    "barcode",
    "collection",
    "scent",
    "size",
    "remark",
    "net_quantity",
    "burn_hours",
    "burn_hours_basis",
    "case",
    "case_g",
    "minimum",
    "currency",
    "trade_price",
    "retail_price",
    "retail_tax_percent",
    "margin_percent",
    "packs",
    "candles",
    "cost",
)
"""The columns: money and numbers with a decimal point, weights in whole grams; the last three belong to the order.

``packs`` counts cases, and candles where no case is recorded; ``case_g`` is then one candle's weight.
"""


def line_sheet(stock: Stock, buyer: Buyer, offers: Sequence[Offer], packs: Mapping[str, int]) -> PlainText:
    """The table of a buyer's sheet; ``packs`` is the order by stock code."""
    rows = (_cells(line, buyer.currency, packs) for line in stock.offered(buyer, offers))
    table = as_table(LINE_COLUMNS, rows)
    return PlainText(path=f"{buyer.id}.csv", text=f"{BYTE_ORDER_MARK}{table}")


def _cells(line: OfferedLine, currency: str, packs: Mapping[str, int]) -> Mapping[str, str]:
    said, offer, recorded = line.line.printed, line.printed, line.line.size.recorded
    ordered = packs.get(recorded.stock_code, 0)
    candles = ordered * (line.offer.case or 1)
    cost = of_coins(candles * int(str(offer["coins"])), currency)
    return {
        "stock_code": recorded.stock_code,
        "barcode": recorded.barcode or "",
        "collection": line.line.listed.shelf.collection.name,
        "scent": recorded.scent,
        "size": recorded.size_name,
        "remark": str(said["remark"]),
        "net_quantity": str(said["net_quantity"]),
        "burn_hours": str(said["hours"]),
        "burn_hours_basis": str(said["hours_basis"]),
        "case": str(offer["case"]),
        "case_g": str(offer["pack_g"]),
        "minimum": str(offer["least"]),
        "currency": currency,
        "trade_price": f"{of_coins(int(str(offer['coins'])), currency).amount}",
        "retail_price": str(offer["retail_plain"]),
        "retail_tax_percent": str(offer["retail_tax"]),
        "margin_percent": str(offer["margin_plain"]),
        "packs": str(ordered) if ordered else "",
        "candles": str(candles) if candles else "",
        "cost": f"{cost.amount}" if candles else "",
    }
