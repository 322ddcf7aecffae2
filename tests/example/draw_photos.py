"""Draws the pictures of the example shop: its own candles, painted to scale. Illustrations, not photographs.

``python -m tests.example.draw_photos`` writes ``content/photos/*.jpg``, the same pictures each time.
"""

import math
from pathlib import Path
from typing import Final

from tests.example.still_life import Hour, Scene, Vessel, still_life

PHOTOS: Final = Path(__file__).resolve().parents[2] / "content" / "photos"

MORNING: Final = Hour(
    sky_high=(196, 214, 226),
    sky_low=(238, 236, 226),
    sea=(142, 164, 176),
    wall_lit=(214, 210, 200),
    wall_dim=(150, 152, 150),
    frame=(232, 230, 222),
    table_lit=(196, 168, 134),
    table_dim=(132, 104, 78),
    flame_glow=0.55,
)
FOG: Final = Hour(
    sky_high=(214, 218, 220),
    sky_low=(226, 228, 228),
    sea=(206, 211, 214),
    wall_lit=(200, 203, 204),
    wall_dim=(150, 156, 160),
    frame=(222, 224, 224),
    table_lit=(168, 160, 150),
    table_dim=(112, 106, 100),
    flame_glow=0.75,
)
AFTERNOON: Final = Hour(
    sky_high=(206, 208, 196),
    sky_low=(248, 226, 186),
    sea=(176, 172, 156),
    wall_lit=(206, 190, 164),
    wall_dim=(140, 122, 102),
    frame=(214, 204, 186),
    table_lit=(176, 138, 98),
    table_dim=(110, 80, 56),
    flame_glow=0.7,
)
NIGHTFALL: Final = Hour(
    sky_high=(52, 66, 92),
    sky_low=(150, 122, 110),
    sea=(48, 58, 76),
    wall_lit=(92, 82, 78),
    wall_dim=(52, 44, 42),
    frame=(96, 88, 84),
    table_lit=(128, 92, 62),
    table_dim=(70, 48, 34),
    flame_glow=1.1,
)
FIRST_LIGHT: Final = Hour(
    sky_high=(176, 190, 212),
    sky_low=(250, 214, 188),
    sea=(150, 150, 166),
    wall_lit=(196, 186, 184),
    wall_dim=(122, 116, 124),
    frame=(206, 200, 200),
    table_lit=(164, 136, 116),
    table_dim=(98, 78, 70),
    flame_glow=0.85,
)

TUMBLER: Final = Vessel(outline=((0, 76), (3, 80), (97, 80)), wall=3, material="glass")
TAPERED: Final = Vessel(
    outline=((0, 56), (11, 64), (25, 69), (50, 75), (75, 80), (97, 84)), wall=3.5, material="glass"
)
SIX_SIDED: Final = Vessel(
    outline=((0, 74), (2, 76), (83, 76)), wall=3, material="glass", sides=6, turned=0.22
)
METAL: Final = (176, 172, 164)
TIN: Final = Vessel(
    outline=((0, 70), (1.5, 72.6), (54, 72.6), (54.5, 74), (57, 74)), wall=0.8, material="tin", body=METAL
)
TIN_LID: Final = Vessel(outline=((0, 75), (11, 75)), wall=0.8, material="tin", body=METAL)
BOWL: Final = Vessel(  # A foot, then part of a ball of 81.4 mm radius.
    outline=((0, 64), (5, 60), *((deep, 2 * math.sqrt(162.8 * deep - deep**2)) for deep in range(6, 75))),
    wall=6,
    material="stoneware",
    body=(116, 106, 94),
)

SCENES: Final = (
    Scene(file="ss-30-by-the-window.jpg", hour=MORNING, vessel=TUMBLER, wax=(102, 114, 122), level=70),
    Scene(file="hf-tg-in-fog.jpg", hour=FOG, vessel=TAPERED, wax=(180, 188, 196), level=79, centre=0.54),
    Scene(
        file="nl-22-on-the-bench.jpg",
        hour=AFTERNOON,
        vessel=TIN,
        lid=TIN_LID,
        wax=(183, 154, 110),
        level=47,
        centre=0.47,
        px_per_mm=5.8,
    ),
    Scene(
        file="qf-3w-supper.jpg",
        hour=NIGHTFALL,
        vessel=BOWL,
        wax=(95, 115, 72),
        level=64,
        wicks=((0, -32), (-28, 16), (28, 16)),
        centre=0.52,
        px_per_mm=4.0,
    ),
    Scene(file="bc-hx-first-light.jpg", hour=FIRST_LIGHT, vessel=SIX_SIDED, wax=(236, 229, 211), level=67),
)


def main() -> None:
    """Draws every picture into the shop's folder of photos."""
    PHOTOS.mkdir(parents=True, exist_ok=True)
    for scene in SCENES:
        still_life(scene).save(PHOTOS / scene.file, quality=84, optimize=True, progressive=True)


if __name__ == "__main__":
    main()
