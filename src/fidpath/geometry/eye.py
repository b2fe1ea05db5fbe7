"""The finished eye in the plane: the lock's crossing zone, the legs, the bend round the terminator.

The load line is the x axis, the eye toward +x. Both legs are mirror images about it: they cross at H2
(x = 0) and H1 (x = spacing), and lie `LENS` rope diameters apart between the holes. Beyond H1 the legs run
straight to the terminator at half the throat angle, bent there from the crossing's own angle where the two differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.curve import Chain, chain, end, newton, points

LENS = 0.9
"""Greatest distance of the two legs' axes between the holes, in rope diameters (measured in trials)."""

BLEND = 0.4
"""Width of the blend between lines and arcs, in rope diameters."""

FLARE = 1.2
"""Rope over which a leg turns from the crossing's angle to the throat's, in rope diameters."""

LEAST_SPACING = 1.6
"""Below this hole spacing (in rope diameters) the rope would have to bend tighter than its own radius."""


def belt_length(radius: float, distance: float) -> float:
    """Loop of a line round a circle from a point at `distance` from its centre, mm (elementary geometry)."""
    return float(2 * np.sqrt(distance**2 - radius**2) + radius * (np.pi + 2 * np.arcsin(radius / distance)))


def throat_angle(radius: float, distance: float) -> float:
    """Angle between two tangents to a circle from a point at `distance` from its centre, radians."""
    return float(2 * np.arcsin(radius / distance))


def leg_tension_share(angle: float) -> float:
    """Tension in each leg as a share of the line's, for a throat angle in radians: 1/(2 cos(angle/2)) (statics)."""
    return float(1 / (2 * np.cos(angle / 2)))


@dataclass(frozen=True)
class Lens:
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


def lens_of_spacing(diameter: float, spacing: float) -> Lens:
    """The crossing zone with its holes `spacing` mm apart, crossing at the angle of antiphase sines."""
    height = LENS * diameter
    half = float(np.arctan(np.pi * height / (2 * spacing)))

    def miss(x: Floats) -> Floats:
        leg = chain([(x[0], 0.0), (x[1], -2 * half), (x[0], 0.0)], BLEND * diameter, half)
        middle = points(leg, np.array([leg.length / 2]))[0]
        return np.array([end(leg)[0] - spacing, middle[1] - height / 2]) / diameter

    straight, arc = newton(miss, np.array([0.25, 0.62]) * spacing)
    return Lens(spacing, 2 * straight + arc, half, straight, arc, hole_length(diameter, 2 * half))


@lru_cache(maxsize=64)
def lens_of_gap(diameter: float, gap: float) -> Lens:
    """The crossing zone that leaves `gap` mm of clear rope between the holes' near edges.

    Raises CannotBeMade where the holes would come too close for the rope's own bend.
    """
    least = lens_of_spacing(diameter, LEAST_SPACING * diameter)
    if gap < least.gap:
        raise CannotBeMade(
            f"a hole gap of {gap / diameter:.2f} d bends the rope tighter than its own radius between the holes",
            f"Use a hole gap of at least {least.gap / diameter + 0.005:.2f} d",
            key="practice.hole_gap",
        )

    def miss(x: Floats) -> Floats:
        return np.array([lens_of_spacing(diameter, float(x[0])).gap - gap]) / diameter

    spacing = newton(miss, np.array([least.spacing + (gap - least.gap) * 1.35]))
    return lens_of_spacing(diameter, float(spacing[0]))


@dataclass(frozen=True)
class Eye:
    """A finished eye: the crossing zone and the loop of rope beyond it. Lengths in mm, angles in radians."""

    lens: Lens
    bend_radius: float
    loop: float
    throat: float
    leg: float
    distance: float
    diameter: float

    @property
    def half_pieces(self) -> list[tuple[float, float]]:
        """One leg from H1 to the crown, leaving at minus the crossing's half angle."""
        return _half_loop(self.lens, self.diameter, self.bend_radius, self.throat / 2, self.leg)


def _half_loop(lens: Lens, diameter: float, radius: float, half: float, leg: float) -> list[tuple[float, float]]:
    bend = np.pi / 2 + half
    return [
        (lens.straight, 0.0),
        (FLARE * diameter, lens.half_angle - half),
        (leg, 0.0),
        (radius * bend, bend),
    ]


