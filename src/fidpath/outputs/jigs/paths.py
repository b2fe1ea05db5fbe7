"""Closed outlines of lines and arcs in the plane: what flat jigs are cut from, exact until they are drawn.

A run between two corners has a bulge: the tangent of a quarter of the angle its arc turns through, 0 for a line,
positive to the left (the convention of polylines in DXF). Outlines run counter-clockwise round what is solid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats

SAGITTA = 0.001
"""Greatest distance in mm of an arc from the chords it is drawn with."""

SAME = 1e-9
"""Corners nearer than this, mm, are one."""


@dataclass(frozen=True)
class Outline:
    """A closed outline. points: `(n, 2) float` mm; bulge: `(n,) float` of the run from each point to the next."""

    points: Floats
    bulge: Floats

    @property
    def turn(self) -> Floats:
        """Angle each run turns through, `(n,)` radians, positive to the left."""
        return np.asarray(4 * np.arctan(self.bulge))

    @property
    def chord(self) -> Floats:
        """From each point to the next, `(n, 2)` mm."""
        return np.roll(self.points, -1, axis=0) - self.points

    @property
    def radius(self) -> Floats:
        """Radius of each run, `(n,)` mm; infinite where it is a line."""
        with np.errstate(divide="ignore"):
            return np.asarray(np.linalg.norm(self.chord, axis=1) / 2 / np.abs(np.sin(self.turn / 2)))


def rounded(corners: Sequence[tuple[float, float, float]]) -> Outline:
    """The polygon of corners (x, y, radius), each rounded with its radius in mm, 0 for a sharp one."""
    table = np.asarray(corners, dtype=float)
    place, radius = table[:, :2], table[:, 2]
    out = np.roll(place, -1, axis=0) - place
    out = out / np.linalg.norm(out, axis=1)[:, None]
    back = np.roll(out, 1, axis=0)
    turn = np.arctan2(_cross(back, out), (back * out).sum(axis=1))
    reach = (radius * np.abs(np.tan(turn / 2)))[:, None]
    ends = np.stack([place - reach * back, place + reach * out], axis=1).reshape(-1, 2)
    bulge = np.stack([np.where(radius > 0, np.tan(turn / 4), 0.0), np.zeros(len(table))], axis=1).ravel()
    return _without_repeats(Outline(ends, bulge))


def circle(x: float, y: float, radius: float) -> Outline:
    """A circle of two half turns, counter-clockwise."""
    return Outline(np.array([[x - radius, y], [x + radius, y]]), np.ones(2))


def box(left: float, bottom: float, right: float, top: float, radius: float = 0.0) -> Outline:
    """A rectangle with rounded corners."""
    return rounded([(left, bottom, radius), (right, bottom, radius), (right, top, radius), (left, top, radius)])


def _cross(a: Floats, b: Floats) -> Floats:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _without_repeats(path: Outline) -> Outline:
    """The path without runs of no length."""
    kept = np.linalg.norm(path.chord, axis=1) > SAME
    return Outline(path.points[kept], path.bulge[kept])


def area(path: Outline) -> float:
    """Enclosed area in mm2, exactly: the polygon's and a segment of a circle for each arc; negative if clockwise."""
    polygon = _cross(path.points, np.roll(path.points, -1, axis=0)).sum() / 2
    arcs = path.bulge != 0
    turn, radius = path.turn[arcs], path.radius[arcs]
    return float(polygon + (radius**2 * (turn - np.sin(turn)) / 2).sum())


def moved_out(path: Outline, by: float) -> Outline:
    """The path moved outward by `by` mm; its arcs keep their centres. Runs must meet smoothly where one is an arc."""
    heading = np.arctan2(path.chord[:, 1], path.chord[:, 0])
    leaves, arrives = heading - path.turn / 2, np.roll(heading + path.turn / 2, 1)
    one = np.column_stack([np.sin(arrives), -np.cos(arrives)])
    other = np.column_stack([np.sin(leaves), -np.cos(leaves)])
    shift = (one + other) / (1 + (one * other).sum(axis=1))[:, None]
    return Outline(path.points + by * shift, path.bulge)


def polygon(path: Outline, sagitta: float = SAGITTA) -> Floats:
    """Corners `(m, 2)` of the path, its arcs drawn with chords at most `sagitta` mm away from them."""
    pieces = [_run(path, i, sagitta) for i in range(len(path.points))]
    return np.concatenate(pieces)


def _run(path: Outline, i: int, sagitta: float) -> Floats:
    """Points `(k, 2)` of one run, without its last."""
    start, chord, turn = path.points[i], path.chord[i], float(path.turn[i])
    if turn == 0:
        return np.asarray(start[None])
    radius = float(path.radius[i])
    step = 2 * np.arccos(max(1 - sagitta / radius, 0.5))
    steps = int(np.ceil(abs(turn) / step))
    part = turn * np.arange(steps) / steps
    unit = chord / np.linalg.norm(chord)
    first = -turn / 2 + part / 2
    length = 2 * radius * np.abs(np.sin(part / 2))
    along, across = length * np.cos(first), length * np.sin(first)
    return np.asarray(start + along[:, None] * unit + across[:, None] * np.array([-unit[1], unit[0]]))


def bounds(path: Outline) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the path, mm, within SAGITTA."""
    corners = polygon(path)
    (left, bottom), (right, top) = corners.min(axis=0), corners.max(axis=0)
    return float(left), float(bottom), float(right), float(top)
