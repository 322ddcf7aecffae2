"""One run over the maker's files: each read if it changed, and all their faults gathered."""

import os
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import chain
from pathlib import Path as FilePath
from typing import Any, Final, TypeVar, TypeVarTuple

from generator.files import (
    ENTRY_FILE,
    LEDGER_FILE,
    PAGE_FILE,
    TABLE_FILE,
    NotRead,
    Sort,
    check_file,
    is_at_rest,
    is_there,
    read_file,
    state_as_text,
)
from generator.memory import digest
from generator.problems import START, Path, Places, Spot
from generator.reading.faults import Thing
from generator.reading.source_file import ISSUED, FileRead, Findings, Locate, ReadingShelves, SourceFile

Made = TypeVar("Made")
Given = TypeVarTuple("Given")

_SORTS: Final = {".csv": TABLE_FILE, ".md": PAGE_FILE}
"""The sort of a file by its name's ending; anything else is an entry, or a ledger where one is asked for."""

ANY: Final = "*"
"""Any id of a kind whose entries could not be told apart."""


class Gathering(Findings):
    """Reads the files below one content folder, and gathers faults and places for all readers."""

    def __init__(self, content: FilePath, shown_as: str, shelves: ReadingShelves | None = None) -> None:
        self._spots: dict[str, Callable[[], Spot]] = {}
        self._elsewhere: dict[Path, str] = {}
        super().__init__(Places(shown_as=shown_as, files=self._spots, elsewhere=self._elsewhere))
        self._disk = _Disk(str(content), shelves or ReadingShelves.of_one_run())
        self._named: set[str] = set()

    def names(self, folder: str) -> tuple[str, ...]:
        """The names in a folder, in the same order on every disk, without those that begin with a dot."""
        names = os.listdir(self._disk.path(folder)) if self.is_folder(folder) else ()  # noqa: PTH208  (a text)
        return tuple(sorted(name for name in names if not name.startswith(".")))

    def is_folder(self, name: str) -> bool:
        """Whether a name below the content folder is a folder's."""
        return os.path.isdir(self._disk.path(name))  # noqa: PTH112  (see `_Disk.path`)

    def has(self, file: str) -> bool:
        """Whether there is such a file, or something else in its place, which reading it reports."""
        return is_there(self._disk.path(file))

    def may_be_read(self, file: str, sort: Sort) -> bool:
        """Whether a file of a sort may be opened; notes a fault where it may not."""
        try:
            check_file(self._disk.path(file), sort)
        except NotRead as fault:
            self.note(self.places.of((file,)), what=fault.what, why=fault.why, fix=fault.fix)
            return False
        return True

    def read(
        self, name: str, reader: Callable[[SourceFile, *Given], Thing | None], *given: *Given
    ) -> Thing | None:
        """A reader's value of a file, with everything it reports; the reader runs only when the bytes are new.

        What it is ``given`` besides is a text, or the same object each time. A file with the same content in another
        writing, such as with one more comment, gives the very same value.
        """
        shown = self.places.shown(name)

        def read_from(source: bytes | NotRead) -> FileRead[Thing | None]:
            read = SourceFile(name, self.places.shown_as, source, self._disk.shelves)
            return read.came_to(reader(read, *given))

        try:
            file = self._disk.file(name)
            inputs = (shown, self._disk.digest_of(file), reader, *given)
            found = self.remember(inputs, lambda: read_from(file.source))
        except NotRead as fault:
            found = read_from(fault)
        self._add(found)
        self._disk.shelves.step()
        if found.locate is not None:
            self._spots[name] = partial(self._disk.spots, name, shown, found.locate)
        return self.remember((shown, reader), _Latest).value_of(found)

    def book(
        self,
        kind: str,
        file: str,
        reader: Callable[[SourceFile, *Given], tuple[Thing, ...] | None],
        *given: *Given,
    ) -> tuple[Thing, ...]:
        """The rows of an optional table; empty where it has faults, and its content then counts as broken."""
        rows = self.read(file, reader, *given) if self.has(file) else ()
        if rows is None:
            self.broken.add((kind, ANY))
        return rows or ()

    def sound(self, kind: str, read: Iterable[tuple[str, Thing | None]]) -> dict[str, Thing]:
        """What was read, by id; the rest counts as broken."""
        entries = super().sound(kind, read)
        return self.remember((kind, *chain.from_iterable(entries.items())), lambda: entries)

    def remember(self, inputs: tuple[object, ...], make: Callable[[], Made]) -> Made:
        """The value made earlier from the very same inputs."""
        made: Made = self._disk.shelves.read.remember(inputs, make)
        return made

    def stands_in(self, path: Path, file: str) -> None:
        """Remember that a value is written in another file."""
        self._elsewhere[path] = file
        self._named.add(file)

    def is_named(self, file: str) -> bool:
        """Whether an entry refers to this file for a value."""
        return file in self._named

    def _add(self, found: FileRead[Thing | None]) -> None:
        """Add the findings of a file to the others."""
        self.problems += found.problems
        self.broken |= found.broken
        self.accepted += found.accepted
        for inputs, parsed in found.parsed:  # Asked for in each run, so that they are kept for later ones.
            self._disk.shelves.parsed.remember(inputs, partial(bytes, parsed))


class _Latest:
    """A file's last content. The same content in another writing is the very same value."""

    def __init__(self) -> None:
        self._value: Any = None

    def value_of(self, found: FileRead[Thing]) -> Thing:
        """The value read, or the earlier one if it is the same in every digit and in its order."""
        if found.value is None or found.value is self._value:
            return found.value
        if self._value is None or repr(self._value) != repr(found.value):
            self._value = found.value
        value: Thing = self._value
        return value


@dataclass(frozen=True)
class _File:
    """A file that is opened only when its bytes are first asked for."""

    path: str
    sort: Sort

    @cached_property
    def source(self) -> bytes:
        """Its bytes; raises ``NotRead``."""
        return read_file(self.path, self.sort)


@dataclass(frozen=True, slots=True)
class _Disk:
    """The content folder, whose files are opened only if they may have changed."""

    content: str
    shelves: ReadingShelves

    def path(self, name: str) -> str:
        """The path of a name below the folder; a text, since making a Path takes longer than asking the disk."""
        return f"{self.content}/{name}"

    def file(self, name: str) -> _File:
        """A file by its name below the folder."""
        sort = LEDGER_FILE if name.startswith(ISSUED) else _SORTS.get(name[name.rfind(".") :], ENTRY_FILE)
        return _File(self.path(name), sort)

    def digest_of(self, file: _File) -> str:
        """The digest of a file's bytes; raises ``NotRead``."""
        state = check_file(file.path, file.sort)
        if not is_at_rest(state, time.time_ns()):
            return digest(file.source)
        return self.shelves.digests.remember((state_as_text(state),), lambda: digest(file.source))

    def spots(self, name: str, shown: str, locate: Locate) -> Spot:
        """The places of a file's values; read again for that, since a sound file is seldom asked for one."""
        try:
            file = self.file(name)
            inputs = (shown, self.digest_of(file), locate)
            spots: Spot = self.shelves.read.remember(inputs, lambda: locate(file.source, shown))
        except NotRead:
            return START
        return spots
