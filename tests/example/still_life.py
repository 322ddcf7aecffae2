"""Paints one candle, drawn to scale from its measurements, on a table by a window."""

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from PIL import Image, ImageChops, ImageDraw

from tests.example.painting import (
    FINE,
    HEIGHT,
    WIDTH,
    Point,
    Rgb,
    area,
    blurred,
    disc,
    fainter,
    gradient,
    grain,
    lay,
    line,
    lit,
    mix,
    shine,
)

Outline = tuple[tuple[float, float], ...]
"""Heights and diameters of a vessel's outside, in mm, from the foot up."""
Paint = Callable[[Point], tuple[int, ...]]
"""The colour of a wall by the way it looks, in plan: right, and towards us."""

TABLE_EDGE: Final = int(0.635 * HEIGHT)
TILT: Final = 0.235  # How round a circle lying on the table looks: its height over its width.
LIGHT: Final = (-0.80, 0.60)  # In plan: from the window on the left, and a little from the front.
WARM: Final = (255, 190, 110)
FLOOR: Final = 5.0  # Thickness of a glass's foot, mm.


@dataclass(frozen=True, slots=True, kw_only=True)
class Hour:
    """The light of one hour: colours of sky, wall and table, and how strongly the flame tells."""

    sky_high: Rgb
    sky_low: Rgb
    sea: Rgb
    wall_lit: Rgb
    wall_dim: Rgb
    frame: Rgb
    table_lit: Rgb
    table_dim: Rgb
    flame_glow: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """A vessel's outline and wall in mm, its material (glass, tin, stoneware) and its number of sides."""

    outline: Outline
    wall: float
    material: str
    body: Rgb = (230, 236, 236)
    sides: int = 240
    turned: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One picture: an hour, a vessel, its wax up to a level in mm, its wicks, and where it stands."""

    file: str
    hour: Hour
    vessel: Vessel
    wax: Rgb
    level: float
    wicks: tuple[Point, ...] = ((0.0, 0.0),)
    lid: Vessel | None = None
    centre: float = 0.56
    base: float = 0.815
    px_per_mm: float = 5.1

    @property
    def scale(self) -> float:
        """Pixels of the large picture per mm."""
        return self.px_per_mm * FINE

    @property
    def rim(self) -> float:
        """Height of the rim, mm."""
        return self.vessel.outline[-1][0]


def still_life(scene: Scene) -> Image.Image:
    """The whole picture, finished."""
    picture = _room(scene)
    if scene.lid is not None:
        _lid(picture, scene, scene.lid)
    _shadows(picture, scene)
    if scene.vessel.material == "glass":
        _glass_candle(picture, scene)
    else:
        _opaque_candle(picture, scene)
    _glow(picture, scene)
    return _finished(picture, scene)


def _room(scene: Scene) -> Image.Image:
    hour = scene.hour
    picture = gradient((WIDTH, HEIGHT), hour.wall_lit, hour.wall_dim, across=True)
    _window(picture, hour)
    picture = blurred(picture, 15 * FINE)
    whole = picture.copy()
    whole.paste(_table(scene), (0, TABLE_EDGE))
    below = area([(0, TABLE_EDGE), (WIDTH, TABLE_EDGE), (WIDTH, HEIGHT), (0, HEIGHT)], 2 * FINE)
    picture.paste(whole, (0, 0), below)
    _daylight(picture, hour)
    return picture


def _window(picture: Image.Image, hour: Hour) -> None:
    left, top, right, bottom = (edge * FINE for edge in (-60, 90, 520, 830))
    draw = ImageDraw.Draw(picture)
    jamb, bar = 34 * FINE, 9 * FINE
    draw.rectangle((left - jamb, top - jamb, right + jamb, bottom + jamb), fill=hour.frame)
    picture.paste(gradient((right - left, bottom - top), hour.sky_high, hour.sky_low), (left, top))
    draw.rectangle((left, top + 0.74 * (bottom - top), right, bottom), fill=hour.sea)
    thin = mix(hour.frame, hour.sky_low, 0.25)
    across, down = top + 0.43 * (bottom - top), left + 0.52 * (right - left)
    draw.rectangle((left, across - bar, right, across + bar), fill=thin)
    draw.rectangle((down - bar, top, down + bar, bottom), fill=thin)
    sill = (left, bottom + jamb, right + 80 * FINE, bottom + jamb + 26 * FINE)
    draw.rectangle(sill, fill=lit(hour.frame, 1.12))


def _table(scene: Scene) -> Image.Image:
    size, hour = (WIDTH, HEIGHT - TABLE_EDGE), scene.hour
    table = gradient(size, hour.table_lit, hour.table_dim, across=True)
    rows = grain(size, (420 * FINE, 3 * FINE), "rows of " + scene.file)
    pores = grain(size, (60 * FINE, FINE), "pores of " + scene.file)
    table.paste(lit(hour.table_dim, 0.62), (0, 0, *size), fainter(Image.blend(rows, pores, 0.35), 0.16))
    haze = gradient(size, (255, 255, 255), (0, 0, 0)).convert("L")
    table.paste(hour.wall_lit, (0, 0, *size), fainter(haze, 0.2))
    return table


def _daylight(picture: Image.Image, hour: Hour) -> None:
    top, low = TABLE_EDGE + 0.05 * HEIGHT, TABLE_EDGE + 0.25 * HEIGHT
    for near, far in ((0.02, 0.20), (0.24, 0.44)):
        corners = [(near, top), (far, top), (far + 0.30, low), (near + 0.26, low)]
        pane = area([(x * WIDTH, y) for x, y in corners], 24 * FINE)
        shine(picture, pane, hour.sky_low, 0.26)


def _ring(scene: Scene, height: float, diameter: float) -> list[Point]:
    """A level cut through the vessel as it looks on the picture, counted round from the right."""
    vessel = scene.vessel
    radius = diameter / 2 * scene.scale / math.cos(math.pi / vessel.sides)  # Sides are measured flat to flat.
    x, y = scene.centre * WIDTH, scene.base * HEIGHT - height * scene.scale
    turns = [2 * math.pi * side / vessel.sides + vessel.turned for side in range(vessel.sides)]
    return [(x + radius * math.cos(turn), y + radius * math.sin(turn) * TILT) for turn in turns]


def _level_mask(scene: Scene, height: float, narrower: float = 0.0, blur: float = 0.0) -> Image.Image:
    return area(_ring(scene, height, _width_at(scene.vessel.outline, height) - narrower), blur)


def _width_at(outline: Outline, height: float) -> float:
    for (low, narrow), (high, wide) in itertools.pairwise(outline):
        if height <= high:
            return narrow + (wide - narrow) * max(0.0, height - low) / (high - low)
    return outline[-1][1]


def _cut(outline: Outline, low: float, high: float, thinner: float = 0.0) -> Outline:
    """The part of an outline between two heights, drawn in by the wall's thickness."""
    heights = [low + (high - low) * step / 40 for step in range(41)]
    return tuple((height, _width_at(outline, height) - 2 * thinner) for height in heights)


