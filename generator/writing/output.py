"""Whole files under OUTPUT: written only when they differ, in an order and with a list that no kill can upset."""

import os
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from hashlib import sha256
from pathlib import Path
from stat import S_ISREG

from generator.writing.manifest import WrittenFile, listed_at_ns, read_manifest, save_manifest
from generator.writing.paths import all_folders, check_paths, folded, folders_above, in_writing_order
from generator.writing.whole_files import OWNER_ALONE, replace_file, sweep

_COARSEST_CLOCK_NS = 2_000_000_000
"""The widest step of the times that a disk keeps of its files: two seconds, on FAT (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What a run did to the files under OUTPUT: new, overwritten, taken away, left as they were."""

    written: tuple[str, ...]
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    same: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LazyBytes:
    """The bytes of a file, known by their digest and size, and fetched only where they are needed.

    A ``private`` file is for its owner alone.
    """

    sha256: str
    size: int
    fetch: Callable[[], bytes]
    private: bool = False


class NotOurs(Exception):
    """A wanted path is taken by something this program did not write."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} is in the way: this program did not write it, so it leaves it alone")
        self.path = path


def lay_out(output_folder: Path, files: Mapping[str, bytes | LazyBytes], ours: Collection[str] = ()) -> Laid:
    """Make OUTPUT hold these files, and nothing else of what we wrote before.

    A file that already has the wanted bytes is listed as ours from then on, whoever wrote it: so a lost manifest heals;
    ``ours`` are files that are never the same twice and that nobody else writes.
    One that nobody has touched since it was listed with the wanted digest is not read again.
    """
    check_paths(files)
    wanted = {path: data if isinstance(data, LazyBytes) else lazy(data) for path, data in files.items()}
    ground = _OutputState(output_folder, wanted.keys(), ours)
    laid = _planned(ground, wanted)
    lines = {path: WrittenFile(sha256=one.sha256, size=one.size) for path, one in wanted.items()}
    output_folder.mkdir(parents=True, exist_ok=True)
    _sweep_all(output_folder, {**ground.listed, **wanted})
    if not wanted.keys() <= ground.listed.keys():
        # Listed before they are written: a run that is cut short leaves no file that a later run does not know as ours.
        save_manifest(output_folder, {**ground.listed, **lines})
    _close(output_folder / path for path in laid.same if wanted[path].private)
    _remove(output_folder, ground.in_the_way)
    written = _write(output_folder, wanted, (*laid.written, *laid.changed))
    _remove(output_folder, ground.left_over)
    seen = {**ground.seen_ns, **written}
    save_manifest(output_folder, {path: replace(line, seen_ns=seen[path]) for path, line in lines.items()})
    return laid


def as_listed(output_folder: Path) -> Laid | None:
    """What a run with nothing to do comes to: every file that the manifest lists, if each is as it was listed."""
    ground = _OutputState(output_folder)
    if any((output_folder / folder).is_symlink() for folder in all_folders(ground.listed)):
        return None
    if not all(ground.holds(path, line) for path, line in ground.listed.items()):
        return None
    return Laid(written=(), changed=(), removed=(), same=tuple(sorted(ground.listed)))


def lazy(data: bytes, *, private: bool = False) -> LazyBytes:
    """Bytes that are at hand."""
    return LazyBytes(sha256=sha256(data).hexdigest(), size=len(data), fetch=lambda: data, private=private)


class _State(Enum):
    NEW = "new"
    OTHER = "other"
    SAME = "same"


class _OutputState:
    """What is below OUTPUT, compared with the wanted paths, or with the manifest's when none are given."""

    def __init__(self, folder: Path, wanted: Iterable[str] | None = None, ours: Collection[str] = ()) -> None:
        self.folder = folder
        self.ours = ours
        self.listed = read_manifest(folder)
        self.seen_ns: dict[str, tuple[int, int]] = {}
        self.wanted = frozenset(self.listed if wanted is None else wanted)
        self.stale = tuple(sorted(self.listed.keys() - self.wanted))
        self.in_the_way = tuple(self._blocking())
        self.left_over = tuple(path for path in self.stale if path not in self.in_the_way)
        self._leaving = {folded(path): path for path in self.in_the_way}
        self._settled_ns = listed_at_ns(folder) - _COARSEST_CLOCK_NS

    def check_folders(self) -> None:
        """Refuse a wanted folder whose name is taken by a file or a link that is not ours to remove."""
        for folder in sorted(all_folders(self.wanted)):
            place = self.folder / folder
            taken = place.is_symlink() or (place.exists() and not place.is_dir())
            if taken and folded(folder) not in self._leaving:
                raise NotOurs(folder)

    def state(self, path: str, wanted: LazyBytes) -> _State:
        """How the wanted file stands to what is there; remembers when one with the wanted bytes was last altered."""
        place = self.folder / path
        if not (self._leaving and folded(path) in self._leaving) and self.holds(path, wanted):
            return _State.SAME
        if not os.path.lexists(place) or self._will_be_free(path):
            return _State.NEW
        if (path in self.listed or path in self.ours) and not _is_folder(place):
            return _State.OTHER
        raise NotOurs(path)

    def holds(self, path: str, wanted: LazyBytes | WrittenFile) -> bool:
        """Whether the wanted bytes are there; they are read unless nothing can have changed since they were listed."""
        place = f"{self.folder}/{path}"
        try:
            found = os.lstat(place)
        except (FileNotFoundError, NotADirectoryError):
            return False
        if not S_ISREG(found.st_mode) or found.st_size != wanted.size:
            return False
        self.seen_ns[path] = (found.st_mtime_ns, found.st_ctime_ns)
        return (
            self._is_untouched(path, wanted) or sha256(Path(place).read_bytes()).hexdigest() == wanted.sha256
        )

    def _is_untouched(self, path: str, wanted: LazyBytes | WrittenFile) -> bool:
        """Whether the manifest vouches for the file.

        It does not for one that is hardly older than itself: a change within one step of the disk's clock leaves
        the time as it was.
        """
        line, seen_ns = self.listed.get(path), self.seen_ns[path]
        return (
            line is not None
            and line.sha256 == wanted.sha256
            and line.seen_ns == seen_ns
            and max(seen_ns) < self._settled_ns
        )

    def _blocking(self) -> Iterator[str]:
        """Stale paths that are, on some disk, a wanted path, a folder of one, or below one; they go first."""
        files = {folded(path) for path in self.wanted}
        folders = {folded(folder) for folder in all_folders(self.wanted)}
        for path in self.stale:
            below = any(folder in files for folder in folders_above(folded(path)))
            if below or folded(path) in files or folded(path) in folders:
                yield path

    def _will_be_free(self, path: str) -> bool:
        """Whether all that stands there is in the way and goes first."""
        place = self.folder / path
        if _is_folder(place):
            inside = (found for found in place.rglob("*") if not _is_folder(found))
            return all(found.relative_to(self.folder).as_posix() in self.in_the_way for found in inside)
        twin = self._leaving.get(folded(path))
        return twin is not None and _are_one_file(place, self.folder / twin)


