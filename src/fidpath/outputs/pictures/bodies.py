"""A panel's solids as one body: what picture, line art and film frame are all drawn from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.meshing import Mesh
from fidpath.scene import Solid

Corners = NDArray[np.int32]
Values = TypeVar("Values", bound=NDArray[Any])

CREASE = 0.82
"""Cosine of the angle between neighbouring faces from which the edge between them is sharp."""


@dataclass(frozen=True)
class Bodies:
    """Solids joined: points and normals `(v, 3)`, vertices doubled along sharp edges; faces `(f, 3)` of them.

    origin: `(v,)`, the row of each in all vertices of the solids, in their order. group: `(f,)`, numbers between which
    a line is drawn. solid: `(f,)`, which of the solids each face belongs to.
    """

    solids: tuple[Solid, ...]
    points: Floats
    normals: Floats
    faces: Corners
    origin: Ints
    group: Corners
    solid: Corners

    def spread(self, values: Sequence[Values]) -> Values:
        """What the solids' own vertices have, given solid by solid, for every vertex here."""
        found: Values = np.concatenate(values)[self.origin]  # type: ignore[assignment]
        return found


def bodies_of(solids: Sequence[Solid]) -> Bodies:
    """Solids as one; those without normals get theirs here."""
    rows = [_smooth(solid.mesh) for solid in solids]
    groups = [_groups(solid) for solid in solids]
    vertex = np.cumsum([0, *(len(place) for place, _, _ in rows)])
    own = np.cumsum([0, *(len(solid.mesh.points) for solid in solids)])
    group = np.cumsum([0, *(int(of.max(initial=-1)) + 1 for of in groups)])
    return Bodies(
        tuple(solids),
        np.concatenate([solid.mesh.points[place] for solid, (place, _, _) in zip(solids, rows, strict=True)]),
        np.concatenate([normals for _, _, normals in rows]),
        np.concatenate([faces + at for (_, faces, _), at in zip(rows, vertex, strict=False)], dtype=np.int32),
        np.concatenate([place + at for (place, _, _), at in zip(rows, own, strict=False)]),
        np.concatenate([of + at for of, at in zip(groups, group, strict=False)], dtype=np.int32),
        np.repeat(np.arange(len(rows), dtype=np.int32), [len(faces) for _, faces, _ in rows]),
    )


def _groups(solid: Solid) -> Ints:
    """The group of every face, `(f,)`."""
    first = solid.mesh.faces[:, 0]
    return np.zeros(len(first), dtype=np.int64) if solid.group is None else solid.group[first]


def _smooth(mesh: Mesh) -> tuple[Ints, Any, Floats]:
    """A mesh's vertices, doubled along its creases if it has no normals: which point each is `(m,)`, faces `(f, 3)` of
    them, their unit normals `(m, 3)`."""
    if mesh.normals is not None:
        return np.arange(len(mesh.points)), mesh.faces, mesh.normals
    lean = _leans(mesh)
    key = np.repeat(_smooth_pieces(mesh, lean), 3) * len(mesh.points) + mesh.faces.ravel()
    names, place = np.unique(key, return_inverse=True)
    each = np.repeat(lean * np.linalg.norm(lean, axis=1, keepdims=True), 3, axis=0)  # a bevel leaves a flat face flat
    normal = np.column_stack([np.bincount(place.ravel(), each[:, i], len(names)) for i in range(3)]).astype(float)
    return names % max(len(mesh.points), 1), place.reshape(-1, 3), _units(normal)


def _leans(mesh: Mesh) -> Floats:
    """Normals of faces, as long as twice their area, `(f, 3)`."""
    a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
    return np.cross(b - a, c - a)


def _units(rows: Floats) -> Floats:
    return np.asarray(rows / np.maximum(np.linalg.norm(rows, axis=1, keepdims=True), 1e-12))


def _smooth_pieces(mesh: Mesh, lean: Floats) -> Ints:
    """Which faces `(f,)` lie in one surface without a crease."""
    edges = np.sort(np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]]), axis=1)
    owner = np.tile(np.arange(len(mesh.faces)), 3)
    order = np.lexsort((edges[:, 1], edges[:, 0]))
    same = (edges[order[1:]] == edges[order[:-1]]).all(axis=1)
    pairs = np.column_stack([owner[order[:-1]], owner[order[1:]]])[same]
    normal = _units(lean)
    flat = np.einsum("ij,ij->i", normal[pairs[:, 0]], normal[pairs[:, 1]]) > CREASE
    return linked(pairs[flat].astype(np.int32), len(mesh.faces))


@jit
def linked(groups: Corners, count: int) -> Ints:
    """Which of `count` things hang together `(count,)`, numbered from 0; each row of `groups` does."""
    parent = np.arange(count)
    for row in range(len(groups)):
        a = root(parent, groups[row, 0])
        for column in range(1, groups.shape[1]):
            b = root(parent, groups[row, column])
            a, b = min(a, b), max(a, b)
            parent[b] = a
    found = 0
    for i in range(count):
        if parent[i] == i:
            parent[i] = found
            found += 1
        else:
            parent[i] = parent[parent[i]]
    return parent


@jit_part
def root(parent: NDArray[Any], i: int) -> int:
    """The first of all that hang together with `i`; each one's `parent` is itself or an earlier one."""
    while parent[i] != i:
        parent[i] = parent[parent[i]]
        i = parent[i]
    return i
