"""Paths of files below OUTPUT: which can exist side by side on every disk, and in which order they are written."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Final

from generator.files import is_device_name

MANIFEST = ".manifest.json"
MOST_FOLDERS: Final = 8
"""The most parts of a path, including the file."""

MOST_BYTES_OF_A_PATH: Final = 700
"""Two must fit into one line of the SFTP client, and one into an object's name (1,024 bytes)."""

MOST_BYTES_OF_A_NAME: Final = 200
"""Disks take 255 (NAME_MAX of Linux); a temporary name is longer than the file's own."""

_PAGES = (".html", ".xml", ".json")
_WAYS_IN = frozenset({"index.html", "sitemap.xml", "feed.xml"})
_NOT_ON_EVERY_DISK = re.compile(r"""[\\:<>"|?*]|~[0-9]""")
"""What Windows cannot store, and its short names, by which it finds files of other names (``GIT~1``)."""


class AlikeButForCase(Exception):
    """Two wanted paths that would be one on a disk that ignores case."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(f"{first} and {second} cannot both exist on every disk")
        self.paths = (first, second)


class OutsideTheFolder(Exception):
    """A path that leads out of OUTPUT, that some disk cannot store, or that this program reserves."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path!r} cannot be the path of a file in the output folder")
        self.path = path


def check_paths(paths: Iterable[str]) -> None:
    """Raise where files at these paths could not exist on every disk."""
    seen: dict[str, str] = {}
    for path in sorted(paths):
        if not can_be_laid(path):
            raise OutsideTheFolder(path)
        twin = seen.setdefault(folded(path), path)
        if twin != path:
            raise AlikeButForCase(twin, path)
    for spelling, path in seen.items():
        for folder in folders_above(spelling):
            if folder in seen:
                raise AlikeButForCase(seen[folder], path)


@cache
def can_be_laid(path: str) -> bool:
    """Whether a file of ours may have this path, here and at a target; remembered, since most are asked for twice.

    It leads down and never up, every disk can store it, and no part begins with a dot: such names belong to the
    computer, to other tools, or to this program's own notes.
    """
    parts = path.split("/")
    return (
        path.isprintable()
        and len(path.encode()) <= MOST_BYTES_OF_A_PATH
        and len(parts) <= MOST_FOLDERS
        and _NOT_ON_EVERY_DISK.search(path) is None
        and all(_can_be_a_name(part) for part in parts)
    )


def _can_be_a_name(part: str) -> bool:
    return (
        part != ""
        and not part.startswith(".")
        and not part.endswith((".", " "))
        and len(part.encode()) <= MOST_BYTES_OF_A_NAME
        and not is_device_name(part)
    )


def in_writing_order(paths: Iterable[str]) -> tuple[str, ...]:
    """Pictures, styles and papers first, then pages, then the ways in: a reachable page has its parts."""
    return tuple(sorted(paths, key=_turn))


def folders_above(path: str) -> Iterator[str]:
    """The folders of a path from the outermost in."""
    end = path.find("/")
    while end != -1:
        yield path[:end]
        end = path.find("/", end + 1)


def all_folders(paths: Iterable[str]) -> frozenset[str]:
    """Every folder that has one of the paths below it."""
    parents = {path[: path.rfind("/") + 1] for path in paths}
    return frozenset(folder for parent in parents for folder in folders_above(parent))


def folded(path: str) -> str:
    """One spelling for all paths that some disk treats as the same."""
    return unicodedata.normalize("NFC", path).casefold()


def _turn(path: str) -> tuple[int, int, str]:
    """The way in to the whole site comes after the ways in to its parts."""
    if path.rsplit("/", maxsplit=1)[-1] in _WAYS_IN:
        return 2, -path.count("/"), path
    return int(path.endswith(_PAGES)), 0, path
