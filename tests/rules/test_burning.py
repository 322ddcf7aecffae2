"""How far the papers may go: bases, boundaries, what forbids hours. Printed examples: test_worked_examples."""

from collections.abc import Sequence
from dataclasses import asdict, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.burn_tests import Session
from generator.problems import Fault, Severity
from generator.rules.burning.burn_hours import Evidence, HoursEstimate, burn_hours, hours_claim_faults
from generator.rules.burning.fuel import Fuel
from generator.rules.burning.matching import Match, MatchLevel, Moved

EXACT = Match(level=MatchLevel.EXACT, moved=())
RELATED = Match(level=MatchLevel.RELATED, moved=())
ANOTHER = Match(
    level=MatchLevel.NONE,
    moved=(Moved(field="vessel", tested="jar", now="tin"), Moved(field="wick", tested="1 × a", now="1 × b")),
)
CURED_LESS = Match(level=MatchLevel.NONE, moved=(Moved(field="cure", tested="13 days", now="14 days"),))

# 128 g can burn: a number that halves without a remainder.
JAR = Fuel(net_g=160.0, fill_ml=160, heel_ml=32, level_mm=50, stop_depth_mm=10)


def _piece(
    name: str, loss_g: float = 128.0, rate_g_per_h: float = 8.0, sessions: int = 4
) -> tuple[Session, ...]:
    each_g = loss_g / sessions
    return tuple(
        Session(
            piece=name,
            session=number + 1,
            hours=each_g / rate_g_per_h,
            before_g=500 - number * each_g,
            after_g=500 - (number + 1) * each_g,
            outcome="ok",
        )
        for number in range(sessions)
    )


def _test(*pieces: tuple[Session, ...], match: Match | None = EXACT, file: str = "a.csv") -> Evidence:
    return Evidence(index=0, file=file, sessions=sum(pieces, start=()), match=match)


def _hours(*tests: Evidence) -> HoursEstimate:
    return burn_hours(JAR, 1, tests)[0]


THREE = (_piece("A"), _piece("B"), _piece("C"))


def _mean_h(hours: HoursEstimate) -> float | None:
    return None if hours.mean is None else hours.mean.value


class TestBases:
    """physics.md D3 and D7 (CHOICE), as decided in design.md 6."""

    def test_without_a_test_the_untested_band_is_given(self) -> None:
        hours = _hours()

        assert (hours.basis, hours.claim_h, hours.low_h, _mean_h(hours), hours.high_h) == (
            "untested",
            16,
            16,
            None,
            28,
        )
        assert (hours.estimate, hours.rate_high_g_per_h, hours.sessions) == (None, 8.0, 0)

    def test_exactly_three_whole_pieces_are_a_test(self) -> None:
        hours = _hours(_test(*THREE))

        assert (hours.basis, hours.sessions) == ("tested", 12)

    def test_two_are_provisional(self) -> None:
        assert _hours(_test(*THREE[:2])).basis == "provisional"

    def test_exactly_four_fifths_of_the_wax_is_whole(self) -> None:
        assert _hours(_test(*THREE[:2], _piece("C", loss_g=102.4))).basis == "tested"

    def test_less_is_provisional(self) -> None:
        assert _hours(_test(*THREE[:2], _piece("C", loss_g=96.0))).basis == "provisional"

    def test_exactly_half_of_the_wax_is_provisional(self) -> None:
        assert _hours(_test(_piece("A", loss_g=64.0))).basis == "provisional"

    def test_less_than_half_in_any_piece_is_a_thin_test(self) -> None:
        assert _hours(_test(*THREE, _piece("D", loss_g=63.0))).basis == "thin test"

    def test_fewer_than_three_sessions_in_a_piece_are_provisional(self) -> None:
        assert _hours(_test(*THREE[:2], _piece("C", sessions=2))).basis == "provisional"

    def test_an_untold_candle_is_at_most_provisional(self) -> None:
        assert _hours(_test(*THREE, match=None)).basis == "provisional"

    def test_another_scent_is_provisional_and_allows_for_more_scatter(self) -> None:
        own, other = _hours(_test(*THREE)), _hours(_test(*THREE, match=RELATED))

        assert other.basis == "provisional"
        assert own.estimate is not None
        assert other.estimate is not None
        assert other.estimate.spread.value == 2 * own.estimate.spread.value

    def test_a_test_of_another_build_says_nothing(self) -> None:
        hours = _hours(_test(*THREE, match=ANOTHER))

        assert (hours.basis, hours.pieces) == ("untested", ())

    def test_a_test_of_this_very_candle_takes_the_place_of_others(self) -> None:
        hours = _hours(_test(_piece("A", rate_g_per_h=4), match=RELATED), _test(*THREE, file="b.csv"))

        assert (hours.basis, {piece.file for piece in hours.pieces}) == ("tested", {"b.csv"})

    def test_a_file_listed_twice_counts_once(self) -> None:
        assert asdict(_hours(_test(*THREE[:2]), _test(*THREE[:2]))) == asdict(_hours(_test(*THREE[:2])))


