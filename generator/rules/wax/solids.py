"""Volumes of insides up to a level, and their level cross-sections, as formulas over lengths in mm."""

from collections.abc import Mapping
from itertools import pairwise
from math import pi, sqrt
from typing import Final

from generator.model.vessel import Bowl, Cone, Profile, Rounded, Shape
from generator.rules.calculation import Calculation

LENGTHS: Final[Mapping[str, tuple[str, ...]]] = {
    "cylinder": ("diameter_mm",),
    "cone": ("base_mm", "rim_mm", "height_mm"),
    "rounded": ("diameter_mm", "corner_mm"),
    "hexagon": ("across_mm",),
    "square": ("side_mm", "corner_mm"),
    "oval": ("long_mm", "short_mm"),
    "bowl": ("rim_mm", "height_mm"),
}
"""The measurements of each shape on which its volume depends; ``across_mm`` is from flat to flat."""

_AREAS_MM2: Final[Mapping[str, str]] = {
    "cylinder": "pi / 4 * diameter_mm^2",
    "hexagon": "sqrt(3) / 2 * across_mm^2",
    "square": "(side_mm^2 - (4 - pi) * corner_mm^2)",
    "oval": "pi / 4 * long_mm * short_mm",
}
"""Of shapes with the same cross-section at every height; corners of a square are quarter circles, up to half a side
(elementary geometry, COMPUTED)."""

_SPHERE_MM: Final = "((rim_mm / 2)^2 + height_mm^2) / (2 * height_mm)"
"""Radius of the sphere of which a bowl is the lower part: (a^2 + h^2)/(2 h); above rim/2 in height the bowl is deeper
than half a sphere (elementary geometry, COMPUTED)."""

_WIDTH_OF_A_CONE: Final = "(base_mm + (rim_mm - base_mm) * LEVEL / height_mm)"
_FLAT: Final = "(diameter_mm / 2 - corner_mm)"
"""Radius of the flat part of a rounded base."""

_LEFT: Final = "(corner_mm - LEVEL)"
"""How far below the end of the curve a level is."""

_VOLUMES_ML: Final[Mapping[str, str]] = {
    **{shape: f"{area} * LEVEL / 1000" for shape, area in _AREAS_MM2.items()},
    "cone": f"pi / 12 * LEVEL * (base_mm^2 + base_mm * {_WIDTH_OF_A_CONE} + {_WIDTH_OF_A_CONE}^2) / 1000",
    "bowl": f"pi / 3 * LEVEL^2 * (3 * {_SPHERE_MM} - LEVEL) / 1000",
    "rounded": f"pi * ({_FLAT}^2 * corner_mm + {_FLAT} * pi * corner_mm^2 / 2 + 2 / 3 * corner_mm^3) / 1000"
    " + pi / 4 * diameter_mm^2 * (LEVEL - corner_mm) / 1000",
}
"""Frustum, cap of a sphere up to its diameter, and a cylinder above a base that meets its wall in a quarter circle, for
levels from there up (elementary geometry, COMPUTED)."""

_WITHIN_THE_CORNER_ML: Final = (
    f"pi * ({_FLAT}^2 * LEVEL + 2 * {_FLAT} * (pi * corner_mm^2 / 4"
    f" - {_LEFT} / 2 * sqrt(corner_mm^2 - {_LEFT}^2) - corner_mm^2 / 2 * asin({_LEFT} / corner_mm))"
    f" + corner_mm^2 * LEVEL - (corner_mm^3 - {_LEFT}^3) / 3) / 1000"
)
"""The integral of pi (c + sqrt(f^2 - (f - z)^2))^2, with corner f above 0, flat radius c, and level z up to f
(COMPUTED)."""


def shape_volume(shape: Shape, level_mm: float, level_name: str = "level_mm") -> Calculation:
    """Volume of the inside from the base up to a level, in ml, from the lengths alone.

    V = A z for an even cross-section A; cone and profile: frusta; rounded: base corner and cylinder; bowl: cap

    shape: the inside, lengths in mm.
    level_mm: z, height above the base, mm.
    level_name: what the level is called in the formula.
    Holds from the base to the rim.
    Source: elementary geometry (COMPUTED).

    >>> from generator.model.vessel import Oval
    >>> oval = Oval(shape="oval", long_mm=90.0, short_mm=60.0, height_mm=70.0)
    >>> shape_volume(oval, 10.0).formula, round(shape_volume(oval, 10.0).value, 4)
    ('pi / 4 * long_mm * short_mm * level_mm / 1000', 42.4115)
    """
    if isinstance(shape, Profile):
        return _frusta(shape, level_mm, level_name)
    within = isinstance(shape, Rounded) and level_mm < shape.corner_mm
    formula = _WITHIN_THE_CORNER_ML if within else _VOLUMES_ML[shape.shape]
    return Calculation(formula.replace("LEVEL", level_name), {**_lengths(shape), level_name: level_mm})


def prism_diameter_mm(shape: Shape) -> float:
    """Diameter of the circle with the area of an even cross-section: sqrt(4 A/pi)."""
    return sqrt(4 * Calculation(_AREAS_MM2[shape.shape], _lengths(shape)).value / pi)


def cone_diameter_mm(shape: Cone, level_mm: float) -> float:
    """Diameter at a level, straight from the base to the rim."""
    inputs = {**_lengths(shape), "LEVEL": level_mm}
    return Calculation(_WIDTH_OF_A_CONE, inputs).value


def sphere_radius_mm(bowl: Bowl) -> float:
    """Radius of the sphere of which a bowl is the lower part.

    >>> round(sphere_radius_mm(Bowl(shape="bowl", rim_mm=105.830052, height_mm=40.0)), 6)
    55.0
    """
    return Calculation(_SPHERE_MM, _lengths(bowl)).value


def _lengths(shape: Shape) -> Mapping[str, float]:
    return {name: getattr(shape, name) for name in LENGTHS[shape.shape]}


def _frusta(shape: Profile, level_mm: float, level_name: str) -> Calculation:
    """The frusta below the level, each between two measured diameters; the last ends at the level itself."""
    first, *others = shape.points
    below = [first, *((height, wide) for height, wide in others if height < level_mm)]
    inputs: dict[str, float] = {}
    for number, (height, wide) in enumerate(below):
        inputs |= {f"diameter_{number}_mm": wide, f"height_{number}_mm": height}
    inputs |= {f"diameter_{len(below)}_mm": profile_diameter_mm(shape, level_mm), level_name: level_mm}
    widths, heights = list(inputs)[::2], list(inputs)[1::2]
    frusta = (
        f"({upper} - {lower}) * ({base}^2 + {base} * {rim} + {rim}^2)"
        for (lower, upper), (base, rim) in zip(pairwise(heights), pairwise(widths), strict=True)
    )
    return Calculation(f"pi / 12 * ({' + '.join(frusta)}) / 1000", inputs)


def profile_diameter_mm(shape: Profile, level_mm: float) -> float:
    """Diameter at a level, straight between the measured points."""
    pairs = pairwise(shape.points)
    (low, start), (high, end) = next(pair for pair in pairs if level_mm <= pair[1][0])
    return start + (end - start) * (level_mm - low) / (high - low)
