"""Reading solids back from their files, without the writer: sections and measures by trimesh."""

from __future__ import annotations

import io

import numpy as np
import trimesh
from numpy.typing import NDArray

from fidpath.outputs.jigs.pieces import JigPiece
from fidpath.outputs.stl import stl

Floats = NDArray[np.float64]


def from_stl(piece: JigPiece) -> trimesh.Trimesh:
    """A piece as a reader of its STL file has it."""
    return trimesh.load(io.BytesIO(stl(piece.mesh, piece.name)), file_type="stl")


def at_height(body: trimesh.Trimesh, z: float) -> Floats:
    """Lines `(n, 2, 2)` of a body's section at a height."""
    return trimesh.intersections.mesh_plane(body, [0, 0, 1], [0, 0, z])[:, :, :2]


def crossings(lines: Floats, across: int, at: float) -> Floats:
    """Where the line x = at (across = 0) or y = at (across = 1) meets a section's lines, sorted the other way."""
    side = lines[:, :, across] - at
    met = (side[:, 0] > 0) != (side[:, 1] > 0)
    a, b, s = lines[met][:, 0], lines[met][:, 1], side[met]
    share = s[:, 0] / (s[:, 0] - s[:, 1])
    return np.sort((a + share[:, None] * (b - a))[:, 1 - across])


def gaps(places: Floats) -> Floats:
    """Widths of what lies between what is solid: from the second crossing to the third, and so on."""
    return np.diff(places)[1::2]


def circle_through(points: Floats) -> tuple[Floats, float, float]:
    """Middle, radius and greatest miss of the circle nearest to points `(n, 2)`, by least squares."""
    table = np.column_stack([2 * points, np.ones(len(points))])
    x, y, c = np.linalg.lstsq(table, (points**2).sum(axis=1), rcond=None)[0]
    radius = float(np.sqrt(c + x * x + y * y))
    away = np.linalg.norm(points - [x, y], axis=1) - radius
    return np.array([x, y]), radius, float(np.abs(away).max())


def sound(body: trimesh.Trimesh) -> bool:
    """Whether a body as read is closed, turned outward, of some volume, and one."""
    return bool(body.is_watertight and body.is_winding_consistent and body.volume > 0 and body.body_count == 1)
