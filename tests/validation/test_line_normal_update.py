"""The interval of Student's t, and the conjugate update, against scipy.stats.

The posterior is integrated numerically on a grid from scipy.stats' own densities: normal likelihood, normal prior for
the factor given the scatter, inverse gamma prior for the scatter squared.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from fidpath.lines.uncertainty import TakeUpEstimate, prior, t_quantile, updated

RATIOS = np.array([1.106, 1.147, 1.080, 1.121])


@pytest.mark.parametrize("freedom", [1.0, 2.5, 8.0, 11.0, 52.5, 1e3, 1e6, np.inf])
@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.95, 0.99, 0.999])
def test_the_interval_holds_its_share_of_students_t(confidence: float, freedom: float) -> None:
    half = t_quantile(confidence, freedom)
    law = stats.norm if np.isinf(freedom) else stats.t(freedom)
    assert law.cdf(half) - law.cdf(-half) == pytest.approx(confidence, rel=1e-9)


def grid_posterior(before: TakeUpEstimate) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Factors, scatters and the posterior mass of each pair, from scipy.stats' densities."""
    factors = np.linspace(0.6, 1.6, 801)
    scatters = np.geomspace(0.008, 0.6, 600)
    f, s = np.meshgrid(factors, scatters, indexing="ij")
    a = before.freedom / 2
    log = stats.invgamma.logpdf(s**2, a, scale=a * before.scatter**2) + np.log(2 * s)
    log += stats.norm.logpdf(f, before.mean, s / np.sqrt(before.weight))
    log += sum(stats.norm.logpdf(ratio, f, s) for ratio in RATIOS)
    mass = np.exp(log - log.max()) * np.gradient(scatters)[None, :]
    return factors, scatters, mass / mass.sum()


def test_the_update_against_the_integral() -> None:
    after = updated(prior(), RATIOS)
    factors, scatters, mass = grid_posterior(prior())
    mean = float((mass.sum(axis=1) * factors).sum())
    deviation = float(np.sqrt((mass.sum(axis=1) * (factors - mean) ** 2).sum()))
    assert after.mean == pytest.approx(mean, abs=1e-4)
    assert stats.t.std(after.freedom, scale=after.factor_scale) == pytest.approx(deviation, rel=1e-3)
    variance = float((mass.sum(axis=0) * scatters**2).sum())
    half = after.freedom / 2
    assert stats.invgamma.mean(half, scale=half * after.scatter**2) == pytest.approx(variance, rel=2e-3)


def test_the_next_splices_interval_against_the_integral() -> None:
    after = updated(prior(), RATIOS)
    factors, scatters, mass = grid_posterior(prior())
    high = after.mean + after.half_width(0.95)
    above = stats.norm.sf(high, factors[:, None], scatters[None, :])
    assert float((mass * above).sum()) == pytest.approx(0.025, abs=2e-4)


def test_known_scatter_is_the_plain_normal_update() -> None:
    """With the scatter known the posterior is normal: weights add, means in proportion (textbook)."""
    known = TakeUpEstimate(1.0, 0.25, 0.06, 1e12)
    after = updated(known, RATIOS)
    precision = 0.25 / 0.06**2 + len(RATIOS) / 0.06**2
    assert after.factor_scale == pytest.approx(precision**-0.5, rel=1e-6)
    assert after.mean == pytest.approx((0.25 * 1.0 + RATIOS.sum()) / (0.25 + len(RATIOS)))
