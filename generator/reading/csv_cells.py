"""Comma-separated text as rows of placed cells: quotes, semicolons and tabs, any line ends."""

import re
from collections.abc import Collection, Iterator, Sequence
from typing import Final, NamedTuple

from generator.problems import Place, Problem
from generator.reading.text_files import LINE_END, LONGEST_TEXT, too_long

MOST_CELLS: Final = 300_000
"""The most cells of one table; twenty thousand lots, each with five of the maker's own columns, have fewer."""

_SEPARATORS: Final = ",;\t"
_TOLD: Final = re.compile(r'[\r\n]*"?sep=([,;\t])"?[ \t]*(?=[\r\n])', re.IGNORECASE)
"""A first line in which some spreadsheets name the separator."""


class CsvCell(NamedTuple):
    """One cell's text, without its quotes and outer spaces, and where it begins."""

    text: str
    place: Place


CsvRow = tuple[CsvCell, ...]


def rows_of(text: str, file: str) -> tuple[CsvRow, ...] | Problem:
    """The rows that are not empty, without a first line that only names the separator."""
    told, separator = _TOLD.match(text), separator_of(text)
    cell_and_end = re.compile(
        rf'(?:"([^"]*(?:""[^"]*)*)"|(?!")([^{separator}\r\n]*))({separator}|\r\n|\n|\r|\Z)'
    )
    rows: list[CsvRow] = []
    row: list[CsvCell] = []
    cells = 0
    position, end = told.end() if told else 0, separator
    line, start = 1 + len(LINE_END.findall(text, 0, position)), position
    while end:
        place = Place(file, line, position - start + 1)
        match = cell_and_end.match(text, position)
        if match is None:
            return _unclosed(place)
        quoted, plain, end = match.groups()
        words = plain if quoted is None else quoted.replace('""', '"')
        if len(words) > LONGEST_TEXT:
            return too_long(len(words), place)
        cells += 1
        if cells > MOST_CELLS:
            return _too_many(place)
        row.append(CsvCell(words.strip(), place))
        if quoted is not None or end != separator:
            for line_end in LINE_END.finditer(text, position, match.end()):
                line, start = line + 1, line_end.end()
        position = match.end()
        if end != separator:
            rows.append(tuple(row))
            row = []
    return tuple(row for row in rows if any(cell.text for cell in row))


def separator_of(text: str) -> str:
    """The separator: as named in the first line, or the candidate most frequent in it."""
    told = _TOLD.match(text)
    if told:
        return told[1]
    return max(_SEPARATORS, key=LINE_END.split(text.lstrip("\r\n"), maxsplit=1)[0].count)


def _too_many(place: Place) -> Problem:
    return Problem(
        place=place,
        what=f"the table has more than {MOST_CELLS} cells up to here",
        why="no shop's table has so many, so this may be the wrong file",
        fix="remove the columns and rows that the table does not need",
    )


def _unclosed(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the quotes around this cell are not closed where it ends",
        why="the cells after it would move into other columns",
        fix='put one pair of quotes around the cell, and "" for a quote inside it',
    )


_COMMA: Final = re.compile(r"(?<=[0-9]),(?=[0-9])")
_POINT: Final = re.compile(r"(?<=[0-9])\.(?=[0-9])")


def with_points(
    rows: Sequence[CsvRow], figures: Collection[int], separator: str
) -> tuple[CsvRow, ...] | Problem:
    """The rows with decimal points in the figures of these columns; or why the commas cannot be read.

    Where cells are separated by semicolons or tabs, as in German and French spreadsheets, a comma between digits is
    the decimal sign, unless other figures of the same table have points. A single comma is reported with its own cell.
    """
    cells = [row[at] for row in rows for at in figures if at < len(row)]
    commas = [cell for cell in cells if _COMMA.search(cell.text)]
    if not commas:
        return tuple(rows)
    if separator != "," and not any(_POINT.search(cell.text) for cell in cells):
        return tuple(tuple(_pointed(row, figures)) for row in rows)
    if len(commas) == 1:
        return tuple(rows)
    mixed = ", while other figures use points" if separator != "," else ""
    return Problem(
        place=commas[0].place,
        what=f"'{commas[0].text}' is written with a comma, as are {len(commas) - 1} more cells{mixed}",
        why="a comma means thousands to some readers and decimals to others",
        fix=(
            "use points for decimals throughout, or save with semicolons between cells and commas throughout"
        ),
    )


def _pointed(row: CsvRow, figures: Collection[int]) -> Iterator[CsvCell]:
    for at, cell in enumerate(row):
        yield cell._replace(text=_COMMA.sub(".", cell.text)) if at in figures else cell
