"""Hard bodies beside the strands: the terminator and the rods; how far off they are, and where drawn strands stop."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Strands, clearance, rods


def clear_of_bodies(strands: Strands, points: Floats) -> Floats:
    """Distance `(n,)` mm of points `(n, 3)` from the nearest hard body, negative inside; infinite without one."""
    least = np.full(len(points), np.inf)
    if strands.seat is not None:
        least = np.minimum(least, clearance(strands.seat, points - strands.seat_centre))
    for rod in strands.rods:
        least = np.minimum(least, rods.clearance(rod, points))
    return least


def _near_bodies(strands: Strands, centres: Floats, most: float) -> Bools:
    """Centres `(strands, n)` from which a ray of length `most` may end in a body."""
    flat = centres.reshape(-1, 3)
    return np.asarray((clear_of_bodies(strands, flat) < most).reshape(centres.shape[:2]))


def stop_at_bodies(strands: Strands, centres: Floats, directions: Floats, radii: Floats, count: Ints) -> None:
    """Shorten in place the rays `(strands, n, rays)` that end inside a hard body, to its surface, by halving."""
    if strands.seat is None and not strands.rods:
        return
    near = _near_bodies(strands, centres, float(radii.max()))
    live = near & (np.arange(centres.shape[1])[None, :] < count[:, None])
    where = np.nonzero(live[..., None] & (radii > 0))
    start = centres[where[0], where[1]]
    ray = directions[where]
    inside = np.nonzero(clear_of_bodies(strands, start + radii[where][:, None] * ray) < 0)[0]
    start, ray = start[inside], ray[inside]
    place = tuple(axis[inside] for axis in where)
    good, bad = np.zeros(len(inside)), radii[place]
    for _ in range(14):
        half = (good + bad) / 2
        free = clear_of_bodies(strands, start + half[:, None] * ray) >= 0
        good, bad = np.where(free, half, good), np.where(free, bad, half)
    radii[place] = good
