"""The burning rate of a build from the pieces burnt, and the rates one new candle is expected to stay between."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import NormalDist, stdev
from typing import Final

from generator.rules.burning.pieces import WHOLE_LIFE_COVERAGE, Piece
from generator.rules.burning.quantiles import one_more_factor
from generator.rules.calculation import Calculation

ONE_SIDED: Final = 0.90
"""Share of new candles that stay under the upper rate (physics.md D3, CHOICE)."""

LEAST_SPREAD: Final = 0.05
"""Least standard deviation between pieces, of the rate: luck makes few pieces look alike (D3, CHOICE)."""

ONE_PIECE_SPREAD: Final = 0.10
"""Standard deviation between pieces, of the rate, assumed when only one was burnt (D4, CHOICE)."""

RELATED_WIDENING: Final = 2
"""How much wider both are when the pieces had another scent (D7 for the first; the second likewise, CHOICE)."""

DRIFT: Final = 0.20
"""How much faster the unburnt part of a candle is assumed to burn, of the rate (D4, CHOICE)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateEstimate:
    """Everything between the pieces and the rates: R, and the range for one new candle.

    ``deviation`` needs two pieces, and is None with one. ``drift`` is None where a whole life was seen.
    ``rate_low_g_per_h`` may be zero or less where two pieces differ widely.
    """

    rate: Calculation
    deviation: Calculation | None
    spread: Calculation
    factor: float
    coverage: float
    drift: Calculation | None
    high: Calculation

    @property
    def rate_g_per_h(self) -> float:
        """The mean rate of all wicks together."""
        return self.rate.value

    @property
    def drifting(self) -> float:
        """The factor on the rate; 1 where a whole life was seen."""
        return 1.0 if self.drift is None else self.drift.value

    @property
    def rate_high_g_per_h(self) -> float:
        """The rate that nine new candles in ten stay below."""
        return self.high.value

    @property
    def rate_low_g_per_h(self) -> float:
        """The rate that nine new candles in ten stay above."""
        return (self.rate_g_per_h - self.factor * self.spread.value) * self.drifting


def estimate_rate(pieces: Sequence[Piece], *, related: bool) -> RateEstimate:
    """The rate of at least one piece; ``related`` where they had another scent than the candle asked about."""
    rate = pooled_rate([piece.loss_g for piece in pieces], [piece.hours for piece in pieces])
    deviation = standard_deviation([piece.rate_g_per_h for piece in pieces]) if len(pieces) > 1 else None
    spread = _spread(rate.value, deviation, RELATED_WIDENING if related else 1)
    factor = NormalDist().inv_cdf(ONE_SIDED) if deviation is None else one_more_factor(len(pieces), ONE_SIDED)
    coverage = min(piece.coverage for piece in pieces)
    drift = drift_factor(coverage) if len(pieces) == 1 or coverage < WHOLE_LIFE_COVERAGE else None
    rates = {"rate_g_per_h": rate.value, "factor": factor, "rate_spread_g_per_h": spread.value}
    return RateEstimate(
        rate=rate,
        deviation=deviation,
        spread=spread,
        factor=factor,
        coverage=coverage,
        drift=drift,
        high=Calculation(
            "(rate_g_per_h + factor * rate_spread_g_per_h) * drift",
            {**rates, "drift": 1.0 if drift is None else drift.value},
        ),
    )


def _spread(rate_g_per_h: float, deviation: Calculation | None, widening: int) -> Calculation:
    """The deviation of the pieces, but at least a part of the rate."""
    least = widening * (ONE_PIECE_SPREAD if deviation is None else LEAST_SPREAD)
    formula, rate = f"{least:g} * rate_g_per_h", {"rate_g_per_h": rate_g_per_h}
    if deviation is None:
        return Calculation(formula, rate)
    inputs = {"rate_deviation_g_per_h": deviation.value, **rate}
    return Calculation(f"max(rate_deviation_g_per_h, {formula})", inputs)


def pooled_rate(losses_g: Sequence[float], hours: Sequence[float]) -> Calculation:
    """The mean rate of all pieces, each weighted by its hours, in g/h.

    R = sum W_i / sum T_i

    losses_g: W_i, the weight each piece lost, g.
    hours: T_i, the hours each piece burnt, h.
    Holds for at least one piece; sessions of one piece do not count as separate pieces.
    Source: the ratio estimator of survey sampling (MEMORY), chosen in physics.md D3 (CHOICE).

    >>> round(pooled_rate([142.4, 143.8, 143.9], [27.5, 26.75, 28.75]).value, 6)
    5.181928
    """
    lost = {f"lost_{number}_g": Fraction(loss_g) for number, loss_g in enumerate(losses_g, start=1)}
    burnt = {f"burnt_{number}_h": Fraction(t) for number, t in enumerate(hours, start=1)}
    return Calculation(f"({' + '.join(lost)}) / ({' + '.join(burnt)})", {**lost, **burnt})


def standard_deviation(rates_g_per_h: Sequence[float]) -> Calculation:
    """How far the rates of pieces scatter, in g/h; found exactly, since the formula repeats the mean in each square.

    s = sqrt( sum (R_i - mean)^2 / (n - 1) )

    rates_g_per_h: R_i, g/h.
    Holds for at least two pieces.
    Source: textbook statistics (MEMORY), as in physics.md D3 (CHOICE).

    >>> round(standard_deviation([4.0, 6.0]).value, 6)
    1.414214
    """
    rates = {f"rate_{number}_g_per_h": rate for number, rate in enumerate(rates_g_per_h, start=1)}
    mean = f"({' + '.join(rates)}) / {len(rates)}"
    squares = " + ".join(f"({rate} - {mean})^2" for rate in rates)
    return Calculation(f"sqrt(({squares}) / {len(rates) - 1})", rates, found=stdev(rates_g_per_h))


def drift_factor(coverage: float) -> Calculation:
    """How much faster a whole life burns than the part of it that was seen.

    drift = 1 + 0.20 (1 - c)

    coverage: c, the share of the burnable wax that was burnt, from 0 to 1, without unit.
    Holds for container candles, which burn faster as they burn down.
    Source: physics.md D4 (CHOICE; the direction FOUND as a trade remark).

    >>> round(drift_factor(0.2290323).value, 6)
    1.154194
    """
    return Calculation(f"1 + {DRIFT} * (1 - coverage)", {"coverage": coverage})