class TestThinTests:
    """physics.md D3: a thin test may only lower the untested figure, never raise it (CHOICE)."""

    def test_a_slow_start_leaves_the_untested_figure(self) -> None:
        hours = _hours(_test(_piece("A", loss_g=32.0, rate_g_per_h=4.0)))

        assert (hours.claim_h, hours.low_h, _mean_h(hours), hours.high_h) == (16, 16, None, 28)
        assert hours.rate_high_g_per_h == 8.0

    def test_a_fast_start_lowers_it(self) -> None:
        """By hand: R 10, drift 1 + 0.2 x 0.75, 1.1281552 for one piece: 12.97 g/h, so 9.87 h of 128 g."""
        hours = _hours(_test(_piece("A", loss_g=32.0, rate_g_per_h=10.0)))

        assert (hours.claim_h, hours.low_h) == (9, 9)
        assert hours.rate_high_g_per_h == pytest.approx(12.97, abs=5e-3)


class TestClaims:
    """physics.md D3: claim = floor(min(hours at the upper bound, the shortest life of a piece))."""

    def test_a_piece_that_went_out_early_sets_the_claim(self) -> None:
        pieces = [_piece(name, rate_g_per_h=5.0) for name in "ABCDEFGHIJK"]
        hours = _hours(_test(*pieces, _piece("L", rate_g_per_h=8.0)))

        assert hours.low_h is not None
        assert hours.low_h > 17
        assert hours.claim_h == 16

    def test_a_makers_figure_up_to_the_claim_passes(self) -> None:
        assert hours_claim_faults(None, _hours()) == hours_claim_faults(16, _hours()) == ()

    def test_a_makers_figure_above_the_claim_is_an_error_naming_both(self) -> None:
        assert hours_claim_faults(16.5, _hours()) == (
            Fault(
                path=("claim_hours",),
                what="claim_hours is 16.5 h; the figures support 16 h (untested)",
                why="some of the candles sold would go out before the printed hours are up",
                fix="claim_hours: at most 16",
            ),
        )

    def test_a_makers_figure_for_a_forbidden_candle_is_an_error(self) -> None:
        tall = replace(THREE[0][0], flame_mm=90.0)

        (fault,) = hours_claim_faults(10, _hours(_test((tall, *THREE[0][1:]))))

        assert fault.what == "claim_hours is 10 h, but no hours can be printed for this candle"
        assert fault.fix == "delete claim_hours until its burn test is sound"


