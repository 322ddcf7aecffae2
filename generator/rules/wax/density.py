"""Densities of waxes, oils and their blends, set and molten, and what cannot be true of the recorded ones."""

from collections.abc import Iterator, Mapping
from typing import Final

from generator.model.accepted import check_of
from generator.model.materials import Fragrance, Wax
from generator.model.quantities import DensityAt
from generator.model.recorded import Formula
from generator.problems import Fault, Path, warning
from generator.rules.calculation import Calculation

FRAGRANCE_G_PER_ML: Final = 0.98
"""A fragrance oil's density where its entry records none (physics.md A1, CHOICE)."""

ADDITIVE_G_PER_ML: Final = 1.0
"""An additive's or dye's density where its entry records none; there is too little of it to matter (CHOICE)."""

WAX_GROWS_PER_K: Final = 7.5e-4
"""Cubic expansion of molten vegetable wax (physics.md A2, COMPUTED); paraffin's is 9e-4, and 10 K differ by 0.15 %."""

OIL_G_PER_ML_PER_K: Final = 0.0008
"""Loss of a fragrance oil's density per kelvin above 20 degC (physics.md A1, MEMORY)."""

COOLEST_MELT_C: Final = 30.0
HOTTEST_MELT_C: Final = 120.0
"""Between these a pour is plausible: below no wax is molten, above it is close to smoking (CHOICE)."""

LIGHTEST_G_PER_ML: Final = 0.5
HEAVIEST_G_PER_ML: Final = 5.0
"""No wax, oil, powder or pigment of the trade is outside these; the unit is wrong (CHOICE)."""


def blend_density(parts: Mapping[str, tuple[float, float]]) -> Calculation:
    """Density of a blend whose volumes add up, in g/ml.

    rho = sum(m_i) / sum(m_i / rho_i)

    parts: m_i, mass or share of the total, and rho_i, g/ml, by what each ingredient is called in the formula.
    Holds without excess volume, for wax with 6 to 10 % of oil within 1 %.
    Source: physics.md A4 (COMPUTED; the 1 % MEMORY).

    >>> round(blend_density({"soy": (1000.0, 0.900), "oil": (91.6667, 0.980)}).value, 6)
    0.906212
    """
    inputs: dict[str, float] = {}
    for name, (mass, density) in parts.items():
        inputs |= {f"{name}_g": mass, f"{name}_g_per_ml": density}
    masses = " + ".join(f"{name}_g" for name in parts)
    volumes = " + ".join(f"{name}_g / {name}_g_per_ml" for name in parts)
    return Calculation(f"({masses}) / ({volumes})", inputs)


def molten_wax_g_per_ml(recorded: DensityAt, at_c: float) -> float:
    """Density of a molten wax at another temperature than the recorded one.

    rho(T) = rho(T0) (1 - beta (T - T0)), beta = 7.5e-4 per K

    recorded: rho(T0), g/ml, and T0, degC.
    at_c: T, degC.
    Holds from 30 to 120 degC; refuses others.
    Source: physics.md A2 (COMPUTED from JAOCS 69 (1992) 1184); for every wax alike (CHOICE).

    >>> round(molten_wax_g_per_ml(DensityAt(0.870, 75.0), 65.0), 6)
    0.876525
    """
    _refuse_outside(at_c)
    return recorded.g_per_ml * (1 - WAX_GROWS_PER_K * (at_c - recorded.at_c))


def hot_oil_g_per_ml(cold_g_per_ml: float, at_c: float) -> float:
    """Density of a fragrance oil in molten wax.

    rho(T) = rho(20) - 0.0008 (T - 20)

    cold_g_per_ml: rho(20), g/ml at 20 degC.
    at_c: T, degC.
    Holds from 30 to 120 degC; refuses others.
    Source: physics.md A1 (MEMORY).

    >>> round(hot_oil_g_per_ml(0.980, 75.0), 3)
    0.936
    """
    _refuse_outside(at_c)
    return cold_g_per_ml - OIL_G_PER_ML_PER_K * (at_c - 20.0)


