"""What pydantic found, traced back to the entry: which value or key, its place, its name in a sentence."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pydantic_core import ErrorDetails

from generator.model.entry import About
from generator.problems import Path, Place, Places
from generator.reading.fields import about, form, found

Thing = TypeVar("Thing")


@dataclass(frozen=True, slots=True, kw_only=True)
class Written(Generic[Thing]):
    """An entry or a part of one: the type it should be, its noun, what is written, and its place."""

    kind: type[Thing]
    noun: str
    data: Any
    at: Path
    places: Places


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """One thing that does not fit its type.

    ``path`` leads from the file to the value, and ``beyond`` continues to what is not written below it.
    ``accepts`` is the type expected there, ``within`` that of its container, ``owner`` the part of the
    entry whose key it is, ``about`` what is declared of that key, and ``form`` how the last key's value is written.
    ``says`` is the fault from our own readers of quantities.
    """

    type: str
    says: Mapping[str, Any]
    written: Written[Any]
    path: Path
    beyond: Path
    is_key: bool
    value: Any
    accepts: Any
    within: Any
    owner: Any
    about: About
    form: str

    @property
    def key_place(self) -> Place:
        """The place of the value's key."""
        return self.written.places.key(self.path)

    @property
    def in_table(self) -> bool:
        """Whether the value is a cell."""
        return str(self.path[0]).endswith(".csv")

    @property
    def name(self) -> str:
        """The value's name in a sentence: ``to``, or ``item 2 of weighed``."""
        path = self.path[1:]
        items = ""
        while path and isinstance(path[-1], int):
            items += f"item {path[-1] + 1} of "
            path = path[:-1]
        return items + (str(path[-1]) if path else self.written.noun)

    @property
    def mapping(self) -> str:
        """The name in a sentence of the mapping that has or lacks a key: ``fill``, ``a size``, ``a candle``."""
        around = (self.path if self.beyond else self.path[:-1])[len(self.written.at) :]
        if not around:
            return self.written.noun
        return f"a {self.owner.__name__.lower()}" if isinstance(around[-1], int) else around[-1]

    @property
    def siblings(self) -> frozenset[str]:
        """The keys that are written in the same mapping."""
        data = self.written.data
        for step in self.path[len(self.written.at) : -1]:
            data = data[step]
        return frozenset(data)

    def line(self, value: str) -> str:
        """What to write: after its key where both are on one line."""
        alone = isinstance(self.path[-1], int) or self.in_table
        return value if alone else f"{self.path[-1]}: {value}"


def misfit_of(error: ErrorDetails, written: Written[Any]) -> Misfit:
    """Follow one of pydantic's errors back to what is written."""
    way = found(written.kind, error["loc"])
    length, value = _reached(written.data, way.path)
    return Misfit(
        type=error["type"],
        says=error.get("ctx", {}),
        written=written,
        path=written.at + way.path[:length],
        beyond=way.path[length:],
        is_key=way.is_key and length == len(way.path),
        value=value,
        accepts=way.accepts,
        within=way.within,
        owner=way.owner,
        about=about(way.field),
        form=form(way.keyed),
    )


def _reached(data: Any, path: Path) -> tuple[int, Any]:
    """How far along the path something is written, and what is written there."""
    for length, step in enumerate(path):
        known = (
            step in data if isinstance(data, dict) else isinstance(data, list) and step in range(len(data))
        )
        if not known:
            return length, data
        data = data[step]
    return len(path), data
