"""The figures of a candle in the order they are worked out, each with its calculation."""

import re
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from typing import Final

from generator.facts.burn_result import BurnResult
from generator.facts.facts import Figure, Input, Shown
from generator.facts.poured_candle import PouredCandle
from generator.model.entry import entry_key
from generator.problems import Path
from generator.rules.burning.burn_hours import HoursEstimate
from generator.rules.burning.rates import RateEstimate
from generator.rules.calculation import Calculation, Number
from generator.rules.labels.net_quantity import OUNCE_DECIMALS, NetQuantity, ounces_below
from generator.rules.wax.blend import FORMULAS_KEPT, Blend, formula_name
from generator.rules.wax.geometry import height_mm
from generator.rules.wax.solids import LENGTHS, shape_volume

FIGURES_KEPT: Final = 2048
"""Candles share formulas, vessels and wicks, and thus calculations; each calculation has one figure."""

_UNITS: Final = {
    "_g_per_ml": "g/ml",
    "_g_per_h": "g/h",
    "_mj_per_kg": "MJ/kg",
    "_percent": "%",
    "_hours": "h",
    "_mm": "mm",
    "_ml": "ml",
    "_oz": "oz",
    "_g": "g",
    "_h": "h",
    "_w": "W",
}
"""The unit of a name by its ending; otherwise it is a plain number."""

_OF_THE_WORKSHOP: Final = frozenset({
    "density_set_g_per_ml", "density_molten_g_per_ml", "fragrance_of_wax_percent", "fragrance_of_total_percent",
    "rate_deviation_g_per_h", "heat_w",
})  # fmt: skip
"""Figures that no public page prints, nor any number behind them."""

_PUBLIC: Final = frozenset(
    {
        "net_weight_g", "weight_to_declare_g", "scale_step_g", "poured_g", "heel_g", "burnable_g",
        "filled_ml", "fill_volume_ml", "brimful_ml", "shape_brimful_ml", "displaced_ml", "heel_volume_ml",
        "rate_g_per_h", "rate_spread_g_per_h", "rate_high_g_per_h", "factor", "coverage", "drift", "wicks", "weighed_n",
        "claim_h", "claim_hours", "untested_h", "least_life_h", "full_pool_h",
        "session_limit_h", "usual_limit_h", "longest_tested_h", "own_limit_h",
    }
)  # fmt: skip
"""What a public page may print of the numbers behind a public figure, besides lengths, which anyone can measure."""

_ORIGINS: Final[Mapping[str, Path]] = {
    **{name: ("vessel", "inside", entry_key(name)) for names in LENGTHS.values() for name in names},
    "poured_g": ("fill", "weight"),
    "filled_ml": ("fill", "volume"),
    "brimful_ml": ("vessel", "brimful"),
    "displaced_ml": ("vessel", "displaced"),
    "scale_step_g": ("scale_step",),
    "claim_hours": ("claim_hours",),
}
"""Where a number is in `Recorded`."""

_NUMBERED: Final = ("weighed_", "diameter_", "height_")
_POINT: Final = re.compile(r"(?:diameter|height)_(\d+)_mm")
_WEIGHED: Final = re.compile(r"weighed_(\d+)_g")


def figures_of(poured: PouredCandle, quantity: NetQuantity, burn: BurnResult | None) -> Iterator[Figure]:
    """From the formula to the declared weight, and from the stop depth to what the papers advise."""
    yield from _blend(poured.blend, poured.density_molten)
    yield from _volumes(poured)
    yield from _weights(poured, quantity)
    if burn is not None:
        if burn.stop_depth.inputs:
            yield _figure("stop_depth_mm", burn.stop_depth, "markets")
        yield _figure("heel_volume_ml", burn.heel_volume, "heel")
        yield _figure("heel_g", burn.fuel.heel, "heel")
        yield _figure("burnable_g", burn.fuel.burnable, "heel")
        if burn.hours.estimate is not None:
            yield from _rates(burn.hours.estimate)
        yield from _hours(burn.hours)
        yield from _advised(burn)
        yield _figure("heat_w", burn.heat, "heat")


@lru_cache(maxsize=FORMULAS_KEPT)
def _blend(blend: Blend, density_molten: Calculation) -> tuple[Figure, ...]:
    return (
        _figure("density_set_g_per_ml", blend.density_set, "added", blend=blend),
        _figure("density_molten_g_per_ml", density_molten, "added", blend=blend),
        _figure("fragrance_of_wax_percent", blend.fragrance_of_wax, "share"),
        _figure("fragrance_of_total_percent", blend.fragrance_of_total, "share"),
    )


