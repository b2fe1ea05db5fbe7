"""Triangles to pixels without a graphics library: which face shows at every pixel, and how far before the viewer.

Line art and films are drawn from this: the same on every machine, without a display, and the interpreter let go of.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats
from fidpath.machine.compiled import jit
from fidpath.scene import Panel, project

Faces = NDArray[np.int32]
Depths = NDArray[np.float32]


@dataclass(frozen=True)
class Visible:
    """What a panel shows: `face` `(h, w) int32`, -1 for paper, counted through the panel's solids in their order;
    `front` `(h, w) float32`, how far before the camera's middle plane that face lies there, mm; -inf for paper."""

    face: Faces
    front: Depths


def visible(panel: Panel, fine: int) -> Visible:
    """The faces that a panel shows at `fine` pixels to each of the page's, each way.

    The panel's solids together are closed, so that a face turned away is always behind another one.
    """
    x, y, width, height = panel.box
    front = np.full((height * fine, width * fine), -np.inf, dtype=np.float32)
    face = np.full(front.shape, -1, dtype=np.int32)
    first = 0
    for solid in panel.solids:
        spots = (project(panel, solid.mesh.points) - np.array([x, y])) * fine
        depth = (solid.mesh.points - np.asarray(panel.camera.middle)) @ panel.camera.toward
        fill(
            np.column_stack([spots, depth]), np.ascontiguousarray(solid.mesh.faces, dtype=np.int32), first, face, front
        )
        first += len(solid.mesh.faces)
    return Visible(face, front)


@jit
def fill(points: Floats, faces: Faces, first: int, face: Faces, front: Depths) -> None:
    """Draws triangles of `points` `(v, 3)` (column, row, height toward the viewer) into `face` and `front`, in place.

    A pixel belongs to a triangle that holds its middle; `first` is the number of the first face. Faces turned away
    from the viewer are left out: in closed bodies others hide them.
    """
    height, width = face.shape
    for number in range(len(faces)):
        i, j, k = faces[number, 0], faces[number, 1], faces[number, 2]
        ax, ay, az = points[i, 0] - 0.5, points[i, 1] - 0.5, points[i, 2]
        bx, by, bz = points[j, 0] - 0.5 - ax, points[j, 1] - 0.5 - ay, points[j, 2] - az
        cx, cy, cz = points[k, 0] - 0.5 - ax, points[k, 1] - 0.5 - ay, points[k, 2] - az
        size = bx * cy - by * cx
        top = max(np.ceil(ay + min(0.0, by, cy)), 0.0)
        low = min(np.floor(ay + max(0.0, by, cy)), height - 1.0)
        start = max(np.ceil(ax + min(0.0, bx, cx)), 0.0)
        end = min(np.floor(ax + max(0.0, bx, cx)), width - 1.0)
        if size > -1e-9 or top > low or start > end:
            continue
        right, down = (bz * cy - cz * by) / size, (cz * bx - bz * cx) / size
        across_v, across_w, down_v, down_w = cy / size, -by / size, -cx / size, bx / size
        for row in range(int(top), int(low) + 1):
            y = row - ay
            row_v, row_w, row_z = y * down_v, y * down_w, az + y * down
            for column in range(int(start), int(end) + 1):
                x = column - ax
                v, w = row_v + x * across_v, row_w + x * across_w
                if v < -1e-9 or w < -1e-9 or v + w > 1.0 + 1e-9:
                    continue
                here = np.float32(row_z + x * right)
                if here > front[row, column]:
                    front[row, column] = here
                    face[row, column] = first + number
