"""Whether a vessel's measurements can be true: faults with paths inside the vessel's entry."""

from collections.abc import Iterator
from dataclasses import fields
from functools import lru_cache
from itertools import pairwise
from typing import Final

from generator.model.entry import entry_key
from generator.model.vessel import Bowl, Profile, Rounded, Shape, Square, WaxShape
from generator.problems import Fault, Severity, is_error, warning
from generator.rules.wax.geometry import SHAPES_KEPT, total_ml, widest_mm

BRIMFUL_DIFFERS_PERCENT: Final = 8.0
"""Above this, shape and measured brimful are questioned. A ruler that is 1 mm off makes 3.4 % of a diameter of 60 mm
and 1.4 % of a height of 70 mm, an unmeasured round corner of 10 mm another 1.5 %: 6 % in total (COMPUTED;
the bound CHOICE)."""

BRIMFUL_BEYOND_PERCENT: Final = 40.0
"""Above this no thick wall or measuring slip explains it, so nothing is calculated from either (CHOICE)."""

_MAY_BE_ZERO: Final = "corner_mm"
_WAX_WHY: Final = "the wax weight, and every weight printed from it, is calculated from the inside"


@lru_cache(maxsize=SHAPES_KEPT)
def wax_shape_faults(measured: WaxShape) -> tuple[Fault, ...]:
    """What cannot be true of the measurements, or is unlikely; paths as in ``("inside", "points", 3, 0)``."""
    wrong_shape = tuple(shape_faults(measured.inside))
    if any(is_error(fault) for fault in wrong_shape):
        return wrong_shape
    return (*wrong_shape, *_content_faults(measured))


def shape_faults(shape: Shape) -> Iterator[Fault]:
    """What cannot be true of a shape by itself."""
    if isinstance(shape, Profile):
        yield from _profile_faults(shape)
        return
    sizeless = tuple(_sizeless(shape))
    yield from sizeless
    if sizeless:
        return
    if isinstance(shape, Rounded | Square):
        yield from _corner_faults(shape)
    if isinstance(shape, Bowl):
        yield from _bowl_faults(shape)


def _sizeless(shape: Shape) -> Iterator[Fault]:
    for field in fields(shape):
        size = getattr(shape, field.name)
        if field.name in ("shape", _MAY_BE_ZERO) or size > 0:
            continue
        key = entry_key(field.name)
        yield Fault(
            path=("inside", key),
            what=f"{key} is {size:g} mm",
            why="a vessel of no size holds no wax",
            fix=f"{key}: as measured inside",
        )


def _corner_faults(shape: Rounded | Square) -> Iterator[Fault]:
    if isinstance(shape, Rounded):
        most_mm, bound = min((shape.diameter_mm / 2, "half the diameter"), (shape.height_mm, "the height"))
    else:
        most_mm, bound = shape.side_mm / 2, "half the side"
    if shape.corner_mm > most_mm:
        yield Fault(
            path=("inside", "corner"),
            what=f"corner {shape.corner_mm:g} mm is more than {bound}, {most_mm:g} mm",
            why=_WAX_WHY,
            fix=f"corner: at most {most_mm:g} mm",
        )


def _bowl_faults(shape: Bowl) -> Iterator[Fault]:
    """Beyond half a sphere the formulas still hold, but such a vessel is rare and a typing error is not."""
    if shape.height_mm > shape.rim_mm / 2:
        yield warning(
            path=("inside", "height"),
            what=f"height {shape.height_mm:g} mm is more than half the rim, {shape.rim_mm / 2:g} mm",
            why=(
                f"such a bowl is widest below its rim, {widest_mm(shape):.0f} mm; if it is "
                "not, its wax weight is wrong"
            ),
            fix=f"height: at most {shape.rim_mm / 2:g} mm, or shape: profile with measured points",
            check="deep-bowl",
        )


def _profile_faults(shape: Profile) -> Iterator[Fault]:
    if len(shape.points) < 2:
        yield Fault(
            path=("inside", "points"),
            what=f"the profile has {len(shape.points)} point",
            why="a shape needs at least a base and a rim",
            fix="points: [[0 mm, ... mm], [... mm, ... mm]]",
        )
        return
    if shape.points[0][0] != 0:
        yield Fault(
            path=("inside", "points", 0, 0),
            what=f"the first height is {shape.points[0][0]:g} mm, not 0 mm",
            why=_WAX_WHY,
            fix="the first point at the base: [0 mm, diameter there]",
        )
    yield from _height_faults(shape)
    yield from _diameter_faults(shape)


def _height_faults(shape: Profile) -> Iterator[Fault]:
    for place, ((below_mm, _), (height_mm, _)) in enumerate(pairwise(shape.points), start=1):
        if height_mm <= below_mm:
            yield Fault(
                path=("inside", "points", place, 0),
                what=f"height {height_mm:g} mm is not above the point before it, {below_mm:g} mm",
                why=_WAX_WHY,
                fix="list the points from the base up, each height once",
            )


def _diameter_faults(shape: Profile) -> Iterator[Fault]:
    """Only the very bottom may come to a point."""
    for place, (height_mm, diameter_mm) in enumerate(shape.points):
        if diameter_mm < 0 or (diameter_mm == 0 and place > 0):
            yield Fault(
                path=("inside", "points", place, 1),
                what=f"the diameter at height {height_mm:g} mm is {diameter_mm:g} mm",
                why="a vessel must be open above its base, or no wax could be poured in",
                fix=f"[{height_mm:g} mm, the inside diameter measured there]",
            )


def _content_faults(measured: WaxShape) -> Iterator[Fault]:
    computed_ml = total_ml(measured.inside)
    if measured.brimful_ml == 0:
        yield Fault(
            path=("brimful",),
            what="brimful is 0 ml",
            why="a vessel that holds nothing holds no wax",
            fix=f"brimful: as measured with water; by its shape it is {computed_ml:.0f} ml",
        )
        return
    holds_ml = measured.brimful_ml or computed_ml
    off_percent = abs(holds_ml / computed_ml - 1) * 100
    if off_percent > BRIMFUL_DIFFERS_PERCENT:
        beyond_all = off_percent > BRIMFUL_BEYOND_PERCENT
        most_percent = BRIMFUL_BEYOND_PERCENT if beyond_all else BRIMFUL_DIFFERS_PERCENT
        yield Fault(
            path=("brimful",),
            what=(
                f"brimful {holds_ml:.0f} ml is more than {most_percent:g} % off the {computed_ml:.0f} "
                "ml of the shape"
            ),
            why="one of the two is wrong, and so is the wax weight",
            fix="measure brimful and the inside again",
            severity=Severity.ERROR if beyond_all else Severity.WARNING,
            check="brimful",
        )
    if measured.displaced_ml is not None and measured.displaced_ml >= holds_ml:
        yield Fault(
            path=("displaced",),
            what=(
                f"displaced {measured.displaced_ml:g} ml is as much as the vessel holds, {holds_ml:.0f} ml"
            ),
            why="there would be no room for wax",
            fix="displaced: the volume of wick and holder, about 0.5 to 1 ml",
        )
