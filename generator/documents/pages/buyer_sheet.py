"""One buyer's price sheet and order: its candles at its prices, on one page that needs no other file."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Final

from generator.document import Document, Value
from generator.documents.house import House
from generator.documents.line_sheet import LINE_COLUMNS
from generator.documents.printed import around_money, day, listed, money, parcel_unit, percent
from generator.documents.stock_lines import OfferedLine, Stock
from generator.documents.terms import buyers_terms
from generator.model.markets import Market
from generator.model.money import CURRENCIES, in_coins
from generator.model.trade import Buyer, Offer, Terms, smallest_orders

_HEADS: Final = (
    "scent", "size", "code", "net_quantity", "hours", "case", "retail", "price", "packs", "cost",
)  # fmt: skip
_PRINTED: Final = (
    "nothing", "order", "kept", "back_orders_yes", "back_orders_no", "mail", "copy", "table", "print", "clear",
    "text_label", "total",
)  # fmt: skip
"""The words that the page prints unchanged."""

_SCRIPT: Final = (
    "loose_pieces", "weight", "weight_unknown", "total_empty",
    "reached", "to_reach", "too_few", "copied", "not_copied", "mail_long", "mail_paste", "clear_sure", "not_kept",
    "text_line", "text_cases", "total",
)  # fmt: skip
"""The words that the page's script puts together."""


def buyer_sheet(stock: Stock, buyer: Buyer, offers: Sequence[Offer], terms: Terms) -> Document:
    """The sheet; ``offers`` are the buyer's own, without what is out of season."""
    house, maker, market = stock.house, stock.house.maker, stock.market_of(buyer)
    words, lines = house.words["order"], tuple(stock.offered(buyer, offers))
    names = {"buyer": buyer.name, "house": maker.name}
    value: dict[str, Value] = {
        "language": maker.language,
        "title": words["title"].format(**names),
        "heading": words["heading"].format(**names),
        "lead": words["lead"].format(**names),
        "day": words["day"].format(day=day(house.as_of, house.words), currency=buyer.currency),
        "house": maker.name,
        "contact": tuple(text for text in (*maker.address, maker.email, maker.phone) if text),
        "terms": tuple(buyers_terms(house, terms, buyer, market)),
        "tax": _tax(house, lines),
        "estimate_note": house.words["trade"]["estimate_note"],
        "no_script": words["no_script"].format(contact=maker.email),
        "heads": {name: words[name] for name in _HEADS},
        "drawings": "".join(dict.fromkeys(line.line.drawn.symbol for line in lines)),
        "shelves": tuple(
            _shelf(list(group)) for _, group in groupby(lines, lambda line: line.line.listed.place)
        ),
        "words": {name: words[name] for name in _PRINTED},
        "fields": tuple(_fields(house, buyer)),
        "script": _script(house, terms, buyer, market),
    }
    return Document(path=f"workshop/trade/{buyer.id}.html", template="pages/buyer_sheet.html", value=value)


def _tax(house: House, lines: Sequence[OfferedLine]) -> str:
    """Which of the prices include tax, so that the two are not compared directly."""
    within = sorted({line.offer.retail_tax_percent for line in lines if line.offer.retail_tax_percent})
    words = house.words["order"]
    if not within:
        return words["without_tax"]
    return words["with_tax"].format(
        percent=listed((percent(each, house.words) for each in within), house.words)
    )


def _shelf(lines: Sequence[OfferedLine]) -> Mapping[str, Value]:
    shelf = lines[0].line.listed.shelf
    scents = groupby(lines, lambda line: line.line.listed.scent.candle)
    return {
        "id": shelf.id,
        "name": shelf.collection.name,
        "scents": tuple(
            {"scent": candle.scent, "sizes": tuple(each.row for each in group)} for candle, group in scents
        ),
    }


def _fields(house: House, buyer: Buyer) -> Iterator[Mapping[str, Value]]:
    """The heading of a buyer's order, filled in as far as the maker knows it."""
    words, bill_to = house.words["order"], buyer.bill_to or (buyer.name,)
    known = (
        ("number", "text", ()),
        ("placed_by", "text", (buyer.contact,) if buyer.contact else ()),
        ("tax_number", "text", (buyer.tax_number,) if buyer.tax_number else ()),
        ("bill_to", "lines", bill_to),
        ("ship_to", "lines", buyer.ship_to or bill_to),
        ("remarks", "lines", ()),
        ("ship_from", "date", ()),
        ("ship_until", "date", ()),
        ("back_orders", "choice", ()),
    )
    for name, kind, lines in known:
        yield {"name": name, "label": words[name], "kind": kind, "value": "\n".join(lines)}


def _script(house: House, terms: Terms, buyer: Buyer, market: Market) -> Mapping[str, Value]:
    """What the page's script needs besides the table; it works out the sums."""
    words, maker = house.words["order"], house.maker
    names = {"buyer": buyer.name, "house": maker.name}
    unit, unit_g = parcel_unit(market)
    return {
        "kept_as": f"order {maker.name} {buyer.id} {buyer.currency}",
        "file": f"{words['file'].format(buyer=buyer.id)}.csv",
        "mail_to": maker.email,
        "title": words["text_title"].format(**names),
        "subject": words["subject"].format(**names),
        "subject_number": words["subject_number"].format(**names, number="{number}"),
        "currency": buyer.currency,
        "places": CURRENCIES[buyer.currency],
        "around_money": around_money(buyer.currency, market, house.words),
        "unit": unit,
        "signs": {name: house.words["numbers"][name] for name in ("decimal", "thousands")},
        "unit_g": str(unit_g),
        "columns": LINE_COLUMNS,
        "smallest": tuple(
            {
                "name": words[name],
                "amount": money(smallest, buyer.currency, market, house.words),
                "coins": in_coins(smallest.amount, buyer.currency),
            }
            for name, smallest in zip(
                ("opening", "repeat"), smallest_orders(terms, buyer, maker.currency), strict=True
            )
            if smallest is not None
        ),
        "words": {name: words[name] for name in _SCRIPT},
        "counted": {"candles": house.words["counted_candles"], "cases": house.words["counted_cases"]},
    }
