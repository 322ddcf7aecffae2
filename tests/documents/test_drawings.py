"""Candles drawn to scale: well formed, true to their measurements, small, and told to who cannot see them."""

import re
from dataclasses import replace
from itertools import pairwise
from math import hypot
from xml.etree.ElementTree import Element, fromstring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drawing.drawings import (
    MM_PER_EM,
    Caption,
    LidForm,
    Outline,
    PlanView,
    WallMaterial,
    card_shapes,
    shelf,
    standing_height_mm,
    wicks_around,
)
from generator.drawing.plates import Dimensions, plate
from generator.drawing.profiles import band, closed_path, outside, radius_at, thinned
from generator.model.vessel import Bowl, Cone, Cylinder, Hexagon, Oval, Profile, Rounded, Shape, Square
from generator.rules.wax.geometry import outline_mm

SVG = "{http://www.w3.org/2000/svg}"
CAPTION = Caption(name="one", title="Clear <beaker> & lid")
SHAPES: dict[str, tuple[Shape, PlanView]] = {
    "cylinder": (
        Cylinder(shape="cylinder", diameter_mm=74, height_mm=92),
        PlanView(breadth_mm=74, depth_mm=74),
    ),
    "cone": (Cone(shape="cone", base_mm=46, rim_mm=54, height_mm=62), PlanView(breadth_mm=54, depth_mm=54)),
    "rounded": (
        Rounded(shape="rounded", diameter_mm=72, height_mm=56, corner_mm=12),
        PlanView(breadth_mm=72, depth_mm=72),
    ),
    "hexagon": (
        Hexagon(shape="hexagon", across_mm=70, height_mm=78),
        PlanView(form="hexagon", breadth_mm=80.8, depth_mm=70),
    ),
    "square": (
        Square(shape="square", side_mm=78, corner_mm=8, height_mm=16),
        PlanView(form="square", breadth_mm=78, depth_mm=78, corner_mm=8),
    ),
    "oval": (
        Oval(shape="oval", long_mm=140, short_mm=80, height_mm=60),
        PlanView(form="oval", breadth_mm=140, depth_mm=80),
    ),
    "bowl": (Bowl(shape="bowl", rim_mm=150, height_mm=68), PlanView(breadth_mm=150, depth_mm=150)),
    "profile": (
        Profile(shape="profile", points=((0, 50), (6, 57), (45, 68), (92, 77))),
        PlanView(breadth_mm=77, depth_mm=77),
    ),
}
DIMENSIONS = Dimensions(
    breadth="74 mm", depth="70 mm", height="92 mm", wax="wax 40 mm", stop="stop 13 mm", lid="cork"
)


def drawn_as(
    name: str = "cylinder",
    material: WallMaterial = WallMaterial.GLASS,
    wicks: int = 1,
    shade: str = "#66727a",
    lid: LidForm | None = None,
) -> Outline:
    """One of the shapes with wax in it."""
    shape, plan = SHAPES[name]
    inside = outline_mm(shape, 12)
    rim = inside[-1][1]
    return Outline(
        inside=inside, plan=plan, wall_mm=3.0, material=material, shade=shade, wax_mm=rim * 0.7, stop_mm=rim * 0.15,
        wicks_mm=wicks_around(wicks, plan.breadth_mm / 2), lid=lid,
    )  # fmt: skip


def read(drawing: str) -> Element:
    """The drawing as a tree; it comes from this program, so nothing in it is hostile."""
    return fromstring(drawing)  # noqa: S314 - see above


