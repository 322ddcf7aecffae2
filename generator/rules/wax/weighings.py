"""Weighings of finished candles: their mean, their scatter, and what they prove."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from statistics import stdev
from typing import Final

from generator.model.quantities import as_written
from generator.model.sizes import Weighing
from generator.problems import Fault
from generator.rules.calculation import Calculation

ENOUGH_WEIGHINGS: Final = 5
"""From this many on, the mean less its margin proves a net quantity (CHOICE)."""

LEAST_NET_G: Final = 10.0
"""Nothing below this is a candle; the rules of net quantity begin here too (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighings:
    """How many candles were weighed, the mean of their net weights, and from two on its scatter."""

    n: int
    mean: Calculation
    sd_g: float | None

    @property
    def mean_g(self) -> float:
        """The mean of their net weights."""
        return self.mean.value

    @property
    def proven(self) -> Calculation | None:
        """The weight they prove, in g; None while they are too few."""
        if self.sd_g is None or self.n < ENOUGH_WEIGHINGS:
            return None
        margin = weighing_margin(self.sd_g, self.n)
        return Calculation(f"net_weight_g - {margin.formula}", {"net_weight_g": self.mean_g, **margin.inputs})


def weighing_margin(sd_g: float, n: int) -> Calculation:
    """How far a mean of weighings may be off, in g.

    margin = 2 s / sqrt(n)

    sd_g: s, standard deviation of the weighings, g.
    n: how many.
    Holds for 5 or more weighings of candles poured alike.
    Source: standards.md 1.3, the advice below the table (CHOICE).

    >>> weighing_margin(1.5, 9).value
    1.0
    """
    return Calculation("2 * weighed_sd_g / sqrt(weighed_n)", {"weighed_sd_g": sd_g, "weighed_n": n})


def weighings(weighed: tuple[Weighing | float, ...]) -> Weighings | None:
    """Mean and standard deviation of the net weights; None when nothing was weighed."""
    nets_g = {f"weighed_{number}_g": net_g(weighing) for number, weighing in enumerate(weighed, start=1)}
    if not nets_g:
        return None
    mean = Calculation(
        f"({' + '.join(nets_g)}) / {len(nets_g)}", {name: Fraction(net) for name, net in nets_g.items()}
    )
    sd_g = stdev(map(float, nets_g.values())) if len(nets_g) > 1 else None
    return Weighings(n=len(nets_g), mean=mean, sd_g=sd_g)


def weighing_faults(weighed: tuple[Weighing | float, ...]) -> Iterator[Fault]:
    """Weighings that cannot be a candle's; paths as in ``("weighed", 2)``."""
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
            why=(
                f"a candle has at least {LEAST_NET_G:g} g of wax, and the printed weight "
                "is the mean of the weighings"
            ),
            fix="{empty: the vessel with its wick, full: the finished candle}, or its net weight",
        )


def net_g(weighing: Weighing | float) -> Decimal:
    """The wax of one weighed candle, exact: 533.9 g less 285.2 g is 248.7 g, without binary rounding."""
    if isinstance(weighing, Weighing):
        return as_written(weighing.full_g) - as_written(weighing.empty_g)
    return as_written(weighing)
