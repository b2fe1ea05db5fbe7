"""Lines and arcs laid end to end on the table: what the ropes' lines of a state are made of. All mm and radians."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import BLEND, Chain, chain, newton, points

Pieces = list[tuple[float, float]]
"""Lengths, and the turn to the left over each."""

QUARTERS = 1.5 * np.pi
"""Turn of a loop that crosses its own beginning square, radians."""

BEFORE = 60.0
"""Straight standing part that a line has before H1, in rope diameters."""


def path(d: float, pieces: Pieces, heading: float = 0.0) -> tuple[Chain, float]:
    """A line with the standing part's straight before it, H1 at the table's origin; H1's arc length. d: the rope's."""
    west = BEFORE * d
    start = (-west * float(np.cos(heading)), -west * float(np.sin(heading)))
    return chain([(west, 0.0), *pieces], BLEND * d, heading, start), west


def loop(d: float, length: float) -> Pieces:
    """A three-quarter loop to the left that closes on its own beginning: line, 270 degrees, line."""

    def pieces(x: Floats) -> Pieces:
        return [(float(x[0]), 0.0), (QUARTERS * float(x[1]), QUARTERS), (float(x[2]), 0.0)]

    def miss(x: Floats) -> Floats:
        around = chain(pieces(x), BLEND * d)
        end = points(around, np.array([around.length]))[0]
        return np.array([end[0], end[1], around.length - length]) / d

    return pieces(newton(miss, np.full(3, length / (2 + QUARTERS))))


def swing_away(d: float, straight: float = 3.0) -> Pieces:
    """The tail on from a hole: straight for a while, in rope diameters, then gently to the right."""
    return [(straight * d, 0.0), (8.4 * d, -np.pi / 3), (120 * d, 0.0)]
