"""Whether a burn test still speaks for a candle."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.problems import Fault, Severity
from generator.rules.burning.matching import (
    BurnProfile,
    Match,
    MatchLevel,
    Moved,
    WickFit,
    compare,
    match_faults,
)

WICK = WickFit(id="braid-24", count=1, core="none", trim_mm=6.0)
TESTED = BurnProfile(
    container="tumbler-30",
    material="glass",
    inner_diameter_mm=74.0,
    net_g=240.0,
    stop_depth_mm=12.7,
    wicks=(WICK,),
    waxes=(("paraffin", 0.41), ("soy", 0.5)),
    fragrances=(("samphire", 0.08),),
    additives=(("charcoal", 0.002), ("uv-absorber", 0.008)),
    cure_h=336.0,
)


def _level(now: BurnProfile) -> MatchLevel:
    return compare(TESTED, now).level


def test_the_same_candle_matches() -> None:
    assert compare(TESTED, TESTED) == Match(level=MatchLevel.EXACT, moved=())


@pytest.mark.parametrize(
    "now",
    [
        pytest.param(replace(TESTED, inner_diameter_mm=75.0), id="1 mm wider"),
        pytest.param(replace(TESTED, net_g=252.0), id="5 % heavier"),
        pytest.param(replace(TESTED, net_g=228.0), id="5 % lighter"),
        pytest.param(replace(TESTED, stop_depth_mm=11.7), id="1 mm deeper"),
        pytest.param(replace(TESTED, waxes=(("paraffin", 0.43), ("soy", 0.48))), id="2 points of wax"),
        pytest.param(replace(TESTED, fragrances=(("samphire", 0.085),)), id="half a point of fragrance"),
        pytest.param(
            replace(TESTED, additives=(("charcoal", 0.003), ("uv-absorber", 0.007))), id="0.1 point"
        ),
        pytest.param(replace(TESTED, cure_h=240.0), id="a shorter cure asked for"),
        pytest.param(replace(TESTED, cure_h=None), id="no cure asked for"),
    ],
)
def test_a_candle_moved_by_exactly_the_tolerance_still_matches(now: BurnProfile) -> None:
    """physics.md D7 (CHOICE)."""
    assert _level(now) is MatchLevel.EXACT


@pytest.mark.parametrize(
    ("now", "moved"),
    [
        (replace(TESTED, container="tin-20"), "vessel was tumbler-30, is tin-20"),
        (replace(TESTED, material="tin"), "vessel material was glass, is tin"),
        (replace(TESTED, inner_diameter_mm=75.1), "inner diameter was 74 mm, is 75.1 mm"),
        (replace(TESTED, net_g=252.1), "net weight was 240.0 g, is 252.1 g"),
        (replace(TESTED, stop_depth_mm=10.0), "stop depth was 12.7 mm, is 10 mm"),
        (replace(TESTED, wicks=(replace(WICK, count=2),)), "wick was 1 × braid-24, is 2 × braid-24"),
        (replace(TESTED, wicks=(replace(WICK, core="zinc"),)), "wick core was none, is zinc"),
        (replace(TESTED, wicks=(replace(WICK, trim_mm=8.0),)), "wick trim was 6 mm, is 8 mm"),
        (replace(TESTED, waxes=(("paraffin", 0.389), ("soy", 0.5))), "wax paraffin was 41 %, is 38.9 %"),
        (replace(TESTED, cure_h=360.0), "cure was 14 days, is 15 days"),
    ],
    ids=lambda case: case.split(" was")[0] if isinstance(case, str) else "",
)
def test_a_candle_moved_further_is_named_with_both_values_and_matches_no_more(
    now: BurnProfile, moved: str
) -> None:
    match = compare(TESTED, now)

    assert ([str(one) for one in match.moved], match.level) == ([moved], MatchLevel.NONE)


def test_a_material_put_in_or_left_out_is_named_as_absent() -> None:
    now = replace(TESTED, additives=(("stearin", 0.015), ("uv-absorber", 0.008)))

    assert compare(TESTED, now).moved == (
        Moved(field="additive charcoal", tested="0.2 %", now="absent"),
        Moved(field="additive stearin", tested="absent", now="1.5 %"),
    )


def test_a_trace_of_another_colour_leaves_the_test_standing() -> None:
    """Six drops in a kilogram, 0.017 %, are within the tolerance for additives (CHOICE)."""
    now = replace(TESTED, additives=(*TESTED.additives, ("madder", 0.00017)))

    assert compare(TESTED, now).level is MatchLevel.EXACT


def test_a_cure_that_nobody_wrote_down_cannot_be_relied_on() -> None:
    match = compare(replace(TESTED, cure_h=None), TESTED)

    assert match.moved == (Moved(field="cure", tested="not written down", now="14 days"),)
    assert match.level is MatchLevel.NONE


class TestAnotherScent:
    """physics.md D7: only the fragrance differs, its load within 1 point: RELATED (CHOICE)."""

    def test_another_fragrance_at_the_same_load_is_related(self) -> None:
        match = compare(TESTED, replace(TESTED, fragrances=(("cedar", 0.08),)))

        assert match.level is MatchLevel.RELATED
        assert [str(one) for one in match.moved] == [
            "fragrance cedar was absent, is 8 %",
            "fragrance samphire was 8 %, is absent",
        ]

    @pytest.mark.parametrize("load", [0.07, 0.09])
    def test_a_load_moved_by_exactly_one_point_is_related(self, load: float) -> None:
        assert _level(replace(TESTED, fragrances=(("cedar", load),))) is MatchLevel.RELATED

    @pytest.mark.parametrize("load", [0.0695, 0.0905])
    def test_a_load_moved_further_matches_no_more(self, load: float) -> None:
        assert _level(replace(TESTED, fragrances=(("cedar", load),))) is MatchLevel.NONE

    def test_an_unscented_candle_is_not_the_same_in_another_scent(self) -> None:
        assert _level(replace(TESTED, fragrances=())) is MatchLevel.NONE

    def test_the_same_fragrance_at_another_load_is_related(self) -> None:
        assert _level(replace(TESTED, fragrances=(("samphire", 0.086),))) is MatchLevel.RELATED

    def test_another_scent_in_another_vessel_matches_no_more(self) -> None:
        now = replace(TESTED, container="tin-20", fragrances=(("cedar", 0.08),))

        assert _level(now) is MatchLevel.NONE

    def test_two_fragrances_that_each_moved_a_little_may_move_the_load(self) -> None:
        tested = replace(TESTED, fragrances=(("cedar", 0.04), ("samphire", 0.04)))

        match = compare(tested, replace(TESTED, fragrances=(("cedar", 0.044), ("samphire", 0.044))))

        assert match.level is MatchLevel.RELATED
        assert match.moved == (Moved(field="fragrance load", tested="8 %", now="8.8 %"),)


class TestWarnings:
    """The maker is told which field moved, from what, to what."""

    def test_a_test_that_matches_needs_none(self) -> None:
        assert match_faults(0, "burn-tests/SS-30.csv", compare(TESTED, TESTED)) == ()

    def test_a_test_that_no_longer_matches_names_every_field(self) -> None:
        now = replace(TESTED, container="tin-20", wicks=(replace(WICK, count=2),))

        assert match_faults(1, "burn-tests/SS-30.csv", compare(TESTED, now)) == (
            Fault(
                path=("burn_time", 1),
                what="burn-tests/SS-30.csv no longer matches the candle: vessel was tumbler-30, is tin-20; "
                "wick was 1 × braid-24, is 2 × braid-24",
                why="wax, wick and vessel set the burn rate, so its burn hours are estimated, not tested",
                fix="burn_time: a new test of the candle as it is made now",
                severity=Severity.WARNING,
            ),
        )

    def test_a_test_in_another_scent_is_called_that(self) -> None:
        match = compare(TESTED, replace(TESTED, fragrances=(("cedar", 0.08),)))

        (fault,) = match_faults(0, "burn-tests/SS-30.csv", match)

        assert fault.what == (
            "burn-tests/SS-30.csv tested the same candle in another scent: "
            "fragrance cedar was absent, is 8 %; fragrance samphire was 8 %, is absent"
        )
        assert fault.why.endswith("so its burn hours are only provisional")

    def test_a_test_of_an_untold_candle_is_remarked_on(self) -> None:
        assert match_faults(0, "burn-tests/SS-30.csv", None) == (
            Fault(
                path=("burn_time", 0),
                what="burn-tests/SS-30.csv does not say which candle was tested",
                why="changes to the recipe would go unnoticed, so its burn hours are only provisional",
                fix="tested_as: the vessel, wick and ingredients that were burnt, in the .yaml beside the table",
                severity=Severity.WARNING,
            ),
        )


@given(order=st.permutations(range(2)))
@settings(max_examples=5)
def test_the_order_of_materials_and_wicks_is_irrelevant(order: list[int]) -> None:
    wicks = (WICK, replace(WICK, id="braid-30"))
    tested = replace(TESTED, wicks=wicks)

    now = replace(
        tested,
        wicks=tuple(wicks[place] for place in order),
        waxes=tuple(TESTED.waxes[place] for place in order),
        additives=tuple(TESTED.additives[place] for place in order),
    )

    assert compare(tested, now).level is MatchLevel.EXACT


def test_a_candle_without_a_wick_is_told_in_a_word() -> None:
    match = compare(replace(TESTED, wicks=()), TESTED)

    assert [str(moved) for moved in match.moved] == [
        "wick was none, is 1 × braid-24",
        "wick trim was none, is 6 mm",
    ]


def test_what_was_seen_on_vessel_and_wicks_still_holds_when_something_else_moved() -> None:
    other_vessel = compare(TESTED, replace(TESTED, container="tin-20"))
    other_wicks = compare(TESTED, replace(TESTED, wicks=(replace(WICK, count=2),)))
    cured_less = compare(replace(TESTED, cure_h=1.0), replace(TESTED, cure_h=2.0))

    assert (other_vessel.same_vessel, other_vessel.same_wicks) == (False, True)
    assert (other_wicks.same_vessel, other_wicks.same_wicks) == (True, False)
    assert (cured_less.level, cured_less.same_vessel, cured_less.same_wicks) == (MatchLevel.NONE, True, True)
