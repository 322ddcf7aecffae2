"""The worked examples of physics.md D8, in full: every number printed there (COMPUTED twice, numpy and scipy)."""

from collections.abc import Sequence
from itertools import product
from math import hypot, sqrt
from statistics import fmean, pstdev, quantiles, stdev
from typing import cast

import pytest

from generator.model.burn_tests import Session
from generator.model.candle import Outcome
from generator.problems import is_error
from generator.rules.burning.burn_hours import Evidence, HoursEstimate, burn_hours
from generator.rules.burning.fuel import Fuel
from generator.rules.burning.matching import Match, MatchLevel
from generator.rules.burning.pieces import Piece, life
from generator.rules.burning.quantiles import t_quantile
from generator.rules.burning.rates import RateEstimate, pooled_rate

ONE_A = "4,395.2,377.6; 4,377.6,357.9; 4,357.9,337.3; 4,337.3,316.2; 4,316.2,294.6; 4,294.6,272.5; 3.5,272.5,252.8"
ONE_B = "4,393.9,375.5; 4,375.5,355.0; 4,355.0,333.6; 4,333.6,311.6; 4,311.6,289.1; 4,289.1,266.0; 2.75,266.0,250.1"
ONE_C = (
    "4,396.4,379.6; 4,379.6,360.7; 4,360.7,340.8; 4,340.8,320.5; 4,320.5,299.8; 4,299.8,278.5; "
    "4,278.5,256.7; 0.75,256.7,252.5"
)
TWO_A = "3,512.0,498.2; 4,498.1,477.0; 4,477.0,455.1"
THREE_A = "4,905.0,864.4; 4,864.4,820.8; 4,820.8,775.6; 4,775.6,729.2; 4,729.2,681.7; 3.5,681.7,639.4"
THREE_B = (
    "4,901.5,862.9; 4,862.9,821.5; 4,821.5,778.4; 2.5,778.4,752.1,fault; 4,752.1,707.9; 4,707.9,662.6; "
    "2.5,662.6,634.1,self_extinguished_at_heel"
)

# A test without reservation of the very candle.
EXACT = Match(level=MatchLevel.EXACT, moved=())


def _log(piece: str, rows: str) -> tuple[Session, ...]:
    def session(number: int, row: str) -> Session:
        hours, before, after, *outcome = row.split(",")
        return Session(
            piece=piece,
            session=number,
            hours=float(hours),
            before_g=float(before),
            after_g=float(after),
            outcome=cast("Outcome", outcome[0] if outcome else "ok"),
            note="draught" if outcome == ["fault"] else "",
        )

    return tuple(session(number, row.strip()) for number, row in enumerate(rows.split(";"), 1))


def _hours(burnable_g: float, wicks: int, *logs: tuple[Session, ...]) -> HoursEstimate:
    heel_g = 52.0
    fuel = Fuel(
        net_g=burnable_g + heel_g,
        fill_ml=burnable_g + heel_g,
        heel_ml=heel_g,
        level_mm=53.244,
        stop_depth_mm=12.7,
    )
    test = Evidence(index=0, file="example.csv", sessions=sum(logs, start=()), match=EXACT)
    hours, faults = burn_hours(fuel, wicks, (test,))
    assert not any(map(is_error, faults))
    return hours


def _estimate(hours: HoursEstimate) -> RateEstimate:
    assert hours.estimate is not None
    return hours.estimate


def _rate(pieces: Sequence[Piece]) -> float:
    return pooled_rate([piece.loss_g for piece in pieces], [piece.hours for piece in pieces]).value


def _lives(hours: HoursEstimate) -> list[float]:
    return [life(1, piece.hours, hours.burnable_g, piece.loss_g).value for piece in hours.pieces]


def _mean_h(hours: HoursEstimate) -> float:
    assert hours.mean is not None
    return hours.mean.value


@pytest.fixture(name="one", scope="module")
def _one() -> HoursEstimate:
    return _hours(141.39798, 1, _log("A", ONE_A), _log("B", ONE_B), _log("C", ONE_C))


@pytest.fixture(name="three", scope="module")
def _three() -> HoursEstimate:
    return _hours(262.0, 2, _log("A", THREE_A), _log("B", THREE_B))


