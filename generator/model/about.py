"""What is said of a field beside its type: what a mistake in it would spoil, and the form of its value."""

from dataclasses import dataclass
from typing import Final

BLANK: Final = "..."
"""Stands in a form where a figure or a word of the maker's own belongs; no reader takes it for a value."""


@dataclass(frozen=True, slots=True)
class About:
    """Why a field matters, and how its value is written where its type does not say that well enough."""

    why: str
    form: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """How a value of a type is written, with a blank for each figure."""

    text: str


NAME: Final = "every paper would show a gap in its place"
NOTES: Final = "it is kept for you and printed nowhere"
DISCONTINUED: Final = "a batch that needs what can no longer be bought is noticed before the pour"
"""Reasons that several entries share."""
