"""What any target can do, what is found there, and the plain words for what stood in the way."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Protocol

OURS: Final = ".wickwright"
"""The one folder at a target that holds what the next run needs to know."""

LIST: Final = f"{OURS}/list.json"
LOCK: Final = f"{OURS}/lock"
OWNER: Final = f"{LOCK}/owner"

TAKEN: Final = (
    "another computer is publishing there; wait until it is done, or write --take-over if it was cut off"
)


class CouldNotPublish(Exception):
    """What stood in the way, and what to do about it, in the maker's words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What is there: the list and the lock's owner if there are any, and the names in the target's folder."""

    listed: bytes | None
    owner: bytes | None
    names: tuple[str, ...]


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


Step = Send | Remove | Lock | Unlock


class Peer(Protocol):
    """A target that can be looked at and changed."""

    def look(self) -> Found:
        """What is there now."""

    def tells_case(self) -> bool:
        """Whether two names that differ by case alone are two files there."""

    def carry_out(self, steps: Iterable[Step], tell: Callable[[], None]) -> None:
        """Take the steps in their order, and tell of each file that is in its place."""