class TestForbidden:
    """design.md 3: a tall flame, a crack or a re-ignition blocks the hours, whatever the rate."""

    def test_a_tall_flame_takes_all_hours_away_and_is_an_error(self) -> None:
        tall = replace(THREE[0][0], flame_mm=75.1)

        hours, faults = burn_hours(JAR, 1, [_test((tall, *THREE[0][1:]), *THREE[1:])])

        assert (hours.claim_h, hours.low_h, _mean_h(hours), hours.high_h) == (None, None, None, None)
        assert [(fault.path, fault.severity) for fault in faults] == [
            (("burn_time", 0, 0, "flame_mm"), Severity.ERROR)
        ]

    @pytest.mark.parametrize(
        "match",
        [EXACT, RELATED, None, CURED_LESS],
        ids=["own", "another scent", "untold", "no longer matching"],
    )
    def test_a_crack_in_any_test_of_the_vessel_blocks(self, match: Match | None) -> None:
        cracked = replace(THREE[0][0], outcome="fault", note="cracked")

        hours, faults = burn_hours(JAR, 1, [_test((cracked,), match=match), _test(*THREE, file="b.csv")])

        assert (hours.claim_h, len(faults)) == (None, 1)

    @pytest.mark.parametrize(
        ("field", "row", "blocks"),
        [
            ("wick", {"outcome": "fault", "note": "cracked"}, True),
            ("vessel", {"outcome": "fault", "note": "cracked"}, False),
            ("vessel", {"flame_mm": 90.0}, True),
            ("vessel", {"outcome": "fault", "note": "re-ignited"}, True),
            ("wick", {"flame_mm": 90.0}, False),
        ],
    )
    def test_a_crack_speaks_of_the_vessel_and_a_flame_of_the_wicks(
        self, field: str, row: dict[str, str | float], blocks: bool
    ) -> None:
        match = Match(level=MatchLevel.NONE, moved=(Moved(field=field, tested="1 × a", now="1 × b"),))
        seen = replace(THREE[0][0], **row)  # type: ignore[arg-type]  # the columns of one row

        hours, _ = burn_hours(JAR, 1, [_test((seen,), match=match), _test(*THREE, file="b.csv")])

        assert hours.forbidden is blocks

    def test_a_crack_in_another_build_does_not(self) -> None:
        cracked = replace(THREE[0][0], outcome="fault", note="cracked")

        hours, faults = burn_hours(JAR, 1, [_test((cracked,), match=ANOTHER), _test(*THREE, file="b.csv")])

        assert (hours.basis, faults) == ("tested", ())

    def test_a_drowned_piece_takes_the_hours_away_until_resolved(self) -> None:
        """physics.md D2."""
        *early, last = _piece("C", loss_g=100.0)

        hours, faults = burn_hours(JAR, 1, [_test(*THREE[:2], (*early, replace(last, outcome="drowned")))])

        assert hours.claim_h is None
        assert faults == (
            Fault(
                path=("burn_time", 0, 11, "outcome"),
                what="piece C drowned with 28 g still to burn",
                why="some of the candles sold would drown too, so no burn hours are printed",
                fix="test again with a larger wick; or, if the piece itself was faulty, outcome: fault and its reason",
                severity=Severity.WARNING,
            ),
        )


def test_two_pieces_that_disagree_widely_have_no_upper_hours() -> None:
    hours = _hours(_test(_piece("A", rate_g_per_h=4.0), _piece("B", rate_g_per_h=12.0)))

    assert hours.high_h is None
    assert hours.low_h is not None


BURNT = st.tuples(
    st.floats(20, 128).map(lambda loss_g: round(loss_g, 1)),
    st.floats(2, 14).map(lambda rate: round(rate, 1)),
    st.integers(1, 5),
)
PIECES = st.lists(BURNT, min_size=1, max_size=5)
MATCHES = st.sampled_from((EXACT, RELATED, None))


def _pieces(burnt: Sequence[tuple[float, float, int]]) -> list[tuple[Session, ...]]:
    return [_piece(name, *one) for name, one in zip("ABCDE", burnt, strict=False)]


class TestEveryTest:
    """Laws that hold for any log."""

    @given(burnt=PIECES, match=MATCHES)
    @settings(max_examples=20)
    def test_low_mean_and_high_stand_in_order(
        self, burnt: list[tuple[float, float, int]], match: Match | None
    ) -> None:
        hours = _hours(_test(*_pieces(burnt), match=match))

        given_h = [h for h in (hours.low_h, _mean_h(hours), hours.high_h) if h is not None]
        assert given_h == sorted(given_h)
        assert hours.claim_h is not None
        assert hours.claim_h <= given_h[0]

    @given(burnt=PIECES, match=MATCHES)
    @settings(max_examples=20)
    def test_a_thin_test_never_raises_the_untested_figure(
        self, burnt: list[tuple[float, float, int]], match: Match | None
    ) -> None:
        thin = _piece("Z", loss_g=60.0, rate_g_per_h=3.0)

        hours = _hours(_test(*_pieces(burnt), thin, match=match))

        assert hours.basis == "thin test"
        assert hours.claim_h is not None
        assert hours.claim_h <= hours.band.low_h

    @given(burnt=PIECES, data=st.data())
    @settings(max_examples=20)
    def test_the_order_of_tests_and_rows_is_irrelevant(
        self, burnt: list[tuple[float, float, int]], data: st.DataObject
    ) -> None:
        one, other = _test(*_pieces(burnt)), _test(*THREE, file="b.csv")
        shuffled = replace(one, sessions=tuple(data.draw(st.permutations(one.sessions))))

        assert asdict(_hours(other, shuffled)) == asdict(_hours(one, other))

    @given(burnt=PIECES)
    @settings(max_examples=20)
    def test_related_evidence_never_claims_more_than_the_same_of_its_own(
        self, burnt: list[tuple[float, float, int]]
    ) -> None:
        own, other = (_hours(_test(*_pieces(burnt), match=match)).claim_h for match in (EXACT, RELATED))

        assert own is not None
        assert other is not None
        assert other <= own


