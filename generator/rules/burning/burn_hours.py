"""Burn hours: what recorded tests show for a candle, and what its papers may claim."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from generator.model.accepted import check_of
from generator.model.burn_safety import HoursBasis
from generator.model.burn_tests import Session
from generator.problems import Fault, warning
from generator.rules.burning.fuel import Fuel, UntestedHours, untested_band
from generator.rules.burning.matching import Match, MatchLevel
from generator.rules.burning.pieces import (
    WHOLE_LIFE_COVERAGE,
    Drowned,
    Excluded,
    Piece,
    least_life,
    reckon,
)
from generator.rules.burning.rates import RateEstimate, estimate_rate
from generator.rules.burning.sessions import blocking_faults
from generator.rules.calculation import Calculation, least

LEAST_TESTED_PIECES: Final = 3
LEAST_TESTED_SESSIONS: Final = 3
"""The sessions of each piece that an unreserved figure takes (physics.md D3, CHOICE)."""

THIN_COVERAGE: Final = 0.5
"""Share of the burnable wax below which a test may only lower the untested figure (D3, CHOICE)."""

LEAST_CLAIM_H: Final = 1
"""Papers print whole hours rounded down, so less than this would be none (CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One file of a size's ``burn_time``, its position there, and whether it applies to the candle.

    ``match`` is None where it was not recorded what was tested.
    """

    index: int
    file: str
    sessions: tuple[Session, ...]
    match: Match | None

    @property
    def counts(self) -> bool:
        """Whether it applies to the candle at all."""
        return self.match is None or self.match.level is not MatchLevel.NONE

    @property
    def is_exact(self) -> bool:
        """Whether this very candle was tested."""
        return self.match is not None and self.match.level is MatchLevel.EXACT

    @property
    def is_related(self) -> bool:
        """Whether the same candle in another scent was tested."""
        return self.match is not None and self.match.level is MatchLevel.RELATED


@dataclass(frozen=True, kw_only=True)
class HoursEstimate:
    """Burn hours with everything behind them.

    ``least_life`` is the shortest life of a piece that burnt down. ``excluded`` names what did not count. A
    ``forbidden`` candle has no hours at all.
    """

    basis: HoursBasis
    burnable_g: float
    band: UntestedHours
    estimate: RateEstimate | None
    least_life: Calculation | None
    pieces: tuple[Piece, ...]
    excluded: tuple[str, ...]
    forbidden: bool

    @property
    def sessions(self) -> int:
        """How many sessions count."""
        return sum(len(piece.burns) for piece in self.pieces)

    @cached_property
    def claim(self) -> Calculation | None:
        """The whole hours that papers may print, at least one; None where there are none to print."""
        return None if self.forbidden or self._carried.value < LEAST_CLAIM_H else self._carried

    @property
    def claim_h(self) -> int | None:
        """The claim as a number."""
        return None if self.claim is None else int(self.claim.exact)

    @property
    def carries_no_hour(self) -> bool:
        """Whether the tests, though they forbid nothing, support less than the least claim."""
        return not self.forbidden and self.claim_h is None

    @cached_property
    def _carried(self) -> Calculation:
        """A thin test may lower the untested figure, never raise it."""
        if self.estimate is None:
            return self.band.low
        limits = {} if self.least_life is None else {"least_life_h": self.least_life.value}
        if self.basis == "thin test":
            limits["untested_h"] = float(self.band.low_h)
        return claimed(self.burnable_g, self.estimate.rate_high_g_per_h, limits)

    @property
    def rate_high_g_per_h(self) -> float:
        """The rate behind ``low_h``: tested, or the fast one of the untested band."""
        if self.estimate is None:
            return self.band.rate_high_g_per_h
        tested = self.estimate.rate_high_g_per_h
        return max(tested, self.band.rate_high_g_per_h) if self.basis == "thin test" else tested

    @property
    def low_h(self) -> float | None:
        """The hours that nine candles in ten reach; without a test that supports them, the claim itself."""
        if self._is_carried_by_a_test:
            return hours_at(
                self.burnable_g, "rate_high_g_per_h", rate_high_g_per_h=self.rate_high_g_per_h
            ).value
        return None if self.claim_h is None else float(self.claim_h)

    @cached_property
    def mean(self) -> Calculation | None:
        """The hours of a candle at the mean rate; None without a test that supports them."""
        if self.estimate is None or not self._is_carried_by_a_test:
            return None
        rate, drift = self.estimate.rate_g_per_h, self.estimate.drifting
        return hours_at(self.burnable_g, "(rate_g_per_h * drift)", rate_g_per_h=rate, drift=drift)

    @property
    def high_h(self) -> float | None:
        """The hours that one candle in ten exceeds; None where the pieces differ too widely."""
        if self.estimate is None or not self._is_carried_by_a_test:
            return None if self.forbidden else float(self.band.high_h)
        slow = self.estimate.rate_low_g_per_h
        return hours_at(self.burnable_g, "slow_g_per_h", slow_g_per_h=slow).value if slow > 0 else None

    @property
    def _is_carried_by_a_test(self) -> bool:
        return self.basis in ("tested", "provisional") and not self.forbidden


def hours_at(burnable_g: float, rate: str, **rates: float) -> Calculation:
    """How long the burnable wax lasts at one rate, in h.

    hours = m_b / rate

    burnable_g: m_b, the wax above the stop depth, g.
    rate: the formula of the weight lost in an hour by all wicks together, over ``rates``, g/h.
    Holds for one rate over the whole life.
    Source: physics.md D3 (CHOICE).

    >>> round(hours_at(141.39798, "rate_g_per_h", rate_g_per_h=5.181928).value, 4)
    27.2868
    """
    return Calculation(f"burnable_g / {rate}", {"burnable_g": burnable_g, **rates})


def claimed(burnable_g: float, rate_high_g_per_h: float, limits: Mapping[str, float]) -> Calculation:
    """The whole hours that papers may claim.

    claim = floor( min( m_b / R_hi, shortest life of a piece, untested hours ) )

    burnable_g: m_b, the wax above the stop depth, g.
    rate_high_g_per_h: R_hi, the rate that nine new candles in ten stay under, g/h.
    limits: of a piece that burnt down the shortest life, and for a thin test the untested hours, h; each by its name.
    Holds for a tested candle.
    Source: physics.md D3 (CHOICE).

    >>> claimed(141.39798, 5.746065, {"least_life_h": 26.30317}).value
    24.0
    """
    at_high = hours_at(burnable_g, "rate_high_g_per_h", rate_high_g_per_h=rate_high_g_per_h)
    return Calculation(f"floor({least([at_high.formula, *limits])})", {**at_high.inputs, **limits})


def burn_hours(fuel: Fuel, wicks: int, tests: Sequence[Evidence]) -> tuple[HoursEstimate, tuple[Fault, ...]]:
    """The burn hours of a candle, and what its tests forbid; call only where ``fuel_faults`` finds none."""
    by_file = {test.file: test for test in sorted(tests, key=lambda test: test.file)}
    counting = [test for test in by_file.values() if test.counts]
    supporting = _closest(counting)
    repeated = _repeats(supporting)
    reckoned = reckon(_tables(test for test in supporting if test.file not in repeated), fuel.burnable_g)
    pieces = reckoned.pieces
    drowned = reckon(_tables(filter(_has_drowned, counting)), fuel.burnable_g).drowned
    forbidding = (
        *(fault for test in by_file.values() for fault in _dangers(test)),
        *(_drowned_fault(by_file[piece.file].index, piece) for piece in drowned),
    )
    estimate = estimate_rate(pieces, related=any(test.is_related for test in supporting)) if pieces else None
    hours = HoursEstimate(
        basis=_basis(pieces, supporting),
        burnable_g=fuel.burnable_g,
        band=untested_band(fuel.burnable_g, wicks),
        estimate=estimate,
        least_life=least_life(pieces, fuel.burnable_g),
        pieces=pieces,
        excluded=tuple(map(str, reckoned.excluded)),
        forbidden=bool(forbidding),
    )
    return hours, (
        *forbidding,
        *(_repeat_fault(by_file[file], earlier) for file, earlier in _repeats(by_file.values()).items()),
        *(() if forbidding else (_excluded_fault(by_file[one.file].index, one) for one in reckoned.excluded)),
        *((_no_hour_fault(fuel.burnable_g),) if hours.carries_no_hour else ()),
    )


def hours_claim_faults(claim_hours: float | None, hours: HoursEstimate) -> tuple[Fault, ...]:
    """Whether the hours a maker prints are none, or more than the figures support."""
    carried_h = hours.claim_h
    if claim_hours is None or (carried_h is not None and LEAST_CLAIM_H <= claim_hours <= carried_h):
        return ()
    what = f"claim_hours is {claim_hours:g} h"
    why = "some of the candles sold would go out before the printed hours are up"
    fix = f"claim_hours: at most {carried_h}"
    if carried_h is None:
        what = f"{what}, but no hours can be printed for this candle"
        fix = "delete claim_hours until its burn test is sound"
    elif claim_hours < LEAST_CLAIM_H:
        what = f"{what}, less than {LEAST_CLAIM_H} h"
        why = "papers print whole hours, rounded down, and would give a burn time of 0 hours"
        fix = f"claim_hours: {LEAST_CLAIM_H} to {carried_h}"
    else:
        what = f"{what}; the figures support {carried_h} h ({hours.basis})"
    return (Fault(path=("claim_hours",), what=what, why=why, fix=fix),)


def _has_drowned(test: Evidence) -> bool:
    return any(session.outcome == "drowned" for session in test.sessions)


def _closest(counting: Sequence[Evidence]) -> Sequence[Evidence]:
    """The tests of this very candle, if any; else all that may count."""
    return [test for test in counting if test.is_exact] or counting


def _tables(tests: Iterable[Evidence]) -> Iterator[tuple[str, tuple[Session, ...]]]:
    for test in tests:
        yield test.file, test.sessions


def _repeats(tests: Iterable[Evidence]) -> Mapping[str, Evidence]:
    """Each file whose rows are all in an earlier one, in any order, and that earlier one."""
    first: dict[frozenset[tuple[object, ...]], Evidence] = {}
    repeats: dict[str, Evidence] = {}
    for test in tests:
        rows = frozenset(
            (s.piece, s.session, s.hours, s.before_g, s.after_g, s.outcome) for s in test.sessions
        )
        earlier = first.setdefault(rows, test)
        if earlier is not test:
            repeats[test.file] = earlier
    return repeats


def _dangers(test: Evidence) -> tuple[Fault, ...]:
    """Checked in every test, even one that no longer matches: a crack does not depend on rates."""
    return blocking_faults(
        test.index,
        test.sessions,
        same_vessel=test.match is None or test.match.same_vessel,
        same_wicks=test.match is None or test.match.same_wicks,
    )


def _basis(pieces: Sequence[Piece], supporting: Sequence[Evidence]) -> HoursBasis:
    if not pieces:
        return "untested"
    if any(piece.coverage < THIN_COVERAGE for piece in pieces):
        return "thin test"
    return "tested" if _without_reservation(pieces, supporting) else "provisional"


def _without_reservation(pieces: Sequence[Piece], supporting: Sequence[Evidence]) -> bool:
    """Enough pieces of this very candle, each burnt down in enough sessions."""
    return (
        len(pieces) >= LEAST_TESTED_PIECES
        and all(test.is_exact for test in supporting)
        and all(piece.coverage >= WHOLE_LIFE_COVERAGE for piece in pieces)
        and all(len(piece.burns) >= LEAST_TESTED_SESSIONS for piece in pieces)
    )


def _drowned_fault(test: int, drowned: Drowned) -> Fault:
    return warning(
        path=("burn_time", test, drowned.row, "outcome"),
        what=f"piece {drowned.name} drowned with {drowned.unburnt_g:.3g} g still to burn",
        why="some of the candles sold would drown too, so no burn hours are printed",
        fix=(
            "test again with a larger wick; or, if the piece itself was faulty, outcome: fault and its reason"
        ),
        check=check_of("drowned", drowned.name),
    )


def _repeat_fault(test: Evidence, earlier: Evidence) -> Fault:
    return warning(
        path=("burn_time", test.index),
        what=f"{test.file} has the same rows as {earlier.file}",
        why="the same candles would count twice, so the rows count once",
        fix=f"burn_time: {earlier.file}, or enter in {test.file} the rows of its own candles",
        check=check_of("same-rows", test.file),
    )


def _excluded_fault(test: int, excluded: Excluded) -> Fault:
    whole_piece = excluded.session is None
    return warning(
        path=("burn_time", test, excluded.row, "piece" if whole_piece else "outcome"),
        what=f"{excluded.what}, does not count: {excluded.reason}",
        why="the burn hours are based on the other rows alone",
        fix="test another piece, without a fault"
        if whole_piece
        else "leave the row if it is right, or outcome: ok if the candle burnt as it should",
        check=check_of("left-out", f"{excluded.piece} {excluded.session or 'whole'}"),
    )


def _no_hour_fault(burnable_g: float) -> Fault:
    return warning(
        path=("burn_time",),
        what=f"the tests support less than {LEAST_CLAIM_H} h for the {burnable_g:.1f} g that can burn",
        why="papers print whole hours, rounded down; that would be 0, so they print none",
        fix="burn_time: a new test, with hours and weights as noted while burning",
        check="no-hours",
    )
