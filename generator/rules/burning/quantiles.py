"""Quantiles of Student's t: the margins that few burnt pieces need."""

from math import cos, pi, sin, sqrt, tan

_HALVINGS = 60


def t_quantile(probability: float, degrees: int) -> float:
    """The value that Student's t stays below with a given probability.

    t where (1 + A(t)) / 2 = probability; with theta = atan(t / sqrt(degrees)) and s, c its sine and cosine,
    A = s (1 + 1/2 c^2 + (1 3)/(2 4) c^4 + ... up to c^(degrees - 2)) for even degrees and
    A = 2/pi (theta + s (c + 2/3 c^3 + (2 4)/(3 5) c^5 + ... up to c^(degrees - 2))) for odd ones.

    probability: from 0.5 to below 1, without unit.
    degrees: degrees of freedom, pieces less one, without unit.
    Holds for whole degrees of freedom from 1.
    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (MEMORY);
    compared with scipy in the tests (COMPUTED).

    >>> round(t_quantile(0.90, 2), 6)
    1.885618
    """
    low, high = 0.0, pi / 2
    for _ in range(_HALVINGS):
        theta = (low + high) / 2
        if (1 + _within(theta, degrees)) / 2 < probability:
            low = theta
        else:
            high = theta
    return sqrt(degrees) * tan((low + high) / 2)


def _within(theta: float, degrees: int) -> float:
    """The probability that t lies within plus and minus sqrt(degrees) tan(theta)."""
    odd = degrees % 2
    term = cos(theta) if odd else 1.0
    series = 0.0
    for power in range(odd, degrees - 1, 2):
        series += term
        term *= cos(theta) ** 2 * (power + 1) / (power + 2)
    return (theta + sin(theta) * series) * 2 / pi if odd else sin(theta) * series


def one_more_factor(pieces: int, probability: float) -> float:
    """By how many standard deviations one new piece may lie above the mean of those burnt.

    k = t(probability, n - 1) sqrt(1 + 1/n)

    pieces: n, the pieces burnt, without unit.
    probability: that the new piece stays under, without unit.
    Holds from two pieces whose rates scatter about normally.
    Source: the prediction bound for one further observation, textbook statistics (MEMORY);
    factors for 2 to 10 pieces COMPUTED with scipy.

    >>> round(one_more_factor(3, 0.90), 6)
    2.177324
    """
    return t_quantile(probability, pieces - 1) * sqrt(1 + 1 / pieces)
