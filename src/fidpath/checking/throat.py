"""The throat as made: the angle between the legs' straight stretches, and how far the crown's bearing is from it."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats
from fidpath.checking.rope_measures import centre_line
from fidpath.geometry import Strands, straight

CROSSING = 1.8
"""Diameters beyond the hole at which the legs have left the crossing and run straight (measured on unsettled axes)."""

EASE = 0.4
"""Diameters over which a leg eases from straight into the bend round the terminator."""

LEAST = 0.4
"""Shortest straight stretch measured, in diameters; on shorter legs it reaches toward the crossing."""


LEAVING = 3.0
"""Diameters of rope beyond the throat after which the rope is on its way round the eye."""


def throat_angle(strands: Strands) -> float:
    """Angle between the two legs' straight stretches, by least squares through their centre lines, radians.

    The legs part at the first of the holes, which is the nearest to the eye, or where the tail goes in without one.
    """
    line, station = centre_line(strands), strands.station
    low, high = _parting(strands)
    standing = (station > low) & (station < (low + high) / 2)
    tail = (station < high) & (station > (low + high) / 2)
    out = _leg_direction(strands, line[standing], station[standing] - low)
    back = _leg_direction(strands, line[tail][::-1], high - station[tail][::-1])
    return float(np.arccos(np.clip(out @ back, -1, 1)))


def throat_to_crown(strands: Strands, throat: float) -> float:
    """From the rope's middle at station `throat` straight to where it bears on the terminator's crown, mm.

    The crown is the farthest place of the rope's middle before the rope comes back to the throat; the terminator bears
    on its inside, half a rope diameter nearer.
    """
    _, off, first, back = _round_the_eye(strands, throat)
    return float(np.linalg.norm(off[first : back + 1], axis=1).max() - strands.braid.diameter / 2)


def loop_of_rope(strands: Strands, throat: float) -> float:
    """Rope from station `throat` round the eye to the point of the tail that lies in it or beside it, mm.

    It is told by the strands' own lengths, so that a hole, which shortens the rope's middle, doesn't count.
    """
    line, off, _, back = _round_the_eye(strands, throat)
    along = line[back + 1] - line[back - 1]
    step = (strands.station[back + 1] - strands.station[back - 1]) / np.linalg.norm(along)
    end = strands.station[back] - float(off[back] @ along / np.linalg.norm(along) * step)
    made, own = _lengths(strands, strands.points), _lengths(strands, straight(strands.braid, strands.station))
    share = np.diff(np.interp([throat, end], strands.station, made)) / np.diff(
        np.interp([throat, end], strands.station, own)
    )
    return float((end - throat) * share[0])


def _lengths(strands: Strands, points: Floats) -> Floats:
    """The strands' mean length from the first column to each, `(n,)` mm, of points `(strands, n, 3)` mm."""
    steps = np.linalg.norm(np.diff(points, axis=1), axis=2)
    alive = np.arange(steps.shape[1])[None, :] + 1 < strands.count[:, None]
    mean = np.where(alive, steps, 0.0).sum(axis=0) / np.maximum(alive.sum(axis=0), 1)
    return np.concatenate([[0.0], np.cumsum(mean)])


def _round_the_eye(strands: Strands, throat: float) -> tuple[Floats, Floats, int, int]:
    """The rope's middle `(n, 3)` mm, the same from station `throat`, and the columns at which it has left the throat
    and comes nearest to it again.
    """
    line, station = centre_line(strands), strands.station
    off = line - np.array([np.interp(throat, station, line[:, c]) for c in range(3)])
    eye = np.nonzero(station > throat + LEAVING * strands.braid.diameter)[0]
    return line, off, int(eye[0]), int(eye[int(np.linalg.norm(off[eye], axis=1).argmin())])


def _parting(strands: Strands) -> tuple[float, float]:
    """Stations at which the two legs part, the standing part's first."""
    if not strands.holes:
        assert strands.bury is not None
        return strands.bury.host[0], strands.bury.guest[0]
    first = strands.holes[0]
    return min(first.host, first.guest), max(first.host, first.guest)


def _leg_direction(strands: Strands, leg: Floats, along: Floats) -> Floats:
    """Direction `(2,)` in the plane of the eye of a leg `(n, 3)` whose points lie `along` `(n,)` mm beyond it."""
    start, stop = _straight_stretch(strands, leg, along)
    straight = leg[(along > start) & (along < stop), :2]
    _, _, axes = np.linalg.svd(straight - straight.mean(axis=0))
    return np.asarray(axes[0] * np.sign(axes[0] @ (straight[-1] - straight[0])))


def _straight_stretch(strands: Strands, leg: Floats, along: Floats) -> tuple[float, float]:
    """Where the leg runs straight, mm beyond that hole.

    The bend begins as far before the place where the leg runs parallel to the load line as an arc of the bend's
    radius needs to turn by the leg's own slope.
    """
    d = strands.braid.diameter
    radius = d / 2 + (0.0 if strands.seat is None else strands.seat.crown)
    wide = max(1, round(d / 4 / float(along[1] - along[0])))
    step = leg[2 * wide :] - leg[: -2 * wide]
    at = along[wide:-wide]
    slope = np.arctan2(step[:, 1], step[:, 0])
    leaving = float(np.interp(CROSSING * d, at, slope))
    turned = (slope * np.sign(leaving) < 0) & (at > CROSSING * d)
    parallel = at[np.argmax(turned)] if turned.any() else at[-1]
    stop = max(float(parallel - radius * abs(leaving) - EASE * d), LEAST * d)
    return min(CROSSING * d, stop - LEAST * d), stop
