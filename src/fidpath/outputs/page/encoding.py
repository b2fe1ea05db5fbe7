"""Strand centre lines and meshes -> compact text: whole steps of a quantum, differences, byte planes, deflate, base64.

Centre lines are smooth: their third differences are small whole numbers, most of them one byte. A page makes the same
numbers of them again, exactly; what is lost is the rounding to the quantum, at most half of it.
"""

from __future__ import annotations

import base64
import zlib
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import Strands
from fidpath.meshing import Mesh

QUANTUM = 0.002
"""Step that centre lines are rounded to, in rope diameters."""

MOST_QUANTUM_MM = 0.03
"""The same in mm, for thick rope: half of it is what a point can be off."""

MESH_QUANTUM_MM = 0.02
"""Step that points of hard bodies are rounded to."""


@dataclass(frozen=True)
class Packed:
    """One state's centre lines as text.

    first: the first three points of every strand in quanta, `(strands, 3 axes, 3) int`; planes: bytes a difference
    takes; text: base64 of the deflated third differences, strand by strand, x then y then z.
    """

    text: str
    quantum: float
    planes: int
    first: Ints


def quantum_of(diameter: float) -> float:
    """Step in mm that a rope's centre lines are rounded to."""
    return min(QUANTUM * diameter, MOST_QUANTUM_MM)


def packed(strands: Strands) -> Packed:
    """A state's centre lines, at most half a quantum off. Each strand must have four nodes or more."""
    quantum = quantum_of(strands.braid.diameter)
    lines = [np.round(strands.strand(k) / quantum).astype(np.int64).T for k in range(len(strands.points))]
    first = np.stack([line[:, :3] for line in lines])
    steps = np.concatenate([np.diff(line, n=3, axis=1).ravel() for line in lines])
    text, planes = planed(steps)
    return Packed(text, quantum, planes, first)


def planed(values: Ints) -> tuple[str, int]:
    """Whole numbers as text: zigzag, byte planes, deflate, base64; and the number of planes."""
    zigzag = np.where(values >= 0, 2 * values, -2 * values - 1).astype(np.uint64)
    planes = max(1, (int(zigzag.max(initial=0)).bit_length() + 7) // 8)
    table = [((zigzag >> np.uint64(8 * plane)) & np.uint64(255)).astype(np.uint8) for plane in range(planes)]
    content = b"".join(plane.tobytes() for plane in table)
    return base64.b64encode(zlib.compress(content, 9)).decode("ascii"), planes


@dataclass(frozen=True)
class PackedMesh:
    """A hard body as text: points' and corners' first differences, planed."""

    points: str
    faces: str
    point_planes: int
    face_planes: int


def packed_mesh(mesh: Mesh) -> PackedMesh:
    """A mesh whose points are at most half of MESH_QUANTUM_MM off."""
    places = np.round(mesh.points / MESH_QUANTUM_MM).astype(np.int64)
    points, point_planes = planed(np.diff(places, axis=0, prepend=np.zeros((1, 3), dtype=np.int64)).ravel())
    corners = np.asarray(mesh.faces, dtype=np.int64).ravel()
    faces, face_planes = planed(np.diff(corners, prepend=0))
    return PackedMesh(points, faces, point_planes, face_planes)


def packing_knots(packing: Floats) -> list[tuple[int, float]]:
    """Columns at which a piecewise linear packing changes slope, with its value there; straight between them."""
    knots = [0]
    while knots[-1] < len(packing) - 1:
        knots.append(_straight_to(packing, knots[-1]))
    return [(at, round(float(packing[at]), 5)) for at in knots]


def _straight_to(packing: Floats, start: int) -> int:
    """The last column that a straight line from `start` reaches within 1e-4 of the packing, found by halving."""
    low, high = start + 1, len(packing) - 1
    while low < high:
        middle = (low + high + 1) // 2
        line = np.linspace(packing[start], packing[middle], middle - start + 1)
        good = float(np.abs(line - packing[start : middle + 1]).max()) < 1e-4
        low, high = (middle, high) if good else (low, middle - 1)
    return low
