"""A new row for the book of lots, and the file of the formula that its lot was poured by."""

from typing import Final

from generator.ledgers.append_revision import block
from generator.ledgers.book_rows import with_columns, with_row
from generator.model.lots import Lot, PouredFormula

_COLUMNS: Final = (
    "lot", "stock_code", "poured_on", "made", "sheet_revision", "sent_to", "formula_fingerprint", "drawn_from",
)  # fmt: skip
_BETWEEN: Final = "; "
_HEAD: Final = """\
# What lots of {stock_code} were poured by, written by `wickwright lots add` and kept under version control.
# Never changed: the rows of lots.csv name this file, and its name holds the fingerprint of what stands below.
"""


def with_lot(book: bytes, lot: Lot) -> bytes:
    """The book and a row below it; columns that the lot needs and the book lacks come behind those it has."""
    cells = {
        "lot": lot.lot,
        "stock_code": lot.stock_code,
        "poured_on": lot.poured_on.isoformat(),
        "made": str(lot.made),
        "sheet_revision": "" if lot.sheet_revision is None else str(lot.sheet_revision),
        "sent_to": _BETWEEN.join(lot.sent_to),
        "formula_fingerprint": lot.formula_fingerprint or "",
        "drawn_from": _BETWEEN.join(map(str, lot.drawn_from)),
    }
    needed = [column for column in _COLUMNS if cells[column]]
    return with_row(with_columns(book, needed), _COLUMNS, cells)


def poured_file(formula: PouredFormula) -> bytes:
    """The formula as a file of its own."""
    lines = "".join(f"{line}\n" for line in block(formula.record, 0))
    return (_HEAD.format(stock_code=formula.stock_code) + lines).encode()
