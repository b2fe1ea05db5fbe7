"""Tight knots, links and clasps: their length by thickness is known, and no strand may run through another.

Hopf link: Cantarella, Kusner, Sullivan, Invent. Math. 150 (2002) 257. Knots: `ropelength` in the PyPI package
`database-knotinfo`, halved to diameters (read in that table).
"""

import numpy as np
import pytest

from fidpath.loading.tightening import STAGES, tightened

NODES = 160

FEW = ((0.1, 0.95, 1200), (0.02, 0.9, 1000), (0.005, 0.8, 600))
"""Stages enough for two strands that begin near where they end."""


def _closed(curve: np.ndarray, scale: float) -> np.ndarray:
    points = scale * curve.T
    points[-1] = points[0]
    return points


def _torus(p: int, q: int, t: np.ndarray) -> np.ndarray:
    out = 2 + np.cos(q * t)
    return np.array([out * np.cos(p * t), out * np.sin(p * t), np.sin(q * t)])


def _figure_eight(t: np.ndarray) -> np.ndarray:
    out = 2 + np.cos(2 * t)
    return np.array([out * np.cos(3 * t), out * np.sin(3 * t), np.sin(4 * t)])


@pytest.mark.parametrize(
    ("name", "known"), [("hopf", 4 * np.pi), ("trefoil", 16.372), ("figure eight", 21.044), ("5_1", 23.601)]
)
def test_a_closed_rope_is_drawn_as_short_as_the_known_tight_one(name: str, known: float) -> None:
    t = np.linspace(0, 2 * np.pi, NODES + 1)
    ring = np.array([np.cos(t), np.sin(t), 0 * t])
    other = np.array([1 + np.cos(t), 0 * t, np.sin(t)])
    strands = {
        "hopf": [_closed(ring, 1.5), _closed(other, 1.5)],
        "trefoil": [_closed(_torus(2, 3, t), 1.0)],
        "figure eight": [_closed(_figure_eight(t), 1.0)],
        "5_1": [_closed(_torus(2, 5, t), 1.1)],
    }[name]
    tight = tightened(strands, stages=FEW if name == "hopf" else STAGES)
    assert tight.ropelength == pytest.approx(known, rel=0.005)
    assert tight.certificate > 0.5


def test_two_clasped_bights_touch_as_far_apart_as_the_known_clasp() -> None:
    """Distance of the tips by thickness 1.0565: Cantarella, Fu, Kusner, Sullivan, Wrinkle, Geom. Topol. 10 (2006) 2055
    (from memory)."""
    long, n = 2.5, 161
    u = np.linspace(0, np.pi, 400)
    arch = np.stack([1.3 * np.cos(u), 0 * u, -1.3 * np.sin(u)], axis=1)
    arch = np.concatenate([[[1.3, 0, long]], arch, [[-1.3, 0, long]]])
    along = np.append(0, np.cumsum(np.linalg.norm(np.diff(arch, axis=0), axis=1)))
    even = np.linspace(0, along[-1], n)
    hung = np.stack([np.interp(even, along, arch[:, c]) for c in range(3)], axis=1)
    stood = np.stack([hung[:, 1], hung[:, 0], -hung[:, 2]], axis=1)
    held = np.zeros((n, 3), bool)
    held[[0, -1], 2] = True
    tight = tightened([hung, stood], held=[held, held], stages=FEW)
    tips = tight.points[1][:, 2].max() - tight.points[0][:, 2].min()
    assert tips / tight.thickness == pytest.approx(1.0565, abs=0.005)