class TestExampleOne:
    """Three whole pieces of the 70 mm jar: TESTED, 24 h."""

    def test_pieces_add_up_to_the_printed_weights_hours_and_rates(self, one: HoursEstimate) -> None:
        assert [piece.loss_g for piece in one.pieces] == pytest.approx([142.4, 143.8, 143.9], abs=1e-9)
        assert [piece.hours for piece in one.pieces] == [27.5, 26.75, 28.75]
        rates = [piece.rate_g_per_h for piece in one.pieces]
        assert rates == pytest.approx([5.178182, 5.375701, 5.005217], abs=5e-7)

    def test_the_pooled_rate_is_as_printed(self, one: HoursEstimate) -> None:
        assert _estimate(one).rate_g_per_h == pytest.approx(5.181928, abs=5e-7)

    def test_leaving_out_one_piece_at_a_time_gives_nearly_the_same_error(self, one: HoursEstimate) -> None:
        """Jackknife 0.1072732; sd / sqrt(n) 0.1070277; by the linearised error that the reference prints 0.1071097."""
        without = [_rate([p for p in one.pieces if p is not left]) for left in one.pieces]
        jackknife = sqrt(2 / 3 * sum((rate - fmean(without)) ** 2 for rate in without))
        plain = stdev(piece.rate_g_per_h for piece in one.pieces) / sqrt(3)

        assert jackknife == pytest.approx(0.1072732, abs=5e-8)
        assert plain == pytest.approx(0.1070277, abs=5e-8)
        assert jackknife == pytest.approx(0.1071097, rel=0.002)

    def test_pieces_scatter_as_printed(self, one: HoursEstimate) -> None:
        deviation = _estimate(one).deviation

        assert deviation is not None
        assert deviation.value == pytest.approx(0.1853773, abs=5e-8)
        assert 100 * deviation.value / _estimate(one).rate_g_per_h == pytest.approx(3.577, abs=5e-4)

    def test_the_quantile_of_two_degrees_is_as_printed(self) -> None:
        assert t_quantile(0.975, 2) == pytest.approx(4.302653, abs=5e-7)

    def test_the_bounds_for_one_new_candle_are_as_printed(self, one: HoursEstimate) -> None:
        estimate = _estimate(one)

        assert estimate.spread.value == pytest.approx(0.2590964, abs=5e-8)
        assert (
            estimate.rate_high_g_per_h,
            estimate.rate_low_g_per_h,
        ) == pytest.approx((5.746065, 4.617791), abs=5e-7)

    def test_the_floor_under_the_scatter_lowers_the_hours(self, one: HoursEstimate) -> None:
        """The reference prints 5.585632 without the floor; it is R + t sqrt(sd^2 + SE^2), with SE for s / sqrt(n).

        By its own formula, R + t s sqrt(1 + 1/n), the bound without the floor is 5.585554.
        """
        estimate = _estimate(one)
        assert estimate.deviation is not None
        error_g_per_h = 0.1071097

        as_printed = estimate.rate_g_per_h + t_quantile(0.90, 2) * hypot(
            estimate.deviation.value, error_g_per_h
        )
        without_floor = estimate.rate_g_per_h + estimate.factor * estimate.deviation.value

        assert as_printed == pytest.approx(5.585632, abs=5e-7)
        assert without_floor == pytest.approx(as_printed, abs=1e-4)
        assert without_floor < estimate.rate_high_g_per_h

    def test_the_hours_are_as_printed(self, one: HoursEstimate) -> None:
        lives = _lives(one)

        assert (_mean_h(one), one.low_h, one.high_h) == pytest.approx(
            (27.28675, 24.60780, 30.62026), abs=5e-6
        )
        assert lives == pytest.approx([27.30649, 26.30317, 28.25012], abs=5e-6)

    def test_the_claim_is_24_hours_tested(self, one: HoursEstimate) -> None:
        assert (one.claim_h, one.basis, one.band.low_h) == (24, "tested", 17)

    def test_all_27_resamples_of_the_pieces_spread_as_printed(self, one: HoursEstimate) -> None:
        rates = [_rate(drawn) for drawn in product(one.pieces, repeat=3)]
        twentieths = quantiles(rates, n=20, method="inclusive")

        assert fmean(rates) == pytest.approx(5.183412, abs=5e-7)
        assert pstdev(rates) == pytest.approx(0.08747053, abs=5e-9)
        assert (twentieths[0], twentieths[-1]) == pytest.approx((5.061176, 5.308642), abs=5e-7)


