"""What a wick must not contain, and how long it is trimmed."""

from collections.abc import Iterator
from typing import Final

from generator.model.materials import Wick
from generator.problems import Fault

MOST_LEAD_PERCENT: Final = 0.06
"""Lead in the metal core of a wick, of the core's weight; 16 CFR 1500.12(a)(2) (standards.md F40, FOUND)."""


SHORTEST_TRIM_MM: Final = 3.0
LONGEST_TRIM_MM: Final = 15.0
"""Between these a trim is believed; published advice runs from 5 to 15 mm (standards.md B1; the bounds CHOICE)."""


def wick_faults(wick: Wick) -> tuple[Fault, ...]:
    """A core of lead, which has far more of it than a wick may, and a trim at which no wick burns well."""
    return (*_core_faults(wick), *_trim_faults(wick))


def _core_faults(wick: Wick) -> Iterator[Fault]:
    if wick.core == "lead":
        yield Fault(
            path=(f"wicks/{wick.id}.yaml", "core"),
            what="core is 'lead'",
            why=(
                f"a candle whose wick core is more than {MOST_LEAD_PERCENT:g} % lead is banned "
                "in the US (16 CFR 1500.17), and its smoke is toxic anywhere"
            ),
            fix="use a wick with another core: none, paper, zinc, tin or wood",
        )


def _trim_faults(wick: Wick) -> Iterator[Fault]:
    written = f"trim is {wick.trim_mm:g} mm"
    if wick.trim_mm < SHORTEST_TRIM_MM:
        what = f"{written}, less than {SHORTEST_TRIM_MM:g} mm"
        why = "a wick trimmed that short will not light, or its flame drowns in the wax"
    elif wick.trim_mm > LONGEST_TRIM_MM:
        what = f"{written}, more than {LONGEST_TRIM_MM:g} mm"
        why = "a wick left that long smokes, and its flame is too tall for the vessel"
    else:
        return
    fix = f"trim: {SHORTEST_TRIM_MM:g} to {LONGEST_TRIM_MM:g} mm, as the maker of the wick advises"
    yield Fault(path=(f"wicks/{wick.id}.yaml", "trim"), what=what, why=why, fix=fix)
