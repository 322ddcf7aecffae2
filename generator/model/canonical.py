"""Values of which two programs write the same bytes, and their fingerprints."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from typing import Final

_CANONICAL: Final = json.JSONEncoder(sort_keys=True, ensure_ascii=False, separators=(",", ":"))

Plain = str | Sequence["Plain"] | Mapping[str, "Plain"]
"""Text, or lists and mappings of it: nothing that two programs could print in two ways."""


def canonical(value: Plain) -> str:
    """The one spelling of a value: JSON with its keys sorted, texts alone, no space between."""
    return _CANONICAL.encode(value)


def parsed(text: str) -> Mapping[str, Plain]:
    """The mapping that a canonical text spells."""
    value: Mapping[str, Plain] = json.loads(text)
    return value


def fingerprint_of(said: str) -> str:
    """The sha256 of a canonical text."""
    return hashlib.sha256(said.encode()).hexdigest()
