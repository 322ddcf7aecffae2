"""Whole files under OUTPUT: written only when they differ, in an order and with a list that no kill can upset."""

import json
import os
import secrets
import unicodedata
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache
from hashlib import sha256
from pathlib import Path
from stat import S_ISREG

MANIFEST = ".manifest.json"
_KEPT_BY_US = frozenset({MANIFEST, ".store"})
_TEMPORARY_PREFIX = ".wickwright-"
_TEMPORARY_SUFFIX = ".part"
_PAGES = (".html", ".xml", ".json")
_WAYS_IN = frozenset({"index.html", "sitemap.xml", "feed.xml"})
_COARSEST_CLOCK_NS = 2_000_000_000
"""The widest step of the times that a disk keeps of its files: two seconds, on FAT (common practice, no source)."""
_NOT_ON_EVERY_DISK = frozenset('\\:<>"|?*') | {chr(code) for code in range(32)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What a run did to the files under OUTPUT: new, overwritten, taken away, left as they were."""

    written: tuple[str, ...]
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    same: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """The bytes of a file, known by their digest and size, and fetched only where they are needed."""

    sha256: str
    size: int
    fetch: Callable[[], bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What the manifest says of a file we wrote; ``seen_ns`` is when it had last been altered, as the disk told us.

    There are two such times: of its bytes, which may be set back, and of anything about it, which may not.
    """

    sha256: str
    size: int
    seen_ns: tuple[int, int] | None = None


class NotOurs(Exception):
    """A wanted path is taken by something this program did not write."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} is in the way: this program did not write it, so it leaves it alone")
        self.path = path


class AlikeButForCase(Exception):
    """Two wanted paths that would be one on a disk that does not tell capitals from small letters."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(f"{first} and {second} cannot stand side by side on every disk")
        self.paths = (first, second)


class OutsideTheFolder(Exception):
    """A path that leads out of OUTPUT, that some disk cannot hold, or that this program keeps for itself."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path!r} cannot be the path of a file in the output folder")
        self.path = path


def lay_out(output_folder: Path, files: Mapping[str, bytes | Held], ours: Collection[str] = ()) -> Laid:
    """Make OUTPUT hold these files, and nothing else of what we wrote before.

    A file that already has the wanted bytes is listed as ours from then on, whoever wrote it: so a lost manifest heals;
    ``ours`` are files that are never the same twice and that nobody else writes.
    One that nobody has touched since it was listed with the wanted digest is not read again.
    """
    _check_paths(files)
    wanted = {path: data if isinstance(data, Held) else held(data) for path, data in files.items()}
    ground = _Ground(output_folder, wanted.keys(), ours)
    laid = _planned(ground, wanted)
    lines = {path: Listed(sha256=one.sha256, size=one.size) for path, one in wanted.items()}
    output_folder.mkdir(parents=True, exist_ok=True)
    _sweep_all(output_folder, {**ground.listed, **wanted})
    if not wanted.keys() <= ground.listed.keys():
        # Listed before they are written: a run that is cut short leaves no file that a later run does not know as ours.
        _save_manifest(output_folder, {**ground.listed, **lines})
    _remove(output_folder, ground.in_the_way)
    written = _write(output_folder, wanted, (*laid.written, *laid.changed))
    _remove(output_folder, ground.left_over)
    seen = {**ground.seen_ns, **written}
    _save_manifest(output_folder, {path: replace(line, seen_ns=seen[path]) for path, line in lines.items()})
    return laid


def as_listed(output_folder: Path) -> Laid | None:
    """What a run with nothing to do comes to: every file that the manifest lists, if each is as it was listed."""
    listed = read_manifest(output_folder)
    ground = _Ground(output_folder, listed.keys())
    if any((output_folder / folder).is_symlink() for folder in _all_folders(listed)):
        return None
    if not all(ground.has(path, line) for path, line in listed.items()):
        return None
    return Laid(written=(), changed=(), removed=(), same=tuple(sorted(listed)))


def held(data: bytes) -> Held:
    """Bytes that are at hand."""
    return Held(sha256=sha256(data).hexdigest(), size=len(data), fetch=lambda: data)


def in_writing_order(paths: Iterable[str]) -> tuple[str, ...]:
    """Pictures, styles and papers first, then pages, then the ways in; so a page that can be reached has its parts."""
    return tuple(sorted(paths, key=_turn))


def read_manifest(output_folder: Path) -> Mapping[str, Listed]:
    """What we wrote by path; nothing when the manifest is missing or damaged."""
    try:
        lines = json.loads((output_folder / MANIFEST).read_bytes())
    except (FileNotFoundError, ValueError):
        return {}
    return dict(_lines_of_ours(lines)) if isinstance(lines, dict) else {}


def replace_file(path: Path, data: bytes, *, durable: bool = False) -> None:
    """Put a whole file in the place of the old one; `durable` waits until the disk has it."""
    temporary = path.with_name(f"{_TEMPORARY_PREFIX}{secrets.token_hex(4)}{_TEMPORARY_SUFFIX}")
    try:
        with temporary.open("xb") as file:
            file.write(data)
            if durable:
                file.flush()
                os.fsync(file.fileno())
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def sweep(folder: Path) -> None:
    """Take away the temporary files that a killed run left in the folder itself."""
    for path in folder.glob(f"{_TEMPORARY_PREFIX}*{_TEMPORARY_SUFFIX}"):
        path.unlink()


class _State(Enum):
    NEW = "new"
    OTHER = "other"
    SAME = "same"


class _Ground:
    """What stands under OUTPUT before anything is done, seen against what is wanted there."""

    def __init__(self, folder: Path, wanted: Iterable[str], ours: Collection[str] = ()) -> None:
        self.folder = folder
        self.ours = ours
        self.listed = read_manifest(folder)
        self.seen_ns: dict[str, tuple[int, int]] = {}
        self.wanted = frozenset(wanted)
        self.stale = tuple(sorted(self.listed.keys() - self.wanted))
        self.in_the_way = tuple(self._blocking())
        self.left_over = tuple(path for path in self.stale if path not in self.in_the_way)
        self._leaving = {_folded(path): path for path in self.in_the_way}
        self._settled_ns = _listed_at_ns(folder) - _COARSEST_CLOCK_NS

    def check_folders(self) -> None:
        """Refuse a wanted folder whose name is taken by a file or a link that is not ours to remove."""
        for folder in sorted(_all_folders(self.wanted)):
            place = self.folder / folder
            taken = place.is_symlink() or (place.exists() and not place.is_dir())
            if taken and _folded(folder) not in self._leaving:
                raise NotOurs(folder)

    def state(self, path: str, wanted: Held) -> _State:
        """How the wanted file stands to what is there; remembers when one with the wanted bytes was last altered."""
        place = self.folder / path
        if not (self._leaving and _folded(path) in self._leaving) and self._holds(path, place, wanted):
            return _State.SAME
        if not os.path.lexists(place) or self._will_be_free(path):
            return _State.NEW
        if (path in self.listed or path in self.ours) and not _is_folder(place):
            return _State.OTHER
        raise NotOurs(path)

    def has(self, path: str, line: Listed) -> bool:
        """Whether a file is as it was listed."""
        return self._holds(path, self.folder / path, line)

    def _holds(self, path: str, place: Path, wanted: Held | Listed) -> bool:
        """Whether the wanted bytes are there; they are read unless nothing can have changed since they were listed."""
        try:
            found = place.lstat()
        except (FileNotFoundError, NotADirectoryError):
            return False
        if not S_ISREG(found.st_mode) or found.st_size != wanted.size:
            return False
        self.seen_ns[path] = (found.st_mtime_ns, found.st_ctime_ns)
        return self._is_untouched(path, wanted) or sha256(place.read_bytes()).hexdigest() == wanted.sha256

    def _is_untouched(self, path: str, wanted: Held | Listed) -> bool:
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
        files = {_folded(path) for path in self.wanted}
        folders = {_folded(folder) for folder in _all_folders(self.wanted)}
        for path in self.stale:
            below = any(folder in files for folder in _folders(_folded(path)))
            if below or _folded(path) in files or _folded(path) in folders:
                yield path

    def _will_be_free(self, path: str) -> bool:
        """Whether all that stands there is in the way and goes first."""
        place = self.folder / path
        if _is_folder(place):
            inside = (found for found in place.rglob("*") if not _is_folder(found))
            return all(found.relative_to(self.folder).as_posix() in self.in_the_way for found in inside)
        twin = self._leaving.get(_folded(path))
        return twin is not None and _are_one_file(place, self.folder / twin)


def _planned(ground: _Ground, files: Mapping[str, Held]) -> Laid:
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
    output_folder: Path, files: Mapping[str, Held], paths: Iterable[str]
) -> Mapping[str, tuple[int, int]]:
    """Write the files; when each was altered by that, as the disk tells."""
    seen_ns = {}
    in_order = in_writing_order(paths)
    for folder in {path.rpartition("/")[0] for path in in_order}:
        (output_folder / folder).mkdir(parents=True, exist_ok=True)
    for path in in_order:
        place = output_folder / path
        replace_file(place, files[path].fetch())
        found = place.lstat()
        seen_ns[path] = (found.st_mtime_ns, found.st_ctime_ns)
    return seen_ns


def _remove(output_folder: Path, paths: Iterable[str]) -> None:
    """Remove files of ours, and the folders that are empty without them."""
    for path in paths:
        if _is_beyond_a_link(output_folder, path):
            continue
        if _is_file_or_link(output_folder / path):
            (output_folder / path).unlink()
        for folder in reversed(tuple(_folders(path))):
            _remove_if_empty(output_folder / folder)


def _sweep_all(output_folder: Path, paths: Iterable[str]) -> None:
    """Sweep every folder in which a killed run may have been writing."""
    sweep(output_folder)
    for folder in _all_folders(paths):
        if not _is_beyond_a_link(output_folder, f"{folder}/"):
            sweep(output_folder / folder)


def _remove_if_empty(folder: Path) -> None:
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()


def _lines_of_ours(lines: Mapping[str, object]) -> Iterator[tuple[str, Listed]]:
    for path, line in lines.items():
        match line:
            case {"sha256": str(digest), "size": int(size), **more} if _can_be_laid(path):
                yield path, Listed(sha256=digest, size=size, seen_ns=_times_of(more.get("seen_ns")))


def _times_of(times: object) -> tuple[int, int] | None:
    match times:
        case [int(of_bytes), int(of_anything)]:
            return of_bytes, of_anything
    return None


def _listed_at_ns(output_folder: Path) -> int:
    """When the manifest was written, by the clock that its disk keeps for all its files."""
    try:
        return (output_folder / MANIFEST).lstat().st_mtime_ns
    except FileNotFoundError:
        return 0


def _save_manifest(output_folder: Path, listed: Mapping[str, Listed]) -> None:
    """Write the list of what is ours, unless it says so already; all else can be made again, so it alone is durable."""
    lines = {
        path: {"sha256": one.sha256, "size": one.size, "seen_ns": one.seen_ns} for path, one in listed.items()
    }
    data = (json.dumps(lines, sort_keys=True, ensure_ascii=False) + "\n").encode()
    place = output_folder / MANIFEST
    if not (place.is_file() and place.read_bytes() == data):
        replace_file(place, data, durable=True)


def _check_paths(paths: Iterable[str]) -> None:
    seen: dict[str, str] = {}
    for path in sorted(paths):
        if not _can_be_laid(path):
            raise OutsideTheFolder(path)
        twin = seen.setdefault(_folded(path), path)
        if twin != path:
            raise AlikeButForCase(twin, path)
    for folded, path in seen.items():
        for folder in _folders(folded):
            if folder in seen:
                raise AlikeButForCase(seen[folder], path)


@cache
def _can_be_laid(path: str) -> bool:
    """Remembered, because a path that is wanted stands in the manifest too."""
    parts = path.split("/")
    return (
        _NOT_ON_EVERY_DISK.isdisjoint(path)
        and _folded(parts[0]) not in _KEPT_BY_US
        and not any(
            part == "" or part.endswith((".", " ")) or part.startswith(_TEMPORARY_PREFIX) for part in parts
        )
    )


def _turn(path: str) -> tuple[int, int, str]:
    """The way in to the whole site comes after the ways in to its parts."""
    if path.rsplit("/", maxsplit=1)[-1] in _WAYS_IN:
        return 2, -path.count("/"), path
    return int(path.endswith(_PAGES)), 0, path


def _folders(path: str) -> Iterator[str]:
    """The folders of a path from the outermost in."""
    end = path.find("/")
    while end != -1:
        yield path[:end]
        end = path.find("/", end + 1)


def _all_folders(paths: Iterable[str]) -> frozenset[str]:
    return frozenset(folder for path in paths for folder in _folders(path))


def _folded(path: str) -> str:
    """One spelling for all paths that some disk takes for the same."""
    return unicodedata.normalize("NFC", path).casefold()


def _is_folder(place: Path) -> bool:
    return place.is_dir() and not place.is_symlink()


def _is_file_or_link(place: Path) -> bool:
    return place.is_file() or place.is_symlink()


def _are_one_file(place: Path, other: Path) -> bool:
    return place.exists() and other.exists() and place.samefile(other)


def _is_beyond_a_link(output_folder: Path, path: str) -> bool:
    return any((output_folder / folder).is_symlink() for folder in _folders(path))