def _walls(scene: Scene, outline: Outline, paint: Paint, *, front: bool = True) -> Image.Image:
    """The sides between the rings of an outline, those that look at us or those that look away."""
    layer = Image.new("RGBA", (WIDTH, HEIGHT))
    draw = ImageDraw.Draw(layer)
    sides = scene.vessel.sides
    rings = [_ring(scene, height, diameter) for height, diameter in outline]
    for side in range(sides):
        turn = 2 * math.pi * (side + 0.5) / sides + scene.vessel.turned
        if (math.sin(turn) >= 0) is not front:
            continue
        colour, after = paint((math.cos(turn), math.sin(turn))), (side + 1) % sides
        for low, high in itertools.pairwise(rings):
            draw.polygon([low[side], low[after], high[after], high[side]], fill=colour)
    return layer


def _matt(colour: Rgb, dim: float, bright: float) -> Paint:
    """Wax and clay: bright towards the window, dim away from it."""

    def paint(looks: Point) -> tuple[int, ...]:
        towards = max(0.0, looks[0] * LIGHT[0] + looks[1] * LIGHT[1])
        return (*lit(colour, dim + (bright - dim) * towards), 255)

    return paint


def _polished(colour: Rgb) -> Paint:
    """Bare metal: bands of the window and of the dark room."""

    def paint(looks: Point) -> tuple[int, ...]:
        window = math.exp(-(((looks[0] + 0.55) / 0.16) ** 2))
        room = math.exp(-(((looks[0] - 0.15) / 0.22) ** 2))
        far = math.exp(-(((looks[0] - 0.78) / 0.10) ** 2))
        return (*lit(colour, 0.66 + 0.75 * window - 0.20 * room + 0.30 * far), 255)

    return paint


