"""Candles drawn to scale as SVG: one user unit is a millimetre, and the drawing's ``1em`` is a centimetre.

The surrounding font size sets a drawing's scale, on screen (``font-size: 11px``) and on paper
(``font-size: 5mm`` is half size), and drawings side by side are always to the same scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from html import escape
from math import cos, pi, sin
from typing import Final, Literal

from generator.drawing.contrast import LIGHT
from generator.drawing.profiles import (
    Points,
    TurnedProfile,
    band,
    closed_path,
    memo,
    outside,
    short,
    solid,
    thinned,
    up_to,
)

MM_PER_EM: Final = 10
"""Millimetres in one em of a drawing's width and height."""

_GAP_MM: Final = 12
_LID_LIFT_MM: Final = 4
_CAP_MM: Final = 9
_CAP_OVERHANG_MM: Final = 2.0
_PLUG_MM: Final = 14
_PLUG_FLARE: Final = 1.03
_TOLERANCE_MM: Final = 0.3
_WICK_MM: Final = 1.6


class WallMaterial(Enum):
    """How a wall is drawn: clear and thin, hatched, one bold line, or a plain line."""

    GLASS = "glass"
    CERAMIC = "ceramic"
    METAL = "metal"
    PLAIN = "plain"


class LidForm(Enum):
    """A lid that goes over the rim, or one that goes into it."""

    CAP = "cap"
    PLUG = "plug"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The inside from above at its widest: breadth as in the section, depth away from the reader."""

    form: Literal["round", "hexagon", "square", "oval"] = "round"
    breadth_mm: float
    depth_mm: float
    corner_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """All that a drawing of one candle needs.

    ``inside`` is (radius, height) pairs from base to rim; ``wax_mm`` and ``stop_mm`` are heights above the inside
    of the base; ``wicks_mm`` are positions in the plan, from its middle; ``wick_mm`` is a wick's height above the wax.
    """

    inside: TurnedProfile
    plan: PlanView
    wall_mm: float
    material: WallMaterial
    shade: str
    wax_mm: float | None = None
    stop_mm: float | None = None
    wicks_mm: tuple[tuple[float, float], ...] = ()
    wick_mm: float = 6.0
    lid: LidForm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """Colours and line weights; by default those of the page, so a drawing follows its scheme."""

    line: str = "currentColor"
    quiet: str = "var(--quiet)"
    accent: str = "var(--accent)"
    weight_mm: float = 0.8


_CARD_WALLS: Final = {
    WallMaterial.GLASS: "#a39a8a",
    WallMaterial.CERAMIC: "#7a6f60",
    WallMaterial.METAL: LIGHT.ink,
    WallMaterial.PLAIN: LIGHT.quiet,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """A drawing's name (unique on its page, the start of its ids) and its text alternative."""

    name: str
    title: str
    description: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """A drawing included once on a page and shown in many places; its size is in em."""

    name: str
    symbol: str
    width: str
    height: str


@dataclass(frozen=True, slots=True)
class Box:
    """A drawing's bounds in its own millimetres."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, eq=False)
class Body:
    """One candle with the faces of its wall; one object for each outline, compared by identity."""

    outline: Outline
    inner: TurnedProfile
    outer: TurnedProfile

    @cached_property
    def half_breadth_mm(self) -> float:
        """From the middle to the outermost point."""
        return max(radius for radius, _ in self.outer)

    @cached_property
    def reach_mm(self) -> float:
        """The same, including a lid wider than the rim."""
        lid = {
            None: 0.0,
            LidForm.CAP: self.outer[-1][0] + _CAP_OVERHANG_MM,
            LidForm.PLUG: self.inner[-1][0] * _PLUG_FLARE,
        }
        return max(self.half_breadth_mm, lid[self.outline.lid])

    @property
    def rim_mm(self) -> float:
        """The rim's height above the inside of the base."""
        return self.inner[-1][1]

    @cached_property
    def top_mm(self) -> float:
        """The highest point: rim, wick or lifted lid."""
        wax, wick = self.outline.wax_mm or 0.0, self.outline.wick_mm if self.outline.wicks_mm else 0.0
        lid = {None: 0.0, LidForm.CAP: _LID_LIFT_MM + 1.5, LidForm.PLUG: _LID_LIFT_MM + _PLUG_MM}
        return max(wax + wick, self.rim_mm + lid[self.outline.lid])


