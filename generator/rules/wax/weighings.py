"""Weighings of finished candles: their mean, their scatter, and what they prove."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import sqrt
from statistics import mean, stdev
from typing import Final

from generator.model.candle import Weighing
from generator.model.quantities import as_written
from generator.problems import Fault

ENOUGH_WEIGHINGS: Final = 5
"""From so many on, the mean less its margin proves a net quantity (CHOICE)."""

LEAST_NET_G: Final = 10.0
"""Below this nothing here is a candle; the rules of net quantity begin here too (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighings:
    """How many candles were weighed, the mean of their net weights, and its scatter from two on."""

    n: int
    mean_g: float
    sd_g: float | None

    @property
    def carried_g(self) -> float | None:
        """The weight they prove; None while they are too few."""
        if self.sd_g is None or self.n < ENOUGH_WEIGHINGS:
            return None
        return self.mean_g - margin_g(self.sd_g, self.n)


def margin_g(sd_g: float, n: int) -> float:
    """What a mean of weighings may be off.

    margin = 2 s / sqrt(n)

    sd_g: s, standard deviation of the weighings, g.
    n: how many.
    Holds for 5 or more weighings of candles poured alike.
    Source: standards.md 1.3, the advice below the table (CHOICE).

    >>> margin_g(1.5, 9)
    1.0
    """
    return 2 * sd_g / sqrt(n)


def weighings(weighed: tuple[Weighing | float, ...]) -> Weighings | None:
    """Mean and standard deviation of the net weights; None when nothing was weighed."""
    nets_g = [net_g(weighing) for weighing in weighed]
    if not nets_g:
        return None
    return Weighings(
        n=len(nets_g),
        mean_g=float(mean(nets_g)),
        sd_g=stdev(map(float, nets_g)) if len(nets_g) > 1 else None,
    )


def weighing_faults(weighed: tuple[Weighing | float, ...]) -> Iterator[Fault]:
    """Weighings that are no candle's; paths as in ``("weighed", 2)``."""
    for place, weighing in enumerate(weighed):
        weighed_g = net_g(weighing)
        if weighed_g >= as_written(LEAST_NET_G):
            continue
        what = f"weighed {float(weighed_g):g} g"
        if isinstance(weighing, Weighing):
            what = f"full {weighing.full_g:g} g less empty {weighing.empty_g:g} g is {float(weighed_g):g} g"
        yield Fault(
            path=("weighed", place),
            what=what,
            why=f"a candle holds at least {LEAST_NET_G:g} g of wax, and the printed weight is their mean",
            write="{empty: the vessel with its wick, full: the finished candle}, or its net weight",
        )


def net_g(weighing: Weighing | float) -> Decimal:
    """The wax of one weighed candle, exact, so that 533.9 g less 285.2 g is 248.7 g and no hair more."""
    if isinstance(weighing, Weighing):
        return as_written(weighing.full_g) - as_written(weighing.empty_g)
    return as_written(weighing)
