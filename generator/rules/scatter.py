"""Where the scatter of burning rates lies, between pieces or between sessions, and whether a candle speeds up."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from generator.rules.pieces import Burn


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """One-way analysis of variance of session rates, weighted by hours.

    ``between`` and ``within`` are mean squares, (g/h)^2 h; ``hours`` is the hours of a typical piece;
    ``piece_variance`` is what pieces differ by beyond their sessions, (g/h)^2.
    """

    between: float
    within: float
    hours: float
    piece_variance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DriftLine:
    """The rate of a session as a straight line over what had burnt by the middle of it."""

    rate_at_first_g_per_h: float
    rise_per_h: float


def scatter(pieces: Sequence[Sequence[Burn]]) -> Scatter | None:
    """How far pieces, and sessions within a piece, stray from the pooled rate.

    MS_b = sum T_i (r_i - R)^2 / (n - 1);  MS_w = sum t_ij (r_ij - r_i)^2 / (N - n);
    T_0 = (T - sum T_i^2 / T) / (n - 1);  s_b^2 = max(0, (MS_b - MS_w) / T_0)

    pieces: the N sessions of n pieces, weights in g and hours in h.
    Holds for two pieces or more and more sessions than pieces; None otherwise.
    Source: one-way analysis of variance, textbook statistics (MEMORY), as in physics.md D3 (CHOICE).

    >>> slow = [Burn(hours=4, loss_g=16, burnt_g=8), Burn(hours=4, loss_g=20, burnt_g=26)]
    >>> fast = [Burn(hours=4, loss_g=24, burnt_g=12), Burn(hours=4, loss_g=28, burnt_g=38)]
    >>> scatter([slow, fast])
    Scatter(between=16.0, within=2.0, hours=8.0, piece_variance=1.75)
    """
    spare = sum(map(len, pieces)) - len(pieces)
    if len(pieces) < 2 or spare < 1:
        return None
    hours = [_hours(burns) for burns in pieces]
    rates = [_rate_g_per_h(burns) for burns in pieces]
    total_h, rate = fsum(hours), _rate_g_per_h([burn for burns in pieces for burn in burns])
    between = fsum(t * (r - rate) ** 2 for t, r in zip(hours, rates, strict=True)) / (len(pieces) - 1)
    within = fsum(
        burn.hours * (burn.rate_g_per_h - r) ** 2
        for burns, r in zip(pieces, rates, strict=True)
        for burn in burns
    )
    typical_h = (total_h - fsum(t**2 for t in hours) / total_h) / (len(pieces) - 1)
    return Scatter(
        between=between,
        within=within / spare,
        hours=typical_h,
        piece_variance=max(0.0, (between - within / spare) / typical_h),
    )


def drift_line(burns: Sequence[Burn]) -> DriftLine | None:
    """How the rate changes as the candle burns down.

    rate = a + b m by least squares over all sessions, each weighted by its hours

    burns: sessions of all pieces, each with its rate in g/h and the m grams burnt by its middle.
    Holds for sessions at two or more depths; None otherwise.
    Source: weighted least squares, textbook statistics (MEMORY), as in physics.md D3 (CHOICE).

    >>> drift_line([Burn(hours=4, loss_g=16, burnt_g=8), Burn(hours=4, loss_g=20, burnt_g=24)])
    DriftLine(rate_at_first_g_per_h=3.5, rise_per_h=0.0625)
    """
    if len({burn.burnt_g for burn in burns}) < 2:
        return None
    hours, rate = _hours(burns), _rate_g_per_h(burns)
    middle_g = fsum(burn.hours * burn.burnt_g for burn in burns) / hours
    together = fsum(burn.hours * (burn.burnt_g - middle_g) * (burn.rate_g_per_h - rate) for burn in burns)
    rise = together / fsum(burn.hours * (burn.burnt_g - middle_g) ** 2 for burn in burns)
    return DriftLine(rate_at_first_g_per_h=rate - rise * middle_g, rise_per_h=rise)


def _hours(burns: Sequence[Burn]) -> float:
    return fsum(burn.hours for burn in burns)


def _rate_g_per_h(burns: Sequence[Burn]) -> float:
    return fsum(burn.loss_g for burn in burns) / _hours(burns)
