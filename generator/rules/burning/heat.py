"""The heat of a candle's flames."""

from generator.rules.calculation import Calculation


def flame_heat(rate_g_per_h: float, lhv_mj_per_kg: float) -> Calculation:
    """The heat that the flames give off, in W.

    P = m LHV / 3.6

    rate_g_per_h: m, the wax burnt in an hour by all wicks together, g/h.
    lhv_mj_per_kg: LHV, the lower heating value of the blend, MJ/kg.
    Holds for wax that burns completely; soot and smoke make it an upper figure.
    Source: physics.md B3 (COMPUTED; held against an experiment of 0.105 g/min and 77 W, MEMORY).

    >>> round(flame_heat(8.0, 43.478).value, 2)
    96.62
    """
    inputs = {"flame_rate_g_per_h": rate_g_per_h, "lhv_mj_per_kg": lhv_mj_per_kg}
    return Calculation("flame_rate_g_per_h * lhv_mj_per_kg / 3.6", inputs)
