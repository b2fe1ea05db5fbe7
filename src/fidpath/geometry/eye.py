"""The finished eye in the plane: the legs beyond the crossing zone, and the bend round the terminator.

The load line is the x axis, the eye toward +x. Beyond H1 the legs run straight to the terminator at half the throat
angle, bent there from the crossing's own angle where the two differ.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.crossing_zone import BLEND, CrossingZone
from fidpath.geometry.curve import Chain, chain, newton, points

FLARE = 1.2
"""Rope over which a leg turns from the crossing's angle to the throat's, in rope diameters."""


def throat_angle(radius: float, distance: float) -> float:
    """Angle between two tangents to a circle from a point at `distance` from its centre, radians."""
    return float(2 * np.arcsin(radius / distance))


def leg_tension_share(angle: float) -> float:
    """Tension in each leg as a share of the line's, for a throat angle in radians: 1/(2 cos(angle/2)) (statics)."""
    return float(1 / (2 * np.cos(angle / 2)))


@dataclass(frozen=True)
class Eye:
    """A finished eye: the crossing zone and the loop of rope beyond it. Lengths in mm, angles in radians."""

    zone: CrossingZone
    bend_radius: float
    loop: float
    throat: float
    leg: float
    distance: float
    diameter: float

    @property
    def half_pieces(self) -> list[tuple[float, float]]:
        """One leg from H1 to the crown, leaving at minus the crossing's half angle."""
        return _half_loop(self.zone, self.diameter, self.bend_radius, self.throat / 2, self.leg)


def _half_loop(
    zone: CrossingZone, diameter: float, radius: float, half: float, leg: float
) -> list[tuple[float, float]]:
    bend = np.pi / 2 + half
    return [
        (zone.straight, 0.0),
        (FLARE * diameter, zone.half_angle - half),
        (leg, 0.0),
        (radius * bend, bend),
    ]


def _closed(zone: CrossingZone, diameter: float, radius: float, half: float, leg: float) -> tuple[float, float, float]:
    """Half loop's length, how far its crown is off the load line, and the crown centre's distance from H1."""
    pieces = _half_loop(zone, diameter, radius, half, leg)
    s = sum(length for length, _ in pieces)
    loop = chain([*pieces, *reversed(pieces)], BLEND * diameter, -zone.half_angle)
    x, y = points(loop, np.array([s]))[0]
    return s, float(y), float(x) - radius


def eye_of_throat(zone: CrossingZone, diameter: float, bearing: float, throat: float) -> Eye:
    """The eye whose legs run straight to a crown of bearing diameter `bearing` mm at a throat angle in radians.

    Raises CannotBeMade where no leg is left between the crossing and the terminator.
    """
    radius = (bearing + diameter) / 2

    def miss(x: Floats) -> Floats:
        return np.array([_closed(zone, diameter, radius, throat / 2, x[0])[1]]) / diameter

    start = radius / np.tan(throat / 2) - zone.straight - FLARE * diameter
    leg = float(newton(miss, np.array([start]))[0])
    half, _, distance = _closed(zone, diameter, radius, throat / 2, leg)
    if leg < 0:
        raise CannotBeMade(
            f"a throat angle of {np.degrees(throat):.0f} degrees leaves no leg between the crossing and the terminator",
            "Ask for a smaller throat angle, a longer eye or a larger terminator",
            key="practice.throat_angle",
        )
    return Eye(zone, radius, 2 * half, throat, leg, distance, diameter)


def eye_of_loop(zone: CrossingZone, diameter: float, bearing: float, loop: float) -> Eye:
    """The eye whose loop from H1 round to H1 is `loop` mm of rope; its length decides the throat angle.

    Raises CannotBeMade where the loop is too short to close round the terminator.
    """
    radius = (bearing + diameter) / 2

    def miss(x: Floats) -> Floats:
        half, off, _ = _closed(zone, diameter, radius, x[0], x[1])
        return np.array([2 * half - loop, off]) / diameter

    fixed = zone.straight + FLARE * diameter
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
    distance = _closed(zone, diameter, radius, half, leg)[2]
    return Eye(zone, radius, loop, 2 * float(half), float(leg), distance, diameter)


def eye_of_distance(zone: CrossingZone, diameter: float, bearing: float, distance: float) -> Eye:
    """The eye whose throat (H1) lies `distance` mm from the crown's centre."""
    radius = (bearing + diameter) / 2
    if distance <= radius * 1.05 + diameter / 2:
        raise CannotBeMade(
            f"an eye of {distance + bearing / 2:.0f} mm is too short for the terminator",
            f"Make it at least {radius * 2 + bearing / 2:.0f} mm (a throat of about 60 degrees)",
            key="line.ends.eye_length",
        )

    def miss(x: Floats) -> Floats:
        _, off, at = _closed(zone, diameter, radius, x[0], x[1])
        return np.array([at - distance, off]) / diameter

    half = float(np.arcsin(radius / distance))
    start = radius / np.tan(half) - zone.straight - FLARE * diameter
    half, _ = newton(miss, np.array([half, max(start, 0.1 * diameter)]))
    return eye_of_throat(zone, diameter, bearing, 2 * float(half))


def leg_chain(eye: Eye, before: list[tuple[float, float]], heading: float, start: tuple[float, float]) -> Chain:
    """The whole rope's axis: `before` up to H2, the crossing zone, the loop, and back the mirrored way."""
    out = [*before, *eye.zone.pieces, *eye.half_pieces]
    return chain([*out, *[(length, turn) for length, turn in reversed(out)]], BLEND * eye.diameter, heading, start)
