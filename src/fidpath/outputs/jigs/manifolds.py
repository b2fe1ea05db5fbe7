"""Solids from manifold3d to meshes fit for a file: closed, of one body, on a grid fine enough for any printer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.meshing import Mesh, is_closed, volume
from fidpath.outputs.jigs.paths import SAGITTA, Outline, polygon

GRID = 1e-4
"""Points are rounded to this, mm: what a file's single-precision numbers still tell apart on any bed."""

LOOSEST = 4e-3
"""Slivers thinner than this, mm, may be taken out so that a solid stays closed on the grid."""

HAIR, ROUNDS = 3 * GRID, 4
"""Surfaces that touch are each drawn back by this, mm, and looked at again so many times at most."""

TANGENT = 0.002
"""A pen is so much wider to either side, mm: letters lie on a grid, and strokes that just touch leave a solid open."""

LEAST_STEPS = 128
"""Steps round the thinnest body: its volume is then 0.04 % short of the round one's."""


class NotClosed(CannotBeMade):
    """Surfaces of a solid touch along an edge, so that a reader of its file takes it for open."""


def region(outlines: Iterable[Outline], cutouts: Iterable[Outline] = ()) -> Any:
    """The plane region inside the outlines and outside the cutouts (a manifold3d CrossSection)."""
    solid = section([polygon(path) for path in outlines])
    holes = [polygon(path) for path in cutouts]
    return solid - section(holes) if holes else solid


def section(polygons: Sequence[Floats]) -> Any:
    """The plane region that counter-clockwise polygons `(m, 2)` cover together."""
    from manifold3d import CrossSection, FillRule

    return CrossSection([np.asarray(corners) for corners in polygons], FillRule.Positive)


def pen_strokes(lines: Iterable[Floats], pen: float) -> Any:
    """The plane region that a round pen of width `pen` mm covers along lines `(m, 2)`."""
    capsules = [_capsule(a, b, pen / 2 + TANGENT) for line in lines for a, b in pairwise(line) if (a != b).any()]
    return section(capsules).simplify(0.008)


def _capsule(start: Floats, end: Floats, radius: float, steps: int = 4) -> Floats:
    """Corners of a stroke with round ends, counter-clockwise."""
    way = float(np.arctan2(*(end - start)[::-1]))
    angle = way + np.pi / 2 + np.pi * np.arange(steps + 1) / steps
    half = radius * np.column_stack([np.cos(angle), np.sin(angle)])
    return np.concatenate([start + half, end - half])


def revolved(profile: Sequence[tuple[float, float]] | Floats, sagitta: float = SAGITTA) -> Any:
    """The body of a profile (distance from the axis, height) turned round z, `(m, 2)` mm, counter-clockwise."""
    from manifold3d import Manifold

    corners = np.asarray(profile, dtype=float)
    return Manifold.revolve(section([corners]), steps_round(float(corners[:, 0].max()), sagitta))


def steps_round(radius: float, sagitta: float = SAGITTA) -> int:
    """Steps round a circle whose chords stay within `sagitta` mm of it; a multiple of four."""
    return min(720, max(LEAST_STEPS, 4 * int(np.ceil(np.pi / np.arccos(max(1 - sagitta / radius, 0.5)) / 4))))


def extruded(plane: Any, bottom: float, top: float) -> Any:
    """A plane region drawn out from z = bottom to z = top, mm."""
    from manifold3d import Manifold

    return Manifold.extrude(plane, top - bottom).translate((0.0, 0.0, bottom))


def of_mesh(mesh: Mesh) -> Any:
    """A closed mesh as a solid of manifold3d. Raises CannotBeMade where it isn't one."""
    from manifold3d import Error, Manifold, Mesh64

    solid = Manifold(Mesh64(np.asarray(mesh.points, dtype=np.float64), np.asarray(mesh.faces, dtype=np.uint64)))
    if solid.status() != Error.NoError:
        raise CannotBeMade(
            "a surface that should be closed isn't", "This is a fault in fidpath: please report this job"
        )
    return solid


