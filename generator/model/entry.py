"""How a dataclass is an entry: its fields are the keys, without the unit that ends a field's name.

A field's type carries what a mistake in it would spoil, and the form of its value.
"""

from dataclasses import dataclass
from enum import Enum
from functools import cache
from typing import Any, Final

from pydantic import ConfigDict, Discriminator

_UNITS: Final = (
    "_g_per_ml", "_mj_per_kg", "_mg_per_kg", "_mg_per_l", "_ppm", "_percent", "_mm", "_ml", "_g", "_c", "_h",
)  # fmt: skip


@cache
def entry_key(field: str) -> str:
    """The key a maker writes for a field: ``diameter`` for ``diameter_mm``."""
    for unit in _UNITS:
        if field.endswith(unit):
            return field.removesuffix(unit)
    return field


def by_field(flat: Any) -> dict[str, Any]:
    """The values of a dataclass with slots that holds no other; ``asdict`` would copy each of them."""
    return {name: getattr(flat, name) for name in flat.__slots__}


class Entry:
    """An entry or a part of one with its own keys: unknown keys are faults, keys carry no unit."""

    __slots__ = ()
    __pydantic_config__ = ConfigDict(extra="forbid", alias_generator=entry_key, frozen=True)


def form_of(written: object) -> str:
    """Whether a value is written as a mapping, a list or a plain text."""
    if isinstance(written, dict):
        return "mapping"
    return "list" if isinstance(written, list) else "text"


BY_FORM: Final = Discriminator(form_of)
"""For a key that may be written in several forms, tagged ``mapping``, ``list`` and ``text``."""


BLANK: Final = "..."
"""The blank in a form for the maker's own figure or word; no reader accepts it as a value."""


@dataclass(frozen=True, slots=True)
class About:
    """Why a field matters, and how its value is written where its type does not show it well enough."""

    why: str
    form: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """How a value of a type is written, with a blank for each figure."""

    text: str


class SeenBy(Enum):
    """Who gets to see what a maker writes under a key."""

    EVERYBODY = "everybody"
    BUYERS = "trade buyers"
    YOU = "nobody but you"


FOR_EVERYBODY: Final = SeenBy.EVERYBODY
FOR_BUYERS: Final = SeenBy.BUYERS
FOR_YOU: Final = SeenBy.YOU


@dataclass(frozen=True, slots=True)
class Key:
    """What the handbook and editors say of a key: one sentence, one value that is accepted, and who sees it.

    ``example`` is written as it stands behind the key, or in the cell of a table. What only changes how a page looks
    is seen by whoever sees the page.
    """

    means: str
    example: str
    seen_by: SeenBy

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        """The schema of the value, described by the same sentence."""
        return {**handler(core), "description": self.means}


NOTES_KEY: Final = Key("Your own notes.", "Ask for the thicker glass next time.", FOR_YOU)
DISCONTINUED_KEY: Final = Key("Whether it can no longer be bought.", "yes", FOR_YOU)
"""Keys that several entries have."""

NAME: Final = "every paper would have a gap in its place"
WEIGHT: Final = "the net weight is calculated from it"
COSTS: Final = "what a candle costs is calculated from it"
NOTES: Final = "it is kept for you and printed nowhere"
DISCONTINUED: Final = "a batch that needs something discontinued is noticed before the pour"
SHELVES: Final = "it decides whether the candle is on sale"
POISON_CENTRE: Final = "in an emergency, a poison centre finds the recipe by it"
FORMULA: Final = "every figure is calculated from the recipe"
"""Reasons that several entries share."""
