"""The neck: from the second hole back to where the tail goes into the standing part and both share an axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry.crossing_zone import BLEND, CrossingZone
from fidpath.geometry.curve import Chain, chain, newton, points

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


def _neck_chain(zone: CrossingZone, diameter: float, dip: float, scale: float) -> Chain:
    d = diameter
    return chain(
        [
            (SHARED * d, 0.0),
            (1.1 * scale * d, -dip),
            (1.5 * scale * d, dip + zone.half_angle),
            (zone.straight, 0.0),
        ],
        BLEND * d,
    )


def _entry(leg: Chain, diameter: float) -> tuple[float, float, float]:
    """Where the half gap opens to ENTRY_GAP/2, the place of H2's end, both along the chain and in x."""
    s = np.linspace(SHARED * diameter * 0.5, leg.length, 500)
    xy = points(leg, s)
    deep = int(np.argmin(xy[:, 1]))
    open_at = float(np.interp(ENTRY_GAP * diameter / 2, -xy[: deep + 1, 1], s[: deep + 1]))
    return open_at, float(np.interp(open_at, s, xy[:, 0])), float(xy[-1, 1])


def neck_of_length(zone: CrossingZone, diameter: float, rope: float) -> Neck:
    """The neck whose axis measures `rope` mm from the entry to H2.

    Raises ArithmeticError where no such neck closes.
    """
    if rope <= 0:
        raise ArithmeticError("a neck without rope closes nowhere")

    def miss(x: Floats) -> Floats:
        leg = _neck_chain(zone, diameter, x[0], x[1])
        open_at, _, off = _entry(leg, diameter)
        return np.array([off / diameter, (leg.length - open_at - rope) / diameter])

    dip, scale = newton(miss, np.array([0.5, 0.5 + 0.25 * rope / diameter]), tolerance=1e-9)
    leg = _neck_chain(zone, diameter, float(dip), float(scale))
    open_at, x_open, _ = _entry(leg, diameter)
    x_end = float(points(leg, np.array([leg.length]))[0, 0])
    pieces = list(zip(leg.lengths.tolist(), leg.turns.tolist(), strict=True))
    return Neck(pieces, leg.length, leg.length - open_at, x_end - x_open, x_end)
