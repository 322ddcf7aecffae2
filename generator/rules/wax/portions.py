"""The amounts of a formula as weights: each one, their total, and what is missing."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction
from functools import cached_property
from typing import Final

from generator.model.amounts import Amount, AmountUnit
from generator.model.materials import Additive, Fragrance, Wax
from generator.model.quantities import as_written
from generator.model.recorded import Formula, Portion, Role, Stirred
from generator.problems import Fault

WAX_OF_PARTS_G: Final = Decimal(1000)
"""When every wax is in parts, the formula is assumed to contain this much wax (CHOICE)."""

_GRAMS: Final = Context(prec=28)
_COUNTED: Final = {
    AmountUnit.DROPS: ("drop", "drops differ between bottles, and hazard limits are in grams"),
    AmountUnit.TEASPOONS: (
        "teaspoon",
        "a level teaspoon of powder weighs 2.5 to 5.5 g, a factor of two on the safety sheet",
    ),
    AmountUnit.BLOCKS: ("block", "blocks differ between suppliers, and hazard limits are in grams"),
}
_OF_WAX: Final = AmountUnit.PERCENT_OF_WAX
_OF_TOTAL: Final = AmountUnit.PERCENT_OF_TOTAL


def portion_faults(formula: Formula) -> Iterator[Fault]:
    """Amounts that do not determine a weight; paths as in ``("formula", "samphire")``."""
    yield from _wax_faults(formula.waxes)
    for portion in formula.stirred_in:
        yield from _stirred_faults(portion)
    yield from _whole_faults(formula)


@dataclass(frozen=True, kw_only=True)
class Ingredient:
    """One material, its role in the candle, and its amount."""

    role: Role
    material: Wax | Fragrance | Additive
    exact_g: Fraction

    @property
    def id(self) -> str:
        """The id of the material's entry."""
        return self.material.id

    @cached_property
    def grams(self) -> Decimal:
        """The weight to 28 digits."""
        return _GRAMS.divide(Decimal(self.exact_g.numerator), Decimal(self.exact_g.denominator))


def ingredients_of(formula: Formula) -> tuple[Ingredient, ...]:
    """One batch of a formula without `portion_faults`, by role and then id."""
    grams = exact_grams(formula)
    groups: tuple[tuple[Role, tuple[Portion[Wax] | Stirred, ...]], ...] = (
        (Role.WAX, formula.waxes),
        (Role.FRAGRANCE, formula.fragrances),
        (Role.ADDITIVE, formula.additives),
        (Role.DYE, formula.dyes),
    )
    return tuple(
        Ingredient(role=role, material=portion.material, exact_g=grams[portion.material.id])
        for role, portions in groups
        for portion in sorted(portions, key=lambda portion: portion.material.id)
    )


def exact_grams(formula: Formula) -> Mapping[str, Fraction]:
    """The weight of each ingredient in one batch, without any rounding; waxes in parts share out 1000 g."""
    wax_g = _wax_g(formula.waxes)
    fixed_g = dict(_weights(formula))
    of_wax, of_total = _shares(formula, _OF_WAX), _shares(formula, _OF_TOTAL)
    wax = _sum(wax_g)
    total = total_g(wax, _sum(fixed_g) + wax * _sum(of_wax), _sum(of_total))
    return {
        **fixed_g,
        **wax_g,
        **{id_: share * wax for id_, share in of_wax.items()},
        **{id_: share * total for id_, share in of_total.items()},
    }


def total_g(wax_g: Fraction, other_g: Fraction, of_total: Fraction) -> Fraction:
    """Weight of a batch some of whose ingredients are a share of that weight.

    total = (wax + other) / (1 - q)

    wax_g: all waxes, g.
    other_g: all that is weighed, counted or a share of the wax, g.
    of_total: q, the sum of the shares of the total, as a fraction.
    Holds for q below 1; `portion_faults` reports others.
    Source: total = wax + other + q total, solved for the total (COMPUTED).

    >>> total_g(Fraction(900), Fraction(), Fraction(1, 10))
    Fraction(1000, 1)
    """
    return (wax_g + other_g) / (1 - of_total)


def _wax_g(waxes: tuple[Portion[Wax], ...]) -> Mapping[str, Fraction]:
    amounts = {portion.material.id: Fraction(portion.amount.value) for portion in waxes}
    if waxes[0].amount.unit is AmountUnit.GRAMS:
        return amounts
    one_part_g = Fraction(WAX_OF_PARTS_G) / _sum(amounts)
    return {id_: parts * one_part_g for id_, parts in amounts.items()}


def _shares(formula: Formula, unit: AmountUnit) -> Mapping[str, Fraction]:
    """The shares on one basis, as fractions of it."""
    return {
        portion.material.id: Fraction(portion.amount.value) / 100
        for portion in formula.stirred_in
        if portion.amount.unit is unit
    }


