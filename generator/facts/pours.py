"""A pour: the batches to melt for a number of candles, what to weigh, and what each candle must contain."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from generator.facts.facts import Facts
from generator.model.candle import Make
from generator.model.markets import MARKETS
from generator.model.quantities import GRAMS_PER_OUNCE, FlashPoint, as_written
from generator.model.recorded import Formula, Recorded, Role
from generator.rules.labels.tolerances import (
    LARGEST_MAV_LABEL_G,
    LARGEST_NOMINAL_G,
    lowest_any_g,
    lowest_few_g,
    lowest_single_g,
    sample_size,
)
from generator.rules.wax.batches import (
    all_with_fragrance_g,
    count_of,
    counted_out,
    in_steps,
    melted,
    wax_key,
    weighed_out,
)
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.portions import Ingredient

OUNCE_G: Final = as_written(GRAMS_PER_OUNCE)
FINE_OUNCES: Final = Decimal("0.01")
FINE_GRAMS: Final = Decimal("0.1")
"""Steps of the unit that the scale does not show (CHOICE)."""

_FINEST_GRAMS: Final = Decimal("0.001")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A number of candles of one stock code."""

    recorded: Recorded
    facts: Facts
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredPart:
    """One ingredient of a batch as weighed: in grams and ounces that add up, or counted."""

    ingredient: Ingredient
    grams: Decimal
    ounces: Decimal
    counted: Decimal | None
    counted_in: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredBatch:
    """One pot: everything of one formula."""

    scent: str
    wanted: tuple[Wanted, ...]
    parts: tuple[PouredPart, ...]
    make: Make | None
    flash_points: tuple[tuple[str, FlashPoint | None], ...]

    @property
    def total_g(self) -> Decimal:
        """All parts as weighed out."""
        return sum((part.grams for part in self.parts), start=Decimal())

    @property
    def total_oz(self) -> Decimal:
        """The same in ounces."""
        return sum((part.ounces for part in self.parts), start=Decimal())


