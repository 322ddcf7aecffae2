"""One run over the maker's files: what each says, where it stands, and every fault met on the way."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import cache
from hashlib import sha256
from pathlib import Path as FilePath
from typing import Any, Final

from generator.files import (
    ENTRY_FILE,
    LEDGER_FILE,
    PAGE_FILE,
    TABLE_FILE,
    NotRead,
    Sort,
    check_file,
    is_device_name,
    is_there,
    read_file,
)
from generator.model.accepted import ACCEPTED, Accepted, Reasons
from generator.model.words import Id
from generator.problems import START, Path, Place, Places, Problem, Severity, Spot, is_error
from generator.reading.faults import Thing, Written
from generator.reading.located import Located, located, pack, unpack
from generator.reading.tables import MOST_TOLD_OF_TABLE, Table, table_of
from generator.reading.text_files import text_of
from generator.reading.wording import is_valid, validated

Memo = Callable[[bytes, Callable[[], bytes]], bytes]
"""Remembers by a file's bytes, or their digest, what its reading gave: these, and how to read it if they are new."""

_READING: Final = b"a reading of: "
"""Tells what a reading came to from what YAML itself says of the same bytes."""

_SORTS: Final = {".csv": TABLE_FILE, ".md": PAGE_FILE}
"""What a file is read as by its name's ending; all else is an entry, or a ledger where one is asked for."""

_ISSUED: Final = "sheets/"
"""Where ledgers stand; what was issued is nobody's to add to."""

_SIZES: Final = "sizes"

ANY: Final = "*"
"""Stands for every id of a kind whose entries could not be told apart."""


