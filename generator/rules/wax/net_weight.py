"""The net weight of one candle: the best available of weighings, weight poured, water and geometry."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, pi, sqrt
from typing import Final

from generator.model.burn_safety import WeightBasis
from generator.model.quantities import as_written
from generator.model.recorded import Build
from generator.model.sizes import Weighing
from generator.problems import Fault, is_error, warning
from generator.rules.calculation import Calculation
from generator.rules.wax.fill import FillResult
from generator.rules.wax.geometry import diameter_mm, most_wax_ml
from generator.rules.wax.weighings import LEAST_NET_G, Weighings, weighing_faults, weighing_margin, weighings

DENSITY_ERROR_G_PER_ML: Final = 0.01
DIAMETER_ERROR_MM: Final = 1.0
LEVEL_ERROR_MM: Final = 1.0
"""How well density, inside diameter and fill line are known (physics.md A5, CHOICE)."""

WEIGHED_DIFFERS_PERCENT: Final = 5.0
"""Above this, weighings and fill cannot both be right (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NetWeight:
    """The net weight, how it is known, and how far it may be off.

    ``proven`` is the weight that weighings or pouring to weight support, None where it is only calculated.
    """

    net: Calculation
    basis: WeightBasis
    error_percent: float
    weighings: Weighings | None
    proven: Calculation | None

    @property
    def net_g(self) -> float:
        """The net weight, in g."""
        return self.net.value

    @property
    def proven_g(self) -> float | None:
        """The weight that weighing or pouring supports, in g."""
        return None if self.proven is None else self.proven.value


def net_weight(
    build: Build, filled: FillResult, weighed: tuple[Weighing | float, ...], scale_step_g: float
) -> tuple[NetWeight | None, tuple[Fault, ...]]:
    """The net weight by order of trust: weighings, poured to weight, water, geometry.

    None where a weighing cannot be a candle's, or is more than the vessel holds.
    """
    faults = tuple(weighing_faults(weighed))
    if any(map(is_error, faults)):
        return None, faults
    seen = weighings(weighed)
    differing = tuple(_difference_faults(seen, build, filled))
    if any(map(is_error, differing)):
        return None, (*faults, *differing)
    unweighed_basis, unweighed_percent = _unweighed(build, filled, scale_step_g)
    net = filled.weight if seen is None else seen.mean
    return (
        NetWeight(
            net=net,
            basis=unweighed_basis if seen is None else "weighed",
            error_percent=_weighed_percent(seen, scale_step_g) or unweighed_percent,
            weighings=seen,
            proven=None if differing else _proven(build, seen, net, scale_step_g),
        ),
        (*faults, *differing),
    )


def estimate_percent(density_g_per_ml: float, mean_depth_mm: float, wide_mm: float | None) -> float:
    """How far a net weight calculated from a fill line may be off, in percent.

    e = 100 sqrt((0.01/rho)^2 + (1/d)^2 + (2/D)^2)

    density_g_per_ml: rho of the set wax, known to 0.01 g/ml.
    mean_depth_mm: d, volume over surface, mm; the line is known to 1 mm.
    wide_mm: D, mean inside diameter, mm, known to 1 mm; None where the content was measured with water.
    Holds for errors that are independent of each other.
    Source: physics.md A5 (COMPUTED from errors that are a CHOICE).

    >>> round(estimate_percent(0.9062118, 53.244, 70.0), 1)
    3.6
    """
    density = DENSITY_ERROR_G_PER_ML / density_g_per_ml
    level = LEVEL_ERROR_MM / mean_depth_mm
    width = 0.0 if wide_mm is None else 2 * DIAMETER_ERROR_MM / wide_mm
    return 100 * hypot(density, level, width)


def _unweighed(build: Build, filled: FillResult, scale_step_g: float) -> tuple[WeightBasis, float]:
    """Basis and error of the weight that the fill makes; a volume counts as read to the same millimetre."""
    shape, fill = build.shape, build.fill
    if fill is not None and fill.weight_g is not None:
        return "poured to weight", 100 * scale_step_g / fill.weight_g
    density = filled.computed_g / filled.volume_ml
    mm3 = filled.volume_ml * 1000
    depth_mm = mm3 / (pi / 4 * diameter_mm(shape.inside, filled.level_set_mm) ** 2)
    measured = shape.brimful_ml is not None or (fill is not None and fill.volume_ml is not None)
    if measured:
        return "water", estimate_percent(density, depth_mm, None)
    wide_mm = sqrt(4 * mm3 / (pi * filled.level_set_mm))
    return "geometry", estimate_percent(density, depth_mm, wide_mm)


def _weighed_percent(seen: Weighings | None, scale_step_g: float) -> float | None:
    """The error of a mean of enough weighings, at least a step of the scale."""
    if seen is None or seen.proven is None or seen.sd_g is None:
        return None
    return 100 * max(weighing_margin(seen.sd_g, seen.n).value, scale_step_g) / seen.mean_g


def _proven(
    build: Build, seen: Weighings | None, net: Calculation, scale_step_g: float
) -> Calculation | None:
    """What the label may state: enough weighings decide; without them, what was poured to weight."""
    carried = seen.proven if seen else None
    if carried is None and build.fill is not None and build.fill.weight_g is not None:
        poured = "net_weight_g" if seen is None else "poured_g"
        exact = {poured: as_written(build.fill.weight_g), "scale_step_g": as_written(scale_step_g)}
        formula = f"{poured} - scale_step_g"
        carried = Calculation(formula, {name: Fraction(grams) for name, grams in exact.items()})
    if carried is None:
        return None
    proven = min(carried, net, key=lambda one: one.value)
    return proven if proven.value >= LEAST_NET_G else None


def _difference_faults(seen: Weighings | None, build: Build, filled: FillResult) -> Iterator[Fault]:
    if seen is None:
        return
    most_ml = most_wax_ml(build.shape)
    weighed_ml = seen.mean_g * filled.volume_ml / filled.computed_g
    if weighed_ml > most_ml:
        yield Fault(
            path=("weighed",),
            what=f"weighed {seen.mean_g:.1f} g on average, {weighed_ml:.1f} ml of set wax, "
            f"more than the {most_ml:.1f} ml the vessel holds",
            why="the printed wax weight would be more than the vessel holds",
            fix=(
                "weighed: [{empty: the vessel with its wick, full: the finished candle}], "
                "or correct the vessel"
            ),
        )
        return
    percent = 100 * (seen.mean_g / filled.computed_g - 1)
    if abs(percent) > WEIGHED_DIFFERS_PERCENT:
        yield warning(
            path=("weighed",),
            what=f"weighed {seen.mean_g:.1f} g on average, {abs(percent):.1f} % "
            f"{'more' if percent > 0 else 'less'} than the {filled.computed_g:.1f} g of the fill",
            why="one of the weighings, fill, vessel or densities is wrong, and so are the hours",
            fix="correct weighed and fill to what a finished candle shows",
            check="weighed",
        )
