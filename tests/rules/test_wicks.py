"""What a wick must not hold."""

from typing import Literal

import pytest

from generator.model.materials import Wick
from generator.problems import Fault
from generator.rules.burning.wicks import wick_faults


def test_a_core_of_lead_is_an_error() -> None:
    """standards.md F40: 16 CFR 1500.12(a)(2), more than 0.06 % lead in the metal core (FOUND)."""
    wick = Wick(id="old-core-44", name="Cored 44", core="lead", trim_mm=6)

    assert wick_faults(wick) == (
        Fault(
            path=("wicks/old-core-44.yaml", "core"),
            what="core is 'lead'",
            why="a candle whose wick core is more than 0.06 % lead is banned in the US (16 CFR 1500.17), and its "
            "smoke is toxic anywhere",
            fix="use a wick with another core: none, paper, zinc, tin or wood",
        ),
    )


@pytest.mark.parametrize("core", ["none", "paper", "zinc", "tin", "wood"])
def test_every_other_core_passes(core: Literal["none", "paper", "zinc", "tin", "wood"]) -> None:
    assert wick_faults(Wick(id="braid", name="Braid", core=core, trim_mm=6)) == ()


@pytest.mark.parametrize("trim_mm", [3, 5, 15])
def test_a_trim_within_its_bounds_is_believed(trim_mm: float) -> None:
    """standards.md B1: published advice runs from 5 to 15 mm."""
    assert wick_faults(Wick(id="braid", name="Braid", core="none", trim_mm=trim_mm)) == ()


@pytest.mark.parametrize(
    ("trim_mm", "what", "why"),
    [
        (
            0,
            "trim is 0 mm, less than 3 mm",
            "a wick trimmed that short will not light, or its flame drowns in the wax",
        ),
        (
            15.5,
            "trim is 15.5 mm, more than 15 mm",
            "a wick left that long smokes, and its flame is too tall for the vessel",
        ),
    ],
)
def test_a_trim_that_no_wick_burns_well_at_is_an_error(trim_mm: float, what: str, why: str) -> None:
    assert wick_faults(Wick(id="braid", name="Braid", core="none", trim_mm=trim_mm)) == (
        Fault(
            path=("wicks/braid.yaml", "trim"),
            what=what,
            why=why,
            fix="trim: 3 to 15 mm, as the maker of the wick advises",
        ),
    )
