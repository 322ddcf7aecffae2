"""The known word that a misspelt one most likely stands for."""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Final

LEAST_LIKENESS: Final = 0.7
"""From 0 to 1 as difflib counts it: ``hrs`` still finds ``hours``, ``colours`` no longer ``claim_hours``."""


LONGEST: Final = 60
"""Letters of a word that is looked up; comparing takes the square of them, and no known word has so many."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The most alike of the known words, or None when none is much alike.

    >>> nearest("vesel", ["vessel", "wick"])
    'vessel'
    """
    if len(word) > LONGEST:
        return None
    found = get_close_matches(word, list(known), n=1, cutoff=LEAST_LIKENESS)
    return found[0] if found else None
