"""How deep places lie in the bars that a terminator is drawn with, from the bars' own figures and no mesh."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fidpath.job.bearing_body import Bar

Floats = NDArray[np.float64]


def depth_in_bars(points: Floats, bars: Sequence[Bar]) -> float:
    """Greatest depth in mm of any of the points `(n, 3)` in any bar; negative where all lie clear."""
    return max(
        float(_depth(points, np.array(ends), radii).max())
        for bar in bars
        for ends, radii in zip(pairwise(bar.line), pairwise(bar.radii), strict=True)
    )


def _depth(points: Floats, ends: Floats, radii: tuple[float, float]) -> Floats:
    """Depth in one piece of a bar with flat ends: positive inside."""
    along = ends[1] - ends[0]
    length = float(np.linalg.norm(along))
    place = (points - ends[0]) @ along / length
    off = np.linalg.norm(points - ends[0] - place[:, None] * along / length, axis=1)
    radius = radii[0] + (radii[1] - radii[0]) * np.clip(place / length, 0.0, 1.0)
    return np.minimum(radius - off, np.minimum(place, length - place))
