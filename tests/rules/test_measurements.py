"""Measurements of a vessel that cannot be true, and where the maker finds them."""

from dataclasses import replace

import pytest

from generator.model.vessel import Bowl, Profile, Shape, Square
from generator.problems import Fault, Severity
from generator.rules.wax.geometry import total_ml
from generator.rules.wax.measurements import wax_shape_faults
from tests.references import FOUR_SIDED, HALF_SPHERE, JAR, SOFT_BASE
from tests.rules.entries import wax_shape

SHAPES_AT_FAULT: dict[str, tuple[Shape, Fault]] = {
    "no height": (
        replace(JAR, height_mm=0.0),
        Fault(
            path=("inside", "height"),
            what="height is 0 mm",
            why="a vessel of no size holds no wax",
            fix="height: as measured inside",
        ),
    ),
    "a corner wider than the base": (
        replace(SOFT_BASE, corner_mm=35.5),
        Fault(
            path=("inside", "corner"),
            what="corner 35.5 mm is more than half the diameter, 35 mm",
            why="the wax weight, and every weight printed from it, is calculated from the inside",
            fix="corner: at most 35 mm",
        ),
    ),
    "a corner taller than the vessel": (
        replace(SOFT_BASE, height_mm=8.0),
        Fault(
            path=("inside", "corner"),
            what="corner 10 mm is more than the height, 8 mm",
            why="the wax weight, and every weight printed from it, is calculated from the inside",
            fix="corner: at most 8 mm",
        ),
    ),
    "a corner larger than half the side": (
        Square(shape="square", side_mm=60.0, corner_mm=31.0, height_mm=70.0),
        Fault(
            path=("inside", "corner"),
            what="corner 31 mm is more than half the side, 30 mm",
            why="the wax weight, and every weight printed from it, is calculated from the inside",
            fix="corner: at most 30 mm",
        ),
    ),
    "a bowl deeper than half a sphere": (
        Bowl(shape="bowl", rim_mm=60.0, height_mm=90.0),
        Fault(
            path=("inside", "height"),
            what="height 90 mm is more than half the rim, 30 mm",
            why="such a bowl is widest below its rim, 100 mm; if it is not, its wax weight is wrong",
            fix="height: at most 30 mm, or shape: profile with measured points",
            severity=Severity.WARNING,
        ),
    ),
    "the profile has one point": (
        Profile(shape="profile", points=((0.0, 40.0),)),
        Fault(
            path=("inside", "points"),
            what="the profile has 1 point",
            why="a shape needs at least a base and a rim",
            fix="points: [[0 mm, ... mm], [... mm, ... mm]]",
        ),
    ),
    "a profile that does not begin at the base": (
        Profile(shape="profile", points=((2.0, 40.0), (80.0, 64.0))),
        Fault(
            path=("inside", "points", 0, 0),
            what="the first height is 2 mm, not 0 mm",
            why="the wax weight, and every weight printed from it, is calculated from the inside",
            fix="the first point at the base: [0 mm, diameter there]",
        ),
    ),
    "a height twice": (
        Profile(shape="profile", points=((0.0, 40.0), (12.0, 50.0), (30.0, 55.0), (30.0, 64.0))),
        Fault(
            path=("inside", "points", 3, 0),
            what="height 30 mm is not above the point before it, 30 mm",
            why="the wax weight, and every weight printed from it, is calculated from the inside",
            fix="list the points from the base up, each height once",
        ),
    ),
    "a profile closed above its base": (
        Profile(shape="profile", points=((0.0, 40.0), (12.0, 0.0), (30.0, 55.0))),
        Fault(
            path=("inside", "points", 1, 1),
            what="the diameter at height 12 mm is 0 mm",
            why="a vessel must be open above its base, or no wax could be poured in",
            fix="[12 mm, the inside diameter measured there]",
        ),
    ),
}


class TestMeasurementsThatCannotBeTrue:
    @pytest.mark.parametrize(("shape", "fault"), SHAPES_AT_FAULT.values(), ids=SHAPES_AT_FAULT.keys())
    def test_a_shape_at_fault_is_told_where_and_why(self, shape: Shape, fault: Fault) -> None:
        assert wax_shape_faults(wax_shape(shape)) == (fault,)

    @pytest.mark.parametrize(
        "shape", [HALF_SPHERE, SOFT_BASE, FOUR_SIDED], ids=["half a sphere", "rounded", "square"]
    )
    def test_corners_and_depths_within_their_bounds_are_believed(self, shape: Shape) -> None:
        assert wax_shape_faults(wax_shape(shape)) == ()

    def test_a_bowl_may_come_to_a_point_at_its_base(self) -> None:
        pointed = Profile(shape="profile", points=((0.0, 0.0), (12.0, 40.0), (30.0, 55.0)))

        assert wax_shape_faults(wax_shape(pointed)) == ()

    def test_a_brimful_of_more_than_8_percent_beside_the_shape_is_a_warning(self) -> None:
        faults = wax_shape_faults(wax_shape(JAR, brimful_ml=1.0801 * total_ml(JAR)))

        assert faults == (
            Fault(
                path=("brimful",),
                what="brimful 333 ml is more than 8 % off the 308 ml of the shape",
                why="one of the two is wrong, and so is the wax weight",
                fix="measure brimful and the inside again",
                severity=Severity.WARNING,
            ),
        )

    def test_a_brimful_of_more_than_40_percent_beside_the_shape_is_an_error(self) -> None:
        (fault,) = wax_shape_faults(wax_shape(JAR, brimful_ml=10 * total_ml(JAR)))

        assert (fault.path, fault.severity) == (("brimful",), Severity.ERROR)
        assert fault.what == "brimful 3079 ml is more than 40 % off the 308 ml of the shape"

    @pytest.mark.parametrize("share", [0.6001, 1.3999])
    def test_a_brimful_of_just_under_40_percent_beside_the_shape_is_a_warning(self, share: float) -> None:
        (fault,) = wax_shape_faults(wax_shape(JAR, brimful_ml=share * total_ml(JAR)))

        assert fault.severity is Severity.WARNING

    def test_a_brimful_of_just_under_8_percent_beside_the_shape_is_believed(self) -> None:
        assert wax_shape_faults(wax_shape(JAR, brimful_ml=0.9201 * total_ml(JAR))) == ()

    def test_a_brimful_of_nothing_is_an_error(self) -> None:
        assert wax_shape_faults(wax_shape(JAR, brimful_ml=0.0)) == (
            Fault(
                path=("brimful",),
                what="brimful is 0 ml",
                why="a vessel that holds nothing holds no wax",
                fix="brimful: as measured with water; by its shape it is 308 ml",
            ),
        )

    def test_a_displacement_that_leaves_no_room_is_an_error(self) -> None:
        assert wax_shape_faults(wax_shape(JAR, displaced_ml=308.0)) == (
            Fault(
                path=("displaced",),
                what="displaced 308 ml is as much as the vessel holds, 308 ml",
                why="there would be no room for wax",
                fix="displaced: the volume of wick and holder, about 0.5 to 1 ml",
            ),
        )
