"""The shape of the wax: volumes up to a level, levels of a volume, diameters, and the outline for drawing.

Everything here holds for measurements without faults (`measurements.wax_shape_faults`).
"""

from collections.abc import Mapping
from functools import lru_cache
from math import acos, cos, pi, sin, sqrt
from typing import Final

from generator.model.vessel import (
    Bowl,
    Cone,
    Cylinder,
    Hexagon,
    Oval,
    Profile,
    Rounded,
    Shape,
    Square,
    WaxShape,
)
from generator.rules.calculation import Calculation, Number
from generator.rules.wax.solids import (
    cone_diameter_mm,
    prism_diameter_mm,
    profile_diameter_mm,
    shape_volume,
    sphere_radius_mm,
)

SHAPES_KEPT: Final = 256
"""Candles share vessels and fill lines: their volumes are worked out once for all of them."""

LEVEL_TOLERANCE_MM: Final = 1e-9
"""How closely a level is searched for; far below what any ruler shows."""

_ROUNDING: Final = 1e-9
"""What binary arithmetic may add to a volume calculated from the rim's own level."""

Prism = Cylinder | Hexagon | Square | Oval
"""Shapes with the same cross-section at every height."""

_Outline = tuple[tuple[float, float], ...]
"""Pairs of (half width, height) in mm, from the base to the rim."""


def height_mm(shape: Shape) -> float:
    """The inside height, from the base to the rim."""
    return shape.points[-1][0] if isinstance(shape, Profile) else shape.height_mm


@lru_cache(maxsize=SHAPES_KEPT)
def diameter_mm(shape: Shape, level_mm: float) -> float:
    """Inside diameter at a level; of a shape that is not round, that of the circle with the same area.

    D = sqrt(4 A/pi); cone: D0 + (D1 - D0) z/h; rounded, below its corner: D - 2 f + 2 sqrt(f^2 - (f - z)^2);
    bowl: 2 sqrt(z (2 R - z)); profile: straight between its points

    shape: the inside, lengths in mm.
    level_mm: z, height above the base, mm.
    Holds from the base to the rim; refuses other levels.
    Source: elementary geometry (COMPUTED).

    >>> diameter_mm(Cone(shape="cone", base_mm=60.0, rim_mm=75.0, height_mm=85.0), 42.5)
    67.5
    """
    _refuse_outside(shape, level_mm)
    match shape:
        case Cone():
            return cone_diameter_mm(shape, level_mm)
        case Rounded():
            rest = max(shape.corner_mm - level_mm, 0.0)
            return shape.diameter_mm - 2 * shape.corner_mm + 2 * sqrt(shape.corner_mm**2 - rest**2)
        case Bowl():
            return 2 * sqrt(level_mm * (2 * sphere_radius_mm(shape) - level_mm))
        case Profile():
            return profile_diameter_mm(shape, level_mm)
        case _:
            return prism_diameter_mm(shape)


@lru_cache(maxsize=SHAPES_KEPT)
def widest_mm(shape: Shape) -> float:
    """The largest inside diameter between base and rim, as `diameter_mm` counts it."""
    if isinstance(shape, Profile):
        return max(diameter for _, diameter in shape.points)
    if isinstance(shape, Bowl):
        belly_mm = min(sphere_radius_mm(shape), shape.height_mm)
        return diameter_mm(shape, belly_mm)
    return max(diameter_mm(shape, 0.0), diameter_mm(shape, shape.height_mm))


def volume_ml(shape: Shape, level_mm: float) -> float:
    """Volume of the inside from the base up to a level: `shape_volume`, which refuses no level itself.

    >>> round(volume_ml(Cylinder(shape="cylinder", diameter_mm=70.0, height_mm=80.0), 80.0), 6)
    307.87608
    """
    _refuse_outside(shape, level_mm)
    return shape_volume(shape, level_mm).value


@lru_cache(maxsize=SHAPES_KEPT)
def total_ml(shape: Shape) -> float:
    """Volume of the inside up to the rim, from the lengths alone."""
    return volume_ml(shape, height_mm(shape))


def level_mm(shape: Shape, volume_ml: float) -> float:
    """Level of a volume: the inverse of `volume_ml`, by halving the span that holds it.

    z with V(z) = volume

    shape: the inside, lengths in mm.
    volume_ml: ml.
    Holds from 0 to the shape's total; refuses other volumes. Right to 1e-9 mm.
    Source: bisection of a rising function (COMPUTED).

    >>> round(level_mm(Cone(shape="cone", base_mm=60.0, rim_mm=75.0, height_mm=85.0), 250.0), 5)
    72.06543
    """
    low, high = 0.0, height_mm(shape)
    if not 0 <= volume_ml <= total_ml(shape) * (1 + _ROUNDING):
        raise ValueError(f"{volume_ml} ml is not between empty and brimful")
    while high - low > LEVEL_TOLERANCE_MM:
        middle = (low + high) / 2
        if shape_volume(shape, middle).value < volume_ml:
            low = middle
        else:
            high = middle
    return high


