"""Tight knots, links and clasps: their length by thickness is known, and no strand may run through another.

Hopf link: Cantarella, Kusner, Sullivan, Invent. Math. 150 (2002) 257. Knots: `ropelength` in the PyPI package
`database-knotinfo`, halved to diameters (read in that table).
"""

import numpy as np
import pytest

from fidpath.loading.tightening import tightened

NODES = 160


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
    tight = tightened(strands)
    assert tight.ropelength == pytest.approx(known, rel=0.005)
    assert tight.certificate > 0.5
