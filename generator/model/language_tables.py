"""What the program looks for in a maker's words, in one language."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimWords:
    """Praise by its sort, as regular expressions with the names of ``groups`` to fill in, and the words that deny it.

    ``denied`` are words ``before`` and ``after`` the praise, ``waxes`` the names of each sort of wax in small letters.
    """

    denied: Mapping[str, tuple[str, ...]]
    waxes: Mapping[str, tuple[str, ...]]
    groups: Mapping[str, str]
    phrases: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialWords:
    """What materials are called, by the wall that is drawn for them, and lids by their form; all in small letters."""

    walls: Mapping[str, tuple[str, ...]]
    lids: Mapping[str, tuple[str, ...]]