def test_example_1b_one_whole_piece_is_provisional() -> None:
    """The reference's bound 5.841792 is cut after six decimals, not rounded: 142.4 / 27.5 x 1.1281552 = 5.8417925."""
    one = _hours(141.39798, 1, _log("A", ONE_A))

    assert (_estimate(one).coverage, _estimate(one).drifting) == (1.0, 1.0)
    assert one.rate_high_g_per_h == pytest.approx(5.841792, abs=1e-6)
    assert one.low_h == pytest.approx(24.2046, abs=5e-5)
    assert (one.claim_h, one.basis) == (24, "provisional")


class TestExampleTwo:
    """A thin test: 0.23 of the wax burnt, so it may only lower the untested 31 h."""

    def test_the_piece_adds_up_as_printed(self) -> None:
        (piece,) = _hours(248.0, 1, _log("A", TWO_A)).pieces

        assert (piece.loss_g, piece.hours) == pytest.approx((56.8, 11.0), abs=1e-9)
        assert [burn.loss_g / burn.hours for burn in piece.burns] == pytest.approx(
            [4.600, 5.275, 5.475], abs=5e-4
        )
        assert piece.coverage == pytest.approx(0.2290323, abs=5e-8)

    def test_the_rate_drifts_as_printed(self) -> None:
        estimate = _estimate(_hours(248.0, 1, _log("A", TWO_A)))

        assert estimate.rate_g_per_h == pytest.approx(5.163636, abs=5e-7)
        assert estimate.drifting == pytest.approx(1.154194, abs=5e-7)
        assert estimate.rate_high_g_per_h == pytest.approx(6.723619, abs=5e-7)

    def test_31_hours_are_printed_not_36_and_not_48(self) -> None:
        two = _hours(248.0, 1, _log("A", TWO_A))

        assert two.burnable_g / _estimate(two).rate_high_g_per_h == pytest.approx(36.88490, abs=5e-6)
        assert two.burnable_g / _estimate(two).rate_g_per_h == pytest.approx(48.02817, abs=5e-6)
        assert (two.claim_h, two.basis) == (31, "thin test")


class TestExampleThree:
    """Two pieces with two wicks, one session left out: provisional, 20 h."""

    def test_pieces_add_up_to_the_printed_weights_hours_and_rates(self, three: HoursEstimate) -> None:
        assert [piece.loss_g for piece in three.pieces] == pytest.approx([265.6, 241.1], abs=1e-9)
        assert [piece.hours for piece in three.pieces] == [23.5, 22.5]
        rates = [piece.rate_g_per_h for piece in three.pieces]
        assert rates == pytest.approx([11.302128, 10.715556], abs=5e-7)

    def test_the_rate_is_as_printed(self, three: HoursEstimate) -> None:
        estimate = _estimate(three)

        assert (
            estimate.rate_g_per_h,
            estimate.rate_g_per_h / 2,
        ) == pytest.approx((11.015217, 5.507609), abs=5e-7)

    def test_the_bound_for_one_new_candle_is_as_printed(self, three: HoursEstimate) -> None:
        estimate = _estimate(three)

        assert estimate.deviation is not None
        assert (estimate.deviation.value, estimate.spread.value) == pytest.approx(
            (0.4147691, 0.5507609), abs=5e-8
        )
        assert t_quantile(0.90, 1) == pytest.approx(3.077684, abs=5e-7)
        assert estimate.rate_high_g_per_h == pytest.approx(13.091243, abs=5e-7)

    def test_the_hours_are_as_printed(self, three: HoursEstimate) -> None:
        lives = _lives(three)

        assert (_mean_h(three), three.low_h) == pytest.approx((23.78528, 20.01338), abs=5e-6)
        assert lives == pytest.approx([23.18148, 24.45044], abs=5e-6)
        assert (three.claim_h, three.basis) == (20, "provisional")

    def test_the_session_in_a_draught_is_left_out_and_named(self, three: HoursEstimate) -> None:
        """2.5 of 25 h are a tenth of the piece's hours, so the piece stays; with the row its rate were 10.696."""
        every_row = _log("B", THREE_B.replace(",fault", ""))
        with_it = _hours(262.0, 2, every_row).pieces[0]

        assert three.excluded == ("example.csv: session 4 of piece B, 2.5 h: draught",)
        assert with_it.rate_g_per_h == pytest.approx(10.696, abs=5e-4)
