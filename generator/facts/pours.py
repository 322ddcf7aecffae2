"""A pour: which batches to melt for so many candles, and what to weigh out and set out for them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from generator.facts.facts import Facts
from generator.model.candle import Make
from generator.model.quantities import GRAMS_PER_OUNCE, FlashPoint, as_written
from generator.model.recorded import Formula, Recorded, Role
from generator.rules.wax.batches import WeighedOut, batch_g, count_of, weighed_out
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.portions import stirred_in
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
    """One ingredient of a batch: in grams and ounces that add up, exactly, and counted where it is counted."""

    id: str
    name: str
    role: Role
    grams: Decimal
    ounces: Decimal
    exact_g: Decimal
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
    return count, max(0.0, total_g - batch_g(count, net_g, waste_percent))


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
    melted_g = sum(batch_g(one.count, one.facts.net_weight_g, waste) for one in pot)
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
    formula: Formula, blend: Blend, weighed: tuple[WeighedOut, ...], scale: Scale
) -> Iterator[PouredPart]:
    names = {portion.material.id: portion.material.name for portion in (*formula.waxes, *stirred_in(formula))}
    amounts = {portion.material.id: portion.amount for portion in stirred_in(formula)}
    on_scale = [part.grams for part in weighed]
    batch = sum((part.exact_g for part in weighed), start=Decimal())
    grams, ounces = _in_both(on_scale, reads_ounces=scale.reads_ounces)
    for part, part_g, part_oz in zip(weighed, grams, ounces, strict=True):
        amount = amounts.get(part.id)
        counted = None if amount is None else counted_out(amount, batch, blend.total_g)
        yield PouredPart(
            id=part.id,
            name=names[part.id],
            role=part.role,
            grams=part_g,
            ounces=part_oz,
            exact_g=part.exact_g,
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
    first: Mapping[str, str] = {part.id: part.name for part in batches[0].parts if part.role is Role.WAX}
    for id_, name in first.items():
        shares = [part for batch in batches for part in batch.parts if part.id == id_]
        yield (
            name,
            sum((part.grams for part in shares), start=Decimal()),
            sum((part.ounces for part in shares), start=Decimal()),
        )
