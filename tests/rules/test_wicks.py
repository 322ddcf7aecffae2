"""What a wick must not hold."""

from typing import Literal

import pytest

from generator.model.materials import Wick
from generator.problems import Fault
from generator.rules.wicks import wick_faults


def test_a_core_of_lead_is_an_error() -> None:
    """standards.md F40: 16 CFR 1500.12(a)(2), more than 0.06 % lead in the metal core (FOUND)."""
    wick = Wick(id="old-core-44", name="Cored 44", core="lead", trim_mm=6)

    assert wick_faults(wick) == (
        Fault(
            path=("wicks/old-core-44.yaml", "core"),
            what="core is 'lead'",
            why="a candle whose wick core holds more than 0.06 % lead is banned in the US (16 CFR 1500.17), "
            "and its smoke poisons anywhere",
            write="core: none, paper, zinc, tin or wood, and a wick that has such a core",
        ),
    )


@pytest.mark.parametrize("core", ["none", "paper", "zinc", "tin", "wood"])
def test_every_other_core_passes(core: Literal["none", "paper", "zinc", "tin", "wood"]) -> None:
    assert wick_faults(Wick(id="braid", name="Braid", core=core, trim_mm=6)) == ()
