"""The memo under ``OUTPUT/.store/``: bytes of earlier runs by key, so that unchanged work is not done again."""

import hashlib
import json
import os
from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Protocol

from generator.writing.output import LazyBytes, lazy
from generator.writing.whole_files import replace_file, sweep

_FORMAT = b"wickwright store 2\n"
_SEAL_BYTES = 32
_INDEX_LENGTH_BYTES = 8
_KEY_LETTERS = frozenset("0123456789abcdef")
_INDEX = "index"
"""Beside loose files; its letters make no key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """How many distinct values of a shelf came from an earlier run, and how many were made in this one."""

    hits: int
    misses: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Described:
    """A value that need not be read to know it."""

    sha256: str
    size: int
    start: int


class _Keeping(Protocol):
    """One way to keep a shelf on disk."""

    def described(self, key: str) -> "_Described | None": ...
    def read(self, key: str) -> bytes | None: ...
    def save(self, asked: Set[str], made: Mapping[str, bytes]) -> None: ...


class StoreShelf:
    """Values by key. A key names everything its value was made from, so one key never stands for two values."""

    def __init__(self, keeping: _Keeping) -> None:
        self._keeping = keeping
        self._asked: set[str] = set()
        self._made: dict[str, bytes] = {}

    def get(self, key: str) -> bytes | None:
        """The value of this run or an earlier one; None when there is none."""
        value = self._made.get(key)
        if value is None:
            value = self._keeping.read(_checked(key))
        if value is not None:
            self._asked.add(key)
        return value

    def put(self, key: str, value: bytes) -> None:
        """Keep a value made in this run."""
        self._made[_checked(key)] = value
        self._asked.add(key)

    def remember(self, key: str, make: Callable[[], bytes]) -> bytes:
        """The value of the key, made only when no earlier run left it."""
        value = self.get(key)
        if value is None:
            value = make()
            self.put(key, value)
        return value

    def lazy(self, key: str, make: Callable[[], bytes]) -> LazyBytes:
        """The value of the key, read only where its bytes are needed, and made again if they are damaged then."""
        described = None if key in self._made else self._keeping.described(_checked(key))
        if described is None:
            return lazy(self.remember(key, make))
        self._asked.add(key)
        return LazyBytes(
            sha256=described.sha256, size=described.size, fetch=partial(self.remember, key, make)
        )

    def known(self, key: str, make: Callable[[], bytes]) -> LazyBytes | None:
        """The same where this or an earlier run left the value; None where it is still to be made."""
        if key in self._made or self._keeping.described(_checked(key)) is not None:
            return self.lazy(key, make)
        return None

    @property
    def counts(self) -> Counts:
        """Hits and misses of this run."""
        return Counts(hits=len(self._asked) - len(self._made), misses=len(self._made))

    def save(self) -> None:
        """Write what was asked for in this run and drop the rest."""
        self._keeping.save(self._asked, self._made)


class Store:
    """The shelves of one run. Nothing is written before `save`; shelves that were not opened stay as they are."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._shelves: dict[str, StoreShelf] = {}

    def shelf(self, name: str) -> StoreShelf:
        """A shelf for many small values, saved as one file."""
        if name not in self._shelves:
            self._shelves[name] = StoreShelf(_Pack(self._folder / f"{name}.pack"))
        return self._shelves[name]

    def large(self, name: str) -> StoreShelf:
        """A shelf for large values: a file each, read when asked for."""
        if name not in self._shelves:
            self._shelves[name] = StoreShelf(_LooseFiles(self._folder / name))
        return self._shelves[name]

    def counts(self) -> Mapping[str, Counts]:
        """Hits and misses by shelf."""
        return {name: self._shelves[name].counts for name in sorted(self._shelves)}

    def save(self) -> None:
        """Write every opened shelf, each file whole; a shelf that has not changed writes nothing."""
        sweep(self._folder)
        for name in sorted(self._shelves):
            self._shelves[name].save()


def digest(*parts: bytes | str) -> str:
    """The sha256 of the parts, each framed by its kind and length so that no two lists of parts read alike."""
    framed = hashlib.sha256()
    for part in parts:
        kind, data = (b"t", part.encode()) if isinstance(part, str) else (b"b", part)
        framed.update(kind + len(data).to_bytes(8, "big"))
        framed.update(data)
    return framed.hexdigest()


