"""How full: a fill line, a volume or a weight as set wax.

Paths begin at `Recorded` and are spelt in entry keys: ``("fill", "to")``, ``("vessel", "brimful")``,
``("formula", "samphire")``, ``("weighed", 2)``, ``("declared",)``.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import floor
from typing import Final

from generator.model.entry import entry_key
from generator.model.formats import Fill, Level
from generator.model.quantities import as_written
from generator.model.recorded import Build
from generator.model.vessel import WaxShape
from generator.problems import Fault, is_error
from generator.rules.calculation import Calculation
from generator.rules.wax.blend import Blend
from generator.rules.wax.density import pour_fault
from generator.rules.wax.geometry import height_mm, most_wax_ml, wax_level_mm, wax_volume
from generator.rules.wax.measurements import wax_shape_faults
from generator.rules.wax.weighings import LEAST_NET_G

_FORMS: Final = ("to_mm", "below_rim_mm", "weight_g", "volume_ml")
_LINES: Final = ("to", "below_rim")
_FORM_UNITS: Final = {"to": "mm", "below_rim": "mm", "weight": "g", "volume": "ml"}
_FILL_EXAMPLE: Final = "fill: {to: ... mm, level: set or poured}"
_OVER_WHY: Final = "the printed wax weight would be more than the vessel holds"


@dataclass(frozen=True, slots=True, kw_only=True)
class FillResult:
    """The finished, cold candle from its fill: level, volume and weight of the set wax."""

    level_set_mm: float
    volume: Calculation
    volume_at_level: Calculation | None
    """The same volume by the formula of the level, where that was searched for."""
    weight: Calculation

    @property
    def volume_ml(self) -> float:
        """The volume of the set wax, never below 0."""
        return max(self.volume.value, 0.0)

    @property
    def computed_g(self) -> float:
        """What the set wax weighs."""
        return self.weight.value


def fill_result(build: Build, blend: Blend) -> tuple[FillResult | None, tuple[Fault, ...]]:
    """The finished candle of a fill; None where vessel or fill cannot be true."""
    of_shape = (replace(fault, path=("vessel", *fault.path)) for fault in wax_shape_faults(build.shape))
    faults = (*of_shape, *_form_faults(build.fill))
    if build.fill is None or any(map(is_error, faults)):
        return None, faults
    impossible = tuple(_impossible(build, build.fill, blend))
    if impossible:
        return None, (*faults, *impossible)
    filled = _filled(build, build.fill, blend)
    faults = (*faults, *_size_faults(build, build.fill, filled))
    return (None if any(map(is_error, faults)) else filled), faults


def cold_volume(hot: Calculation, molten_g_per_ml: float, set_g_per_ml: float) -> Calculation:
    """Volume of wax poured hot to a line, once set, in ml.

    V_cold = V_hot rho_molten / rho_set

    hot: V_hot, ml.
    molten_g_per_ml: density at the temperature of the pour, g/ml.
    set_g_per_ml: density when cold, g/ml.
    Holds for one pour without topping up; the mass stays.
    Source: physics.md A5 (COMPUTED).

    >>> round(cold_volume(Calculation("hot_ml", {"hot_ml": 204.907}), 0.8751084, 0.9062118).value, 3)
    197.874
    """
    densities = {"density_molten_g_per_ml": molten_g_per_ml, "density_set_g_per_ml": set_g_per_ml}
    formula = f"({hot.formula}) * density_molten_g_per_ml / density_set_g_per_ml"
    return Calculation(formula, {**hot.inputs, **densities})


def _given(fill: Fill) -> dict[str, float]:
    """The forms a fill is written in, by their keys."""
    written = {entry_key(form): getattr(fill, form) for form in _FORMS}
    return {key: size for key, size in written.items() if size is not None}


def _only(fill: Fill) -> tuple[str, float]:
    """The one form of a fill without `_form_faults`, and its number."""
    return next(iter(_given(fill).items()))


def _form_faults(fill: Fill | None) -> Iterator[Fault]:
    """Exactly one of the four forms, a line with its level, a poured line with its temperature."""
    given = () if fill is None else tuple(_given(fill))
    if fill is None or not given:
        yield Fault(
            path=("fill",),
            what="fill has none of to, below_rim, weight and volume",
            why="there would be no net weight",
            fix=_FILL_EXAMPLE,
        )
    elif len(given) > 1:
        yield Fault(
            path=("fill", given[1]),
            what=f"fill has both {given[0]} and {given[1]}",
            why="they may not agree, and only one can give the net weight",
            fix="keep one of the two",
        )
    else:
        yield from _level_faults(fill, given[0])


def _level_faults(fill: Fill, form: str) -> Iterator[Fault]:
    if form == "weight" and fill.level is not None:
        yield Fault(
            path=("fill", "level"),
            what="fill has both a weight and a level",
            why="wax weighs the same hot and cold, so the level does nothing",
            fix=f"fill: {{weight: {fill.weight_g:g} g}}",
        )
    if form != "weight" and fill.level is None:
        yield Fault(
            path=("fill",),
            what=f"fill {form} has no level",
            why="wax poured hot to a line sets 3 to 15 % lower, and weighs that much less",
            fix="level: set (the cold surface), or level: poured with at: ... C",
        )
    if fill.level is Level.POURED and fill.at_c is None:
        yield Fault(
            path=("fill",),
            what="the poured line has no temperature",
            why="hotter wax is lighter, so the net weight depends on it",
            fix="at: ... C",
        )
    if fill.level is not Level.POURED and fill.at_c is not None:
        yield Fault(
            path=("fill", "at"),
            what=f"fill has a temperature, {fill.at_c:.0f} C, but no poured line",
            why="if the wax was poured hot to the line, the candle weighs 3 to 15 % less",
            fix="level: poured, or delete at",
        )


def _impossible(build: Build, fill: Fill, blend: Blend) -> Iterator[Fault]:
    yield from _over_the_rim(build.shape, fill)
    if fill.at_c is None:
        return
    fault = pour_fault(fill.at_c, ("fill", "at"))
    if fault is not None:
        yield fault
        return
    set_g_per_ml, molten_g_per_ml = blend.density_set.value, blend.density_molten(fill.at_c).value
    if molten_g_per_ml >= set_g_per_ml:
        yield Fault(
            path=("fill", "at"),
            what=(
                f"at {fill.at_c:.0f} C the molten wax would be {molten_g_per_ml:.3f} g/ml, "
                f"no lighter than set wax at {set_g_per_ml:.3f} g/ml"
            ),
            why="wax shrinks as it sets, so the temperature or a density is wrong",
            fix="at: the pouring temperature, or correct the wax's density",
        )


def _over_the_rim(shape: WaxShape, fill: Fill) -> Iterator[Fault]:
    form, size = _only(fill)
    inside_mm, most_ml = height_mm(shape.inside), most_wax_ml(shape)
    if form == "to" and size > inside_mm:
        yield Fault(
            path=("fill", "to"),
            what=f"fill to {size:g} mm is above the vessel's inside height of {inside_mm:g} mm",
            why=_OVER_WHY,
            fix=f"to: at most {inside_mm:g} mm, or correct the vessel",
        )
    if form == "below_rim" and size > inside_mm:
        yield Fault(
            path=("fill", "below_rim"),
            what=f"fill below_rim {size:g} mm is more than the vessel's inside height of {inside_mm:g} mm",
            why="there would be no wax in it",
            fix="below_rim: the distance from the rim down to the wax",
        )
    if form == "volume" and size > most_ml:
        yield Fault(
            path=("fill", "volume"),
            what=f"fill volume {size:g} ml is more than the {most_ml:.1f} ml the vessel holds",
            why=_OVER_WHY,
            fix=f"volume: at most {floor(most_ml)} ml, or correct the vessel",
        )


def _filled(build: Build, fill: Fill, blend: Blend) -> FillResult:
    shape, set_g_per_ml = build.shape, blend.density_set.value
    volume = _measured_out(shape, fill, set_g_per_ml)
    if fill.at_c is not None:
        volume = cold_volume(volume, blend.density_molten(fill.at_c).value, set_g_per_ml)
    volume_ml = max(volume.value, 0.0)
    level_mm = _set_line_mm(shape, fill)
    if level_mm is None:
        level_mm = wax_level_mm(shape, min(volume_ml, most_wax_ml(shape)))
    at_level = None
    if fill.weight_g is not None or fill.at_c is not None:
        at_level = replace(wax_volume(shape, level_mm, "level_set_mm"), found=volume_ml)
    return FillResult(
        level_set_mm=level_mm,
        volume=volume,
        volume_at_level=at_level,
        weight=Calculation(
            "fill_volume_ml * density_set_g_per_ml",
            {"fill_volume_ml": volume_ml, "density_set_g_per_ml": set_g_per_ml},
        ),
    )


def _set_line_mm(shape: WaxShape, fill: Fill) -> float | None:
    """The line itself, exactly as written, where it marks the cold surface."""
    form, size = _only(fill)
    if fill.level is not Level.SET or form not in _LINES:
        return None
    return size if form == "to" else float(as_written(height_mm(shape.inside)) - as_written(size))


def _measured_out(shape: WaxShape, fill: Fill, set_g_per_ml: float) -> Calculation:
    """The ml that the fill measures: set wax by weight, or the wax up to a line, hot or cold like the line."""
    form, size = _only(fill)
    match form:
        case "weight":
            poured = {"poured_g": size, "density_set_g_per_ml": set_g_per_ml}
            return Calculation("poured_g / density_set_g_per_ml", poured)
        case "volume":
            return Calculation("filled_ml", {"filled_ml": size})
        case "below_rim":
            return wax_volume(shape, height_mm(shape.inside) - size, "line_mm")
        case _:
            return wax_volume(shape, size, "fill_to_mm")


def _size_faults(build: Build, fill: Fill, filled: FillResult) -> Iterator[Fault]:
    form, size = _only(fill)
    most_ml = most_wax_ml(build.shape)
    if form == "weight" and filled.volume_ml > most_ml:
        most_g = floor(most_ml * filled.computed_g / filled.volume_ml)
        yield Fault(
            path=("fill", "weight"),
            what=(
                f"fill weight {size:g} g is {filled.volume_ml:.1f} ml of set wax, more than "
                f"the {most_ml:.1f} ml the vessel holds"
            ),
            why="the wax would run over the rim",
            fix=f"weight: at most {most_g} g, or correct the vessel",
        )
    if filled.computed_g < LEAST_NET_G:
        yield Fault(
            path=("fill", form),
            what=f"fill {form} {size:g} {_FORM_UNITS[form]} makes a candle of {filled.computed_g:.1f} g",
            why=(
                f"with less than {LEAST_NET_G:g} g of wax there would be no net weight to "
                "print and nothing to burn"
            ),
            fix=_FILL_EXAMPLE,
        )