def _glassy(vessel: Vessel, edge: int, clear: int) -> Paint:
    """Glass: clear where it faces us, denser where we look along it; flat panes are clear throughout."""
    dense = edge if vessel.sides > 12 else edge // 3

    def paint(looks: Point) -> tuple[int, ...]:
        along = abs(looks[0]) ** 7
        return (*mix(vessel.body, (120, 130, 132), along), round(clear + (dense - clear) * along))

    return paint


def _shadows(picture: Image.Image, scene: Scene) -> None:
    """Long and soft away from the window, dark where the vessel stands."""
    wide = max(width for _, width in scene.vessel.outline) / 2 * scene.scale
    x, y = scene.centre * WIDTH, scene.base * HEIGHT
    reach, lift = 0.95 * scene.rim * scene.scale, 0.05 * scene.rim * scene.scale
    long = [
        (x - wide * 0.6, y + wide * 0.12),
        (x + wide * 0.5, y + wide * TILT),
        (x + reach + wide, y - lift + wide * 0.2),
        (x + reach, y - lift - wide * 0.24),
        (x, y - wide * TILT),
    ]
    dark = lit(scene.hour.table_dim, 0.34)
    lay(picture, area(long, 30 * FINE), dark, 0.55)
    foot = _ring(scene, 0, scene.vessel.outline[0][1] * 1.10)
    lay(picture, area([(px + 5 * FINE, py + 4 * FINE) for px, py in foot], 7 * FINE), dark, 0.85)


def _lid(picture: Image.Image, scene: Scene, lid: Vessel) -> None:
    beside = replace(scene, vessel=lid, centre=scene.centre + 0.25, base=scene.base - 0.075)
    _shadows(picture, beside)
    walls = _walls(beside, lid.outline, _polished(lid.body))
    picture.paste(walls, (0, 0), walls)
    lay(picture, _level_mask(beside, beside.rim), lit(lid.body, 1.06))
    lay(picture, _level_mask(beside, beside.rim, 5, FINE), lit(lid.body, 0.94))
    x, y = beside.centre * WIDTH, beside.base * HEIGHT - beside.rim * beside.scale
    half = 0.2 * WIDTH
    sheen = disc((x - 0.3 * half, y), 0.34 * half, 0.05 * half, 14 * FINE)
    shine(picture, ImageChops.multiply(sheen, _level_mask(beside, beside.rim, 6)), scene.hour.sky_low, 0.5)


