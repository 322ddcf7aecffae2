"""Profiles of turned shapes: half sections as points, their walls and wax, and SVG path text for them.

A profile is pairs of (radius, height) in millimetres, from the inside of the base up to the rim.
A drawing's points are (x, y) with y growing downwards, as SVG counts, and the inside of the base at y = 0.
"""

from functools import lru_cache
from itertools import pairwise
from math import hypot

TurnedProfile = tuple[tuple[float, float], ...]
Points = tuple[tuple[float, float], ...]

# A shop draws its few vessels on many pages: what depends on the vessel alone is remembered.
memo = lru_cache(maxsize=4096)

_LEAST_LEAN = 0.25
"""A rim flatter than this (sine of its lean) gets the wall's own width instead of the slanting cut."""


@memo
def thinned(profile: TurnedProfile, tolerance_mm: float) -> TurnedProfile:
    """The same profile with few points, within a tolerance (the Ramer-Douglas-Peucker algorithm)."""
    if len(profile) < 3:
        return profile
    strays = [_distance(point, profile[0], profile[-1]) for point in profile[1:-1]]
    farthest = max(range(len(strays)), key=strays.__getitem__)
    if strays[farthest] <= tolerance_mm:
        return profile[0], profile[-1]
    split = farthest + 1
    return thinned(profile[: split + 1], tolerance_mm)[:-1] + thinned(profile[split:], tolerance_mm)


def up_to(profile: TurnedProfile, height_mm: float) -> TurnedProfile:
    """The part of a profile below a height, cut level there."""
    kept = [point for point in profile if point[1] < height_mm]
    return (*kept, (radius_at(profile, height_mm), height_mm))


def radius_at(profile: TurnedProfile, height_mm: float) -> float:
    """The radius of a profile at a height; that of its nearer end where the height lies beyond it."""
    for (low_r, low_h), (high_r, high_h) in pairwise(profile):
        if low_h <= height_mm <= high_h and high_h > low_h:
            return low_r + (high_r - low_r) * (height_mm - low_h) / (high_h - low_h)
    return profile[0][0] if height_mm < profile[0][1] else profile[-1][0]


def height_at(profile: TurnedProfile, radius_mm: float) -> float:
    """The height at which a widening profile reaches a radius; the base where it is wider from the start."""
    if radius_mm <= profile[0][0]:
        return profile[0][1]
    return radius_at(tuple((height, radius) for radius, height in profile), radius_mm)


@memo
def outside(profile: TurnedProfile, wall_mm: float) -> TurnedProfile:
    """The outer face of a wall of even thickness around a profile, level with its rim, standing on its base."""
    inner = profile if profile[0][0] == 0 else ((0.0, profile[0][1]), *profile)
    normals = [_normal(low, high) for low, high in pairwise(inner)]
    ground = inner[0][1] - wall_mm
    corners = [
        _moved(point, before, after, wall_mm)
        for point, before, after in zip(inner[1:-1], normals, normals[1:], strict=False)
    ]
    lean = normals[-1][0]
    rim = (inner[-1][0] + wall_mm / (lean if lean > _LEAST_LEAN else 1.0), inner[-1][1])
    faces = [point for point in corners if point[1] < rim[1]]
    return _standing((*faces, rim), ground, round_bottom=profile[0][0] == 0)


def solid(profile: TurnedProfile) -> Points:
    """The section of a body: from the left rim down to the base and up to the right rim."""
    left = tuple((-radius, -height) for radius, height in reversed(profile))
    right = tuple((radius, -height) for radius, height in profile)
    return left + right


def band(inner: TurnedProfile, outer: TurnedProfile) -> Points:
    """The section of a wall: around its outer face and back along its inner one."""
    return solid(outer) + tuple(reversed(solid(inner)))


@memo
def closed_path(points: Points) -> str:
    """The shortest SVG path text of a polygon, in steps of a tenth of a millimetre."""
    tenths = [(round(x * 10), round(y * 10)) for x, y in points]
    steps = [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(tenths)]
    written = f"M{_pair(*tenths[0])}"
    command = "M"
    for step in steps:
        if step != (0, 0):
            letter, numbers = _step(*step)
            repeated = letter == command == "l"
            written += (
                (numbers if numbers.startswith("-") else f" {numbers}") if repeated else letter + numbers
            )
            command = letter
    return f"{written}z"


def short(value: float) -> str:
    """A coordinate to a tenth of a millimetre without needless characters: ``-.5``, ``12``, ``0``."""
    return _short(round(value * 10))


@memo
def _short(tenths: int) -> str:
    text = f"{tenths / 10:g}"
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text


def _step(right_tenths: int, down_tenths: int) -> tuple[str, str]:
    """The shortest command for one step, and its numbers."""
    if down_tenths == 0:
        return "h", _short(right_tenths)
    if right_tenths == 0:
        return "v", _short(down_tenths)
    return "l", _pair(right_tenths, down_tenths)


def _pair(x_tenths: int, y_tenths: int) -> str:
    x, y = _short(x_tenths), _short(y_tenths)
    return f"{x}{y}" if y.startswith("-") else f"{x} {y}"


def _distance(point: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    along = (end[0] - start[0], end[1] - start[1])
    length = hypot(*along)
    away = (point[0] - start[0], point[1] - start[1])
    return abs(along[0] * away[1] - along[1] * away[0]) / length if length else hypot(*away)


def _normal(low: tuple[float, float], high: tuple[float, float]) -> tuple[float, float]:
    length = hypot(high[0] - low[0], high[1] - low[1])
    return (high[1] - low[1]) / length, (low[0] - high[0]) / length


def _moved(
    point: tuple[float, float], before: tuple[float, float], after: tuple[float, float], wall_mm: float
) -> tuple[float, float]:
    """A corner moved out so that both adjacent faces are one wall away."""
    reach = wall_mm / (1 + before[0] * after[0] + before[1] * after[1])
    return point[0] + reach * (before[0] + after[0]), point[1] + reach * (before[1] + after[1])


def _standing(faces: TurnedProfile, ground_mm: float, *, round_bottom: bool) -> TurnedProfile:
    """An outer face set on the ground; a round bottom gets a foot two fifths as wide as its rim."""
    if not round_bottom:
        return faces
    foot = 0.4 * faces[-1][0]
    above = tuple(point for point in faces if point[0] > foot)
    return ((foot, ground_mm), (foot, height_at(faces, foot)), *above)
