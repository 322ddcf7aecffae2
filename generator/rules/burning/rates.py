"""The burning rate of a build from the pieces burnt, and the rates one new candle is expected to stay between."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt
from statistics import stdev
from typing import Final

from generator.rules.burning.pieces import WHOLE_LIFE_COVERAGE, Piece
from generator.rules.burning.quantiles import normal_quantile, one_more_factor, t_quantile

ONE_SIDED: Final = 0.90
"""Share of new candles that stay under the upper rate (physics.md D3, CHOICE)."""

LEAST_SPREAD: Final = 0.05
"""Least standard deviation between pieces, of the rate: luck makes few pieces look alike (D3, CHOICE)."""

ONE_PIECE_SPREAD: Final = 0.10
"""Standard deviation between pieces, of the rate, assumed when only one was burnt (D4, CHOICE)."""

RELATED_WIDENING: Final = 2
"""How much wider both are when the pieces had another scent (D7 for the first; the second likewise, CHOICE)."""

DRIFT: Final = 0.20
"""How much faster the unburnt part of a candle is taken to burn, of the rate (D4, CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateEstimate:
    """Everything between the pieces and the rates: R, its error and interval, what one new candle may do.

    ``standard_error``, ``mean_interval`` and ``deviation`` need two pieces, and are None with one.
    ``least_spread`` is the part of the rate that ``spread`` is never below.
    ``rate_low_g_per_h`` may be nothing or less where two pieces disagree widely.
    """

    pieces: int
    rate_g_per_h: float
    standard_error: float | None
    mean_interval: tuple[float, float] | None
    deviation: float | None
    least_spread: float
    spread: float
    factor: float
    coverage: float
    drift: float
    rate_low_g_per_h: float
    rate_high_g_per_h: float


def estimate_rate(pieces: Sequence[Piece], *, related: bool) -> RateEstimate:
    """The rate of at least one piece; ``related`` where they had another scent than the candle asked about."""
    losses_g, hours = [piece.loss_g for piece in pieces], [piece.hours for piece in pieces]
    rate = pooled_rate_g_per_h(losses_g, hours)
    error = standard_error_g_per_h(losses_g, hours) if len(pieces) > 1 else None
    deviation = stdev(piece.rate_g_per_h for piece in pieces) if len(pieces) > 1 else None
    widening = RELATED_WIDENING if related else 1
    least = widening * (ONE_PIECE_SPREAD if deviation is None else LEAST_SPREAD)
    spread = max(deviation or 0.0, least * rate)
    factor = normal_quantile(ONE_SIDED) if deviation is None else one_more_factor(len(pieces), ONE_SIDED)
    coverage = min(piece.coverage for piece in pieces)
    drift = drift_factor(coverage) if len(pieces) == 1 or coverage < WHOLE_LIFE_COVERAGE else 1.0
    return RateEstimate(
        pieces=len(pieces),
        rate_g_per_h=rate,
        standard_error=error,
        mean_interval=None if error is None else mean_interval(rate, error, len(pieces)),
        deviation=deviation,
        least_spread=least,
        spread=spread,
        factor=factor,
        coverage=coverage,
        drift=drift,
        rate_low_g_per_h=(rate - factor * spread) * drift,
        rate_high_g_per_h=(rate + factor * spread) * drift,
    )


def pooled_rate_g_per_h(losses_g: Sequence[float], hours: Sequence[float]) -> float:
    """The mean rate of all pieces, each weighted by its hours, in g/h.

    R = sum W_i / sum T_i

    losses_g: W_i, the weight each piece lost, g.
    hours: T_i, the hours each piece burnt, h.
    Holds for at least one piece; sessions of one piece do not count as separate pieces.
    Source: the ratio estimator of survey sampling (MEMORY), chosen in physics.md D3 (CHOICE).

    >>> round(pooled_rate_g_per_h([142.4, 143.8, 143.9], [27.5, 26.75, 28.75]), 6)
    5.181928
    """
    return fsum(losses_g) / fsum(hours)


def standard_error_g_per_h(losses_g: Sequence[float], hours: Sequence[float]) -> float:
    """The standard error of the pooled rate, in g/h.

    SE = sqrt( n/(n-1) sum (W_i - R T_i)^2 ) / sum T_i

    losses_g: W_i, the weight each of n pieces lost, g.
    hours: T_i, the hours each piece burnt, h.
    Holds for at least two pieces.
    Source: the linearised error of the ratio estimator (MEMORY), as in physics.md D3 (CHOICE).

    >>> round(standard_error_g_per_h([142.4, 143.8, 143.9], [27.5, 26.75, 28.75]), 6)
    0.10711
    """
    rate, n = pooled_rate_g_per_h(losses_g, hours), len(hours)
    squares = fsum((loss_g - rate * t) ** 2 for loss_g, t in zip(losses_g, hours, strict=True))
    return sqrt(n / (n - 1) * squares) / fsum(hours)


def mean_interval(rate_g_per_h: float, error_g_per_h: float, pieces: int) -> tuple[float, float]:
    """Between which rates the mean of all such candles lies, with 95 % confidence, in g/h.

    R - t SE and R + t SE, with t = t(0.975, n - 1)

    rate_g_per_h: R, the pooled rate, g/h.
    error_g_per_h: SE, its standard error, g/h.
    pieces: n, without unit.
    Holds for at least two pieces.
    Source: textbook statistics (MEMORY), as in physics.md D3 (CHOICE).

    >>> [round(end, 4) for end in mean_interval(5.181928, 0.1071097, 3)]
    [4.7211, 5.6428]
    """
    margin = t_quantile(0.975, pieces - 1) * error_g_per_h
    return rate_g_per_h - margin, rate_g_per_h + margin


def drift_factor(coverage: float) -> float:
    """How much faster a whole life burns than the part of it that was seen.

    drift = 1 + 0.20 (1 - c)

    coverage: c, the share of the burnable wax that was burnt, from 0 to 1, without unit.
    Holds for container candles, which burn faster as they burn down.
    Source: physics.md D4 (CHOICE; the direction FOUND as a trade remark).

    >>> round(drift_factor(0.2290323), 6)
    1.154194
    """
    return 1 + DRIFT * (1 - coverage)
