"""Tables as records of named cells: the header's columns by name, each cell with its place."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, get_origin

from generator.problems import Place, Problem, Spot, Step
from generator.reading.cells import Row, rows_of
from generator.reading.fields import bare, choices_of_keys, has_keys, keys_of, required_keys
from generator.reading.nearest import nearest

Columns = Mapping[str, tuple[str, ...]]
"""Each column's name and the key it fills; a column such as ``m_acute`` fills a key inside a key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Records as plain data, and the spots of their cells; rows are counted from 0, as the model does."""

    records: tuple[dict[str, Any], ...]
    spots: Callable[[], Spot]


def table_of(text: str, file: str, kind: Any) -> Table | tuple[Problem, ...]:
    """Read a table whose columns are the keys of ``kind``, or tell what is wrong with its writing."""
    rows = rows_of(text, file)
    if isinstance(rows, Problem):
        return (rows,)
    if len(rows) < 2:
        return (_without_rows(rows, Place(file, 1, 1), kind),)
    first, *below = rows
    header = _without_empty_end(first)
    problems = (*_faults_of_header(header, kind), *_faults_of_rows(header, len(first), below))
    if problems:
        return problems
    columns = columns_of(kind)
    keys = tuple(columns[cell.text.lower()] for cell in header)
    read = [_record(keys, row, kind) for row in below]
    spots: dict[Step, Spot] = {index: spot for index, (_, spot) in enumerate(read)}
    whole = _spot(header[0].place, spots)
    return Table(records=tuple(data for data, _ in read), spots=lambda: whole)


def columns_of(kind: Any) -> Columns:
    """The columns that a table of such records may have."""
    columns: dict[str, tuple[str, ...]] = {}
    for key, accepts in keys_of(kind).items():
        columns[key] = (key,)
        columns.update({f"{key}_{inner}": (key, inner) for inner in choices_of_keys(bare(accepts))})
    return columns


def _record(keys: tuple[tuple[str, ...], ...], row: Row, kind: Any) -> tuple[dict[str, Any], Spot]:
    data: dict[str, Any] = {}
    below: dict[Step, Spot] = {}
    for (key, *inner), cell in zip(keys, row, strict=False):
        if cell.text and inner:
            data.setdefault(key, {})[inner[0]] = cell.text
        elif cell.text:
            data[key] = _value(bare(keys_of(kind)[key]), cell.text)
        inside = {**below[key].below} if key in below else {}
        below[key] = _spot(cell.place, inside | {step: _spot(cell.place) for step in inner})
    return data, _spot(row[0].place, below)


def _value(accepts: Any, text: str) -> Any:
    """A cell that holds several values parts them with semicolons, and names from values with colons."""
    parts = [part.strip() for part in text.split(";") if part.strip()]
    if get_origin(accepts) is tuple:
        return parts
    if get_origin(accepts) is dict or has_keys(accepts):
        pairs = (part.partition(":") for part in parts)
        return {name.strip(): value.strip() for name, _, value in pairs}
    return text


def _spot(place: Place, below: Mapping[Step, Spot] | None = None) -> Spot:
    return Spot(place.line, place.column, place.line, place.column, below or {})


def _without_empty_end(header: Row) -> Row:
    """Spreadsheets leave separators behind the last column."""
    named = [index for index, cell in enumerate(header) if cell.text]
    return header[: named[-1] + 1]


def _faults_of_header(header: Row, kind: Any) -> Iterator[Problem]:
    columns = columns_of(kind)
    seen: set[str] = set()
    for cell in header:
        name = cell.text.lower()
        if name not in columns:
            near = nearest(name, columns)
            seen.add(near or name)
            yield Problem(
                place=cell.place,
                what=f"'{cell.text}' is not a column of this table",
                why="what stands below it would be missing from every paper",
                write=near or f"one of {', '.join(columns)}",
            )
        elif name in seen:
            yield Problem(
                place=cell.place,
                what=f"the column '{name}' stands twice",
                why="only one of the two could be read",
                write="one of the two columns",
            )
        seen.add(name)
    missing = [name for name in required_keys(kind) if name not in seen]
    if missing:
        yield Problem(
            place=header[0].place,
            what=f"the table has no column {' and no column '.join(missing)}",
            why="without it the rows say too little to be worked with",
            write=f"{','.join(required_keys(kind))} as the first columns",
        )


def _faults_of_rows(header: Row, separated: int, rows: list[Row]) -> Iterator[Problem]:
    """Rows longer than the header line, or with text where no column has a name."""
    for row in rows:
        beyond = row[len(header) :]
        stray = next((cell for cell in beyond if cell.text), None)
        if len(row) > separated or stray is not None:
            yield Problem(
                place=(stray or beyond[0]).place,
                what=f"the row has {len(row)} cells, and the header names {len(header)} columns",
                why="the cells would slip into other columns",
                write="a point for decimals (3.5), and quotes around a text that holds the separator",
            )


def _without_rows(rows: tuple[Row, ...], start: Place, kind: Any) -> Problem:
    return Problem(
        place=rows[0][0].place if rows else start,
        what="the table has no rows below its header" if rows else "the table is empty",
        why="nothing can be worked out from it",
        write="one row or more below the header" if rows else ",".join(required_keys(kind)),
    )