@dataclass(frozen=True, slots=True, kw_only=True)
class WaxGroup:
    """Batches that begin with the same wax: its total for them, as (name, grams, ounces)."""

    waxes: tuple[tuple[str, Decimal, Decimal], ...]
    batches: tuple[PouredBatch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """The maker's scale step and waste allowance; None where not recorded."""

    step_g: float
    waste_percent: float | None

    @property
    def reads_ounces(self) -> bool:
        """Whether the scale reads ounces: its step is not a round number of grams."""
        return bool(as_written(self.step_g) % _FINEST_GRAMS)


def pour(wanted: Iterable[Wanted], scale: Scale) -> tuple[WaxGroup, ...]:
    """Every batch, those of one formula in one pot, those of one wax together."""
    pots: dict[tuple[Formula, Make | None], list[Wanted]] = {}
    for one in wanted:
        pots.setdefault((one.recorded.build.formula, one.recorded.make), []).append(one)
    groups: dict[tuple[tuple[str, Decimal], ...], list[PouredBatch]] = {}
    for (formula, _), pot in pots.items():
        blend = _blended(formula)
        groups.setdefault(wax_key(blend), []).append(_batch(pot, blend, scale))
    return tuple(
        WaxGroup(waxes=tuple(_waxes(batches)), batches=tuple(batches)) for batches in groups.values()
    )


def fills(
    one: Recorded, net_g: float, pot_g: float, waste_percent: float, *, unscented: bool
) -> tuple[int, float]:
    """How many candles the pot fills, and what is left in it; ``unscented`` if it holds only wax."""
    blend = _blended(one.build.formula)
    total_g = all_with_fragrance_g(blend.total_g, blend.wax_g, pot_g) if unscented else pot_g
    count = count_of(total_g, net_g, waste_percent)
    return count, max(0.0, total_g - melted(count, net_g, waste_percent).value)


def _blended(formula: Formula) -> Blend:
    blend, faults = resolve(formula)
    if blend is None:
        raise ValueError(f"a candle with facts has a blend, but: {faults}")
    return blend


def _batch(pot: Sequence[Wanted], blend: Blend, scale: Scale) -> PouredBatch:
    waste = scale.waste_percent or 0.0
    recorded = pot[0].recorded
    formula = recorded.build.formula
    melted_g = sum(melted(one.count, one.facts.net_weight_g, waste).value for one in pot)
    return PouredBatch(
        scent=recorded.scent,
        wanted=tuple(pot),
        parts=tuple(_parts(formula, blend, weighed_out(blend, melted_g, scale.step_g), scale)),
        make=recorded.make,
        flash_points=tuple(
            (portion.material.name, portion.material.flash_point) for portion in formula.fragrances
        ),
    )


def _parts(
    formula: Formula, blend: Blend, weighed: Sequence[tuple[Ingredient, Decimal]], scale: Scale
) -> Iterator[PouredPart]:
    amounts = {portion.material.id: portion.amount for portion in formula.stirred_in}
    batch = sum((ingredient.grams for ingredient, _ in weighed), start=Decimal())
    both = _in_both([on_scale for _, on_scale in weighed], reads_ounces=scale.reads_ounces)
    for (ingredient, _), grams, ounces in zip(weighed, *both, strict=True):
        amount = amounts.get(ingredient.id)
        counted = None if amount is None else counted_out(amount, batch, blend.total_g)
        yield PouredPart(
            ingredient=ingredient,
            grams=grams,
            ounces=ounces,
            counted=counted,
            counted_in=None if amount is None or counted is None else amount.unit.name.lower(),
        )


def _in_both(
    on_scale: Sequence[Decimal], *, reads_ounces: bool
) -> tuple[Sequence[Decimal], Sequence[Decimal]]:
    """Weights in the scale's unit at its step, in the other at a fine step; each column adds up."""
    if reads_ounces:
        grams = [steps * FINE_GRAMS for steps in in_steps(on_scale, FINE_GRAMS)]
        return grams, [weight / OUNCE_G for weight in on_scale]
    return on_scale, [steps * FINE_OUNCES for steps in in_steps(on_scale, FINE_OUNCES * OUNCE_G)]


def _waxes(batches: Sequence[PouredBatch]) -> Iterator[tuple[str, Decimal, Decimal]]:
    for wax in (part.ingredient for part in batches[0].parts if part.ingredient.role is Role.WAX):
        shares = [part for batch in batches for part in batch.parts if part.ingredient.id == wax.id]
        yield (
            wax.material.name,
            sum((part.grams for part in shares), start=Decimal()),
            sum((part.ounces for part in shares), start=Decimal()),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PackRules:
    """How many candles of a pour are weighed, and what they must contain.

    ``few_below_g`` and ``none_below_g`` are one and two tolerable negative errors below, ``us_none_below_g`` is the
    maximum allowable variation below; None where no market of the shop has that rule, or the rule ends.
    """

    stock_code: str
    count: int
    sample: int
    average_g: Decimal
    few_below_g: Decimal | None
    none_below_g: Decimal | None
    us_none_below_g: Decimal | None


def pack_rules(one: Wanted) -> PackRules | None:
    """What the candles of a pour must contain; None where no market prints their quantity."""
    rules = {MARKETS[market].shortfall for market, said in one.facts.declared.items() if said is not None}
    if not rules or one.facts.declared_g is None:
        return None
    declared_g = Decimal(one.facts.declared_g)
    label_g = max(declared_g, as_written(one.recorded.declared_oz or 0.0) * OUNCE_G)
    metric = declared_g <= LARGEST_NOMINAL_G and "TNE" in rules
    us = label_g <= LARGEST_MAV_LABEL_G and "MAV" in rules
    return PackRules(
        stock_code=one.facts.stock_code,
        count=one.count,
        sample=sample_size(one.count),
        average_g=label_g,
        few_below_g=lowest_few_g(declared_g) if metric else None,
        none_below_g=lowest_any_g(declared_g) if metric else None,
        us_none_below_g=lowest_single_g(label_g) if us else None,
    )
