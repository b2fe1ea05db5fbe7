"""Terminators made in code for the tests, without a file: lengths in mm, nothing checked."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fidpath.job.bearing_body import Bar
from fidpath.job.job import Terminator
from fidpath.job.terminators.deadeye import deadeye
from fidpath.job.terminators.pin import pin
from fidpath.job.terminators.ring import ring
from fidpath.job.terminators.shackle import Shackle, shackle
from fidpath.job.terminators.sheave import sheave
from fidpath.job.terminators.teardrop import teardrop

BODIES = {"ring": ring, "teardrop": teardrop, "deadeye": deadeye, "pin": pin, "sheave": sheave}


def a_terminator(kind: str, *sizes: float, **more: float) -> Terminator:
    """A terminator named for its kind: bearing diameter, width, groove radius, then what the kind has besides."""
    return Terminator(kind, kind, BODIES[kind](*sizes, **more))  # type: ignore[operator]


def a_shackle(on: str = "bow", d: float = 8.0) -> Terminator:
    """A bow shackle for rope `d` mm thick."""
    return Terminator("shackle", "shackle", shackle(Shackle(20.0, 18.0, 28.0, 44.0, 66.0), on, d))  # type: ignore[arg-type]


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