def pour_fault(at_c: float, path: Path) -> Fault | None:
    """The fault of a pour temperature at which no wax is poured."""
    if COOLEST_MELT_C <= at_c <= HOTTEST_MELT_C:
        return None
    return Fault(
        path=path,
        what=f"{at_c:.0f} C is not between {COOLEST_MELT_C:g} and {HOTTEST_MELT_C:g} C",
        why="below that no wax is molten; above it wax may smoke and catch fire",
        fix=f"{path[-1]}: the temperature of the pour",
    )


def density_faults(formula: Formula) -> Iterator[Fault]:
    """Densities that cannot be true, and fragrances that record none; reported at their place in the entries."""
    for wax in formula.waxes:
        yield from _wax_faults(wax.material)
    for portion in formula.fragrances:
        yield from _unrecorded_faults(portion.material)
    for stirred in formula.stirred_in:
        if stirred.material.density_g_per_ml is not None:
            yield from _range_faults(stirred.material.id, "density", stirred.material.density_g_per_ml)


def _refuse_outside(at_c: float) -> None:
    if not COOLEST_MELT_C <= at_c <= HOTTEST_MELT_C:
        raise ValueError(f"{at_c} C is not between {COOLEST_MELT_C} and {HOTTEST_MELT_C} C")


def _wax_faults(wax: Wax) -> Iterator[Fault]:
    set_g_per_ml, molten = wax.density.set_g_per_ml, wax.density.molten
    out_of_range = (
        *_range_faults(wax.id, "set density", set_g_per_ml),
        *_range_faults(wax.id, "molten density", molten.g_per_ml),
    )
    yield from out_of_range
    if molten.g_per_ml >= set_g_per_ml and not out_of_range:
        yield Fault(
            path=("entry", wax.id, "density"),
            what=f"{wax.id} is {molten.g_per_ml:g} g/ml molten and {set_g_per_ml:g} g/ml set",
            why="wax shrinks as it sets, so set wax is denser",
            fix="density: {set: ... g/ml, molten: ... g/ml at ... C}, as the supplier gives them",
        )
    if not COOLEST_MELT_C <= molten.at_c <= HOTTEST_MELT_C:
        yield Fault(
            path=("entry", wax.id, "density"),
            what=f"{wax.id} records its molten density at {molten.at_c:.0f} C, "
            f"not between {COOLEST_MELT_C:g} and {HOTTEST_MELT_C:g} C",
            why="the weight of a hot pour is calculated from it",
            fix="density: {set: ... g/ml, molten: ... g/ml at ... C}, as the supplier gives them",
        )


def _range_faults(id_: str, name: str, density_g_per_ml: float) -> Iterator[Fault]:
    if not LIGHTEST_G_PER_ML <= density_g_per_ml <= HEAVIEST_G_PER_ML:
        yield Fault(
            path=("entry", id_, "density"),
            what=f"the {name} of {id_} is {density_g_per_ml:g} g/ml, "
            f"not between {LIGHTEST_G_PER_ML:g} and {HEAVIEST_G_PER_ML:g} g/ml",
            why="the net weight is calculated from it",
            fix="enter the density with its unit as the supplier gives it, in g/ml or kg/m3",
        )


def _unrecorded_faults(fragrance: Fragrance) -> Iterator[Fault]:
    if fragrance.density_g_per_ml is None:
        yield warning(
            path=("entry", fragrance.id),
            what=f"{fragrance.id} has no density; {FRAGRANCE_G_PER_ML:g} g/ml is assumed",
            why="oils range from 0.85 to 1.10 g/ml, so the net weight may be 1 % out",
            fix="density: as in section 9 of the supplier's safety data sheet",
            check=check_of("no-density", fragrance.id),
        )
