"""The candle as burnt: test results, hours, first burn, longest session."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from generator.facts.facts import BurnTrack, Track
from generator.facts.poured_candle import PouredCandle, burn_profile, profile_as_tested
from generator.model.burn_tests import Session
from generator.model.formats import Fill
from generator.model.kinds import KINDS
from generator.model.recorded import Recorded, Test
from generator.model.vessel import WaxShape
from generator.problems import Fault, Path, is_error, warning
from generator.rules.burning.burn_hours import Evidence, HoursEstimate, burn_hours, hours_claim_faults
from generator.rules.burning.fuel import Fuel, flame_heat, fuel_faults
from generator.rules.burning.guidance import (
    TO_THE_LAST,
    FirstBurn,
    first_burn,
    first_burn_faults,
    full_pool_rule,
    session_limit,
    session_limit_faults,
    stop_depth,
)
from generator.rules.burning.matching import BurnProfile, Match, MatchLevel, compare, match_faults
from generator.rules.burning.pieces import Piece
from generator.rules.burning.sessions import Expected, full_pool_h, longest_sound_session_h, row_faults
from generator.rules.calculation import Calculation
from generator.rules.wax.geometry import SHAPES_KEPT, diameter_mm, wax_volume


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnResult:
    """The results of burning a candle."""

    stop_depth: Calculation
    heel_volume: Calculation
    fuel: Fuel
    evidence: tuple[Evidence, ...]
    hours: HoursEstimate
    first: FirstBurn
    session_limit: Calculation
    heat: Calculation
    printed_hours: Calculation | None
    """The hours that papers print, where the maker asks for fewer than the figures support."""

    @property
    def rate_g_per_h(self) -> float | None:
        """The mean rate of all wicks together, where a test gives one."""
        return self.hours.estimate.rate_g_per_h if self.hours.estimate else None

    @property
    def printed_h(self) -> int | None:
        """The hours that papers print: those the figures support, or the maker's own lower figure."""
        return self.hours.claim_h if self.printed_hours is None else int(self.printed_hours.exact)


def burn_result(recorded: Recorded, poured: PouredCandle) -> tuple[BurnResult | None, tuple[Fault, ...]]:
    """Hours and guidance of a candle with a flame, or None with the faults that prevent them.

    Where its kind has no stop line, all its wax counts as burnt.
    """
    wicks = sum(use.count for use in recorded.build.wicks)
    stop = stop_depth(recorded.markets) if KINDS[recorded.kind].has_stop_line else TO_THE_LAST
    heel = _heel_volume(poured.build.shape, min(stop.value, poured.filled.level_set_mm))
    fuel = _fuel(poured, heel.value, stop.value)
    faults = fuel_faults(fuel, wicks)
    if faults:
        return None, faults
    evidence, match_notes = _evidence(recorded, poured, stop.value)
    hours, hour_faults = burn_hours(fuel, wicks, evidence)
    speaking = [test.sessions for test in evidence if test.counts]
    longest_tested_h = longest_sound_session_h(session for sessions in speaking for session in sessions)
    session_faults = session_limit_faults(recorded.longest_session_h)
    makers_h = None if any(map(is_error, session_faults)) else recorded.longest_session_h
    limit = session_limit(makers_h, longest_tested_h)
    first = _first_burn(poured, wicks, speaking, limit.value)
    expected = Expected(wicks=wicks, longest_session_h=session_limit(makers_h, None).value)
    burn = BurnResult(
        stop_depth=stop,
        heel_volume=heel,
        fuel=fuel,
        evidence=evidence,
        hours=hours,
        first=first,
        session_limit=limit,
        heat=_heat(hours, poured.blend.lhv_mj_per_kg),
        printed_hours=_printed_hours(hours, recorded.claim_hours),
    )
    return burn, (
        *match_notes,
        *(fault for test in evidence for fault in _of_table(row_faults(test.index, test.sessions, expected))),
        *_of_table(hour_faults),
        *hours_claim_faults(recorded.claim_hours, hours),
        *session_faults,
        *first_burn_faults(first, limit.value),
    )


def _fuel(poured: PouredCandle, heel_ml: float, stop_mm: float) -> Fuel:
    return Fuel(
        net_g=poured.net.net_g,
        fill_ml=poured.filled.volume_ml,
        heel_ml=heel_ml,
        level_mm=poured.filled.level_set_mm,
        stop_depth_mm=stop_mm,
    )


@lru_cache(maxsize=SHAPES_KEPT)
def _heel_volume(shape: WaxShape, stop_mm: float) -> Calculation:
    """The ml of wax below the stop depth or the lower end of the fill, never below 0."""
    wax = wax_volume(shape, stop_mm, "stop_depth_mm")
    return Calculation(f"max(0, {wax.formula})", wax.inputs)