@memo
def body_of(outline: Outline, tolerance_mm: float) -> Body:
    """A candle's faces, with the fewest points that keep them within a tolerance."""
    inner = thinned(outline.inside, tolerance_mm)
    return Body(outline, inner, outside(inner, outline.wall_mm))


def shelf(outlines: Sequence[Outline], caption: Caption, height_mm: float | None = None) -> str:
    """Candles side by side on a shelf line; ``height_mm`` makes a shelf of smaller candles as high as others."""
    bodies = [body_of(outline, _TOLERANCE_MM) for outline in outlines]
    drawn, x = [], 0.0
    for number, body in enumerate(bodies):
        x += body.reach_mm
        picture = section(body, f"{caption.name}{number}", Pen())
        drawn.append(f'<g transform="translate({short(x)} {short(-body.outline.wall_mm)})">{picture}</g>')
        x += body.reach_mm + _GAP_MM
    width = x - _GAP_MM
    height = height_mm or standing_height_mm(outlines)
    line = Pen().line
    ground = f'<path d="M-999 .4H1999" stroke="{line}" stroke-width=".8"/>'
    return svg(Box(-1, -height - 1, width + 2, height + 2), caption, "".join(drawn) + ground)


def stamp(outline: Outline, name: str) -> Symbol:
    """One candle as a symbol with a name unique on its page, without the shelf line."""
    body = body_of(outline, _TOLERANCE_MM)
    width, height = 2 * body.reach_mm + 2, body.top_mm + outline.wall_mm + 2
    view = " ".join(short(edge) for edge in (-body.reach_mm - 1, -body.top_mm - 1, width, height))
    content = section(body, name, Pen())
    return Symbol(
        name=name,
        symbol=f'<symbol id="{escape(name)}" viewBox="{view}" fill="none">{content}</symbol>',
        width=f"{width / MM_PER_EM:.4g}em",
        height=f"{height / MM_PER_EM:.4g}em",
    )


def standing_height_mm(outlines: Sequence[Outline]) -> float:
    """The height of the tallest candle above the shelf, lids lifted."""
    return max(body_of(outline, _TOLERANCE_MM).top_mm + outline.wall_mm for outline in outlines)


def section(body: Body, name: str, pen: Pen) -> str:
    """One candle cut through the middle, the inside of its base at the origin."""
    return _section(body, name if body.outline.material is WallMaterial.CERAMIC else None, pen)


@memo
def _section(body: Body, hatch: str | None, pen: Pen) -> str:
    """The same; only a hatched wall depends on the name of its drawing."""
    outline = body.outline
    wax = outline.wax_mm
    thin = short(pen.weight_mm * 0.6)
    parts = [] if wax is None else [_wax(body, wax, pen)]
    parts.append(_wall(body, hatch, pen))
    if outline.plan.form == "hexagon":
        edge = f"v{short(-body.rim_mm)}"
        quarter = short(outline.plan.breadth_mm / 4)
        path = f"M-{quarter} 0{edge}M{quarter} 0{edge}"
        parts.append(f'<path d="{path}" stroke="{pen.line}" stroke-width="{thin}" opacity=".4"/>')
    if wax is not None and outline.wicks_mm:
        path = "".join(f"M{short(x)} {short(-wax)}v{short(-outline.wick_mm)}" for x, _ in outline.wicks_mm)
        parts.append(f'<path d="{path}" stroke="{pen.line}" stroke-width="{short(pen.weight_mm * 2)}"/>')
    if outline.lid is not None:
        lid = closed_path(_lid(body, outline.lid))
        parts.append(f'<path d="{lid}" fill="none" stroke="{pen.line}" stroke-width="{thin}"/>')
    return "".join(parts)


def svg(box: Box, caption: Caption, content: str) -> str:
    """A whole drawing with its text alternative."""
    name = escape(caption.name)
    told = f'<desc id="{name}-d">{escape(caption.description)}</desc>' if caption.description else ""
    described = f' aria-describedby="{name}-d"' if caption.description else ""
    view = " ".join(short(value) for value in (box.left, box.top, box.width, box.height))
    size = f'width="{box.width / MM_PER_EM:.4g}em" height="{box.height / MM_PER_EM:.4g}em"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="{view}" role="img" '
        f'aria-labelledby="{name}-t"{described} fill="none"><title id="{name}-t">{escape(caption.title)}</title>'
        f"{told}{content}</svg>"
    )


