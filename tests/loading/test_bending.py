"""Bending: a strand's end pushed aside bends as a cantilever does, and a hanging line lies in a catenary.

Cantilever: deflection F L^3/(3 B) for small ones (elementary beam theory). Catenary: y = a cosh(x/a) (elementary).
"""

from dataclasses import replace

import numpy as np
import pytest

from fidpath.loading.setup import LoadingSetup, Schedule, SweepStage
from fidpath.loading.solver import load


def _line(points: np.ndarray, held: np.ndarray, force: np.ndarray, bending: float = 0.0) -> LoadingSetup:
    """One strand with nodes held where `held` says, free to lie anywhere else."""
    m = len(points)
    rest = np.append(np.linalg.norm(np.diff(points, axis=0), axis=1), 1.0)
    mobility = np.where(held[:, None], 0.0, np.ones((m, 3)))
    gap, thick = np.full(m, 10**6), np.full(m, 0.1)
    return LoadingSetup(
        points, np.array([0, m]), rest, thick, gap, mobility, force, np.zeros((m, 3)), stretch=1e4, bending=bending
    )


def test_a_clamped_strand_bends_under_a_force_at_its_end_as_beam_theory_says() -> None:
    reach, push, bending, step = 2.0, 0.002, 0.1, 0.1
    along = np.arange(0, reach + step + 1e-9, step)
    points = np.stack([along - step, 0 * along, 0 * along], axis=1)
    force = np.zeros_like(points)
    force[-1, 1] = push
    setup = _line(points, along < 1.5 * step, force, bending)
    loaded = load(setup, Schedule((SweepStage(0.001, 0.997, 6000), SweepStage(0.001, 0.98, 6000))))
    length = reach + step / 2  # the clamp ends in the middle of the held segment
    assert loaded.points[-1, 1] == pytest.approx(push * length**3 / (3 * bending), rel=0.01)


def test_a_line_hung_by_both_ends_lies_in_a_catenary() -> None:
    half_span, slack, step, weight = 2.0, 1.09, 0.1, 0.05
    x = np.arange(0, 2 * half_span + 1e-9, step)
    points = np.stack([x, 0 * x, -0.02 * np.sin(np.pi * x / (2 * half_span))], axis=1)
    force = np.tile([0.0, 0.0, -weight * step], (len(x), 1))
    setup = _line(points, (x < 1e-9) | (x > 2 * half_span - 1e-9), force)
    setup = replace(setup, rest=setup.rest * slack)
    loaded = load(setup, Schedule((SweepStage(0.3, 0.98, 3000), SweepStage(0.1, 0.97, 2000))))
    a = _catenary(half_span, float(setup.rest[:-1].sum()) / 2)
    assert -loaded.points[:, 2].min() == pytest.approx(a * (np.cosh(half_span / a) - 1), rel=0.005)
    assert loaded.tension[0] > loaded.tension[len(x) // 2]


def _catenary(half_span: float, half_length: float) -> float:
    """The catenary's parameter for a span and a length, by bisection."""
    low, high = 0.1, 100.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if middle * np.sinh(half_span / middle) > half_length else (low, middle)
    return low
