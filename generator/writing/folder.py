"""A target on this computer: a folder of a disk, a mounted drive or a checkout."""

import errno
from collections.abc import Callable, Iterable
from pathlib import Path, PurePosixPath

from generator.writing.peer import (
    A_LIST,
    LOCK,
    OURS,
    OVERTAKEN,
    OWNER,
    TAKEN,
    Corner,
    CouldNotPublish,
    Found,
    Lock,
    Ready,
    Remove,
    Send,
    Settle,
    Step,
    Still,
    Switch,
    readied,
)
from generator.writing.whole_files import replace_file, sweep


class FolderPeer:
    """Files are written under temporary names and renamed."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is there now; a folder that is not there may be a drive that is not mounted."""
        if not self._folder.is_dir():
            raise CouldNotPublish(
                f"there is no folder {self._folder.as_posix()}; connect the drive that holds it, or make the folder"
            )
        owner = self._folder / OWNER
        there = [folder for folder in folders if (self._folder / folder).is_dir()]
        return Found(
            owner=owner.read_bytes() if owner.is_file() else None,
            corners={folder: _corner(self._folder / folder) for folder in there},
        )

    def tells_case(self) -> bool:
        """Whether our own folder answers to its name in capitals."""
        return not (self._folder / OURS.upper()).exists()

    def carry_out(self, steps: Iterable[Step], tell: Callable[[], None]) -> None:
        """Take the steps in their order."""
        swept: set[Path] = set()
        for step in steps:
            try:
                self._take(step, swept)
            except OSError as fault:
                raise CouldNotPublish(_why(fault, self._folder)) from fault
            if isinstance(step, Send):
                tell()

    def _take(self, step: Step, swept: set[Path]) -> None:
        match step:
            case Send(path, source):
                self._send(path, source, swept)
            case Remove(path):
                self._remove(self._folder / path)
            case Lock(owner, name):
                ready = self._folder / f"{LOCK}-{name}"
                ready.mkdir(parents=True, exist_ok=True)
                # A run that was cut off may have left a part of a name behind, which must not outlive the lock.
                sweep(ready)
                replace_file(ready / PurePosixPath(OWNER).name, owner.read_bytes())
                if not (self._folder / OWNER).exists():
                    sweep(self._folder / LOCK)
                ready.rename(self._folder / LOCK)
            case Still(path):
                if not (self._folder / path).is_file():
                    raise CouldNotPublish(OVERTAKEN)
            case Settle():
                pass
            case Ready(link, folder):
                self._ready(self._folder / readied(link), folder)
            case Switch(link):
                (self._folder / readied(link)).replace(self._folder / link)
            case _:
                (self._folder / OWNER).unlink(missing_ok=True)
                sweep(self._folder / LOCK)
                (self._folder / LOCK).rmdir()

    def _ready(self, waiting: Path, folder: str) -> None:
        waiting.unlink(missing_ok=True)
        try:
            waiting.symlink_to(folder, target_is_directory=True)
        except OSError as fault:
            raise CouldNotPublish(
                f"no link can be made in {self._folder.as_posix()} ({fault.strerror}); "
                "leave `changes: at once` out of publish.yaml"
            ) from fault

    def _send(self, path: str, source: Path, swept: set[Path]) -> None:
        place = self._folder / path
        if place.parent not in swept:
            place.parent.mkdir(parents=True, exist_ok=True)
            sweep(place.parent)
            swept.add(place.parent)
        replace_file(place, source.read_bytes(), durable=A_LIST.fullmatch(place.name) is not None)

    def _remove(self, place: Path) -> None:
        if place.parent.is_dir():
            place.unlink(missing_ok=True)
            sweep(place.parent)
            self._tidy(place.parent)

    def _tidy(self, folder: Path) -> None:
        """Take away the folders that removing a file has left empty."""
        while folder != self._folder and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
            folder = folder.parent


def _corner(folder: Path) -> Corner:
    ours = folder / OURS
    lists = [path for path in ours.iterdir() if A_LIST.fullmatch(path.name)] if ours.is_dir() else []
    return Corner(
        lists={path.name: path.read_bytes() for path in lists},
        names=tuple(sorted(path.name for path in folder.iterdir())),
    )


def _why(fault: OSError, folder: Path) -> str:
    if fault.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"the disk of {folder.as_posix()} is full; make room there and publish again"
    if fault.errno in (errno.EEXIST, errno.ENOTEMPTY):
        return TAKEN
    return f"{fault.filename or folder.as_posix()} could not be written ({fault.strerror}); publish again when it can"
