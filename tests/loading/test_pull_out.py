"""A braid gripping a smooth core that is drawn out of it: load goes over as exp(-k x), k = friction tan^2 a/R.

R: mean radius of the braid's strands, a: braid angle. Coulomb friction with the press of a helix, T tan^2 a/R (exact).
"""

from functools import cache

import numpy as np
import pytest

from fidpath.geometry import Rod, braid_of, strand_offsets
from fidpath.loading.setup import Loaded, LoadingSetup, Schedule, SweepStage, rod_body
from fidpath.loading.solver import load
from jobs import a_job

LONG, STEP, CORE, FRICTION = 12.0, 0.14, 0.3, 0.1
STRANDS = 12
PULL = (0.0, 400), (1e-3, 400), (2e-4, 400), (2e-5, 500), (0.0, 400), (0.0, 1500)
"""Grip, pull fast, slow down, hold."""


@cache
def _pulled() -> Loaded:
    """Lengths in rope diameters; the braid is pulled toward -x at its near end and held at its far one."""
    braid = braid_of(a_job().rope)
    d, thickness = braid.diameter, braid.thickness / braid.diameter
    station = np.arange(0, LONG, STEP)
    undulation = braid.undulation / d
    radius, angle = strand_offsets(braid, station * d, CORE + thickness / 2 + 1.42 * undulation, undulation)
    points = np.stack([np.broadcast_to(station, radius.shape), radius * np.cos(angle), radius * np.sin(angle)], axis=-1)
    points = points.reshape(-1, 3)
    start = np.arange(STRANDS + 1) * len(station)
    mobility, force = np.ones_like(points), np.zeros_like(points)
    mobility[start[1:] - 1] = 0.0
    mobility[start[:-1], 1:] = 0.0
    force[start[:-1], 0] = -1.0
    core = Rod((50.0, 0.0, 0.0), (1.0, 0.0, 0.0), CORE, CORE, 1.0, 100.0)
    m = len(points)
    setup = LoadingSetup(
        points=points,
        start=start,
        rest=np.append(np.linalg.norm(np.diff(points, axis=0), axis=1), 1.0),
        thick=np.full(m, thickness),
        gap=np.full(m, 11),
        mobility=mobility,
        force=force,
        moves=np.zeros_like(points),
        bodies=(rod_body(core, FRICTION, (1.0, 0.0, 0.0)),),
    )
    return load(setup, Schedule(tuple(SweepStage(0.006, 0.95, sweeps, drive=speed) for speed, sweeps in PULL)))


def _in_the_middle(tension: np.ndarray) -> tuple[float, float]:
    """What the tension falls by per diameter in the middle of the braid, and what the law says of it there."""
    strands = _pulled().points.reshape(STRANDS, -1, 3)
    n = strands.shape[1]
    middle = slice(n // 4, 3 * n // 4)
    along = strands[:, middle, 0].mean(axis=0)
    mean = tension.reshape(STRANDS, -1)[:, middle].mean(axis=0)
    found = -np.polyfit(along, np.log(mean), 1)[0]
    out = np.linalg.norm(strands[:, middle, 1:], axis=2).mean()
    turn = np.unwrap(np.arctan2(strands[:, middle, 2], strands[:, middle, 1]), axis=1)
    rate = (np.abs(turn[:, -1] - turn[:, 0]) / (strands[:, middle, 0][:, -1] - strands[:, middle, 0][:, 0])).mean()
    return float(found), float(FRICTION * (rate * out) ** 2 / out)


def test_load_goes_over_to_a_smooth_core_as_coulomb_friction_on_a_helix_says() -> None:
    found, law = _in_the_middle(_pulled().readings[-1])
    assert found == pytest.approx(law, rel=0.1)


def test_what_it_holds_does_not_decay_in_1500_sweeps() -> None:
    rested, held = (_pulled().readings[stage].reshape(STRANDS, -1)[:, -2].mean() for stage in (-2, -1))
    assert held == pytest.approx(rested, rel=0.002)
