"""What any target can do, what is found there, and the plain words for what went wrong."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Protocol

OURS: Final = ".wickwright"
"""The one folder at a target that holds what the next run needs to know."""

LOCK: Final = f"{OURS}/lock"
OWNER: Final = f"{LOCK}/owner"

A_LIST: Final = re.compile(r"list-[0-9a-f]+\.json")
"""Lists have unguessable names, because they name pages that no page links to."""

MOST_LISTS: Final = 16
"""One, and one more after each run interrupted at a bad moment; more of them are not ours."""

MOST_FILES: Final = 50_000
MOST_BYTES_OF_A_LIST: Final = 8 * 1024**2
"""The largest list; the bytes are counted before they are read."""

MOST_BYTES_OF_AN_OWNER: Final = 64

TAKEN: Final = (
    "another computer is publishing there; wait until it has finished, or use "
    "--take-over if it was interrupted"
)

OVERTAKEN: Final = "another computer has published there since this one looked; publish again"


class CouldNotPublish(Exception):
    """What went wrong, and what to do about it, in the maker's words."""


def target_text(text: str) -> str:
    """A text from the target as it may be printed: short, with invisible characters spelled out."""
    short = text if len(text) <= _MOST_SHOWN else f"{text[:_MOST_SHOWN]}..."
    return short if short.isprintable() else repr(short)


def linked(path: str) -> CouldNotPublish:
    """A link stands where a file or a folder of ours would be."""
    return _not_ours(path, "a link, and nothing is sent or deleted through links")


def of_another_kind(path: str, wanted: str) -> CouldNotPublish:
    """Something else is where a file or a folder of ours would be."""
    return _not_ours(path, f"not a {wanted}")


def too_large(path: str) -> CouldNotPublish:
    """A note of ours at the target is larger than this program ever makes it."""
    return _not_ours(path, "larger than any this program makes")


def too_many_lists(folder: str) -> CouldNotPublish:
    """So many lists no runs leave behind."""
    return _not_ours(
        folder, f"a folder with more than {MOST_LISTS} lists, more than this program leaves behind"
    )


def _not_ours(path: str, what: str) -> CouldNotPublish:
    return CouldNotPublish(
        f"{target_text(path)} at the target is {what}. Find out who put it there "
        "and remove it, then publish again"
    )


_MOST_SHOWN: Final = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderListing:
    """The content of one folder of a target: our lists by name, and all names there."""

    lists: Mapping[str, bytes]
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The lock's owner, if any, and the existing ones of the folders looked at."""

    owner: bytes | None
    listings: Mapping[str, FolderListing]


@dataclass(frozen=True, slots=True)
class Send:
    """Put a whole file in place, or leave the old one."""

    path: str
    source: Path


@dataclass(frozen=True, slots=True)
class Remove:
    """Remove a file if it exists."""

    path: str


@dataclass(frozen=True, slots=True)
class Lock:
    """Keep other computers out, or stop if one was faster; the file ``owner`` holds our ``name``.

    A folder that holds the name is renamed to be the lock: there is never a lock without its owner.
    """

    owner: Path
    name: str


@dataclass(frozen=True, slots=True)
class Unlock:
    """Let others in."""


@dataclass(frozen=True, slots=True)
class RequireUnchanged:
    """Stop unless this list is still there: anyone who published since we looked has replaced it."""

    path: str


@dataclass(frozen=True, slots=True)
class Barrier:
    """Begin no later step before all earlier ones are done; a target may do several steps at once."""


@dataclass(frozen=True, slots=True)
class StageLink:
    """Make a link that will lead to a folder, but do not put it in place yet."""

    link: str
    folder: str


@dataclass(frozen=True, slots=True)
class Switch:
    """Replace the old link by the staged one, in one move."""

    link: str


ReleaseStep = Send | Remove | Lock | Unlock | RequireUnchanged | Barrier | StageLink | Switch


def paths_of(steps: Iterable[ReleaseStep]) -> Iterator[str]:
    """Every file that the steps write or remove, without switched links."""
    for step in steps:
        match step:
            case Send(path) | Remove(path):
                yield path
            case Lock(_, name):
                yield from (OWNER, owner_of(ready_lock(name)))
            case Unlock():
                yield OWNER
            case _:
                pass


class Peer(Protocol):
    """A target that can be looked at and changed."""

    def look(self, folders: tuple[str, ...]) -> Found:
        """What is in these folders now; the empty name is the target's own folder."""

    def tells_case(self) -> bool:
        """Whether two names that differ only in case are two files there."""

    def carry_out(self, steps: Iterable[ReleaseStep], tell: Callable[[], None]) -> None:
        """Take the steps in order, and report each file that is in place."""


def ready_lock(name: str) -> str:
    """The folder that is renamed to be the lock."""
    return f"{LOCK}-{name}"


def owner_of(lock: str) -> str:
    """The file in a lock's folder that says whose it is."""
    return f"{lock}{OWNER.removeprefix(LOCK)}"


def readied(link: str) -> str:
    """The name under which a link waits for its switch."""
    return f"{link}.next"
