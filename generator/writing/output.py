"""Whole files under OUTPUT: written only when they differ, in an order and with a list that survive a kill."""

import errno
import os
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from hashlib import sha256
from itertools import count
from pathlib import Path
from shutil import rmtree
from stat import S_IMODE, S_ISREG
from typing import Final, Self

from generator.files import COARSEST_CLOCK_NS
from generator.memory import Counts
from generator.writing.at_work import AtWork, one_by_one
from generator.writing.manifest import WrittenFile, listed_at_ns, read_manifest, save_manifest
from generator.writing.paths import (
    MANIFEST,
    OutsideTheFolder,
    all_folders,
    can_be_laid,
    check_paths,
    folded,
    folders_above,
    in_writing_order,
)
from generator.writing.whole_files import OWNER_ALONE, mode_of, replace_file, sweep, write_new

_ASIDE: Final = ".coming"
"""The folder in which new files wait; its dot keeps it from being one of ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What a run did to the files under OUTPUT: new, overwritten, removed, left as they were."""

    written: tuple[str, ...]
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    same: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedFile:
    """A file that a run wants below OUTPUT: what its bytes are made from, and how.

    An existing file made from the same ``key`` is not made again; one without a key is always made. Only the owner
    may read a ``private`` file.
    """

    path: str
    key: str | None
    make: Callable[[], bytes]
    private: bool = False


class NotOurs(Exception):
    """A wanted path is occupied by something this program did not write."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} is in the way: this program did not write it, so it will not replace it")
        self.path = path


class Layout:
    """One run's files under OUTPUT: what is new is laid beside the old at once and let go, and put in place at the end.

    Until `finish` nothing of the old is touched, and nothing stays of a run that never comes to that.
    """

    def __init__(self, output_folder: Path) -> None:
        self._folder = output_folder
        self._aside = output_folder / _ASIDE
        self._listed = _Listed(output_folder)
        self._lines: dict[str, WrittenFile] = {}
        self._new: dict[str, str] = {}
        self._private: set[str] = set()
        self._numbers = count()

    def __enter__(self) -> Self:
        rmtree(self._aside, ignore_errors=True)
        return self

    def __exit__(self, *_fault: object) -> None:
        rmtree(self._aside, ignore_errors=True)

    def add(self, files: Iterable[PlannedFile], at_work: AtWork = one_by_one) -> Counts:
        """Take files into this run's; those that are not there as they should be are made, by one or more ``at_work``.

        A file that already has the wanted bytes is listed as ours from then on, whoever wrote it, which repairs a lost
        manifest. Raises OutsideTheFolder for a path that leads elsewhere.
        """
        asked, unknown = 0, []
        for file in files:
            if not can_be_laid(file.path):
                raise OutsideTheFolder(file.path)
            asked += 1
            line = self._listed.still_there(file)
            if line is None:
                unknown.append(file)
            else:
                self._lines[file.path] = line
            if file.private:
                self._private.add(file.path)
        if unknown:
            self._aside.mkdir(parents=True, exist_ok=True)
        for file, (line, aside) in at_work(self._made, unknown):
            self._lines[file.path] = line
            if aside is not None:
                self._new[file.path] = aside
        return Counts(hits=asked - len(unknown), misses=len(unknown))

    def _made(self, file: PlannedFile) -> tuple[WrittenFile, str | None]:
        """A file's listing, and where its new bytes are; nowhere if they are already in place."""
        data = file.make()
        line = WrittenFile(sha256=sha256(data).hexdigest(), size=len(data), key=file.key)
        there = self._listed.with_these_bytes(file.path, line)
        if there is not None:
            return there, None
        aside = f"{self._aside}/{os.getpid()}-{next(self._numbers)}"
        write_new(aside, data, mode=OWNER_ALONE if file.private else mode_of(self._place(file.path)))
        return line, aside

    def _place(self, path: str) -> str:
        """The path of a file; a text, since making a Path takes longer than asking the disk."""
        return f"{self._folder}/{path}"

    def finish(self, ours: Collection[str] = ()) -> Laid:
        """Make OUTPUT hold these files, and nothing else of what we wrote before.

        ``ours`` are files that are never the same twice and that only we write. Raises `NotOurs` and what
        `check_paths` raises before anything is touched.
        """
        check_paths(self._lines)
        ground = _Ground(self._folder, self._listed.lines, self._lines.keys(), ours)
        laid = ground.planned(self._new.keys())
        self._folder.mkdir(parents=True, exist_ok=True)
        sweep(self._folder)
        if not self._lines.keys() <= self._listed.lines.keys():
            # Listed before they are written: a run that is cut short leaves no file that a later run does not know.
            save_manifest(self._folder, {**self._listed.lines, **self._lines})
        _close(self._folder / path for path in laid.same if path in self._private)
        _remove(self._folder, ground.in_the_way)
        self._put_in_place()
        _remove(self._folder, ground.left_over)
        save_manifest(self._folder, self._lines)
        self._listed.vouch()
        return laid

    def _put_in_place(self) -> None:
        in_order = in_writing_order(self._new)
        for folder in {path.rpartition("/")[0] for path in in_order}:
            (self._folder / folder).mkdir(parents=True, exist_ok=True)
        for path in in_order:
            place = self._place(path)
            _move(self._new[path], place)
            self._lines[path] = replace(self._lines[path], seen_ns=_times(os.lstat(place)))


