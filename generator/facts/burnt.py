"""The candle as burnt: what its tests say, its hours, its first burn, its longest session."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from generator.facts.made import Made, physique
from generator.model.recorded import Build, Recorded, Test
from generator.problems import Fault
from generator.rules.burning import Evidence, Hours, burn_hours, claim_faults
from generator.rules.fuel import Fuel, fuel_faults
from generator.rules.geometry import diameter_mm, wax_ml
from generator.rules.guidance import (
    FirstBurn,
    first_burn,
    first_burn_faults,
    full_pool_rule_h,
    session_limit_faults,
    session_limit_h,
    stop_depth_mm,
)
from generator.rules.matching import Match, MatchLevel, compare, match_faults
from generator.rules.sessions import Expected, full_pool_h, longest_sound_session_h, row_faults


@dataclass(frozen=True, slots=True, kw_only=True)
class Burnt:
    """What burning the candle comes to."""

    fuel: Fuel
    wicks: int
    evidence: tuple[Evidence, ...]
    hours: Hours
    surface_mm: float
    first: FirstBurn
    session_limit_h: float
    longest_tested_h: float | None

    @property
    def rate_g_per_h(self) -> float | None:
        """The mean rate of all wicks together, where a test gives one."""
        return self.hours.estimate.rate_g_per_h if self.hours.estimate else None


def burn(recorded: Recorded, made: Made) -> tuple[Burnt | None, tuple[Fault, ...]]:
    """Hours and guidance of a candle with a flame, or None with the faults that stand in the way."""
    wicks = sum(use.count for use in recorded.build.wicks)
    fuel = _fuel(recorded, made)
    faults = fuel_faults(fuel, wicks)
    if faults:
        return None, faults
    evidence, match_notes = _evidence(recorded, fuel.stop_depth_mm)
    hours, hour_faults = burn_hours(fuel, wicks, evidence)
    surface_mm = diameter_mm(made.build.vessel.inside, made.finish.level_set_mm)
    speaking = [test.sessions for test in evidence if _speaks(test)]
    longest_tested_h = longest_sound_session_h(session for sessions in speaking for session in sessions)
    limit_h = session_limit_h(recorded.longest_session_h, longest_tested_h)
    timed_h = max(
        (timed for sessions in speaking if (timed := full_pool_h(sessions)) is not None), default=None
    )
    rule_h = full_pool_rule_h(surface_mm, wicks)
    first = first_burn(rule_h if timed_h is None else timed_h, limit_h, timed=timed_h is not None)
    expected = Expected(wicks=wicks, longest_session_h=session_limit_h(recorded.longest_session_h, None))
    burnt = Burnt(
        fuel=fuel,
        wicks=wicks,
        evidence=evidence,
        hours=hours,
        surface_mm=surface_mm,
        first=first,
        session_limit_h=limit_h,
        longest_tested_h=longest_tested_h,
    )
    return burnt, (
        *match_notes,
        *(fault for test in evidence for fault in _of_table(row_faults(test.index, test.sessions, expected))),
        *_of_table(hour_faults),
        *claim_faults(recorded.claim_hours, hours),
        *session_limit_faults(recorded.longest_session_h),
        *first_burn_faults(first, limit_h),
    )


def _fuel(recorded: Recorded, made: Made) -> Fuel:
    vessel, finish = made.build.vessel, made.finish
    stop_mm = stop_depth_mm(recorded.markets)
    return Fuel(
        net_g=made.net.net_g,
        fill_ml=finish.volume_ml,
        heel_ml=wax_ml(vessel, min(stop_mm, finish.level_set_mm)),
        level_mm=finish.level_set_mm,
        stop_depth_mm=stop_mm,
    )


def _evidence(recorded: Recorded, stop_mm: float) -> tuple[tuple[Evidence, ...], tuple[Fault, ...]]:
    evidence = tuple(
        Evidence(
            index=index, file=test.file, sessions=test.sessions, match=_match(recorded.build, test, stop_mm)
        )
        for index, test in enumerate(recorded.tests)
    )
    told = (test for test in evidence if not (recorded.like and _is_related(test)))
    return evidence, tuple(
        fault for test in told for fault in match_faults(test.index, test.file, test.match)
    )


def _of_table(faults: Iterable[Fault]) -> Iterator[Fault]:
    """Faults of rows, whose place is in the table and not where the candle names it."""
    for fault in faults:
        in_a_row = fault.path[0] == "burn_time" and len(fault.path) > 2
        yield replace(fault, path=("table", *fault.path[1:])) if in_a_row else fault


def _is_related(test: Evidence) -> bool:
    """A test that was borrowed on purpose from the same candle in another scent needs no warning."""
    return test.match is not None and test.match.level is MatchLevel.RELATED


def _match(now: Build, test: Test, stop_mm: float) -> Match | None:
    """None where nobody wrote down what was tested, or wrote something that cannot be."""
    if test.tested_as is None:
        return None
    was = test.tested_as if test.tested_as.fill else replace(test.tested_as, fill=now.fill)
    tested = physique(was, stop_mm, test.inner_diameter_mm)
    made = physique(now, stop_mm)
    return compare(tested, made) if tested and made else None


def _speaks(test: Evidence) -> bool:
    return test.match is None or test.match.level is not MatchLevel.NONE


def moved(burnt: Burnt) -> Iterator[str]:
    """Every field in which the candle is no longer as tested."""
    for test in burnt.evidence:
        for change in test.match.moved if test.match else ():
            yield f"{test.file}: {change}"
