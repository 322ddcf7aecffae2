"""A batch for so many candles: how much to melt, how many it fills, and what to weigh out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from math import floor
from typing import Final

from generator.model.quantities import as_written
from generator.model.recorded import Role
from generator.rules.wax.blend import Blend

_ROUNDING_DIGITS: Final = 9
"""A batch made for 24 candles must be found to fill 24, whatever binary arithmetic adds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedOut:
    """One ingredient of a batch: what it comes to, and what to weigh on a scale of that step."""

    id: str
    role: Role
    exact_g: Decimal
    grams: Decimal


def batch_g(count: int, net_g: float, waste_percent: float) -> float:
    """Weight to melt for so many candles.

    M = N m / (1 - f)

    count: N.
    net_g: m, wax of one candle, g.
    waste_percent: 100 f, what of the batch stays in pot, jug and test pieces.
    Holds for f from 0 to below 1; refuses others.
    Source: physics.md D9 (COMPUTED).

    >>> round(batch_g(24, 185.7, 3.0), 3)
    4594.639
    """
    return count * net_g / _poured(waste_percent)


def count_of(batch_g: float, net_g: float, waste_percent: float) -> int:
    """How many candles a batch fills.

    N = floor(M (1 - f) / m)

    batch_g: M, g.
    net_g: m, wax of one candle, g.
    waste_percent: 100 f, what of the batch stays in pot, jug and test pieces.
    Holds for f from 0 to below 1; refuses others.
    Source: physics.md D9 (COMPUTED).

    >>> count_of(742.758, 185.7, 3.0)
    3
    """
    return floor(round(batch_g * _poured(waste_percent) / net_g, _ROUNDING_DIGITS))


def weighed_out(blend: Blend, batch_g: float, scale_step_g: float) -> tuple[WeighedOut, ...]:
    """Each ingredient of a batch to the scale's step, adding up to the batch.

    The batch goes up to the next step, so that it never falls short (CHOICE); the steps left over after rounding
    down go to the largest remainders. What comes to less than a step may round to nothing: ``exact_g`` keeps it.
    """
    step = as_written(scale_step_g)
    steps_in_batch = round(as_written(batch_g) / step, _ROUNDING_DIGITS)
    total = steps_in_batch.to_integral_value(rounding=ROUND_CEILING)
    shares = [part.grams / blend.total_g * total for part in blend.parts]
    return tuple(
        WeighedOut(id=part.id, role=part.role, exact_g=share * step, grams=steps * step)
        for part, share, steps in zip(blend.parts, shares, whole_parts(shares, int(total)), strict=True)
    )


def whole_parts(shares: Sequence[Decimal], total: int) -> Iterator[int]:
    """Whole numbers that add up to the total; the largest remainders are rounded up, the first of equals first."""
    floors = [int(share.to_integral_value(rounding=ROUND_FLOOR)) for share in shares]
    by_remainder = sorted(range(len(shares)), key=lambda place: floors[place] - shares[place])
    rounded_up = frozenset(by_remainder[: total - sum(floors)])
    for place, whole in enumerate(floors):
        yield whole + (place in rounded_up)


def _poured(waste_percent: float) -> float:
    if not 0 <= waste_percent < 100:
        raise ValueError(f"{waste_percent} % of waste is not between 0 and 100 %")
    return 1 - waste_percent / 100
