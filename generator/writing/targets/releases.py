"""The steps that bring a target up to date, and what is kept on this computer for the next run."""

import os
import re
import secrets
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from itertools import count
from pathlib import Path
from typing import Final

from generator.writing.lock import try_lock
from generator.writing.targets.peer import (
    OURS,
    TAKEN,
    Barrier,
    CouldNotPublish,
    Lock,
    ReleaseStep,
    Remove,
    RequireUnchanged,
    Send,
    StageLink,
    Switch,
    Unlock,
)
from generator.writing.targets.target_state import (
    UNSURE,
    Lines,
    ReleaseSide,
    TargetState,
    check_length,
    list_at_target,
)
from generator.writing.whole_files import replace_file, sweep

_SENT_BETWEEN_LISTS: Final = 200
"""The most files to be sent again after an interruption."""

_NAME: Final = re.compile(rb"[0-9a-f]{16}")
"""Our name at a target; it is part of a path there, so nothing else is accepted from a file."""

Turns = tuple[tuple[str, ...], ...]
"""Paths in groups; the order matters between groups, not within one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What is to be done at a target; ``files`` maps each path to the file to send.

    ``forget`` are files that even the unseen folder may not keep.
    """

    web: str
    wanted: Lines
    send: Turns
    remove: Turns
    forget: tuple[str, ...]
    files: Mapping[str, Path]


class LocalRuns:
    """The folder of one target on this computer: our name there, the present release, the previous one."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._folder = folder
        self.owner = folder / "owner"
        self.now = folder / "now"
        self.before = folder / "before"
        self._kept = folder / "kept"
        self._aside = folder / "aside"
        self._numbers = count(1)
        if not (self.owner.is_file() and _NAME.fullmatch(self.owner.read_bytes())):
            replace_file(self.owner, secrets.token_hex(8).encode())

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Keep out other runs on this computer; the system releases the lock however a run ends."""
        with (self._folder / "running").open("ab") as file:
            if not try_lock(file):
                raise CouldNotPublish("this computer is already publishing there; wait until it has finished")
            sweep(self._folder)
            try:
                yield
            finally:
                shutil.rmtree(self._aside, ignore_errors=True)

    def steps(self, state: TargetState, work: Work, *, take_over: bool) -> Iterator[ReleaseStep]:
        """All there is to do, each list before the files that it names."""
        check_length(work.web, {**state.laid.lines, **work.wanted})
        yield from self._locked(state.owner, take_over=take_over)
        yield from (RequireUnchanged(path) for path in state.standing)
        if state.link is not None:
            yield StageLink(state.link, state.laid.base.removesuffix("/"))
        yield from self._laid(state.laid, work)
        if state.link is not None:
            yield Switch(state.link)
            yield from self._forgotten(state.seen, work)
        yield Unlock()

    def last_steps(self, state: TargetState, work: Work, *, take_over: bool) -> Iterator[ReleaseStep]:
        """What is left to do after a run was interrupted once its release was visible."""
        yield from self._locked(state.owner, take_over=take_over)
        yield from (RequireUnchanged(path) for path in state.standing)
        yield from self._forgotten(state.laid, work)
        yield Unlock()

    def set_aside(self, files: Mapping[str, Path], lines: Lines) -> Mapping[str, Path]:
        """The same files under our own names, reusing kept ones if they are the same, for as long as we are alone."""
        now = {path: self.now / path for path in files}
        if self._holds(lines) and all(place.is_file() for place in now.values()):
            return now
        shutil.rmtree(self._aside, ignore_errors=True)
        _link_all(files, self._aside)
        return {path: self._aside / path for path in files}

    def keep(self, files: Mapping[str, Path], lines: Lines) -> None:
        """Keep what is there now, and what was there until now as the previous release."""
        if self._holds(lines):
            return
        new = self._folder / "new"
        shutil.rmtree(new, ignore_errors=True)
        _link_all(files, new)
        shutil.rmtree(self.before, ignore_errors=True)
        if self.now.exists():
            self.now.rename(self.before)
        new.rename(self.now)
        replace_file(self._kept, _digest_of(lines).encode())

    def _holds(self, lines: Lines) -> bool:
        """Whether this is the release kept as the present one."""
        return self._kept.is_file() and self._kept.read_bytes() == _digest_of(lines).encode()

    def tidy(self) -> None:
        """Remove the lists that were sent."""
        for place in self._folder.glob("list-*.json"):
            place.unlink()

    def _locked(self, owner: bytes | None, *, take_over: bool) -> Iterator[ReleaseStep]:
        name = self.owner.read_text(encoding="ascii")
        is_ours = owner is not None and owner.decode(errors="replace") == name
        if owner is not None and not is_ours:
            if not take_over:
                raise CouldNotPublish(TAKEN)
            yield Unlock()
        if not is_ours:
            yield Lock(self.owner, name)

    def _laid(self, side: ReleaseSide, work: Work) -> Iterator[ReleaseStep]:
        """The files, between lists: before anything is sent, after each two hundred files, and when all is done."""
        name = _new_list(side)
        to_send = [path for turn in work.send for path in turn]
        lines = {**side.lines, **dict.fromkeys(to_send, UNSURE)}
        yield from self._list(name, work.web, lines)
        yield from (Remove(path) for path in side.lists)
        sent: list[str] = []
        for turn in work.send:
            for path in turn:
                yield Send(f"{side.base}{path}", work.files[path])
                sent.append(path)
                if len(sent) % _SENT_BETWEEN_LISTS == 0:
                    lines |= {path: work.wanted[path] for path in sent[-_SENT_BETWEEN_LISTS:]}
                    yield from self._list(name, work.web, lines)
            yield Barrier()
        if work.remove:
            yield from self._list(name, work.web, {**lines, **{path: work.wanted[path] for path in sent}})
        for turn in work.remove:
            yield from (Remove(f"{side.base}{path}") for path in turn)
            yield Barrier()
        yield from self._list(name, work.web, work.wanted)

    def _forgotten(self, side: ReleaseSide, work: Work) -> Iterator[ReleaseStep]:
        """Revoked files also leave the folder that is no longer seen; they are listed as gone once they are."""
        if work.forget:
            yield from (Remove(f"{side.base}{path}") for path in work.forget)
            lines = {**side.lines, **dict.fromkeys(work.forget, UNSURE)}
            yield from self._list(_new_list(side), work.web, lines)
            yield from (Remove(path) for path in side.lists)

    def _list(self, path: str, web: str, lines: Lines) -> Iterator[ReleaseStep]:
        place = self._folder / f"list-{next(self._numbers)}.json"
        replace_file(place, list_at_target(web, lines))
        yield Barrier()
        yield Send(path, place)
        yield Barrier()


def _new_list(side: ReleaseSide) -> str:
    return f"{side.base}{OURS}/list-{secrets.token_hex(16)}.json"


def _digest_of(lines: Lines) -> str:
    return sha256(list_at_target("", lines)).hexdigest()


def _link_all(files: Mapping[str, Path], folder: Path) -> None:
    for place in {(folder / path).parent for path in files}:
        place.mkdir(parents=True, exist_ok=True)
    for path, source in files.items():
        _link(source, folder / path)


def _link(source: Path, place: Path) -> None:
    """The same file under a second name if the disk can, else a copy; neither is ever written into."""
    try:
        os.link(source, place)
    except OSError:
        shutil.copyfile(source, place)
