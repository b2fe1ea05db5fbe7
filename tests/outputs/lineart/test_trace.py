"""Borders of regions traced as smooth loops."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.outputs.lineart.regions import EDGE
from fidpath.outputs.lineart.trace import borders, loops


def test_borders_have_each_regions_area_and_close_round_it() -> None:
    rng = np.random.default_rng(7)
    label = np.kron(rng.integers(0, 5, (7, 9)), np.ones((12, 10), dtype=int)).astype(np.int32)
    found = borders(label, EDGE)
    for region in range(5):
        outward = np.flatnonzero((found.left == region) & (found.right != region))
        inward = np.flatnonzero((found.right == region) & (found.left != region))
        closed = loops(found, outward.tolist(), inward.tolist())
        area = 0.0
        for loop in closed:
            line = np.concatenate([found.lines[n][::-1] if back else found.lines[n] for n, back in loop])
            assert np.array_equal(line[0], line[-1])
            x, y = line.T
            area -= float(x[:-1] @ y[1:] - x[1:] @ y[:-1]) / 2
        assert area == pytest.approx(float((label == region).sum()), rel=0.02)
        assert sum(len(loop) for loop in closed) == len(outward) + len(inward)


def test_the_sides_of_a_border_are_its_labels() -> None:
    label = np.kron(np.array([[0, 1, 2], [2, 0, 1]]), np.ones((6, 6), dtype=int)).astype(np.int32)
    found, framed = borders(label, EDGE), np.pad(label, 1, constant_values=EDGE)
    for side, labels in zip(found.beside, (found.left, found.right), strict=True):
        assert framed[tuple(side.T + 1)].tolist() == labels.tolist()


def test_a_disc_is_traced_round() -> None:
    row, column = np.indices((120, 120)) + 0.5
    found = borders((np.hypot(row - 60, column - 60) < 40).astype(np.int32), EDGE)
    ring = next(line for line in found.lines if np.abs(line - 60).max() < 50)
    assert np.abs(np.hypot(*(ring - 60).T) - 40).max() < 0.9
    assert 20 < len(ring) < 120
