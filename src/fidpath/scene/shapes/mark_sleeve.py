"""The mark sleeve on a rope: two half shells, hinged, with windows where a mark may sit; all lengths mm."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import Braid, Part
from fidpath.meshing import Mesh, joined, sweep_faces, volume
from fidpath.scene.scene import Solid
from fidpath.scene.shapes.solids import box, turned

BORE, OUTER = 0.54, 0.68
"""Radii of a shell's inside and outside, in rope diameters."""

EAR, KNUCKLE = (0.75, 0.34), 0.24
"""How far the ears stand out and how thick they are together, and the hinge's radius, in rope diameters."""

SHARE = 0.62
"""A window's size as a share of a diamond's."""

ROUND = 24
"""Steps round a shell from a window's edge to the other shell's."""


def sleeve_length(braid: Braid) -> float:
    """How long the sleeve is, mm: about a pitch, with an odd number of windows two picks apart."""
    return 2 * _picks(braid) * braid.pick


def _picks(braid: Braid) -> int:
    """Picks from the sleeve's middle to its end."""
    return max(braid.strands // 4 * 2, 2)


def mark_sleeve(braid: Braid, middle: Floats, axes: Floats) -> list[Solid]:
    """The sleeve closed round a straight rope, a window at its middle; axes: along the rope, left and up, as rows."""
    along, left, up = axes
    d, length = braid.diameter, sleeve_length(braid)
    shells = [_shell(braid, middle, along, side * left, up) for side in (1, -1)]
    ear = box((length, EAR[0] * d, EAR[1] * d), middle - (OUTER + EAR[0] / 2 - 0.06) * d * left, axes)
    ends = np.array([(0.0, 0.0), (0.0, KNUCKLE * d), (length, KNUCKLE * d), (length, 0.0)])
    hinge = turned(ends[::-1] * [-1, 1], middle + (OUTER + 0.12) * d * left + length / 2 * along, along)
    return [Solid(joined([*shells, ear, hinge]), Part.MARK_SLEEVE)]


def _shell(braid: Braid, middle: Floats, along: Floats, left: Floats, up: Floats) -> Mesh:
    """One side of both shells, from the windows on top round by `left` to those below."""
    d, half = braid.diameter, sleeve_length(braid) / 2
    windows = 2 * braid.pick * np.arange(-(_picks(braid) // 2) + 1, _picks(braid) // 2)
    wide, tall = SHARE * 2 * np.pi / braid.strands, SHARE * braid.pick
    corners = (windows[:, None] + tall * np.linspace(-1, 1, 9)).ravel()
    at = np.unique(np.concatenate([[-half, half], corners]).round(9))
    edge = np.maximum(wide * (1 - np.abs(at[:, None] - windows).min(axis=1) / tall), 0.0)
    turn = edge[:, None] + (np.pi - 2 * edge[:, None]) * np.linspace(0, 1, ROUND)
    ring = np.sin(turn)[..., None] * left + np.cos(turn)[..., None] * up
    rings = np.concatenate([OUTER * d * ring, BORE * d * ring[:, ::-1]], axis=1)
    points = (middle + at[:, None, None] * along + rings).reshape(-1, 3)
    mesh = Mesh(points, _closed(len(at)))
    return mesh if volume(mesh) > 0 else Mesh(points, mesh.faces[:, ::-1])


def _closed(rings: int) -> Ints:
    """Faces of so many sections of a shell, its two ends closed."""
    around = 2 * ROUND
    out = np.arange(ROUND - 1)
    back = around - 1 - out
    first = np.concatenate([np.stack([out, back, out + 1], 1), np.stack([out + 1, back, back - 1], 1)])
    last = first[:, ::-1] + (rings - 1) * around
    return np.asarray(np.concatenate([sweep_faces(rings, around), first, last]), dtype=np.int64)
