"""The finished eye in the plane: the legs beyond the crossing zone, and the bend round the terminator.

The load line is the x axis, the eye toward +x. Beyond H1 the legs run straight to the terminator at half the throat
angle, bent there from the crossing's own angle where the two differ.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

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
        half = self.throat / 2
        bend = np.pi / 2 + half
        return [
            (self.zone.straight, 0.0),
            (FLARE * self.diameter, self.zone.half_angle - half),
            (self.leg, 0.0),
            (self.bend_radius * bend, bend),
        ]


def _bent(zone: CrossingZone, diameter: float, radius: float, half: float, leg: float) -> tuple[Eye, float]:
    """An eye with legs of `leg` mm at half a throat angle, and how far its crown is off the load line, mm."""
    eye = Eye(zone, radius, 0.0, 2 * half, leg, 0.0, diameter)
    pieces = eye.half_pieces
    s = sum(length for length, _ in pieces)
    loop = chain([*pieces, *reversed(pieces)], BLEND * diameter, -zone.half_angle)
    x, y = points(loop, np.array([s]))[0]
    return replace(eye, loop=2 * s, distance=float(x) - radius), float(y)


def _closed(
    zone: CrossingZone, diameter: float, radius: float, off: Callable[[Eye], float], half: float, leg: float
) -> Eye:
    """The eye whose crown lies on the load line and for which `off` comes to nothing, mm.

    half, leg: where the search begins. Raises ArithmeticError where there is none.
    """

    def trial(x: Floats) -> tuple[Eye, float]:
        return _bent(zone, diameter, radius, float(x[0]), float(x[1]))

    def miss(x: Floats) -> Floats:
        eye, aside = trial(x)
        return np.array([off(eye), aside]) / diameter

    return trial(newton(miss, np.array([half, leg])))[0]


def eye_of_throat(zone: CrossingZone, diameter: float, bearing: float, throat: float) -> Eye:
    """The eye whose legs run straight to a crown of bearing diameter `bearing` mm at a throat angle in radians.

    Raises CannotBeMade where no leg is left between the crossing and the terminator.
    """
    radius = (bearing + diameter) / 2
    leg = radius / np.tan(throat / 2) - zone.straight - FLARE * diameter
    try:
        return _with_legs(_closed(zone, diameter, radius, lambda eye: (eye.throat - throat) * radius, throat / 2, leg))
    except ArithmeticError:
        raise _no_leg(throat) from None


def _with_legs(eye: Eye) -> Eye:
    """The eye. Raises CannotBeMade where no leg is left between the crossing and the terminator."""
    if eye.leg < 0:
        raise _no_leg(eye.throat)
    return eye


def _no_leg(throat: float) -> CannotBeMade:
    """What is said of a throat angle, in radians, that the crossing and the terminator leave no room for."""
    return CannotBeMade(
        f"a throat angle of {np.degrees(throat):.0f} degrees leaves no leg between the crossing and the terminator",
        "Ask for a smaller throat angle, a longer eye or a larger terminator",
        key="practice.throat_angle",
    )


def eye_of_loop(zone: CrossingZone, diameter: float, bearing: float, loop: float) -> Eye:
    """The eye whose loop from H1 round to H1 is `loop` mm of rope; its length decides the throat angle.

    Raises CannotBeMade where the loop is too short to close round the terminator.
    """
    radius = (bearing + diameter) / 2
    guess = loop / 2 - radius * np.pi / 2
    half = float(np.arctan2(radius, max(guess - radius * 0.4, radius * 0.5)))
    leg = max(guess - radius * half - zone.straight - FLARE * diameter, 0.1 * diameter)
    short = CannotBeMade(
        f"{loop:.0f} mm of rope from H1 round to H1 is too short to close round the terminator",
        "Make the eye longer or the terminator smaller",
        key="terminator.bearing_diameter",
    )
    try:
        eye = _closed(zone, diameter, radius, lambda eye: eye.loop - loop, half, leg)
    except ArithmeticError:
        raise short from None
    if eye.leg < 0 or not 0 < eye.throat < 2 * np.pi / 3:
        raise short
    return replace(eye, loop=loop)


def eye_of_distance(zone: CrossingZone, diameter: float, bearing: float, distance: float) -> Eye:
    """The eye whose throat (H1) lies `distance` mm from the crown's centre.

    Raises CannotBeMade where that is too near.
    """
    radius = (bearing + diameter) / 2
    if distance <= radius * 1.05 + diameter / 2:
        raise CannotBeMade(
            f"an eye of {distance + bearing / 2:.0f} mm is too short for the terminator",
            f"Make it at least {radius * 2 + bearing / 2:.0f} mm (a throat of about 60 degrees)",
            key="line.ends.eye_length",
        )
    half = float(np.arcsin(radius / distance))
    leg = max(radius / np.tan(half) - zone.straight - FLARE * diameter, 0.1 * diameter)
    try:
        return _with_legs(_closed(zone, diameter, radius, lambda eye: eye.distance - distance, half, leg))
    except ArithmeticError:
        raise _no_leg(2 * half) from None


def leg_chain(eye: Eye, before: list[tuple[float, float]], heading: float, start: tuple[float, float]) -> Chain:
    """The whole rope's axis: `before` up to H2, the crossing zone, the loop, and back the mirrored way."""
    out = [*before, *eye.zone.pieces, *eye.half_pieces]
    return chain([*out, *[(length, turn) for length, turn in reversed(out)]], BLEND * eye.diameter, heading, start)
