"""A straight braid under tension: it keeps the law of inextensible strands, and stops where its strands jam.

Law sin a = (R/R0) sin a0: after Chou & Hannaford, IEEE Trans. Robot. Autom. 12(1) (1996) 90 (from memory). Jam: three
equal round strands that meet on the axis lie D/sqrt 3 from it (elementary).
"""

from functools import cache

import numpy as np
import pytest

from fidpath.geometry import braid_of, straight
from fidpath.loading.setup import Loaded, LoadingSetup, Schedule, SweepStage
from fidpath.loading.solver import load
from jobs import a_job

LONG, STEP, STRANDS = 16.0, 0.14, 12
STAGES = Schedule(
    tuple(SweepStage(h, m, n) for h, m, n in ((0.012, 0.97, 500), (0.004, 0.97, 300), (0.001, 0.95, 300)))
)


@cache
def _pulled() -> tuple[Loaded, float, float]:
    """Plain rope of 12 strands pulled at both ends without friction; strand thickness and mean radius before, in d."""
    braid = braid_of(a_job().rope)
    station = np.arange(0, LONG, STEP) * braid.diameter
    points = (straight(braid, station) / braid.diameter).reshape(-1, 3)
    n = len(station)
    start = np.arange(STRANDS + 1) * n
    rest = np.append(np.linalg.norm(np.diff(points, axis=0), axis=1), 1.0)
    mobility, force = np.ones_like(points), np.zeros_like(points)
    first, last = start[:-1], start[1:] - 1
    mobility[first, 1:] = mobility[last, 1:] = 0.0
    force[first, 0], force[last, 0] = -1.0, 1.0
    m = len(points)
    thickness = braid.thickness / braid.diameter
    setup = LoadingSetup(
        points,
        start,
        rest,
        np.full(m, thickness),
        np.full(m, 11),
        mobility,
        force,
        np.zeros_like(points),
        stretch=2000.0,
    )
    return load(setup, STAGES), thickness, braid.radius / braid.diameter


def _middle() -> np.ndarray:
    """The strands' middle third, `(strands, n, 3)`."""
    loaded, _, _ = _pulled()
    strands = loaded.points.reshape(STRANDS, -1, 3)
    n = strands.shape[1]
    return strands[:, n // 3 : 2 * n // 3]


def test_the_braid_tightens_until_three_strands_of_a_hand_meet_on_the_axis() -> None:
    _, thickness, _ = _pulled()
    across = _middle()[..., 1:]
    share = np.linspace(0, 1, 11)[:, None, None, None]
    between = across[:, :-1] + share * (across[:, 1:] - across[:, :-1])
    nearest = np.linalg.norm(between, axis=-1).min(axis=(0, 2))
    assert nearest.mean() == pytest.approx(thickness / np.sqrt(3), rel=0.03)


def test_its_angle_follows_its_radius_as_inextensible_strands_ask() -> None:
    _, _, before = _pulled()
    braid = braid_of(a_job().rope)
    middle = _middle()
    angle = np.unwrap(np.arctan2(middle[..., 2], middle[..., 1]), axis=1)
    turned = np.abs(angle[:, -1] - angle[:, 0])
    along = middle[:, -1, 0] - middle[:, 0, 0]
    out = np.linalg.norm(middle[..., 1:], axis=2).mean(axis=1)
    found = np.degrees(np.arctan2(turned * out, along)).mean()
    law = np.degrees(np.arcsin(out.mean() / before * np.sin(braid.angle)))
    assert found == pytest.approx(law, abs=0.3)
    assert out.mean() < 0.85 * before


def test_no_strand_crosses_another_and_all_carry_the_same() -> None:
    loaded, _, _ = _pulled()
    tension = loaded.tension.reshape(STRANDS, -1)[:, :-1]
    assert loaded.certificate > 0.5
    assert tension.mean(axis=1) == pytest.approx(np.ones(STRANDS), rel=0.07)
