"""What papers advise in each market, the first burn, the longest burn."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.markets import Market
from generator.problems import Fault, Severity
from generator.rules.burning.guidance import (
    ADVICE,
    advice,
    first_burn,
    first_burn_faults,
    full_pool_rule,
    general_advice,
    session_limit,
    session_limit_faults,
    stop_depth,
)
from generator.rules.calculation import Calculation


def test_american_papers_print_inches() -> None:
    """standards.md B1, B5, B6 (FOUND-2nd), B8 (FOUND); V58."""
    us = ADVICE["American"]

    assert (us.trim.text, us.stop_at.text, us.apart.text) == ("1/4 in", "1/2 in", "3 in")
    assert (us.trim.mm, us.stop_at.mm, us.apart.mm) == (6.35, 12.7, 76.2)
    assert us.clear_of is not None
    assert us.clear_of.text == "12 in"
    assert us.clear_of.mm == pytest.approx(12 * 25.4, abs=1e-9)


@pytest.mark.parametrize("market", ["EU", "GB"])
def test_european_and_british_papers_print_millimetres_and_centimetres(market: Market) -> None:
    """standards.md B5, B6 (FOUND-2nd); no figure for what burns was found (B8)."""
    europe = general_advice(market)

    assert (europe.stop_at.text, europe.apart.text, europe.clear_of) == ("10 mm", "10 cm", None)
    assert (europe.stop_at.mm, europe.apart.mm) == (10.0, 100.0)


@pytest.mark.parametrize(
    ("trim_mm", "europe", "us"),
    [
        pytest.param(5.0, "5 mm", "3/16 in", id="the shortest European figure"),
        pytest.param(6.0, "6 mm", "1/4 in", id="as recorded, to the nearest sixteenth"),
        pytest.param(6.35, "6.35 mm", "1/4 in", id="exactly the American figure"),
        pytest.param(8.0, "8 mm", "1/4 in", id="longer than American sources allow"),
        pytest.param(12.0, "10 mm", "1/4 in", id="longer than any source allows"),
        pytest.param(0.5, "0.5 mm", "1/16 in", id="next to nothing"),
    ],
)
def test_a_wick_is_trimmed_as_recorded_unless_the_market_asks_for_shorter(
    trim_mm: float, europe: str, us: str
) -> None:
    """standards.md 3: the recorded limit wins if stricter."""
    assert (advice("EU", trim_mm).trim.text, advice("US", trim_mm).trim.text) == (europe, us)


def test_the_stop_depth_is_the_largest_of_the_markets() -> None:
    """design.md 6: US 12.7 mm, EU and GB 10 mm."""
    assert stop_depth(("GB", "EU")).value == 10.0
    assert stop_depth(("GB", "US")).value == 12.7
    assert stop_depth(()).value == 12.7


def test_the_session_limit_is_the_least_of_all() -> None:
    assert session_limit(None, None).value == 4.0
    assert session_limit(3.0, 3.5).value == 3.0
    assert session_limit(5.0, 2.5).value == 2.5


def test_a_makers_limit_above_four_hours_is_remarked_on() -> None:
    assert session_limit_faults(None) == session_limit_faults(4.0) == ()
    assert session_limit_faults(5.0) == (
        Fault(
            path=("longest_session",),
            what="longest_session is 5 h; the papers print 4 h",
            why="the usual safety advice is never to burn a candle longer at one time",
            fix="longest_session: at most 4 h",
            severity=Severity.WARNING,
        ),
    )


@pytest.mark.parametrize(
    ("diameter_mm", "wicks", "printed", "half_a_unit"),
    [
        pytest.param(70, 1, 2.755906, 5e-7, id="G 41, 70 mm"),
        pytest.param(110, 1, 4.330709, 5e-7, id="G 41, 110 mm"),
        pytest.param(90, 1, 3.543, 5e-4, id="B4, 90 mm"),
        pytest.param(110, 3, 2.500, 5e-4, id="B4, 110 mm with three wicks"),
        pytest.param(76.2, 1, 3, 1e-12, id="V56, 3 in"),
        # G 41 prints 2.505497; 90 / sqrt(2) / 25.4 = 2.5054965 was rounded twice.
        pytest.param(90, 2, 2.505497, 1e-6, id="G 41, 90 mm with two wicks"),
    ],
)
def test_the_first_burn_is_an_hour_an_inch(
    diameter_mm: float, wicks: int, printed: float, half_a_unit: float
) -> None:
    """physics.md B4 and G 41 (PRACTICE, sqrt(n) CHOICE); standards.md V56 (FOUND-2nd)."""
    assert full_pool_rule(diameter_mm, wicks).value == pytest.approx(printed, abs=half_a_unit)


def test_a_first_burn_is_printed_no_longer_than_the_session_limit() -> None:
    """standards.md V57: a 5 in candle prints 4 h (FOUND-2nd)."""
    first = first_burn(full_pool_rule(127, 1), 4.0, timed=False)

    assert (first.hours, first.asked_h) == (4.0, 5.0)


@pytest.mark.parametrize(("diameter_mm", "wicks"), [(101.6, 1), (203.2, 4)])
def test_a_vessel_of_exactly_101_6_mm_for_a_wick_passes(diameter_mm: float, wicks: int) -> None:
    """physics.md B4 (CHOICE)."""
    first = first_burn(full_pool_rule(diameter_mm, wicks), 4.0, timed=False)

    assert first_burn_faults(first, 4.0) == ()


def test_a_wider_vessel_contradicts_itself_and_is_an_error() -> None:
    first = first_burn(full_pool_rule(110, 1), 4.0, timed=False)

    assert first_burn_faults(first, 4.0) == (
        Fault(
            path=("wick",),
            what="the first burn would take 4.33 h by the rule of one hour an inch; the most for one burn is 4 h",
            why="the burn-safety sheet would ask for both, and wax left at the edge makes the candle tunnel",
            fix="use one more wick, or a narrower vessel",
        ),
    )


def test_a_first_burn_beyond_a_shorter_limit_is_a_warning() -> None:
    (fault,) = first_burn_faults(
        first_burn(Calculation("full_pool_h", {"full_pool_h": 3.5}), 3.0, timed=True), 3.0
    )

    assert fault.severity is Severity.WARNING
    assert fault.what == "the first burn would take 3.5 h as timed; the most for one burn is 3 h"
    assert fault.fix == "test with longer sessions, or use a wick that melts to the edge sooner"


@given(diameter_mm=st.floats(30, 300), wicks=st.integers(1, 6), limit_h=st.floats(1, 4))
@settings(max_examples=20)
def test_the_printed_first_burn_never_passes_the_limit(
    diameter_mm: float, wicks: int, limit_h: float
) -> None:
    first = first_burn(full_pool_rule(diameter_mm, wicks), limit_h, timed=False)

    assert first.hours <= limit_h
    assert (first_burn_faults(first, limit_h) == ()) == (first.hours == first.asked_h)


@pytest.mark.parametrize("makers_h", [0.0, 0.1, 0.99])
def test_a_makers_limit_too_short_to_burn_a_candle_by_is_an_error(makers_h: float) -> None:
    assert session_limit_faults(makers_h) == (
        Fault(
            path=("longest_session",),
            what=f"longest_session is {makers_h:g} h, less than 1 h",
            why="a candle put out so soon tunnels around its wick, and the flame drowns",
            fix="longest_session: 1 to 4 h",
        ),
    )


def test_a_makers_limit_of_exactly_an_hour_passes() -> None:
    assert session_limit_faults(1.0) == ()
