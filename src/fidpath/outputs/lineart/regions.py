"""A panel as flat regions: one for every piece of one surface that shows, with what it is made of.

Two pixels belong together where the same smooth surface shows at both and doesn't step back in between.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit
from fidpath.meshing import Mesh
from fidpath.outputs.lineart.tones import Tone, vertex_tones
from fidpath.outputs.pictures import Depths, Faces, Visible
from fidpath.scene import Panel, Solid, project

Labels = NDArray[np.int32]

CREASE = 0.82
"""Cosine of the angle between neighbouring faces from which an edge between them is drawn."""

STEP = 6.0
"""A drop of fewer pixels within one surface is never a step back."""

LEAN = 3.0
"""Nor is one of less than so many times what the surface's own slope makes of it."""

SPECK = 14
"""Regions of fewer pixels are given to a neighbour."""

EDGE = -1
"""Label beyond the panel's edge."""


@dataclass(frozen=True)
class Surface:
    """What each face of a panel belongs to, `(f,)` each: the piece of smooth surface, the tone, the solid; its station
    on the rope in mm (nan for what is not rope), and its slope, mm toward the viewer a mm across.

    mixed: `(f,) bool`, faces whose corners differ in tone; of these alone, `corners` `(m, 3, 2)` page pixels and
    `tones` `(m, 3)`.
    """

    patch: Ints
    tone: Ints
    solid: Ints
    station: Floats
    slope: Floats
    mixed: Bools
    corners: Floats
    tones: Ints


@dataclass(frozen=True)
class Regions:
    """Labels `(h, w) int32` from 0, and for each of them what it shows, `(n,)` each, as in `Surface`.

    Paper has tone PAPER and solid -1.
    """

    label: Labels
    tone: Ints
    solid: Ints
    station: Floats


def surface(panel: Panel) -> Surface:
    """What the faces of a panel's solids belong to, in their order."""
    parts = [_surface(panel, number, solid) for number, solid in enumerate(panel.solids)]
    start = np.cumsum([0, *(int(part.patch.max(initial=-1)) + 1 for part in parts)])
    return Surface(
        np.concatenate([part.patch + first for part, first in zip(parts, start, strict=False)]),
        np.concatenate([part.tone for part in parts]),
        np.concatenate([part.solid for part in parts]),
        np.concatenate([part.station for part in parts]),
        np.concatenate([part.slope for part in parts]),
        np.concatenate([part.mixed for part in parts]),
        np.concatenate([part.corners for part in parts]),
        np.concatenate([part.tones for part in parts]),
    )


def _surface(panel: Panel, number: int, solid: Solid) -> Surface:
    mesh = solid.mesh
    first = mesh.faces[:, 0]
    station = np.full(len(first), np.nan) if mesh.station is None else mesh.station[first]
    patch = smooth_pieces(mesh) if mesh.normals is None else _linked(mesh.faces, len(mesh.points))[first]
    tones = vertex_tones(solid)[mesh.faces]
    mixed = (tones != tones[:, :1]).any(axis=1)
    corners = project(panel, mesh.points[mesh.faces[mixed].ravel()]).reshape(-1, 3, 2)
    return Surface(
        patch,
        tones[:, 0],
        np.full(len(first), number),
        station,
        _slopes(panel, mesh),
        mixed,
        corners,
        tones[mixed],
    )


def _slopes(panel: Panel, mesh: Mesh) -> Floats:
    """How steeply each face falls away from the viewer, `(f,)`."""
    normal = _face_normals(mesh)
    ahead = np.abs(normal @ panel.camera.toward)
    return np.asarray(np.sqrt(np.maximum(1 - ahead**2, 0.0)) / np.maximum(ahead, 1e-3))


def _face_normals(mesh: Mesh) -> Floats:
    a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
    normal = np.cross(b - a, c - a)
    return np.asarray(normal / np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-12))


def smooth_pieces(mesh: Mesh) -> Ints:
    """Which faces `(f,)` lie in one surface without a crease."""
    normal = _face_normals(mesh)
    edges = np.sort(np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]]), axis=1)
    owner = np.tile(np.arange(len(mesh.faces)), 3)
    order = np.lexsort((edges[:, 1], edges[:, 0]))
    same = (edges[order[1:]] == edges[order[:-1]]).all(axis=1)
    pairs = np.column_stack([owner[order[:-1]], owner[order[1:]]])[same]
    flat = np.einsum("ij,ij->i", normal[pairs[:, 0]], normal[pairs[:, 1]]) > CREASE
    return _linked(np.ascontiguousarray(pairs[flat]), len(mesh.faces))


@jit
def _root(parent: Ints, i: int) -> int:
    while parent[i] != i:
        parent[i] = parent[parent[i]]
        i = parent[i]
    return i


