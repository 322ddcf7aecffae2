"""One paper or picture as a value: its path, what prints it, and everything it says, already as text."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Generic, NamedTuple, TypeVar

Value = str | int | bool | None | tuple["Value", ...] | list["Value"] | Mapping[str, "Value"]
"""What a template may print: JSON-able, with figures already as text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A paper that a theme's template prints.

    ``path`` is below the output folder, with forward slashes (``site/candles/slate.html``). Addresses inside
    ``value`` are written from the site's root (``candles/slate.html``); the template makes them relative.
    """

    path: str
    template: str
    value: Mapping[str, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainText:
    """A file whose text needs no theme: tables, data, feeds."""

    path: str
    text: str


Made_co = TypeVar("Made_co", bound=Document | PlainText, covariant=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeferredDocument(Generic[Made_co]):
    """A paper that is made only if it is not remembered.

    ``depends_on`` covers everything given to ``made``, besides the theme and the program; None where it must not be
    remembered. A ``private`` paper holds keys: only the maker may read its file.
    """

    path: str
    depends_on: tuple[str, ...] | None
    made: Callable[[], Made_co]
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """A polygon in millimetres, x to the right and y up from the shelf, in colours written ``#rrggbb``."""

    points_mm: tuple[tuple[float, float], ...]
    fill: str
    stroke: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What a link preview shows. An empty text leaves its line out; shapes are drawn in order, one over the other."""

    ground: str
    ink: str
    title: str
    second: str = ""
    third: str = ""
    house: str = ""
    shapes: tuple[Polygon, ...] = ()


class Look(Enum):
    """How a cell of a spreadsheet is shown."""

    PLAIN = "plain"
    TITLE = "title"
    HEAD = "head"
    MONEY = "money"
    TO_FILL = "to fill"
    SUM = "sum"


class Cell(NamedTuple):
    """One cell: text, a number, or a formula that begins with ``=``; only a formula is evaluated."""

    value: str | int | Decimal
    look: Look = Look.PLAIN
    is_formula: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreadsheet:
    """A paper to be filled in elsewhere; ``widths`` are in characters, ``places`` are the decimals of its money."""

    path: str
    name: str
    on: date
    places: int
    widths: tuple[int, ...]
    rows: tuple[tuple[Cell, ...], ...]
