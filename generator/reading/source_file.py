"""One of the maker's files while it is read: its content with places, and every fault found in it."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache, partial
from typing import Any, Final, Generic

from generator.files import NotRead, is_device_name
from generator.memory import Remembered, digest
from generator.model.accepted import ACCEPTED, Accepted, Reasons
from generator.model.words import Id
from generator.problems import START, Path, Place, Places, Problem, Severity, Spot, is_error
from generator.reading.faults import Thing, Written
from generator.reading.located import located, pack, unpack
from generator.reading.tables import MOST_TOLD_OF_TABLE, Table, table_of
from generator.reading.text_files import text_of
from generator.reading.wording import is_valid, validated

Locate = Callable[[bytes, str], Spot]
"""Finds the spots of a file's values in its bytes, given the file's name as the maker sees it."""

ISSUED: Final = "sheets/"
"""The folder of ledgers; nobody may add to what was issued."""

_READING: Final = "a reading of"
"""Distinguishes the result of a reading from the parsed YAML of the same bytes."""

_SIZES: Final = "sizes"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingShelves:
    """What the readings of one content folder share.

    ``parsed`` holds the parsed YAML of a file's bytes, by their digest and that of the ``program``, and may be kept on
    disk; ``digests`` those of files unchanged according to the disk; ``read`` what was made of them. ``step`` is
    called for each file.
    """

    program: str
    parsed: Remembered[bytes]
    digests: Remembered[str]
    read: Remembered[Any]
    step: Callable[[], None]

    @classmethod
    def of_one_run(cls) -> "ReadingShelves":
        """For a single reading that keeps nothing."""
        return cls(
            program="", parsed=Remembered(), digests=Remembered(), read=Remembered(), step=lambda: None
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRead(Generic[Thing]):
    """The result of reading one file: a value that depends only on its name and bytes.

    ``parsed`` is what was asked of the shelf of that name, and its answer.
    """

    value: Thing
    problems: tuple[Problem, ...]
    broken: frozenset[tuple[str, str]]
    accepted: tuple[Accepted, ...]
    locate: Locate | None
    parsed: tuple[tuple[tuple[str, ...], bytes], ...]


class Findings:
    """Faults, and what else is found besides the values read."""

    def __init__(self, places: Places) -> None:
        self.places = places
        self.problems: list[Problem] = []
        self.broken: set[tuple[str, str]] = set()
        self.accepted: list[Accepted] = []

    def note(self, place: Place, *, what: str, why: str, fix: str, check: str | None = None) -> None:
        """Gather a fault: an error, or a warning by the name of its check."""
        severity = Severity.ERROR if check is None else Severity.WARNING
        self.problems.append(
            Problem(place=place, what=what, why=why, fix=fix, severity=severity, check=check)
        )

    def sound(self, kind: str, read: Iterable[tuple[str, Thing | None]]) -> dict[str, Thing]:
        """What was read, by id; the rest counts as broken."""
        entries = dict(read)
        self.broken |= {(kind, id_) for id_, entry in entries.items() if entry is None}
        return {id_: entry for id_, entry in entries.items() if entry is not None}


class SourceFile(Findings):
    """The bytes of a file, or why they cannot be read, and its reader's findings."""

    def __init__(self, name: str, shown_as: str, source: bytes | NotRead, shelves: ReadingShelves) -> None:
        self._spots: dict[str, Callable[[], Spot]] = {}
        super().__init__(Places(shown_as=shown_as, files=self._spots))
        self.name = name
        self.shown = self.places.shown(name)
        self._source = source
        self._shelves = shelves
        self._locate: Locate | None = None
        self._asked: dict[tuple[str, ...], bytes] = {}

    @property
    def start(self) -> Place:
        """The place for faults of the whole file."""
        return self.places.of((self.name,))

    @property
    def stem(self) -> str:
        """The file's name without its folder and its ending."""
        return self.name.rpartition("/")[2].rpartition(".")[0]

    def came_to(self, value: Thing) -> FileRead[Thing]:
        """The complete result of reading it."""
        return FileRead(
            value=value,
            problems=tuple(self.problems),
            broken=frozenset(self.broken),
            accepted=tuple(self.accepted),
            locate=self._locate,
            parsed=tuple(self._asked.items()),
        )

    def source(self) -> bytes | None:
        """The bytes of the file, or None where it cannot be read."""
        source = self._source
        if isinstance(source, bytes):
            return source
        self.note(self.start, what=source.what, why=source.why, fix=source.fix)
        return None

    def text(self) -> str | None:
        """The text of the file, or None if it is not text."""
        source = self.source()
        text = None if source is None else text_of(source, self.shown)
        if isinstance(text, Problem):
            self.problems.append(text)
            return None
        return text

    def yaml(self) -> dict[str, Any] | None:
        """The keys and values of a YAML file, or None if it cannot be parsed."""
        source = self.source()
        if source is None:
            return None
        self._locate_by(_spots_of_yaml, source)
        parsed = self._parsed((digest(source),), lambda: pack(located(source, self.shown)))
        data, problems = unpack(parsed, self.shown)
        self.problems += problems
        if any(map(is_error, problems)):
            return None
        if isinstance(data, dict):
            return data
        self.note(
            self.start,
            what="the file has no keys",
            why="every value is found by its key",
            fix="write key: value, each on its own line",
        )
        return None

    def remembered(self, read: Callable[[], bytes]) -> tuple[str, bytes]:
        """The digest of a YAML file and the result of reading it; ``read`` runs only when its bytes are new.

        ``read`` gives no bytes where the file has faults, and then runs each time, because only it reports them.
        """
        met, source = len(self.problems), self.source()
        of_bytes, reading = "", b""
        if source is not None:
            self._locate_by(_spots_of_yaml, source)
            of_bytes = digest(source)
            reading = self._parsed((_READING, of_bytes), read)
        if not reading:
            del self.problems[met:]
            reading = read()
        return of_bytes, reading

    def tell_alike(self, met: int, *, why: str, fix: str) -> None:
        """Give all faults except the first ``met`` the same reason and fix: only the program writes the file."""
        self.problems[met:] = (replace(problem, why=why, fix=fix) for problem in self.problems[met:])

    def table(self, kind: type[Thing]) -> tuple[Thing, ...] | None:
        """The rows of a table, or None if any of it has faults."""
        text = self.text()
        table = None if text is None else table_of(text, self.shown, kind)
        if not isinstance(table, Table):
            self.problems += table or ()
            return None
        self._locate = partial(_spots_of_table, kind)
        self._spots[self.name] = cache(table.spots)
        good: list[Thing] = []
        for index, record in enumerate(table.records):
            row = self.valid(kind, "a row", (self.name, index), record)
            if row is not None:
                good.append(row)
            elif index + 1 - len(good) == MOST_TOLD_OF_TABLE:
                self._untold(len(table.records) - index - 1)
                return None
        return tuple(good) if len(good) == len(table.records) else None

    def by_lines(self) -> None:
        """Remember that the lines are named by their numbers: ``("pages/care.md", 12)``."""
        self._locate = _spots_of_lines

    def valid(self, kind: type[Thing], noun: str, at: Path, data: Any) -> Thing | None:
        """The model's value of an entry or a part of one, or None when it has faults."""
        data, accepted = _without_accepted(at, data)
        for where, written in accepted:
            self._accept(where, written)
        value = validated(Written(kind=kind, noun=noun, data=data, at=at, places=self.places))
        if isinstance(value, tuple):
            self.problems += value
            return None
        return value

    def is_id(self, place: Place, id_: str) -> bool:
        """Whether a name can be an entry's id; notes a fault where it cannot."""
        if is_valid(Id, id_):
            return True
        if is_device_name(id_):
            self.note(
                place,
                what=f"'{id_}' is a name that Windows reserves for a device",
                why="no Windows computer could store this file or a page of this name",
                fix=f"choose another name, such as {id_}-candle",
            )
            return False
        self.note(
            place,
            what=f"'{id_}' cannot be the id of an entry",
            why="ids become web addresses, and other entries refer to this one by it",
            fix="use small letters a to z, digits and hyphens, as in wet-slate",
        )
        return False

    def _locate_by(self, locate: Locate, source: bytes) -> None:
        self._locate = locate
        self._spots[self.name] = cache(partial(locate, source, self.shown))

    def _parsed(self, of: tuple[str, ...], make: Callable[[], bytes]) -> bytes:
        inputs = (self._shelves.program, *of)
        self._asked[inputs] = self._shelves.parsed.remember(inputs, make)
        return self._asked[inputs]

    def _accept(self, at: Path, written: Any) -> None:
        where = (*at, ACCEPTED)
        reasons = validated(Written(kind=Reasons, noun=ACCEPTED, data=written, at=where, places=self.places))
        if isinstance(reasons, tuple):
            self.problems += reasons
        else:
            self.accepted += (Accepted(at=at, check=check, why=why) for check, why in reasons.items())

    def _untold(self, rows: int) -> None:
        if rows:
            self.note(
                self.start,
                what=f"{MOST_TOLD_OF_TABLE} rows have errors, and {rows} more rows below were not checked",
                why="so many rows usually share one mistake",
                fix="correct the rows listed first, and the others in the same way",
            )


