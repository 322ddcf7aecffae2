"""The temperatures of making, in order: heat the wax, stir in the fragrance, pour."""

from collections.abc import Iterable, Iterator
from typing import Final

from generator.model.accepted import check_of
from generator.model.candle import Make
from generator.model.materials import Fragrance, Wax
from generator.model.quantities import FlashPoint
from generator.problems import Fault, Path, Severity, warning
from generator.rules.wax.density import HOTTEST_MELT_C

POURS_DIFFER_K: Final = 1.0
"""How far a poured line's temperature may be off the batch's; a thermometer reads no closer (CHOICE)."""


WAX_FLASHES_C: Final = 200.0
"""Approximate flash point of paraffin wax, from data sheets of refined waxes; those of plants are higher (MEMORY)."""


def make_faults(make: Make, waxes: Iterable[Wax], fragrances: Iterable[Fragrance]) -> tuple[Fault, ...]:
    """What is wrong with the temperatures: their order, a wax that is set again, an oil that may catch fire."""
    return (
        *_too_hot(make),
        *_order_faults(make),
        *_set_wax(("make", "pour_at"), make.pour_at_c, waxes),
        *(fault for fragrance in fragrances for fault in _flash_faults(make, fragrance)),
    )


def poured_line_faults(at_c: float, pour_at_c: float | None, waxes: Iterable[Wax]) -> tuple[Fault, ...]:
    """What is wrong with the temperature of a poured line: another than the batch's, or that of a wax set again."""
    return (*_two_pours(at_c, pour_at_c), *_set_wax(("fill", "at"), at_c, waxes))


def _two_pours(at_c: float, pour_at_c: float | None) -> Iterator[Fault]:
    if pour_at_c is not None and abs(at_c - pour_at_c) > POURS_DIFFER_K:
        yield warning(
            path=("fill", "at"),
            what=f"at is {at_c:g} C, but pour_at of the batch is {pour_at_c:g} C",
            why="hotter wax is lighter, so a line poured at another temperature weighs something else",
            fix=f"at: {pour_at_c:g} C, or pour_at: {at_c:g} C",
            check="two-pours",
        )


def _too_hot(make: Make) -> Iterator[Fault]:
    for key, hot_c in (("heat_to", make.heat_to_c), ("fragrance_at", make.fragrance_at_c)):
        if hot_c is not None and hot_c > HOTTEST_MELT_C:
            lights = hot_c >= WAX_FLASHES_C
            yield Fault(
                path=("make", key),
                what=f"{key} is {hot_c:g} C; keep wax below {HOTTEST_MELT_C:g} C",
                why="wax this hot gives off vapour that catches fire by itself or from a spark"
                if lights
                else "overheated wax smokes, yellows and loses its scent, and is close to catching fire",
                fix=(
                    f"{key}: ... C, as the supplier of the wax advises; use a water bath, and never leave it"
                ),
                severity=Severity.ERROR if lights else Severity.WARNING,
                check=check_of("hot-wax", key),
            )


def _order_faults(make: Make) -> Iterator[Fault]:
    """Pour, stir in, heat: each hotter than the one before, the last two possibly alike (physics.md C, PRACTICE)."""
    heat, stir, pour = make.heat_to_c, make.fragrance_at_c, make.pour_at_c
    if stir is not None and heat is not None and stir > heat:
        yield _order_fault("fragrance_at", stir, f"heat_to is {heat:g} C", f"at most {heat:g} C")
    hottest = ("fragrance_at", stir) if stir is not None else ("heat_to", heat)
    if pour is not None and hottest[1] is not None and pour >= hottest[1]:
        yield _order_fault("pour_at", pour, f"{hottest[0]} is {hottest[1]:g} C", f"below {hottest[1]:g} C")


def _order_fault(key: str, written_c: float, other: str, fix: str) -> Fault:
    return Fault(
        path=("make", key),
        what=f"{key} is {written_c:g} C, but {other}",
        why=(
            "wax only cools from heating to stirring in to pouring, so the pour sheet could not be followed"
        ),
        fix=f"{key}: {fix}",
    )


def _set_wax(path: Path, pour_c: float | None, waxes: Iterable[Wax]) -> Iterator[Fault]:
    """A warning, not an error: some waxes are poured half set on purpose (common practice, no source)."""
    melts_at_c = min((wax.melts_at_c for wax in waxes if wax.melts_at_c is not None), default=None)
    if pour_c is not None and melts_at_c is not None and pour_c <= melts_at_c:
        yield warning(
            path=path,
            what=f"{path[-1]} is {pour_c:g} C; the wax melts at {melts_at_c:g} C",
            why="it would set in the jug, and fill the vessel unevenly",
            fix=f"{path[-1]}: above {melts_at_c:g} C",
            check="cool-pour",
        )


def _flash_faults(make: Make, fragrance: Fragrance) -> Iterator[Fault]:
    """A caution: an oil at its flash point gives off vapour that a spark can light.

    The oil meets the wax at ``fragrance_at``; wax is usually heated higher first and left to cool to it (common
    practice, no source). Where that is not recorded, it may be stirred in as hot as the wax was heated.
    """
    flash = fragrance.flash_point
    key, hot_c = (
        ("heat_to", make.heat_to_c) if make.fragrance_at_c is None else ("fragrance_at", make.fragrance_at_c)
    )
    if flash is not None and hot_c is not None and _may_flash(flash, hot_c):
        yield warning(
            path=("make", key),
            what=f"{key} is {hot_c:g} C; {fragrance.name} has a flash point of {_printed(flash)}",
            why="at its flash point an oil gives off vapour that a flame or a spark can ignite",
            fix=(
                f"fragrance_at: below {flash.celsius:g} C; stir in away from flames and hot "
                "plates, and never reheat"
            ),
        )


def _may_flash(flash: FlashPoint, hot_c: float) -> bool:
    return hot_c > flash.celsius if flash.above else hot_c >= flash.celsius


def _printed(flash: FlashPoint) -> str:
    return f"above {flash.celsius:g} C" if flash.above else f"{flash.celsius:g} C"
