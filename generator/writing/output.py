"""Whole files under OUTPUT: written only when they differ, in an order and with a list that no kill can upset."""

import json
import os
import secrets
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from hashlib import sha256
from pathlib import Path, PurePosixPath
from stat import S_ISREG

MANIFEST = ".manifest.json"
_KEPT_BY_US = frozenset({MANIFEST, ".store"})
_TEMPORARY_PREFIX = ".wickwright-"
_TEMPORARY_SUFFIX = ".part"
_PAGES = frozenset({".html", ".xml", ".json"})
_WAYS_IN = frozenset({"index.html", "sitemap.xml", "feed.xml"})
_NOT_ON_EVERY_DISK = frozenset('\\:<>"|?*') | {chr(code) for code in range(32)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What a run did to the files under OUTPUT: new, overwritten, taken away, left as they were."""

    written: tuple[str, ...]
    changed: tuple[str, ...]
    removed: tuple[str, ...]
    same: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """What the manifest says of a file we wrote."""

    sha256: str
    size: int


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


def lay_out(output_folder: Path, files: Mapping[str, bytes]) -> Laid:
    """Make OUTPUT hold these files, and nothing else of what we wrote before.

    A file that already has the wanted bytes is listed as ours from then on, whoever wrote it: so a lost manifest heals.
    """
    _check_paths(files)
    listed = read_manifest(output_folder)
    wanted = {path: Listed(sha256=sha256(data).hexdigest(), size=len(data)) for path, data in files.items()}
    ground = _Ground(output_folder, listed, wanted.keys())
    laid = _planned(ground, files)
    output_folder.mkdir(parents=True, exist_ok=True)
    _sweep_all(output_folder, {**listed, **wanted})
    # Listed before they are written: a run that is cut short leaves no file that a later run does not know as its own.
    _save_manifest(output_folder, {**listed, **wanted})
    _remove(output_folder, ground.in_the_way)
    _write(output_folder, files, (*laid.written, *laid.changed))
    _remove(output_folder, ground.left_over)
    _save_manifest(output_folder, wanted)
    return laid


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
    finally:
        temporary.unlink(missing_ok=True)


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

    def __init__(self, folder: Path, listed: Mapping[str, Listed], wanted: Iterable[str]) -> None:
        self.folder = folder
        self.listed = listed
        self.wanted = frozenset(wanted)
        self.stale = tuple(sorted(listed.keys() - self.wanted))
        self.in_the_way = tuple(self._blocking())
        self.left_over = tuple(path for path in self.stale if path not in self.in_the_way)
        self._leaving = {_folded(path): path for path in self.in_the_way}

    def check_folders(self) -> None:
        """Refuse a wanted folder whose name is taken by a file or a link that is not ours to remove."""
        for folder in sorted(_all_folders(self.wanted)):
            place = self.folder / folder
            taken = place.is_symlink() or (place.exists() and not place.is_dir())
            if taken and _folded(folder) not in self._leaving:
                raise NotOurs(folder)

    def state(self, path: str, data: bytes) -> _State:
        """How the wanted file stands to what is there."""
        place = self.folder / path
        if _folded(path) not in self._leaving and _holds(place, data):
            return _State.SAME
        if not os.path.lexists(place) or self._will_be_free(path):
            return _State.NEW
        if path in self.listed and not _is_folder(place):
            return _State.OTHER
        raise NotOurs(path)

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


def _planned(ground: _Ground, files: Mapping[str, bytes]) -> Laid:
    """What there is to do; nothing is touched yet, and nothing will be if something is in the way."""
    ground.check_folders()
    states = {path: ground.state(path, files[path]) for path in sorted(files)}
    return Laid(
        written=tuple(path for path, state in states.items() if state is _State.NEW),
        changed=tuple(path for path, state in states.items() if state is _State.OTHER),
        removed=tuple(path for path in ground.stale if _is_file_or_link(ground.folder / path)),
        same=tuple(path for path, state in states.items() if state is _State.SAME),
    )


def _write(output_folder: Path, files: Mapping[str, bytes], paths: Iterable[str]) -> None:
    for path in in_writing_order(paths):
        place = output_folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        replace_file(place, files[path])


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
            case {"sha256": str(digest), "size": int(size)} if _can_be_laid(path):
                yield path, Listed(sha256=digest, size=size)


def _save_manifest(output_folder: Path, listed: Mapping[str, Listed]) -> None:
    """Write the list of what is ours, unless it says so already; all else can be made again, so it alone is durable."""
    lines = {path: {"sha256": listed[path].sha256, "size": listed[path].size} for path in listed}
    data = (json.dumps(lines, sort_keys=True, ensure_ascii=False) + "\n").encode()
    place = output_folder / MANIFEST
    if not _holds(place, data):
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


def _can_be_laid(path: str) -> bool:
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
    name = PurePosixPath(path)
    if name.name in _WAYS_IN:
        return 2, -len(name.parts), path
    return int(name.suffix in _PAGES), 0, path


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


def _holds(place: Path, data: bytes) -> bool:
    try:
        found = place.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    return S_ISREG(found.st_mode) and found.st_size == len(data) and place.read_bytes() == data


def _is_folder(place: Path) -> bool:
    return place.is_dir() and not place.is_symlink()


def _is_file_or_link(place: Path) -> bool:
    return place.is_file() or place.is_symlink()


def _are_one_file(place: Path, other: Path) -> bool:
    return place.exists() and other.exists() and place.samefile(other)


def _is_beyond_a_link(output_folder: Path, path: str) -> bool:
    return any((output_folder / folder).is_symlink() for folder in _folders(path))
