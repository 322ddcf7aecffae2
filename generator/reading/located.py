"""YAML as plain texts, lists and mappings, each with its place; what a maker cannot have meant is refused."""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final, NamedTuple, NoReturn

import yaml
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    MappingEndEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from generator.problems import START, Place, Problem, Severity, Spot, Step
from generator.reading.slips import CUT, cut_text, slip_at, unquoted_colour
from generator.reading.text_files import (
    LINE_END,
    LONGEST_TEXT,
    UNPRINTABLE,
    text_of,
    too_long,
    unprintable_problem,
)

YamlData = str | list["YamlData"] | dict[str, "YamlData"]
"""The content of a file: every scalar as its text, an empty one as ``""``."""

DEEPEST: Final = 50
"""The deepest nesting of levels; an entry needs six."""

MOST_REPEATED: Final = 1000
"""How many values aliases may repeat in one file: plenty for an entry, too few to swell a small file."""

MOST_VALUES: Final = 100_000
"""The most values of one file; two hundred revisions of a sheet have fewer."""

LOADER: Final = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
"""The parser in C if available; the one in Python reads the same, eight times slower."""

_STANDARD_TAG: Final = "tag:yaml.org,2002:"
_EMPTY: Final = frozenset({"", "~", "null", "Null", "NULL"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Located:
    """One file read: its data, a way to get the spots of everything in it, and faults of its writing."""

    data: YamlData
    spots: Callable[[], Spot]
    problems: tuple[Problem, ...]


def located(source: bytes, file: str) -> Located:
    """Read one YAML file; ``file`` is its name as the maker sees it."""
    text = text_of(source, file)
    if isinstance(text, Problem):
        return _unreadable(text)
    lines = [*LINE_END.split(text), ""]  # A last empty value is on the line after the last.
    reader = _Reader(iter(LOADER(text).get_event, None), file, lines)
    try:
        node = reader.document()
    except _TooMany:
        return _unreadable(*reader.problems)
    except yaml.MarkedYAMLError as error:
        slip = slip_at(text, file, _position(error.problem_mark), _position(error.context_mark))
        return _unreadable(*reader.problems, slip)
    if node is None:
        return _unreadable(*reader.problems)
    return Located(data=node.data, spots=lambda: _spot(node), problems=tuple(reader.problems))


def pack(read: Located) -> bytes:
    """A file's content and the faults of its writing, as bytes that do not depend on the file's name."""
    problems = [
        (p.place.line, p.place.column, p.what, p.why, p.fix, p.severity.value, p.check) for p in read.problems
    ]
    return json.dumps([read.data, problems]).encode()


def unpack(packed: bytes, file: str) -> tuple[YamlData, tuple[Problem, ...]]:
    """What ``pack`` packed, under the file's name."""
    data, problems = json.loads(packed)
    return data, tuple(
        Problem(
            place=Place(file, line, column),
            what=what,
            why=why,
            fix=fix,
            severity=Severity(severity),
            check=check,
        )
        for line, column, what, why, fix, severity, check in problems
    )


def _unreadable(*problems: Problem) -> Located:
    return Located(data="", spots=lambda: START, problems=problems)


def _position(mark: Any) -> tuple[int, int] | None:
    return None if mark is None else (mark.line, mark.column)


class _TooMany(Exception):
    """A file has more values than can be meant; the fault is noted."""


# A tuple, like `Spot`; spots themselves are made only when asked for.
class _Node(NamedTuple):
    """A value with the events at which it and its key begin, its content, and its number of values."""

    data: YamlData
    event: Any
    key: Any
    below: Mapping[Step, "_Node"] = MappingProxyType({})
    size: int = 1


class _Reader:
    """Builds one document from the parser's events; faults that leave the rest readable are gathered."""

    def __init__(self, events: Iterator[Any], file: str, lines: list[str]) -> None:
        self.problems: list[Problem] = []
        self._events = events
        self._file = file
        self._lines = lines
        self._undashed: set[tuple[int, int]] = set()
        self._anchors: dict[str, _Node] = {}
        self._repeated = 0
        self._values = 0

    def document(self) -> _Node | None:
        """The file's content; None where it is empty."""
        next(self._events)  # The stream's start.
        if isinstance(next(self._events), StreamEndEvent):
            self.problems.append(
                Problem(
                    place=Place(self._file, START.line, START.column),
                    what="the file is empty",
                    why="an entry needs keys",
                    fix="write the keys of the entry, or delete the file",
                )
            )
            return None
        first = next(self._events)
        node = self._value(first, first, 0)
        next(self._events)  # The document's end.
        after = next(self._events)
        if not isinstance(after, StreamEndEvent):
            self._note(
                after,
                what="a second entry begins here, after '---'",
                why="one file is one entry, and the file name is its id",
                fix="move the second entry to a file of its own",
            )
        return node

    def _value(self, event: Any, key: Any, depth: int) -> _Node:
        """One value; ``key`` is the event of its key, or its own where it has none."""
        self._values += 1
        if self._values > MOST_VALUES:
            self._too_many(event)
        if isinstance(event, AliasEvent):
            return self._alias(event, key)
        if event.tag is not None:
            self._note(
                event,
                what=f"'{event.tag.replace(_STANDARD_TAG, '!!')}' is a tag",
                why="values are read exactly as written, so a tag does nothing",
                fix="remove the tag, or put the whole text in quotes",
            )
        if isinstance(event, ScalarEvent):
            node = _Node(self._text(event), event, key)
        elif depth == DEEPEST:
            node = self._too_deep(event, key)
        elif isinstance(event, SequenceStartEvent):
            node = self._list(event, key, depth + 1)
        else:
            node = self._mapping(event, key, depth + 1)
        if event.anchor is not None:
            self._anchors[event.anchor] = node
        return node

    def _too_many(self, event: Any) -> NoReturn:
        self._note(
            event,
            what=f"the file has more than {MOST_VALUES} values up to here",
            why="no entry has so many, so this may be the wrong file",
            fix="keep just the entry",
        )
        raise _TooMany

    def _text(self, event: Any) -> str:
        text: str = event.value
        if len(text) > LONGEST_TEXT:
            self.problems.append(too_long(len(text), self._place(event)))
            return ""
        if not event.implicit[0]:
            odd = UNPRINTABLE.search(text)  # Only quotes can contain what the file itself may not.
            if odd is not None:
                self.problems.append(unprintable_problem(odd[0], self._place(event)))
            return text
        end = event.end_mark
        if "#" in self._lines[end.line]:
            self._note_cut(event, text, CUT.match(self._lines[end.line], end.column))
        if not text:
            mark = event.start_mark
            colour = unquoted_colour(self._lines[mark.line], self._file, (mark.line, mark.column))
            self.problems += [] if colour is None else [colour]
        return "" if text in _EMPTY else text

    def _note_cut(self, event: Any, text: str, found: re.Match[str] | None) -> None:
        """What a # cuts off a text where no comment was meant; in a comment a space follows it (PRACTICE)."""
        if found is not None and text and not (text[0].isdigit() and found[1].startswith("# ")):
            self.problems.append(cut_text(text, found[1], self._place(event)))

    def _list(self, start: Any, key: Any, depth: int) -> _Node:
        nodes = []
        while not isinstance(event := next(self._events), SequenceEndEvent):
            nodes.append(self._value(event, event, depth))
        size = 1 + sum(node.size for node in nodes)
        return _Node([node.data for node in nodes], start, key, dict(enumerate(nodes)), size)

    def _mapping(self, start: Any, key: Any, depth: int) -> _Node:
        data: dict[str, YamlData] = {}
        below: dict[Step, _Node] = {}
        taken_in = []
        size = 1
        while not isinstance(name := next(self._events), MappingEndEvent):
            is_key = self._is_new_key(name, below, depth)
            node = self._value(next(self._events), name, depth)
            size += node.size
            if is_key and name.value == "<<" and name.implicit[0]:
                taken_in.append(node)
            elif is_key:
                data[name.value] = node.data
                below[name.value] = node
        for node in taken_in:
            self._take_in(node, data, below)
        return _Node(data, start, key, below, size)

    def _is_new_key(self, event: Any, known: dict[Step, _Node], depth: int) -> bool:
        """Whether this names a new value; skips what cannot be a key."""
        if not isinstance(event, ScalarEvent):
            self._value(event, event, depth)
            self._note(
                event,
                what="this key is not a plain word",
                why="every value is found by its key",
                fix="write one word and a colon; put quotes around a text that begins with [, { or *",
            )
            return False
        if event.anchor is not None:
            self._note(
                event,
                what=f"'&{event.anchor}' comes before a key",
                why="it can only mark a value, to be repeated with '*'",
                fix=f"{event.value}: &{event.anchor} before the value",
            )
            self._anchors[event.anchor] = _Node(event.value, event, event)
        if event.value in known:
            self._note_repeated(event, known)
            return False
        return True

    def _note_repeated(self, event: Any, known: dict[Step, _Node]) -> None:
        """A key written twice; where a list item begins again, its dash is missing."""
        first, node = next(iter(known.items()))
        begins = (node.key.start_mark.line, node.key.start_mark.column)
        line, dash = known[event.value].key.start_mark.line + 1, self._lines[begins[0]][: begins[1]]
        if event.value == first and dash.strip() == "-":
            self._undashed.add(begins)
            self._note(
                event,
                what=f"'{first}' begins another entry in this list, but has no dash",
                why=f"without a dash these lines belong to the entry on line {line}",
                fix=f"{dash}{self._lines[event.start_mark.line].strip()}",
            )
        elif begins not in self._undashed:
            self._note(
                event,
                what=f"'{event.value}' is written twice",
                why=f"it is already on line {line}, and only one can be printed",
                fix="delete one of the two lines",
            )

    def _take_in(self, node: _Node, data: dict[str, YamlData], below: dict[Step, _Node]) -> None:
        """A merge key: what the other mapping, or each of several, has and this one lacks."""
        if isinstance(node.data, list):
            for part in node.below.values():
                self._take_in(part, data, below)
        elif isinstance(node.data, dict):
            for key, value in node.data.items():
                data.setdefault(key, value)
                below.setdefault(key, node.below[key])
        else:
            self._note(
                node.event,
                what="'<<' copies keys from another group, and there are none here",
                why="nothing would be copied",
                fix="<<: *name, with &name before a group of keys",
            )

    def _alias(self, event: Any, key: Any) -> _Node:
        node = self._anchors.get(event.anchor)
        if node is None:
            self._note(
                event,
                what=(
                    f"'*{event.anchor}' repeats a value marked '&{event.anchor}', and nothing "
                    "above is marked so"
                ),
                why="the value would be missing",
                fix=f'"*{event.anchor}" in quotes, if you mean the text itself',
            )
            return _Node("", event, key)
        if self._repeated > MOST_REPEATED:
            return _Node("", event, key)
        self._repeated += node.size
        if self._repeated > MOST_REPEATED:
            self._note(
                event,
                what=f"more than {MOST_REPEATED} values are repeated with '*' up to here",
                why="a small file could grow until the program runs out of memory",
                fix="write the values out",
            )
        return node._replace(key=key)

    def _too_deep(self, event: Any, key: Any) -> _Node:
        self._note(
            event,
            what=f"more than {DEEPEST} levels are nested inside each other",
            why="no entry has so many, so it is unclear what you mean",
            fix="use fewer brackets or less indentation",
        )
        open_levels = 1
        while open_levels:
            inside = next(self._events)
            open_levels += isinstance(inside, CollectionStartEvent)
            open_levels -= isinstance(inside, CollectionEndEvent)
        return _Node("", event, key)

    def _note(self, event: Any, *, what: str, why: str, fix: str) -> None:
        self.problems.append(Problem(place=self._place(event), what=what, why=why, fix=fix))

    def _place(self, event: Any) -> Place:
        return Place(self._file, event.start_mark.line + 1, event.start_mark.column + 1)


def _spot(node: _Node) -> Spot:
    value, name = node.event.start_mark, node.key.start_mark
    below = {step: _spot(each) for step, each in node.below.items()}
    return Spot(value.line + 1, value.column + 1, name.line + 1, name.column + 1, below)
