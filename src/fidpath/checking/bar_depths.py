"""How deep places lie in the bars that a terminator is drawn with, such as a shackle's jaws, by the bars' figures.

Only what the rope bears on is a body to the solver; that the rope keeps clear of all else is measured here.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.job import Bar


def depths_in_bars(points: Floats, bars: Sequence[Bar]) -> Floats:
    """Depth `(n,)` mm of places `(n, 3)` in the deepest of the bars round them, in the bars' own frame; 0 outside."""
    depth = np.zeros(len(points))
    for bar in bars:
        line, widest = np.array(bar.line), max(bar.radii)
        near = _boxed(points, line, widest)
        here = points[near]
        for ends, radii in zip(pairwise(line), pairwise(bar.radii), strict=True):
            inside = _boxed(here, np.array(ends), widest)
            rows = near[inside]
            depth[rows] = np.maximum(depth[rows], _depths(here[inside], np.array(ends), radii))
    return depth


def _boxed(points: Floats, line: Floats, reach: float) -> Ints:
    """Numbers of the places that lie in the box round a line `(m, 3)`, `reach` mm larger on every side."""
    low, high = line.min(axis=0) - reach, line.max(axis=0) + reach
    return np.flatnonzero(np.all((points > low) & (points < high), axis=1)).astype(np.int64)


def _depths(points: Floats, ends: Floats, radii: tuple[float, float]) -> Floats:
    """Depth in one piece of a bar, its ends flat, `(n,)` mm; negative outside."""
    along = ends[1] - ends[0]
    length = float(np.linalg.norm(along))
    place = (points - ends[0]) @ along / length
    off = np.linalg.norm(points - ends[0] - place[:, None] * along / length, axis=1)
    radius = radii[0] + (radii[1] - radii[0]) * np.clip(place / length, 0.0, 1.0)
    return np.asarray(np.minimum(radius - off, np.minimum(place, length - place)))
