"""The inside of a vessel: volumes, levels, diameters, outlines, and measurements that cannot be true."""

from dataclasses import fields, replace
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from generator.model.vessel import Bowl, Cone, Cylinder, Hexagon, Oval, Profile, Rounded, Shape, Square
from generator.rules.wax.geometry import (
    brimful_ml,
    diameter_mm,
    height_mm,
    level_mm,
    most_wax_ml,
    outline_mm,
    scale,
    total_ml,
    volume_ml,
    wax_level_mm,
    wax_ml,
    widest_mm,
)
from tests.references import (
    BOWL,
    JAR,
    LEVELS_MM,
    MEASURED,
    OVAL,
    SIX_SIDED,
    SOFT_BASE,
    TAPERED,
    VOLUMES_ML,
    Printed,
)
from tests.rules.entries import wax_shape

SIZES = st.floats(min_value=20.0, max_value=200.0)
PARTS = st.integers(min_value=0, max_value=1000).map(lambda thousandths: thousandths / 1000)


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    steps = draw(st.lists(st.floats(min_value=1.0, max_value=50.0), min_size=1, max_size=6))
    heights = [sum(steps[:place]) for place in range(len(steps) + 1)]
    return Profile(shape="profile", points=tuple((height, draw(SIZES)) for height in heights))


@st.composite
def shapes(draw: st.DrawFn) -> Shape:
    wide, high, part = draw(SIZES), draw(SIZES), draw(PARTS)
    every: tuple[Shape, ...] = (
        Cylinder(shape="cylinder", diameter_mm=wide, height_mm=high),
        Cone(shape="cone", base_mm=wide, rim_mm=draw(SIZES), height_mm=high),
        Rounded(shape="rounded", diameter_mm=wide, height_mm=high, corner_mm=part * min(wide / 2, high)),
        Hexagon(shape="hexagon", across_mm=wide, height_mm=high),
        Square(shape="square", side_mm=wide, corner_mm=part * wide / 2, height_mm=high),
        Oval(shape="oval", long_mm=wide, short_mm=draw(SIZES), height_mm=high),
        Bowl(shape="bowl", rim_mm=wide, height_mm=max(part, 0.05) * wide),
        draw(profiles()),
    )
    return draw(st.sampled_from(every))


def resized(shape: Shape, factor: float) -> Shape:
    """The same shape with every length multiplied."""
    if isinstance(shape, Profile):
        return replace(shape, points=tuple((h * factor, d * factor) for h, d in shape.points))
    lengths = {f.name: getattr(shape, f.name) * factor for f in fields(shape) if f.name.endswith("_mm")}
    return replace(shape, **lengths)


def kinks_mm(shape: Shape) -> tuple[float, ...]:
    """Heights at which the wall turns."""
    if isinstance(shape, Profile):
        return tuple(height for height, _ in shape.points[1:])
    return (shape.corner_mm,) if isinstance(shape, Rounded) and shape.corner_mm else ()


class TestAgainstPublishedFormulasAndOtherPrograms:
    @pytest.mark.parametrize(("shape", "level", "printed"), VOLUMES_ML.values(), ids=VOLUMES_ML.keys())
    def test_a_volume_is_that_of_the_reference(self, shape: Shape, level: float, printed: Printed) -> None:
        ours = volume_ml(shape, level)

        assert printed.agrees_with(ours), (printed, ours)

    @pytest.mark.parametrize(("shape", "volume", "printed"), LEVELS_MM.values(), ids=LEVELS_MM.keys())
    def test_a_level_is_that_of_the_reference(self, shape: Shape, volume: float, printed: Printed) -> None:
        ours = level_mm(shape, volume)

        assert printed.agrees_with(ours), (printed, ours)

    @settings(max_examples=40, deadline=None)
    @given(shapes(), PARTS)
    def test_a_volume_is_the_integral_of_the_cross_sections(self, shape: Shape, part: float) -> None:
        level = part * height_mm(shape)
        edges = [0.0, *(kink for kink in kinks_mm(shape) if kink < level), level]

        pieces = (quad(lambda z: pi / 4 * diameter_mm(shape, z) ** 2, *span)[0] for span in pairwise(edges))

        assert volume_ml(shape, level) == pytest.approx(sum(pieces) / 1000, rel=1e-6, abs=1e-9)

    @settings(max_examples=20, deadline=None)
    @given(shapes(), st.floats(min_value=0.01, max_value=0.99))
    def test_a_level_is_the_root_that_scipy_finds(self, shape: Shape, part: float) -> None:
        volume = part * total_ml(shape)

        root = brentq(lambda z: volume_ml(shape, z) - volume, 0, height_mm(shape))

        assert level_mm(shape, volume) == pytest.approx(root, abs=1e-6)

    def test_lengths_that_shrink_by_3_4_percent_take_9_857_percent_off_the_volume(self) -> None:
        shrinkage = Printed("9.857", "beeswax cast at 70 C, PMC11876593 table 2 (FOUND) and arithmetic")

        ours = 100 * (1 - total_ml(resized(JAR, 1 - 0.034)) / total_ml(JAR))

        assert shrinkage.agrees_with(ours)


