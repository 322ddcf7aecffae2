"""Files below one folder, never reached through a link: what a link leads to is not ours to read, write or remove."""

import os
import stat
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path, PurePosixPath
from typing import Final

from generator.writing.paths import folders_above
from generator.writing.targets.peer import linked, of_another_kind, too_large
from generator.writing.whole_files import is_temporary, temporary_name

_HAS_HANDLES: Final = os.open in os.supports_dir_fd and hasattr(os, "O_NOFOLLOW")
"""With folder handles nobody can put a link in the way between a check and a step; Windows has none."""

_NO_LINK: Final = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)


@dataclass(frozen=True, slots=True)
class _Folder:
    """An open folder: by its handle where the system has them, else by its path."""

    path: Path
    handle: int | None

    def call(self, name: str) -> str:
        """The name of one of its files for the system, together with ``handle``."""
        return name if self.handle is not None else str(self.path / name)

    def kind(self, name: str) -> os.stat_result | None:
        """The kind of what has that name; a link counts as a link."""
        try:
            return os.stat(self.call(name), dir_fd=self.handle, follow_symlinks=False)
        except FileNotFoundError:
            return None

    def names(self) -> list[str]:
        return os.listdir(self.path if self.handle is None else self.handle)  # noqa: PTH208  (a handle is no path)


class Below:
    """All paths are relative to the folder, with slashes; the folder itself may be a link, since the maker named it."""

    def __init__(self, folder: Path, *, by_handles: bool = _HAS_HANDLES) -> None:
        self._folder = folder
        self._by_handles = by_handles

    def check(self, paths: Iterable[str]) -> None:
        """Raise where a link or something of the wrong kind is at one of the paths or on the way to it."""
        kind = cache(_Folder(self._folder, None).kind)
        for path in paths:
            if all(_is_there(kind(folder), folder, stat.S_ISDIR, "folder") for folder in folders_above(path)):
                _is_there(kind(path), path, stat.S_ISREG, "file")

    def names(self, folder: str) -> tuple[str, ...] | None:
        """All names in a folder; None where there is no such folder."""
        try:
            with self._in(folder) as found:
                return tuple(sorted(found.names()))
        except FileNotFoundError:
            return None

    def read(self, path: str, most: int) -> bytes | None:
        """The bytes of a file; None where there is none. Raises before reading if there are too many."""
        try:
            with self._around(path) as (folder, name):
                _is_there(folder.kind(name), path, stat.S_ISREG, "file")
                flags = os.O_RDONLY | _NO_LINK | getattr(os, "O_NONBLOCK", 0)
                with os.fdopen(os.open(folder.call(name), flags, dir_fd=folder.handle), "rb") as file:
                    data = file.read(most + 1) if os.fstat(file.fileno()).st_size <= most else None
        except FileNotFoundError:
            return None
        if data is None or len(data) > most:
            raise too_large(path)
        return data

    def put(self, path: str, data: bytes, *, durable: bool = False) -> None:
        """Put a whole file in place, making its folders; ``durable`` waits until the disk has it."""
        with self._around(path, make=True) as (folder, name):
            temporary = folder.call(temporary_name())
            at = folder.handle
            flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_LINK
            try:
                with os.fdopen(os.open(temporary, flags, 0o666, dir_fd=at), "wb") as file:
                    file.write(data)
                    if durable:
                        file.flush()
                        os.fsync(file.fileno())
                os.replace(temporary, folder.call(name), src_dir_fd=at, dst_dir_fd=at)
            except BaseException:
                with suppress(FileNotFoundError):
                    os.unlink(temporary, dir_fd=at)
                raise

    def remove(self, path: str) -> None:
        """Remove a file if it exists."""
        with suppress(FileNotFoundError), self._around(path) as (folder, name):
            os.unlink(folder.call(name), dir_fd=folder.handle)
        self.sweep(PurePosixPath(path).parent.as_posix())

    def tidy(self, path: str) -> None:
        """Remove the empty folders of a path."""
        for folder in reversed(tuple(folders_above(path))):
            try:
                self.remove_folder(folder)
            except FileNotFoundError:
                continue
            except OSError:
                return

    def remove_folder(self, path: str) -> None:
        """Remove an empty folder."""
        with self._around(path) as (folder, name):
            os.rmdir(folder.call(name), dir_fd=folder.handle)

    def rename(self, path: str, name: str) -> None:
        """Rename it within the same folder."""
        with self._around(path) as (folder, old):
            at = folder.handle
            os.rename(folder.call(old), folder.call(name), src_dir_fd=at, dst_dir_fd=at)

    def sweep(self, folder: str) -> None:
        """Remove the temporary files that a killed run left in a folder."""
        with suppress(FileNotFoundError), self._in(folder) as found:
            for name in found.names():
                if is_temporary(Path(name)):
                    os.unlink(found.call(name), dir_fd=found.handle)

    @contextmanager
    def _around(self, path: str, *, make: bool = False) -> Iterator[tuple[_Folder, str]]:
        """The folder of a path, and the path's last part."""
        place = PurePosixPath(path)
        with self._in(place.parent.as_posix(), make=make) as folder:
            yield folder, place.name

    @contextmanager
    def _in(self, folder: str, *, make: bool = False) -> Iterator[_Folder]:
        """Go down step by step; FileNotFoundError where a folder is missing and not to be made."""
        here = _Folder(self._folder, os.open(self._folder, os.O_RDONLY) if self._by_handles else None)
        try:
            for way in (*folders_above(folder), folder) if folder not in ("", ".") else ():
                here = _down(here, way, make=make)
            yield here
        finally:
            if here.handle is not None:
                os.close(here.handle)


def _down(here: _Folder, way: str, *, make: bool) -> _Folder:
    """One folder further down; the handle of the one above is closed."""
    name = way.rpartition("/")[2]
    if make and here.kind(name) is None:
        os.mkdir(here.call(name), dir_fd=here.handle)
    if not _is_there(here.kind(name), way, stat.S_ISDIR, "folder"):
        raise FileNotFoundError(way)
    path = here.path / name
    if here.handle is None:
        return _Folder(path, None)
    below = os.open(name, os.O_RDONLY | os.O_DIRECTORY | _NO_LINK, dir_fd=here.handle)
    os.close(here.handle)
    return _Folder(path, below)


def _is_there(found: os.stat_result | None, path: str, is_wanted: Callable[[int], bool], wanted: str) -> bool:
    """Whether it exists; raises where it is a link or of the wrong kind."""
    if found is None:
        return False
    if stat.S_ISLNK(found.st_mode) or getattr(found, "st_reparse_tag", 0) == _JUNCTION:
        raise linked(path)
    if not is_wanted(found.st_mode):
        raise of_another_kind(path, wanted)
    return True


_JUNCTION: Final = getattr(stat, "IO_REPARSE_TAG_MOUNT_POINT", -1)
"""Windows' other kind of link between folders."""
