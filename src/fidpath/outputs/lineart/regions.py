"""A panel as flat regions: one for every piece of one surface that shows, with what it is made of.

Two pixels belong together where the same smooth surface shows at both and doesn't step back in between.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit
from fidpath.outputs.lineart.tones import Tone, vertex_tones
from fidpath.outputs.pictures import FINE, View, linked, root, weights

Labels = NDArray[np.int32]
Singles = NDArray[np.float32]

STEP = 3.0 * FINE
"""A drop of fewer pixels within one surface is never a step back."""

LEAN = 3.0
"""Nor is one of less than so many times what the surface's own slope makes of it."""

SPECK = round(3.5 * FINE**2)
"""Regions of fewer pixels are given to a neighbour."""

ROUNDS = 8
"""So often at most: each time a pixel more at their edges."""

EDGE = -1
"""Label beyond the panel's edge."""

TONES, GHOST, PAPER = len(Tone), int(Tone.GHOST), int(Tone.PAPER)


@dataclass(frozen=True)
class Regions:
    """Labels `(h, w) int32` from 0, and what each of them shows, `(n,)` each: its tone, its solid, and its station on
    the rope in mm (nan for what is not rope). Paper has the tone PAPER or GHOST, and solid -1.
    """

    label: Labels
    tone: Ints
    solid: Ints
    station: Floats


def regions(view: View, behind: Bools | None = None) -> Regions:
    """The regions of what a panel shows. `behind` `(h, w) bool` is the paper's tinted part."""
    bodies, face = view.bodies, view.face
    tone = bodies.spread([vertex_tones(solid) for solid in bodies.solids])
    piece = linked(bodies.faces, len(bodies.points))
    tinted = np.zeros(face.shape, dtype=bool) if behind is None else behind
    kind = _kinds(face, bodies.faces, view.points, tone, piece.astype(np.int32), tinted)
    label, first = _labelled(kind, face, view.front, bodies.faces, view.points, view.pixel)
    kept = _without_specks(label, len(first))
    shown, names = face.ravel()[first[kept]], kind.ravel()[first[kept]]
    there = shown >= 0
    corner = bodies.faces[shown, 0]
    return Regions(
        label,
        np.where(there, names % TONES + GHOST, names),
        np.where(there, bodies.solid[shown], -1),
        np.where(there, stations(view)[corner], np.nan),
    )


def stations(view: View) -> Floats:
    """The station of each of a view's vertices, `(v,)` mm, nan for what is not rope."""
    meshes = [solid.mesh for solid in view.bodies.solids]
    return view.bodies.spread([np.full(len(m.points), np.nan) if m.station is None else m.station for m in meshes])


@jit
def _kinds(face: Labels, faces: Labels, points: Singles, tone: Ints, piece: Labels, tinted: Bools) -> Labels:
    """What each pixel shows `(h, w)`: its surface's number times TONES, and its tone's above the least; on paper the
    tone itself."""
    height, width = face.shape
    kind = np.empty((height, width), dtype=np.int32)
    for row in range(height):
        for column in range(width):
            own = face[row, column]
            if own < 0:
                kind[row, column] = GHOST if tinted[row, column] else PAPER
                continue
            a, b, c = faces[own, 0], faces[own, 1], faces[own, 2]
            shown = tone[a]
            if tone[b] != shown or tone[c] != shown:
                shown = tone[_heaviest(a, b, c, points, tone, column + 0.5, row + 0.5)]
            kind[row, column] = piece[a] * TONES + shown - GHOST
    return kind


@jit
def _heaviest(a: int, b: int, c: int, points: Singles, tone: Ints, column: float, row: float) -> int:
    """The corner of a face whose tone has the most weight at a place in it."""
    u, v, w = weights(a, b, c, points, column, row)
    of_a = u + (v if tone[b] == tone[a] else 0.0) + (w if tone[c] == tone[a] else 0.0)
    of_b = v + (w if tone[c] == tone[b] else 0.0)
    if of_a >= of_b and of_a >= w:
        return a
    return b if of_b >= w else c


@jit
def _steepness(face: int, faces: Labels, points: Singles) -> float:
    """How steeply a face falls away from the viewer, mm a pixel."""
    a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
    bx, by, bz = points[b, 0] - points[a, 0], points[b, 1] - points[a, 1], points[b, 2] - points[a, 2]
    cx, cy, cz = points[c, 0] - points[a, 0], points[c, 1] - points[a, 1], points[c, 2] - points[a, 2]
    size = bx * cy - by * cx
    across, down = (bz * cy - cz * by) / size, (cz * bx - bz * cx) / size
    return float(np.sqrt(across * across + down * down))


@jit
def _labelled(
    kind: Labels, face: Labels, front: Singles, faces: Labels, points: Singles, pixel: float
) -> tuple[Labels, Ints]:
    """Every pixel's region, numbered from 0 as rows are read `(h, w)`, and the first pixel of each `(n,)`."""
    height, width = kind.shape
    kinds, faced, ahead = kind.ravel(), face.ravel(), front.ravel()
    label = np.arange(height * width, dtype=np.int32)
    for row in range(height):
        for column in range(width):
            here = own = row * width + column
            shown = kinds[here]
            for edge, before in ((column, here - 1), (row, here - width)):
                if edge == 0 or kinds[before] != shown:
                    continue
                drop = abs(ahead[before] - ahead[here]) if shown >= 0 else 0.0
                if drop > STEP * pixel:
                    steep = max(_steepness(faced[before], faces, points), _steepness(faced[here], faces, points))
                    if drop > LEAN * min(steep, 1e3 * pixel):
                        continue
                other = root(label, before)
                label[max(own, other)] = own = min(own, other)
            label[here] = own
    first = np.flatnonzero(label == np.arange(len(label), dtype=np.int32))
    found = 0
    for here in range(len(label)):
        if label[here] == here:
            label[here] = found
            found += 1
        else:
            label[here] = label[label[here]]
    return label.reshape(height, width), first


@jit
def _without_specks(label: Labels, count: int) -> Ints:
    """Gives pixels of regions smaller than SPECK to the largest neighbour and numbers the `count` regions anew, in
    place; which of them are left."""
    height, width = label.shape
    flat = label.ravel()
    size = np.zeros(count, dtype=np.int64)
    for here in flat:
        size[here] += 1
    left, small = size.copy(), np.flatnonzero(size < SPECK)
    spots = np.empty(size[small].sum(), dtype=np.int64)
    found = 0
    for place in range(len(flat)):
        if size[flat[place]] < SPECK:
            spots[found] = place
            found += 1
    for _ in range(ROUNDS):
        for place in spots:
            row, column = place // width, place % width
            here = best = flat[place]
            if size[here] >= SPECK:
                continue
            for down, right in ((-1, 0), (0, -1), (0, 1), (1, 0)):
                r, c = row + down, column + right
                if 0 <= r < height and 0 <= c < width and size[label[r, c]] > size[best]:
                    best = label[r, c]
            flat[place] = best
            left[here], left[best] = left[here] - 1, left[best] + 1
    number = np.cumsum(left > 0) - 1
    for place in range(len(flat)):
        flat[place] = number[flat[place]]
    return np.flatnonzero(left)
