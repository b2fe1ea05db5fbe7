"""The finished length's uncertainty against the package `uncertainties` and against Monte Carlo.

Both take the physical model from the marks to the finished line, not the linear terms that the program adds up.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import uncertainties

from fidpath.lines.line import LinePlan, make_line
from fidpath.lines.loft import estimate_for
from fidpath.lines.loft_file import read_loft
from fidpath.lines.uncertainty import combined, prior
from lines import LOFT, backstay, shroud

DRAWS = 200_000


def lines() -> list[LinePlan]:
    """A line by the wide prior, the same by a loft, and one with a fitting."""
    loft = estimate_for(read_loft(LOFT), shroud().rope)
    return [make_line(shroud()), make_line(shroud(), loft), make_line(backstay())]


def finished(line: LinePlan, ratios: list[Any], bedding: Any, stretch: Any, errors: Any) -> Any:
    """The length a line comes out at: its rope as cut and marked, its splices' take-up, what tension adds."""
    spliced = [end for end in line.ends if end.spliced]
    held = sum(
        end.fixed + ratio * end.take_up + end.span + end.trim for end, ratio in zip(spliced, ratios, strict=True)
    )
    plain = line.rope_to_cut - held
    growth = bedding + stretch
    spans = sum(end.span for end in line.ends)
    give = sum(end.span for end in spliced)
    return plain * (1 + growth) + spans + growth * give / 2 + errors


def scale(line: LinePlan, name: str) -> float:
    """The scale of one cause, mm."""
    return next(cause.scale for cause in line.causes if cause.name == name)


def others(line: LinePlan) -> list[float]:
    """Scales of the errors that add to the length as they are."""
    return [cause.scale for cause in line.causes if cause.name.split("_")[0] in ("placing", "seat", "tape")]


@pytest.mark.parametrize("which", [0, 1, 2])
def test_against_the_uncertainties_package(which: int) -> None:
    line = lines()[which]
    estimate = line.estimate
    factor = uncertainties.ufloat(estimate.mean, estimate.factor_scale)
    ratios = [factor + uncertainties.ufloat(0, estimate.scatter) for end in line.ends if end.spliced]
    bedding, stretch = 0.0, 0.0
    if line.growth.share:
        bedding = uncertainties.ufloat(line.growth.bedding_in, 0.5 / 1.959964 * line.growth.bedding_in)
        stretch = uncertainties.ufloat(line.growth.stretch, 0.2 / 1.959964 * line.growth.stretch)
    errors = sum(uncertainties.ufloat(0, each) for each in others(line))
    length = finished(line, ratios, bedding, stretch, errors)
    assert length.nominal_value == pytest.approx(line.finished, abs=1e-6)
    assert length.std_dev == pytest.approx(combined(line.causes), rel=0.006)


@pytest.mark.parametrize("which", [0, 1, 2])
def test_against_monte_carlo(which: int) -> None:
    """Scatter drawn from its inverse gamma, factor and splices normal about it, holes uniform within their pick."""
    line = lines()[which]
    estimate, rng = line.estimate, np.random.default_rng(20260314)
    scatter = estimate.scatter * np.sqrt(estimate.freedom / rng.chisquare(estimate.freedom, DRAWS))
    factor = estimate.mean + scatter / np.sqrt(estimate.weight) * rng.standard_normal(DRAWS)
    ends = [end for end in line.ends if end.spliced]
    ratios = [factor + scatter * rng.standard_normal(DRAWS) for _ in ends]
    bedding = line.growth.bedding_in * (1 + 0.5 / 1.959964 * rng.standard_normal(DRAWS))
    stretch = line.growth.stretch * (1 + 0.2 / 1.959964 * rng.standard_normal(DRAWS))
    errors = sum(rng.uniform(-end.placing, end.placing, DRAWS) for end in ends)
    errors = errors + sum(
        scale(line, f"seat_{n}") * rng.standard_normal(DRAWS) for n, e in enumerate(line.ends, 1) if e.spliced
    )
    errors = errors + sum(rng.uniform(-0.5, 0.5, DRAWS) for _ in range(2))
    lengths = finished(line, ratios, bedding, stretch, errors)
    inside = float(np.mean(np.abs(lengths - line.finished) <= line.half))
    assert inside == pytest.approx(0.95, abs=0.004)
    assert float(np.median(lengths)) == pytest.approx(line.finished, abs=0.3)


def test_the_wide_prior_by_monte_carlo() -> None:
    """The next splice's ratio lies within 0.30 of geometry's in 95 of 100 cases."""
    known, rng = prior(), np.random.default_rng(7)
    scatter = known.scatter * np.sqrt(known.freedom / rng.chisquare(known.freedom, DRAWS))
    ratio = 1 + scatter * np.sqrt(1 + 1 / known.weight) * rng.standard_normal(DRAWS)
    assert float(np.mean(np.abs(ratio - 1) <= 0.30)) == pytest.approx(0.95, abs=0.003)