def _closed(lens: Lens, diameter: float, radius: float, half: float, leg: float) -> tuple[float, float, float]:
    """Half loop's length, how far its crown is off the load line, and the crown centre's distance from H1."""
    pieces = _half_loop(lens, diameter, radius, half, leg)
    s = sum(length for length, _ in pieces)
    loop = chain([*pieces, *reversed(pieces)], BLEND * diameter, -lens.half_angle)
    x, y = points(loop, np.array([s]))[0]
    return s, float(y), float(x) - radius


def eye_of_throat(lens: Lens, diameter: float, bearing: float, throat: float) -> Eye:
    """The eye whose legs run straight to a crown of bearing diameter `bearing` mm at a throat angle in radians.

    Raises CannotBeMade where no leg is left between the crossing and the terminator.
    """
    radius = (bearing + diameter) / 2

    def miss(x: Floats) -> Floats:
        return np.array([_closed(lens, diameter, radius, throat / 2, x[0])[1]]) / diameter

    start = radius / np.tan(throat / 2) - lens.straight - FLARE * diameter
    leg = float(newton(miss, np.array([start]))[0])
    half, _, distance = _closed(lens, diameter, radius, throat / 2, leg)
    if leg < 0:
        raise CannotBeMade(
            f"a throat angle of {np.degrees(throat):.0f} degrees leaves no leg between the crossing and the terminator",
            "Ask for a smaller throat angle, a longer eye or a larger terminator",
            key="practice.throat_angle",
        )
    return Eye(lens, radius, 2 * half, throat, leg, distance, diameter)


def eye_of_loop(lens: Lens, diameter: float, bearing: float, loop: float) -> Eye:
    """The eye whose loop from H1 round to H1 is `loop` mm of rope; its length decides the throat angle.

    Raises CannotBeMade where the loop is too short to close round the terminator.
    """
    radius = (bearing + diameter) / 2

    def miss(x: Floats) -> Floats:
        half, off, _ = _closed(lens, diameter, radius, x[0], x[1])
        return np.array([2 * half - loop, off]) / diameter

    fixed = lens.straight + FLARE * diameter
    guess = loop / 2 - radius * np.pi / 2
    start = float(np.arctan2(radius, max(guess - radius * 0.4, radius * 0.5)))
    try:
        half, leg = newton(miss, np.array([start, max(guess - radius * start - fixed, 0.1 * diameter)]))
    except ArithmeticError:
        half, leg = np.nan, -1.0
    if not (leg >= 0 and 0 < half < np.pi / 3):
        raise CannotBeMade(
            f"{loop:.0f} mm of rope from H1 round to H1 is too short to close round the terminator",
            "Make the eye longer or the terminator smaller",
            key="terminator.bearing_diameter",
        )
    distance = _closed(lens, diameter, radius, half, leg)[2]
    return Eye(lens, radius, loop, 2 * float(half), float(leg), distance, diameter)


def eye_of_distance(lens: Lens, diameter: float, bearing: float, distance: float) -> Eye:
    """The eye whose throat (H1) lies `distance` mm from the crown's centre."""
    radius = (bearing + diameter) / 2
    if distance <= radius * 1.05 + diameter / 2:
        raise CannotBeMade(
            f"an eye of {distance + bearing / 2:.0f} mm is too short for the terminator",
            f"Make it at least {radius * 2 + bearing / 2:.0f} mm (a throat of about 60 degrees)",
            key="line.ends.eye_length",
        )

    def miss(x: Floats) -> Floats:
        _, off, at = _closed(lens, diameter, radius, x[0], x[1])
        return np.array([at - distance, off]) / diameter

    half = float(np.arcsin(radius / distance))
    start = radius / np.tan(half) - lens.straight - FLARE * diameter
    half, _ = newton(miss, np.array([half, max(start, 0.1 * diameter)]))
    return eye_of_throat(lens, diameter, bearing, 2 * float(half))


def leg_chain(eye: Eye, before: list[tuple[float, float]], heading: float, start: tuple[float, float]) -> Chain:
    """The whole rope's axis: `before` up to H2, the crossing zone, the loop, and back the mirrored way."""
    out = [*before, *eye.lens.pieces, *eye.half_pieces]
    return chain([*out, *[(length, turn) for length, turn in reversed(out)]], BLEND * eye.diameter, heading, start)
