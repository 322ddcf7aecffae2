"""A shape's volume up to a level as arithmetic that anybody can do again with the printed numbers."""

import re
from dataclasses import dataclass
from itertools import pairwise

from generator.facts.facts import Input
from generator.model.entry import entry_key
from generator.model.vessel import Profile, Rounded, Shape
from generator.rules.geometry import diameter_mm


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
        Input(
            name=name, value=getattr(shape, field), unit="mm", origin=("vessel", "inside", entry_key(field))
        )
        for name, field in _LENGTHS[shape.shape]
    )
    return Term(formula=re.sub(r"\bz\b", level_name, formula), inputs=(*lengths, level))


_LENGTHS: dict[str, tuple[tuple[str, str], ...]] = {
    "cylinder": (("D", "diameter_mm"),),
    "cone": (("B", "base_mm"), ("R", "rim_mm"), ("H", "height_mm")),
    "rounded": (("D", "diameter_mm"), ("c", "corner_mm")),
    "hexagon": (("a", "across_mm"),),
    "square": (("a", "side_mm"), ("c", "corner_mm")),
    "oval": (("a", "long_mm"), ("b", "short_mm")),
    "bowl": (("R", "rim_mm"), ("H", "height_mm")),
}
_FORMULAS: dict[str, str] = {
    "cylinder": "pi / 4 * D^2 * z / 1000",
    "cone": "pi / 12 * z * (B^2 + B * (B + (R - B) * z / H) + (B + (R - B) * z / H)^2) / 1000",
    "hexagon": "sqrt(3) / 2 * a^2 * z / 1000",
    "square": "(a^2 - (4 - pi) * c^2) * z / 1000",
    "oval": "pi / 4 * a * b * z / 1000",
    "bowl": "pi / 3 * z^2 * (3 * ((R / 2)^2 + H^2) / (2 * H) - z) / 1000",
}
_ROUNDED_BASE = "pi * ((D / 2 - c)^2 * c + (D / 2 - c) * pi * c^2 / 2 + 2 / 3 * c^3) / 1000"
_ROUNDED_ABOVE = f"{_ROUNDED_BASE} + pi / 4 * D^2 * (z - c) / 1000"
_ROUNDED_WITHIN = (
    "pi * ((D / 2 - c)^2 * z + 2 * (D / 2 - c) * (pi * c^2 / 4 - (c - z) / 2 * sqrt(c^2 - (c - z)^2)"
    " - c^2 / 2 * asin((c - z) / c)) + c^2 * z - (c^3 - (c - z)^3) / 3) / 1000"
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
        inputs.append(Input(name=f"D{number}", value=wide_mm, unit="mm", origin=origin))
        inputs.append(level if last else Input(name=f"z{number}", value=height_mm, unit="mm", origin=origin))
    heights = [*(f"z{number}" for number in range(len(points) - 1)), level.name]
    frusta = (
        f"({upper} - {lower}) * (D{n}^2 + D{n} * D{n + 1} + D{n + 1}^2)"
        for n, (lower, upper) in enumerate(pairwise(heights))
    )
    return Term(formula=f"pi / 12 * ({' + '.join(frusta)}) / 1000", inputs=tuple(inputs))
