"""The body of a terminator as plain data: what the rope bears on, and what else is drawn. No geometry is done here.

Lengths in mm, in the frame of the eye: the crown's centre is the origin, the crown points toward +x and the throat
lies toward -x, the eye's plane is z = 0 and the terminator's own axis is z.
"""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.arrays import Vector

WALL = 0.12
"""Least wall left beside a hole, as a share of the crown's radius: our own choice, no source."""


@dataclass(frozen=True)
class Circle:
    """A circle in the plane of the eye."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True)
class Bar:
    """A round bar or disc: the points of its middle line, in one plane, and its radius at each.

    A line that ends where it begins is a closed ring; any other has flat ends.
    """

    line: tuple[Vector, ...]
    radii: tuple[float, ...]


@dataclass(frozen=True)
class Body:
    """What the rope bears on, and what else of a terminator is drawn.

    planform: the crown's circle about the origin, and the nose's where there is one, on the -x side: the rope runs
        round the hull of the two, which is measured at the bottom of the groove.
    width: along z, between the outermost places at which the body bears.
    groove: radius of the groove's section; 0 for a plain cylinder.
    bore: diameter of a round hole about the z axis; 0 without one.
    holes: further round holes along z.
    faces: radius and half width where a face turns, from the outside in; empty for flat faces.
    bearing_key: the key of the terminator's own table that gives the bearing diameter, for messages.
    bars: what is drawn in place of the turned body, its bearing part among them; empty where the turned body is drawn.
    """

    planform: tuple[Circle, ...]
    width: float
    groove: float = 0.0
    bore: float = 0.0
    holes: tuple[Circle, ...] = ()
    faces: tuple[tuple[float, float], ...] = ()
    bars: tuple[Bar, ...] = ()
    bearing_key: str = "bearing_diameter"

    @property
    def bearing_diameter(self) -> float:
        """Diameter of the crown's circle."""
        return 2 * self.planform[0].radius


def round_planform(diameter: float) -> tuple[Circle, ...]:
    """The planform of a round body that the rope bears on at this diameter."""
    return (Circle(0.0, 0.0, diameter / 2),)