class Gathering:
    """Reads the files below one content folder, and gathers faults and places for all readers."""

    def __init__(self, content: FilePath, shown_as: str, parsed: Memo | None) -> None:
        self.problems: list[Problem] = []
        self.broken: set[tuple[str, str]] = set()
        self.accepted: list[Accepted] = []
        self._spots: dict[str, Callable[[], Spot]] = {}
        self._elsewhere: dict[Path, str] = {}
        self.places = Places(shown_as=shown_as, files=self._spots, elsewhere=self._elsewhere)
        self._content = content
        self._parsed = parsed

    def names(self, folder: str) -> tuple[str, ...]:
        """The names in a folder, in the same order on every disk, without those that begin with a dot."""
        path = self._content / folder
        names = (each.name for each in path.iterdir()) if path.is_dir() else ()
        return tuple(sorted(name for name in names if not name.startswith(".")))

    def is_folder(self, name: str) -> bool:
        """Whether a name below the content folder is a folder's."""
        return (self._content / name).is_dir()

    def has(self, file: str) -> bool:
        """Whether there is such a file, or something else in its place, which reading it tells."""
        return is_there(self._content / file)

    def may_be_read(self, file: str, sort: Sort) -> bool:
        """Whether a file of a sort may be opened; notes it where it may not."""
        try:
            check_file(self._content / file, sort)
        except NotRead as fault:
            self._not_read(file, fault)
            return False
        return True

    def yaml(self, file: str) -> dict[str, Any] | None:
        """The keys and values of a YAML file, or None when its writing is at fault."""
        source = self._source(file)
        if source is None:
            return None
        read = self._located(source, self.places.shown(file))
        self._spots[file] = read.spots
        self.problems += read.problems
        if any(map(is_error, read.problems)):
            return None
        if isinstance(read.data, dict):
            return read.data
        self.note(
            self.places.of((file,)),
            what="the file holds no keys",
            why="every value is found by its key",
            write="key: value, each on its own line",
        )
        return None

    def remembered(self, file: str, read: Callable[[], bytes]) -> tuple[str, bytes]:
        """The digest of a file and what its reading came to; ``read`` is asked only when the file's bytes are new.

        It gives nothing where the file is at fault, and is asked again then, because only it tells the faults.
        """
        met, source = len(self.problems), self._source(file)
        digest, reading = "", b""
        if source is not None:
            # Whoever asks for a place in the file reads it for that; a sound file is seldom asked for one.
            self._spots[file] = cache(lambda: self._located(source, self.places.shown(file)).spots())
            digest = sha256(source).hexdigest()
            reading = read() if self._parsed is None else self._parsed(_READING + digest.encode(), read)
        if not reading:
            del self.problems[met:]
            reading = read()
        return digest, reading

    def tell_alike(self, met: int, *, why: str, write: str) -> None:
        """Give all faults but the first ``met`` one reason and one advice: the program alone writes their file."""
        self.problems[met:] = (replace(problem, why=why, write=write) for problem in self.problems[met:])

    def table(self, file: str, kind: type[Thing]) -> tuple[Thing, ...] | None:
        """The rows of a table, or None when any of it is at fault."""
        text = self.text(file)
        table = None if text is None else table_of(text, self.places.shown(file), kind)
        if not isinstance(table, Table):
            self.problems += table or ()
            return None
        self._spots[file] = cache(table.spots)
        good: list[Thing] = []
        for index, record in enumerate(table.records):
            row = self.valid(kind, "a row", (file, index), record)
            if row is not None:
                good.append(row)
            elif index + 1 - len(good) == MOST_TOLD_OF_TABLE:
                self._untold(file, len(table.records) - index - 1)
                return None
        return tuple(good) if len(good) == len(table.records) else None

    def book(self, kind: str, file: str, row: type[Thing]) -> tuple[Thing, ...]:
        """The rows of a table that need not be there; none where it is at fault, and what it holds is broken then."""
        rows = self.table(file, row) if self.has(file) else ()
        if rows is None:
            self.broken.add((kind, ANY))
        return rows or ()

    def sound(self, kind: str, read: Iterable[tuple[str, Thing | None]]) -> dict[str, Thing]:
        """What was read, by its id; what could not be is broken."""
        entries = dict(read)
        self.broken |= {(kind, id_) for id_, entry in entries.items() if entry is None}
        return {id_: entry for id_, entry in entries.items() if entry is not None}

    def text(self, file: str) -> str | None:
        """The text of a file, or None when it is none."""
        source = self._source(file)
        text = None if source is None else text_of(source, self.places.shown(file))
        if isinstance(text, Problem):
            self.problems.append(text)
            return None
        return text

    def by_lines(self, file: str, text: str) -> None:
        """Remember that a file's lines are named by their numbers: ``("pages/care.md", 12)``."""
        lines = range(1, text.count("\n") + 2)
        self._spots[file] = lambda: START._replace(below={line: Spot(line, 1, line, 1) for line in lines})

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

    def _accept(self, at: Path, written: Any) -> None:
        where = (*at, ACCEPTED)
        reasons = validated(Written(kind=Reasons, noun=ACCEPTED, data=written, at=where, places=self.places))
        if isinstance(reasons, tuple):
            self.problems += reasons
        else:
            self.accepted += (Accepted(at=at, check=check, why=why) for check, why in reasons.items())

    def is_id(self, place: Place, id_: str) -> bool:
        """Whether a name can be an entry's id; notes it where it cannot."""
        if is_valid(Id, id_):
            return True
        if is_device_name(id_):
            self.note(
                place,
                what=f"'{id_}' is a name that Windows keeps for a device",
                why="no computer with Windows could hold this file, nor a page of this name",
                write=f"another name, such as {id_}-candle",
            )
            return False
        self.note(
            place,
            what=f"'{id_}' cannot be the id of an entry",
            why="ids become web addresses, and other entries name this one by it",
            write="small letters a to z, digits and hyphens, such as wet-slate",
        )
        return False

    def stands_in(self, path: Path, file: str) -> None:
        """Remember that a value is written in another file."""
        self._elsewhere[path] = file

    def is_named(self, file: str) -> bool:
        """Whether an entry says that a value is written in this file."""
        return file in self._elsewhere.values()

    def note(self, place: Place, *, what: str, why: str, write: str, check: str | None = None) -> None:
        """Gather a fault: an error, or a warning by the name of its check."""
        severity = Severity.ERROR if check is None else Severity.WARNING
        self.problems.append(
            Problem(place=place, what=what, why=why, write=write, severity=severity, check=check)
        )

    def _untold(self, file: str, rows: int) -> None:
        if rows:
            self.note(
                self.places.of((file,)),
                what=f"{MOST_TOLD_OF_TABLE} rows are at fault, and {rows} more below them were not looked at",
                why="what is wrong with so many rows is mostly one and the same",
                write="the rows that are told first, and the others alike",
            )

    def _source(self, file: str) -> bytes | None:
        sort = LEDGER_FILE if file.startswith(_ISSUED) else _SORTS.get(file[file.rfind(".") :], ENTRY_FILE)
        try:
            return read_file(self._content / file, sort)
        except NotRead as fault:
            self._not_read(file, fault)
            return None

    def _not_read(self, file: str, fault: NotRead) -> None:
        self.note(self.places.of((file,)), what=fault.what, why=fault.why, write=fault.write)

    def _located(self, source: bytes, shown: str) -> Located:
        if self._parsed is None:
            return located(source, shown)
        return unpack(self._parsed(source, lambda: pack(located(source, shown))), shown)


def _without_accepted(at: Path, data: Any) -> tuple[Any, tuple[tuple[Path, Any], ...]]:
    """An entry as written without the key, and what stood there in itself and in each of its sizes."""
    file = str(at[0])
    is_entry = isinstance(data, dict) and file.endswith(".yaml") and not file.startswith(_ISSUED)
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
