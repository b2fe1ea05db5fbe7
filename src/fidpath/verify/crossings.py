"""Signed crossings of all strand pairs in several projections, before and after settling.

A strand that has passed through another changes their signed count by two in every projection, with one sign; an open
end that passes over a strand in one projection changes that projection only.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.compiled import jit
from fidpath.strands import Strands

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

VIEWS = ((0.0, 0.13, 1.0), (0.05, 1.0, -0.21), (-0.08, 0.8, 0.77), (0.11, -0.62, 0.9))
"""Directions the strands are looked at along; all nearly square to the load line."""


@jit
def _count(first: Any, last: Any, which: Any, column: Any, reach: float, strands: int):  # type: ignore[no-untyped-def]
    """Signed crossings `(strands, strands)` of segments seen along the third axis, sorted by their least x."""
    found = np.zeros((strands, strands), np.int64)
    n = len(first)
    for i in range(n):
        right = max(first[i, 0], last[i, 0])
        low, high = min(first[i, 1], last[i, 1]), max(first[i, 1], last[i, 1])
        ux, uy, uz = last[i, 0] - first[i, 0], last[i, 1] - first[i, 1], last[i, 2] - first[i, 2]
        for j in range(i + 1, n):
            if min(first[j, 0], last[j, 0]) > right:
                break
            if max(first[j, 1], last[j, 1]) < low or min(first[j, 1], last[j, 1]) > high:
                continue
            if which[i] == which[j] and abs(column[i] - column[j]) < 2:
                continue
            vx, vy, vz = last[j, 0] - first[j, 0], last[j, 1] - first[j, 1], last[j, 2] - first[j, 2]
            det = ux * vy - uy * vx
            if det == 0.0:
                continue
            wx, wy = first[j, 0] - first[i, 0], first[j, 1] - first[i, 1]
            s = (wx * vy - wy * vx) / det
            t = (wx * uy - wy * ux) / det
            if s < 0.0 or s >= 1.0 or t < 0.0 or t >= 1.0:
                continue
            over = first[i, 2] + s * uz > first[j, 2] + t * vz
            sign = 1 if (det > 0) == over else -1
            a, b = min(which[i], which[j]), max(which[i], which[j])
            found[a, b] += sign
    return found


def _looking_along(view: tuple[float, float, float]) -> Floats:
    """Rotation `(3, 3)` whose third row is the view's direction and whose first is as near to x as can be."""
    up = np.asarray(view) / np.linalg.norm(view)
    side = np.array([1.0, 0.0, 0.0]) - up[0] * up
    side /= np.linalg.norm(side)
    return np.stack([side, np.cross(up, side), up])


def crossing_matrix(points: Floats, count: Ints, view: tuple[float, float, float]) -> Ints:
    """Signed crossings of every pair of strands seen along `view`, `(strands, strands) int`, upper triangle."""
    alive = np.arange(points.shape[1])[None, :] < (count - 1)[:, None]
    which, column = (index.astype(np.int64) for index in np.nonzero(alive))
    turned = points @ _looking_along(view).T
    first, last = turned[which, column], turned[which, column + 1]
    order = np.argsort(np.minimum(first[:, 0], last[:, 0]), kind="stable")
    return np.asarray(_count(first[order], last[order], which[order], column[order], 0.0, len(count)))


def crossings_changed(before: Floats, after: Strands) -> int:
    """Number of passages of one strand through another between two placings `(strands, n, 3)` of the same strands."""
    count = np.asarray(after.count, dtype=np.int64)
    change = np.stack(
        [crossing_matrix(after.points, count, view) - crossing_matrix(before, count, view) for view in VIEWS]
    )
    same_sign = np.all(change > 0, axis=0) | np.all(change < 0, axis=0)
    passages = np.where(same_sign, np.abs(change).min(axis=0), 0)
    return int(((passages + 1) // 2).sum())