def card_shapes(outline: Outline) -> tuple[tuple[Points, str, str | None], ...]:
    """The same candle for a picture painted elsewhere: wall, inside, wax and wicks.

    Each is a polygon in millimetres, y upwards from the shelf, with its fill and its stroke.
    """
    body = body_of(outline, _TOLERANCE_MM)
    shapes: list[tuple[Points, str, str | None]] = [
        (solid(body.outer), _CARD_WALLS[outline.material], None),
        (solid(body.inner), LIGHT.paper, None),
    ]
    if outline.wax_mm is not None:
        wax = outline.wax_mm
        shapes.append((solid(up_to(body.inner, wax)), outline.shade, LIGHT.ink))
        wicks = (_bar(x, -wax - outline.wick_mm, _WICK_MM, outline.wick_mm) for x, _ in outline.wicks_mm)
        shapes.extend((wick, LIGHT.ink, None) for wick in wicks)
    return tuple((_upright(points, outline.wall_mm), fill, stroke) for points, fill, stroke in shapes)


def _upright(points: Points, wall_mm: float) -> Points:
    return tuple((x, wall_mm - y) for x, y in points)


def _bar(middle: float, top: float, width: float, height: float) -> Points:
    left, right = middle - width / 2, middle + width / 2
    return (left, top), (right, top), (right, top + height), (left, top + height)


def _wax(body: Body, level_mm: float, pen: Pen) -> str:
    path = closed_path(solid(up_to(body.inner, level_mm)))
    line = f'stroke="{pen.line}" stroke-width="{short(pen.weight_mm * 0.7)}"'
    return f'<path d="{path}" fill="{body.outline.shade}" {line}/>'


def _wall(body: Body, hatch: str | None, pen: Pen) -> str:
    """The cut wall: hatched stoneware, bold tin, clear glass."""
    path = closed_path(band(body.inner, body.outer))
    line = f'stroke="{pen.line}" stroke-width="{short(pen.weight_mm)}"'
    if hatch is not None:
        return (
            f'<pattern id="{escape(hatch)}-h" width="2.4" height="2.4" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate(45)"><path d="M0 0v2.4" {line}/></pattern>'
            f'<path d="{path}" fill="url(#{escape(hatch)}-h)" {line}/>'
        )
    if body.outline.material is WallMaterial.METAL:
        return f'<path d="{path}" fill="{pen.line}" stroke="{pen.line}" stroke-width="{short(pen.weight_mm * 1.4)}"/>'
    if body.outline.material is WallMaterial.GLASS:
        return f'<path d="{path}" fill="{pen.line}" fill-opacity=".1" {line}/>'
    return f'<path d="{path}" {line}/>'


def _lid(body: Body, form: LidForm) -> Points:
    """A lid lifted off its rim; its height is not recorded, only drawn."""
    lifted = -body.rim_mm - _LID_LIFT_MM
    if form is LidForm.PLUG:
        inner = body.inner[-1][0]
        top, bottom = inner * _PLUG_FLARE, inner * 0.95
        return (-top, lifted - _PLUG_MM), (top, lifted - _PLUG_MM), (bottom, lifted), (-bottom, lifted)
    thick = _CAP_OVERHANG_MM / 2
    half = body.outer[-1][0] + thick
    skirt, top = lifted + _CAP_MM - 1.5, lifted - 1.5
    return (
        (-half - thick, skirt), (-half - thick, top), (half + thick, top), (half + thick, skirt),
        (half, skirt), (half, top + thick), (-half, top + thick), (-half, skirt),
    )  # fmt: skip


def wicks_around(count: int, radius_mm: float) -> tuple[tuple[float, float], ...]:
    """Positions of wicks in the plan: one in the middle, several evenly spaced on a ring half way out."""
    if count < 2:
        return ((0.0, 0.0),) * count
    first = -pi / 2 if count % 2 else pi / count - pi / 2
    angles = (first + 2 * pi * number / count for number in range(count))
    return tuple(sorted((radius_mm / 2 * cos(angle), radius_mm / 2 * sin(angle)) for angle in angles))
