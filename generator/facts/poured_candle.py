"""The candle as made: its blend, shape and weight."""

from dataclasses import dataclass

from generator.model.recorded import Build, Recorded, Role
from generator.problems import Fault, is_error
from generator.rules.burning.matching import BurnProfile, Shares, WickFit
from generator.rules.calculation import Calculation
from generator.rules.wax.blend import Blend, resolve
from generator.rules.wax.density import pour_fault
from generator.rules.wax.fill import FillResult, fill_result
from generator.rules.wax.geometry import diameter_mm
from generator.rules.wax.net_weight import NetWeight, net_weight
from generator.rules.wax.temperatures import poured_line_faults

USUAL_POUR_C = 75.0
"""Where no pour temperature is recorded, molten density is given at this one (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredCandle:
    """What follows from formula, shape and fill alone."""

    build: Build
    blend: Blend
    filled: FillResult
    net: NetWeight
    pour_c: float

    @property
    def density_molten(self) -> Calculation:
        """The density of the blend as poured."""
        return self.blend.density_molten(self.pour_c)


def poured_candle(recorded: Recorded) -> tuple[PouredCandle | None, tuple[Fault, ...]]:
    """The candle as made, or None with the faults that prevent it."""
    build, how = recorded.build, recorded.make
    pour = pour_fault(how.pour_at_c, ("make", "pour_at")) if how and how.pour_at_c is not None else None
    if pour is not None:
        return None, (pour,)
    blend, blend_faults = resolve(build.formula)
    if blend is None:
        return None, blend_faults
    filled, fill_faults = fill_result(build, blend)
    if filled is None:
        return None, (*blend_faults, *fill_faults)
    net, net_faults = net_weight(build, filled, recorded.weighed, recorded.scale_step_g)
    faults = (*blend_faults, *fill_faults, *_pour_faults(recorded), *net_faults)
    if net is None:
        return None, faults
    return PouredCandle(build=build, blend=blend, filled=filled, net=net, pour_c=_pour_c(recorded)), faults


def profile_as_tested(
    build: Build, stop_depth_mm: float, inner_diameter_mm: float | None = None
) -> tuple[BurnProfile | None, tuple[Fault, ...]]:
    """What decides how a build burns, or None with the faults of an impossible formula or fill.

    Weights are those of the fill, so that a build that was never weighed is compared like with like.
    """
    blend, blend_faults = resolve(build.formula)
    if blend is None:
        return None, tuple(filter(is_error, blend_faults))
    filled, fill_faults = fill_result(build, blend)
    if filled is None:
        return None, tuple(filter(is_error, fill_faults))
    return burn_profile(build, blend, filled, stop_depth_mm, inner_diameter_mm), ()


def burn_profile(
    build: Build,
    blend: Blend,
    filled: FillResult,
    stop_depth_mm: float,
    inner_diameter_mm: float | None = None,
) -> BurnProfile:
    """What decides how a build burns; the diameter is that at half the fill if none was measured."""
    container = build.container
    return BurnProfile(
        container=container.id if container else None,
        material=container.material if container else None,
        inner_diameter_mm=inner_diameter_mm or diameter_mm(build.shape.inside, filled.level_set_mm / 2),
        net_g=filled.computed_g,
        stop_depth_mm=stop_depth_mm,
        wicks=tuple(
            WickFit(id=use.wick.id, count=use.count, core=use.wick.core, trim_mm=use.wick.trim_mm)
            for use in build.wicks
        ),
        waxes=_shares(blend, Role.WAX),
        fragrances=_shares(blend, Role.FRAGRANCE),
        additives=(*_shares(blend, Role.ADDITIVE), *_shares(blend, Role.DYE)),
        cure_h=build.cure_h,
    )


def _shares(blend: Blend, role: Role) -> Shares:
    return tuple(
        (part.id, float(blend.of_total_percent(part)) / 100) for part in blend.parts if part.role is role
    )


def _pour_faults(recorded: Recorded) -> tuple[Fault, ...]:
    fill, how = recorded.build.fill, recorded.make
    if fill is None or fill.at_c is None:
        return ()
    waxes = [portion.material for portion in recorded.build.formula.waxes]
    return poured_line_faults(fill.at_c, how.pour_at_c if how else None, waxes)


def _pour_c(recorded: Recorded) -> float:
    fill, how = recorded.build.fill, recorded.make
    if fill is not None and fill.at_c is not None:
        return fill.at_c
    return how.pour_at_c if how and how.pour_at_c is not None else USUAL_POUR_C
