"""How far single packages may fall short of their net quantity: the US table, and the EU's and GB's rule."""

from decimal import ROUND_CEILING, Decimal
from typing import Final

LIGHT_LABEL_G: Final = Decimal(36)
LIGHT_MAV: Final = Decimal("0.10")
"""Below this label the maximum allowable variation is a tenth of it (HB 133 table 2-5, MEMORY)."""

MAV_ROWS: Final = (
    (Decimal(54), Decimal("3.6")),
    (Decimal(81), Decimal("5.4")),
    (Decimal(117), Decimal("7.2")),
    (Decimal(154), Decimal("9.0")),
    (Decimal(208), Decimal("10.8")),
    (Decimal(263), Decimal("12.7")),
    (Decimal(317), Decimal("14.5")),
    (Decimal(381), Decimal("16.3")),
    (Decimal(426), Decimal("18.1")),
    (Decimal(489), Decimal("19.9")),
    (Decimal(571), Decimal("21.7")),
    (Decimal(635), Decimal("23.5")),
    (Decimal(698), Decimal("25.4")),
    (Decimal(771), Decimal("27.2")),
    (Decimal(852), Decimal("29.0")),
    (Decimal(970), Decimal("31.7")),
    (Decimal(1120), Decimal("35.3")),
)
"""Label up to this many g, maximum allowable variation in g (HB 133 table 2-5, MEMORY; at 3 oz and 113 g FOUND)."""

LARGEST_MAV_LABEL_G: Final = MAV_ROWS[-1][0]

TNE_STEP_G: Final = Decimal("0.1")
"""Tolerable negative errors go up to the next step (76/211/EEC annex I, MEMORY)."""

TNE_ROWS: Final = (
    (Decimal(50), Decimal("0.09"), Decimal(0)),
    (Decimal(100), Decimal(0), Decimal("4.5")),
    (Decimal(200), Decimal("0.045"), Decimal(0)),
    (Decimal(300), Decimal(0), Decimal(9)),
    (Decimal(500), Decimal("0.03"), Decimal(0)),
    (Decimal(1000), Decimal(0), Decimal(15)),
    (Decimal(10000), Decimal("0.015"), Decimal(0)),
)
"""Nominal up to so many g; tolerable negative error as a fraction of it, or in g (76/211/EEC annex I 2.4, FOUND to
1000 g, MEMORY above)."""

LEAST_NOMINAL_G: Final = Decimal(5)
LARGEST_NOMINAL_G: Final = TNE_ROWS[-1][0]

SAMPLES: Final = ((250, 12), (3200, 24))
LARGEST_SAMPLE: Final = 48
"""Lots up to this many packages, how many of them are weighed (HB 133 table 2-1, category A, MEMORY)."""


def mav_g(label_g: Decimal) -> Decimal:
    """Maximum allowable variation: how far a single package may fall short in the US.

    label below 36 g: a tenth of it; else from the table

    label_g: net quantity on the label, g.
    Holds up to 1120 g; refuses more.
    Source: NIST HB 133, table 2-5 (MEMORY, two rows FOUND): standards.md N20.

    >>> mav_g(Decimal(184))
    Decimal('10.8')
    """
    if label_g < LIGHT_LABEL_G:
        return label_g * LIGHT_MAV
    for up_to_g, variation_g in MAV_ROWS:
        if label_g <= up_to_g:
            return variation_g
    raise ValueError(f"{label_g} g is above the table's {LARGEST_MAV_LABEL_G} g")


def lowest_single_g(label_g: Decimal) -> Decimal:
    """The least that a single package may contain in the US; the average must still reach the label."""
    return label_g - mav_g(label_g)


def sample_size(lot: int) -> int:
    """How many packages of a lot an inspector weighs: all up to 11."""
    return min(lot, next((sample for up_to, sample in SAMPLES if lot <= up_to), LARGEST_SAMPLE))


def tne_g(nominal_g: Decimal) -> Decimal:
    """Tolerable negative error: how far one package in 40 may fall short in the EU and GB.

    fraction of the nominal quantity, up to the next 0.1 g; or grams; by band

    nominal_g: net quantity on the label, g.
    Holds from 5 g to 10 kg; refuses others.
    Source: Dir. 76/211/EEC annex I 2.4 (FOUND to 1000 g, MEMORY above; rounding MEMORY): standards.md N32, N33.

    >>> tne_g(Decimal(165))
    Decimal('7.5')
    """
    for up_to_g, fraction, error_g in TNE_ROWS:
        if LEAST_NOMINAL_G <= nominal_g <= up_to_g:
            return (nominal_g * fraction + error_g).quantize(TNE_STEP_G, rounding=ROUND_CEILING)
    raise ValueError(f"{nominal_g} g is not between {LEAST_NOMINAL_G} and {LARGEST_NOMINAL_G} g")


def lowest_few_g(nominal_g: Decimal) -> Decimal:
    """At most one package in 40 may be below this (76/211/EEC annex I 1.2)."""
    return nominal_g - tne_g(nominal_g)


def lowest_any_g(nominal_g: Decimal) -> Decimal:
    """No package may be below this (76/211/EEC annex I 1.3)."""
    return nominal_g - 2 * tne_g(nominal_g)
