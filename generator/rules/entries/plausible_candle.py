"""What may be true of one candle but rarely is: each may be accepted with a reason."""

import re
from collections.abc import Iterator
from decimal import Decimal
from math import pi, sqrt
from typing import Final

from generator.model.accepted import check_of
from generator.model.kinds import KINDS
from generator.model.recorded import Build, Recorded, Role
from generator.model.vessel import Vessel
from generator.problems import Fault, warning
from generator.rules.wax.blend import Blend
from generator.rules.wax.fill import FillResult
from generator.rules.wax.geometry import diameter_mm, height_mm, widest_mm
from generator.rules.wax.portions import Ingredient

LEAST_PART: Final = Decimal("0.001")
"""A wax or an oil below this share of all wax is in the wrong unit (CHOICE: units of mass differ 1000-fold)."""

MOST_OF_WAX: Final = {Role.ADDITIVE: Decimal("0.5"), Role.DYE: Decimal("0.05")}
"""More of these beside the wax is a slip: hardeners are used up to about 0.3, dyes up to about 0.002 (common practice,
no source; the bounds CHOICE)."""

LEAST_HEADSPACE_MM: Final = 3.0
"""Wax nearer to the rim than this spills when handled or lidded, and its flame is unshielded (common practice is 5
to 15 mm, no source; the bound CHOICE)."""

LEAST_APART_MM: Final = 25.0
"""Diameter of the circle that each of several wicks has to itself; nearer flames melt together (CHOICE, on the rule of
one hour an inch, standards.md B4)."""

HEAVIEST_CASE_G: Final = 25_000.0
"""What one person lifts in good conditions, by the guideline of the British safety authority (HSE INDG143, MEMORY)."""

BURNS: Final = re.compile(
    r"(?<!\w)(?:plastics?|acrylic|polymers?|resin|silicone|P(?:ET|P|E|S|VC|LA)|ABS|wood(?:en)?|timber|bamboo|cork|paper"
    r"|card(?:board)?|\w*kunststoff|plastik|acryl|silikon|\w*harz|\w*holz|bambus|kork|papier|\w*pappe|karton"
    r"|plastique|acrylique|résine|bois|bambou|liège|carton)(?!\w)",
    re.IGNORECASE,
)
"""Materials that a flame melts or lights, in the languages of the site (common practice, no source)."""


MOST_IN_SIX_DIGITS: Final = 100_000
"""Grams from which no fraction is shown, so that six digits never turn into exponent form."""


def candle_doubts(recorded: Recorded, blend: Blend, filled: FillResult) -> Iterator[Fault]:
    """Everything doubtful about one stock code; paths begin at `Recorded`."""
    yield from _masses(blend)
    kind, vessel = KINDS[recorded.kind], recorded.build.container
    if kind.has_flame and vessel is not None:
        yield from _burning_vessel(vessel)
        yield from _headspace(vessel, filled)
    if kind.has_flame:
        yield from _crowded_wicks(recorded.build, filled)
    yield from _case_room(recorded)
    yield from _case_weight(recorded, filled)


def _masses(blend: Blend) -> Iterator[Fault]:
    """Parts that a wrong unit would explain; additives and dyes may be traces, and can only be too much."""
    for part in blend.parts:
        share = part.grams / blend.wax_g
        if part.role in (Role.WAX, Role.FRAGRANCE) and share < LEAST_PART:
            yield _mass(part, blend, f"less than a thousandth of its {_grams(blend.wax_g)} of wax")
        if share > MOST_OF_WAX.get(part.role, share):
            yield _mass(part, blend, f"beside {_grams(blend.wax_g)} of wax")


def _grams(mass_g: Decimal) -> str:
    """Grams in plain digits, even for a tonne."""
    return f"{float(mass_g):.6g} g" if mass_g < MOST_IN_SIX_DIGITS else f"{mass_g:.0f} g"


