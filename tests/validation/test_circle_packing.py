"""Strands in the rope's circle against the densest packing of equal circles: Packomania, circle packings (read).

Equal circles round a core and inside a ring: elementary geometry.
"""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.braid import fitted

DENSEST = {7: 3.0, 12: 4.0296019301161835, 19: 4.8637033052}


def test_twelve_strands_fit_the_rope_and_a_squeezed_tail_keeps_their_room() -> None:
    thickness, _, _ = fitted(12, "over-two", 7.0)
    assert 0.5 / (thickness / 2) > DENSEST[12]


@pytest.mark.parametrize("strands", [8, 12, 16])
def test_strands_of_one_hand_fit_side_by_side_round_the_braids_circle(strands: int) -> None:
    # N/2 equal circles in a ring of centres R touch at r/R = sin(pi/(N/2)).
    thickness, radius, _ = fitted(strands, "over-two", 7.0)
    assert thickness / 2 / radius < np.sin(np.pi / (strands / 2))


@pytest.mark.parametrize(("n", "ratio"), [(12, 0.34919819), (8, 0.61991440), (6, 1.0)])
def test_equal_circles_round_a_core(n: int, ratio: float) -> None:
    s = np.sin(np.pi / n)
    assert s / (1 - s) == pytest.approx(ratio, abs=1e-8)
