"""WCAG contrast of two colours, the text colour for a shade, and a page tint of it."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

TEXT_RATIO: Final = 4.5
"""Least contrast of text, WCAG 2.2, success criterion 1.4.3 (MEMORY)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """The colours of one scheme, as the theme's style sheet declares them."""

    paper: str
    ink: str
    quiet: str
    accent: str


LIGHT: Final = Scheme(paper="#f6f1e7", ink="#201c17", quiet="#675d4f", accent="#94341c")
DARK: Final = Scheme(paper="#181613", ink="#ebe4d6", quiet="#a79c8b", accent="#e69a7e")


_MOST_TINT_PERCENT: Final = 16

_remembered = lru_cache(maxsize=4096)
"""A shop compares the same few colours again and again."""


@_remembered
def luminance(colour: str) -> float:
    """The relative luminance of an sRGB colour.

    L = 0.2126 R + 0.7152 G + 0.0722 B, each channel c linearised: c / 12.92 up to 0.04045,
    else ((c + 0.055) / 1.055) ^ 2.4.

    colour: ``#rrggbb``.
    Holds for any 8-bit sRGB colour.
    Source: WCAG 2.2, "relative luminance" (MEMORY).

    >>> luminance("#ffffff")
    1.0
    """
    red, green, blue = (_linear(channel / 255) for channel in _channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def ratio(one: str, other: str) -> float:
    """The contrast of two colours, from 1 to 21.

    (L1 + 0.05) / (L2 + 0.05), the lighter one above.

    one, other: ``#rrggbb``.
    Holds for opaque colours.
    Source: WCAG 2.2, "contrast ratio" (MEMORY).

    >>> round(ratio("#767676", "#ffffff"), 2)
    4.54
    """
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


@_remembered
def text_on(shade: str) -> str:
    """The text colour to print on a shade: our ink or paper, or plain black or white where those are too weak."""
    softer = max((LIGHT.ink, LIGHT.paper), key=lambda colour: ratio(colour, shade))
    if ratio(softer, shade) >= TEXT_RATIO:
        return softer
    return max(("#000000", "#ffffff"), key=lambda colour: ratio(colour, shade))


@_remembered
def tint(shade: str, scheme: Scheme) -> str:
    """The page's background with as much of a shade mixed in as all text colours of the scheme allow."""
    for percent in range(_MOST_TINT_PERCENT, 0, -1):
        ground = _mixed(shade, scheme.paper, percent)
        if all(ratio(text, ground) >= TEXT_RATIO for text in (scheme.ink, scheme.quiet, scheme.accent)):
            return ground
    return scheme.paper


def _mixed(shade: str, ground: str, percent: int) -> str:
    pairs = zip(_channels(shade), _channels(ground), strict=True)
    return "#" + "".join(f"{round((s * percent + g * (100 - percent)) / 100):02x}" for s, g in pairs)


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _linear(channel: float) -> float:
    # Ordinary exponentiation of floats; the type checker cannot rule out a complex result.
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