def scale(shape: WaxShape) -> float:
    """What the volumes of the inside are multiplied by: measured over computed brimful, 1 when not measured.

    scale = V_water / V_inside

    shape: with its inside (mm) and its measured brimful (ml), if any.
    Holds while the two differ by little: `measurements` warns above 15 %.
    Source: ours, so that one measured number corrects every level (CHOICE).

    >>> jar = Cylinder(shape="cylinder", diameter_mm=70.0, height_mm=80.0)
    >>> round(scale(WaxShape(id="jar", inside=jar, brimful_ml=300.0, displaced_ml=None)), 4)
    0.9744
    """
    return 1.0 if shape.brimful_ml is None else shape.brimful_ml / total_ml(shape.inside)


def brimful_ml(shape: WaxShape) -> float:
    """Its empty capacity up to the rim: measured, or from its inside."""
    return total_ml(shape.inside) if shape.brimful_ml is None else shape.brimful_ml


@lru_cache(maxsize=SHAPES_KEPT)
def wax_volume(shape: WaxShape, level_mm: float, level_name: str = "level_mm") -> Calculation:
    """Volume of wax up to a level, in ml: scaled to the measured brimful, less what wick and holder take up.

    V_wax = scale V(z) - displaced, below 0 where there is no room for wax

    shape: lengths in mm, brimful and displaced in ml.
    level_mm: z, height above the base, mm.
    level_name: what the level is called in the formula.
    Holds from the base to the rim, refuses other levels; counts the whole displacement as below the level.
    Source: ours (CHOICE).

    >>> jar = Cylinder(shape="cylinder", diameter_mm=70.0, height_mm=80.0)
    >>> whole = WaxShape(id="jar", inside=jar, brimful_ml=None, displaced_ml=1.0)
    >>> round(wax_volume(whole, 80.0).value, 3)
    306.876
    """
    _refuse_outside(shape.inside, level_mm)
    volume = shape_volume(shape.inside, level_mm, level_name)
    formula, inputs = volume.formula, volume.inputs
    if shape.brimful_ml is not None:
        measured: Mapping[str, Number] = {
            "brimful_ml": shape.brimful_ml,
            "shape_brimful_ml": total_ml(shape.inside),
        }
        formula, inputs = f"brimful_ml / shape_brimful_ml * ({formula})", {**measured, **inputs}
    if shape.displaced_ml:
        formula, inputs = f"{formula} - displaced_ml", {**inputs, "displaced_ml": shape.displaced_ml}
    return Calculation(formula, inputs)


def wax_ml(shape: WaxShape, level_mm: float) -> float:
    """The value of `wax_volume`, never below 0."""
    return max(wax_volume(shape, level_mm).value, 0.0)


def wax_level_mm(shape: WaxShape, wax_ml: float) -> float:
    """Level that a volume of wax reaches beside wick and holder: the inverse of `wax_ml`."""
    return level_mm(shape.inside, (wax_ml + (shape.displaced_ml or 0.0)) / scale(shape))


def most_wax_ml(shape: WaxShape) -> float:
    """Volume of wax up to the rim, beside wick and holder."""
    return wax_ml(shape, height_mm(shape.inside))


@lru_cache(maxsize=SHAPES_KEPT)
def outline_mm(shape: Shape, steps: int) -> _Outline:
    """Half the vessel's inside as seen from the front; ``steps`` lines make up each curve.

    The half width of a shape that is not round is half of what was measured: flat to flat, side, long.
    """
    match shape:
        case Profile():
            return tuple((diameter / 2, height) for height, diameter in shape.points)
        case Bowl():
            return _bowl_outline_mm(shape, steps)
        case Rounded():
            return _rounded_outline_mm(shape, steps)
        case Cone():
            return ((shape.base_mm / 2, 0.0), (shape.rim_mm / 2, shape.height_mm))
        case _:
            half = _front_mm(shape) / 2
            return ((half, 0.0), (half, shape.height_mm))


def _refuse_outside(shape: Shape, level_mm: float) -> None:
    if not 0 <= level_mm <= height_mm(shape):
        raise ValueError(f"{level_mm} mm is not between the base and the rim")


def _front_mm(shape: Prism) -> float:
    match shape:
        case Cylinder():
            return shape.diameter_mm
        case Hexagon():
            return shape.across_mm
        case Square():
            return shape.side_mm
        case _:
            return shape.long_mm


def _bowl_outline_mm(shape: Bowl, steps: int) -> _Outline:
    radius = sphere_radius_mm(shape)
    opening = acos((radius - shape.height_mm) / radius)
    return _arc_mm((0.0, radius), radius, opening, steps)


def _rounded_outline_mm(shape: Rounded, steps: int) -> _Outline:
    centre = (shape.diameter_mm / 2 - shape.corner_mm, shape.corner_mm)
    arc = _arc_mm(centre, shape.corner_mm, pi / 2, steps)
    rim = (shape.diameter_mm / 2, shape.height_mm)
    return tuple(dict.fromkeys((*arc, rim)))


def _arc_mm(centre: tuple[float, float], radius: float, opening: float, steps: int) -> _Outline:
    """Points from straight below the centre outwards, over an angle of ``opening`` radians."""
    across, up = centre
    angles = (opening * step / steps for step in range(steps + 1))
    return tuple((across + radius * sin(angle), up - radius * cos(angle)) for angle in angles)
