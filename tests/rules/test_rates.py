"""The rate from several pieces, one piece, part of a life, another scent."""

from math import sqrt
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.rules.burning.pieces import Piece
from generator.rules.burning.quantiles import one_more_factor
from generator.rules.burning.rates import drift_factor, estimate_rate
from generator.rules.calculation import Calculation

BURNT = st.tuples(st.floats(20, 400), st.floats(4, 60), st.floats(0.1, 1))


def _piece(loss_g: float, hours: float, coverage: float = 1.0) -> Piece:
    return Piece(
        file="a.csv",
        name="A",
        burns=(),
        loss_g=loss_g,
        hours=hours,
        rate_g_per_h=loss_g / hours,
        coverage=coverage,
    )


def _value(calculation: Calculation | None) -> float:
    assert calculation is not None
    return calculation.value


ALIKE = (_piece(100, 20), _piece(100, 20), _piece(100, 20))


def test_pieces_that_agree_by_luck_are_given_a_scatter_of_a_twentieth() -> None:
    """physics.md D3 (CHOICE)."""
    estimate = estimate_rate(ALIKE, related=False)

    assert (_value(estimate.deviation), estimate.spread.value) == (0.0, 0.25)
    assert estimate.rate_high_g_per_h == 5 + one_more_factor(3, 0.90) * 0.25


def test_pieces_of_another_scent_are_given_twice_that() -> None:
    """physics.md D7 (CHOICE)."""
    assert estimate_rate(ALIKE, related=True).spread.value == 0.5


def test_one_piece_of_another_scent_is_given_twice_the_scatter_of_one_piece() -> None:
    own, other = (estimate_rate((_piece(100, 20),), related=related) for related in (False, True))

    assert (own.spread.value, other.spread.value) == (0.5, 1.0)
    assert own.rate_high_g_per_h == 5 * (1 + NormalDist().inv_cdf(0.90) * 0.10)


def test_scatter_above_the_floor_is_taken_as_it_is() -> None:
    estimate = estimate_rate((_piece(80, 20), _piece(120, 20)), related=True)

    assert estimate.spread.value == _value(estimate.deviation) == sqrt(2)


def test_one_piece_has_no_deviation() -> None:
    assert estimate_rate((_piece(100, 20),), related=False).deviation is None


def test_several_pieces_drift_only_where_the_least_of_them_burnt_too_little() -> None:
    """design.md: (R + k s) drift, coverage the least of the pieces; exactly 0.8 is enough."""
    enough = estimate_rate((_piece(100, 20, 0.8), _piece(100, 20)), related=False)
    short = estimate_rate((_piece(100, 20, 0.75), _piece(100, 20)), related=False)

    assert enough.drift is None
    assert short.drifting == drift_factor(0.75).value == 1.05
    assert short.rate_high_g_per_h == enough.rate_high_g_per_h * 1.05


def test_one_piece_drifts_by_whatever_it_left() -> None:
    """physics.md D4."""
    assert estimate_rate((_piece(100, 20, 0.9),), related=False).drifting == pytest.approx(1.02, abs=1e-12)


@given(burnt=st.lists(BURNT, min_size=1, max_size=6))
@settings(max_examples=20)
def test_the_rate_never_leaves_the_span_of_the_pieces(burnt: list[tuple[float, float, float]]) -> None:
    pieces = [_piece(*one) for one in burnt]
    rates = [piece.rate_g_per_h for piece in pieces]

    rate = estimate_rate(pieces, related=False).rate_g_per_h

    assert min(rates) * (1 - 1e-12) <= rate <= max(rates) * (1 + 1e-12)


@given(burnt=st.lists(BURNT, min_size=1, max_size=6), related=st.booleans())
@settings(max_examples=20)
def test_the_bounds_lie_on_both_sides(burnt: list[tuple[float, float, float]], related: bool) -> None:
    estimate = estimate_rate([_piece(*one) for one in burnt], related=related)

    drifted = estimate.rate_g_per_h * estimate.drifting

    assert estimate.rate_low_g_per_h < drifted < estimate.rate_high_g_per_h


@given(burnt=st.lists(BURNT, min_size=1, max_size=6))
@settings(max_examples=20)
def test_another_scent_never_narrows_the_bounds(burnt: list[tuple[float, float, float]]) -> None:
    pieces = [_piece(*one) for one in burnt]

    own, other = (estimate_rate(pieces, related=related) for related in (False, True))

    assert own.rate_high_g_per_h <= other.rate_high_g_per_h