class TestLawsOfVolume:
    @settings(max_examples=20, deadline=None)
    @given(shapes(), PARTS, PARTS)
    def test_more_height_never_means_less_volume(self, shape: Shape, one: float, other: float) -> None:
        low, high = sorted((one * height_mm(shape), other * height_mm(shape)))

        assert volume_ml(shape, low) <= volume_ml(shape, high)

    @settings(max_examples=20, deadline=None)
    @given(shapes())
    def test_twice_the_size_holds_eight_times_as_much(self, shape: Shape) -> None:
        twice = resized(shape, 2.0)

        assert total_ml(twice) == pytest.approx(8 * total_ml(shape), rel=1e-12)

    @settings(max_examples=20, deadline=None)
    @given(SIZES, SIZES, PARTS)
    def test_equal_diameters_make_a_cylinder(self, wide: float, high: float, part: float) -> None:
        cylinder = Cylinder(shape="cylinder", diameter_mm=wide, height_mm=high)
        others: tuple[Shape, ...] = (
            Cone(shape="cone", base_mm=wide, rim_mm=wide, height_mm=high),
            Oval(shape="oval", long_mm=wide, short_mm=wide, height_mm=high),
            Rounded(shape="rounded", diameter_mm=wide, height_mm=high, corner_mm=0.0),
            Profile(shape="profile", points=((0.0, wide), (high / 2, wide), (high, wide))),
        )

        expected = pytest.approx(volume_ml(cylinder, part * high), rel=1e-9, abs=1e-9)

        assert [volume_ml(other, part * high) for other in others] == [expected] * len(others)

    @settings(max_examples=20, deadline=None)
    @given(profiles(), st.floats(min_value=0.01, max_value=0.99))
    def test_a_profile_measured_at_one_more_height_holds_the_same(
        self, profile: Profile, part: float
    ) -> None:
        height = part * height_mm(profile)
        between = (height, diameter_mm(profile, height))
        finer = replace(profile, points=tuple(sorted({*profile.points, between})))

        assert total_ml(finer) == pytest.approx(total_ml(profile), rel=1e-9)

    @settings(max_examples=20, deadline=None)
    @given(profiles())
    def test_turning_a_vessel_over_keeps_its_volume(self, profile: Profile) -> None:
        top = height_mm(profile)
        over = replace(profile, points=tuple((top - h, d) for h, d in reversed(profile.points)))

        assert total_ml(over) == pytest.approx(total_ml(profile), rel=1e-9)

    @settings(max_examples=40, deadline=None)
    @given(shapes(), PARTS)
    def test_the_level_of_a_volume_holds_that_volume(self, shape: Shape, part: float) -> None:
        volume = part * total_ml(shape)

        assert volume_ml(shape, level_mm(shape, volume)) == pytest.approx(volume, rel=1e-6, abs=1e-6)

    @settings(max_examples=20, deadline=None)
    @given(shapes())
    def test_the_level_of_the_whole_is_the_rim(self, shape: Shape) -> None:
        assert level_mm(shape, total_ml(shape)) == height_mm(shape)

    @pytest.mark.parametrize("level", [-0.001, 80.001], ids=["below the base", "above the rim"])
    def test_a_level_outside_the_vessel_is_refused(self, level: float) -> None:
        with pytest.raises(ValueError, match="not between the base and the rim"):
            volume_ml(JAR, level)

    @pytest.mark.parametrize("volume", [-0.001, 307.877], ids=["less than nothing", "more than brimful"])
    def test_a_volume_that_the_vessel_cannot_hold_is_refused(self, volume: float) -> None:
        with pytest.raises(ValueError, match="not between empty and brimful"):
            level_mm(JAR, volume)


