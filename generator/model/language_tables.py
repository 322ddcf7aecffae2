"""What the program looks for in a maker's texts, in one language."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimWords:
    """Praise by sort, as regular expressions with the names of ``groups`` to fill in, and the words that negate it.

    ``denied`` are words ``before`` and ``after`` the praise, ``waxes`` the names of each sort of wax in lower case.
    """

    denied: Mapping[str, tuple[str, ...]]
    waxes: Mapping[str, tuple[str, ...]]
    groups: Mapping[str, str]
    phrases: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialWords:
    """Names of materials, by the wall drawn for them, and of lids by their form; all in lower case."""

    walls: Mapping[str, tuple[str, ...]]
    lids: Mapping[str, tuple[str, ...]]


WordingStatus = Literal["FOUND_LAW", "FOUND_SECONDARY", "MEMORY"]


@dataclass(frozen=True, slots=True)
class Statement:
    """One H, EUH or P statement: the law's text, how it is known, and what is printed where it leaves a choice."""

    text: str
    status: WordingStatus
    printed: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """All statements by code, and the two signal words, in one language."""

    statements: Mapping[str, Statement]
    signal_words: Mapping[str, str]
