"""Triangles to pixels without a graphics library: which face shows at every pixel, and how far before the viewer.

Pictures, line art and films are drawn from this: the same on every machine, without a display, and the interpreter let
go of.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, reduce

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats
from fidpath.machine.compiled import jit, jit_part
from fidpath.outputs.pictures.bodies import Bodies, Corners, bodies_of
from fidpath.scene import Camera, Panel, Scene

Singles = NDArray[np.float32]

FINE = 3
"""Fine pixels to one of the page's, each way."""

TOUCH = 1e-9
"""A pixel whose middle lies so near to an edge, in pixels, lies on both sides of it."""


@dataclass(frozen=True)
class View:
    """What a panel shows, at `fine` fine pixels to each of the page's, each way.

    points: `(v, 3)` column and row of the bodies' vertices in fine pixels, and how far before the camera's middle plane
    they lie, mm. face: `(h, w) int32`, -1 for paper; front: `(h, w) float32`, how far before that plane the face lies
    there, mm; -inf for paper.
    """

    bodies: Bodies
    panel: Panel
    fine: int
    points: Singles
    face: Corners
    front: Singles

    @property
    def pixel(self) -> float:
        """A fine pixel, mm."""
        return 1 / (self.panel.scale * self.fine)

    @cached_property
    def solid(self) -> Bools:
        """Where the page's pixels show something, `(h, w) bool`."""
        there = self.face >= 0
        rows = reduce(np.bitwise_or, [there[row :: self.fine] for row in range(self.fine)])
        return reduce(np.bitwise_or, [rows[:, column :: self.fine] for column in range(self.fine)])

    @cached_property
    def coarse_part(self) -> NDArray[np.int16]:
        """The part that shows in the middles of the page's pixels, `(h, w)`; -1 for paper."""
        middle = self.fine // 2
        face = self.face[middle :: self.fine, middle :: self.fine]
        parts = self.bodies.spread([solid.parts for solid in self.bodies.solids])
        found = np.full(face.shape, -1, dtype=np.int16)
        there = face >= 0
        found[there] = parts[self.bodies.faces[face[there], 0]]
        return found

    @cached_property
    def coarse_front(self) -> Singles:
        """`front` in the middles of the page's pixels."""
        middle = self.fine // 2
        return np.ascontiguousarray(self.front[middle :: self.fine, middle :: self.fine])


def drawn(scene: Scene) -> tuple[View, ...]:
    """What a scene's panels show: for its picture and its line art alike."""
    return tuple(seen(panel) for panel in scene.panels)


def seen(panel: Panel, fine: int = FINE, bodies: Bodies | None = None) -> View:
    """What a panel shows; bodies: of its solids, where they are there already.

    The solids together are closed, so that a face turned away is always behind another one.
    """
    joined = bodies_of(panel.solids) if bodies is None else bodies
    _, _, width, height = panel.box
    scale = panel.scale * fine
    middle, stretch = np.array(panel.camera.middle), np.array([scale, -scale, 1.0])
    shift = np.array([width * fine / 2, height * fine / 2, 0.0])
    points = turned(joined.points, middle, axes(panel.camera) * stretch, shift)
    front = np.full((height * fine, width * fine), -np.inf, dtype=np.float32)
    face = np.full(front.shape, -1, dtype=np.int32)
    fill(points, joined.faces, face, front)
    return View(joined, panel, fine, points, face, front)


def axes(camera: Camera) -> Floats:
    """A camera's right, up and toward the viewer, as columns `(3, 3)`."""
    return np.column_stack([camera.right, camera.up, camera.toward])


@jit
def turned(rows: Floats, middle: Floats, turn: Floats, shift: Floats) -> Singles:
    """Rows `(n, 3)` about `middle` `(3,)` along the columns of `turn` `(3, 3)`, then moved by `shift` `(3,)`."""
    out = np.empty((len(rows), 3), dtype=np.float32)
    for i in range(len(rows)):
        x, y, z = rows[i, 0] - middle[0], rows[i, 1] - middle[1], rows[i, 2] - middle[2]
        for k in range(3):
            out[i, k] = np.float32(shift[k] + x * turn[0, k] + y * turn[1, k] + z * turn[2, k])
    return out


@jit_part
def _slope(x1: float, y1: float, x2: float, y2: float) -> float:
    """Columns that an edge takes to a row; 0 where it lies along one."""
    return (x2 - x1) / (y2 - y1) if y1 != y2 else 0.0


@jit_part
def _narrowed(
    first: float, last: float, row: float, x1: float, y1: float, y2: float, slope: float
) -> tuple[float, float]:
    """A row's columns from `first` to `last` narrowed to those on an edge's left, as it runs."""
    if y1 < y2:
        return max(first, x1 + (row - y1) * slope - TOUCH), last
    if y1 > y2:
        return first, min(last, x1 + (row - y1) * slope + TOUCH)
    return first, last


@jit
def fill(points: Singles, faces: Corners, face: Corners, front: Singles) -> None:
    """Draws triangles of `points` `(v, 3)` (column, row, height toward the viewer) into `face` and `front`, in place.

    A pixel belongs to a triangle that holds its middle. Faces turned away from the viewer are left out: in closed
    bodies others hide them.
    """
    height, width = face.shape
    for number in range(len(faces)):
        i, j, k = faces[number, 0], faces[number, 1], faces[number, 2]
        ax, ay = points[i, 0] - 0.5, points[i, 1] - 0.5
        bx, by = points[j, 0] - 0.5, points[j, 1] - 0.5
        cx, cy = points[k, 0] - 0.5, points[k, 1] - 0.5
        size = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        top, low = max(np.ceil(min(ay, by, cy)), 0.0), min(np.floor(max(ay, by, cy)), height - 1.0)
        if size > -TOUCH or top > low or np.ceil(min(ax, bx, cx)) > np.floor(max(ax, bx, cx)):
            continue
        az = np.float64(points[i, 2])
        bz, cz = points[j, 2] - az, points[k, 2] - az
        across = (bz * (cy - ay) - cz * (by - ay)) / size
        down = (cz * (bx - ax) - bz * (cx - ax)) / size
        ab, bc, ca = _slope(ax, ay, bx, by), _slope(bx, by, cx, cy), _slope(cx, cy, ax, ay)
        for row in range(int(top), int(low) + 1):
            first, last = _narrowed(0.0, width - 1.0, row, ax, ay, by, ab)
            first, last = _narrowed(first, last, row, bx, by, cy, bc)
            first, last = _narrowed(first, last, row, cx, cy, ay, ca)
            level = az + (row - ay) * down - ax * across
            for column in range(int(np.ceil(first)), int(np.floor(last)) + 1):
                here = np.float32(level + column * across)
                if here > front[row, column]:
                    front[row, column] = here
                    face[row, column] = number
