"""Where scatter lies, beside general libraries; the printed example is in test_worked_examples."""

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.rules.pieces import Burn
from generator.rules.scatter import drift_line, scatter

LOSSES = st.lists(st.floats(10, 30), min_size=3, max_size=3)


def _burns(losses_g: list[float], hours: float = 4.0) -> list[Burn]:
    middles = np.cumsum(losses_g) - np.array(losses_g) / 2
    return [
        Burn(hours=hours, loss_g=loss, burnt_g=float(burnt))
        for loss, burnt in zip(losses_g, middles, strict=True)
    ]


@given(pieces=st.lists(LOSSES, min_size=2, max_size=4, unique_by=tuple))
@settings(max_examples=20)
def test_with_equal_hours_the_ratio_is_that_of_a_one_way_analysis(pieces: list[list[float]]) -> None:
    found = scatter([_burns(losses) for losses in pieces])

    assert found is not None
    between, within = _mean_squares(np.array(pieces) / 4.0)
    assert (found.between, found.within) == pytest.approx((4 * between, 4 * within), rel=1e-9, abs=1e-9)


def _mean_squares(rates: np.ndarray) -> tuple[float, float]:
    """Between and within the rows of a table, by the textbook."""
    count, size = rates.shape
    means = rates.mean(axis=1)
    between = size * ((means - rates.mean()) ** 2).sum() / (count - 1)
    within = ((rates - means[:, None]) ** 2).sum() / (count * (size - 1))
    return float(between), float(within)


def test_the_ratio_of_the_squares_is_that_of_scipy() -> None:
    pieces = [[16.0, 20.0, 22.0], [19.0, 23.0, 25.0], [18.0, 20.0, 27.0]]

    found = scatter([_burns(losses) for losses in pieces])

    assert found is not None
    assert found.between / found.within == pytest.approx(scipy.stats.f_oneway(*pieces).statistic, rel=1e-12)


def test_pieces_that_differ_no_more_than_their_sessions_have_no_variance_of_their_own() -> None:
    found = scatter([_burns([16.0, 24.0]), _burns([24.0, 16.0])])

    assert found is not None
    assert found.piece_variance == 0.0


@pytest.mark.parametrize(
    "pieces",
    [[], [_burns([16.0, 20.0])], [_burns([16.0]), _burns([20.0])]],
    ids=["none", "one", "one session each"],
)
def test_too_few_sessions_have_no_scatter(pieces: list[list[Burn]]) -> None:
    assert scatter(pieces) is None


@given(losses=st.lists(st.floats(10, 30), min_size=3, max_size=8))
@settings(max_examples=20)
def test_with_equal_hours_the_line_is_that_of_scipy(losses: list[float]) -> None:
    burns = _burns(losses)

    line = drift_line(burns)

    assert line is not None
    fitted = scipy.stats.linregress([burn.burnt_g for burn in burns], [burn.rate_g_per_h for burn in burns])
    ours = (line.rise_per_h, line.rate_at_first_g_per_h)
    assert ours == pytest.approx((fitted.slope, fitted.intercept), rel=1e-6, abs=1e-9)


def test_sessions_at_one_depth_have_no_line() -> None:
    assert drift_line(_burns([16.0])) is None
