"""How a bury hands its load over: the loaded cover's radius and angle, and the tail's share of the load from its tip.

Source: Coulomb friction with the press of a helix under tension, T tan^2 a/R (exact for a smooth core).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.loading.lock import LoadedLock

CLEAR = (1.5, 4.0)
"""Where the loaded cover is measured, in rope diameters below the entry."""


@dataclass(frozen=True)
class CoverGrip:
    """Mean radius of the loaded cover's strands, mm, and their angle, radians."""

    radius: float
    angle: float

    def rate(self, friction: float) -> float:
        """k: by what share of itself the load still to be handed over falls in a mm."""
        return float(friction * np.tan(self.angle) ** 2 / self.radius)

    def tail_share(self, friction: float, from_tip: Floats) -> Floats:
        """The share of the cover's and tail's load that the tail carries, `from_tip` mm from its tip."""
        return np.asarray(1 - np.exp(-self.rate(friction) * from_tip))


def cover_grip(lock: LoadedLock) -> CoverGrip:
    """The cover as it grips the tail under load, measured below the entry."""
    strands = lock.strands
    assert strands.bury is not None
    below = (strands.bury.host[0] - strands.station) / strands.braid.diameter
    cover = strands.points[:, (below > CLEAR[0]) & (below < CLEAR[1])]
    off = cover[..., 1:] - cover[..., 1:].mean(axis=0)
    turn = np.unwrap(np.arctan2(off[..., 1], off[..., 0]), axis=1)
    radius = float(np.linalg.norm(off, axis=2).mean())
    turned = np.abs(turn[:, -1] - turn[:, 0]) / np.abs(cover[:, -1, 0] - cover[:, 0, 0])
    return CoverGrip(radius, float(np.arctan(turned.mean() * radius)))
