"""What a pour sheet counts besides weights: the same parts in another unit, drops, and which batches share a wax."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from generator.model.amounts import Amount, AmountUnit
from generator.model.recorded import Role
from generator.rules.wax.batches import whole_parts
from generator.rules.wax.blend import Blend

COUNTED = frozenset({AmountUnit.DROPS, AmountUnit.BLOCKS, AmountUnit.TEASPOONS})
"""Units of what a maker counts out and does not weigh."""

_SHARE_DIGITS = 9


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
    return amount.value * batch_g / recorded_g if amount.unit in COUNTED else None


def wax_key(blend: Blend) -> tuple[tuple[str, Decimal], ...]:
    """Each wax with its share of all wax: batches that agree in it can be melted together."""
    return tuple(
        (part.id, round(part.grams / blend.wax_g, _SHARE_DIGITS))
        for part in blend.parts
        if part.role is Role.WAX
    )


def all_with_fragrance_g(blend_g: Decimal, of_wax_g: Decimal, wax_g: float) -> float:
    """What a pot of wax alone weighs once everything is stirred in.

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
