"""The candle as burnt: what its tests say, its hours, its first burn, its longest session."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.facts.made import Made, physique
from generator.model.kinds import KINDS
from generator.model.recorded import Build, Recorded, Test
from generator.problems import Fault, Path, Severity, is_error
from generator.rules.burning.burn_hours import Evidence, Hours, burn_hours, claim_faults
from generator.rules.burning.fuel import Fuel, fuel_faults
from generator.rules.burning.guidance import (
    FirstBurn,
    first_burn,
    first_burn_faults,
    full_pool_rule_h,
    session_limit_faults,
    session_limit_h,
    stop_depth_mm,
)
from generator.rules.burning.matching import Match, MatchLevel, compare, match_faults
from generator.rules.burning.sessions import Expected, full_pool_h, longest_sound_session_h, row_faults
from generator.rules.wax.geometry import diameter_mm, wax_ml


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
    """Hours and guidance of a candle with a flame, or None with the faults that stand in the way.

    Where its kind has no stop line, all of its wax counts as burnt.
    """
    wicks = sum(use.count for use in recorded.build.wicks)
    fuel = _fuel(recorded, made)
    faults = fuel_faults(fuel, wicks)
    if faults:
        return None, faults
    evidence, match_notes = _evidence(recorded, fuel.stop_depth_mm)
    hours, hour_faults = burn_hours(fuel, wicks, evidence)
    surface_mm = diameter_mm(made.build.shape.inside, made.finish.level_set_mm)
    speaking = [test.sessions for test in evidence if _speaks(test)]
    longest_tested_h = longest_sound_session_h(session for sessions in speaking for session in sessions)
    session_faults = session_limit_faults(recorded.longest_session_h)
    makers_h = None if any(map(is_error, session_faults)) else recorded.longest_session_h
    limit_h = session_limit_h(makers_h, longest_tested_h)
    timed_h = max(
        (timed for sessions in speaking if (timed := full_pool_h(sessions)) is not None), default=None
    )
    rule_h = full_pool_rule_h(surface_mm, wicks)
    first = first_burn(rule_h if timed_h is None else timed_h, limit_h, timed=timed_h is not None)
    expected = Expected(wicks=wicks, longest_session_h=session_limit_h(makers_h, None))
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
        *session_faults,
        *first_burn_faults(first, limit_h),
    )


def _fuel(recorded: Recorded, made: Made) -> Fuel:
    finish = made.finish
    stop_mm = stop_depth_mm(recorded.markets) if KINDS[recorded.kind].has_stop_line else 0.0
    return Fuel(
        net_g=made.net.net_g,
        fill_ml=finish.volume_ml,
        heel_ml=wax_ml(made.build.shape, min(stop_mm, finish.level_set_mm)),
        level_mm=finish.level_set_mm,
        stop_depth_mm=stop_mm,
    )


def _evidence(recorded: Recorded, stop_mm: float) -> tuple[tuple[Evidence, ...], tuple[Fault, ...]]:
    evidence: list[Evidence] = []
    faults: list[Fault] = []
    for index, test in enumerate(recorded.tests):
        match, unclear = _match(recorded.build, test, stop_mm, ("burn_time", index, "tested_as"))
        one = Evidence(index=index, file=test.file, sessions=test.sessions, match=match)
        evidence.append(one)
        faults += unclear
        if match is not _IMPOSSIBLE and not (recorded.like and _is_related(one)):
            faults += match_faults(index, test.file, match)
    return tuple(evidence), tuple(faults)


def _of_table(faults: Iterable[Fault]) -> Iterator[Fault]:
    """Faults of rows, whose place is in the table and not where the candle names it."""
    for fault in faults:
        in_a_row = fault.path[0] == "burn_time" and len(fault.path) > 2
        yield replace(fault, path=("table", *fault.path[1:])) if in_a_row else fault


def _is_related(test: Evidence) -> bool:
    """A test that was borrowed on purpose from the same candle in another scent needs no warning."""
    return test.match is not None and test.match.level is MatchLevel.RELATED


_IMPOSSIBLE: Final = Match(level=MatchLevel.NONE, moved=())
"""Of a test whose entry describes a candle that cannot be: it speaks for none."""


def _match(now: Build, test: Test, stop_mm: float, at: Path) -> tuple[Match | None, tuple[Fault, ...]]:
    """How far a test speaks for a build, None where nobody wrote down what was tested; and what is wrong with that."""
    was = test.tested_as
    if was is None:
        return None, ()
    unclear = () if was.fill else (_no_fill(test.file, at),)
    tested, faults = physique(
        was if was.fill else replace(was, fill=now.fill), stop_mm, test.inner_diameter_mm
    )
    made, _ = physique(now, stop_mm)
    if tested is None or made is None:
        return _IMPOSSIBLE, (*unclear, *(_of_tested(fault, at) for fault in faults))
    return compare(tested, made), unclear


def _of_tested(fault: Fault, at: Path) -> Fault:
    """A fault of a build, placed where a burn test's entry writes it."""
    key, *rest = fault.path
    return replace(fault, path=(*at, "ingredients" if key == "formula" else key, *rest))


def _no_fill(file: str, at: Path) -> Fault:
    return Fault(
        path=at,
        what=f"tested_as of {file} has no fill",
        why="the fill of today is taken for it, so a changed fill would not be noticed and the hours would be wrong",
        write="fill: {to: ... mm, level: set or poured}, as the tested candles were filled",
        severity=Severity.WARNING,
        check="tested-fill",
    )


def _speaks(test: Evidence) -> bool:
    return test.match is None or test.match.level is not MatchLevel.NONE


def moved(burnt: Burnt) -> Iterator[str]:
    """Every field in which the candle is no longer as tested."""
    for test in burnt.evidence:
        for change in test.match.moved if test.match else ():
            yield f"{test.file}: {change}"
