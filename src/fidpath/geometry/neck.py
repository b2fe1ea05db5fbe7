"""The neck: from the second hole back to where the tail goes into the standing part and both share an axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry.crossing_zone import BLEND, CrossingZone
from fidpath.geometry.curve import chain, newton, points

ENTRY_GAP = 0.45
"""Distance of the two axes, in rope diameters, at which the tail passes through the standing part's wall."""

SHARED = 3.0
"""Length of shared axis kept ahead of the neck's first bend, in rope diameters."""


@dataclass(frozen=True)
class Neck:
    """One leg from the shared axis to H2; lengths in mm along its axis.

    `entry` is where the tail pierces the wall, `reach` the same projected on the load line from H2.
    """

    pieces: list[tuple[float, float]]
    length: float
    entry: float
    reach: float
    shared_reach: float


def _laid(zone: CrossingZone, diameter: float, dip: float, scale: float) -> tuple[Neck, float]:
    """A neck that dips by an angle in radians, bends `scale` times as long; and how far H2 is off the load line, mm.

    The tail goes in where half the gap between the two axes opens to ENTRY_GAP/2.
    """
    d = diameter
    pieces = [
        (SHARED * d, 0.0),
        (1.1 * scale * d, -dip),
        (1.5 * scale * d, dip + zone.half_angle),
        (zone.straight, 0.0),
    ]
    leg = chain(pieces, BLEND * d)
    s = np.linspace(SHARED * d * 0.5, leg.length, 500)
    xy = points(leg, s)
    deep = int(np.argmin(xy[:, 1])) + 1
    open_at = float(np.interp(ENTRY_GAP * d / 2, -xy[:deep, 1], s[:deep]))
    end = float(xy[-1, 0])
    reach = end - float(np.interp(open_at, s, xy[:, 0]))
    return Neck(pieces, leg.length, leg.length - open_at, reach, end), float(xy[-1, 1])


def neck_of_length(zone: CrossingZone, diameter: float, rope: float) -> Neck:
    """The neck whose axis measures `rope` mm from the entry to H2.

    Raises ArithmeticError where no such neck closes.
    """
    if rope <= 0:
        raise ArithmeticError("a neck without rope closes nowhere")

    def trial(x: Floats) -> tuple[Neck, float]:
        return _laid(zone, diameter, float(x[0]), float(x[1]))

    def miss(x: Floats) -> Floats:
        neck, off = trial(x)
        return np.array([off, neck.entry - rope]) / diameter

    return trial(newton(miss, np.array([0.5, 0.5 + 0.25 * rope / diameter]), tolerance=1e-9))[0]
