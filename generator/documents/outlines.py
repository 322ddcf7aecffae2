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
"""The shade of a candle whose entry names none: wax as it is."""

_WALLS_MM: Final = {
    WallMaterial.GLASS: 3.0,
    WallMaterial.CERAMIC: 5.0,
    WallMaterial.METAL: 0.3,
    WallMaterial.PLAIN: 1.0,
}
CORNERS_OF_HEXAGON: Final = 2 / sqrt(3)
"""How much wider a hexagon is from corner to corner than from flat to flat."""


def outline_of(size: SizeOf, candle: Candle, materials: Sequence[MaterialWords]) -> Outline:
    """One size of a candle as it is drawn; ``materials`` are what its walls and lid are known by, by language."""
    build, facts = size.recorded.build, size.facts
    plan, inside = _plan_and_inside(build.shape.inside, facts.outline_mm)
    material = wall_of(build.container.material if build.container else "", materials)
    # No finer than it is read: the level and the weight together would tell the density of the recipe.
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
    """What the plate says beside its lines."""
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
    """What a container's wall is drawn as, by the words of its material in any language."""
    found = (
        wall for wall in _WALLS_MM if _names(material, (each.walls.get(wall.value, ()) for each in materials))
    )
    return next(found, WallMaterial.PLAIN)


def _names(text: str, languages: Iterable[Sequence[str]]) -> bool:
    """Whether one of the words, given by language, is in a text."""
    return any(word in text.lower() for word in chain.from_iterable(languages))


def thickness_mm(wall: WallMaterial, measured_mm: float | None) -> float:
    """How thick a wall is drawn: as measured, else as such walls usually are."""
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