def closed(solid: Any, name: str) -> Mesh:
    """The solid as a mesh on the grid, lowered or raised so that it stands on z = 0.

    Raises CannotBeMade where it isn't one body, NotClosed where it isn't closed.
    """
    solid = solid.translate((0.0, 0.0, -solid.bounding_box()[2]))
    tolerance = GRID
    while tolerance <= LOOSEST:
        mesh = _on_grid(solid.simplify(tolerance))
        if len(mesh.faces) and is_closed(mesh) and volume(mesh) > 0:
            if bodies(mesh) != 1:
                raise CannotBeMade(
                    f"{name} falls into {bodies(mesh)} bodies", "This is a fault in fidpath: please report this job"
                )
            return mesh
        tolerance *= 3
    raise NotClosed(f"{name} isn't a closed solid", "This is a fault in fidpath: please report this job")


def _on_grid(solid: Any) -> Mesh:
    """Its triangles, points on the grid, those that fell together merged, triangles without area left out.

    Surfaces that touch are first moved apart by a hair: where they share points, a reader takes the solid for open.
    """
    raw = solid.to_mesh64()
    points, faces = np.array(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts).astype(np.int64)
    for _ in range(ROUNDS):
        unique, place = _distinct(np.round(points / GRID).astype(np.int64))
        touching = _touching(faces, place, len(unique))
        if not touching.any():
            break
        points[touching] -= HAIR * _normals(points, faces, touching)[touching]
    faces = place[faces]
    a, b, c = faces.T
    faces = faces[(a != b) & (b != c) & (c != a)]
    return Mesh(np.asarray(unique * GRID, dtype=np.float64), _ordered(faces))


def _distinct(rows: Ints) -> tuple[Ints, Ints]:
    """The distinct rows `(u, 3)` of whole numbers in order, and each row's place among them `(n,)`."""
    low = rows.min(axis=0)
    _, wide, high = (int(extent) for extent in np.ptp(rows, axis=0) + 1)
    x, y, z = (rows - low).T
    _, first, place = np.unique((x * wide + y) * high + z, return_index=True, return_inverse=True)
    return rows[first], place


def _touching(faces: Ints, place: Ints, count: int) -> Bools:
    """Corners that lie where others do that no edge of no length joins them to, `(n,) bool`."""
    shared = np.bincount(place, minlength=count)[place] > 1
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    joined = {frozenset(pair) for pair in edges[place[edges[:, 0]] == place[edges[:, 1]]].tolist()}
    found = np.zeros(len(place), dtype=bool)
    together: dict[int, list[int]] = {}
    for corner in np.flatnonzero(shared).tolist():
        together.setdefault(int(place[corner]), []).append(corner)
    for corners in together.values():
        found[corners] = [any({a, b} not in joined for b in corners if b != a) for a in corners]
    return found


def _normals(points: Floats, faces: Ints, wanted: Bools) -> Floats:
    """Unit outward normals `(n, 3)` at the wanted corners, by the area of the faces round each."""
    round_them = faces[wanted[faces].any(axis=1)]
    a, b, c = (points[round_them[:, i]] for i in range(3))
    normals = np.zeros_like(points)
    for i in range(3):
        np.add.at(normals, round_them[:, i], np.cross(b - a, c - a))
    return np.asarray(normals / np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-30))


def _ordered(faces: Ints) -> Ints:
    """The same faces each beginning at its least corner, sorted: bytes that don't hang on the order of the work."""
    first = faces.argmin(axis=1)
    turned = np.take_along_axis(faces, (first[:, None] + np.arange(3)) % 3, axis=1)
    return turned[np.lexsort(turned.T[::-1])]


def bodies(mesh: Mesh) -> int:
    """How many bodies a mesh consists of: faces that share a point belong together."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    ends = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]]])
    size = len(mesh.points)
    graph = coo_matrix((np.ones(len(ends), dtype=np.int8), (ends[:, 0], ends[:, 1])), shape=(size, size))
    return int(connected_components(graph, directed=False)[0])
