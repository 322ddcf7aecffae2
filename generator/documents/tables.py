"""Tables for spreadsheets and other programs, as text."""

import csv
from collections.abc import Iterable, Mapping, Sequence
from io import StringIO
from typing import Final

BYTE_ORDER_MARK: Final = "\ufeff"
"""Without it at the beginning of a file spreadsheets take UTF-8 for something older (PRACTICE)."""

_STARTS_A_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")


def as_table(columns: Sequence[str], rows: Iterable[Mapping[str, str]]) -> str:
    """The columns' names and a line for each row."""
    written = StringIO()
    table = csv.writer(written, lineterminator="\n")
    table.writerow(columns)
    for cells in rows:
        table.writerow([_harmless(cells[column]) for column in columns])
    return written.getvalue()


def _harmless(cell: str) -> str:
    """A cell that a spreadsheet shows as text, whatever it begins with."""
    return f"'{cell}" if cell.startswith(_STARTS_A_FORMULA) else cell
