"""Tables for spreadsheets and other programs, as text that no program takes for formulas."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from generator.model.cell_text import harmless

BYTE_ORDER_MARK: Final = "\ufeff"
"""Without it at the start of a file, spreadsheets misread UTF-8 as an older encoding (PRACTICE)."""

_NUMBER: Final = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
_TO_QUOTE: Final = re.compile(r'[,;\t"\r\n]')


def as_table(columns: Sequence[str], rows: Iterable[Mapping[str, str]]) -> str:
    """The column names and a line for each row, separated by commas (RFC 4180)."""
    lines = (columns, *([cells[column] for column in columns] for cells in rows))
    return "".join(f"{','.join(map(_cell, line, range(len(line))))}\n" for line in lines)


def _cell(text: str, place: int) -> str:
    """A text that a spreadsheet shows as it is, and a number that it counts with.

    A line's first cell is no number with a sign: split elsewhere than at commas, it would run on into the line.
    """
    shown = text if place and _NUMBER.fullmatch(text) else harmless(text)
    quoted = shown.replace('"', '""')
    return f'"{quoted}"' if _TO_QUOTE.search(shown) else shown
