"""Closed bodies that tools, tapes and arrows are made of; all lengths mm.

Everything round is a profile turned about a line; arrows and twine are tubes swept along a line.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints, Vector
from fidpath.meshing import Mesh, sweep_faces

AROUND = 48
"""Steps round a turned body."""


def frame(direction: Floats, up: Floats | None = None) -> Floats:
    """Right-handed axes `(3, 3)` as rows: along `direction`, to its left, and as nearly `up` as can be."""
    along = np.asarray(direction, dtype=float) / np.linalg.norm(direction)
    wanted = np.array([0.0, 0.0, 1.0]) if up is None else np.asarray(up, dtype=float)
    if abs(along @ wanted) > 0.99 * np.linalg.norm(wanted):
        wanted = np.array([1.0, 0.0, 0.0])
    left = np.cross(wanted, along)
    left /= np.linalg.norm(left)
    return np.stack([along, left, np.cross(along, left)])


def turned(profile: Floats, place: Floats, direction: Floats, around: int = AROUND) -> Mesh:
    """A profile `(m, 2)` of (along, radius) turned about the line through `place`; it begins and ends on that line.

    Points on the line are one hub each. Closed; outward where the profile runs along `direction` on its outside.
    """
    along, left, up = frame(direction)
    angle = 2 * np.pi * np.arange(around) / around
    ring = np.cos(angle)[:, None] * left + np.sin(angle)[:, None] * up
    rings = profile[1:-1, 0, None, None] * along + profile[1:-1, 1, None, None] * ring
    hubs = profile[[0, -1], 0, None] * along
    points = np.concatenate([rings.reshape(-1, 3), hubs]) + np.asarray(place)
    return Mesh(points, _closed_faces(len(profile) - 2, around))


def _closed_faces(rings: int, around: int) -> Ints:
    """Faces of so many rings, closed by a hub before the first and one after the last."""
    here, after = np.arange(around), (np.arange(around) + 1) % around
    total = rings * around
    first = np.stack([after, here, np.full(around, total)], axis=1)
    last = np.stack([total - around + here, total - around + after, np.full(around, total + 1)], axis=1)
    return np.concatenate([sweep_faces(rings, around), first, last])


def sleeve(profile: Floats, place: Floats, direction: Floats, around: int = AROUND) -> Mesh:
    """A closed profile `(m, 2)` of (along, radius) carried once round the line: a ring.

    Outward where the profile runs along `direction` on its outer side and back on its inner.
    """
    along, left, up = frame(direction)
    angle = 2 * np.pi * np.arange(around) / around
    ring = np.cos(angle)[:, None] * left + np.sin(angle)[:, None] * up
    points = profile[:, 0, None, None] * along + profile[:, 1, None, None] * ring
    return Mesh(points.reshape(-1, 3) + np.asarray(place), _ring_faces(len(profile), around))


def _ring_faces(rings: int, around: int) -> Ints:
    """Faces of rings in a closed row, the last joined to the first."""
    open_row = sweep_faces(rings + 1, around)
    return np.asarray(open_row % (rings * around), dtype=np.int64)


def transported(line: Floats, start: Floats | None = None) -> tuple[Floats, Floats]:
    """Unit directions `(n, 3)` of a line `(n, 3)` and normals that turn no more than the line does."""
    step = np.gradient(line, axis=0)
    along = step / np.maximum(np.linalg.norm(step, axis=1, keepdims=True), 1e-12)
    normal = frame(along[0], start)[2]
    normals = []
    for t in along:
        normal = normal - (normal @ t) * t
        normal = normal / np.linalg.norm(normal)
        normals.append(normal)
    return along, np.array(normals)


def tube(line: Floats, radius: Floats | float, around: int = 16, flat: float = 1.0) -> Mesh:
    """A closed tube of `radius`, scalar or `(n,)`, along a line `(n, 3)`; `flat` squashes it across the table's up."""
    along, normal = transported(line)
    side = np.cross(normal, along)
    angle = 2 * np.pi * np.arange(around) / around
    wide = np.broadcast_to(np.asarray(radius, dtype=float), len(line))[:, None, None]
    ring = np.cos(angle)[:, None] * side[:, None, :] + flat * np.sin(angle)[:, None] * normal[:, None, :]
    points = np.concatenate([(line[:, None, :] + wide * ring).reshape(-1, 3), line[[0, -1]]])
    return Mesh(points, _closed_faces(len(line), around))


def ring_tube(ring: Floats, radius: float, around: int = 12) -> Mesh:
    """A closed tube along a flat closed line `(n, 3)`, its last point joined to its first."""
    along = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    normal = np.cross(ring[0] - ring.mean(axis=0), along[0])
    normal /= np.linalg.norm(normal)
    side = np.cross(normal, along)
    angle = 2 * np.pi * np.arange(around) / around
    across = np.cos(angle)[:, None] * side[:, None, :] + np.sin(angle)[:, None] * normal
    return Mesh((ring[:, None, :] + radius * across).reshape(-1, 3), _ring_faces(len(ring), around))


