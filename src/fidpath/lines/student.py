"""Quantiles of Student's t and of the normal law, without the half second that a statistics package takes to load.

The t law's tail is half an incomplete beta function, computed by its continued fraction (Abramowitz & Stegun,
26.5.8 and 26.7.1, from memory; tests compare with scipy.stats).
"""

from __future__ import annotations

import math
from statistics import NormalDist

NEARLY_NORMAL = 1e5
"""Beyond so many degrees of freedom the first term of the series about the normal law is exact to ten digits."""

TINY = 1e-300
STEPS = 400


def quantile(probability: float, freedom: float) -> float:
    """The value that Student's t with `freedom` degrees of freedom stays below with a probability of 0.5 to 1."""
    if freedom > NEARLY_NORMAL:
        normal = NormalDist().inv_cdf(probability)
        return normal + (normal**3 + normal) / (4 * freedom)
    low, high = 0.0, 1.0
    while 1 - tail(high, freedom) < probability:
        low, high = high, 2 * high
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if 1 - tail(middle, freedom) < probability else (low, middle)
    return (low + high) / 2


def tail(value: float, freedom: float) -> float:
    """Probability that Student's t exceeds a value of nothing or more."""
    return 0.5 * _beta(freedom / (freedom + value * value), freedom / 2, 0.5)


def _beta(x: float, a: float, b: float) -> float:
    """Regularised incomplete beta function."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - _beta(1 - x, b, a)
    front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    return math.exp(front) * _fraction(x, a, b) / a


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction, from the front (modified Lentz)."""
    c, d = 1.0, 1 / _nonzero(1 - (a + b) * x / (a + 1))
    value = d
    for m in range(1, STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1 / _nonzero(1 + term * d)
            c = _nonzero(1 + term / c)
            value *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return value


def _nonzero(value: float) -> float:
    return value if abs(value) > TINY else TINY
