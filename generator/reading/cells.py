"""Comma-separated text as rows of placed cells: quotes, semicolons and tabs, any line ends."""

import re
from typing import Final, NamedTuple

from generator.problems import Place, Problem
from generator.reading.text_files import LINE_END, placing

_SEPARATORS: Final = ",;\t"
_TOLD: Final = re.compile(r'[\r\n]*"?sep=([,;\t])"?[ \t]*(?=[\r\n])', re.IGNORECASE)
"""A first line by which some spreadsheets say what parts the cells."""


class Cell(NamedTuple):
    """One cell's text, without its quotes and outer spaces, and where it begins."""

    text: str
    place: Place


Row = tuple[Cell, ...]


def rows_of(text: str, file: str) -> tuple[Row, ...] | Problem:
    """The rows that hold anything, without a first line that only says what parts the cells."""
    told, separator = _TOLD.match(text), separator_of(text)
    cell_and_end = re.compile(
        rf'(?:"([^"]*(?:""[^"]*)*)"|(?!")([^{separator}\r\n]*))({separator}|\r\n|\n|\r|\Z)'
    )
    place = placing(text, file)
    rows: list[Row] = []
    row: list[Cell] = []
    position, end = told.end() if told else 0, separator
    while end:
        match = cell_and_end.match(text, position)
        if match is None:
            return _unclosed(place(position))
        quoted, plain, end = match.groups()
        words = plain if quoted is None else quoted.replace('""', '"')
        row.append(Cell(words.strip(), place(position)))
        position = match.end()
        if end != separator:
            rows.append(tuple(row))
            row = []
    return tuple(row for row in rows if any(cell.text for cell in row))


def separator_of(text: str) -> str:
    """What parts the cells: what the first line says, or the sign that it uses most."""
    told = _TOLD.match(text)
    if told:
        return told[1]
    return max(_SEPARATORS, key=LINE_END.split(text.lstrip("\r\n"), maxsplit=1)[0].count)


def _unclosed(place: Place) -> Problem:
    return Problem(
        place=place,
        what="the quotes around this cell do not close where it ends",
        why="the cells after it would slip into other columns",
        write='the cell in one pair of quotes, and "" for a quote inside it',
    )