def _move(aside: str, place: str) -> None:
    """Put a new file in the place of the old, which may be on another disk."""
    try:
        os.replace(aside, place)  # noqa: PTH105  (see `_place`)
    except OSError as fault:
        if fault.errno != errno.EXDEV:
            raise
        made = Path(aside)
        replace_file(Path(place), made.read_bytes(), mode=S_IMODE(made.stat().st_mode))


def ready_file(path: str, data: bytes, *, private: bool = False) -> PlannedFile:
    """A file whose bytes are already known."""
    return PlannedFile(path=path, key=None, make=lambda: data, private=private)


def as_listed(output_folder: Path) -> Laid | None:
    """What a run with nothing to do comes to: every file that the manifest lists, if each is as it was listed."""
    listed = _Listed(output_folder)
    if any((output_folder / folder).is_symlink() for folder in all_folders(listed.lines)):
        return None
    if any(listed.with_these_bytes(path, line) is None for path, line in listed.lines.items()):
        return None
    listed.vouch()
    return Laid(written=(), changed=(), removed=(), same=tuple(sorted(listed.lines)))


class _Listed:
    """The files of the runs before, as the manifest lists them and as they are."""

    def __init__(self, folder: Path) -> None:
        self.lines = read_manifest(folder)
        self._folder = folder
        self._spellings = {folded(path) for path in self.lines}
        self._settled_ns = listed_at_ns(folder) - COARSEST_CLOCK_NS
        self._was_read = False

    def vouch(self) -> None:
        """Make the manifest younger than the files that had to be read, so that the next run need not read them."""
        if self._was_read:
            (self._folder / MANIFEST).touch()

    def still_there(self, file: PlannedFile) -> WrittenFile | None:
        """The line of an existing file made from the same key."""
        line = self.lines.get(file.path)
        if line is None or file.key is None or line.key != file.key:
            return None
        return self.with_these_bytes(file.path, line)

    def with_these_bytes(self, path: str, wanted: WrittenFile) -> WrittenFile | None:
        """The same line with the file's times, if it has these bytes and is not another file in this spelling.

        The bytes are read unless the file cannot have been touched since it was listed.
        """
        line = self.lines.get(path)
        if line is None and folded(path) in self._spellings:
            return None
        place = f"{self._folder}/{path}"
        try:
            found = os.lstat(place)
        except (FileNotFoundError, NotADirectoryError):
            return None
        if not S_ISREG(found.st_mode) or found.st_size != wanted.size:
            return None
        seen_ns = _times(found)
        # A change within one step of the disk's clock leaves the time as it was.
        untouched = line is not None and line.seen_ns == seen_ns and max(seen_ns) < self._settled_ns
        if untouched and line is not None and line.sha256 == wanted.sha256:
            return wanted if wanted.seen_ns == seen_ns else replace(wanted, seen_ns=seen_ns)
        self._was_read = True
        if sha256(Path(place).read_bytes()).hexdigest() != wanted.sha256:
            return None
        return replace(wanted, seen_ns=seen_ns)


