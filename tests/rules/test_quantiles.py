"""Margins for few pieces, held against a general statistics library."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import stdtrit

from generator.rules.burning.quantiles import one_more_factor, t_quantile


@pytest.mark.parametrize("probability", [0.90, 0.975], ids=["one-sided 90 %", "two-sided 95 %"])
def test_t_quantiles_agree_with_scipy_from_one_to_sixty_degrees(probability: float) -> None:
    degrees = range(1, 61)

    ours = [t_quantile(probability, df) for df in degrees]

    assert list(stdtrit(degrees, probability)) == pytest.approx(ours, abs=1e-6)


def test_t_tends_to_the_normal_distribution() -> None:
    assert t_quantile(0.90, 5000) == pytest.approx(1.281552, abs=5e-4)


@pytest.mark.parametrize(("degrees", "printed"), [(1, 3.077684), (2, 1.885618), (3, 1.637744)])
def test_t_quantiles_are_those_of_the_reference(degrees: int, printed: float) -> None:
    """physics.md F: scipy.stats.t.ppf(0.90, [1, 2, 3]) (COMPUTED)."""
    assert printed == pytest.approx(t_quantile(0.90, degrees), abs=5e-7)


@pytest.mark.parametrize(
    ("pieces", "printed"),
    [(2, 3.7694), (3, 2.1773), (4, 1.8311), (5, 1.6795), (6, 1.5941), (8, 1.5008), (10, 1.4505)],
)
def test_factors_for_one_more_piece_are_those_of_the_reference(pieces: int, printed: float) -> None:
    """physics.md D3, k = t(0.90, n - 1) sqrt(1 + 1/n) (COMPUTED)."""
    assert printed == pytest.approx(one_more_factor(pieces, 0.90), abs=5e-5)


def test_the_factor_for_three_pieces_is_that_of_row_45() -> None:
    """physics.md G 45 (COMPUTED)."""
    assert one_more_factor(3, 0.90) == pytest.approx(2.177324, abs=5e-7)


@given(degrees=st.integers(1, 40), low=st.floats(0.5, 0.99), rise=st.floats(0.0001, 0.009))
@settings(max_examples=20)
def test_a_higher_probability_has_a_higher_quantile(degrees: int, low: float, rise: float) -> None:
    assert t_quantile(low, degrees) < t_quantile(low + rise, degrees)
