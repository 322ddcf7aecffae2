"""How full a candle is, what its wax comes to, and fills that cannot be true."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.formats import Fill, Level
from generator.model.materials import WaxDensity
from generator.model.quantities import DensityAt
from generator.problems import Fault, Severity
from generator.rules.calculation import Calculation
from generator.rules.wax.fill import FillResult, cold_volume, fill_result
from generator.rules.wax.geometry import level_mm, total_ml, volume_ml
from tests.references import JAR, TAPERED, Printed
from tests.rules.entries import COCONUT, OIL, SCENTED_SOY, SOY, blended, build, formula, wax_shape

BLEND = blended(SCENTED_SOY)
SET_G_PER_ML = BLEND.density_set.value
TO_THE_LINE = Fill(to_mm=53.244, level=Level.SET)
NET_G = 6.55 * 28.349523125
"""6.55 oz, the 185.689 g of physics.md A5."""

SOY_AND_COCONUT = formula(
    {SOY: "70 parts", COCONUT: "22 parts"}, {replace(OIL, density_g_per_ml=1.020): "8 % of total"}
)
"""B2 of physics.md A4."""

LEVELS = st.floats(min_value=5.0, max_value=80.0)


def finish_of(fill: Fill, brimful_ml: float | None = None, displaced_ml: float | None = None) -> FillResult:
    jar = wax_shape(brimful_ml=brimful_ml, displaced_ml=displaced_ml)
    filled, faults = fill_result(build(fill, jar), BLEND)
    if filled is None:
        raise ValueError(faults)
    return filled


class TestLevels:
    def test_a_set_line_is_the_finished_level(self) -> None:
        filled = finish_of(TO_THE_LINE)

        assert filled.level_set_mm == pytest.approx(53.244, abs=1e-6)
        assert Printed("204.907", "physics.md A5 (COMPUTED)").agrees_with(filled.volume_ml)
        assert Printed("185.689", "physics.md A5 (COMPUTED)").agrees_with(filled.computed_g)

    def test_a_distance_from_the_rim_is_the_same_line_from_above(self) -> None:
        below = finish_of(Fill(below_rim_mm=80.0 - 53.244, level=Level.SET))

        assert below.computed_g == pytest.approx(finish_of(TO_THE_LINE).computed_g)

    def test_a_weight_is_the_level_that_holds_it(self) -> None:
        filled = finish_of(Fill(weight_g=NET_G))

        assert Printed("53.244", "physics.md A5 (COMPUTED)").agrees_with(filled.level_set_mm)
        assert filled.computed_g == pytest.approx(NET_G)

    def test_a_volume_of_set_wax_needs_no_line(self) -> None:
        filled = finish_of(Fill(volume_ml=200.0, level=Level.SET))

        assert (filled.volume_ml, filled.computed_g) == pytest.approx((200.0, 200.0 * SET_G_PER_ML))

    def test_a_hot_pour_weighs_less_and_sets_lower_as_in_the_reference(self) -> None:
        """The reference takes the line at 6.55 oz of set wax, 53.244 mm, and the oil at 0.935 g/ml when hot."""
        line_mm = level_mm(JAR, NET_G / 0.9062118)
        hot_ml = volume_ml(JAR, line_mm)

        cold_ml = cold_volume(Calculation("hot_ml", {"hot_ml": hot_ml}), 0.8751084, 0.9062118).value

        assert hot_ml * 0.8751084 == pytest.approx(179.316071, abs=2e-5)  # Densities to seven places.
        assert level_mm(JAR, cold_ml) == pytest.approx(51.416624, abs=5e-6)

    def test_the_heel_below_half_an_inch_is_that_of_the_reference(self) -> None:
        heel_g = volume_ml(JAR, 12.7) * SET_G_PER_ML

        assert heel_g == pytest.approx(44.291397, abs=2e-6)  # physics.md G25 (COMPUTED), oil to four places.
        assert NET_G - heel_g == pytest.approx(141.397979, abs=2e-6)

    def test_a_tapered_glass_weighs_what_the_reference_says(self) -> None:
        """Physics.md D5: the cone filled to 70 mm with blend B2 (COMPUTED)."""
        glass = build(Fill(to_mm=70.0, level=Level.SET), wax_shape(TAPERED), SOY_AND_COCONUT)

        filled, _ = fill_result(glass, blended(SOY_AND_COCONUT))

        assert filled is not None
        assert Printed("241.465", "physics.md D5 (COMPUTED)").agrees_with(filled.volume_ml)
        assert Printed("220.185", "physics.md D5 (COMPUTED)").agrees_with(filled.computed_g)

    def test_a_poured_line_keeps_the_weight_of_the_hot_wax(self) -> None:
        filled = finish_of(Fill(to_mm=53.244, level=Level.POURED, at_c=75.0))
        molten_g_per_ml = BLEND.density_molten(75.0).value

        assert filled.computed_g == pytest.approx(volume_ml(JAR, 53.244) * molten_g_per_ml)
        assert filled.volume_ml == pytest.approx(filled.computed_g / SET_G_PER_ML)

    @settings(max_examples=20, deadline=None)
    @given(LEVELS, st.floats(min_value=60.0, max_value=120.0))
    def test_wax_poured_hot_to_a_line_sets_below_it(self, line: float, at_c: float) -> None:
        filled = finish_of(Fill(to_mm=line, level=Level.POURED, at_c=at_c))

        assert filled.level_set_mm < line

    @settings(max_examples=20, deadline=None)
    @given(LEVELS)
    def test_the_wax_never_weighs_more_than_the_vessel_holds(self, line: float) -> None:
        filled = finish_of(Fill(to_mm=line, level=Level.SET))

        assert 0 < filled.computed_g <= total_ml(JAR) * SET_G_PER_ML

    def test_a_measured_brimful_moves_the_weight_with_it(self) -> None:
        filled = finish_of(TO_THE_LINE, brimful_ml=0.9 * total_ml(JAR))

        assert filled.computed_g == pytest.approx(0.9 * finish_of(TO_THE_LINE).computed_g)

    def test_wick_and_holder_take_their_room_from_the_wax(self) -> None:
        filled = finish_of(TO_THE_LINE, displaced_ml=0.8)

        assert filled.volume_ml == pytest.approx(volume_ml(JAR, 53.244) - 0.8)
        assert filled.level_set_mm == pytest.approx(53.244, abs=1e-6)

    def test_a_fill_up_to_the_rim_is_allowed(self) -> None:
        filled = finish_of(Fill(to_mm=80.0, level=Level.SET), brimful_ml=300.0, displaced_ml=0.7)

        assert filled.level_set_mm == pytest.approx(80.0, abs=1e-6)


OVER_WHY = "the printed wax weight would be more than the vessel holds"
EXAMPLE = "fill: {to: ... mm, level: set or poured}"
FILLS_AT_FAULT: dict[str, tuple[Fill | None, tuple[str, ...], str, str, str]] = {
    "no fill": (
        None,
        (),
        "fill has none of to, below_rim, weight and volume",
        "there would be no net weight",
        EXAMPLE,
    ),
    "no form": (
        Fill(level=Level.SET),
        (),
        "fill has none of to, below_rim, weight and volume",
        "there would be no net weight",
        EXAMPLE,
    ),
    "two forms": (
        Fill(to_mm=50.0, weight_g=180.0),
        ("weight",),
        "fill has both to and weight",
        "they may not agree, and only one can give the net weight",
        "keep one of the two",
    ),
    "no level": (
        Fill(to_mm=50.0),
        (),
        "fill to has no level",
        "wax poured hot to a line sets 3 to 15 % lower, and weighs that much less",
        "level: set (the cold surface), or level: poured with at: ... C",
    ),
    "a weight with a level": (
        Fill(weight_g=180.0, level=Level.SET),
        ("level",),
        "fill has both a weight and a level",
        "wax weighs the same hot and cold, so the level does nothing",
        "fill: {weight: 180 g}",
    ),
    "poured at no temperature": (
        Fill(to_mm=50.0, level=Level.POURED),
        (),
        "the poured line has no temperature",
        "hotter wax is lighter, so the net weight depends on it",
        "at: ... C",
    ),
    "a temperature of a set line": (
        Fill(to_mm=50.0, level=Level.SET, at_c=75.0),
        ("at",),
        "fill has a temperature, 75 C, but no poured line",
        "if the wax was poured hot to the line, the candle weighs 3 to 15 % less",
        "level: poured, or delete at",
    ),
    "poured at a room's temperature": (
        Fill(to_mm=50.0, level=Level.POURED, at_c=20.0),
        ("at",),
        "20 C is not between 30 and 120 C",
        "below that no wax is molten; above it wax may smoke and catch fire",
        "at: the temperature of the pour",
    ),
    "above the rim": (
        Fill(to_mm=80.5, level=Level.SET),
        ("to",),
        "fill to 80.5 mm is above the vessel's inside height of 80 mm",
        OVER_WHY,
        "to: at most 80 mm, or correct the vessel",
    ),
    "below the base": (
        Fill(below_rim_mm=81.0, level=Level.SET),
        ("below_rim",),
        "fill below_rim 81 mm is more than the vessel's inside height of 80 mm",
        "there would be no wax in it",
        "below_rim: the distance from the rim down to the wax",
    ),
    "more than brimful": (
        Fill(volume_ml=308.0, level=Level.SET),
        ("volume",),
        "fill volume 308 ml is more than the 307.9 ml the vessel holds",
        OVER_WHY,
        "volume: at most 307 ml, or correct the vessel",
    ),
    "heavier than brimful": (
        Fill(weight_g=280.0),
        ("weight",),
        "fill weight 280 g is 311.1 ml of set wax, more than the 307.9 ml the vessel holds",
        "the wax would run over the rim",
        "weight: at most 277 g, or correct the vessel",
    ),
    "next to nothing": (
        Fill(to_mm=0.0, level=Level.SET),
        ("to",),
        "fill to 0 mm makes a candle of 0.0 g",
        "with less than 10 g of wax there would be no net weight to print and nothing to burn",
        EXAMPLE,
    ),
}


class TestFillsThatCannotBeTrue:
    @pytest.mark.parametrize(
        ("fill", "at", "what", "why", "fix"), FILLS_AT_FAULT.values(), ids=FILLS_AT_FAULT.keys()
    )
    def test_a_fill_at_fault_is_told_where_and_why(
        self, fill: Fill | None, at: tuple[str, ...], what: str, why: str, fix: str
    ) -> None:
        plain = formula({SOY: "1000 g"})

        filled, faults = fill_result(build(fill, recorded=plain), blended(plain))

        assert filled is None
        assert faults == (Fault(path=("fill", *at), what=what, why=why, fix=fix),)

    def test_a_pour_as_dense_as_the_set_wax_is_an_error(self) -> None:
        density = WaxDensity(set_g_per_ml=0.900, molten=DensityAt(0.895, 60.0))
        plain = formula({replace(SOY, density=density): "1000 g"})
        lukewarm = Fill(to_mm=50.0, level=Level.POURED, at_c=40.0)

        filled, faults = fill_result(build(lukewarm, recorded=plain), blended(plain))

        assert filled is None
        assert faults == (
            Fault(
                path=("fill", "at"),
                what="at 40 C the molten wax would be 0.908 g/ml, no lighter than set wax at 0.900 g/ml",
                why="wax shrinks as it sets, so the temperature or a density is wrong",
                fix="at: the pouring temperature, or correct the wax's density",
            ),
        )

    def test_a_vessel_at_fault_is_told_with_its_path(self) -> None:
        flat = wax_shape(replace(JAR, height_mm=0.0))

        filled, faults = fill_result(build(TO_THE_LINE, flat), BLEND)

        assert filled is None
        assert [fault.path for fault in faults] == [("vessel", "inside", "height")]

    def test_a_doubtful_vessel_is_told_beside_its_finish(self) -> None:
        doubtful = wax_shape(brimful_ml=400.0)

        filled, faults = fill_result(build(TO_THE_LINE, doubtful), BLEND)

        assert filled is not None
        assert [(fault.path, fault.severity) for fault in faults] == [
            (("vessel", "brimful"), Severity.WARNING)
        ]


@pytest.mark.parametrize(
    "fill",
    [Fill(to_mm=60.0, level=Level.SET), Fill(below_rim_mm=20.0, level=Level.SET)],
    ids=["to", "below the rim"],
)
def test_a_set_line_is_the_level_exactly_as_written(fill: Fill) -> None:
    filled, _ = fill_result(build(fill, wax_shape(brimful_ml=300.0, displaced_ml=1.0)), BLEND)

    assert filled is not None
    assert filled.level_set_mm == 60.0
