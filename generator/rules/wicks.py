"""What a wick must not hold."""

from typing import Final

from generator.model.materials import Wick
from generator.problems import Fault

MOST_LEAD_PERCENT: Final = 0.06
"""Lead in the metal core of a wick, of the core's weight; 16 CFR 1500.12(a)(2) (standards.md F40, FOUND)."""


def wick_faults(wick: Wick) -> tuple[Fault, ...]:
    """A core of lead holds far more of it than a wick may."""
    if wick.core != "lead":
        return ()
    return (
        Fault(
            path=(f"wicks/{wick.id}.yaml", "core"),
            what="core is 'lead'",
            why=f"a candle whose wick core holds more than {MOST_LEAD_PERCENT:g} % lead is banned in the US "
            "(16 CFR 1500.17), and its smoke poisons anywhere",
            write="core: none, paper, zinc, tin or wood, and a wick that has such a core",
        ),
    )
