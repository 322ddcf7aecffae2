"""Tables as records of named cells: the header's columns by name, each cell with its place."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import chain, islice
from typing import Any, Final, get_origin

from generator.problems import Place, Problem, Spot, Step
from generator.reading.csv_cells import CsvRow, rows_of, separator_of, with_points
from generator.reading.fields import bare, choices_of_keys, has_keys, keys_of, required_keys
from generator.reading.meant import nearest

Columns = Mapping[str, tuple[str, ...]]
"""Each column's name and the key it fills; a column such as ``m_acute`` fills a nested key.

The maker's own columns fill none.
"""

Keys = tuple[tuple[str, ...], ...]
"""The key that each column of a table fills."""

MOST_TOLD_OF_TABLE: Final = 50
"""How many faults of one table are reported; so many are usually the same one repeated."""

_HER_OWN: Final = ()
"""The key of one of the maker's own columns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Records as plain data, and the spots of their cells; rows are counted from 0, as the model does."""

    records: tuple[dict[str, Any], ...]
    spots: Callable[[], Spot]


def table_of(text: str, file: str, kind: Any) -> Table | tuple[Problem, ...]:
    """Read a table whose columns are the keys of ``kind``, or report what is wrong with its writing."""
    rows = rows_of(text, file)
    if isinstance(rows, Problem):
        return (rows,)
    if not rows or (len(rows) < 2 and not _grows(kind)):
        return (_without_rows(rows, Place(file, 1, 1), kind),)
    first, *below = rows
    header = _without_empty_end(first)
    faults = chain(_faults_of_header(header, kind), _faults_of_rows(header, len(first), below))
    problems = tuple(islice(faults, MOST_TOLD_OF_TABLE))
    if problems:
        return problems
    columns = _columns_of(kind)
    keys = tuple(columns.get(cell.text.lower(), _HER_OWN) for cell in header)
    figures = [at for at, way in enumerate(keys) if way != _HER_OWN and _holds_figures(kind, way)]
    read = with_points(below, figures, separator_of(text))
    if isinstance(read, Problem):
        return (read,)
    return Table(
        records=tuple(_record(keys, row, kind) for row in read),
        spots=lambda: _spot(header[0].place, {index: _spots(keys, row) for index, row in enumerate(read)}),
    )


@cache
def _columns_of(kind: Any) -> Columns:
    """The columns that a table of such records may have."""
    columns: dict[str, tuple[str, ...]] = {}
    for key, accepts in keys_of(kind).items():
        columns[key] = (key,)
        columns.update({f"{key}_{inner}": (key, inner) for inner in choices_of_keys(bare(accepts))})
    return columns


def _holds_figures(kind: Any, way: tuple[str, ...]) -> bool:
    """Whether a column's cells are figures, not texts or lists."""
    accepts = bare(keys_of(kind)[way[0]])
    return len(way) > 1 or (accepts is not str and get_origin(accepts) not in (tuple, dict))


def _grows(kind: Any) -> bool:
    """Whether it is a book that begins empty, grows row by row, and may have the maker's own columns."""
    return bool(kind.__pydantic_config__["extra"] == "ignore")


def _record(keys: Keys, row: CsvRow, kind: Any) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for way, cell in zip(keys, row, strict=False):
        if way == _HER_OWN or not cell.text:
            continue
        key, *inner = way
        if inner:
            data.setdefault(key, {})[inner[0]] = cell.text
        else:
            data[key] = _reader(kind, key)(cell.text)
    return data


def _spots(keys: Keys, row: CsvRow) -> Spot:
    """The places of a record's values."""
    below: dict[Step, Spot] = {}
    for way, cell in zip(keys, row, strict=False):
        if way == _HER_OWN:
            continue
        key, *inner = way
        inside = {**below[key].below} if key in below else {}
        below[key] = _spot(cell.place, inside | {step: _spot(cell.place) for step in inner})
    return _spot(row[0].place, below)


@cache
def _reader(kind: Any, key: str) -> Callable[[str], Any]:
    """How a cell of that column is read: as a list, as names and values, or unchanged."""
    accepts = bare(keys_of(kind)[key])
    if get_origin(accepts) is tuple:
        return _parts
    return _pairs if get_origin(accepts) is dict or has_keys(accepts) else str


def _parts(text: str) -> list[str]:
    """Several values in a cell are separated by semicolons."""
    return [part.strip() for part in text.split(";") if part.strip()]


def _pairs(text: str) -> dict[str, str]:
    """Names are separated from their values by colons."""
    pairs = (part.partition(":") for part in _parts(text))
    return {name.strip(): value.strip() for name, _, value in pairs}


def _spot(place: Place, below: Mapping[Step, Spot] | None = None) -> Spot:
    return Spot(place.line, place.column, place.line, place.column, below or {})


def _without_empty_end(header: CsvRow) -> CsvRow:
    """Spreadsheets leave separators after the last column."""
    named = [index for index, cell in enumerate(header) if cell.text]
    return header[: named[-1] + 1]


def _faults_of_header(header: CsvRow, kind: Any) -> Iterator[Problem]:
    columns = _columns_of(kind)
    written = {cell.text.lower() for cell in header}
    free = [column for column in columns if column not in written]
    seen: set[str] = set()
    for cell in header:
        name = cell.text.lower()
        near = None if name in columns else nearest(name, free)
        if name not in columns and near is None and _grows(kind):
            continue
        if name not in columns:
            seen.add(near or name)
            yield Problem(
                place=cell.place,
                what=f"'{cell.text}' is not a column of this table",
                why="everything in it would be missing from every paper",
                fix=near or f"rename it to one of {', '.join(columns)}, or delete it",
            )
        elif name in seen:
            yield Problem(
                place=cell.place,
                what=f"the column '{name}' appears twice",
                why="only one of the two could be read",
                fix="delete one of the two columns",
            )
        seen.add(name)
    missing = [name for name in required_keys(kind) if name not in seen]
    if missing:
        yield Problem(
            place=header[0].place,
            what=f"the table has no column {' and no column '.join(missing)}",
            why="without it the rows are incomplete",
            fix=f"{','.join(required_keys(kind))} as the first columns",
        )


def _faults_of_rows(header: CsvRow, separated: int, rows: list[CsvRow]) -> Iterator[Problem]:
    """Rows longer than the header line, or with text where no column has a name."""
    for row in rows:
        beyond = row[len(header) :]
        stray = next((cell for cell in beyond if cell.text), None)
        if len(row) > separated or stray is not None:
            yield Problem(
                place=(stray or beyond[0]).place,
                what=f"the row has {len(row)} cells, but the header has {len(header)} columns",
                why="the cells would move into other columns",
                fix="use a point for decimals (3.5), and quotes around a text that contains the separator",
            )


def _without_rows(rows: tuple[CsvRow, ...], start: Place, kind: Any) -> Problem:
    return Problem(
        place=rows[0][0].place if rows else start,
        what="the table has no rows below its header" if rows else "the table is empty",
        why="there is nothing to work from",
        fix="add at least one row below the header" if rows else ",".join(required_keys(kind)),
    )
