"""The crossing zone of the lock in the plane: two legs that run through each other at two holes.

The load line is the x axis, the eye toward +x. Both legs are mirror images about it: they cross at H2
(x = 0) and H1 (x = spacing), and lie `LEGS_APART` rope diameters apart between the holes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.curve import chain, newton, points

LEGS_APART = 0.9
"""Greatest distance of the two legs' axes between the holes, in rope diameters (measured in trials)."""

BLEND = 0.4
"""Width of the blend between lines and arcs, in rope diameters."""

LEAST_SPACING = 1.6
"""Below this hole spacing (in rope diameters) the rope would have to bend tighter than its own radius."""

FIRST_SHARES = np.array([0.25, 0.62])
"""Where the search for a leg's straight pieces and its arc begins, as shares of the spacing."""


@dataclass(frozen=True)
class CrossingZone:
    """The crossing zone: chord between the holes' centres, rope along a leg between them, half angle of crossing."""

    spacing: float
    rope: float
    half_angle: float
    straight: float
    arc: float
    hole_length: float

    @property
    def gap(self) -> float:
        """Clear rope between the near edges of the two holes, mm."""
        return self.rope - self.hole_length

    @property
    def pieces(self) -> list[tuple[float, float]]:
        """One leg from H2 to H1, leaving at `half_angle`."""
        return [(self.straight, 0.0), (self.arc, -2 * self.half_angle), (self.straight, 0.0)]


def hole_length(diameter: float, crossing_angle: float) -> float:
    """Rope a hole takes up in its host, mm: the guest's slanting width and a quarter diameter to close at each end."""
    return diameter * (1 / float(np.sin(min(crossing_angle, np.pi / 2))) + 0.5)


def _laid(diameter: float, spacing: float, straight: float, arc: float) -> tuple[CrossingZone, Floats]:
    """A zone whose legs cross at the angle of antiphase sines, and how far `(2,)` mm a leg misses H1 and its bow."""
    height = LEGS_APART * diameter
    half = float(np.arctan(np.pi * height / (2 * spacing)))
    zone = CrossingZone(spacing, 2 * straight + arc, half, straight, arc, hole_length(diameter, 2 * half))
    leg = chain(zone.pieces, BLEND * diameter, half)
    middle, last = points(leg, np.array([leg.length / 2, leg.length]))
    return zone, np.array([last[0] - spacing, middle[1] - height / 2])


def crossing_of_spacing(diameter: float, spacing: float) -> CrossingZone:
    """The crossing zone with its holes `spacing` mm apart."""

    def trial(x: Floats) -> tuple[CrossingZone, Floats]:
        return _laid(diameter, spacing, float(x[0]), float(x[1]))

    return trial(newton(lambda x: trial(x)[1] / diameter, FIRST_SHARES * spacing))[0]


@lru_cache(maxsize=64)
def crossing_of_gap(diameter: float, gap: float) -> CrossingZone:
    """The crossing zone that leaves `gap` mm of clear rope between the holes' near edges.

    Raises CannotBeMade where the holes would come too close for the rope's own bend.
    """
    least = _least_gap() * diameter
    if gap < least:
        raise CannotBeMade(
            f"a hole gap of {gap / diameter:.2f} d bends the rope tighter than its own radius between the holes",
            f"Use a hole gap of at least {least / diameter + 0.005:.2f} d",
            key="practice.hole_gap",
        )

    def trial(x: Floats) -> tuple[CrossingZone, Floats]:
        return _laid(diameter, float(x[0]), float(x[1]), float(x[2]))

    def miss(x: Floats) -> Floats:
        zone, off = trial(x)
        return np.array([zone.gap - gap, *off]) / diameter

    spacing = LEAST_SPACING * diameter + (gap - least) * 1.35
    return trial(newton(miss, np.array([1.0, *FIRST_SHARES]) * spacing))[0]


@lru_cache(maxsize=1)
def _least_gap() -> float:
    """The hole gap at LEAST_SPACING, in rope diameters."""
    return crossing_of_spacing(1.0, LEAST_SPACING).gap


NO_CROSSING = CrossingZone(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
"""A crossing zone without length: the legs part where they lay together."""
