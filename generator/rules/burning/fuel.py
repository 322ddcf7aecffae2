"""The wax of one candle that can burn, and the hours of an untested candle."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import floor
from typing import Final

from generator.problems import Fault
from generator.rules.calculation import Calculation

FASTEST_UNTESTED_G_PER_H: Final = 8.0
SLOWEST_UNTESTED_G_PER_H: Final = 4.5
"""Rates for each wick of an untested candle: 10 % above the fastest modern one published (7.3 g/h, FOUND),
and a middling one, on purpose not the slowest (physics.md D6, CHOICE)."""

SHARED_HEAT: Final = 1.15
"""How much faster each of several wicks may burn in an untested candle (physics.md B1, CHOICE)."""


@dataclass(frozen=True, kw_only=True)
class Fuel:
    """The wax of one candle: its net weight, its volumes to the fill level and to the stop depth, both heights."""

    net_g: float
    fill_ml: float
    heel_ml: float
    level_mm: float
    stop_depth_mm: float

    @cached_property
    def heel(self) -> Calculation:
        """The wax left unburnt, in g."""
        return heel(self.net_g, self.heel_ml, self.fill_ml)

    @cached_property
    def burnable(self) -> Calculation:
        """The wax above the stop depth, in g."""
        return Calculation("net_weight_g - heel_g", {"net_weight_g": self.net_g, "heel_g": self.heel.value})

    @property
    def burnable_g(self) -> float:
        """The wax above the stop depth."""
        return self.burnable.value


@dataclass(frozen=True, slots=True, kw_only=True)
class UntestedHours:
    """The estimate for an untested candle: whole hours at the fast and at the slow rate."""

    rate_high_g_per_h: float
    low: Calculation
    high_h: int

    @property
    def low_h(self) -> int:
        """The hours at the fast rate."""
        return int(self.low.exact)


def heel(net_g: float, heel_ml: float, fill_ml: float) -> Calculation:
    """The wax left unburnt when burning stops at the stop depth, in g.

    m_heel = m_net V(d) / V(h)

    net_g: m_net, the net weight of the candle, g.
    heel_ml: V(d), the vessel's volume up to the stop depth, ml.
    fill_ml: V(h), the vessel's volume up to the finished surface, ml.
    Holds for wax of one density throughout, whatever that density is.
    Source: physics.md D5 (CHOICE).

    >>> round(heel(185.689, 48.875, 204.907).value, 2)
    44.29
    """
    inputs = {"net_weight_g": net_g, "heel_volume_ml": heel_ml, "fill_volume_ml": fill_ml}
    return Calculation("net_weight_g * heel_volume_ml / fill_volume_ml", inputs)


@lru_cache
def untested_rates_g_per_h(wicks: int) -> tuple[float, float]:
    """The slow and the fast rate of an untested candle, in g/h.

    4.5 n and 8.0 n k, with k = 1 for one wick and 1.15 for more

    wicks: n, without unit.
    Holds for wicks in a container, each a usual size for its share of the wax.
    Source: physics.md D6 (CHOICE, on published rates of 1.7 to 7.3 g/h for a wick, FOUND).

    >>> untested_rates_g_per_h(1)
    (4.5, 8.0)
    """
    return SLOWEST_UNTESTED_G_PER_H * wicks, Calculation(_fastest(wicks), {"wicks": wicks}).value


def _fastest(wicks: int) -> str:
    return f"{FASTEST_UNTESTED_G_PER_H} * wicks" + (f" * {SHARED_HEAT}" if wicks > 1 else "")


def untested_band(burnable_g: float, wicks: int) -> UntestedHours:
    """Whole hours at the fast rate, the only ones that papers print, and at the slow rate.

    X = floor(m_b / (8.0 n k)) and Y = floor(m_b / (4.5 n))

    burnable_g: m_b, the wax above the stop depth, g.
    wicks: n, without unit.
    Holds from one hour's worth of wax upwards.
    Source: physics.md D6 (CHOICE).

    >>> band = untested_band(141.398, 1)
    >>> band.low_h, band.high_h
    (17, 31)
    """
    slow, fast = untested_rates_g_per_h(wicks)
    return UntestedHours(
        rate_high_g_per_h=fast,
        low=Calculation(
            f"floor(burnable_g / ({_fastest(wicks)}))", {"burnable_g": burnable_g, "wicks": wicks}
        ),
        high_h=floor(burnable_g / slow),
    )


def fuel_faults(fuel: Fuel, wicks: int) -> tuple[Fault, ...]:
    """Why a fill has nothing to burn: it ends below the stop depth, or less than one untested hour above it."""
    hourly_g, one_wick_g = untested_rates_g_per_h(wicks)[1], untested_rates_g_per_h(1)[1]
    levels = f"{fuel.level_mm:.4g} mm of wax, and burning stops at {fuel.stop_depth_mm:.4g} mm"
    if fuel.stop_depth_mm >= fuel.level_mm:
        what = f"the fill is {levels}"
    elif fuel.burnable_g < one_wick_g:
        what = f"only {fuel.burnable_g:.2f} g of the wax can burn, and an hour may use {one_wick_g:g} g"
    elif fuel.burnable_g < hourly_g:
        return (_too_many_wicks(fuel.burnable_g, wicks, hourly_g),)
    else:
        return ()
    why = "there are no burn hours to print, and the flame would reach the base of the vessel"
    return (Fault(path=("fill",), what=what, why=why, fix="use more wax, or another vessel"),)


def _too_many_wicks(burnable_g: float, wicks: int, hourly_g: float) -> Fault:
    most = max(1, floor(burnable_g * wicks / hourly_g))
    return Fault(
        path=("wick",),
        what=(
            f"{wicks} wicks may use {hourly_g:.0f} g an hour, and only {burnable_g:.1f} g of the wax can burn"
        ),
        why="there are no burn hours to print, and so many flames would overheat the vessel",
        fix=f"wick: at most {most} in total, and fewer for longer hours",
    )


def flame_heat(rate_g_per_h: float, lhv_mj_per_kg: float) -> Calculation:
    """The heat that the flames give off, in W.

    P = m LHV / 3.6

    rate_g_per_h: m, the wax burnt in an hour by all wicks together, g/h.
    lhv_mj_per_kg: LHV, the lower heating value of the blend, MJ/kg.
    Holds for wax that burns completely; soot and smoke make it an upper figure.
    Source: physics.md B3 (COMPUTED; compared with an experiment of 0.105 g/min and 77 W, MEMORY).

    >>> round(flame_heat(8.0, 43.478).value, 2)
    96.62
    """
    inputs = {"flame_rate_g_per_h": rate_g_per_h, "lhv_mj_per_kg": lhv_mj_per_kg}
    return Calculation("flame_rate_g_per_h * lhv_mj_per_kg / 3.6", inputs)
