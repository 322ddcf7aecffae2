"""A new row for the book of lots: whatever stands in it already stays as it is, byte for byte."""

import csv
import io
import re
from collections.abc import Mapping, Sequence
from typing import Final

from generator.model.lots import Lot

_COLUMNS: Final = ("lot", "stock_code", "poured_on", "made", "sheet_revision", "sent_to")
_SEPARATORS: Final = ",;\t"
_BETWEEN_NAMES: Final = "; "


def with_lot(book: bytes, lot: Lot) -> bytes:
    """The book and a row below it, in its own columns, separator and line ends; the maker's own columns stay empty."""
    if not book.strip():
        return _row(_COLUMNS, ",", "\n") + _row(_in_order(_COLUMNS, lot), ",", "\n")
    text = book.decode("utf-8-sig")
    end = _line_end(text)
    separator = max(_SEPARATORS, key=text.lstrip("\r\n").partition(end)[0].count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    header = next(row for row in rows if any(cell.strip() for cell in row))
    broken_off = b"" if text.endswith(("\n", "\r")) else end.encode()
    return book + broken_off + _row(_in_order(header, lot), separator, end)


def _line_end(text: str) -> str:
    """The line end of the book's first line."""
    found = re.search(r"\r\n|\n|\r", text)
    return found[0] if found else "\n"


def _in_order(columns: Sequence[str], lot: Lot) -> list[str]:
    cells: Mapping[str, str] = {
        "lot": lot.lot,
        "stock_code": lot.stock_code,
        "poured_on": lot.poured_on.isoformat(),
        "made": str(lot.made),
        "sheet_revision": "" if lot.sheet_revision is None else str(lot.sheet_revision),
        "sent_to": _BETWEEN_NAMES.join(lot.sent_to),
    }
    return [cells.get(column.strip().lower(), "") for column in columns]


def _row(cells: Sequence[str], separator: str, end: str) -> bytes:
    text = io.StringIO()
    csv.writer(text, delimiter=separator, lineterminator=end).writerow(cells)
    return text.getvalue().encode()