def points(path: str) -> list[tuple[float, float]]:
    """The corners of a path that was written with M, l, h, v and z."""
    found: list[tuple[float, float]] = []
    x = y = 0.0
    for letter, numbers in re.findall(r"([Mlhv])([^Mlhvz]*)", path):
        values = [float(number) for number in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", numbers)]
        rights = [0.0] * len(values) if letter == "v" else values if letter == "h" else values[::2]
        downs = [0.0] * len(values) if letter == "h" else values if letter == "v" else values[1::2]
        for right, down in zip(rights, downs, strict=True):
            x, y = x + right, y + down
            found.append((x, y))
    return found


def wax_of(drawing: Element, shade: str) -> list[tuple[float, float]]:
    (path,) = (one for one in drawing.iter(f"{SVG}path") if one.get("fill") == shade)
    return points(path.attrib["d"])


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("material", WallMaterial, ids=lambda material: material.value)
def test_every_shape_is_drawn_in_every_material(name: str, material: WallMaterial) -> None:
    outline = drawn_as(name, material, wicks=3, lid=LidForm.CAP)

    on_a_shelf, measured = shelf((outline,), CAPTION), plate(outline, DIMENSIONS, CAPTION)

    assert read(on_a_shelf).tag == read(measured).tag == f"{SVG}svg"


def test_the_inside_is_as_wide_on_the_drawing_as_it_was_measured() -> None:
    wax = wax_of(read(shelf((drawn_as(),), CAPTION)), "#66727a")

    assert max(x for x, _ in wax) - min(x for x, _ in wax) == pytest.approx(74.0, abs=0.05)
    assert max(y for _, y in wax) - min(y for _, y in wax) == pytest.approx(92 * 0.7, abs=0.05)


def test_the_size_on_the_page_is_the_millimetres_times_one_scale_for_all() -> None:
    for name in SHAPES:
        drawing = read(shelf((drawn_as(name),), CAPTION))
        _, _, width_mm, height_mm = (float(value) for value in drawing.attrib["viewBox"].split())

        assert float(drawing.attrib["width"].removesuffix("em")) * MM_PER_EM == pytest.approx(
            width_mm, abs=0.05
        )
        assert float(drawing.attrib["height"].removesuffix("em")) * MM_PER_EM == pytest.approx(
            height_mm, abs=0.05
        )


def test_candles_side_by_side_stand_apart_on_one_line() -> None:
    both = read(shelf((drawn_as("cylinder"), drawn_as("bowl")), CAPTION))

    moved = [re.findall(r"-?[\d.]+", one.attrib["transform"]) for one in both.iter(f"{SVG}g")]

    assert [float(y) for _, y in moved] == [-3.0, -3.0]
    assert float(moved[1][0]) - float(moved[0][0]) > (74 + 150) / 2 + 2 * 3


def test_shelves_asked_to_be_equally_high_are() -> None:
    low, high = drawn_as("square"), drawn_as("cylinder")
    height_mm = standing_height_mm((low, high))

    heights = {read(shelf((one,), CAPTION, height_mm)).attrib["height"] for one in (low, high)}

    assert len(heights) == 1


@pytest.mark.parametrize("name", SHAPES)
def test_a_drawing_for_a_shelf_is_small(name: str) -> None:
    drawing = shelf((drawn_as(name, WallMaterial.CERAMIC, wicks=3),), CAPTION)

    assert len(drawing.encode()) < 1300


def test_a_drawing_is_named_for_who_cannot_see_it() -> None:
    drawing = read(plate(drawn_as(), DIMENSIONS, Caption(name="p", title="A & B", description="74 mm")))

    ids = {one.get("id"): one.text for one in drawing.iter() if one.get("id")}
    assert drawing.attrib["role"] == "img"
    assert ids[drawing.attrib["aria-labelledby"]] == "A & B"
    assert ids[drawing.attrib["aria-describedby"]] == "74 mm"


def test_two_drawings_on_one_page_share_no_id() -> None:
    outlines = (drawn_as("bowl", WallMaterial.CERAMIC), drawn_as("oval", WallMaterial.CERAMIC))
    page = shelf(outlines, Caption(name="a-", title="A")) + shelf(outlines, Caption(name="b-", title="B"))

    ids = re.findall(r' id="([^"]+)"', page)

    assert len(ids) == len(set(ids)) == 6


def test_a_drawing_follows_the_scheme_of_its_page() -> None:
    drawing = plate(drawn_as(shade="#123456"), DIMENSIONS, CAPTION)

    colours = set(re.findall(r'(?:stroke|fill)="([^"]+)"', drawing))

    assert colours == {"none", "currentColor", "var(--quiet)", "var(--accent)", "#123456", "#f6f1e7"}


@pytest.mark.parametrize("count", range(7))
def test_there_are_as_many_wicks_as_recorded_and_they_keep_apart(count: int) -> None:
    places = wicks_around(count, 40)

    assert len(places) == count
    assert all(hypot(x2 - x1, y2 - y1) > 10 for (x1, y1), (x2, y2) in pairwise(places))


def test_a_melt_has_no_wick() -> None:
    drawing = shelf((drawn_as("square", WallMaterial.PLAIN, wicks=0),), CAPTION)

    assert drawing.count("<path") == 3


def test_a_lid_is_drawn_above_the_rim() -> None:
    bare, lidded = drawn_as(), drawn_as(lid=LidForm.PLUG)

    assert standing_height_mm((lidded,)) > standing_height_mm((bare,))


def test_a_stopper_in_a_thin_wall_stays_inside_its_drawing() -> None:
    tin = replace(drawn_as(material=WallMaterial.METAL, lid=LidForm.PLUG), wall_mm=0.3)

    drawing = read(shelf((tin,), CAPTION))

    left, _, width, _ = (float(edge) for edge in drawing.attrib["viewBox"].split())
    (moved,) = (group.attrib["transform"] for group in drawing.iter(f"{SVG}g"))
    middle = float(moved.removeprefix("translate(").split()[0])
    across = [middle + x for path in drawing.find(f"{SVG}g") or () for x, _ in points(path.attrib["d"])]
    assert left <= min(across)
    assert max(across) <= left + width


def test_the_plate_says_what_it_is_told_and_no_more() -> None:
    drawing = read(plate(drawn_as(), Dimensions(breadth="⌀ 74 mm", height="92 mm"), CAPTION))

    assert [text.text for text in drawing.iter(f"{SVG}text")] == ["92 mm", "⌀ 74 mm"]


def test_the_figures_of_a_shallow_tray_do_not_run_into_each_other() -> None:
    drawing = read(plate(drawn_as("square", WallMaterial.PLAIN), DIMENSIONS, CAPTION))

    letter = float(next(one.attrib["font-size"] for one in drawing.iter(f"{SVG}g") if one.get("font-size")))
    beside = sorted(
        float(text.attrib["y"])
        for text in drawing.iter(f"{SVG}text")
        if text.text in ("wax 40 mm", "stop 13 mm", "cork")
    )
    assert all(lower - upper >= letter for upper, lower in pairwise(beside))


def test_a_wall_is_even_around_a_slanting_side() -> None:
    outer = outside(((20.0, 0.0), (30.0, 60.0)), 3.0)

    assert outer[0] == pytest.approx((22.5, -3.0), abs=0.1)
    assert outer[-1] == pytest.approx((33.04, 60.0), abs=0.01)


def test_a_round_bottom_gets_a_foot_to_stand_on() -> None:
    outer = outside(((0.0, 0.0), (50.0, 20.0), (75.0, 68.0)), 6.0)

    assert outer[0][1] == -6.0
    assert outer[0][0] > 20


@given(st.lists(st.floats(0.5, 20), min_size=2, max_size=30), st.floats(0.1, 2))
@settings(max_examples=50)
def test_thinning_keeps_a_profile_within_its_tolerance(widths: list[float], tolerance_mm: float) -> None:
    profile = tuple((30 + width, 5.0 * step) for step, width in enumerate(widths))

    thin = thinned(profile, tolerance_mm)

    most_mm = tolerance_mm * hypot(1, (20 - 0.5) / 5)  # Level distance along the flattest slope there can be.
    assert all(abs(radius_at(thin, height) - radius) <= most_mm + 1e-9 for radius, height in profile)


def test_a_path_comes_back_to_the_points_it_was_written_from() -> None:
    corners = band(((20.0, 0.0), (30.0, 60.0)), ((22.5, -3.0), (33.0, 60.0)))

    assert points(closed_path(corners)) == [pytest.approx(corner, abs=0.051) for corner in corners]


def test_the_shapes_for_a_card_stand_on_the_shelf_with_the_wax_in_its_shade() -> None:
    (wall, *_), (inside, *_), (_, shade, _), *_ = card_shapes(drawn_as())

    assert min(y for _, y in wall) == 0.0
    assert max(x for x, _ in inside) == 37.0
    assert shade == "#66727a"