def _volumes(poured: PouredCandle) -> Iterator[Figure]:
    shape, filled = poured.build.shape, poured.filled
    if shape.brimful_ml is not None:
        whole = shape_volume(shape.inside, height_mm(shape.inside), "inside_height_mm")
        yield _figure("shape_brimful_ml", whole, "shape")
    yield _figure("fill_volume_ml", filled.volume, "shape")
    if filled.volume_at_level is not None:
        yield _figure("volume_at_level_ml", filled.volume_at_level, "shape")


def _weights(poured: PouredCandle, quantity: NetQuantity) -> Iterator[Figure]:
    net = poured.net
    yield _figure("net_weight_g", net.net, "trust", f"net_weight_{net.basis.replace(' ', '_')}")
    if net.proven is not None and quantity.net_g == net.proven_g != net.net_g:
        source = "scale_step" if "scale_step_g" in net.proven.inputs else "margin"
        yield _figure("weight_to_declare_g", net.proven, source)
    spoken = "declared" if quantity.status == "proven" else "rounded"
    if quantity.whole_g is not None:
        yield _figure("declared_g", quantity.whole_g, "rounded_down", f"{spoken}_grams")
    if quantity.ounces is None:
        yield _figure(
            "declared_oz", ounces_below(quantity.exact_g, OUNCE_DECIMALS), "rounded_down", f"{spoken}_ounces"
        )


def _rates(estimate: RateEstimate) -> Iterator[Figure]:
    yield _figure("rate_g_per_h", estimate.rate, "tested")
    if estimate.deviation is not None:
        yield _figure("rate_deviation_g_per_h", estimate.deviation, "tested")
    yield _figure("rate_spread_g_per_h", estimate.spread, "tested")
    if estimate.drift is not None and estimate.drifting != 1:
        yield _figure("drift", estimate.drift, "drift")
    yield _figure("rate_high_g_per_h", estimate.high, "careful")


def _hours(hours: HoursEstimate) -> Iterator[Figure]:
    if hours.claim is None:
        return
    if hours.basis in ("untested", "thin test"):
        yield _figure("untested_h", hours.band.low, "untested")
    if hours.basis == "untested":
        return
    if hours.least_life is not None:
        yield _figure("least_life_h", hours.least_life, "tested")
    yield _figure("claim_h", hours.claim, "tested")
    if hours.mean is not None:
        yield _figure("mean_h", hours.mean, "tested")


def _advised(burn: BurnResult) -> Iterator[Figure]:
    if burn.printed_hours is not None:
        yield _figure("printed_h", burn.printed_hours, "own_figure")
    source = "timed" if burn.first.timed else "hour_an_inch"
    yield _figure("first_burn_h", burn.first.calculation, source)
    yield _figure("session_limit_h", burn.session_limit, "session_limit")


@lru_cache(maxsize=FIGURES_KEPT)
def _figure(
    name: str,
    calculation: Calculation,
    source: str,
    label: str | None = None,
    blend: Blend | None = None,
) -> Figure:
    """A figure with every number behind it; ``blend`` has the ingredients that names may refer to."""
    parts = {} if blend is None else {f"{formula_name(part)}_g": ("formula", part.id) for part in blend.parts}
    shown: Shown = "private" if name in _OF_THE_WORKSHOP else "public"
    inputs = tuple(
        Input(
            given,
            float(number),
            _unit(given),
            parts.get(given) or _origin(given, calculation.inputs),
            shown if given in _PUBLIC or given.endswith("_mm") else "private",
        )
        for given, number in calculation.inputs.items()
    )
    return Figure(
        name=name,
        label=label or name.removesuffix(_ending(name)),
        value=calculation.value,
        unit=_unit(name),
        formula=calculation.formula,
        inputs=inputs,
        source=source,
        shown=shown,
    )


@cache
def _ending(name: str) -> str:
    return next((ending for ending in _UNITS if name.endswith(ending)), "")


@cache
def _unit(name: str) -> str:
    return _UNITS.get(_ending(name), "")


def _origin(name: str, beside: Mapping[str, Number]) -> Path | None:
    """The diameter at a level is no measured point: it has no height of its own number beside it."""
    if not name.startswith(_NUMBERED):
        return _ORIGINS.get(name)
    if (weighed := _WEIGHED.fullmatch(name)) is not None:
        return ("weighed", int(weighed[1]) - 1)
    if (point := _POINT.fullmatch(name)) is not None:
        measured = f"height_{point[1]}_mm" in beside
        return ("vessel", "inside", "points", int(point[1])) if measured else None
    return _ORIGINS.get(name)
