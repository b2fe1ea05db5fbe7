"""Strands in the rope's circle against the densest packing of equal circles: Packomania, circle packings (read).

Equal circles round a core and inside a ring: elementary geometry, measured with the check's own thickness code.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.geometry.braid import fitted
from theory.polygons import distance

Floats = NDArray[np.float64]
DENSEST = {7: 3.0, 12: 4.0296019301161835, 19: 4.8637033052}


def test_twelve_strands_fit_the_rope_and_a_squeezed_tail_keeps_their_room() -> None:
    thickness, _, _ = fitted(12, "over-two", 7.0)
    assert 0.5 / (thickness / 2) > DENSEST[12]


@pytest.mark.parametrize("strands", [8, 12, 16])
def test_strands_of_one_hand_fit_side_by_side_round_the_braids_circle(strands: int) -> None:
    # N/2 equal circles in a ring of centres R touch at r/R = sin(pi/(N/2)).
    thickness, radius, _ = fitted(strands, "over-two", 7.0)
    assert thickness / 2 / radius < np.sin(np.pi / (strands / 2))


def _rods(n: int, radius: float) -> list[Floats]:
    """Straight rods side by side at `radius` from the middle, `(2, 3)` each."""
    turn = 2 * np.pi * np.arange(n) / n
    return [radius * np.array([[np.cos(t), np.sin(t), 0], [np.cos(t), np.sin(t), 9 / radius]]) for t in turn]


@pytest.mark.parametrize(("n", "ratio"), [(12, 0.34919819), (8, 0.61991440), (6, 1.0)])
def test_equal_rods_round_a_core_of_radius_1_touch_it_and_one_another(n: int, ratio: float) -> None:
    first, second, *_ = _rods(n, 1 + ratio)
    core = np.array([[0.0, 0, 0], [0, 0, 9]])
    assert distance(first, second) / 2 == pytest.approx(ratio, abs=1e-7)
    assert distance(first, core) - 1 == pytest.approx(ratio)


def test_twelve_equal_rods_inside_a_ring_of_radius_1_touch_one_another() -> None:
    first, second, *_ = _rods(12, 1 - 0.20560465)
    assert distance(first, second) / 2 == pytest.approx(0.20560465, abs=1e-7)
