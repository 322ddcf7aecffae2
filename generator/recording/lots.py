"""A new row for the book of lots."""

from typing import Final

from generator.model.lots import Lot
from generator.recording.books import columns_of, with_row

_COLUMNS: Final = ("lot", "stock_code", "poured_on", "made", "sheet_revision", "sent_to")
_BETWEEN_NAMES: Final = "; "


def has_place_for(book: bytes, lot: Lot) -> bool:
    """Whether the book has a column for the lot's revision, if the lot has one."""
    return lot.sheet_revision is None or not book.strip() or "sheet_revision" in columns_of(book)


def with_lot(book: bytes, lot: Lot) -> bytes:
    """The book and a row below it."""
    cells = {
        "lot": lot.lot,
        "stock_code": lot.stock_code,
        "poured_on": lot.poured_on.isoformat(),
        "made": str(lot.made),
        "sheet_revision": "" if lot.sheet_revision is None else str(lot.sheet_revision),
        "sent_to": _BETWEEN_NAMES.join(lot.sent_to),
    }
    return with_row(book, _COLUMNS, cells)
