"""Kernels of the check on tiny cases, compiled and as plain Python."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from fidpath.checking import crossings
from fidpath.checking import depth_kernels as checks


def both(kernel: Callable[..., Any]) -> list[Callable[..., Any]]:
    """A kernel compiled, and as plain Python."""
    return [kernel, getattr(kernel, "py_func", kernel)]


def test_only_vertices_between_the_sections_and_within_reach_are_measured() -> None:
    near = np.array([[1.0, 1, 0], [-1.0, 1, 0], [-1.0, -1, 0], [1.0, -1, 0]])
    centres = np.array([[0.0, 0, 0], [0, 0, 2.0]])
    offsets, normals = np.stack([near, near]), np.tile([0.0, 0.0, 1.0], (2, 1))
    ring = np.array([[0.5, 0, 1.0], [0.5, 0, -0.1], [0.5, 0, 2.1], [0.5, 0, 2.0], [0.0, 0.75, 0.0], [0.9, 0.9, 1.0]])
    for kernel in both(checks.enter):
        found = np.zeros((3, 6))
        kernel(found, 1, ring.T.copy(), 0, centres, offsets, normals, 1.2, np.empty(6), np.empty(6))
        assert found[1] == pytest.approx([0.5, 0, 0, 0, 0.25, 0])
        assert not found[[0, 2]].any()


@pytest.mark.parametrize("rays", [3, 4, 5, 24])
def test_the_sector_is_found_wherever_a_point_lies(rays: int) -> None:
    angle = 2 * np.pi * np.arange(rays) / rays
    edge = np.column_stack([2 * np.cos(angle), np.sin(angle), np.zeros(rays)])
    up = np.array([0.0, 0.0, 1.0])
    place = np.linspace(0.0, 2 * np.pi, 50)[:-1] + 0.01
    for kernel in both(checks.sector):
        for x, y in zip(2 * np.cos(place), np.sin(place), strict=True):
            k = kernel(x, y, 0.0, up, edge, 1.5 * edge, 0.5)
            before, after = edge[k], edge[(k + 1) % rays]
            assert before[0] * y - before[1] * x >= 0 > after[0] * y - after[1] * x
        assert kernel(0.0, 0.0, 0.0, up, edge, edge, 0.0) == -1


def test_only_solids_that_a_ball_can_reach_are_looked_at() -> None:
    centres, normals = np.array([[0.0, 0, 0], [0, 0, 2.0]]), np.tile([0.0, 0.0, 1.0], (2, 1))
    for kernel in both(checks.between):
        heights = (-0.6, -0.4, 1.0, 2.4, 2.6)
        assert [kernel(9.0, 0.0, z, 0.5, centres, normals, 0) for z in heights] == [False, True, True, True, False]


def test_parallel_strands_do_not_cross(monkeypatch: pytest.MonkeyPatch) -> None:
    slope = np.column_stack([np.arange(3.0), np.arange(3.0), np.zeros(3)])
    points = np.stack([slope, slope + [0.5, 0.5, 1.0]])
    for kernel in both(crossings._find):
        monkeypatch.setattr(crossings, "_find", kernel)
        found = crossings.signed_crossings(points, np.array([3, 3]), (0.0, 0.0, 1.0), np.zeros(2, np.int64))
        assert len(found) == 0
