"""The smallest letters and signs of a label, from the label's real area and its package."""

from dataclasses import dataclass
from datetime import date
from math import pi
from typing import Final

from generator.model.markets import MARKETS, Market, law_of
from generator.model.quantities import MM_PER_INCH

CURVED_PANEL: Final = 0.40
"""The part of a round or odd package that counts as its panel (16 CFR 500.21(a), FOUND)."""

SMALL_PANEL_IN2: Final = 5.0
"""Up to this the quantity need not be in the lowest 30 % of the panel (16 CFR 500.6, MEMORY)."""

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


LEAST_SIGN_MM: Final = 5.0
"""Height of a safety sign (EN 15494:2019 cl. 4.3, FOUND-2nd: standards.md F24)."""

CAUTION_TYPE_IN: Final = (
    (2.0, 3 / 64, 3 / 64, 1 / 32),
    (5.0, 1 / 16, 3 / 64, 3 / 64),
    (10.0, 3 / 32, 1 / 16, 1 / 16),
    (15.0, 7 / 64, 3 / 32, 1 / 16),
    (30.0, 1 / 8, 3 / 32, 5 / 64),
    (float("inf"), 5 / 32, 7 / 64, 3 / 32),
)
"""Label up to so many sq in: signal word, statements of what is dangerous, the rest (16 CFR 1500.121, MEMORY)."""

QUANTITY_FIGURES_MM: Final = ((50.0, 2.0), (200.0, 3.0), (1000.0, 4.0), (float("inf"), 6.0))
"""Nominal quantity up to so many g, height of its figures (76/211/EEC annex I 3.1, MEMORY: standards.md N35)."""

SMALL_LETTERS_MM: Final = ((500.0, 1.2), (3_000.0, 1.4), (50_000.0, 1.8), (float("inf"), 2.0))
"""Capacity up to so many ml, height of the small x of a hazard label (standards.md C4, FOUND-2nd)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionType:
    """Least heights of capitals: of the signal word, of the statements of hazard, of all else."""

    signal_mm: float
    statement_mm: float
    other_mm: float


ELSEWHERE: Final = CautionType(signal_mm=1.6, statement_mm=1.2, other_mm=1.2)
"""Outside the US no rule was found: one size for all labels, so that a larger one never needs more room. (CHOICE)"""


def caution_type(area_mm2: float, market: Market) -> CautionType:
    """Least letters of cautions on a label of so many square millimetres.

    by band of area, as the federal rule for cautionary labels has them; outside the US `ELSEWHERE`

    area_mm2: printable area of the label, mm2.
    market: where it is sold.
    Holds for every area. It binds hazardous substances in the US; candles take it as a fallback with a source.
    Source: 16 CFR 1500.121 table 1 (MEMORY), and the sizes suggested beside it: standards.md F4 (CHOICE).

    >>> caution_type(52 * 74, "US").statement_mm
    1.5875
    """
    match MARKETS[market].letters:
        case "76/211/EEC":
            return ELSEWHERE
        case "16 CFR":
            area_in2 = area_mm2 / MM_PER_INCH**2
            row = next(row for row in CAUTION_TYPE_IN if area_in2 <= row[0])
            signal_mm, statement_mm, other_mm = (height_in * MM_PER_INCH for height_in in row[1:])
            return CautionType(signal_mm=signal_mm, statement_mm=statement_mm, other_mm=other_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuantityType:
    """Least height of a net quantity, whether of small letters or of figures, and whether it must be placed low."""

    height_mm: float
    of_small_letters: bool
    stands_low: bool


def quantity_type(market: Market, net_g: float, panel_in2: float) -> QuantityType:
    """The type of a net quantity on the front of a candle, by its grams and the panel's square inches."""
    match MARKETS[market].letters:
        case "76/211/EEC":
            return QuantityType(height_mm=quantity_figures_mm(net_g), of_small_letters=False, stands_low=True)
        case "16 CFR":
            return QuantityType(
                height_mm=least_type_mm(panel_in2),
                of_small_letters=True,
                stands_low=must_stand_low(panel_in2),
            )


def quantity_figures_mm(nominal_g: float) -> float:
    """Least height of the figures of a net quantity in the EU and in Great Britain."""
    return next(height_mm for up_to_g, height_mm in QUANTITY_FIGURES_MM if nominal_g <= up_to_g)


def small_letters_mm(market: Market, capacity_ml: float, on: date) -> float | None:
    """Least height of the small x of a hazard label; None where no rule in force gives one."""
    law = law_of(market)
    if law is None or law.small_letters_from is None or on < law.small_letters_from:
        return None
    return next(height_mm for up_to_ml, height_mm in SMALL_LETTERS_MM if capacity_ml <= up_to_ml)
