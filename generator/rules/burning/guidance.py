"""How to burn a candle: each market's advice, the first burn, the longest burn."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from generator.model.markets import MARKETS, AdviceKey, LengthUnit, Market
from generator.model.quantities import MM_PER_INCH
from generator.problems import Fault, Severity, warning
from generator.rules.calculation import Calculation, least, most

LONGEST_SESSION_H: Final = 4.0
"""Longest burn at one time (standards.md B2, FOUND-2nd; pages of makers, not of an association)."""

SHORTEST_LIMIT_H: Final = 1.0
"""A maker's own limit below this lets no pool of wax form (CHOICE, on one hour an inch, standards.md B4)."""

ADVICE_KEPT: Final = 256
"""Candles share wicks and widths: what these need is worked out once for all of them."""

COOL_DOWN_H: Final = 2.0
"""Rest before it is lit again (standards.md B3, FOUND-2nd)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advised:
    """A length as one market's papers print it, and where it was seen."""

    mm: float
    text: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MarketAdvice:
    """One market's lengths; ``clear_of`` is None where no source of that market gives a figure.

    ``trim`` is the longest that a source names, until a wick's own takes its place.
    """

    trim: Advised
    stop_at: Advised
    apart: Advised
    clear_of: Advised | None


_PRESS: Final = "the US candle association as the press reports it (FOUND-2nd)"
_AMERICAN: Final = MarketAdvice(
    trim=Advised(mm=6.35, text="1/4 in", source=f"standards.md B1, {_PRESS}"),
    stop_at=Advised(mm=12.7, text="1/2 in", source=f"standards.md B6, {_PRESS}"),
    apart=Advised(mm=76.2, text="3 in", source=f"standards.md B5, {_PRESS}"),
    clear_of=Advised(mm=304.8, text="12 in", source="standards.md B8, US Fire Administration (FOUND)"),
)
_EUROPEAN: Final = MarketAdvice(
    trim=Advised(mm=10.0, text="10 mm", source="standards.md B1, the European candle association (FOUND)"),
    stop_at=Advised(mm=10.0, text="10 mm", source="standards.md B6, a Belgian page (FOUND-2nd)"),
    apart=Advised(
        mm=100.0, text="10 cm", source="standards.md B5, British, Belgian, Italian pages (FOUND-2nd)"
    ),
    clear_of=None,
)
ADVICE: Final[Mapping[AdviceKey, MarketAdvice]] = {"American": _AMERICAN, "European": _EUROPEAN}
"""What papers advise (standards.md 3; sources disagree on the trim)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstBurn:
    """How long until a new candle has melted to the edge, and whether that was timed or comes from the rule.

    ``asked_h`` is what the wax would take; papers print at most the session limit.
    """

    calculation: Calculation
    asked_h: float
    timed: bool

    @property
    def hours(self) -> float:
        """The hours that papers print."""
        return self.calculation.value


def general_advice(market: Market) -> MarketAdvice:
    """One market's advice, whatever the wick."""
    return ADVICE[MARKETS[market].advice]


@lru_cache(maxsize=ADVICE_KEPT)
def advice(market: Market, wick_trim_mm: float) -> MarketAdvice:
    """One market's advice for a wick: its own trim, unless the market's sources ask for a shorter one."""
    general = general_advice(market)
    if wick_trim_mm > general.trim.mm:
        return general
    text = _LENGTH_TEXTS[MARKETS[market].length_unit](wick_trim_mm)
    return replace(general, trim=Advised(mm=wick_trim_mm, text=text, source="recorded with the wick"))


@lru_cache(maxsize=ADVICE_KEPT)
def stop_depth(markets: tuple[Market, ...]) -> Calculation:
    """The mm of wax left when burning stops: the most that any of the given markets, or of all, asks for."""
    stops = {f"stop_{market}_mm": general_advice(market).stop_at.mm for market in markets or MARKETS}
    return Calculation(most(list(stops)), stops)


TO_THE_LAST: Final = Calculation("0", {})
"""The stop depth of what has no stop line."""


