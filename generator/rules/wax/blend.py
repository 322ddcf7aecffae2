"""The formula as one batch: what is in it, its fragrance load, its densities and its heat."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Context, Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Final

from generator.model.amounts import Basis, Share
from generator.model.materials import Fragrance, Wax
from generator.model.recorded import Formula, Role
from generator.problems import Fault, is_error
from generator.rules.calculation import Calculation
from generator.rules.wax.density import (
    ADDITIVE_G_PER_ML,
    FRAGRANCE_G_PER_ML,
    blend_density,
    density_faults,
    hot_oil_g_per_ml,
    molten_wax_g_per_ml,
)
from generator.rules.wax.portions import Ingredient, ingredients_of, portion_faults

WAX_MJ_PER_KG: Final = 43.478
"""Heat of n-C32 paraffin, the upper figure of whatever records none (physics.md B2, COMPUTED)."""

FRAGRANCE_MJ_PER_KG: Final = 35.0
"""Heat of a fragrance oil; single constituents lie between 25 and 43 (physics.md B2, CHOICE)."""

_PERCENT: Final = Context(prec=20)
FORMULAS_KEPT: Final = 16
"""Sizes of a candle share its formula and come one after another: the last few formulas are remembered."""

_MIXED_BASIS: Final = Basis.OF_WAX
_HUNDREDTH: Final = Decimal("0.01")
_ROOM: Final = Context(prec=60)


def share(part: str, part_g: Decimal, whole: str, whole_g: Decimal) -> Calculation:
    """A part's share of the whole, in percent; ``part`` and ``whole`` are their names in the formula.

    s = 100 part / whole

    part_g: g.
    whole_g: g.
    Holds for a whole above 0.
    Source: the definition of a percentage (COMPUTED).

    >>> share("oil_g", Decimal(30), "total_g", Decimal(1000)).value
    3.0
    """
    return Calculation(f"100 * {part} / {whole}", {part: Fraction(part_g), whole: Fraction(whole_g)})


def share_percent(part_g: Decimal, whole_g: Decimal) -> Decimal:
    """`share` to 20 digits, so that it comes back exactly as it was written.

    >>> share_percent(Decimal(30) / Decimal("0.97"), Decimal(1000) / Decimal("0.97")) == Decimal(3)
    True
    """
    (part, parts_per_g), (whole, wholes_per_g) = part_g.as_integer_ratio(), whole_g.as_integer_ratio()
    return _PERCENT.divide(Decimal(100 * part * wholes_per_g), Decimal(whole * parts_per_g))


@dataclass(frozen=True, kw_only=True, eq=False)
class Blend:
    """One batch as recorded: its parts by role and then id. Weights are exact, since hazard limits are inclusive.

    `blend_of` returns the same object for the same formula, so each equals only itself.
    """

    parts: tuple[Ingredient, ...]

    @cached_property
    def total_g(self) -> Decimal:
        """The whole batch."""
        return sum((part.grams for part in self.parts), start=Decimal())

    @cached_property
    def wax_g(self) -> Decimal:
        """All its waxes."""
        return self._of_role_g(Role.WAX)

    @cached_property
    def fragrance_g(self) -> Decimal:
        """All its fragrances."""
        return self._of_role_g(Role.FRAGRANCE)

    @cached_property
    def fragrance_of_wax(self) -> Calculation:
        """The fragrance load on the wax, in percent."""
        return share("fragrance_g", self.fragrance_g, "wax_g", self.wax_g)

    @cached_property
    def fragrance_of_total(self) -> Calculation:
        """The fragrance load on the total, in percent."""
        return share("fragrance_g", self.fragrance_g, "total_g", self.total_g)

    @cached_property
    def fragrance_of_wax_percent(self) -> Decimal:
        """The fragrance load on the wax."""
        return share_percent(self.fragrance_g, self.wax_g)

    @cached_property
    def fragrance_of_total_percent(self) -> Decimal:
        """The fragrance load on the total, as safety limits count it."""
        return share_percent(self.fragrance_g, self.total_g)

    def of_wax_percent(self, part: Ingredient) -> Decimal:
        """The share of one part on the waxes."""
        return share_percent(part.grams, self.wax_g)

    def of_total_percent(self, part: Ingredient) -> Decimal:
        """The share of one part in the total."""
        return share_percent(part.grams, self.total_g)

    @cached_property
    def density_set(self) -> Calculation:
        """Density of the cold, set blend: `blend_density` of the recorded densities.

        A fragrance that records none counts as 0.98 g/ml, an additive or dye as 1.0 g/ml.
        """
        return blend_density(
            {formula_name(part): (float(part.grams), _cold_g_per_ml(part)) for part in self.parts}
        )

    @lru_cache(maxsize=FORMULAS_KEPT)  # noqa: B019
    def density_molten(self, at_c: float) -> Calculation:
        """Density of the molten blend at its pour temperature: `blend_density` of the hot densities.

        Each wax is moved from its own recorded temperature, each oil from 20 degC; additives and dyes count as when
        cold (CHOICE). Holds from 30 to 120 degC and refuses others: `density.pour_fault` tells them.
        """
        hot = {formula_name(part): (float(part.grams), _hot_g_per_ml(part, at_c)) for part in self.parts}
        return blend_density(hot)

    @cached_property
    def lhv_mj_per_kg(self) -> float:
        """Lower heating value of the blend: `mean_mj_per_kg` of what is recorded.

        A wax that records no heat counts as paraffin, the upper figure; so do additives and dyes.
        """
        return mean_mj_per_kg((float(part.grams), _mj_per_kg(part)) for part in self.parts)

    def _of_role_g(self, role: Role) -> Decimal:
        return sum((part.grams for part in self.parts if part.role is role), start=Decimal())


def resolve(formula: Formula) -> tuple[Blend | None, tuple[Fault, ...]]:
    """The batch of a formula; None where an amount or a density cannot be true.

    Limits of wax and certificate are errors beside the blend they are found in.
    Paths begin at `Recorded`: ``("formula", "samphire")``.
    """
    sound = _sound_blend(formula)
    return _resolved(formula) if sound is None else (sound, ())


@lru_cache(maxsize=FORMULAS_KEPT)
def _sound_blend(formula: Formula) -> Blend | None:
    """The batch of a formula without faults. Faults are not kept: of equal formulas each quotes its own writing."""
    blend, faults = _resolved(formula)
    return None if faults else blend


def _resolved(formula: Formula) -> tuple[Blend | None, tuple[Fault, ...]]:
    faults = (*portion_faults(formula), *density_faults(formula))
    if any(is_error(fault) for fault in faults):
        return None, faults
    blend = blend_of(formula)
    weights = {part.id: part.grams for part in blend.parts}
    return blend, (*faults, *_over_the_wax(formula, weights), *_over_the_certificate(formula, weights))


@lru_cache(maxsize=FORMULAS_KEPT)
def blend_of(formula: Formula) -> Blend:
    """The batch of a formula whose amounts and densities can be true."""
    return Blend(parts=ingredients_of(formula))


def mean_mj_per_kg(parts: Iterable[tuple[float, float]]) -> float:
    """Heating value of a blend.

    H = sum(m_i H_i) / sum(m_i)

    parts: pairs of m_i, mass, and H_i, MJ/kg.
    Holds for any blend, since energy per mass adds up; unlike density, the mean is arithmetic.
    Source: physics.md B2 (COMPUTED).

    >>> round(mean_mj_per_kg([(1000.0, 37.45), (91.6667, 35.0)]), 4)
    37.2443
    """
    masses = tuple(parts)
    return sum(mass * heat for mass, heat in masses) / sum(mass for mass, _ in masses)


def formula_name(part: Ingredient) -> str:
    """An id as a name in a formula, which may not begin with a digit."""
    name = part.id.replace("-", "_")
    return f"n{name}" if name[0].isdigit() else name


def _cold_g_per_ml(part: Ingredient) -> float:
    """The density when set, as recorded or by default."""
    if isinstance(part.material, Wax):
        return part.material.density.set_g_per_ml
    if part.material.density_g_per_ml is not None:
        return part.material.density_g_per_ml
    return FRAGRANCE_G_PER_ML if isinstance(part.material, Fragrance) else ADDITIVE_G_PER_ML


def _hot_g_per_ml(part: Ingredient, at_c: float) -> float:
    """The density at the temperature of the pour."""
    if isinstance(part.material, Wax):
        return molten_wax_g_per_ml(part.material.density.molten, at_c)
    cold = _cold_g_per_ml(part)
    return hot_oil_g_per_ml(cold, at_c) if isinstance(part.material, Fragrance) else cold


def _mj_per_kg(part: Ingredient) -> float:
    if isinstance(part.material, Fragrance):
        return FRAGRANCE_MJ_PER_KG
    recorded = part.material.heat_mj_per_kg if isinstance(part.material, Wax) else None
    return WAX_MJ_PER_KG if recorded is None else recorded


def _over_the_wax(formula: Formula, grams: Mapping[str, Decimal]) -> Iterator[Fault]:
    """Each wax takes its own share of fragrance, the limit included; no fault where a wax records none."""
    fragrances = [portion.material.id for portion in formula.fragrances]
    limits = {portion.material.id: portion.material.most_fragrance for portion in formula.waxes}
    known = {id_: limit for id_, limit in limits.items() if limit is not None}
    if not fragrances or len(known) < len(limits):
        return
    bases = {limit.basis for limit in known.values()}
    basis = bases.pop() if len(bases) == 1 else _MIXED_BASIS
    whole_g = _whole_g(basis, formula, grams)
    taken_g = sum((_taken_g(id_, limit, formula, grams) for id_, limit in known.items()), start=Decimal())
    most = share_percent(taken_g, whole_g)
    load = share_percent(sum((grams[id_] for id_ in fragrances), start=Decimal()), whole_g)
    if load > most:
        heaviest = max(fragrances, key=lambda id_: grams[id_])
        together, verb = ("", "is") if len(fragrances) == 1 else (" together", "are")
        yield Fault(
            path=("formula", heaviest),
            what=(
                f"{' and '.join(fragrances)}{together} {verb} {float(load):.6g} % {basis.value}, "
                f"more than the {float(most):.6g} % {basis.value} that {' and '.join(known)} "
                "can hold"
            ),
            why="excess oil sweats out of the wax and can flare",
            fix=f"{heaviest}: at most {_floored(most)} % {basis.value}{together}",
        )


def _over_the_certificate(formula: Formula, grams: Mapping[str, Decimal]) -> Iterator[Fault]:
    for portion in formula.fragrances:
        id_, most = portion.material.id, portion.material.ifra_category_12
        if not isinstance(most, Share):
            continue
        load = share_percent(grams[id_], _whole_g(most.basis, formula, grams))
        if load > most.percent:
            basis = most.basis.value
            yield Fault(
                path=("formula", id_),
                what=f"{id_} is {float(load):.6g} % {basis}, "
                f"more than the {most.percent} % {basis} of its IFRA certificate for category 12",
                why="the supplier vouches for the oil in a candle only up to that share",
                fix=f"{id_}: at most {most.percent} % {basis}",
            )


def _taken_g(id_: str, limit: Share, formula: Formula, grams: Mapping[str, Decimal]) -> Decimal:
    """What one wax can hold: its share of its own weight, or of its part of the total."""
    wax_g = _whole_g(Basis.OF_WAX, formula, grams)
    return limit.percent / 100 * grams[id_] * _whole_g(limit.basis, formula, grams) / wax_g


def _whole_g(basis: Basis, formula: Formula, grams: Mapping[str, Decimal]) -> Decimal:
    waxes = (portion.material.id for portion in formula.waxes)
    counted = waxes if basis is Basis.OF_WAX else grams
    return sum((grams[id_] for id_ in counted), start=Decimal())


def _floored(percent: Decimal) -> str:
    """Rounded down to two decimals at most: pasted back, it must be within the limit."""
    return f"{percent.quantize(_HUNDREDTH, rounding=ROUND_FLOOR, context=_ROOM).normalize(_ROOM):f}"
