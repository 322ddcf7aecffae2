"""A batch for a number of candles: how much to melt, how many it fills, what to weigh and count out."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor
from typing import Final

from generator.model.amounts import Amount, AmountUnit
from generator.model.quantities import as_written
from generator.model.recorded import Role
from generator.rules.calculation import Calculation, Number
from generator.rules.wax.blend import Blend
from generator.rules.wax.portions import Ingredient

_ROUNDING_DIGITS: Final = 9
"""A batch made for 24 candles must be found to fill 24, whatever binary arithmetic adds."""

_COUNTED: Final = frozenset({AmountUnit.DROPS, AmountUnit.BLOCKS, AmountUnit.TEASPOONS})
"""Units of what a maker counts out and does not weigh."""

_SHARE_DIGITS: Final = 9


def melted(count: int, net_g: Number, waste_percent: Number) -> Calculation:
    """Weight to melt for a number of candles, in g; exact over fractions.

    M = N m / (1 - f)

    count: N.
    net_g: m, wax of one candle, g.
    waste_percent: 100 f, what of the batch stays in pot, jug and test pieces.
    Holds for f from 0 to below 1; refuses others.
    Source: physics.md D9 (COMPUTED).

    >>> round(melted(24, 185.7, 3.0).value, 3)
    4594.639
    """
    _refuse_waste(waste_percent)
    inputs = {"count": Fraction(count), "net_g": net_g, "waste_percent": waste_percent}
    return Calculation("count * net_g / (1 - waste_percent / 100)", inputs)


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
    _refuse_waste(waste_percent)
    return floor(round(batch_g * (1 - waste_percent / 100) / net_g, _ROUNDING_DIGITS))


def weighed_out(blend: Blend, batch_g: float, scale_step_g: float) -> tuple[tuple[Ingredient, Decimal], ...]:
    """Each ingredient of a batch, and its grams to the scale's step, which add up to the batch.

    The batch is rounded up to the next step, so that it never falls short (CHOICE); the steps left over after rounding
    down go to the largest remainders. Less than a step may round to nothing: the ingredient stays.
    """
    step = as_written(scale_step_g)
    steps_in_batch = round(as_written(batch_g) / step, _ROUNDING_DIGITS)
    total = steps_in_batch.to_integral_value(rounding=ROUND_CEILING)
    shares = [part.grams / blend.total_g * total for part in blend.parts]
    return tuple(
        (replace(part, exact_g=Fraction(share * step)), steps * step)
        for part, share, steps in zip(blend.parts, shares, whole_parts(shares, int(total)), strict=True)
    )


def whole_parts(shares: Sequence[Decimal], total: int) -> Iterator[int]:
    """Whole numbers that add up to the total; the largest remainders are rounded up, the first of equals first."""
    floors = [int(share.to_integral_value(rounding=ROUND_FLOOR)) for share in shares]
    by_remainder = sorted(range(len(shares)), key=lambda place: floors[place] - shares[place])
    rounded_up = frozenset(by_remainder[: total - sum(floors)])
    for place, whole in enumerate(floors):
        yield whole + (place in rounded_up)


def in_steps(weights_g: Sequence[Decimal], step_g: Decimal) -> tuple[Decimal, ...]:
    """The same weights as multiples of another step, adding up to their total rounded to it.

    >>> in_steps([Decimal("681"), Decimal("62")], Decimal("28.349523125"))
    (Decimal('24'), Decimal('2'))
    """
    shares = [weight / step_g for weight in weights_g]
    total = sum(shares, start=Decimal()).to_integral_value(rounding=ROUND_HALF_UP)
    return tuple(Decimal(whole) for whole in whole_parts(shares, int(total)))


def counted_out(amount: Amount, batch_g: Decimal, recorded_g: Decimal) -> Decimal | None:
    """How many drops, blocks or teaspoons a batch takes; None for what is weighed.

    n = a M / m

    amount: a, as recorded for one batch of the formula, without unit.
    batch_g: M, what is melted, g.
    recorded_g: m, the batch that the formula records, g.
    Holds for any batch, since a formula has no weight of its own.
    Source: proportion (COMPUTED).

    >>> counted_out(Amount(Decimal(6), AmountUnit.DROPS), Decimal(2176), Decimal(1088))
    Decimal('12')
    """
    return amount.value * batch_g / recorded_g if amount.unit in _COUNTED else None


def wax_key(blend: Blend) -> tuple[tuple[str, Decimal], ...]:
    """Each wax with its share of all wax: batches that agree in it can be melted together."""
    return tuple(
        (part.id, round(part.grams / blend.wax_g, _SHARE_DIGITS))
        for part in blend.parts
        if part.role is Role.WAX
    )


def all_with_fragrance_g(blend_g: Decimal, of_wax_g: Decimal, wax_g: float) -> float:
    """What a pot of wax weighs once everything is stirred in.

    M = W m / w

    blend_g: m, the recorded batch, g.
    of_wax_g: w, the wax in it, g.
    wax_g: W, the wax in the pot, g.
    Holds for any blend.
    Source: proportion (COMPUTED).

    >>> all_with_fragrance_g(Decimal(26), Decimal(24), 12.0)
    13.0
    """
    return wax_g * float(blend_g / of_wax_g)


def _refuse_waste(waste_percent: Number) -> None:
    if not 0 <= waste_percent < 100:
        raise ValueError(f"{waste_percent} % of waste is not between 0 and 100 %")
