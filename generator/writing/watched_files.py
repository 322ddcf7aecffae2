"""Whether anything below some folders was saved, found by looking at them repeatedly."""

import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from time import perf_counter
from typing import Final, TypeAlias

Seen: TypeAlias = Mapping[str, tuple[int, int, int]]
"""Each file's time of last change in nanoseconds, size in bytes and number on the disk, by path."""

_LOOK_EVERY_S: Final = 0.075
_AT_REST_S: Final = 0.04
"""A file unchanged for this long has been saved completely. (CHOICE)"""
_REST_TO_LOOK: Final = 10
"""Looking at a large shop takes long, and looking without pause would keep a core busy. (CHOICE)"""


class WatchedFiles:
    """All files below some folders except dot files, as they were at the last reported change."""

    def __init__(self, folders: Sequence[Path]) -> None:
        self._folders = folders
        self._told = self._last = seen_below(folders)
        self.rest_s = _LOOK_EVERY_S
        """How long to wait before the next look."""

    def have_changed(self) -> bool:
        """Look; report files saved together once, when two looks in a row have seen the same."""
        started = perf_counter()
        now = seen_below(self._folders)
        took_s = perf_counter() - started
        is_settled, self._last = now == self._last, now
        if now != self._told and not is_settled:
            self.rest_s = _AT_REST_S
            return False
        self.rest_s = max(_LOOK_EVERY_S, _REST_TO_LOOK * took_s)
        has_changed, self._told = now != self._told, now
        return has_changed


def seen_below(folders: Sequence[Path]) -> Seen:
    """One look at every file; a folder that a link leads to is looked at once, so that a circle ends."""
    seen: dict[str, tuple[int, int, int]] = {}
    waiting, followed = [str(folder) for folder in folders], set[str]()
    while waiting:
        with suppress(OSError), os.scandir(waiting.pop()) as entries:
            for entry in entries:
                if entry.name.startswith("."):
                    continue
                with suppress(OSError):  # It is gone meanwhile, or is a broken link.
                    if not entry.is_dir():
                        found = entry.stat()
                        seen[entry.path] = (found.st_mtime_ns, found.st_size, found.st_ino)
                    elif not entry.is_symlink() or _is_new(os.path.realpath(entry.path), followed):
                        waiting.append(entry.path)
    return seen


def _is_new(place: str, followed: set[str]) -> bool:
    is_new = place not in followed
    followed.add(place)
    return is_new
