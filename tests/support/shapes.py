"""Strands made in closed form for the tests: plain rope, rope bent round a ring, single strands."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fidpath.geometry.braid import Braid, braid_of, straight, strand_offsets
from fidpath.geometry.parts import Part
from fidpath.geometry.seat import Seat, clearance, planform, seat_of
from fidpath.geometry.strands import LaidRope, RopePart, Strands, of_one_rope
from fidpath.job.job import Rope, Weave
from terminators import a_terminator

Floats = NDArray[np.float64]

RING = a_terminator("ring", 40.0, 14.0, 5.5, hole=24.0)


def a_braid(d: float = 10.0, strands: int = 12, weave: Weave = "over-two", pitch: float = 7.0) -> Braid:
    """The plain braid of a rope `d` mm across, pitch in diameters."""
    return braid_of(Rope("test rope", d, d, d, strands, weave, pitch * d, 0.75))


def plain(strands: int = 12, weave: Weave = "over-two", length: float = 8.0, d: float = 10.0) -> Strands:
    """Straight rope along x, `length` diameters of it, in two parts."""
    braid = a_braid(d, strands, weave)
    station = np.arange(0.0, length * d, 0.13 * d)
    return _strands(braid, straight(braid, station), station)


def round_a_ring(d: float = 10.0) -> Strands:
    """Rope along x, half round a ring of 4 d, and back; centre lines half a strand clear of the ring."""
    braid, seat = a_braid(d), seat_of(RING)
    radius, leg = RING.bearing_diameter_mm / 2 + d / 2, 4 * d
    arc = np.pi * radius
    station = np.arange(0.0, 2 * leg + arc, 0.13 * d)
    angle = np.clip((station - leg) / radius, 0, np.pi) - np.pi / 2
    run = np.minimum(station - leg, 0) - np.maximum(station - leg - arc, 0)
    normal = np.column_stack([np.cos(angle), np.sin(angle), np.zeros_like(angle)])
    axis = radius * normal + run[:, None] * [1.0, 0.0, 0.0]
    out, turn = strand_offsets(braid, station)
    across = np.cos(turn)[..., None] * normal + np.sin(turn)[..., None] * np.array([0.0, 0.0, 1.0])
    points = axis + out[..., None] * across
    points = np.stack([push_out(seat, line, braid.thickness / 2) for line in points])
    return _strands(braid, points, station, seat)


def push_out(seat: Seat, points: Floats, margin: float = 0.0) -> Floats:
    """The points `(n, 3)`, those nearer than `margin` mm to the body moved out of it toward the groove's middle."""
    short = margin - clearance(seat, points)
    near = short > 0
    if not near.any():
        return points
    moved = points.copy()
    hit = points[near]
    distance, normal = planform(seat, hit[:, :2])
    if seat.groove <= 0:
        step = np.column_stack([normal, np.zeros(len(hit))])
    else:
        to = np.column_stack([(seat.groove - distance)[:, None] * normal, -hit[:, 2]])
        low = np.linalg.norm(to, axis=1) < 1e-9
        to[low, :2] = normal[low]
        step = to / np.linalg.norm(to, axis=1)[:, None]
        above = distance > seat.groove
        step[above] = np.column_stack([normal[above], np.zeros(above.sum())])
    moved[near] = hit + step * short[near][:, None]
    return moved


def lone(lines: list[Floats], packing: Floats | None = None) -> Strands:
    """Single strands on given lines, each `(n, 3)`; stations by the first one's length."""
    steps = np.linalg.norm(np.diff(lines[0], axis=0), axis=1)
    return _strands(a_braid(), np.stack(lines), np.concatenate([[0.0], np.cumsum(steps)]), packing=packing)


def _strands(braid, points, station, seat=None, packing=None):  # type: ignore[no-untyped-def]
    n = points.shape[1]
    middle = points.mean(axis=0)
    half = float(station[n // 2])
    parts = (RopePart(Part.STANDING_PART, 0.0, half), RopePart(Part.TAIL, half, float(station[-1])))
    packed = np.ones(n) if packing is None else packing
    rope = LaidRope(braid, station, middle, np.tile([0.0, 1.0, 0.0], (n, 1)), packed, parts)
    return of_one_rope(rope, points, seat=seat)
