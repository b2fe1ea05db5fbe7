"""The loop that is held round the terminator while the lock is marked: longer than the finished eye.

It lies in the plane, the standing part along +x at H1's middle. The terminator is in the bend of its crown, halfway
round; from H1's middle straight to the crown's bearing is what tells how far to hold it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry.braid import Braid
from fidpath.geometry.crossing_zone import BLEND
from fidpath.geometry.curve import chain, heading, newton, points
from fidpath.geometry.parting import arc_lengths, passed_hole

BESIDE = 1.08
"""Distance of the two legs' axes where the tail lies beside the standing part, in rope diameters."""

SQUARE = 1.5 * np.pi
"""Turn of a loop that crosses its own beginning square, radians."""

Pieces = tuple[tuple[float, float], ...]
"""Lengths in mm, and the turn to the left over each in radians."""


@dataclass(frozen=True)
class MarkingLoop:
    """A loop held round a terminator, mm: its pieces from H1's middle, its axis, and how far off the crown is."""

    pieces: Pieces
    axis: float
    throat_to_crown: float


@lru_cache(maxsize=256)
def wrapped_loop(braid: Braid, bearing: float, rope: float) -> MarkingLoop:
    """`rope` mm of loop round a bearing diameter, its tail back along the standing part.

    Raises ArithmeticError where so much rope doesn't close round it.
    """
    return _held(braid.diameter, bearing, rope, np.pi, BESIDE * braid.diameter)


@lru_cache(maxsize=256)
def passed_loop(braid: Braid, bearing: float, rope: float) -> MarkingLoop:
    """`rope` mm of loop round a bearing diameter, its tail through H1; the hole takes some of the axis.

    Raises ArithmeticError where so much rope doesn't close round it.
    """
    h1 = passed_hole("H1", 0.0, braid.diameter)
    axis = float(arc_lengths(braid, (h1,), np.array([rope]))[0])
    return _held(braid.diameter, bearing, axis, SQUARE, 0.0)


def _held(d: float, bearing: float, axis: float, closing: float, beside: float) -> MarkingLoop:
    """A loop of `axis` mm that turns by `closing` in all and comes back `beside` to the left of its beginning."""
    radius = (bearing + d) / 2
    pieces = _round(d, radius, axis, closing, beside)
    around = chain(pieces, BLEND * d)
    at = np.array([axis / 2])
    middle, along = points(around, at)[0], float(heading(around, at)[0])
    centre = middle + radius * np.array([-np.sin(along), np.cos(along)])
    return MarkingLoop(pieces, axis, float(np.linalg.norm(centre)) + bearing / 2)


def _round(d: float, radius: float, axis: float, closing: float, beside: float) -> Pieces:
    """The loop's pieces: straight, a bend of its own for the throat, a leg, the bend round the crown, and back."""

    def pieces(x: Floats) -> Pieces:
        toward, leg = float(x[0]), float(x[1])
        crown = closing / 2 - toward
        half = ((0.6 * d, 0.0), (max(abs(toward), 0.02) * 2.2 * d, toward), (leg, 0.0), (radius * crown, crown))
        return (*half, *reversed(half))

    def miss(x: Floats) -> Floats:
        around = chain(pieces(x), BLEND * d, (np.pi - closing) / 2)
        end = points(around, np.array([around.length]))[0]
        return np.array([end[1] - beside, around.length - axis]) / d

    guess = axis / 2 - radius * closing / 2 - 1.5 * d
    turned = closing / 2 - np.pi / 2 - np.arctan2(radius, max(guess, radius))
    return pieces(newton(miss, np.array([turned, max(guess, d)])))
