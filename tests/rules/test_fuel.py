"""What of a candle can burn, and what is said of one that nobody tested."""

from math import pi

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.problems import Fault
from generator.rules.burning.fuel import Fuel, fuel_faults, heel, untested_band, untested_rates_g_per_h

FAST_G_PER_H = untested_rates_g_per_h(1)[1]
SLOW_G_PER_H = untested_rates_g_per_h(1)[0]


def _jar(stop_depth_mm: float, level_mm: float = 53.244) -> Fuel:
    """The straight 70 mm jar of physics.md A5, holding 185.689 g to a level of 53.244 mm."""
    ml_per_mm = pi / 4 * 70**2 / 1000
    return Fuel(
        net_g=185.689 * level_mm / 53.244,
        fill_ml=ml_per_mm * level_mm,
        heel_ml=ml_per_mm * stop_depth_mm,
        level_mm=level_mm,
        stop_depth_mm=stop_depth_mm,
    )


@pytest.mark.parametrize(("stop_mm", "heel", "burnable"), [(12.7, 44.291, 141.398), (10.0, 34.875, 150.814)])
def test_heel_and_burnable_wax_are_those_of_the_reference(
    stop_mm: float, heel: float, burnable: float
) -> None:
    """physics.md D5 and G 25 (COMPUTED); the net weight there is itself rounded to a milligram."""
    fuel = _jar(stop_mm)

    assert (fuel.heel.value, fuel.burnable_g) == pytest.approx((heel, burnable), abs=1e-3)


def test_a_heel_in_a_widening_vessel_is_that_of_the_reference() -> None:
    """physics.md D5: frustum 60 to 75 mm, 220.185 g in 241.465 ml, 37.266 ml below 12.7 mm (COMPUTED)."""
    assert heel(220.185, 37.266, 241.465).value == pytest.approx(33.982, abs=5e-4)


def test_ignoring_the_heel_would_overstate_the_hours_by_a_third() -> None:
    """physics.md C: only 76.1 % of that jar can burn (COMPUTED)."""
    fuel = _jar(12.7)

    assert 100 * fuel.burnable_g / fuel.net_g == pytest.approx(76.1, abs=0.05)


def test_an_untested_jar_is_given_17_to_31_hours() -> None:
    """physics.md G 30 (CHOICE)."""
    band = untested_band(141.398, 1)

    assert (band.low_h, band.high_h) == (17, 31)


def test_several_wicks_share_heat_at_the_fast_end_alone() -> None:
    """physics.md B1 and D6: 8.0 n 1.15 and 4.5 n (CHOICE)."""
    assert untested_rates_g_per_h(3) == pytest.approx((13.5, 27.6), abs=1e-9)


@pytest.mark.parametrize(
    "fastest_g_per_h",
    [
        pytest.param(pint.Quantity("120 grain/hour").to("g/hour").magnitude, id="standard sperm candle, 35"),
        pytest.param(7.1, id="five pillars, steady, 36"),
        pytest.param(7.3, id="five pillars, first hour, 36"),
        pytest.param(6.7, id="ten candles, 37"),
        pytest.param(pint.Quantity("0.22 oz/hour").to("g/hour").magnitude, id="wick chart, 38"),
    ],
)
def test_no_published_candle_burns_faster_than_the_printed_hours_allow(fastest_g_per_h: float) -> None:
    """physics.md G 35 to 38 (FOUND)."""
    assert fastest_g_per_h <= FAST_G_PER_H


@pytest.mark.parametrize("slowest_g_per_h", [4.7, 120 * 0.06479891])
def test_usual_published_candles_burn_no_slower_than_the_band(slowest_g_per_h: float) -> None:
    """physics.md G 35 and 36, steady (FOUND)."""
    assert slowest_g_per_h >= SLOW_G_PER_H


@pytest.mark.parametrize("slowest_g_per_h", [4.4, 2.6, 1.700971])
def test_the_slow_end_of_the_band_is_on_purpose_not_the_slowest_published(slowest_g_per_h: float) -> None:
    """physics.md D6 (CHOICE) beside G 36, first hour, G 37 and G 38 (FOUND): small wicks burn that slowly, and an
    upper end of 2.6 g/h would promise the maker twice the hours of a usual candle. It is never printed for shoppers.
    """
    assert slowest_g_per_h < SLOW_G_PER_H


def test_a_fill_that_ends_at_the_stop_depth_is_refused() -> None:
    assert fuel_faults(_jar(stop_depth_mm=12.7, level_mm=12.7), 1) == (
        Fault(
            path=("fill",),
            what="the fill is 12.7 mm of wax, and burning stops at 12.7 mm",
            why="there are no burn hours to print, and the flame would reach the base of the vessel",
            fix="use more wax, or another vessel",
        ),
    )


def test_less_wax_than_an_hour_may_take_is_refused() -> None:
    fuel = Fuel(net_g=27.9, fill_ml=30, heel_ml=22, level_mm=15, stop_depth_mm=12)

    (fault,) = fuel_faults(fuel, 1)

    assert fault.what == "only 7.44 g of the wax can burn, and an hour may use 8 g"


def test_exactly_one_hour_of_wax_is_enough() -> None:
    fuel = Fuel(net_g=32.0, fill_ml=32, heel_ml=24, level_mm=15, stop_depth_mm=12)

    assert fuel_faults(fuel, 1) == ()
    assert untested_band(fuel.burnable_g, 1).low_h == 1


@given(burnable_g=st.floats(40, 2000), wicks=st.integers(1, 4))
@settings(max_examples=20)
def test_the_printed_end_of_the_band_is_the_lesser(burnable_g: float, wicks: int) -> None:
    band = untested_band(burnable_g, wicks)

    assert band.low_h <= band.high_h


def test_more_wicks_than_the_wax_lasts_for_are_told_at_the_wick() -> None:
    """By hand: 1000 wicks at 8.0 x 1.15 g/h; 141.4 g last 15 of them an hour."""
    fuel = Fuel(net_g=185.689, fill_ml=204.907, heel_ml=48.875, level_mm=53, stop_depth_mm=12.7)

    assert fuel_faults(fuel, 1000) == (
        Fault(
            path=("wick",),
            what="1000 wicks may use 9200 g an hour, and only 141.4 g of the wax can burn",
            why="there are no burn hours to print, and so many flames would overheat the vessel",
            fix="wick: at most 15 in total, and fewer for longer hours",
        ),
    )
    assert fuel_faults(fuel, 15) == ()


def test_wax_too_little_for_one_wick_is_told_at_the_fill_however_many_there_are() -> None:
    fuel = Fuel(net_g=27.9, fill_ml=30, heel_ml=22, level_mm=15, stop_depth_mm=12)

    (fault,) = fuel_faults(fuel, 1000)

    assert (fault.path, fault.what) == (
        ("fill",),
        "only 7.44 g of the wax can burn, and an hour may use 8 g",
    )