def _glass_candle(picture: Image.Image, scene: Scene) -> None:
    vessel = scene.vessel
    back = _walls(scene, _cut(vessel.outline, scene.level, scene.rim), _glassy(vessel, 120, 26), front=False)
    picture.paste(back, (0, 0), back)
    tinted = mix(scene.wax, vessel.body, 0.55)
    foot = _walls(scene, _cut(vessel.outline, 0, FLOOR), _matt(tinted, 0.72, 1.1))
    picture.paste(foot, (0, 0), foot)
    lay(picture, _level_mask(scene, FLOOR), lit(tinted, 0.9))
    wax = _walls(scene, _cut(vessel.outline, FLOOR, scene.level, vessel.wall), _matt(scene.wax, 0.60, 1.12))
    picture.paste(wax, (0, 0), wax)
    _warm_through(picture, scene, wax.getchannel("A"))
    _wax_top(picture, scene, _level_mask(scene, scene.level, 2 * vessel.wall))
    for wick in scene.wicks:
        _flame(picture, scene, wick)
    _glass_front(picture, scene)


def _opaque_candle(picture: Image.Image, scene: Scene) -> None:
    vessel = scene.vessel
    paint = _polished(vessel.body) if vessel.material == "tin" else _matt(vessel.body, 0.52, 1.08)
    walls = _walls(scene, _cut(vessel.outline, 0, scene.rim), paint)
    picture.paste(walls, (0, 0), walls)
    mouth = _level_mask(scene, scene.rim, 2 * vessel.wall)
    lay(picture, _level_mask(scene, scene.rim), lit(vessel.body, 1.1))
    lay(picture, mouth, lit(vessel.body, 0.55))
    _wax_top(picture, scene, ImageChops.multiply(mouth, _level_mask(scene, scene.level, 2 * vessel.wall)))
    for wick in scene.wicks:
        _flame(picture, scene, wick)


def _warm_through(picture: Image.Image, scene: Scene, wax: Image.Image) -> None:
    """Wax near the pool lets the flame shine through."""
    middle = (scene.centre * WIDTH, scene.base * HEIGHT - (scene.level - 4) * scene.scale)
    wide = _width_at(scene.vessel.outline, scene.level) * 0.42 * scene.scale
    near = disc(middle, wide, 20 * scene.scale, 11 * scene.scale)
    shine(picture, ImageChops.multiply(near, wax), mix(scene.wax, WARM, 0.6), 0.5 * scene.hour.flame_glow)


def _wax_top(picture: Image.Image, scene: Scene, surface: Image.Image) -> None:
    """A clear molten pool with the flames in it, and a set rim around it."""
    inner = _width_at(scene.vessel.outline, scene.level) - 2 * scene.vessel.wall
    pool = ImageChops.multiply(surface, area(_ring(scene, scene.level, inner * 0.90), 4 * FINE))
    lay(picture, surface, lit(scene.wax, 1.12))
    lay(picture, pool, mix(lit(scene.wax, 0.86), WARM, 0.10))
    for wick in scene.wicks:
        wide = 26 * scene.scale
        near = disc(_foot_of(scene, wick), wide, wide * TILT, 46 * FINE)
        shine(picture, ImageChops.multiply(near, surface), WARM, 0.55 / len(scene.wicks) ** 0.5)
    left = [(x - 0.22 * inner * scene.scale, y) for x, y in _ring(scene, scene.level, inner * 0.34)]
    shine(picture, ImageChops.multiply(area(left, 7 * FINE), pool), scene.hour.sky_low, 0.22)


def _foot_of(scene: Scene, wick: Point) -> Point:
    """Where a wick rises from the wax."""
    x = scene.centre * WIDTH + wick[0] * scene.scale
    return x, scene.base * HEIGHT - scene.level * scene.scale + wick[1] * scene.scale * TILT


def _drop(foot: Point, tall: float, wide: float) -> list[Point]:
    """The outline of a flame: round below, drawn out to a point above."""
    steps = [step / 60 for step in range(61)]
    halves = [(wide / 2 * math.sin(math.pi * t**0.62) * (1 - 0.42 * t), foot[1] - tall * t) for t in steps]
    return [(foot[0] + half, y) for half, y in halves] + [(foot[0] - half, y) for half, y in reversed(halves)]


