"""What a target's list says, the steps that bring it up to date, and what is kept here for the next run."""

import json
import os
import secrets
import shutil
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Final

from generator.writing.output import replace_file
from generator.writing.peer import LIST, TAKEN, CouldNotPublish, Found, Lock, Remove, Send, Step, Unlock

Lines = Mapping[str, tuple[str, int]]
"""Digest and size of each file by its path."""

_UNSURE: Final = ("", 0)
_SENT_BETWEEN_LISTS: Final = 200
"""So many files may have to be sent again after a cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What is to be done at a target; ``files`` lead from each path to the file that is sent."""

    web: str
    there: Lines
    wanted: Lines
    send: tuple[str, ...]
    remove: tuple[str, ...]
    files: Mapping[str, Path]


class Desk:
    """The folder of one target on this computer: our name there, the release that is there now, the one before."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._folder = folder
        self.owner = folder / "owner"
        self.now = folder / "now"
        self.before = folder / "before"
        if not self.owner.is_file():
            replace_file(self.owner, secrets.token_hex(8).encode())

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Keep other runs on this computer out; the system lets go when a run ends, however it ends."""
        with (self._folder / "running").open("ab") as file:
            try:
                _hold(file)
            except OSError as fault:
                raise CouldNotPublish(
                    "this computer is publishing there already; wait until it is done"
                ) from fault
            yield

    def steps(self, found: Found, work: Work, *, take_over: bool) -> Iterator[Step]:
        """All there is to do, each list before the files that it names."""
        name = self.owner.read_text(encoding="ascii")
        is_ours = found.owner is not None and found.owner.decode(errors="replace") == name
        if found.owner is not None and not is_ours:
            if not take_over:
                raise CouldNotPublish(TAKEN)
            yield Unlock()
        if not is_ours:
            yield Lock(self.owner, name)
        lists = self._lists(work)
        yield next(lists)
        for start in range(0, len(work.send), _SENT_BETWEEN_LISTS):
            yield from (
                Send(path, work.files[path]) for path in work.send[start : start + _SENT_BETWEEN_LISTS]
            )
            yield next(lists)
        yield from (Remove(path) for path in work.remove)
        yield next(lists)
        yield Unlock()

    def keep(self, files: Mapping[str, Path]) -> None:
        """Keep what is there now, and what was there until now as the release before."""
        new = self._folder / "new"
        shutil.rmtree(new, ignore_errors=True)
        for folder in {(new / path).parent for path in files}:
            folder.mkdir(parents=True, exist_ok=True)
        for path, source in files.items():
            _link(source, new / path)
        shutil.rmtree(self.before, ignore_errors=True)
        if self.now.exists():
            self.now.rename(self.before)
        new.rename(self.now)

    def _lists(self, work: Work) -> Iterator[Step]:
        """The target's list before anything is sent, after each two hundred files, and when all is done."""
        lines = {**work.there, **dict.fromkeys(work.send, _UNSURE)}
        yield self._listing(0, work.web, lines)
        for start in range(0, len(work.send), _SENT_BETWEEN_LISTS):
            sent = work.send[start : start + _SENT_BETWEEN_LISTS]
            lines = {**lines, **{path: work.wanted[path] for path in sent}}
            yield self._listing(start + 1, work.web, lines)
        yield self._listing(len(work.send) + 1, work.web, work.wanted)

    def _listing(self, number: int, web: str, lines: Lines) -> Step:
        place = self._folder / f"list-{number}.json"
        files = {path: {"sha256": digest, "size": size} for path, (digest, size) in sorted(lines.items())}
        replace_file(place, json.dumps({"web": web, "files": files}, ensure_ascii=False).encode())
        return Send(LIST, place)

    def tidy(self) -> None:
        """Take away the lists that were sent."""
        for place in self._folder.glob("list-*.json"):
            place.unlink()


def lines_of(found: Found, web: str) -> Lines:
    """What the target's list says; a folder that another site or somebody else fills is refused."""
    if found.listed is None:
        foreign = [name for name in found.names if not name.startswith(".")]
        if foreign:
            raise CouldNotPublish(
                f"the target's folder holds {foreign[0]}, which this program did not put there; nothing is touched. "
                "Write an empty folder in publish.yaml, or empty this one yourself"
            )
        return {}
    try:
        data = json.loads(found.listed)
        lines = {path: (str(line["sha256"]), int(line["size"])) for path, line in data["files"].items()}
        whose = str(data["web"])
    except (ValueError, KeyError, TypeError, AttributeError) as fault:
        raise CouldNotPublish(
            f"the list {LIST} at the target cannot be read; it was altered there, so it cannot be told which files "
            "are ours. Put it back, or publish to an empty folder"
        ) from fault
    if whose != web:
        raise CouldNotPublish(
            f"the target's folder holds the site of {whose or 'a shop without an address'}, not this one"
        )
    return lines


def _link(source: Path, place: Path) -> None:
    """The same file under a second name where the disk can, a copy where it cannot; nobody writes into either."""
    try:
        os.link(source, place)
    except OSError:
        shutil.copyfile(source, place)


def _hold(file: IO[bytes]) -> None:
    if sys.platform == "win32":
        import msvcrt  # noqa: PLC0415  # only Windows has it

        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        import fcntl  # noqa: PLC0415  # Windows lacks it

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
