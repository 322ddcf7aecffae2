"""The language of formulas: arithmetic, in the order in which it is written, and nothing else."""

from dataclasses import replace
from fractions import Fraction
from math import asin, pi, sqrt
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.rules.burning.rates import standard_deviation
from generator.rules.calculation import Calculation, least, most

NUMBERS = st.floats(min_value=0.1, max_value=1e6)


@given(NUMBERS, NUMBERS)
def test_floats_are_worked_out_in_the_order_of_the_formula(a: float, b: float) -> None:
    written = Calculation(
        "pi / 4 * a^2 * b / 1000 - 0.1 * (a + b) + sqrt(a) / 28.349523125", {"a": a, "b": b}
    )

    assert written.value == pi / 4 * a**2 * b / 1000 - 0.1 * (a + b) + sqrt(a) / 28.349523125


@given(st.fractions(min_value=1, max_value=1000))
def test_fractions_stay_exact(a: Fraction) -> None:
    assert Calculation("100 * a / 3 + 0.1", {"a": a}).exact == 100 * a / 3 + Fraction(1, 10)


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("min(a, 3, 5)", 2.0),
        ("max(0, a - 3)", 0.0),
        ("floor(7 / a)", 3.0),
        ("asin(a / 4)", asin(0.5)),
        ("2 + 3 * a^2", 14.0),
        ("(2 + 3) * a^2", 20.0),
    ],
)
def test_functions_and_precedence_are_those_of_school(formula: str, value: float) -> None:
    assert Calculation(formula, {"a": 2.0}).value == value


@pytest.mark.parametrize(
    "formula",
    [
        "__import__('os')",
        "a.real",
        "(lambda: a)()",
        "[a][0]",
        "a if a else a",
        "a < 1",
        "a // 2",
        "a % 2",
        "-a",
        "'a'",
        "open(a)",
        "max(a, key=a)",
        "min(*a)",
        "a b",
        "(a",
        "a +",
        "",
        "1.5.2",
    ],
)
def test_what_is_no_arithmetic_is_refused(formula: str) -> None:
    with pytest.raises(ValueError, match=r"is no arithmetic$"):
        _ = Calculation(formula, {"a": 2.0}).value


def test_a_name_that_nobody_gave_a_number_is_refused() -> None:
    with pytest.raises(KeyError):
        _ = Calculation("a + b", {"a": 2.0}).value


def test_a_sum_may_be_long() -> None:
    names = [f"a_{number}" for number in range(20_000)]

    assert Calculation(" + ".join(names), dict.fromkeys(names, 0.5)).value == 10_000.0


@given(st.lists(NUMBERS, min_size=2, max_size=6))
def test_an_exact_routine_comes_to_the_same_as_the_formula_beside_it(rates: list[float]) -> None:
    scatter = standard_deviation(rates)

    assert scatter.value == stdev(rates)
    assert replace(scatter, found=None).value == pytest.approx(scatter.value, rel=1e-6, abs=1e-6 * max(rates))


def test_a_single_term_needs_no_function() -> None:
    assert (least(["a"]), least(["a", "b"]), most(["a", "b"])) == ("a", "min(a, b)", "max(a, b)")
