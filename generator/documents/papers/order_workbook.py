"""A buyer's lines as a spreadsheet to order with: the buyer types quantities, and it adds them up."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final

from generator.document import Cell, Look, Spreadsheet
from generator.documents.house import House
from generator.documents.printed import day
from generator.documents.stock_lines import OfferedLine, Stock
from generator.documents.terms import buyers_terms
from generator.model.money import CURRENCIES, of_coins
from generator.model.trade import Buyer, Offer, Terms

_HEADS: Final = (
    "stock_code", "barcode", "collection", "scent", "size", "net_quantity", "hours", "case", "minimum", "retail",
    "price", "packs", "cost",
)  # fmt: skip
_WIDTHS: Final = (10, 15, 16, 24, 26, 16, 16, 8, 10, 14, 14, 10, 14)
_PRICE, _PACKS, _COST = (chr(ord("A") + _HEADS.index(name)) for name in ("price", "packs", "cost"))
_CASE: Final = chr(ord("A") + _HEADS.index("case"))
_BLANK: Final = Cell("")


def order_form(stock: Stock, buyer: Buyer, offers: Sequence[Offer], terms: Terms) -> Spreadsheet:
    """The buyer's lines and terms; the cost of each line and the total are formulas."""
    house, words = stock.house, stock.house.words["order"]
    head = tuple(_head(stock, buyer, terms))
    lines = tuple(stock.offered(buyer, offers))
    first = len(head) + 1
    rows = tuple(_row(line, first + place, buyer) for place, line in enumerate(lines))
    return Spreadsheet(
        path=f"{buyer.id}.xlsx",
        name=words["order"],
        on=house.as_of,
        places=CURRENCIES[buyer.currency],
        widths=_WIDTHS,
        rows=(*head, *rows, _total(house, first, first + len(rows) - 1)),
    )


def _head(stock: Stock, buyer: Buyer, terms: Terms) -> Iterator[tuple[Cell, ...]]:
    """Whose prices they are, the terms, and the column names."""
    house, words = stock.house, stock.house.words["order"]
    names = {"buyer": buyer.name, "house": house.maker.name}
    yield (Cell(words["heading"].format(**names), Look.TITLE),)
    yield (Cell(words["lead"].format(**names)),)
    yield (Cell(words["day"].format(day=day(house.as_of, house.words), currency=buyer.currency)),)
    for term in buyers_terms(house, terms, buyer, stock.market_of(buyer)):
        yield Cell(str(term["name"])), _BLANK, Cell(str(term["text"]))
    yield (_BLANK,)
    yield tuple(Cell(words[name], Look.HEAD) for name in _HEADS)


def _row(line: OfferedLine, number: int, buyer: Buyer) -> tuple[Cell, ...]:
    said, recorded = line.line.printed, line.line.size.recorded
    retail = str(line.printed["retail_plain"])
    price = of_coins(int(str(line.printed["coins"])), buyer.currency).amount
    return (
        Cell(recorded.stock_code),
        Cell(recorded.barcode or ""),
        Cell(line.line.listed.shelf.collection.name),
        Cell(recorded.scent),
        Cell(recorded.size_name),
        Cell(str(said["net_quantity"])),
        Cell(f"{said['hours']}, {said['hours_basis']}" if said["hours_basis"] else str(said["hours"])),
        Cell(line.offer.case or 1),
        _BLANK if line.offer.minimum is None else Cell(line.offer.minimum),
        Cell(Decimal(retail), Look.MONEY) if retail else _BLANK,
        Cell(price, Look.MONEY),
        Cell("", Look.TO_FILL),
        Cell(f"={_PACKS}{number}*{_CASE}{number}*{_PRICE}{number}", Look.MONEY, is_formula=True),
    )


def _total(house: House, first: int, last: int) -> tuple[Cell, ...]:
    """The total of the lines; a form without lines has none."""
    label = (Cell(house.words["order"]["total"], Look.SUM), *(Cell("", Look.SUM),) * (len(_HEADS) - 2))
    sum_ = Cell(f"=SUM({_COST}{first}:{_COST}{last})", Look.SUM, is_formula=True)
    return (*label, sum_) if last >= first else ()
