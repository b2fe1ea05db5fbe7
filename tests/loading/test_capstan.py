"""Euler-Eytelwein: a line round a post holds exp(friction x angle) times what holds its other end."""

import numpy as np
import pytest

from fidpath.geometry import Rod
from fidpath.loading.setup import LoadingSetup, Schedule, SweepStage, rod_body
from fidpath.loading.solver import load

PER_TURN, STRAIGHT, THICK = 36, 12, 0.1
PULL = (1e-3, 400), (2e-4, 500), (2e-5, 1000), (0.0, 500), (0.0, 1500)
"""Pull fast, slow down, hold: drag falsifies what is read while the line still moves."""


def _line_round_a_post(angle: float) -> np.ndarray:
    step = 2 * np.pi / PER_TURN
    arc = np.arange(0, angle + 1e-9, step)
    on = np.stack([np.cos(arc), np.sin(arc), 0 * arc], axis=1)
    off = np.array([-np.sin(arc[-1]), np.cos(arc[-1]), 0.0]) * step
    before = on[0] - np.arange(STRAIGHT, 0, -1)[:, None] * np.array([0, step, 0])
    return np.concatenate([before, on, on[-1] + np.arange(1, STRAIGHT + 1)[:, None] * off])


def _held_ratio(friction: float, angle: float) -> tuple[float, float]:
    """Ratio of the two tensions when the line has come to rest, and 1,500 sweeps later."""
    points = _line_round_a_post(angle)
    m = len(points)
    mobility, force, moves = np.ones((m, 3)), np.zeros((m, 3)), np.zeros((m, 3))
    mobility[-1], force[0] = 0.0, np.array([0, -np.exp(-friction * angle), 0])
    moves[-1] = (points[-1] - points[-2]) / np.linalg.norm(points[-1] - points[-2])
    post = Rod((0.0, 0.0, 50.0), (0.0, 0.0, 1.0), 1 - THICK / 2, 1 - THICK / 2, 1.0, 100.0)
    setup = LoadingSetup(
        points=points,
        start=np.array([0, m]),
        rest=np.append(np.linalg.norm(np.diff(points, axis=0), axis=1), 1.0),
        thick=np.full(m, THICK),
        gap=np.full(m, 10**6),
        mobility=mobility,
        force=force,
        moves=moves,
        stretch=500.0,
        bodies=(rod_body(post, friction),),
    )
    stages = tuple(SweepStage(0.004, 0.95, sweeps, drive=speed) for speed, sweeps in PULL)
    readings = load(setup, Schedule(stages)).readings
    ratio = readings[:, m - 2] / readings[:, 0]
    return float(ratio[-2]), float(ratio[-1])


@pytest.mark.parametrize("friction", [0.05, 0.1, 0.2, 0.3])
@pytest.mark.parametrize("degrees", [90, 180, 360, 720])
def test_a_line_round_a_post_holds_what_the_capstan_equation_says(friction: float, degrees: float) -> None:
    angle = np.radians(degrees)
    _, held = _held_ratio(friction, angle)
    assert held == pytest.approx(np.exp(friction * angle), rel=0.02)


def test_friction_does_not_decay_while_the_line_is_held_for_1500_sweeps() -> None:
    rested, held = _held_ratio(0.2, 2 * np.pi)
    assert held == pytest.approx(rested, rel=1e-4)
