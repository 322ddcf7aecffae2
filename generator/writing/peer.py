"""What any target can do, what is found there, and the plain words for what stood in the way."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Protocol

OURS: Final = ".wickwright"
"""The one folder at a target that holds what the next run needs to know."""

LOCK: Final = f"{OURS}/lock"
OWNER: Final = f"{LOCK}/owner"

A_LIST: Final = re.compile(r"list-[0-9a-f]+\.json")
"""Lists have names that nobody guesses, because they name pages that no page leads to."""

TAKEN: Final = (
    "another computer is publishing there; wait until it is done, or write --take-over if it was cut off"
)

OVERTAKEN: Final = "another computer has published there since this one looked; publish again"


class CouldNotPublish(Exception):
    """What stood in the way, and what to do about it, in the maker's words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """What stands in one folder of a target: our lists by their names, and the names of all that is there."""

    lists: Mapping[str, bytes]
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The lock's owner if there is one, and the folders that were looked at, without those that are not there."""

    owner: bytes | None
    corners: Mapping[str, Corner]


@dataclass(frozen=True, slots=True)
class Send:
    """Put a whole file in its place, or leave the old one."""

    path: str
    source: Path


@dataclass(frozen=True, slots=True)
class Remove:
    """Take a file away if it is there."""

    path: str


@dataclass(frozen=True, slots=True)
class Lock:
    """Keep other computers out, or stop if one was faster; the file ``owner`` holds our ``name``.

    A folder that holds the name is renamed to be the lock: so there is never a lock without its owner.
    """

    owner: Path
    name: str


@dataclass(frozen=True, slots=True)
class Unlock:
    """Let others in."""


@dataclass(frozen=True, slots=True)
class Still:
    """Stop unless this list is still there: who published since we looked has put another in its place."""

    path: str


@dataclass(frozen=True, slots=True)
class Settle:
    """Begin nothing that follows before all that came before is done; a target may do several steps at once."""


@dataclass(frozen=True, slots=True)
class Ready:
    """Make a link that will lead to a folder, but do not put it in its place yet."""

    link: str
    folder: str


@dataclass(frozen=True, slots=True)
class Switch:
    """Put the link that was made ready in the place of the old one, in one move."""

    link: str


Step = Send | Remove | Lock | Unlock | Still | Settle | Ready | Switch


class Peer(Protocol):
    """A target that can be looked at and changed."""

    def look(self, folders: tuple[str, ...]) -> Found:
        """What stands in these folders now; the empty name is the target's own folder."""

    def tells_case(self) -> bool:
        """Whether two names that differ by case alone are two files there."""

    def carry_out(self, steps: Iterable[Step], tell: Callable[[], None]) -> None:
        """Take the steps in their order, and tell of each file that is in its place."""


def readied(link: str) -> str:
    """The name under which a link waits for its switch."""
    return f"{link}.next"
