"""A shape's volume up to a level as arithmetic that anybody can do again with the printed numbers."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from generator.facts.facts import Input
from generator.model.entry import entry_key
from generator.model.vessel import Profile, Rounded, Shape
from generator.rules.wax.geometry import diameter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """Arithmetic in ml over lengths in mm, and the lengths."""

    formula: str
    inputs: tuple[Input, ...]


def volume_term(shape: Shape, level_name: str, level_mm: float) -> Term:
    """The inside volume up to a level. ``level_name`` is what the level is called in the formula."""
    level = Input(name=level_name, value=level_mm, unit="mm", origin=None)
    if isinstance(shape, Profile):
        return _profile(shape, level)
    formula = _FORMULAS[shape.shape] if not isinstance(shape, Rounded) else _rounded(shape, level_mm)
    lengths = tuple(
        Input(name=name, value=getattr(shape, name), unit="mm", origin=("vessel", "inside", entry_key(name)))
        for name in _LENGTHS[shape.shape]
    )
    return Term(formula=formula.replace("LEVEL", level_name), inputs=(*lengths, level))


_LENGTHS: Final[Mapping[str, tuple[str, ...]]] = {
    "cylinder": ("diameter_mm",),
    "cone": ("base_mm", "rim_mm", "height_mm"),
    "rounded": ("diameter_mm", "corner_mm"),
    "hexagon": ("across_mm",),
    "square": ("side_mm", "corner_mm"),
    "oval": ("long_mm", "short_mm"),
    "bowl": ("rim_mm", "height_mm"),
}
_WIDTH_OF_A_CONE: Final = "(base_mm + (rim_mm - base_mm) * LEVEL / height_mm)"
_FORMULAS: Final[Mapping[str, str]] = {
    "cylinder": "pi / 4 * diameter_mm^2 * LEVEL / 1000",
    "cone": f"pi / 12 * LEVEL * (base_mm^2 + base_mm * {_WIDTH_OF_A_CONE} + {_WIDTH_OF_A_CONE}^2) / 1000",
    "hexagon": "sqrt(3) / 2 * across_mm^2 * LEVEL / 1000",
    "square": "(side_mm^2 - (4 - pi) * corner_mm^2) * LEVEL / 1000",
    "oval": "pi / 4 * long_mm * short_mm * LEVEL / 1000",
    "bowl": "pi / 3 * LEVEL^2 * (3 * ((rim_mm / 2)^2 + height_mm^2) / (2 * height_mm) - LEVEL) / 1000",
}
_FLAT: Final = "(diameter_mm / 2 - corner_mm)"
"""Radius of the flat part of a rounded base."""

_LEFT: Final = "(corner_mm - LEVEL)"
"""How far below the end of the curve a level lies."""

_ROUNDED_ABOVE: Final = (
    f"pi * ({_FLAT}^2 * corner_mm + {_FLAT} * pi * corner_mm^2 / 2 + 2 / 3 * corner_mm^3) / 1000"
    " + pi / 4 * diameter_mm^2 * (LEVEL - corner_mm) / 1000"
)
_ROUNDED_WITHIN: Final = (
    f"pi * ({_FLAT}^2 * LEVEL + 2 * {_FLAT} * (pi * corner_mm^2 / 4"
    f" - {_LEFT} / 2 * sqrt(corner_mm^2 - {_LEFT}^2) - corner_mm^2 / 2 * asin({_LEFT} / corner_mm))"
    f" + corner_mm^2 * LEVEL - (corner_mm^3 - {_LEFT}^3) / 3) / 1000"
)


def _rounded(shape: Rounded, level_mm: float) -> str:
    return _ROUNDED_WITHIN if level_mm < shape.corner_mm else _ROUNDED_ABOVE


def _profile(shape: Profile, level: Input) -> Term:
    """The frusta below the level, each between two measured diameters; the last ends at the level itself."""
    points = [(h, d) for h, d in shape.points if h < level.value]
    points.append((level.value, diameter_mm(shape, level.value)))
    inputs: list[Input] = []
    for number, (height_mm, wide_mm) in enumerate(points):
        last = number == len(points) - 1
        origin = None if last else ("vessel", "inside", "points", number)
        inputs.append(Input(name=f"diameter_{number}_mm", value=wide_mm, unit="mm", origin=origin))
        inputs.append(
            level if last else Input(name=f"height_{number}_mm", value=height_mm, unit="mm", origin=origin)
        )
    heights = [*(f"height_{number}_mm" for number in range(len(points) - 1)), level.name]
    widths = [f"diameter_{number}_mm" for number in range(len(points))]
    frusta = (
        f"({upper} - {lower}) * ({base}^2 + {base} * {rim} + {rim}^2)"
        for (lower, upper), (base, rim) in zip(pairwise(heights), pairwise(widths), strict=True)
    )
    return Term(formula=f"pi / 12 * ({' + '.join(frusta)}) / 1000", inputs=tuple(inputs))
