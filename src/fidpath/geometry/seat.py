"""The terminator as a body the rope bears on: a planform with a groove run round it.

Planform in the plane of the eye (z = 0): the hull of the crown circle, centred at the origin, and, for a
teardrop, a nose circle on the -x side; the crown points toward +x. At planform distance D and height z the
body fills D < lip and |z| < width/2 except for the groove's circle of radius g centred at D = g, z = 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.job.job import Terminator


@dataclass(frozen=True)
class Seat:
    """Lengths in mm. `groove` is 0 for a plain pin; `reach` is the distance from crown centre to nose centre."""

    crown: float
    nose: float
    reach: float
    groove: float
    lip: float
    half_width: float

    @property
    def flank(self) -> float:
        """Half angle between a teardrop's flanks, radians; 0 for round bodies."""
        return float(np.arcsin((self.crown - self.nose) / self.reach)) if self.reach > 0 else 0.0


def seat_of(terminator: Terminator) -> Seat:
    """The bearing body of a terminator."""
    crown = terminator.bearing_diameter_mm / 2
    half_width = terminator.width_mm / 2
    groove = terminator.groove_radius_mm or 0.0
    lip = groove
    if groove > half_width:
        lip = groove - float(np.sqrt(groove**2 - half_width**2))
    nose, reach = crown, 0.0
    if terminator.kind == "teardrop" and terminator.length_mm is not None:
        nose = terminator.nose_radius_mm or crown * 0.15
        reach = terminator.length_mm - crown - nose
    return Seat(crown, nose, reach, groove, lip, half_width)


def planform(seat: Seat, xy: Floats) -> tuple[Floats, Floats]:
    """Signed distance `(n,)` mm (positive outside) and outward normal `(n, 2)` of points `(n, 2)` in the plane."""
    if seat.reach <= 0:
        from_centre = np.linalg.norm(xy, axis=1)
        return from_centre - seat.crown, xy / np.maximum(from_centre, 1e-12)[:, None]
    sin = np.sin(seat.flank)
    side = np.abs(xy[:, 1])
    place = np.clip(-xy[:, 0] - side * np.tan(seat.flank), 0.0, seat.reach)
    radius = seat.crown - place * sin
    to = np.stack([xy[:, 0] + place, xy[:, 1]], axis=1)
    length = np.linalg.norm(to, axis=1)
    return length - radius, to / np.maximum(length, 1e-12)[:, None]


def clearance(seat: Seat, points: Floats) -> Floats:
    """Distance `(n,)` mm of points `(n, 3)` from the body's surface, negative inside."""
    distance, _ = planform(seat, points[:, :2])
    z = np.abs(points[:, 2])
    over = distance - seat.lip
    beside = z - seat.half_width
    outside = np.hypot(np.maximum(over, 0), np.maximum(beside, 0))
    box = outside + np.minimum(np.maximum(over, beside), 0)
    if seat.groove <= 0:
        return box
    return np.asarray(np.maximum(box, seat.groove - np.hypot(distance - seat.groove, z)))


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