@lru_cache(maxsize=ADVICE_KEPT)
def session_limit(makers_h: float | None, longest_tested_h: float | None) -> Calculation:
    """The longest burn at one time, in h: the least of 4 h, the longest sound tested session and the maker's own."""
    limits = {
        "usual_limit_h": LONGEST_SESSION_H,
        "longest_tested_h": longest_tested_h,
        "own_limit_h": makers_h,
    }
    given = {name: hours for name, hours in limits.items() if hours is not None}
    return Calculation(least(list(given)), given)


def session_limit_faults(makers_h: float | None) -> tuple[Fault, ...]:
    """Whether the maker's own limit is longer than papers print, or too short to burn a candle by."""
    if makers_h is None or SHORTEST_LIMIT_H <= makers_h <= LONGEST_SESSION_H:
        return ()
    if makers_h < SHORTEST_LIMIT_H:
        return (
            Fault(
                path=("longest_session",),
                what=f"longest_session is {makers_h:g} h, less than {SHORTEST_LIMIT_H:g} h",
                why="a candle put out so soon tunnels around its wick, and the flame drowns",
                fix=f"longest_session: {SHORTEST_LIMIT_H:g} to {LONGEST_SESSION_H:g} h",
            ),
        )
    return (
        warning(
            path=("longest_session",),
            what=f"longest_session is {makers_h:g} h; the papers print {LONGEST_SESSION_H:g} h",
            why="the usual safety advice is never to burn a candle longer at one time",
            fix=f"longest_session: at most {LONGEST_SESSION_H:g} h",
        ),
    )


@lru_cache(maxsize=ADVICE_KEPT)
def full_pool_rule(diameter_mm: float, wicks: int) -> Calculation:
    """How long wax takes to melt to the edge, by a rule of thumb, in h.

    hours = D / sqrt(n) / 25.4

    diameter_mm: D, inner diameter at the fill level; of another shape sqrt(4 A / pi), mm.
    wicks: n, each with an equal share of the surface, without unit.
    Holds as an order of magnitude: 0.95 to 1.25 h an inch by one wick maker's chart.
    Source: one hour an inch, pages of makers (standards.md B4, FOUND-2nd); sqrt(n), physics.md B4 (CHOICE).

    >>> round(full_pool_rule(90, 2).value, 6)
    2.505496
    """
    inputs = {"surface_mm": diameter_mm, "wicks": wicks}
    return Calculation(f"surface_mm / sqrt(wicks) / {MM_PER_INCH}", inputs)


@lru_cache(maxsize=ADVICE_KEPT)
def first_burn(asked: Calculation, limit_h: float, *, timed: bool) -> FirstBurn:
    """The first burn as printed: until melted to the edge, and never longer than the session limit."""
    limited = Calculation(
        f"min({asked.formula}, session_limit_h)", {**asked.inputs, "session_limit_h": limit_h}
    )
    return FirstBurn(calculation=limited, asked_h=asked.value, timed=timed)


def first_burn_faults(first: FirstBurn, limit_h: float) -> tuple[Fault, ...]:
    """Whether melting to the edge takes longer than a candle may burn at one time."""
    if first.asked_h <= limit_h:
        return ()
    source = "as timed" if first.timed else "by the rule of one hour an inch"
    beyond_all = first.asked_h > LONGEST_SESSION_H
    return (
        Fault(
            path=("wick",),
            what=(
                f"the first burn would take {first.asked_h:.3g} h {source}; the most for "
                f"one burn is {limit_h:.3g} h"
            ),
            why=(
                "the burn-safety sheet would ask for both, and wax left at the edge makes the candle tunnel"
            ),
            fix=_WIDER if beyond_all else _LONGER,
            severity=Severity.ERROR if beyond_all else Severity.WARNING,
            check="first-burn",
        ),
    )


_WIDER: Final = "use one more wick, or a narrower vessel"
_LONGER: Final = "test with longer sessions, or use a wick that melts to the edge sooner"


def _sixteenths(length_mm: float) -> str:
    """A length to the nearest mark of an inch ruler, at least one."""
    return f"{Fraction(max(1, round(length_mm / MM_PER_INCH * 16)), 16)} in"


def _millimetres(length_mm: float) -> str:
    return f"{length_mm:.3g} mm"


_LENGTH_TEXTS: Final[Mapping[LengthUnit, Callable[[float], str]]] = {"mm": _millimetres, "in": _sixteenths}
