"""Volumes of bodies that were turned, or that run from one slot-shaped outline to another, by formula."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats


def revolved_volume(profile: Floats) -> float:
    """Volume in mm3 of a polygon `(m, 2)` (distance from the axis, height) turned round the axis.

    It is 2 pi times the polygon's first moment (Pappus).
    """
    r, z = profile.T
    r1, z1 = np.roll(r, -1), np.roll(z, -1)
    return float(np.pi / 3 * ((r + r1) * (r * z1 - r1 * z)).sum())


def slot_area(half: float, radius: float) -> float:
    """Area in mm2 of a slot with round ends of this radius, their middles `half` mm either side of its own."""
    return float(4 * half * radius + np.pi * radius**2)


def between_slots(low: tuple[float, float], high: tuple[float, float], height: float) -> float:
    """Volume in mm3 of the hull of two level slots, `(half, radius)` each, `height` mm apart (Simpson, exact)."""
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    return height / 6 * (slot_area(*low) + 4 * slot_area(*middle) + slot_area(*high))