class _Ground:
    """What is below OUTPUT, compared with the paths that are wanted there."""

    def __init__(
        self,
        folder: Path,
        listed: Collection[str],
        wanted: Collection[str],
        ours: Collection[str],
    ) -> None:
        self._folder = folder
        self._known = {*listed, *ours}
        self._wanted = wanted
        self._stale = tuple(sorted(path for path in listed if path not in wanted))
        self.in_the_way = tuple(self._blocking())
        self.left_over = tuple(path for path in self._stale if path not in self.in_the_way)
        self._leaving = {folded(path): path for path in self.in_the_way}

    def planned(self, new: Collection[str]) -> Laid:
        """What there is to do; nothing is touched yet, nor will be if something is in the way."""
        self._check_folders()
        written = {path for path in sorted(new) if self._is_free(path)}
        return Laid(
            written=tuple(sorted(written)),
            changed=tuple(sorted(path for path in new if path not in written)),
            removed=tuple(path for path in self._stale if _is_file_or_link(self._folder / path)),
            same=tuple(sorted(path for path in self._wanted if path not in new)),
        )

    def _check_folders(self) -> None:
        """Refuse a wanted folder whose name is taken by a file or a link that is not ours to remove."""
        for folder in sorted(all_folders(self._wanted)):
            place = self._folder / folder
            taken = place.is_symlink() or (place.exists() and not place.is_dir())
            if taken and folded(folder) not in self._leaving:
                raise NotOurs(folder)

    def _is_free(self, path: str) -> bool:
        """Whether a new file's place is free, or will be by then; what is not ours to replace is refused."""
        if not os.path.lexists(f"{self._folder}/{path}") or self._will_be_free(path):
            return True
        if path in self._known and not _is_folder(self._folder / path):
            return False
        raise NotOurs(path)

    def _blocking(self) -> Iterator[str]:
        """Stale paths that are, on some disk, a wanted path, a folder of one, or below one; they go first."""
        files = {folded(path) for path in self._wanted}
        folders = {folded(folder) for folder in all_folders(self._wanted)}
        for path in self._stale:
            below = any(folder in files for folder in folders_above(folded(path)))
            if below or folded(path) in files or folded(path) in folders:
                yield path

    def _will_be_free(self, path: str) -> bool:
        """Whether everything there is in the way and goes first."""
        place = self._folder / path
        if _is_folder(place):
            inside = (found for found in place.rglob("*") if not _is_folder(found))
            return all(found.relative_to(self._folder).as_posix() in self.in_the_way for found in inside)
        twin = self._leaving.get(folded(path))
        return twin is not None and _are_one_file(place, self._folder / twin)


def _times(found: os.stat_result) -> tuple[int, int]:
    return found.st_mtime_ns, found.st_ctime_ns


def _close(places: Iterable[Path]) -> None:
    """Restrict existing private files to their owner."""
    for place in places:
        if os.name == "posix" and place.stat().st_mode & 0o077:
            place.chmod(OWNER_ALONE)


def _remove(output_folder: Path, paths: Iterable[str]) -> None:
    """Remove files of ours, and the folders that are empty without them."""
    for path in paths:
        if _is_beyond_a_link(output_folder, path):
            continue
        if _is_file_or_link(output_folder / path):
            (output_folder / path).unlink()
        for folder in (output_folder / above for above in reversed(tuple(folders_above(path)))):
            if folder.is_dir() and not any(folder.iterdir()):
                folder.rmdir()


def _is_folder(place: Path) -> bool:
    return place.is_dir() and not place.is_symlink()


def _is_file_or_link(place: Path) -> bool:
    return place.is_file() or place.is_symlink()


def _are_one_file(place: Path, other: Path) -> bool:
    return place.exists() and other.exists() and place.samefile(other)


def _is_beyond_a_link(output_folder: Path, path: str) -> bool:
    return any((output_folder / folder).is_symlink() for folder in folders_above(path))
