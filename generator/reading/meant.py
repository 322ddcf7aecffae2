"""What a maker's other words and forms may mean where they are not understood."""

import re
from collections.abc import Collection, Iterable, Mapping
from difflib import get_close_matches
from typing import Any, Final

from generator.model.formats import Fill
from generator.model.materials import WaxDensity
from generator.model.quantities import DENSITY, LENGTH, MASS, VOLUME
from generator.model.sheet_values import Ate, MFactors

_WORDS: Final[tuple[tuple[tuple[str, ...], Mapping[str, str]], ...]] = (
    (
        ("round", "circle", "circular", "straight", "cylindrical"),
        {"cylinder": "", "rounded": " where the wall meets the base in a curve", "round": ""},
    ),
    (("tapered", "conical", "flared"), {"cone": ""}),
    (("hex", "hexagonal"), {"hexagon": ""}),
    (("ellipse", "elliptical"), {"oval": ""}),
    (("cube", "box"), {"square": ""}),
    (("rectangle", "rectangular", "oblong", "square"), {"box": ""}),
    (("wax melt", "wax melts", "clamshell"), {"melt": ""}),
)
"""Other words, and the words they mean, each with its condition."""

_M_FACTOR: Final = re.compile(r"(?:M ?= ?)?(10*)", re.IGNORECASE)
_DOSE: Final = re.compile(
    r"(?:[A-Za-z][A-Za-z0-9]*:? ?)?((?:>=?|≥)? ?[0-9][0-9.]* ?(?:mg/kg|mg/[lL]|ppm))(?: bw)?"
)
_WAYS_IN: Final = {"mg/kg": ("oral", "dermal"), "mg/l": ("vapour", "dust"), "ppm": ("gas",)}


def word_meant(written: str, words: Collection[str]) -> str | None:
    """The words of a field that another word means."""
    said = written.strip().lower()
    meant = [pair for others, each in _WORDS if said in others for pair in each.items()]
    return ", or ".join(f"{word}{when}" for word, when in meant if word in words) or None


def keys_meant(accepts: Any, written: Any) -> str | None:
    """The keys to which a text in their place belongs; all of them where there are several."""
    reader = _KEYS.get(accepts)
    if reader is None or not isinstance(written, str):
        return None
    return ", or ".join(reader(" ".join(written.split()))) or None


def _fill(text: str) -> tuple[str, ...]:
    if MASS.holds(text):
        return (f"{{weight: {text}}}",)
    key = "to" if LENGTH.holds(text) else "volume" if VOLUME.holds(text) else None
    if key is None:
        return ()
    return f"{{{key}: {text}, level: set}}", f"{{{key}: {text}, level: poured, at: ... C}}"


def _m_factors(text: str) -> tuple[str, ...]:
    match = _M_FACTOR.fullmatch(text)
    return () if match is None else (f"{{acute: {match[1]}}}", f"{{chronic: {match[1]}}}")


def _ate(text: str) -> tuple[str, ...]:
    match = _DOSE.fullmatch(text)
    if match is None:
        return ()
    unit = next(unit for unit in _WAYS_IN if match[1].lower().endswith(unit))
    return tuple(f"{{{way}: {match[1]}}}" for way in _WAYS_IN[unit])


def _wax_density(text: str) -> tuple[str, ...]:
    return (f"{{set: {text}, molten: ... g/ml at ... C}}",) if DENSITY.holds(text) else ()


_KEYS: Final = {Fill: _fill, MFactors: _m_factors, Ate: _ate, WaxDensity: _wax_density}


LEAST_LIKENESS: Final = 0.7
"""From 0 to 1 as difflib counts it: ``hrs`` still finds ``hours``, ``colours`` no longer ``claim_hours``."""


LONGEST: Final = 60
"""Letters of a word that is looked up; comparing takes quadratic time, and no known word has so many."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The most similar of the known words, or None when none is similar enough.

    >>> nearest("vesel", ["vessel", "wick"])
    'vessel'
    """
    if len(word) > LONGEST:
        return None
    found = get_close_matches(word, list(known), n=1, cutoff=LEAST_LIKENESS)
    return found[0] if found else None
