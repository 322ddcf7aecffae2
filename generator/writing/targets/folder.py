"""A target on this computer: a folder on a disk, a mounted drive or a checkout."""

import errno
import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from generator.writing.targets.below import Below
from generator.writing.targets.peer import (
    A_LIST,
    LOCK,
    MOST_BYTES_OF_A_LIST,
    MOST_BYTES_OF_AN_OWNER,
    MOST_LISTS,
    OURS,
    OVERTAKEN,
    OWNER,
    TAKEN,
    Barrier,
    CouldNotPublish,
    FolderListing,
    Found,
    Lock,
    ReleaseStep,
    Remove,
    RequireUnchanged,
    Send,
    StageLink,
    Switch,
    owner_of,
    paths_of,
    readied,
    ready_lock,
    too_many_lists,
)


class FolderPeer:
    """Files are written under temporary names and renamed; ``link`` is the one name that may be a link."""

    def __init__(self, folder: Path, link: str | None = None) -> None:
        self._folder = folder
        self._below = Below(folder)
        self._link = link

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is there now; a missing folder may be an unmounted drive."""
        if not self._folder.is_dir():
            raise CouldNotPublish(
                f"there is no folder {self._folder.as_posix()}; connect the drive it is on, "
                "or create the folder"
            )
        with _told(self._folder):
            listings = {
                name: self._seen(folders) if name == self._link else self._folder_listing(name)
                for name in folders
            }
            return Found(
                owner=self._below.read(OWNER, MOST_BYTES_OF_AN_OWNER),
                listings={name: found for name, found in listings.items() if found is not None},
            )

    def tells_case(self) -> bool:
        """Whether our own folder answers to its name in capitals."""
        return not (self._folder / OURS.upper()).exists()

    def carry_out(self, steps: Iterable[ReleaseStep], tell: Callable[[], None]) -> None:
        """Take the steps in order, once nothing is in the way of any of them."""
        swept: set[str] = set()
        steps = tuple(steps)
        with _told(self._folder):
            self._below.check(paths_of(steps))
            for step in steps:
                self._take(step, swept)
                if isinstance(step, Send):
                    tell()

    def _seen(self, folders: tuple[str, ...]) -> FolderListing | None:
        """What the link leads to, if that is one of the folders; nothing elsewhere is looked at."""
        link = self._folder / str(self._link)
        if not os.path.lexists(link):
            return None
        sides = (name for name in folders if name != self._link and self._below.names(name) is not None)
        led_to = (name for name in sides if link.is_symlink() and _is_same(link, self._folder / name))
        return next((self._folder_listing(name) for name in led_to), FolderListing(lists={}, names=()))

    def _folder_listing(self, folder: str) -> FolderListing | None:
        names = self._below.names(folder)
        if names is None:
            return None
        ours = f"{folder}/{OURS}" if folder else OURS
        lists = [name for name in self._below.names(ours) or () if A_LIST.fullmatch(name)]
        if len(lists) > MOST_LISTS:
            raise too_many_lists(ours)
        read = {name: self._below.read(f"{ours}/{name}", MOST_BYTES_OF_A_LIST) for name in lists}
        return FolderListing(
            lists={name: data for name, data in read.items() if data is not None}, names=names
        )

    def _take(self, step: ReleaseStep, swept: set[str]) -> None:
        match step:
            case Send(path, source):
                self._send(path, source, swept)
            case Remove(path):
                self._below.remove(path)
                self._below.tidy(path)
            case Lock(owner, name):
                self._lock(owner.read_bytes(), ready_lock(name))
            case RequireUnchanged(path):
                if not (self._folder / path).is_file():
                    raise CouldNotPublish(OVERTAKEN)
            case Barrier():
                pass
            case StageLink(link, folder):
                self._ready(self._folder / readied(link), folder)
            case Switch(link):
                (self._folder / readied(link)).replace(self._folder / link)
            case _:
                self._below.remove(OWNER)
                self._below.remove_folder(LOCK)

    def _lock(self, owner: bytes, ready: str) -> None:
        self._below.put(owner_of(ready), owner)
        # An interrupted run may have left part of a name, which must not outlive the lock.
        self._below.sweep(ready)
        if not (self._folder / OWNER).exists():
            self._below.sweep(LOCK)
        self._below.rename(ready, PurePosixPath(LOCK).name)

    def _ready(self, waiting: Path, folder: str) -> None:
        waiting.unlink(missing_ok=True)
        try:
            waiting.symlink_to(folder, target_is_directory=True)
        except OSError as fault:
            raise CouldNotPublish(
                f"no link can be made in {self._folder.as_posix()} ({fault.strerror}); delete "
                "`changes: at once` in publish.yaml"
            ) from fault

    def _send(self, path: str, source: Path, swept: set[str]) -> None:
        place = PurePosixPath(path)
        folder = place.parent.as_posix()
        if folder not in swept:
            self._below.sweep(folder)
            swept.add(folder)
        self._below.put(path, source.read_bytes(), durable=A_LIST.fullmatch(place.name) is not None)


def _is_same(link: Path, folder: Path) -> bool:
    try:
        return link.samefile(folder)
    except FileNotFoundError:
        return False


@contextmanager
def _told(folder: Path) -> Iterator[None]:
    """The system's refusals in the maker's words."""
    try:
        yield
    except OSError as fault:
        raise CouldNotPublish(_why(fault, folder)) from fault


def _why(fault: OSError, folder: Path) -> str:
    if fault.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"the disk of {folder.as_posix()} is full; free some space and publish again"
    if fault.errno in (errno.EEXIST, errno.ENOTEMPTY):
        return TAKEN
    return (
        f"{fault.filename or folder.as_posix()} could not be written ({fault.strerror}); "
        "publish again once it can be"
    )
