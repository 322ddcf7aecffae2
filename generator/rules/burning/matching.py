"""Whether a burn test still applies to a candle: what was tested and what is made, field by field."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Final

from generator.model.accepted import check_of
from generator.problems import Fault, warning

DIAMETER_TOLERANCE_MM: Final = 1.0
NET_TOLERANCE_PERCENT: Final = 5.0
STOP_TOLERANCE_MM: Final = 1.0
WAX_TOLERANCE_POINTS: Final = 2.0
FRAGRANCE_TOLERANCE_POINTS: Final = 0.5
RELATED_FRAGRANCE_TOLERANCE_POINTS: Final = 1.0
ADDITIVE_TOLERANCE_POINTS: Final = 0.1
"""How far a candle may move from what was tested; points are percent of the total (physics.md D7, CHOICE).

An additive or a dye that is new or left out moves the candle by its whole share: a trace of colour is within the
tolerance, as a trace more or less of one that was there is (CHOICE; wicks clog by what is stirred in, not by its name).
"""

_VESSEL: Final = "vessel"
_WICK: Final = "wick"

_ROUNDING: Final = 1e-9
"""What binary arithmetic may add to a difference of exactly the tolerance."""

Shares = tuple[tuple[str, float], ...]
"""Materials by id and their share of the finished mixture, from 0 to 1."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class WickFit:
    """A number of wicks of one kind, and how far they are trimmed."""

    id: str
    count: int
    core: str
    trim_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnProfile:
    """What decides how a candle burns: as tested, or as made now.

    ``inner_diameter_mm`` is taken at half the fill. ``cure_h`` is how long a tested candle did cure, and how long a
    candle as made must cure; None where not recorded.
    """

    container: str | None
    material: str | None
    inner_diameter_mm: float
    net_g: float
    stop_depth_mm: float
    wicks: tuple[WickFit, ...]
    waxes: Shares
    fragrances: Shares
    additives: Shares
    cure_h: float | None


class MatchLevel(Enum):
    """How far a test applies to a candle: fully, as the same candle in another scent, or not at all."""

    EXACT = "exact"
    RELATED = "related"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """One field that is no longer as tested, with both values as text."""

    field: str
    tested: str
    now: str

    def __str__(self) -> str:
        return f"{self.field} was {self.tested}, is {self.now}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """The verdict on one test, and every field that moved."""

    level: MatchLevel
    moved: tuple[Moved, ...]

    @property
    def same_vessel(self) -> bool:
        """Whether a vessel that cracked in the test is the candle's."""
        return not self._moved(_VESSEL)

    @property
    def same_wicks(self) -> bool:
        """Whether a flame that was seen in the test is that of the candle's wicks."""
        return not self._moved(_WICK)

    def _moved(self, field: str) -> bool:
        return any(moved.field == field for moved in self.moved)


def compare(tested: BurnProfile, now: BurnProfile) -> Match:
    """Whether a test of one candle supports another, by the rules of physics.md D7 (CHOICE)."""
    body = tuple(moved for check in _BODY_CHECKS for moved in check(tested, now))
    scent = tuple(_fragrance(tested, now))
    if body or _load_difference_points(tested, now) > RELATED_FRAGRANCE_TOLERANCE_POINTS + _ROUNDING:
        level = MatchLevel.NONE
    else:
        level = MatchLevel.RELATED if scent else MatchLevel.EXACT
    return Match(level=level, moved=body + scent)


def match_faults(test: int, file: str, match: Match | None) -> tuple[Fault, ...]:
    """The warning that the ``test``-th file of ``burn_time`` does not fully support the candle.

    ``match`` is None where it was not recorded what was tested.
    """
    if match is None:
        fault = _untold(test, file)
    elif match.level is MatchLevel.RELATED:
        fault = _moved_fault(
            test, match, f"{file} tested the same candle in another scent", "only provisional"
        )
    elif match.level is MatchLevel.NONE:
        fault = _moved_fault(test, match, f"{file} no longer matches the candle", "estimated, not tested")
    else:
        return ()
    return (fault,)


def _untold(test: int, file: str) -> Fault:
    return warning(
        path=("burn_time", test),
        what=f"{file} does not say which candle was tested",
        why="changes to the recipe would go unnoticed, so its burn hours are only provisional",
        fix="tested_as: the vessel, wick and ingredients that were burnt, in the .yaml beside the table",
        check=check_of("untold", file),
    )