def _first_burn(
    poured: PouredCandle, wicks: int, tests: Iterable[tuple[Session, ...]], limit_h: float
) -> FirstBurn:
    """As timed in the slowest test that noted it, else by the rule."""
    noted = [timed for sessions in tests if (timed := full_pool_h(sessions)) is not None]
    if noted:
        return first_burn(Calculation("full_pool_h", {"full_pool_h": max(noted)}), limit_h, timed=True)
    surface_mm = diameter_mm(poured.build.shape.inside, poured.filled.level_set_mm)
    return first_burn(full_pool_rule(surface_mm, wicks), limit_h, timed=False)


def _heat(hours: HoursEstimate, lhv_mj_per_kg: float) -> Calculation:
    """The heat of the flames at the tested rate, or at the fast end of the untested band."""
    tested = hours.estimate
    return flame_heat(tested.rate_g_per_h if tested else hours.band.rate_high_g_per_h, lhv_mj_per_kg)


def _printed_hours(hours: HoursEstimate, own_h: float | None) -> Calculation | None:
    if hours.claim_h is None or own_h is None:
        return None
    carried = "untested_h" if hours.estimate is None else "claim_h"
    return Calculation(f"min({carried}, floor(claim_hours))", {carried: hours.claim_h, "claim_hours": own_h})


def _evidence(
    recorded: Recorded, poured: PouredCandle, stop_mm: float
) -> tuple[tuple[Evidence, ...], tuple[Fault, ...]]:
    if not recorded.tests:
        return (), ()
    now = burn_profile(poured.build, poured.blend, poured.filled, stop_mm)
    evidence: list[Evidence] = []
    faults: list[Fault] = []
    for index, test in enumerate(recorded.tests):
        match, unclear = _match(now, recorded.build.fill, test, ("burn_time", index, "tested_as"))
        one = Evidence(index=index, file=test.file, sessions=test.sessions, match=match)
        evidence.append(one)
        faults += unclear
        if match is not _IMPOSSIBLE and not (recorded.like and one.is_related):
            faults += match_faults(index, test.file, match)
    return tuple(evidence), tuple(faults)


def _of_table(faults: Iterable[Fault]) -> Iterator[Fault]:
    """Faults in rows, placed in the table and not where the candle names it."""
    for fault in faults:
        in_a_row = fault.path[0] == "burn_time" and len(fault.path) > 2
        yield replace(fault, path=("table", *fault.path[1:])) if in_a_row else fault


_IMPOSSIBLE: Final = Match(level=MatchLevel.NONE, moved=())
"""The match of a test whose entry describes an impossible candle: it applies to none."""


def _match(
    now: BurnProfile, fill: Fill | None, test: Test, at: Path
) -> tuple[Match | None, tuple[Fault, ...]]:
    """How far a test applies to a candle, None if what was tested is not recorded; and what is wrong with it."""
    was = test.tested_as
    if was is None:
        return None, ()
    unclear = () if was.fill else (_no_fill(test.file, at),)
    build = was if was.fill else replace(was, fill=fill)
    tested, faults = profile_as_tested(build, now.stop_depth_mm, test.inner_diameter_mm)
    if tested is None:
        return _IMPOSSIBLE, (*unclear, *(_of_tested(fault, at) for fault in faults))
    return compare(tested, now), unclear


def _of_tested(fault: Fault, at: Path) -> Fault:
    """A fault in a build, placed where the burn test's entry has it."""
    key, *rest = fault.path
    return replace(fault, path=(*at, "ingredients" if key == "formula" else key, *rest))


def _no_fill(file: str, at: Path) -> Fault:
    return warning(
        path=at,
        what=f"tested_as of {file} has no fill",
        why="today's fill is assumed, so a changed fill would go unnoticed and the hours would be wrong",
        fix="fill: {to: ... mm, level: set or poured}, as the tested candles were filled",
        check="tested-fill",
    )


def moved(burn: BurnResult) -> Iterator[str]:
    """Every field in which the candle is no longer as tested."""
    for test in burn.evidence:
        for change in test.match.moved if test.match else ():
            yield f"{test.file}: {change}"


def burn_track(burn: BurnResult, net_g: float) -> BurnTrack | None:
    """What a candle of that net weight lost; None without a test that gives a rate and hours."""
    if burn.rate_g_per_h is None or burn.hours.claim_h is None:
        return None
    return BurnTrack(
        net_g=net_g,
        heel_g=net_g - burn.hours.burnable_g,
        rate_g_per_h=burn.rate_g_per_h,
        claim_h=burn.hours.claim_h,
        tracks=tuple(Track(name=one.name, points=tuple(_points(one, net_g))) for one in burn.hours.pieces),
    )


def _points(piece: Piece, net_g: float) -> Iterator[tuple[float, float]]:
    hours, left_g = 0.0, net_g
    yield hours, left_g
    for each in piece.burns:
        hours += each.hours
        left_g -= each.loss_g
        yield hours, left_g
