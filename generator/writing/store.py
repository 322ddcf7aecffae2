"""The memory of a shop: one shelf for each kind of value, some of them kept under ``OUTPUT/.store/`` for later runs."""

import json
import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryFile
from typing import IO, Any, Final, Generic, NamedTuple, TypeVar

from generator.memory import Counts, Remembered, digest
from generator.writing.whole_files import sweep, temporary_name

_T = TypeVar("_T")

_FORMAT: Final = b"wickwright store 3\n"
_SEAL_BYTES: Final = 32
_LENGTH_BYTES: Final = 8
_KEPT_NO_MORE: Final = ("pages.pack", "ledgers.pack", "papers", "cards", "photos", "sealed")
"""What older programs kept in packs, and in folders with a file for each value."""

_WORTH_SAVING: Final = 4_000_000
"""Bytes that may wait beside a smaller pack. (CHOICE)"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Codec(Generic[_T]):
    """How a value is written for later runs, and read back."""

    dump: Callable[[_T], bytes]
    load: Callable[[bytes], _T]


AS_IT_IS: Final[Codec[bytes]] = Codec(dump=lambda data: data, load=lambda data: data)


class Store:
    """The shelves by name. What is kept is written by `save`; all of it can be deleted, and is made again then.

    A store that never ``saves`` leaves the disk alone, whatever is made.
    """

    def __init__(self, folder: Path, *, saves: bool = False) -> None:
        self._folder = folder
        self._saves = saves
        self._shelves: dict[str, Remembered[Any]] = {}
        self._has_ended = False

    def shelf(self, name: str, kept: Codec[_T] | None = None) -> Remembered[_T]:
        """The shelf of a name; with a codec, what is made from texts alone is kept for later runs."""
        if name not in self._shelves:
            path = self._folder / f"{name}.pack"
            self._shelves[name] = Remembered() if kept is None else _KeptOnDisk(path, kept, saves=self._saves)
        return self._shelves[name]

    def counts(self) -> Mapping[str, Counts]:
        """Hits and misses by shelf."""
        return {name: self._shelves[name].counts for name in sorted(self._shelves)}

    def end_run(self) -> None:
        """Forget what this run did not ask for."""
        self._has_ended = True
        for shelf in self._shelves.values():
            shelf.end_run()

    def save(self) -> None:
        """Write what the last completed run asked for, each shelf as a whole; an unchanged one writes nothing.

        If no run was completed, it is not known what may be dropped, and everything stays.
        """
        if not self._has_ended:
            return
        sweep(self._folder)
        self._drop_what_older_programs_kept()
        for shelf in self._shelves.values():
            if isinstance(shelf, _KeptOnDisk):
                shelf.save()

    def _drop_what_older_programs_kept(self) -> None:
        for old in (self._folder / name for name in _KEPT_NO_MORE):
            if old.is_dir():
                rmtree(old, ignore_errors=True)
            else:
                old.unlink(missing_ok=True)

    def close(self) -> None:
        """Let go of what was not saved."""
        for shelf in self._shelves.values():
            if isinstance(shelf, _KeptOnDisk):
                shelf.close()


class _KeptOnDisk(Remembered[_T]):
    """A shelf whose values outlive the run."""

    def __init__(self, path: Path, codec: Codec[_T], *, saves: bool) -> None:
        super().__init__()
        self._pack = _Pack(path)
        self._codec = codec
        self._saves = saves

    def _value(self, inputs: tuple[object, ...], make: Callable[[], _T]) -> _T:
        texts = [part for part in inputs if isinstance(part, str)]
        if len(texts) != len(inputs):
            raise TypeError(f"only what is made from texts can be kept, and not from {inputs!r}")
        key = digest(*texts)
        stored = self._pack.read(key)
        if stored is not None:
            return self._codec.load(stored)
        value = super()._value(inputs, make)
        if self._saves:
            self._pack.add(key, self._codec.dump(value))
        return value

    def end_run(self) -> None:
        """Forget what this run did not ask for; in a long session, what is kept is written from time to time."""
        super().end_run()
        if self._pack.is_outgrown:
            with suppress(OSError):  # A failure to remember is no failure of the run.
                self.save()

    def save(self) -> None:
        """Write what the completed run asked for."""
        self._pack.save({digest(*map(str, inputs)) for inputs, _ in self._before.values()})

    def close(self) -> None:
        """Let go of what was not saved."""
        self._pack.close()


class _Line(NamedTuple):
    """A value's position in a pack, and its digest."""

    start: int
    size: int
    sha256: str


