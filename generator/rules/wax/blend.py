"""The formula as one batch: what is in it, its fragrance load, its densities and its heat."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from functools import cached_property, lru_cache
from typing import Final

from generator.model.materials import Additive, Dye, Fragrance
from generator.model.recorded import Formula
from generator.problems import Fault, is_error
from generator.rules.wax.density import (
    ADDITIVE_G_PER_ML,
    FRAGRANCE_G_PER_ML,
    density_faults,
    harmonic_g_per_ml,
    hot_oil_g_per_ml,
    molten_wax_g_per_ml,
)
from generator.rules.wax.fragrance_load import load_faults, share_percent
from generator.rules.wax.portions import grams, portion_faults, stirred_in

FORMULAS_KEPT: Final = 16
"""Sizes of a candle share its formula and come one after another, so the last few are not resolved again."""

WAX_MJ_PER_KG: Final = 43.478
"""Heat of n-C32 paraffin, the upper figure of whatever records none (physics.md B2, COMPUTED)."""

FRAGRANCE_MJ_PER_KG: Final = 35.0
"""Heat of a fragrance oil; single constituents lie between 25 and 43 (physics.md B2, CHOICE)."""


class Role(Enum):
    """What an ingredient is in the blend."""

    WAX = "wax"
    FRAGRANCE = "fragrance"
    ADDITIVE = "additive"
    DYE = "dye"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendPart:
    """One ingredient and its exact weight in the batch."""

    id: str
    role: Role
    grams: Decimal


@dataclass(frozen=True, kw_only=True)
class Blend:
    """One batch as recorded: its parts by role and then id. Weights are exact, since hazard limits are inclusive."""

    parts: tuple[BlendPart, ...]

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

    @property
    def fragrance_of_wax_percent(self) -> Decimal:
        """The fragrance load on the wax."""
        return share_percent(self.fragrance_g, self.wax_g)

    @property
    def fragrance_of_total_percent(self) -> Decimal:
        """The fragrance load on the total, as safety limits count it."""
        return share_percent(self.fragrance_g, self.total_g)

    def of_wax_percent(self, part: BlendPart) -> Decimal:
        """The share of one part on the waxes."""
        return share_percent(part.grams, self.wax_g)

    def of_total_percent(self, part: BlendPart) -> Decimal:
        """The share of one part in the total."""
        return share_percent(part.grams, self.total_g)

    def _of_role_g(self, role: Role) -> Decimal:
        return sum((part.grams for part in self.parts if part.role is role), start=Decimal())


def resolve(formula: Formula) -> tuple[Blend | None, tuple[Fault, ...]]:
    """The batch of a formula; None where an amount or a density cannot be true.

    Limits of wax and certificate are told as errors beside the blend they are found in.
    Paths begin at `Recorded`: ``("formula", "samphire")``.
    """
    faults = (*portion_faults(formula), *density_faults(formula))
    if any(is_error(fault) for fault in faults):
        return None, faults
    blend = _blend(formula)
    weights = {part.id: part.grams for part in blend.parts}
    return blend, (*faults, *load_faults(formula, weights))


@lru_cache(maxsize=FORMULAS_KEPT)
def _blend(formula: Formula) -> Blend:
    """Faults are told anew each time, because equal amounts may be written in other digits."""
    return Blend(parts=tuple(_parts(formula, grams(formula))))


def density_set_g_per_ml(formula: Formula, blend: Blend) -> float:
    """Density of the cold, set blend: `harmonic_g_per_ml` of the recorded densities.

    A fragrance that records none counts as 0.98 g/ml, an additive or dye as 1.0 g/ml.
    """
    return _blended_g_per_ml(blend, cold_g_per_ml(formula))


def density_molten_g_per_ml(formula: Formula, blend: Blend, at_c: float) -> float:
    """Density of the molten blend at its pour temperature: `harmonic_g_per_ml` of the hot densities.

    Each wax is moved from its own recorded temperature, each oil from 20 degC; additives and dyes count as when
    cold (CHOICE). Holds from 30 to 120 degC and refuses others: `density.pour_fault` tells them.
    """
    return _blended_g_per_ml(blend, hot_g_per_ml(formula, at_c))


def cold_g_per_ml(formula: Formula) -> Mapping[str, float]:
    """The density of each ingredient when set, as recorded or by default."""
    waxes = {portion.material.id: portion.material.density.set_g_per_ml for portion in formula.waxes}
    stirred = {portion.material.id: _recorded_g_per_ml(portion.material) for portion in stirred_in(formula)}
    return {**stirred, **waxes}


def hot_g_per_ml(formula: Formula, at_c: float) -> Mapping[str, float]:
    """The density of each ingredient at the temperature of the pour."""
    cold = cold_g_per_ml(formula)
    waxes = {
        portion.material.id: molten_wax_g_per_ml(portion.material.density.molten, at_c)
        for portion in formula.waxes
    }
    oils = {
        portion.material.id: hot_oil_g_per_ml(cold[portion.material.id], at_c)
        for portion in formula.fragrances
    }
    return {**cold, **oils, **waxes}


def lhv_mj_per_kg(formula: Formula, blend: Blend) -> float:
    """Lower heating value of the blend: `mean_mj_per_kg` of what is recorded.

    A wax that records no heat counts as paraffin, the upper figure; so do additives and dyes.
    """
    waxes = {portion.material.id: portion.material.heat_mj_per_kg for portion in formula.waxes}
    recorded = {id_: heat for id_, heat in waxes.items() if heat is not None}
    heats = {**recorded, **{portion.material.id: FRAGRANCE_MJ_PER_KG for portion in formula.fragrances}}
    return mean_mj_per_kg((float(part.grams), heats.get(part.id, WAX_MJ_PER_KG)) for part in blend.parts)


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


def _parts(formula: Formula, weights: Mapping[str, Decimal]) -> Iterator[BlendPart]:
    groups = (
        (Role.WAX, formula.waxes),
        (Role.FRAGRANCE, formula.fragrances),
        (Role.ADDITIVE, formula.additives),
        (Role.DYE, formula.dyes),
    )
    for role, portions in groups:
        for id_ in sorted(portion.material.id for portion in portions):
            yield BlendPart(id=id_, role=role, grams=weights[id_])


def _recorded_g_per_ml(material: Fragrance | Additive | Dye) -> float:
    if material.density_g_per_ml is not None:
        return material.density_g_per_ml
    return FRAGRANCE_G_PER_ML if isinstance(material, Fragrance) else ADDITIVE_G_PER_ML


def _blended_g_per_ml(blend: Blend, densities: Mapping[str, float]) -> float:
    return harmonic_g_per_ml((float(part.grams), densities[part.id]) for part in blend.parts)
