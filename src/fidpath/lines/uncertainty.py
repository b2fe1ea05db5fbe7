"""What is known of a length and how well: closed-form normal updates, and independent errors added up.

Take-up: each test splice gives a ratio, measured take-up over geometry's estimate. Ratios of one rope scatter
normally about a factor of that rope; factor and scatter are both unknown. The conjugate prior (normal for the factor,
inverse gamma for the scatter squared) makes every result closed: Student's t. Textbook result, redone by hand.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fidpath.arrays import Floats
from fidpath.job import rule


@lru_cache(maxsize=4096)
def t_quantile(confidence: float, freedom: float) -> float:
    """Half-width, in standard scales, of the central interval that holds `confidence` of Student's t.

    With `freedom` without end it is the normal law's.
    """
    from scipy.special import stdtrit

    return float(stdtrit(freedom, 0.5 + confidence / 2))


@dataclass(frozen=True)
class TakeUpEstimate:
    """A rope's take-up over geometry's estimate: factor `mean`, known as well as from `weight` splices; `scatter` of
    one splice about it (standard deviation), known with `freedom` degrees of freedom; the test splices behind it."""

    mean: float
    weight: float
    scatter: float
    freedom: float
    tests: tuple[str, ...] = ()

    @property
    def factor_scale(self) -> float:
        """Scale of Student's t for the factor."""
        return self.scatter / math.sqrt(self.weight)

    @property
    def next_scale(self) -> float:
        """Scale of Student's t for the next splice's ratio."""
        return self.scatter * math.sqrt(1 + 1 / self.weight)

    def half_width(self, confidence: float) -> float:
        """How far the next splice's ratio may lie from `mean`."""
        return t_quantile(confidence, self.freedom) * self.next_scale


def prior() -> TakeUpEstimate:
    """Geometry's estimate with the wide interval that stands before a loft has tried its own rope."""
    scatter, freedom = rule("take_up_scatter").value, rule("take_up_scatter_weight").value
    spread = rule("take_up_spread").value / (t_quantile(0.95, freedom) * scatter)
    return TakeUpEstimate(1.0, 1 / (spread**2 - 1), scatter, freedom)


def updated(before: TakeUpEstimate, ratios: Floats, tests: tuple[str, ...] = ()) -> TakeUpEstimate:
    """The estimate after ratios `(n,) float`, one a test splice; closed form."""
    n = len(ratios)
    if n == 0:
        return before
    mean = float(ratios.mean())
    weight = before.weight + n
    squares = before.freedom * before.scatter**2 + float(((ratios - mean) ** 2).sum())
    squares += before.weight * n * (mean - before.mean) ** 2 / weight
    freedom = before.freedom + n
    middle = (before.weight * before.mean + n * mean) / weight
    return TakeUpEstimate(middle, weight, math.sqrt(squares / freedom), freedom, (*before.tests, *tests))


def take_up_scale(estimate: TakeUpEstimate, take_ups: tuple[float, ...]) -> float:
    """Scale of the error of the summed take-up of splices in one line, mm: they share the factor, not the scatter."""
    shared = sum(take_ups) ** 2 / estimate.weight
    return estimate.scatter * math.sqrt(shared + sum(t * t for t in take_ups))


@dataclass(frozen=True)
class Cause:
    """One independent cause of error in the finished length: standard scale in mm, and how well that is known."""

    name: str
    label: str
    scale: float
    source: str
    freedom: float = math.inf


def uniform(half: float) -> float:
    """Standard deviation of an error equally likely anywhere within `half` either side."""
    return half / math.sqrt(3)


def of_half_width(half: float) -> float:
    """Standard deviation of a normal error that stays within `half` in 95 of 100 cases."""
    return half / t_quantile(0.95, math.inf)


def combined(causes: tuple[Cause, ...]) -> float:
    """Scale in mm of independent errors together: they add in squares."""
    return math.sqrt(sum(cause.scale**2 for cause in causes))


def half_width(causes: tuple[Cause, ...], confidence: float) -> float:
    """How far the finished length may come out from what is meant, mm.

    Exact for normal errors and at most one of Student's t: that one is normal with a variance of its own, drawn as
    freedom/chi squared, so the chance of staying within is an average of normal ones, turned round by Newton's way.
    Raises ValueError where more than one cause is of Student's t.
    """
    known = combined(tuple(cause for cause in causes if math.isinf(cause.freedom)))
    drawn = [cause for cause in causes if math.isfinite(cause.freedom) and cause.scale > 0]
    if len(drawn) > 1:
        raise ValueError("more than one cause whose scale is itself in doubt")
    if not drawn:
        return t_quantile(confidence, math.inf) * known
    if known == 0:
        return t_quantile(confidence, drawn[0].freedom) * drawn[0].scale
    return drawn[0].scale * _mixed(known / drawn[0].scale, drawn[0].freedom, confidence)


def _mixed(known: float, freedom: float, confidence: float) -> float:
    """Half-width of a normal error of scale `known` and one of Student's t of scale 1 together."""
    variances, weights = _drawn(freedom)
    scales = np.sqrt(known**2 + variances)
    roots = (scales * math.sqrt(2)).tolist()
    half = 0.0
    for _ in range(60):
        inside = sum(w * math.erf(half / s) for w, s in zip(weights.tolist(), roots, strict=True))
        slope = float((weights * np.exp(-0.5 * (half / scales) ** 2) / scales).sum()) * math.sqrt(2 / math.pi)
        move = (confidence - inside) / slope
        half += move
        if abs(move) < 1e-9 * half:
            break
    return half


@lru_cache(maxsize=64)
def _drawn(freedom: float) -> tuple[Floats, Floats]:
    """Values of freedom/chi squared, evenly spaced in their logarithm, and their weights."""
    width = 12 / math.sqrt(freedom)
    log = np.linspace(-width - 48 / freedom, min(5.0, width), 240)
    density = freedom / 2 * (log - np.exp(log))
    weights = np.exp(density - density.max())
    return np.exp(-log), weights / weights.sum()
