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
from fidpath.geometry.curve import chain, end, newton, points

LEGS_APART = 0.9
"""Greatest distance of the two legs' axes between the holes, in rope diameters (measured in trials)."""

BLEND = 0.4
"""Width of the blend between lines and arcs, in rope diameters."""

LEAST_SPACING = 1.6
"""Below this hole spacing (in rope diameters) the rope would have to bend tighter than its own radius."""


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


def crossing_of_spacing(diameter: float, spacing: float) -> CrossingZone:
    """The crossing zone with its holes `spacing` mm apart, crossing at the angle of antiphase sines."""
    height = LEGS_APART * diameter
    half = float(np.arctan(np.pi * height / (2 * spacing)))

    def miss(x: Floats) -> Floats:
        leg = chain([(x[0], 0.0), (x[1], -2 * half), (x[0], 0.0)], BLEND * diameter, half)
        middle = points(leg, np.array([leg.length / 2]))[0]
        return np.array([end(leg)[0] - spacing, middle[1] - height / 2]) / diameter

    straight, arc = newton(miss, np.array([0.25, 0.62]) * spacing)
    return CrossingZone(spacing, 2 * straight + arc, half, straight, arc, hole_length(diameter, 2 * half))


@lru_cache(maxsize=64)
def crossing_of_gap(diameter: float, gap: float) -> CrossingZone:
    """The crossing zone that leaves `gap` mm of clear rope between the holes' near edges.

    Raises CannotBeMade where the holes would come too close for the rope's own bend.
    """
    least = crossing_of_spacing(diameter, LEAST_SPACING * diameter)
    if gap < least.gap:
        raise CannotBeMade(
            f"a hole gap of {gap / diameter:.2f} d bends the rope tighter than its own radius between the holes",
            f"Use a hole gap of at least {least.gap / diameter + 0.005:.2f} d",
            key="practice.hole_gap",
        )

    def miss(x: Floats) -> Floats:
        return np.array([crossing_of_spacing(diameter, float(x[0])).gap - gap]) / diameter

    spacing = newton(miss, np.array([least.spacing + (gap - least.gap) * 1.35]))
    return crossing_of_spacing(diameter, float(spacing[0]))


NO_CROSSING = CrossingZone(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
"""A crossing zone without length: the legs part where they lay together."""
