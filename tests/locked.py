"""What the tests of the install read out of ``.locks/``."""

from dataclasses import dataclass
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PROJECT = Path(__file__).parent.parent
LOCKS = PROJECT / ".locks"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """One library of a lock: its name in canonical form, what is asked for, and the hashes that are let in."""

    name: str
    asked: Requirement
    hashes: tuple[str, ...]

    @property
    def version(self) -> str:
        """The one version that is asked for."""
        (only,) = self.asked.specifier
        assert only.operator == "=="
        return only.version

    @property
    def is_for_here(self) -> bool:
        """Whether this system and this Python take it."""
        return self.asked.marker is None or self.asked.marker.evaluate()


def pins(lock: str) -> tuple[Pin, ...]:
    """The libraries of ``.locks/NAME.txt``."""
    lines = (LOCKS / f"{lock}.txt").read_text(encoding="utf-8").replace("\\\n", " ").splitlines()
    return tuple(_pin(line) for line in lines if line and not line.startswith("#"))


def _pin(line: str) -> Pin:
    text, *hashes = line.split("--hash=")
    asked = Requirement(text)
    return Pin(name=canonicalize_name(asked.name), asked=asked, hashes=tuple(each.strip() for each in hashes))
