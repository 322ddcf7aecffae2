"""How tall a net quantity must be printed in the US, from the panel that faces the buyer."""

from math import pi
from typing import Final

from generator.model.quantities import MM_PER_INCH

CURVED_PANEL: Final = 0.40
"""The part of a round or odd package that counts as its panel (16 CFR 500.21(a), FOUND)."""

SMALL_PANEL_IN2: Final = 5.0
"""Up to this the quantity need not stand in the lowest 30 % of the panel (16 CFR 500.6, MEMORY)."""

TYPE_HEIGHTS_IN: Final = (
    (5.0, 1 / 16, 1 / 8),
    (25.0, 1 / 8, 3 / 16),
    (100.0, 3 / 16, 1 / 4),
    (400.0, 1 / 4, 5 / 16),
    (float("inf"), 1 / 2, 9 / 16),
)
"""Panel up to so many sq in, least height printed, least height moulded (16 CFR 500.21(b); 1/16 FOUND, rest MEMORY)."""


def round_panel_in2(height_mm: float, diameter_mm: float) -> float:
    """Principal display panel of a cylinder.

    A = 0.40 pi D h

    height_mm: h, without shoulder and neck, mm.
    diameter_mm: D, outside, mm.
    Holds for straight-sided vessels and tins.
    Source: 16 CFR 500.21(a) (FOUND).

    >>> round(round_panel_in2(90.0, 80.0), 2)
    14.02
    """
    return CURVED_PANEL * pi * diameter_mm * height_mm / MM_PER_INCH**2


def least_type_mm(panel_in2: float, *, moulded: bool = False) -> float:
    """Least height of the net quantity's letters: of the small "o", or of capitals where all are capitals."""
    printed_in, moulded_in = next(
        (printed, raised) for up_to, printed, raised in TYPE_HEIGHTS_IN if panel_in2 <= up_to
    )
    return (moulded_in if moulded else printed_in) * MM_PER_INCH


def must_stand_low(panel_in2: float) -> bool:
    """Whether the net quantity belongs in the lowest 30 % of the panel."""
    return panel_in2 > SMALL_PANEL_IN2
