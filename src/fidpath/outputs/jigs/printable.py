"""How a piece prints as it lies: whether it fits the bed, where its walls are thin, how much hangs over air."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.job import Printing
from fidpath.outputs.jigs.manifolds import of_mesh
from fidpath.outputs.jigs.pieces import JigPiece

LEAST_WALL = 0.8
"""Walls thinner than this, mm, or than two lines of the nozzle, are reported."""

STEEP = 45.0
"""Faces leaning over by more than this from upright, degrees, want support (common practice, no source)."""

LEVELS = 12
"""Heights at which walls are looked at, none of them within the engraving; a flat plate has one."""

LAYER = 0.05
"""Faces no higher than this, mm, lie on the bed."""


@dataclass(frozen=True)
class Printability:
    """Size as it lies `(x, y, z)` mm; whether it fits; area and height of walls that are thin; area over air, mm2."""

    size: tuple[float, float, float]
    fits_bed: bool
    wall: float
    thin_mm2: float
    thin_at_z: float | None
    overhang_mm2: float
    overhang_share: float


def printability(piece: JigPiece, printing: Printing) -> Printability:
    """What is to be known before a piece is printed."""
    x, y, z = (float(v) for v in np.ptp(piece.mesh.points, axis=0))
    wall = max(LEAST_WALL, 2 * printing.nozzle_mm)
    thin, at = thin_walls(piece, wall)
    hanging, whole = overhang(piece)
    bed = sorted(printing.bed_mm[:2])
    slip = 1e-6
    fits = sorted((x, y)) <= bed and max(x, y) <= bed[1] + slip and min(x, y) <= bed[0] + slip
    return Printability((x, y, z), fits and z <= printing.bed_mm[2] + slip, wall, thin, at, hanging, hanging / whole)


def levels_of(piece: JigPiece) -> Floats:
    """Heights at which a piece's walls are looked at, mm."""
    if piece.flat is not None:
        return np.array([(piece.flat.thickness - piece.flat.depth) / 2])
    high = float(piece.mesh.points[:, 2].max())
    levels = high * (np.arange(LEVELS) + 0.5) / LEVELS
    low, top = piece.band or (-1.0, -1.0)
    return levels[(levels < low) | (levels > top)]


def thin_walls(piece: JigPiece, wall: float) -> tuple[float, float | None]:
    """Greatest area in mm2 of walls thinner than `wall` mm at any of the levels, and that level; None without any."""
    solid = of_mesh(piece.mesh)
    found = [(thin_area(solid.slice(float(level)), wall), float(level)) for level in levels_of(piece)]
    most, level = max(found)
    return (most, level) if most > 0 else (0.0, None)


def thin_area(section: Any, wall: float) -> float:
    """Area in mm2 of what a disc of diameter `wall` can't reach from inside a section; corners don't count."""
    from manifold3d import JoinType

    radius = (wall - 0.01) / 2
    open_part = section.offset(-radius, JoinType.Round, 2.0, 32).offset(radius, JoinType.Round, 2.0, 32)
    rest = (section - open_part).decompose()
    return float(sum(part.area() for part in rest if part.area() > wall**2))


def overhang(piece: JigPiece) -> tuple[float, float]:
    """Area in mm2 of faces that lean over air by more than STEEP, and of all faces."""
    corners = piece.mesh.points[piece.mesh.faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    double = np.linalg.norm(normal, axis=1)
    lean = normal[:, 2] < -np.sin(np.radians(STEEP)) * double
    lifted = corners[:, :, 2].max(axis=1) > LAYER
    return float(double[lean & lifted].sum() / 2), float(double.sum() / 2)