def _planned(ground: _OutputState, files: Mapping[str, LazyBytes]) -> Laid:
    """What there is to do; nothing is touched yet, and nothing will be if something is in the way."""
    ground.check_folders()
    states = {path: ground.state(path, files[path]) for path in sorted(files)}
    return Laid(
        written=tuple(path for path, state in states.items() if state is _State.NEW),
        changed=tuple(path for path, state in states.items() if state is _State.OTHER),
        removed=tuple(path for path in ground.stale if _is_file_or_link(ground.folder / path)),
        same=tuple(path for path, state in states.items() if state is _State.SAME),
    )


def _write(
    output_folder: Path, files: Mapping[str, LazyBytes], paths: Iterable[str]
) -> Mapping[str, tuple[int, int]]:
    """Write the files; when each was altered by that, as the disk tells."""
    seen_ns = {}
    in_order = in_writing_order(paths)
    for folder in {path.rpartition("/")[0] for path in in_order}:
        (output_folder / folder).mkdir(parents=True, exist_ok=True)
    for path in in_order:
        place = output_folder / path
        replace_file(place, files[path].fetch(), mode=OWNER_ALONE if files[path].private else None)
        found = place.lstat()
        seen_ns[path] = (found.st_mtime_ns, found.st_ctime_ns)
    return seen_ns


def _close(places: Iterable[Path]) -> None:
    """Leave private files that are there to their owner alone."""
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


def _sweep_all(output_folder: Path, paths: Iterable[str]) -> None:
    """Sweep every folder in which a killed run may have been writing."""
    sweep(output_folder)
    for folder in all_folders(paths):
        if not _is_beyond_a_link(output_folder, f"{folder}/"):
            sweep(output_folder / folder)


def _is_folder(place: Path) -> bool:
    return place.is_dir() and not place.is_symlink()


def _is_file_or_link(place: Path) -> bool:
    return place.is_file() or place.is_symlink()


def _are_one_file(place: Path, other: Path) -> bool:
    return place.exists() and other.exists() and place.samefile(other)


def _is_beyond_a_link(output_folder: Path, path: str) -> bool:
    return any((output_folder / folder).is_symlink() for folder in folders_above(path))
