"""Bodies made of round bars, and bodies with holes, each as one closed mesh. Boolean kernel: manifold3d."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.job.body import Bar, Circle
from fidpath.meshing.meshes import Mesh

AROUND = 64
"""Points round a bar."""


def bars_mesh(bars: Sequence[Bar]) -> Mesh:
    """One closed mesh of all bars, overlapping ones grown together."""
    from manifold3d import Manifold, OpType

    return _mesh(Manifold.batch_boolean([_solid(bar_mesh(bar)) for bar in bars], OpType.Add))


def drilled(body: Mesh, holes: Sequence[Circle], width: float) -> Mesh:
    """The body, `width` mm wide, with round holes along z."""
    from manifold3d import Manifold

    if not holes:
        return body
    solid = _solid(body)
    for hole in holes:
        drill = Manifold.cylinder(2 * width, hole.radius, hole.radius, 48, True)
        solid -= drill.translate((hole.x, hole.y, 0.0))
    return _mesh(solid)


def bar_mesh(bar: Bar) -> Mesh:
    """One bar's closed mesh: its section carried along its line, its ends flat, or the two joined to a ring."""
    line, radii = np.array(bar.line), np.array(bar.radii)
    closed = bool(np.allclose(line[0], line[-1])) and len(line) > 2
    if closed:
        line, radii = line[:-1], radii[:-1]
    along = _directions(line, closed)
    side = _side(along)
    turn = 2 * np.pi * np.arange(AROUND) / AROUND
    across = np.cross(side, along)
    spoke = np.cos(turn)[None, :, None] * across[:, None, :] + np.sin(turn)[None, :, None] * side
    points = (line[:, None, :] + radii[:, None, None] * spoke).reshape(-1, 3)
    index = np.arange(len(points)).reshape(len(line), AROUND)
    if closed:
        return Mesh(points, _sides(index, np.roll(index, -1, axis=0)))
    caps = [_cap(index[0], len(points)), _cap(index[-1, ::-1], len(points) + 1)]
    faces = np.concatenate([_sides(index[:-1], index[1:]), *caps])
    return Mesh(np.concatenate([points, line[[0, -1]]]), faces)


def _directions(line: Floats, closed: bool) -> Floats:
    """Unit directions `(n, 3)` of a line at its points, halfway between those of its neighbouring pieces."""
    if closed:
        steps = np.roll(line, -1, axis=0) - line
        before = np.roll(steps, 1, axis=0)
    else:
        steps = np.diff(line, axis=0, append=2 * line[-1:] - line[-2:-1])
        before = np.concatenate([steps[:1], steps[:-1]])
    mean = _units(steps) + _units(before)
    return _units(mean)


def _units(v: Floats) -> Floats:
    return np.asarray(v / np.linalg.norm(v, axis=-1, keepdims=True))


def _side(along: Floats) -> Floats:
    """The unit normal `(3,)` of the plane that a line with these directions lies in; any across a straight one."""
    normal = np.cross(along[0], along[int(np.abs(np.cross(along[0], along)).sum(axis=1).argmax())])
    if np.linalg.norm(normal) < 1e-9:
        normal = np.cross(along[0], np.eye(3)[int(np.abs(along[0]).argmin())])
    return _units(normal)


def _sides(here: Ints, ahead: Ints) -> Ints:
    """Triangles between rings of points and those ahead of them, each `(n, around)`."""
    next_here, next_ahead = np.roll(here, -1, axis=1), np.roll(ahead, -1, axis=1)
    one = np.stack([here, next_here, next_ahead], axis=-1)
    two = np.stack([here, next_ahead, ahead], axis=-1)
    return np.concatenate([one.reshape(-1, 3), two.reshape(-1, 3)])


def _cap(ring: Ints, hub: int) -> Ints:
    """A flat end's triangles about its hub; the ring runs clockwise seen from outside."""
    return np.column_stack([np.roll(ring, -1), ring, np.full(len(ring), hub)])


def _solid(mesh: Mesh) -> Any:
    from manifold3d import Manifold
    from manifold3d import Mesh as Body

    return Manifold(Body(mesh.points.astype(np.float32), mesh.faces.astype(np.uint32)))


def _mesh(solid: Any) -> Mesh:
    mesh = solid.to_mesh()
    return Mesh(np.asarray(mesh.vert_properties[:, :3], float), np.asarray(mesh.tri_verts, dtype=np.int64))
