"""Decimal commas of tables: read where no comma parts the cells, and told once where they could mean anything."""

import re
from collections.abc import Collection, Iterator, Sequence
from typing import Final

from generator.problems import Problem
from generator.reading.csv_cells import Cell, Row

_COMMA: Final = re.compile(r"(?<=[0-9]),(?=[0-9])")
_POINT: Final = re.compile(r"(?<=[0-9])\.(?=[0-9])")


def with_points(rows: Sequence[Row], figures: Collection[int], separator: str) -> tuple[Row, ...] | Problem:
    """The rows with points in their figures, which stand in these columns; or why the commas cannot be read.

    Where cells are parted by semicolons or tabs, as in German and French spreadsheets, a comma between digits is the
    decimal sign, unless other figures of the same table have points. A single comma is told with its own cell.
    """
    cells = [row[at] for row in rows for at in figures if at < len(row)]
    commas = [cell for cell in cells if _COMMA.search(cell.text)]
    if not commas:
        return tuple(rows)
    if separator != "," and not any(_POINT.search(cell.text) for cell in cells):
        return tuple(tuple(_pointed(row, figures)) for row in rows)
    if len(commas) == 1:
        return tuple(rows)
    mixed = ", and other figures have points" if separator != "," else ""
    return Problem(
        place=commas[0].place,
        what=f"'{commas[0].text}' is written with a comma, and so are {len(commas) - 1} more cells{mixed}",
        why="a comma separates thousands for some readers and decimals for others",
        write="points for decimals throughout, or save with semicolons between the cells and commas throughout",
    )


def _pointed(row: Row, figures: Collection[int]) -> Iterator[Cell]:
    for at, cell in enumerate(row):
        yield cell._replace(text=_COMMA.sub(".", cell.text)) if at in figures else cell
