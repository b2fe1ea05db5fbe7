"""What is known of a length and how well: closed-form normal updates, and errors from independent causes added up.

Take-up: each test splice gives a ratio, measured take-up over geometry's estimate. Ratios of one rope scatter
normally about a factor of that rope; factor and scatter are both unknown. The conjugate prior (normal for the factor,
inverse gamma for the scatter squared) makes every result closed: Student's t. Textbook result, redone by hand.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fidpath.practice_rules import rule
from fidpath.student import quantile

Floats = NDArray[np.float64]


@lru_cache(maxsize=4096)
def t_quantile(confidence: float, freedom: float) -> float:
    """Half-width, in standard scales, of the central interval that holds `confidence` of Student's t."""
    return quantile(0.5 + confidence / 2, freedom)


@dataclass(frozen=True)
class Belief:
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


def prior() -> Belief:
    """Geometry's estimate with the wide interval that stands before a loft has tried its own rope."""
    scatter, freedom = rule("take_up_scatter").value, rule("take_up_scatter_weight").value
    spread = rule("take_up_spread").value / (t_quantile(0.95, freedom) * scatter)
    return Belief(1.0, 1 / (spread**2 - 1), scatter, freedom)


def updated(before: Belief, ratios: Floats, tests: tuple[str, ...] = ()) -> Belief:
    """What is believed after ratios `(n,) float`, one a test splice; closed form."""
    n = len(ratios)
    if n == 0:
        return before
    mean = float(ratios.mean())
    weight = before.weight + n
    squares = before.freedom * before.scatter**2 + float(((ratios - mean) ** 2).sum())
    squares += before.weight * n * (mean - before.mean) ** 2 / weight
    freedom = before.freedom + n
    middle = (before.weight * before.mean + n * mean) / weight
    return Belief(middle, weight, math.sqrt(squares / freedom), freedom, (*before.tests, *tests))


def take_up_scale(belief: Belief, take_ups: tuple[float, ...]) -> float:
    """Scale of the error of the summed take-up of splices in one line, mm: they share the factor, not the scatter."""
    shared = sum(take_ups) ** 2 / belief.weight
    return belief.scatter * math.sqrt(shared + sum(t * t for t in take_ups))


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


def combined(causes: tuple[Cause, ...]) -> tuple[float, float]:
    """Scale in mm and effective degrees of freedom of independent errors together.

    Welch and Satterthwaite's formula, JCGM 100:2008 annex G, from memory; exact where only one cause counts.
    """
    total = sum(cause.scale**2 for cause in causes)
    below = sum(cause.scale**4 / cause.freedom for cause in causes if math.isfinite(cause.freedom))
    return math.sqrt(total), total**2 / below if below > 0 else math.inf


def half_width(causes: tuple[Cause, ...], confidence: float) -> float:
    """How far the finished length may come out from what is meant, mm."""
    scale, freedom = combined(causes)
    return t_quantile(confidence, freedom) * scale
