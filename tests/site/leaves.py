"""Every single value that a shop's files hold, and what else each could be, found by its form."""

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Any, Final

import yaml

from generator.reading.schemas import editor_schemas
from tests.conftest import EXAMPLE
from tests.site.small_shop import as_csv, paint

MOST_OTHERS: Final = 8
"""How many other values are tried before a value counts as one that cannot be changed alone."""

_NUMBER: Final = re.compile(r"\d+(?:\.\d+)?")
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
_SENTENCE: Final = re.compile(r"(?<=>)[^<>{}\n]*[a-z]{4,}[^<>{}\n]*(?=<)")
_ROWS_OF_LONG_TABLES: Final = 10
"""Of the sessions of a burn test one in so many rows is looked at: all go the same way."""
_VALUES_OF_SEALED_FILES: Final = 40
"""Of issued sheets and poured formulas one in so many values: their seals refuse every change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A value below a shop's folder: its file, its keys or place in it, and its characters there."""

    file: str
    where: str
    value: str
    span: tuple[int, int]

    def __str__(self) -> str:
        return f"{self.file} {self.where} ({self.value[:40]!r})"


def leaves(folder: Path) -> Iterator[Leaf]:
    """Every value of the entries and of the maker's own theme, in one order everywhere."""
    for root in (folder / "content", folder / "themes"):
        for path in sorted(root.rglob("*")):
            name = path.relative_to(folder).as_posix()
            if path.is_file() and "/." not in name:
                step = _VALUES_OF_SEALED_FILES if path.parent.name in {"sheets", "poured"} else 1
                yield from islice(_leaves_of(name, path), 0, None, step)


def _leaves_of(name: str, path: Path) -> Iterator[Leaf]:
    if path.suffix == ".jpg":
        yield Leaf(file=name, where="picture", value="", span=(0, 0))
        return
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".yaml":
        with suppress(yaml.YAMLError):  # An entry at fault holds no values.
            yield from _of_node(name, yaml.compose(text, yaml.SafeLoader), text, "")
    elif path.suffix == ".csv":
        yield from _cells(name, text)
    elif path.suffix in {".html", ".css", ".typ", ".js", ".svg"}:
        found = _SENTENCE.search(text) or _NUMBER.search(text)
        if found is not None:
            yield Leaf(file=name, where="words", value=found[0], span=found.span())
    else:
        for paragraph in re.finditer(r"\S.*", text):
            yield Leaf(file=name, where="line", value=paragraph[0], span=paragraph.span())


def _of_node(name: str, node: yaml.Node | None, text: str, where: str) -> Iterator[Leaf]:
    """The scalars below a node, and the names of what is mixed, which stand where keys do."""
    if isinstance(node, yaml.ScalarNode):
        start, end = node.start_mark.index, node.end_mark.index
        if node.style in ("|", ">"):
            start, end = text.index("\n", start) + 1, len(text[:end].rstrip())
        yield Leaf(file=name, where=where, value=text[start:end], span=(start, end))
    elif isinstance(node, yaml.SequenceNode):
        for number, item in enumerate(node.value):
            yield from _of_node(name, item, text, f"{where}.{number}")
    elif isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if where.rpartition(".")[2] in {"ingredients", "wick"} or not where:
                yield from _named_key(name, key, where)
            yield from _of_node(name, value, text, f"{where}.{key.value}".removeprefix("."))


def _named_key(name: str, key: yaml.Node, where: str) -> Iterator[Leaf]:
    """The key of what is mixed, of a collection or a buyer; others are the names of fields."""
    if where or name.endswith(("collections.yaml", "buyers.yaml")):
        span = key.start_mark.index, key.end_mark.index
        yield Leaf(file=name, where=f"{where}.<{key.value}>".removeprefix("."), value=key.value, span=span)


def _cells(name: str, text: str) -> Iterator[Leaf]:
    rows = list(csv.reader(io.StringIO(text)))
    step = _ROWS_OF_LONG_TABLES if len(rows) > 2 * _ROWS_OF_LONG_TABLES else 1
    for number, row in enumerate(rows[1:], start=1):
        for column, cell in enumerate(row):
            if number % step == 0 or step == 1:
                yield Leaf(
                    file=name, where=f"row {number}.{rows[0][column]}", value=cell, span=(number, column)
                )


