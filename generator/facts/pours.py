"""A pour: which batches to melt for so many candles, and what to weigh out and set out for them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from generator.facts.facts import Facts
from generator.model.candle import Make
from generator.model.quantities import GRAMS_PER_OUNCE, FlashPoint, as_written
from generator.model.recorded import Formula, Recorded, Role
from generator.rules.wax.batches import count_of, melted, weighed_out
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.portions import Ingredient
from generator.rules.wax.pour_units import all_with_fragrance_g, counted_out, in_steps, wax_key

OUNCE_G: Final = as_written(GRAMS_PER_OUNCE)
FINE_OUNCES: Final = Decimal("0.01")
FINE_GRAMS: Final = Decimal("0.1")
"""Steps of the unit that the scale does not read in (CHOICE)."""

_FINEST_GRAMS: Final = Decimal("0.001")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """So many candles of one stock code."""

    recorded: Recorded
    facts: Facts
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredPart:
    """One ingredient of a batch as weighed out: in grams and ounces that add up, and counted where it is counted."""

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
    """Batches that begin with the same wax: what of it they take together, as (name, grams, ounces)."""

    waxes: tuple[tuple[str, Decimal, Decimal], ...]
    batches: tuple[PouredBatch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How fine the maker weighs, and what of a batch she allows to be lost; None where nobody wrote it down."""

    step_g: float
    waste_percent: float | None

    @property
    def reads_ounces(self) -> bool:
        """A step that is no round number of grams is one of ounces."""
        return bool(as_written(self.step_g) % _FINEST_GRAMS)


def pour(wanted: Iterable[Wanted], scale: Scale) -> tuple[WaxGroup, ...]:
    """Every batch, those of one formula in one pot, those of one wax together."""
    pots: list[list[Wanted]] = []
    for one in wanted:
        pot = next(
            (pot for pot in pots if _formula(pot[0]) == _formula(one) and _make(pot) == _make([one])), None
        )
        if pot is None:
            pots.append([one])
        else:
            pot.append(one)
    groups: dict[tuple[tuple[str, Decimal], ...], list[PouredBatch]] = {}
    for pot in pots:
        blend = _blend(pot[0])
        groups.setdefault(wax_key(blend), []).append(_batch(pot, blend, scale))
    return tuple(
        WaxGroup(waxes=tuple(_waxes(batches)), batches=tuple(batches)) for batches in groups.values()
    )


def fills(
    one: Recorded, net_g: float, pot_g: float, waste_percent: float, *, unscented: bool
) -> tuple[int, float]:
    """How many candles the pot fills, and what is left in it then; ``unscented`` when it holds wax alone."""
    blend = _blended(one.build.formula)
    total_g = all_with_fragrance_g(blend.total_g, blend.wax_g, pot_g) if unscented else pot_g
    count = count_of(total_g, net_g, waste_percent)
    return count, max(0.0, total_g - melted(count, net_g, waste_percent).value)


def _formula(one: Wanted) -> Formula:
    return one.recorded.build.formula


def _make(pot: Sequence[Wanted]) -> Make | None:
    return pot[0].recorded.make


def _blend(one: Wanted) -> Blend:
    return _blended(_formula(one))


def _blended(formula: Formula) -> Blend:
    blend, faults = resolve(formula)
    if blend is None:
        raise ValueError(f"a candle with facts has a blend, but: {faults}")
    return blend


def _batch(pot: Sequence[Wanted], blend: Blend, scale: Scale) -> PouredBatch:
    waste = scale.waste_percent or 0.0
    melted_g = sum(melted(one.count, one.facts.net_weight_g, waste).value for one in pot)
    return PouredBatch(
        scent=pot[0].recorded.scent,
        wanted=tuple(pot),
        parts=tuple(_parts(_formula(pot[0]), blend, weighed_out(blend, melted_g, scale.step_g), scale)),
        make=_make(pot),
        flash_points=tuple(
            (portion.material.name, portion.material.flash_point) for portion in _formula(pot[0]).fragrances
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
    """In the scale's own unit as it is read, in the other to a fine step; each adds up by itself."""
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
