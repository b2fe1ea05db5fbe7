"""The terminator as a body the rope bears on: a planform with a groove run round it.

Planform in the plane of the eye (z = 0): the hull of the crown circle, centred at the origin, and, for a
teardrop, a nose circle on the -x side; the crown points toward +x. At planform distance D and height z the
body fills D < lip and |z| < width/2 except for the groove's circle of radius g centred at D = g, z = 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.job import Terminator


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
    body = terminator.body
    crown, nose = body.planform[0], body.planform[-1]
    half_width, groove = body.width / 2, body.groove
    lip = groove
    if groove > half_width:
        lip = groove - float(np.sqrt(groove**2 - half_width**2))
    return Seat(crown.radius, nose.radius, crown.x - nose.x, groove, lip, half_width)


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