def _excluded_in(*pieces: tuple[Session, ...]) -> tuple[Fault, ...]:
    return burn_hours(JAR, 1, [_test(*pieces)])[1]


class TestWhatDoesNotCount:
    """Whatever is left out of the hours is told, with its reason."""

    def test_a_session_at_fault_is_named_where_it_stands(self) -> None:
        *early, last = _piece("C", sessions=8)

        faults = _excluded_in(*THREE[:2], (*early, replace(last, outcome="fault", note="draught")))

        assert faults == (
            Fault(
                path=("burn_time", 0, 15, "outcome"),
                what="session 8 of piece C, 2 h, does not count: draught",
                why="the burn hours are based on the other rows alone",
                fix="leave the row if it is right, or outcome: ok if the candle burnt as it should",
                severity=Severity.WARNING,
            ),
        )

    def test_a_piece_that_is_dropped_is_named_as_well(self) -> None:
        first, *late = _piece("C")

        _, dropped = _excluded_in(*THREE[:2], (replace(first, outcome="fault", note="draught"), *late))

        assert dropped == Fault(
            path=("burn_time", 0, 8, "piece"),
            what="piece C, 16 h, does not count: 25 % of its hours do not count, more than 20 %",
            why="the burn hours are based on the other rows alone",
            fix="test another piece, without a fault",
            severity=Severity.WARNING,
        )

    def test_a_log_under_two_names_counts_once(self) -> None:
        copy = Evidence(index=1, file="b.csv", sessions=tuple(reversed(THREE[0])), match=EXACT)

        hours, faults = burn_hours(JAR, 1, [_test(THREE[0]), copy])

        assert len(hours.pieces) == 1
        assert faults == (
            Fault(
                path=("burn_time", 1),
                what="b.csv has the same rows as a.csv",
                why="the same candles would count twice, so the rows count once",
                fix="burn_time: a.csv, or enter in b.csv the rows of its own candles",
                severity=Severity.WARNING,
            ),
        )


def test_a_piece_that_drowned_forbids_hours_beside_a_test_of_this_very_candle() -> None:
    """physics.md D2: no claim until it is resolved."""
    *early, last = _piece("D", loss_g=100.0)
    untold = _test((*early, replace(last, outcome="drowned")), match=None, file="b.csv")

    hours, (fault,) = burn_hours(JAR, 1, [_test(*THREE), untold])

    assert (hours.claim_h, {piece.file for piece in hours.pieces}) == (None, {"a.csv"})
    assert fault.what == "piece D drowned with 28 g still to burn"


class TestLessThanAnHour:
    """Whole hours rounded down would print none."""

    @pytest.mark.parametrize("claim_hours", [0.0, 0.5, 0.99])
    def test_a_makers_figure_below_an_hour_is_an_error(self, claim_hours: float) -> None:
        assert hours_claim_faults(claim_hours, _hours()) == (
            Fault(
                path=("claim_hours",),
                what=f"claim_hours is {claim_hours:g} h, less than 1 h",
                why="papers print whole hours, rounded down, and would give a burn time of 0 hours",
                fix="claim_hours: 1 to 16",
            ),
        )

    def test_exactly_an_hour_may_be_claimed(self) -> None:
        assert hours_claim_faults(1, _hours()) == ()

    def test_a_test_so_fast_that_nothing_is_left_gives_no_claim_and_says_so(self) -> None:
        """By hand: 120 g/h makes 128 g last 1.07 h; one piece's 1.128 brings that to 0.95 h."""
        hours, faults = burn_hours(JAR, 1, [_test(_piece("A", rate_g_per_h=120.0))])

        assert (hours.claim_h, hours.forbidden) == (None, False)
        assert faults == (
            Fault(
                path=("burn_time",),
                what="the tests support less than 1 h for the 128.0 g that can burn",
                why="papers print whole hours, rounded down; that would be 0, so they print none",
                fix="burn_time: a new test, with hours and weights as noted while burning",
                severity=Severity.WARNING,
            ),
        )
