"""Rods the strands are kept clear of while a step is settled: fids, and the post an eye is stretched over."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats, Vector


@dataclass(frozen=True)
class Rod:
    """A round rod, mm: its tip, the unit direction it points in, and its radius from `tip_radius` up over `taper`."""

    tip: Vector
    direction: Vector
    radius: float
    tip_radius: float
    taper: float
    length: float


def clearance(rod: Rod, points: Floats) -> Floats:
    """Distance `(n,)` mm of points `(n, 3)` from the rod's side, square to its axis; large beyond its ends."""
    to = points - np.array(rod.tip)
    along = np.array(rod.direction)
    behind = -(to @ along)
    out = np.linalg.norm(to + behind[:, None] * along, axis=1)
    radius = np.minimum(rod.radius, rod.tip_radius + (rod.radius - rod.tip_radius) * behind / rod.taper)
    beyond = (behind < 0) | (behind > rod.length)
    return np.asarray(np.where(beyond, np.maximum(out, rod.radius), out - radius))


def table(rods: tuple[Rod, ...]) -> Floats:
    """Rods as rows of ten numbers: tip, direction, radius, tip radius, taper, length."""
    rows = [(*r.tip, *r.direction, r.radius, r.tip_radius, r.taper, r.length) for r in rods]
    return np.asarray(rows, dtype=float).reshape(-1, 10)