def _sum(of_each: Mapping[str, Fraction]) -> Fraction:
    return sum(of_each.values(), start=Fraction())


def _weights(formula: Formula) -> Iterator[tuple[str, Fraction]]:
    """The weights of ingredients that are not shares."""
    for portion in formula.stirred_in:
        each_g = _each_g(portion)
        if each_g is not None:
            yield portion.material.id, Fraction(portion.amount.value) * Fraction(each_g)


def _each_g(portion: Stirred) -> Decimal | None:
    """What one unit of the amount weighs: a gram, a millilitre, a drop, a teaspoon, a block."""
    material = portion.material
    recorded: Mapping[AmountUnit, float | None] = {
        AmountUnit.GRAMS: 1.0,
        AmountUnit.MILLILITRES: material.density_g_per_ml,
    }
    if isinstance(material, Additive):
        recorded = {
            **recorded,
            AmountUnit.DROPS: material.drop_g,
            AmountUnit.TEASPOONS: material.teaspoon_g,
            AmountUnit.BLOCKS: material.block_g,
        }
    each_g = recorded.get(portion.amount.unit)
    return as_written(each_g) if each_g else None


def _wax_faults(waxes: tuple[Portion[Wax], ...]) -> Iterator[Fault]:
    if not waxes:
        yield Fault(
            path=("formula",),
            what="the recipe has no wax",
            why="every share is of the wax or of the total",
            fix="add a wax and its amount, as {...: ... g}",
        )
        return
    for portion in waxes:
        if portion.amount.unit not in (AmountUnit.GRAMS, AmountUnit.PARTS):
            id_ = portion.material.id
            yield Fault(
                path=("formula", id_),
                what=f"{id_} is given as {_written(portion.amount)}, but it is a wax",
                why="the shares of the others are of the wax, so the wax itself must be weighed",
                fix=f"{id_}: ... g, or ... parts",
            )
    yield from _mixed_wax_faults(waxes)
    if not any(portion.amount.value for portion in waxes):
        yield Fault(
            path=("formula", waxes[0].material.id),
            what=(
                f"{waxes[0].material.id} is given as {_written(waxes[0].amount)}, but there is no other wax"
            ),
            why="every share is of the wax or of the total",
            fix=f"{waxes[0].material.id}: ... g",
        )


def _mixed_wax_faults(waxes: tuple[Portion[Wax], ...]) -> Iterator[Fault]:
    weighed = [portion.material.id for portion in waxes if portion.amount.unit is AmountUnit.GRAMS]
    in_parts = [portion.material.id for portion in waxes if portion.amount.unit is AmountUnit.PARTS]
    if weighed and in_parts:
        yield Fault(
            path=("formula", in_parts[0]),
            what=f"{in_parts[0]} is in parts, but {weighed[0]} is weighed",
            why="a part has no weight of its own, so the wax blend is unknown",
            fix="give all waxes in parts, or all in grams",
        )


def _stirred_faults(portion: Stirred) -> Iterator[Fault]:
    id_, unit = portion.material.id, portion.amount.unit
    if unit in (_OF_WAX, _OF_TOTAL) or _each_g(portion) is not None:
        return
    written = f"{id_} is given as {_written(portion.amount)}"
    in_grams = f"{id_}: ... g, or ... % of wax"
    if unit is AmountUnit.PARTS:
        what, why, fix = f"{written}, but it is not a wax", "parts are for waxes only", in_grams
    elif unit is AmountUnit.MILLILITRES:
        what = f"{written}, but its entry has no density"
        why = "hazard limits are in grams, and oils range from 0.85 to 1.10 g/ml"
        fix = f"density: as in the supplier's sheet, in the entry of {id_}"
    elif isinstance(portion.material, Fragrance):
        what, why, fix = f"{written}, but it is a fragrance", "hazard limits are in grams", in_grams
    else:
        key, why = _COUNTED[unit]
        what = f"{written}, but its entry does not give the weight of a {key}"
        fix = f"{key}: weigh ten and enter a tenth, in the entry of {id_}"
    yield Fault(path=("formula", id_), what=what, why=why, fix=fix)


def _whole_faults(formula: Formula) -> Iterator[Fault]:
    shares = _shares(formula, _OF_TOTAL)
    together = _sum(shares)
    if together >= 1:
        last = tuple(shares)[-1]
        yield Fault(
            path=("formula", last),
            what=f"the shares of the total add up to {float(100 * together):g} %",
            why="there would be no room for the wax",
            fix=f"{last}: a smaller share of the total",
        )


def _written(amount: Amount) -> str:
    unit = amount.unit.value
    return f"{amount.value} {unit.removesuffix('s') if amount.value == 1 else unit}"