def ball(middle: Floats, radius: float, around: int = 16) -> Mesh:
    """A round body."""
    turn = np.linspace(-np.pi / 2, np.pi / 2, around // 2 + 1)
    profile = radius * np.column_stack([np.sin(turn), np.cos(turn)])
    profile[[0, -1], 1] = 0.0
    return turned(profile, middle, np.array([0.0, 0.0, 1.0]), around)


def arrow(line: Floats, radius: float) -> Mesh:
    """A flat arrow along a line `(n, 3)`, its head 3.2 `radius` wide and 5 `radius` long, shorter on a short line.

    Closed. Raises ValueError for a line without length.
    """
    step = np.linalg.norm(np.diff(line, axis=0), axis=1)
    at = np.concatenate([[0.0], np.cumsum(step)])
    if at[-1] <= 0:
        raise ValueError("an arrow needs a line of some length")
    head = min(5 * radius, 0.6 * at[-1])
    neck = at[-1] - head
    shaft = np.linspace(0, neck, max(int(neck / (0.8 * radius)), 8))
    place = np.concatenate([shaft, neck + np.array([0.02, 0.4, 0.75, 0.999]) * head])
    wide = np.concatenate([np.full(len(shaft), radius), 3.2 * radius * np.array([1.0, 0.61, 0.26, 0.01])])
    path = np.column_stack([np.interp(place, at, line[:, c]) for c in range(3)])
    return tube(path, wide, flat=0.45)


def bent(start: Floats, end: Floats, bow: float, steps: int = 24) -> Floats:
    """A line `(steps, 3)` from start to end that bows out to its left by `bow` of its length, in the table's plane."""
    share = np.linspace(0, 1, steps)[:, None]
    way = end - start
    left = np.array([-way[1], way[0], 0.0])
    return np.asarray(start + share * way + 4 * bow * share * (1 - share) * left)


def box(size: Vector, place: Floats, axes: Floats) -> Mesh:
    """A box with its middle at `place`, its sides along the rows of `axes` `(3, 3)`."""
    corners = np.array([[x, y, z] for z in (-1, 1) for y in (-1, 1) for x in (-1, 1)]) * np.array(size) / 2
    quads = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]]
    faces = np.array([[q[0], q[i], q[i + 1]] for q in quads for i in (1, 2)])
    return Mesh(corners @ axes + np.asarray(place), faces)


def plate(one: Floats, other: Floats) -> Mesh:
    """A closed plate between two outlines `(m, 3)`, clockwise seen from the first, star-shaped about their middles."""
    m = len(one)
    here, after = np.arange(m), (np.arange(m) + 1) % m
    rim = np.concatenate([np.stack([here, after, after + m], 1), np.stack([here, after + m, here + m], 1)])
    front = np.stack([after, here, np.full(m, 2 * m)], axis=1)
    back = np.stack([here + m, after + m, np.full(m, 2 * m + 1)], axis=1)
    points = np.concatenate([one, other, one.mean(axis=0)[None], other.mean(axis=0)[None]])
    return Mesh(points, np.concatenate([rim, front, back]))


def ribbon(line: Floats, wide: float, thick: float) -> Mesh:
    """A closed flat band along a line `(n, 3)` on the table."""
    along, _ = transported(line)
    up = np.array([0.0, 0.0, 1.0])
    left = np.cross(up, along)
    left /= np.linalg.norm(left, axis=1, keepdims=True)
    return strip(line + wide / 2 * left, line - wide / 2 * left, thick)


def strip(left: Floats, right: Floats, thick: float) -> Mesh:
    """A closed flat band on the table between two edges `(n, 3)`, the left and the right one as they run."""
    half = np.array([0.0, 0.0, thick / 2])
    rings = np.stack([left - half, left + half, right + half, right - half], axis=1)
    points = np.concatenate([rings.reshape(-1, 3), (left + right)[[0, -1]] / 2])
    return Mesh(points, _closed_faces(len(left), 4))


def stitches(line: Floats, out: Floats, radius: float, crossings: int, leads_to: Floats) -> Mesh:
    """Twine through a rope's middle line `(n, 3)`, crossing it again and again, and on to a place `(3,)` mm.

    Its last crossing comes out at `out` `(3,)` mm beside the rope's middle.
    """
    at = np.linspace(0, 1, len(line))
    share = np.repeat(np.linspace(0, 1, crossings), 2)
    middle = np.column_stack([np.interp(share, at, line[:, c]) for c in range(3)])
    sign = np.tile([1.0, -1.0, -1.0, 1.0], crossings)[: len(share), None]
    corners = np.concatenate([middle + sign[-1] * sign * out, [leads_to]])
    return tube(rounded(corners, 0.35 * float(np.linalg.norm(out))), radius, 10)


def rounded(corners: Floats, radius: float, steps: int = 7) -> Floats:
    """A line through `corners` `(m, 3)` with its bends eased over `radius` mm to either side, `(n, 3)`."""
    line = [corners[0]]
    for before, at, after in zip(corners[:-2], corners[1:-1], corners[2:], strict=True):
        into, out = before - at, after - at
        ease = min(radius, 0.45 * float(np.linalg.norm(into)), 0.45 * float(np.linalg.norm(out)))
        start = at + ease * into / np.linalg.norm(into)
        end = at + ease * out / np.linalg.norm(out)
        t = np.linspace(0, 1, steps)[:, None]
        line += list((1 - t) ** 2 * start + 2 * t * (1 - t) * at + t**2 * end)
    return np.array([*line, corners[-1]])