class TestDiametersAndOutlines:
    @settings(max_examples=40, deadline=None)
    @given(shapes(), PARTS)
    def test_no_level_is_wider_than_the_widest(self, shape: Shape, part: float) -> None:
        assert diameter_mm(shape, part * height_mm(shape)) <= widest_mm(shape) * (1 + 1e-9)

    def test_the_diameter_of_a_hexagon_is_that_of_the_circle_of_its_area(self) -> None:
        by_hand = (4 * 4243.5244785 / pi) ** 0.5

        assert diameter_mm(SIX_SIDED, 10.0) == pytest.approx(by_hand, abs=1e-6)

    @pytest.mark.parametrize(
        ("shape", "widest"),
        [(JAR, 70.0), (TAPERED, 75.0), (SOFT_BASE, 70.0), (BOWL, 105.83005), (MEASURED, 72.0)],
        ids=["cylinder", "cone", "rounded", "bowl", "profile"],
    )
    def test_the_widest_diameter_is_where_the_shape_has_it(self, shape: Shape, widest: float) -> None:
        assert widest_mm(shape) == pytest.approx(widest, abs=1e-5)

    def test_a_bowl_deeper_than_half_a_sphere_is_widest_below_its_rim(self) -> None:
        belly = Bowl(shape="bowl", rim_mm=60.0, height_mm=90.0)

        assert widest_mm(belly) == pytest.approx(100.0)

    @settings(max_examples=20, deadline=None)
    @given(shapes().filter(lambda shape: not isinstance(shape, Hexagon | Square | Oval)))
    def test_the_outline_of_a_round_vessel_runs_along_its_diameters(self, shape: Shape) -> None:
        points = outline_mm(shape, 7)

        widths = [diameter_mm(shape, min(max(height, 0.0), height_mm(shape))) for _, height in points]
        assert [2 * half for half, _ in points] == pytest.approx(widths, abs=1e-4)

    @settings(max_examples=20, deadline=None)
    @given(shapes())
    def test_the_outline_rises_from_the_base_to_the_rim(self, shape: Shape) -> None:
        heights = [height for _, height in outline_mm(shape, 5)]

        assert heights == sorted(heights)
        assert (heights[0], heights[-1]) == pytest.approx((0.0, height_mm(shape)))

    def test_the_outline_of_an_angular_vessel_is_half_of_what_was_measured(self) -> None:
        assert outline_mm(SIX_SIDED, 3) == ((35.0, 0.0), (35.0, 75.0))
        assert outline_mm(OVAL, 3) == ((45.0, 0.0), (45.0, 50.0))

    def test_a_square_and_a_cylinder_are_drawn_by_side_and_diameter(self) -> None:
        square = Square(shape="square", side_mm=60.0, corner_mm=5.0, height_mm=70.0)

        assert outline_mm(square, 3) == ((30.0, 0.0), (30.0, 70.0))
        assert outline_mm(JAR, 3) == ((35.0, 0.0), (35.0, 80.0))


class TestMeasuredVessels:
    def test_a_vessel_nobody_filled_with_water_is_taken_from_its_lengths(self) -> None:
        jar = wax_shape(JAR)

        assert scale(jar) == 1.0
        assert brimful_ml(jar) == total_ml(JAR)

    @settings(max_examples=20, deadline=None)
    @given(shapes(), st.floats(min_value=0.85, max_value=1.15), PARTS)
    def test_a_measured_brimful_corrects_every_level(self, shape: Shape, off: float, part: float) -> None:
        measured = wax_shape(shape, brimful_ml=off * total_ml(shape))
        level = part * height_mm(shape)

        assert wax_ml(measured, level) == pytest.approx(off * volume_ml(shape, level), rel=1e-9)
        assert most_wax_ml(measured) == pytest.approx(brimful_ml(measured), rel=1e-9)

    def test_wick_and_holder_take_their_room_from_the_wax(self) -> None:
        jar = wax_shape(JAR, displaced_ml=0.8)

        assert wax_ml(jar, 40.0) == pytest.approx(volume_ml(JAR, 40.0) - 0.8)
        assert wax_ml(jar, 0.1) == 0.0

    @settings(max_examples=20, deadline=None)
    @given(shapes(), st.floats(min_value=0.85, max_value=1.15), st.floats(min_value=0.2, max_value=1.0))
    def test_the_level_of_the_wax_holds_that_wax(self, shape: Shape, off: float, part: float) -> None:
        measured = wax_shape(shape, brimful_ml=off * total_ml(shape), displaced_ml=0.05)
        wax = part * most_wax_ml(measured)

        assert wax_ml(measured, wax_level_mm(measured, wax)) == pytest.approx(wax, rel=1e-6)