class _Pack:
    """Values one after another in one file, then their index, its length and its seal.

    A value is read and checked by itself, when asked for. New ones wait in a file without a name: none has
    to be held until `save`, and nothing is left of them if that never happens.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._index = _index_of(path)
        self._coming: IO[bytes] | None = None
        self._new: dict[str, _Line] = {}

    def read(self, key: str) -> bytes | None:
        """The value of a key if it is present and intact."""
        line = self._index.get(key)
        if line is None:
            return None
        try:
            with self._path.open("rb") as file:
                return _read(file, line)
        except FileNotFoundError:
            return None

    def add(self, key: str, value: bytes) -> None:
        """Add a value for `save` to keep."""
        if self._coming is None:
            self._coming = _nameless_file(self._path.parent)
        self._new[key] = _written(self._coming, value)

    def save(self, asked: set[str]) -> None:
        """Keep what was asked for, and drop the rest."""
        if not self._new and asked >= self._index.keys():
            return
        sources: list[tuple[IO[bytes], Mapping[str, _Line]]] = []
        if self._coming is not None:
            sources.append((self._coming, self._new))
        self._path.parent.mkdir(parents=True, exist_ok=True)
        whole = self._path.with_name(temporary_name())
        try:
            with ExitStack() as open_files:
                if self._path.is_file():
                    sources.append((open_files.enter_context(self._path.open("rb")), self._index))
                index = _copied(sources, asked, open_files.enter_context(whole.open("wb")))
            whole.replace(self._path)  # Once nothing has it open, as some systems require.
        except BaseException:
            whole.unlink(missing_ok=True)
            raise
        self._index = index
        self.close()

    @property
    def is_outgrown(self) -> bool:
        """Whether what was added outweighs what is kept."""
        added, kept = (sum(line.size for line in lines.values()) for lines in (self._new, self._index))
        return added > max(kept, _WORTH_SAVING)

    def close(self) -> None:
        """Let go of what was not saved."""
        if self._coming is not None:
            self._coming.close()
        self._coming, self._new = None, {}


def _nameless_file(folder: Path) -> IO[bytes]:
    """A file that is gone once closed; elsewhere if the folder is missing or not writable."""
    try:
        return TemporaryFile(dir=folder)
    except OSError:
        return TemporaryFile()


def _copied(
    sources: Sequence[tuple[IO[bytes], Mapping[str, _Line]]], asked: set[str], file: IO[bytes]
) -> Mapping[str, _Line]:
    """Write a pack of what is asked for from these files, and return its index; values are checked when read."""
    index: dict[str, _Line] = {}
    for source, lines in sources:
        for key, line in lines.items():
            if key in asked and key not in index:
                source.seek(line.start)
                index[key] = line._replace(start=file.tell())
                file.write(source.read(line.size))
    listed = json.dumps(index).encode()
    file.write(listed + len(listed).to_bytes(_LENGTH_BYTES, "big") + _seal(listed))
    return index


def _index_of(path: Path) -> Mapping[str, _Line]:
    """The position and digest of each value; empty if there is no file or its index is damaged."""
    tail = _LENGTH_BYTES + _SEAL_BYTES
    try:
        with path.open("rb") as file:
            size = file.seek(0, os.SEEK_END)
            file.seek(max(0, size - tail))
            length = int.from_bytes(file.read(_LENGTH_BYTES), "big")
            seal = file.read()
            file.seek(max(0, size - tail - length))
            listed = file.read(length) if length <= size else b""
    except FileNotFoundError:
        return {}
    if _seal(listed) != seal:
        return {}
    return {key: _Line(*line) for key, line in json.loads(listed).items()}


def _written(file: IO[bytes], value: bytes) -> _Line:
    start = file.tell()
    file.write(value)
    return _Line(start=start, size=len(value), sha256=sha256(value).hexdigest())


def _read(file: IO[bytes], line: _Line) -> bytes | None:
    """The value as written; None if it is damaged."""
    file.seek(line.start)
    value = file.read(line.size)
    return value if sha256(value).hexdigest() == line.sha256 else None


def _seal(listed: bytes) -> bytes:
    return sha256(_FORMAT + listed).digest()