def _flame(picture: Image.Image, scene: Scene, wick: Point) -> None:
    """A wick, then an orange veil, a yellow body, a pale heart and a little blue at the foot."""
    mm = scene.scale
    x, y = _foot_of(scene, wick)
    stalk = [(x, y), (x + 0.4 * mm, y - 3.5 * mm), (x + 1.3 * mm, y - 6 * mm)]
    lay(picture, line(stalk, 1.7 * mm, FINE), (38, 30, 26))
    veil = _drop((x, y - 2.0 * mm), 27 * mm, 11.0 * mm)
    body = _drop((x, y - 2.6 * mm), 24.5 * mm, 9.2 * mm)
    heart = _drop((x, y - 4.2 * mm), 19 * mm, 6.4 * mm)
    blue = _drop((x, y - 1.6 * mm), 6.5 * mm, 6.2 * mm)
    lay(picture, area(veil, 0.65 * mm), (255, 150, 60), 0.85)
    lay(picture, area(body, 0.4 * mm), (255, 205, 110))
    lay(picture, area(heart, 0.45 * mm), (255, 240, 200))
    lay(picture, area(blue, 0.9 * mm), (92, 104, 168), 0.55)
    lay(picture, line(stalk[1:], 1.3 * mm, FINE), (62, 40, 30))


def _glass_front(picture: Image.Image, scene: Scene) -> None:
    """The near wall of a glass: its dense edges, the rim, and the window mirrored in it."""
    vessel = scene.vessel
    near = _walls(scene, _cut(vessel.outline, 0, scene.rim), _glassy(vessel, 170, 10))
    picture.paste(near, (0, 0), near)
    for height, share in ((scene.rim, 0.75), (scene.rim - 1.2, 0.3), (0.6, 0.35)):
        edge = _ring(scene, height, _width_at(vessel.outline, height))
        lay(picture, line([*edge, edge[0]], 2 * FINE, 0.7 * FINE), (250, 250, 246), share)
    for left, right, share in ((-0.80, -0.62, 0.42), (-0.56, -0.50, 0.22), (0.80, 0.85, 0.25)):
        lay(picture, _streak(scene, left, right), (255, 253, 246), share)


def _streak(scene: Scene, left: float, right: float) -> Image.Image:
    """An upright reflection between two places on the near wall, -1 being its left edge and 1 its right."""

    def at(place: float, height: float) -> Point:
        half = _width_at(scene.vessel.outline, height) / 2 * scene.scale
        nearer = math.sqrt(1 - place**2) * half * TILT
        return scene.centre * WIDTH + place * half, scene.base * HEIGHT - height * scene.scale + nearer

    heights = [scene.rim * (0.10 + 0.82 * step / 20) for step in range(21)]
    return area([at(left, h) for h in heights] + [at(right, h) for h in reversed(heights)], 2.2 * FINE)


def _glow(picture: Image.Image, scene: Scene) -> None:
    """The light that the flames throw into the room."""
    for wick in scene.wicks:
        x, y = _foot_of(scene, wick)
        for reach, share in ((13, 0.34), (35, 0.20), (75, 0.13)):
            halo = disc(
                (x, y - 14 * scene.scale),
                reach * scene.scale,
                reach * scene.scale,
                0.55 * reach * scene.scale,
            )
            shine(picture, halo, WARM, share * scene.hour.flame_glow / len(scene.wicks) ** 0.5)


def _finished(picture: Image.Image, scene: Scene) -> Image.Image:
    """Darker corners, a breath of grain, and the size of the page."""
    middle = disc((WIDTH / 2, HEIGHT / 2), 0.75 * WIDTH, 0.7 * HEIGHT, 150 * FINE)
    shaded = Image.composite(picture, picture.point([round(i * 0.72) for i in range(256)] * 3), middle)
    small = shaded.resize((WIDTH // FINE, HEIGHT // FINE), Image.Resampling.LANCZOS)
    dust = grain(small.size, (2, 2), "dust of " + scene.file).convert("RGB")
    return Image.blend(small, ImageChops.overlay(small, dust), 0.05)