def _moved_fault(test: int, match: Match, what: str, result: str) -> Fault:
    return warning(
        path=("burn_time", test),
        what=f"{what}: {'; '.join(map(str, match.moved))}",
        why=f"wax, wick and vessel set the burn rate, so its burn hours are {result}",
        fix="burn_time: a new test of the candle as it is made now",
        check=check_of("moved", " ".join(dict.fromkeys(one.field.split()[0] for one in match.moved))),
    )


def _different(field: str, tested: str | None, now: str | None) -> Iterator[Moved]:
    if tested != now:
        yield Moved(field=field, tested=tested or "none", now=now or "none")


def _container(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    yield from _different(_VESSEL, tested.container, now.container)
    yield from _different("vessel material", tested.material, now.material)
    if _apart(tested.inner_diameter_mm, now.inner_diameter_mm, DIAMETER_TOLERANCE_MM):
        yield Moved(
            field="inner diameter", tested=_mm(tested.inner_diameter_mm), now=_mm(now.inner_diameter_mm)
        )


def _fill(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    if _apart(tested.net_g, now.net_g, tested.net_g * NET_TOLERANCE_PERCENT / 100):
        yield Moved(field="net weight", tested=f"{tested.net_g:.1f} g", now=f"{now.net_g:.1f} g")
    if _apart(tested.stop_depth_mm, now.stop_depth_mm, STOP_TOLERANCE_MM):
        yield Moved(field="stop depth", tested=_mm(tested.stop_depth_mm), now=_mm(now.stop_depth_mm))


def _wicks(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    both = (sorted(tested.wicks), sorted(now.wicks))
    counts = (_listed(f"{one.count} × {one.id}" for one in wicks) for wicks in both)
    cores = (_listed(one.core for one in wicks) for wicks in both)
    trims = (_listed(_mm(one.trim_mm) for one in wicks) for wicks in both)
    for field, told in ((_WICK, counts), ("wick core", cores), ("wick trim", trims)):
        yield from _different(field, *told)


def _listed(words: Iterable[str]) -> str:
    return " and ".join(words) or "none"


def _waxes(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    yield from _shares("wax", tested.waxes, now.waxes, WAX_TOLERANCE_POINTS, same_set=True)


def _additives(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    yield from _shares("additive", tested.additives, now.additives, ADDITIVE_TOLERANCE_POINTS, same_set=False)


def _cure(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    if now.cure_h is not None and (tested.cure_h is None or tested.cure_h < now.cure_h):
        yield Moved(field="cure", tested=_days(tested.cure_h), now=_days(now.cure_h))


_Check = Callable[[BurnProfile, BurnProfile], Iterator[Moved]]
_BODY_CHECKS: Final[tuple[_Check, ...]] = (_container, _fill, _wicks, _waxes, _additives, _cure)
"""Everything except the scent; any change here ends the test's support."""


def _fragrance(tested: BurnProfile, now: BurnProfile) -> Iterator[Moved]:
    moved = tuple(
        _shares("fragrance", tested.fragrances, now.fragrances, FRAGRANCE_TOLERANCE_POINTS, same_set=True)
    )
    yield from moved
    if not moved and _load_difference_points(tested, now) > FRAGRANCE_TOLERANCE_POINTS + _ROUNDING:
        yield Moved(field="fragrance load", tested=_percent(_load(tested)), now=_percent(_load(now)))


def _shares(
    kind: str, tested: Shares, now: Shares, tolerance_points: float, *, same_set: bool
) -> Iterator[Moved]:
    before, after = dict(tested), dict(now)
    for id_ in sorted(before.keys() | after.keys()):
        was, is_ = before.get(id_), after.get(id_)
        another = same_set and (was is None or is_ is None)
        if another or _apart(100 * (was or 0.0), 100 * (is_ or 0.0), tolerance_points):
            yield Moved(field=f"{kind} {id_}", tested=_percent(was), now=_percent(is_))


def _load(candle: BurnProfile) -> float:
    return sum(share for _, share in candle.fragrances)


def _load_difference_points(tested: BurnProfile, now: BurnProfile) -> float:
    return abs(100 * _load(tested) - 100 * _load(now))


def _apart(one: float, other: float, tolerance: float) -> bool:
    return abs(one - other) > tolerance + _ROUNDING


def _mm(length_mm: float) -> str:
    return f"{length_mm:.4g} mm"


def _percent(share: float | None) -> str:
    return "absent" if share is None else f"{100 * share:.3g} %"


def _days(hours: float | None) -> str:
    return "not written down" if hours is None else f"{hours / 24:g} days"
