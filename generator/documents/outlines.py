"""From a size's facts, recorded shape and container to what its drawings need."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import chain
from math import sqrt
from typing import Final

from generator.documents.house import SizeOf, Words
from generator.documents.printed import at_least, millimetres
from generator.drawing.drawings import LidForm, Outline, PlanView, WallMaterial, wicks_around
from generator.drawing.plates import Dimensions
from generator.drawing.profiles import TurnedProfile, radius_at
from generator.model.candle import Candle
from generator.model.language_tables import MaterialWords
from generator.model.vessel import Hexagon, Lid, Oval, Shape, Square

UNDYED: Final = "#f3ead2"
"""The shade of a candle whose entry names none: undyed wax."""

_WALLS_MM: Final = {
    WallMaterial.GLASS: 3.0,
    WallMaterial.CERAMIC: 5.0,
    WallMaterial.METAL: 0.3,
    WallMaterial.PLAIN: 1.0,
}
CORNERS_OF_HEXAGON: Final = 2 / sqrt(3)
"""The width of a hexagon from corner to corner divided by that from flat to flat."""


def outline_of(size: SizeOf, candle: Candle, materials: Sequence[MaterialWords]) -> Outline:
    """One size of a candle as drawn; ``materials`` are the words for walls and lids, by language."""
    build, facts = size.recorded.build, size.facts
    plan, inside = _plan_and_inside(build.shape.inside, facts.outline_mm)
    material = wall_of(build.container.material if build.container else "", materials)
    # No finer than a drawing is read: level and weight together would reveal the density of the recipe.
    wax = None if facts.level_set_mm is None else round(facts.level_set_mm * 2) / 2
    return Outline(
        inside=inside,
        plan=plan,
        wall_mm=thickness_mm(material, build.wall_mm),
        material=material,
        shade=candle.colour.shade if candle.colour else UNDYED,
        wax_mm=wax,
        stop_mm=facts.stop_depth_mm,
        wicks_mm=wicks_around(facts.wick.count if facts.wick else 0, radius_at(inside, wax or 0.0)),
        wick_mm=facts.wick.trim_mm if facts.wick else 0.0,
        lid=_lid_form(build.lid, materials),
    )


def dimensions_of(outline: Outline, lid: Lid | None, words: Words) -> Dimensions:
    """The texts beside the plate's lines."""
    said, plan = words["candle"], outline.plan
    breadth, depth = millimetres(plan.breadth_mm, words), millimetres(plan.depth_mm, words)
    return Dimensions(
        breadth=None if plan.form == "hexagon" else f"⌀ {breadth}" if plan.form == "round" else breadth,
        depth=depth if plan.form in ("hexagon", "oval") else None,
        height=millimetres(outline.inside[-1][1], words),
        wax=said["plate_wax"].format(height=millimetres(outline.wax_mm, words))
        if outline.wax_mm is not None
        else None,
        stop=said["plate_stop"].format(height=at_least(outline.stop_mm))
        if outline.stop_mm is not None
        else None,
        lid=lid.name if lid else None,
    )


def wall_of(material: str, materials: Sequence[MaterialWords]) -> WallMaterial:
    """How a container's wall is drawn, by the words for its material in any language."""
    found = (
        wall for wall in _WALLS_MM if _names(material, (each.walls.get(wall.value, ()) for each in materials))
    )
    return next(found, WallMaterial.PLAIN)


def _names(text: str, languages: Iterable[Sequence[str]]) -> bool:
    """Whether a text contains one of the words, which are given by language."""
    return any(word in text.lower() for word in chain.from_iterable(languages))


def thickness_mm(wall: WallMaterial, measured_mm: float | None) -> float:
    """The thickness of a drawn wall: as measured, else as is usual for such walls."""
    return _WALLS_MM[wall] if measured_mm is None else measured_mm


@lru_cache(maxsize=1024)
def _plan_and_inside(shape: Shape, outline_mm: TurnedProfile) -> tuple[PlanView, TurnedProfile]:
    """The inside from above, and its half section as wide as the plan is."""
    widest_mm = max(radius for radius, _ in outline_mm)
    plan = _plan(shape, 2 * widest_mm)
    widened = plan.breadth_mm / 2 / widest_mm
    return plan, tuple((radius * widened, height) for radius, height in outline_mm)


def _plan(shape: Shape, widest_mm: float) -> PlanView:
    """The inside from above; a hexagon is turned so that the section runs from corner to corner."""
    if isinstance(shape, Hexagon):
        return PlanView(form="hexagon", breadth_mm=widest_mm * CORNERS_OF_HEXAGON, depth_mm=widest_mm)
    if isinstance(shape, Square):
        return PlanView(form="square", breadth_mm=widest_mm, depth_mm=widest_mm, corner_mm=shape.corner_mm)
    if isinstance(shape, Oval):
        return PlanView(
            form="oval", breadth_mm=widest_mm, depth_mm=widest_mm * shape.short_mm / shape.long_mm
        )
    return PlanView(form="round", breadth_mm=widest_mm, depth_mm=widest_mm)


def _lid_form(lid: Lid | None, materials: Sequence[MaterialWords]) -> LidForm | None:
    if lid is None:
        return None
    return LidForm.PLUG if _names(lid.name, (each.lids["plug"] for each in materials)) else LidForm.CAP