def _mass(part: Ingredient, blend: Blend, beside: str) -> Fault:
    heaviest = max(blend.parts, key=lambda each: each.grams)
    both = f"correct {part.id} to what the scale shows, with its unit"
    if heaviest is not part:
        both = f"correct {part.id} and {heaviest.id} to what the scale shows, each with its unit"
    return warning(
        path=("formula", part.id),
        what=f"{part.id} is {_grams(part.grams)}, {beside}",
        why="one of the two may be in the wrong unit, and every figure of the candle depends on it",
        fix=both,
        check=check_of("masses", part.id),
    )


def _burning_vessel(vessel: Vessel) -> Iterator[Fault]:
    found = BURNS.search(vessel.material)
    if found is not None:
        yield warning(
            path=("vessel", "material"),
            what=f"material is '{vessel.material}', and a candle burns in {vessel.name}",
            why=f"a flame melts or ignites {found[0]}, and burning wax runs out",
            fix="use a vessel of glass, metal or ceramic; or kind: melt, where nothing burns in it",
            check="burning-vessel",
        )


def _headspace(vessel: Vessel, filled: FillResult) -> Iterator[Fault]:
    free_mm = height_mm(vessel.inside) - filled.level_set_mm
    if free_mm < LEAST_HEADSPACE_MM:
        yield warning(
            path=("fill",),
            what=f"the wax ends {max(free_mm, 0.0):.1f} mm below the rim of {vessel.name}",
            why=(
                "molten wax spills at a touch, the flame is exposed to draughts, and a lid touches the wick"
            ),
            fix="fill: {below_rim: ... mm, level: set}, as measured on a finished candle",
            check="headspace",
        )


def _crowded_wicks(build: Build, filled: FillResult) -> Iterator[Fault]:
    across_mm = diameter_mm(build.shape.inside, filled.level_set_mm)
    wicks = sum(use.count for use in build.wicks)
    if wicks > 1 and across_mm / sqrt(wicks) < LEAST_APART_MM:
        yield warning(
            path=("wick",),
            what=f"{wicks} wicks in a {'vessel' if build.container else 'candle'} of {across_mm:.0f} mm",
            why="flames so close together merge into one tall flame that overheats "
            f"{'the vessel' if build.container else 'whatever is near'}",
            fix="wick: {...: ...} (the wick, and how many of it one candle has)",
            check="crowded-wicks",
        )


def _case_room(recorded: Recorded) -> Iterator[Fault]:
    """A case certainly too small: lower than a candle lying or standing, or smaller than the candles' volume."""
    cased, inside = recorded.cased, recorded.build.shape.inside
    if cased is None:
        return
    wide_mm, high_mm = widest_mm(inside) + 2 * (recorded.build.wall_mm or 0.0), height_mm(inside)
    room_mm3 = cased.size[0] * cased.size[1] * cased.size[2]
    taken_mm3 = (recorded.case or 1) * pi / 4 * wide_mm**2 * high_mm
    if min(cased.size) < min(wide_mm, high_mm) or room_mm3 < taken_mm3:
        yield warning(
            path=("cased", "size"),
            what=(
                f"a case of {' by '.join(f'{side:g}' for side in cased.size)} mm does not "
                f"fit {recorded.case or 1} of {wide_mm:.0f} mm by {high_mm:.0f} mm"
            ),
            why="shops and carriers rely on the size of a case",
            fix="size: [... mm, ... mm, ... mm], the outside of the carton; or case: how many it holds",
            check="case-room",
        )


def _case_weight(recorded: Recorded, filled: FillResult) -> Iterator[Fault]:
    """A lower bound: without what was not weighed."""
    container = recorded.build.container
    container_g = (container.weight_g if container else None) or 0.0
    least_g = (recorded.case or 0) * (filled.computed_g + container_g)
    if least_g > HEAVIEST_CASE_G:
        yield warning(
            path=("trade", "case"),
            what=f"a case of {recorded.case} weighs at least {least_g / 1000:.0f} kg",
            why=f"one person lifts {HEAVIEST_CASE_G / 1000:g} kg at most, so there may be a digit too many",
            fix="case: ... (how many come in one carton)",
            check="case-weight",
        )