class _Pack:
    """All values of a shelf in one file: the seal of its index, the index, the values one after another.

    The index holds the digest of each value, so that one is read and checked alone, when it is asked for.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._index = _index_of(path)

    def described(self, key: str) -> _Described | None:
        return self._index.get(key)

    def read(self, key: str) -> bytes | None:
        one = self._index.get(key)
        if one is None:
            return None
        try:
            with self._path.open("rb") as file:
                file.seek(one.start)
                return _whole(file.read(one.size), one)
        except FileNotFoundError:
            return None

    def save(self, asked: Set[str], made: Mapping[str, bytes]) -> None:
        if made or asked != self._index.keys():
            kept = {**self._read_all(asked - made.keys()), **made}
            _write_sealed_index(self._path, {key: kept[key] for key in sorted(kept)})
            self._index = _index_of(self._path)

    def _read_all(self, keys: Set[str]) -> Mapping[str, bytes]:
        """Every value that is whole, in one reading."""
        if not keys:
            return {}
        pack = self._path.read_bytes()
        found = {key: self._index[key] for key in keys}
        values = {key: _whole(pack[one.start : one.start + one.size], one) for key, one in found.items()}
        return {key: value for key, value in values.items() if value is not None}


class _LooseFiles:
    """A sealed file for each value, named by its key, and a sealed index of what they hold."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._index = dict(_index_of_files(folder / _INDEX))

    def described(self, key: str) -> _Described | None:
        """As the index says, without a look at the file; where it says nothing, as the file itself is."""
        if key not in self._index:
            body = self.read(key)
            if body is None:
                return None
            self._index[key] = _description(body)
        return self._index[key]

    def read(self, key: str) -> bytes | None:
        body = _unsealed(self._folder / key)
        return None if body is None else bytes(body)

    def save(self, asked: Set[str], made: Mapping[str, bytes]) -> None:
        sweep(self._folder)
        for key in sorted(made):
            _write_sealed(self._folder / key, made[key])
            self._index[key] = _description(made[key])
        self._save_index({key for key in asked if self.described(key) is not None})
        if self._folder.is_dir():
            for path in self._folder.iterdir():
                if _is_key(path.name) and path.name not in asked:
                    path.unlink()

    def _save_index(self, keys: Set[str]) -> None:
        """Write the index of what stays, unless it says so already."""
        lines = {key: (self._index[key].size, self._index[key].sha256) for key in sorted(keys)}
        body, path = json.dumps(lines).encode(), self._folder / _INDEX
        written = _unsealed(path)
        if lines if written is None else bytes(written) != body:
            _write_sealed(path, body)


def _description(body: bytes) -> _Described:
    return _Described(sha256=_sha256(body), size=len(body), start=_SEAL_BYTES)


def _index_of_files(path: Path) -> Mapping[str, _Described]:
    """What each file of a folder holds; nothing when the index is not there or not whole."""
    body = _unsealed(path)
    if body is None:
        return {}
    return {
        key: _Described(sha256=sha256, size=size, start=_SEAL_BYTES)
        for key, (size, sha256) in json.loads(bytes(body)).items()
    }


def _write_sealed_index(path: Path, values: Mapping[str, bytes]) -> None:
    index = json.dumps({key: (len(value), _sha256(value)) for key, value in values.items()}).encode()
    head = len(index).to_bytes(_INDEX_LENGTH_BYTES, "big") + index
    path.parent.mkdir(parents=True, exist_ok=True)
    replace_file(path, b"".join((_seal(head), head, *values.values())))


def _index_of(path: Path) -> Mapping[str, _Described]:
    """Where each value lies and what it must be; nothing when there is no file or its index is not whole."""
    try:
        with path.open("rb") as file:
            whole = os.fstat(file.fileno()).st_size
            seal, length = file.read(_SEAL_BYTES), file.read(_INDEX_LENGTH_BYTES)
            size = int.from_bytes(length, "big")
            index = file.read(size) if size <= whole else b""
    except FileNotFoundError:
        return {}
    if _seal(length + index) != seal:
        return {}
    described, start = {}, _SEAL_BYTES + _INDEX_LENGTH_BYTES + size
    for key, (length_of_value, digest_of_value) in json.loads(index).items():
        described[key] = _Described(sha256=digest_of_value, size=length_of_value, start=start)
        start += length_of_value
    return described if start == whole else {}


def _whole(value: bytes, described: _Described) -> bytes | None:
    return value if _sha256(value) == described.sha256 else None


def _sha256(value: bytes) -> str:
    return hashlib.sha256(value).hexdigest()


def _write_sealed(path: Path, body: bytes) -> None:
    """Write the body behind its seal, which no torn or altered file bears."""
    path.parent.mkdir(parents=True, exist_ok=True)
    replace_file(path, _seal(body) + body)


def _unsealed(path: Path) -> memoryview | None:
    """What was written behind the seal; None when there is no file or it is not whole."""
    try:
        data = memoryview(path.read_bytes())
    except FileNotFoundError:
        return None
    body = data[_SEAL_BYTES:]
    return body if _seal(body) == data[:_SEAL_BYTES] else None


def _seal(body: bytes | memoryview) -> bytes:
    sealed = hashlib.sha256(_FORMAT)
    sealed.update(body)
    return sealed.digest()


def _is_key(name: str) -> bool:
    return bool(name) and _KEY_LETTERS.issuperset(name)


def _checked(key: str) -> str:
    """The key itself; a key also names a file, so anything but a hex digest is the caller's mistake."""
    if not _is_key(key):
        raise ValueError(f"{key!r} is not a hex digest")
    return key