def _spots_of_yaml(source: bytes, shown: str) -> Spot:
    return located(source, shown).spots()


def _spots_of_table(kind: Any, source: bytes, shown: str) -> Spot:
    text = text_of(source, shown)
    table = None if isinstance(text, Problem) else table_of(text, shown, kind)
    return table.spots() if isinstance(table, Table) else START


def _spots_of_lines(source: bytes, shown: str) -> Spot:
    text = text_of(source, shown)
    lines = () if isinstance(text, Problem) else range(1, len(text.splitlines()) + 1)
    return START._replace(below={line: Spot(line, 1, line, 1) for line in lines})


def _without_accepted(at: Path, data: Any) -> tuple[Any, tuple[tuple[Path, Any], ...]]:
    """An entry as written without the key, and its values in the entry and in each of its sizes."""
    file = str(at[0])
    is_entry = isinstance(data, dict) and file.endswith(".yaml") and not file.startswith(ISSUED)
    found = tuple(_found(at, data)) if is_entry else ()
    if not found:
        return data, ()
    rest = _without(data)
    if isinstance(data.get(_SIZES), list):
        rest[_SIZES] = [_without(size) if isinstance(size, dict) else size for size in data[_SIZES]]
    return rest, found


def _found(at: Path, data: dict[str, Any]) -> Iterator[tuple[Path, Any]]:
    if ACCEPTED in data:
        yield at, data[ACCEPTED]
    sizes = data.get(_SIZES)
    for number, size in enumerate(sizes if isinstance(sizes, list) else ()):
        if isinstance(size, dict) and ACCEPTED in size:
            yield (*at, _SIZES, number), size[ACCEPTED]


def _without(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if key != ACCEPTED}