@jit
def _linked(groups: Ints, count: int) -> Ints:
    """Which of `count` things hang together `(count,)`, numbered from 0; each row of `groups` does."""
    parent = np.arange(count)
    for row in range(len(groups)):
        a = _root(parent, groups[row, 0])
        for column in range(1, groups.shape[1]):
            b = _root(parent, groups[row, column])
            a, b = min(a, b), max(a, b)
            parent[b] = a
    name = np.empty(count, dtype=np.int64)
    found = 0
    for i in range(count):
        if parent[i] == i:
            name[i] = found
            found += 1
        else:
            name[i] = name[_root(parent, i)]
    return name


def regions(seen: Visible, faces: Surface, panel: Panel, behind: Bools | None = None) -> Regions:
    """The regions of what a panel shows. `behind` `(h, w) bool` is the paper's tinted part."""
    fine = seen.face.shape[1] / panel.box[2]
    pixel = 1 / (panel.scale * fine)
    paper = seen.face < 0
    patch = np.where(paper, -1, faces.patch[seen.face]).astype(np.int32)
    tone = _pixel_tones(seen.face, faces, panel, fine)
    if behind is not None:
        patch[paper & behind] = -2
    slope = np.where(paper, 0.0, faces.slope[seen.face]).astype(np.float32)
    label = _labelled(patch, tone, seen.front, slope, pixel)
    size = np.bincount(label.ravel())
    for _ in range(8):
        if not _absorbed(label, size, SPECK):
            break
    return _named(label, seen.face, faces, tone, patch)


def _pixel_tones(face: Faces, faces: Surface, panel: Panel, fine: float) -> Labels:
    """The tone that each pixel shows `(h, w)`, 0 for paper: between corners, the tone with the most weight there."""
    tone = np.where(face < 0, 0, faces.tone[face]).astype(np.int32)
    rows, columns = np.nonzero((face >= 0) & faces.mixed[face])
    row = (np.cumsum(faces.mixed) - 1)[face[rows, columns]]
    place = np.column_stack([columns, rows]) + 0.5
    corner = (faces.corners[row] - np.array(panel.box[:2])) * fine - place[:, None]
    x, y = corner[..., 0], corner[..., 1]
    after = np.roll(np.arange(3), -1)
    weight = np.abs(x[:, after] * y[:, np.roll(after, -1)] - y[:, after] * x[:, np.roll(after, -1)])
    own = faces.tones[row]
    most = (weight[:, None] * (own[:, None] == own[:, :, None])).sum(axis=2).argmax(axis=1)
    tone[rows, columns] = own[np.arange(len(own)), most]
    return tone


def _named(label: Labels, face: Faces, faces: Surface, tone: Labels, patch: Labels) -> Regions:
    """Labels numbered without gaps, and what each of them shows, read at its first pixel."""
    used = np.zeros(label.size, dtype=bool)
    used[label.ravel()] = True
    names = np.flatnonzero(used)
    shown = face.ravel()[names]
    there = shown >= 0
    tinted = patch.ravel()[names] == -2
    return Regions(
        (np.cumsum(used) - 1).astype(np.int32)[label],
        np.where(there, tone.ravel()[names], np.where(tinted, Tone.GHOST, Tone.PAPER)).astype(np.int64),
        np.where(there, faces.solid[shown], -1),
        np.where(there, faces.station[shown], np.nan),
    )


@jit
def _labelled(patch: Labels, tone: Labels, front: Depths, slope: Depths, pixel: float) -> Labels:
    """For every pixel the first pixel of its region, `(h, w)`, as rows are read."""
    height, width = patch.shape
    parent = np.arange(height * width)
    for row in range(height):
        for column in range(width):
            for back, up in ((1, 0), (0, 1)):
                r, c = row - up, column - back
                if r < 0 or c < 0 or patch[r, c] != patch[row, column] or tone[r, c] != tone[row, column]:
                    continue
                drop = abs(front[r, c] - front[row, column]) if patch[row, column] >= 0 else 0.0
                most = max(slope[r, c], slope[row, column]) * LEAN
                if drop <= pixel * max(STEP, most):
                    a, b = _root(parent, r * width + c), _root(parent, row * width + column)
                    parent[max(a, b)] = min(a, b)
    label = np.empty((height, width), dtype=np.int32)
    for place in range(height * width):
        parent[place] = parent[parent[place]]
        label[place // width, place % width] = parent[place]
    return label


@jit
def _absorbed(label: Labels, size: Ints, least: int) -> int:
    """Gives pixels of regions smaller than `least` to the largest neighbour, in place; how many were given."""
    height, width = label.shape
    given = 0
    for row in range(height):
        for column in range(width):
            here = label[row, column]
            if size[here] >= least:
                continue
            best = here
            for down, right in ((-1, 0), (0, -1), (0, 1), (1, 0)):
                r, c = row + down, column + right
                if 0 <= r < height and 0 <= c < width and size[label[r, c]] > size[best]:
                    best = label[r, c]
            given += best != here
            label[row, column] = best
    return given
