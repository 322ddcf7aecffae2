"""New rows for the books of trade links and of lots; existing content stays, byte for byte."""

import csv
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from typing import Final

from generator.ledgers.append_revision import block
from generator.model.lots import Lot, PouredFormula
from generator.model.notified import MadeUfi
from generator.model.trade import LinkVersion
from generator.model.trade_links import seal_of_link, seals_of

_SEPARATORS: Final = ",;\t"
_TOLD: Final = re.compile(r'(?:[\r\n]*"?sep=[,;\t]"?[ \t]*(?=[\r\n]))?', re.IGNORECASE)
"""An optional first line that only names the separator."""

_LINE: Final = re.compile(r'(?:"[^"]*"|[^"\r\n])+')
"""A line with all its quoted cells, which may contain line ends."""


def with_row(book: bytes, columns: Sequence[str], cells: Mapping[str, str]) -> bytes:
    """The book with a row below it, in its own columns, separator and line ends; the maker's own columns stay empty.

    ``columns`` are those of a book begun with this row.
    """
    if not book.strip():
        return _row(columns, ",", "\n") + _row([cells[column] for column in columns], ",", "\n")
    text = book.decode("utf-8-sig")
    end = _line_end(text)
    separator = _separator(text, end)
    broken_off = b"" if text.endswith(("\n", "\r")) else end.encode()
    row = [cells.get(column, "") for column in _columns_of(book)]
    return book + broken_off + _row(row, separator, end)


def with_columns(book: bytes, columns: Sequence[str]) -> bytes:
    """The book with the columns it lacks added to its first line; the rows stay unchanged."""
    text = book.decode("utf-8-sig")
    lines = _LINE.finditer(text, _begins(text))
    header = next((line for line in lines if line[0].strip(f" {_SEPARATORS}")), None)
    lacking = [] if header is None else [name for name in columns if name not in _columns_of(book)]
    if header is None or not lacking:
        return book
    separator = _separator(text, _line_end(text))
    named = header[0].rstrip(f"{separator} ")
    # Rows may be as long as a first line that ends in empty cells: it must not become shorter.
    empty = header[0].count(separator) - named.count(separator) - len(lacking)
    longer = separator.join((named, *lacking, *[""] * empty))
    mark = book[: len(book) - len(text.encode())]
    return mark + (text[: header.start()] + longer + text[header.end() :]).encode()


def _columns_of(book: bytes) -> tuple[str, ...]:
    """The columns of an existing book, in lower case."""
    text = book.decode("utf-8-sig")
    rows = csv.reader(
        io.StringIO(text[_begins(text) :], newline=""), delimiter=_separator(text, _line_end(text))
    )
    header = next(row for row in rows if any(cell.strip() for cell in row))
    return tuple(column.strip().lower() for column in header)


def _begins(text: str) -> int:
    found = _TOLD.match(text)
    return found.end() if found else 0


def _separator(text: str, end: str) -> str:
    """The separator of the book's first line."""
    return max(_SEPARATORS, key=text.lstrip("\r\n").partition(end)[0].count)


def _line_end(text: str) -> str:
    """The line end of the book's first line."""
    found = re.search(r"\r\n|\n|\r", text)
    return found[0] if found else "\n"


def _row(cells: Sequence[str], separator: str, end: str) -> bytes:
    text = io.StringIO()
    csv.writer(text, delimiter=separator, lineterminator=end).writerow(cells)
    return text.getvalue().encode()


LINK_COLUMNS: Final = tuple(field.name for field in fields(LinkVersion))


def sealed_behind(
    key: bytes, rows: Sequence[LinkVersion], more: Sequence[LinkVersion]
) -> tuple[LinkVersion, ...]:
    """All rows, the new ones sealed after the existing ones."""
    sealed = list(rows)
    before = "" if not rows else rows[-1].seal or seals_of(key, rows)[-1]
    for row in more:
        before = seal_of_link(key, row, before)
        sealed.append(replace(row, seal=before))
    return tuple(sealed)


def with_link(book: bytes, link: LinkVersion) -> bytes:
    """The book and a row below it."""
    cells = {
        "buyer": link.buyer,
        "version": str(link.version),
        "since": link.since.isoformat(),
        "name": link.name or "",
        "link": link.link or "",
        "seal": link.seal or "",
    }
    return with_row(with_columns(book, LINK_COLUMNS), LINK_COLUMNS, cells)


_COLUMNS: Final = (
    "lot", "stock_code", "poured_on", "made", "sheet_revision", "sent_to", "formula_fingerprint", "drawn_from",
)  # fmt: skip
_BETWEEN: Final = "; "
_HEAD: Final = """\
# What lots of {stock_code} were poured by, written by `wickwright lots add` and kept under version control.
# Never changed: the rows of lots.csv name this file, and its name holds the fingerprint of what stands below.
"""


def with_lot(book: bytes, lot: Lot) -> bytes:
    """The book with a row below it; columns that the lot needs and the book lacks follow the existing ones."""
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
    """The formula as a separate file."""
    lines = "".join(f"{line}\n" for line in block(formula.record, 0))
    return (_HEAD.format(stock_code=formula.stock_code) + lines).encode()


_UFI_COLUMNS: Final = ("ufi", "stock_code", "made_on", "shares")


def with_made_ufi(book: bytes, made: MadeUfi) -> bytes:
    """The book of UFIs and a row below it; columns that the book lacks come behind those it has."""
    cells = {
        "ufi": made.ufi,
        "stock_code": made.stock_code,
        "made_on": made.made_on.isoformat(),
        "shares": _BETWEEN.join(map(str, made.shares)),
    }
    return with_row(with_columns(book, _UFI_COLUMNS), _UFI_COLUMNS, cells)
