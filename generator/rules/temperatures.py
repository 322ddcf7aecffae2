"""The order of temperatures in the making: heat the wax, stir in the fragrance, pour."""

from collections.abc import Iterable, Iterator

from generator.model.candle import Make
from generator.model.materials import Fragrance, Wax
from generator.model.quantities import FlashPoint
from generator.problems import Fault, Severity


def make_faults(make: Make, waxes: Iterable[Wax], fragrances: Iterable[Fragrance]) -> tuple[Fault, ...]:
    """What is wrong with the temperatures: their order, a wax that is set again, an oil that may catch fire."""
    return (
        *_order_faults(make),
        *_set_wax(make, waxes),
        *(fault for fragrance in fragrances for fault in _flash_faults(make, fragrance)),
    )


def _order_faults(make: Make) -> Iterator[Fault]:
    """Pour, stir in, heat: each hotter than the one before, the last two possibly alike (physics.md C, PRACTICE)."""
    heat, stir, pour = make.heat_to_c, make.fragrance_at_c, make.pour_at_c
    if stir is not None and heat is not None and stir > heat:
        yield _order_fault("fragrance_at", stir, f"heat_to is {heat:g} C", f"at most {heat:g} C")
    hottest = ("fragrance_at", stir) if stir is not None else ("heat_to", heat)
    if pour is not None and hottest[1] is not None and pour >= hottest[1]:
        yield _order_fault("pour_at", pour, f"{hottest[0]} is {hottest[1]:g} C", f"below {hottest[1]:g} C")


def _order_fault(key: str, written_c: float, other: str, write: str) -> Fault:
    return Fault(
        path=("make", key),
        what=f"{key} is {written_c:g} C, but {other}",
        why="wax only cools between heating, stirring in and pouring, so the pour sheet could not be followed",
        write=f"{key}: {write}",
    )


def _set_wax(make: Make, waxes: Iterable[Wax]) -> Iterator[Fault]:
    """A warning, not an error: some waxes are poured half set on purpose (common practice, no source)."""
    melts_at_c = min((wax.melts_at_c for wax in waxes if wax.melts_at_c is not None), default=None)
    if make.pour_at_c is not None and melts_at_c is not None and make.pour_at_c <= melts_at_c:
        yield Fault(
            path=("make", "pour_at"),
            what=f"pour_at is {make.pour_at_c:g} C; the wax melts at {melts_at_c:g} C",
            why="it would set in the jug, and the vessel would fill unevenly",
            write=f"pour_at: above {melts_at_c:g} C",
            severity=Severity.WARNING,
        )


def _flash_faults(make: Make, fragrance: Fragrance) -> Iterator[Fault]:
    """A caution: an oil at its flash point gives off vapour that a spark can light."""
    flash = fragrance.flash_point
    if flash is None:
        return
    for key, hot_c in (("heat_to", make.heat_to_c), ("fragrance_at", make.fragrance_at_c)):
        if hot_c is not None and _may_flash(flash, hot_c):
            yield Fault(
                path=("make", key),
                what=f"{key} is {hot_c:g} C; {fragrance.name} has a flash point of {_printed(flash)}",
                why="at its flash point an oil gives off vapour that a flame or a spark can light",
                write=f"{key}: below {flash.celsius:g} C; stir in away from flames and hot plates, and never reheat",
                severity=Severity.WARNING,
            )


def _may_flash(flash: FlashPoint, hot_c: float) -> bool:
    return hot_c > flash.celsius if flash.above else hot_c >= flash.celsius


def _printed(flash: FlashPoint) -> str:
    return f"above {flash.celsius:g} C" if flash.above else f"{flash.celsius:g} C"