def changed(folder: Path, leaf: Leaf) -> Iterator[bytes]:
    """What the leaf's file could hold instead, with nothing else changed in it."""
    path = folder / leaf.file
    source = path.read_bytes()
    if leaf.where == "picture":
        yield _another_picture(path)
        return
    text = source.decode()
    for other in islice(_others(leaf), MOST_OTHERS):
        if path.suffix == ".csv":
            rows = list(csv.reader(io.StringIO(text)))
            rows[leaf.span[0]][leaf.span[1]] = other
            yield as_csv(rows).encode()
        else:
            yield (text[: leaf.span[0]] + other + text[leaf.span[1] :]).encode()


def _another_picture(path: Path) -> bytes:
    there = path.with_name("another.jpg")
    paint(there, "darkolivegreen")
    try:
        return there.read_bytes()
    finally:
        there.unlink()


def _others(leaf: Leaf) -> Iterator[str]:
    """Other values of the same form, the likeliest to be valid first."""
    bare = leaf.value.strip("\"'")
    given = dict.fromkeys(_guesses(_key(leaf), bare))
    given.pop(bare, None)
    quote = leaf.value[:1] if leaf.value[:1] in {'"', "'"} else ""
    for other in given:
        yield f"{quote}{other}{quote}"


def _key(leaf: Leaf) -> str:
    """The field that holds the leaf, alone or in a list."""
    return re.sub(r"(\.\d+)+$", "", leaf.where).rpartition(".")[2]


def _guesses(key: str, value: str) -> Iterator[str]:
    if _DAY.fullmatch(value):
        for days in (1, -1, 30, -30):
            yield (date.fromisoformat(value) + timedelta(days=days)).isoformat()
    elif re.fullmatch("#[0-9a-f]{6}", value):
        yield f"#{(int(value[1:], 16) ^ 0x080808):06x}"
    else:
        yield from {"yes": ("no",), "no": ("yes",), "": ("1", "anew", "7 %")}.get(value, ())
        yield from _mates().get(value, ())
        yield from _scaled(value)
        if "\n" in value or " " in value or not value.isascii():
            yield f"{value} anew"
        yield from _elsewhere().get(key, ())
        yield f"{value} anew"
        yield f"new.{value}"


def _scaled(value: str) -> Iterator[str]:
    """A number made a little more and a little less, with its digits and unit as they were."""
    found = None if re.match(r"[A-Z]{2}-", value) else _NUMBER.search(value)
    if found is None:
        return
    places = len(found[0].partition(".")[2])
    step = 10**-places
    for factor in (1.01, 0.99, 1.1, 0.9):
        by = float(found[0]) * (factor - 1)
        new = float(found[0]) + (by if abs(by) > step else step if by > 0 else -step)
        yield f"{value[: found.start()]}{new:.{places}f}{value[found.end() :]}"


@cache
def _mates() -> Mapping[str, tuple[str, ...]]:
    """What may stand where a word stands, by the word: the rest of its list in a schema, the ids of its folder."""
    groups = [list(each) for text in editor_schemas().values() for each in _enumerations(json.loads(text))]
    groups += [
        sorted(path.stem for path in folder.glob("*.yaml")) for folder in EXAMPLE.iterdir() if folder.is_dir()
    ]
    groups += [sorted(path.name for path in (EXAMPLE / "photos").iterdir())]
    mates: dict[str, tuple[str, ...]] = {}
    for group in groups:
        for word in group:
            mates[word] = (*mates.get(word, ()), *[other for other in group if other != word][:3])
    return mates


def _enumerations(schema: Any) -> Iterator[list[str]]:
    if isinstance(schema, dict):
        yield [each for each in schema.get("enum", ()) if isinstance(each, str)]
        for part in schema.values():
            yield from _enumerations(part)
    elif isinstance(schema, list):
        for part in schema:
            yield from _enumerations(part)


@cache
def _elsewhere() -> Mapping[str, tuple[str, ...]]:
    """What the example shop writes under each key, three of it."""
    written: dict[str, dict[str, None]] = {}
    for path in sorted(EXAMPLE.rglob("*.yaml")):
        if path.parent.name not in {"sheets", "poured"}:
            for leaf in _leaves_of(path.name, path):
                if "\n" not in leaf.value:
                    written.setdefault(_key(leaf), {}).setdefault(leaf.value.strip("\"'"))
    return {key: tuple(values)[:3] for key, values in written.items()}
