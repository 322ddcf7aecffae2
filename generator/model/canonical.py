"""Values that two programs write as the same bytes, and their fingerprints."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from typing import Final

_CANONICAL: Final = json.JSONEncoder(sort_keys=True, ensure_ascii=False, separators=(",", ":"))

Plain = str | Sequence["Plain"] | Mapping[str, "Plain"]
"""Text, or lists and mappings of it: nothing that two programs could print in two ways."""


def canonical(value: Plain) -> str:
    """The canonical form of a value: JSON with sorted keys, only texts, no spaces."""
    return _CANONICAL.encode(value)


def parsed(text: str) -> Mapping[str, Plain]:
    """The mapping in a canonical text."""
    value: Mapping[str, Plain] = json.loads(text)
    return value


def fingerprint_of(said: str) -> str:
    """The sha256 of a canonical text."""
    return hashlib.sha256(said.encode()).hexdigest()
