"""The order of temperatures in the making."""

from dataclasses import replace

import pytest

from generator.model.candle import Make
from generator.model.materials import Fragrance, Wax, WaxDensity
from generator.model.quantities import DensityAt, FlashPoint
from generator.problems import Fault, Severity
from generator.rules.wax.temperatures import make_faults, poured_line_faults

MAKE = Make(heat_to_c=88.0, fragrance_at_c=82.0, pour_at_c=75.0)
WAX = Wax(
    id="soy",
    name="Soy",
    density=WaxDensity(set_g_per_ml=0.9, molten=DensityAt(g_per_ml=0.87, at_c=75)),
    melts_at_c=52.0,
)
OIL = Fragrance(id="samphire", name="Samphire", flash_point=FlashPoint(celsius=93.0, above=False))


def test_hot_to_cool_in_order_has_no_fault() -> None:
    assert make_faults(MAKE, [WAX], [OIL]) == ()


@pytest.mark.parametrize("make", [Make(), Make(pour_at_c=75.0), Make(heat_to_c=88.0, fragrance_at_c=88.0)])
def test_what_is_not_written_is_not_held_against_anything(make: Make) -> None:
    """physics.md C: pour < stir in <= heat, so the last two may be alike."""
    assert make_faults(make, [replace(WAX, melts_at_c=None)], [replace(OIL, flash_point=None)]) == ()


def test_stirring_in_hotter_than_the_wax_was_heated_is_an_error() -> None:
    assert make_faults(replace(MAKE, fragrance_at_c=90.0), [WAX], [OIL]) == (
        Fault(
            path=("make", "fragrance_at"),
            what="fragrance_at is 90 C, but heat_to is 88 C",
            why="wax only cools from heating to stirring in to pouring, so the pour sheet could not be followed",
            fix="fragrance_at: at most 88 C",
        ),
    )


def test_pouring_as_hot_as_stirring_in_is_an_error() -> None:
    (fault,) = make_faults(replace(MAKE, pour_at_c=82.0), [WAX], [OIL])

    assert (fault.path, fault.severity) == (("make", "pour_at"), Severity.ERROR)
    assert fault.what == "pour_at is 82 C, but fragrance_at is 82 C"
    assert fault.fix == "pour_at: below 82 C"


def test_without_a_fragrance_pouring_is_held_against_heating() -> None:
    (fault,) = make_faults(Make(heat_to_c=70.0, pour_at_c=75.0), [WAX], [])

    assert fault.what == "pour_at is 75 C, but heat_to is 70 C"


@pytest.mark.parametrize("pour_c", [52.0, 48.0], ids=["exactly where it melts", "below"])
def test_pouring_wax_that_has_set_is_a_warning(pour_c: float) -> None:
    assert make_faults(replace(MAKE, pour_at_c=pour_c), [WAX], [OIL]) == (
        Fault(
            path=("make", "pour_at"),
            what=f"pour_at is {pour_c:g} C; the wax melts at 52 C",
            why="it would set in the jug, and fill the vessel unevenly",
            fix="pour_at: above 52 C",
            severity=Severity.WARNING,
        ),
    )


def test_a_little_of_a_harder_wax_does_not_set_the_blend() -> None:
    beeswax = replace(WAX, id="beeswax", melts_at_c=63.0)

    assert make_faults(replace(MAKE, pour_at_c=60.0), [beeswax, WAX], [OIL]) == ()


def test_an_oil_at_its_flash_point_is_a_warning_with_the_caution() -> None:
    oil = replace(OIL, flash_point=FlashPoint(celsius=82.0, above=False))

    assert make_faults(MAKE, [WAX], [oil]) == (
        Fault(
            path=("make", "fragrance_at"),
            what="fragrance_at is 82 C; Samphire has a flash point of 82 C",
            why="at its flash point an oil gives off vapour that a flame or a spark can ignite",
            fix="fragrance_at: below 82 C; stir in away from flames and hot plates, and never reheat",
            severity=Severity.WARNING,
        ),
    )


def test_wax_may_be_heated_above_the_flash_point_of_an_oil_that_is_stirred_in_below_it() -> None:
    oil = replace(OIL, flash_point=FlashPoint(celsius=84.0, above=False))

    assert make_faults(MAKE, [WAX], [oil]) == ()
    (fault,) = make_faults(replace(MAKE, fragrance_at_c=None), [WAX], [oil])
    assert fault.path == ("make", "heat_to")


def test_a_flash_point_known_only_as_above_is_safe_up_to_there() -> None:
    oil = replace(OIL, flash_point=FlashPoint(celsius=88.0, above=True))

    assert make_faults(MAKE, [WAX], [oil]) == ()


def test_beyond_what_the_sheet_knows_there_is_a_warning() -> None:
    oil = replace(OIL, flash_point=FlashPoint(celsius=81.0, above=True))

    (fault,) = make_faults(MAKE, [WAX], [oil])

    assert fault.what == "fragrance_at is 82 C; Samphire has a flash point of above 81 C"


def test_a_line_poured_at_another_temperature_than_the_batch_is_a_warning() -> None:
    assert poured_line_faults(80.0, 60.0, [WAX]) == (
        Fault(
            path=("fill", "at"),
            what="at is 80 C, but pour_at of the batch is 60 C",
            why="hotter wax is lighter, so a line poured at another temperature weighs something else",
            fix="at: 60 C, or pour_at: 80 C",
            severity=Severity.WARNING,
        ),
    )


@pytest.mark.parametrize("pour_at_c", [74.0, 75.0, 76.0, None])
def test_a_line_poured_within_a_kelvin_of_the_batch_passes(pour_at_c: float | None) -> None:
    assert poured_line_faults(75.0, pour_at_c, [WAX]) == ()


def test_a_line_poured_with_wax_that_has_set_is_a_warning() -> None:
    assert poured_line_faults(52.0, None, [WAX]) == (
        Fault(
            path=("fill", "at"),
            what="at is 52 C; the wax melts at 52 C",
            why="it would set in the jug, and fill the vessel unevenly",
            fix="at: above 52 C",
            severity=Severity.WARNING,
        ),
    )
