"""The wording of hazard labels in one language: the law's sentences, and how each is known."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

WordingStatus = Literal["FOUND_LAW", "FOUND_SECONDARY", "MEMORY"]


@dataclass(frozen=True, slots=True)
class Statement:
    """One H, EUH or P statement: the law's text, how that is known, and what is printed where it leaves a choice."""

    text: str
    status: WordingStatus
    printed: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """All statements by code, and the two signal words, in one language."""

    statements: Mapping[str, Statement]
    signal_words: Mapping[str, str]
