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


def flat_panel_in2(height_mm: float, width_mm: float) -> float:
    """Principal display panel of a box.

    A = h w

    height_mm: h, of the side that faces the buyer, mm.
    width_mm: w, of the same side, mm.
    Holds for sides without flanges and shoulders.
    Source: 16 CFR 500.21(a) (FOUND).

    >>> flat_panel_in2(50.8, 76.2)
    6.0
    """
    return _square_inches(height_mm * width_mm)


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
    return _square_inches(CURVED_PANEL * pi * diameter_mm * height_mm)


def odd_panel_in2(surface_mm2: float) -> float:
    """Principal display panel of any other package without an obvious one.

    A = 0.40 S

    surface_mm2: S, without top, bottom, flanges, shoulders and necks, mm2.
    Holds where no side is plainly the front.
    Source: 16 CFR 500.21(a) (FOUND).

    >>> round(odd_panel_in2(16129.0), 6)
    10.0
    """
    return _square_inches(CURVED_PANEL * surface_mm2)


def least_type_mm(panel_in2: float, *, moulded: bool = False) -> float:
    """Least height of the net quantity's letters: of the small "o", or of capitals where all are capitals."""
    printed_in, moulded_in = next(
        (printed, raised) for up_to, printed, raised in TYPE_HEIGHTS_IN if panel_in2 <= up_to
    )
    return (moulded_in if moulded else printed_in) * MM_PER_INCH


def must_stand_low(panel_in2: float) -> bool:
    """Whether the net quantity belongs in the lowest 30 % of the panel."""
    return panel_in2 > SMALL_PANEL_IN2


def _square_inches(area_mm2: float) -> float:
    return area_mm2 / MM_PER_INCH**2
