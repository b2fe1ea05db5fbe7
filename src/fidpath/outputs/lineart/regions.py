"""A panel as flat regions: one for every piece of one surface that shows, with what it is made of.

Two pixels belong together where the same smooth surface shows at both and doesn't step back in between.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.outputs.lineart.tones import Tone, vertex_tones
from fidpath.outputs.pictures import FINE, View, linked, root, weights

Labels = NDArray[np.int32]
Singles = NDArray[np.float32]
Marks = NDArray[np.uint8]

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
    seen = view.face, view.front, bodies.faces, view.points
    start, kind, rows = _runs(*seen, tone, piece.astype(np.int32), tinted, view.pixel)
    region, first = _joined(*seen, start, kind, rows, view.pixel)
    label, kept = _painted(region, start, face.shape, len(first))
    first = first[kept]
    shown, names = face.ravel()[start[first]], kind[first]
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
def _runs(
    face: Labels, front: Singles, faces: Labels, points: Singles, tone: Ints, piece: Labels, tinted: Bools, pixel: float
) -> tuple[Labels, Labels, Labels]:
    """Rows of pixels cut where another surface or tone begins, or the surface steps back.

    The first pixel of every run, pixels numbered as rows are read, and at the end the number of all, `(n + 1,)`; what
    each shows `(n,)`: its surface's number times TONES, and its tone's above the least, on paper the tone itself; and
    every row's first run, `(h + 1,)`.
    """
    height, width = face.shape
    start, kind = np.empty(face.size + 1, dtype=np.int32), np.empty(face.size, dtype=np.int32)
    rows, number, mark = np.zeros(height + 1, dtype=np.int32), 0, np.ones(width, dtype=np.uint8)
    for row in range(height):
        _mark(face[row], tinted[row], mark)
        last, mixed = GHOST - 1, False
        for column in range(width):
            if mark[column] == 0 and not mixed:
                continue
            own = face[row, column]
            if own < 0:
                here, mixed = GHOST if tinted[row, column] else PAPER, False
            else:
                a, b, c = faces[own, 0], faces[own, 1], faces[own, 2]
                shown = tone[a]
                mixed = tone[b] != shown or tone[c] != shown
                if mixed:
                    shown = tone[_heaviest(a, b, c, points, tone, column + 0.5, row + 0.5)]
                here = piece[a] * TONES + shown - GHOST
            same = here == last
            if not same or (own >= 0 and _steps_back(face, front, faces, points, pixel, row, column, row, column - 1)):
                start[number], kind[number] = row * width + column, here
                number += 1
            last = here
        rows[row + 1] = number
    start[number] = face.size
    return start[: number + 1].copy(), kind[:number].copy(), rows


@jit_part
def _mark(face: Labels, tinted: Bools, mark: Marks) -> None:
    """Marks pixels of a row, all `(w,)`, that may show something else than the one before, the first one apart.

    One face never steps back. Without branches, so that many pixels are looked at at once.
    """
    for column in range(1, len(face)):
        mark[column] = (face[column] != face[column - 1]) | (tinted[column] != tinted[column - 1])


@jit_part
def _heaviest(a: int, b: int, c: int, points: Singles, tone: Ints, column: float, row: float) -> int:
    """The corner of a face whose tone has the most weight at a place in it."""
    u, v, w = weights(a, b, c, points, column, row)
    of_a = u + (v if tone[b] == tone[a] else 0.0) + (w if tone[c] == tone[a] else 0.0)
    of_b = v + (w if tone[c] == tone[b] else 0.0)
    if of_a >= of_b and of_a >= w:
        return a
    return b if of_b >= w else c


@jit_part
def _steepness(face: int, faces: Labels, points: Singles) -> float:
    """How steeply a face falls away from the viewer, mm a pixel."""
    a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
    bx, by, bz = points[b, 0] - points[a, 0], points[b, 1] - points[a, 1], points[b, 2] - points[a, 2]
    cx, cy, cz = points[c, 0] - points[a, 0], points[c, 1] - points[a, 1], points[c, 2] - points[a, 2]
    size = bx * cy - by * cx
    across, down = (bz * cy - cz * by) / size, (cz * bx - bz * cx) / size
    return float(np.sqrt(across * across + down * down))


@jit_part
def _steps_back(
    face: Labels, front: Singles, faces: Labels, points: Singles, pixel: float, row: int, column: int, y: int, x: int
) -> bool:
    """Whether a surface steps back between two neighbouring pixels that show it."""
    drop = abs(front[y, x] - front[row, column])
    if drop <= STEP * pixel:
        return False
    steep = max(_steepness(face[y, x], faces, points), _steepness(face[row, column], faces, points))
    return bool(drop > LEAN * min(steep, 1e3 * pixel))


@jit
def _joined(
    face: Labels,
    front: Singles,
    faces: Labels,
    points: Singles,
    start: Labels,
    kind: Labels,
    rows: Labels,
    pixel: float,
) -> tuple[Labels, Labels]:
    """The region of each run `(n,)`, numbered from 0 as rows are read, and the first run of each region."""
    width = face.shape[1]
    parent = np.arange(len(kind), dtype=np.int32)
    for row in range(1, len(face)):
        above = rows[row - 1]
        for run in range(rows[row], rows[row + 1]):
            own = run
            while start[above + 1] + width <= start[run]:
                above += 1
            for other in range(above, rows[row]):
                first, after = max(start[other] + width, start[run]), min(start[other + 1] + width, start[run + 1])
                if first >= after:
                    break
                if kind[other] == kind[run] and _hang_together(
                    face, front, faces, points, kind[run], pixel, first, after
                ):
                    one = root(parent, other)
                    parent[max(own, one)] = own = min(own, one)
            parent[run] = own
    first_runs, found = np.empty(len(parent), dtype=np.int32), 0
    for run in range(len(parent)):
        if parent[run] == run:
            parent[run], first_runs[found] = found, run
            found += 1
        else:
            parent[run] = parent[parent[run]]
    return parent, first_runs[:found]


@jit_part
def _hang_together(
    face: Labels, front: Singles, faces: Labels, points: Singles, kind: int, pixel: float, first: int, after: int
) -> bool:
    """Whether of pixels from `first` to before `after`, in one row and of one kind, any belongs to the one above it."""
    width = face.shape[1]
    row, column = first // width, first % width
    for x in range(column, column + after - first):
        if kind < 0 or not _steps_back(face, front, faces, points, pixel, row, x, row - 1, x):
            return True
    return False


@jit
def _painted(region: Labels, start: Labels, shape: tuple[int, int], count: int) -> tuple[Labels, Ints]:
    """Every pixel's region `(h, w)`, of the `count` regions of runs; pixels of those smaller than SPECK are given to
    the largest neighbour. Which of the regions are left: they are numbered anew."""
    flat = np.empty(shape[0] * shape[1], dtype=np.int32)
    size = np.zeros(count, dtype=np.int64)
    for run in range(len(region)):
        for place in range(start[run], start[run + 1]):
            flat[place] = region[run]
        size[region[run]] += start[run + 1] - start[run]
    specks = 0
    for one in range(count):
        specks += int(size[one]) if size[one] < SPECK else 0
    spots, found = np.empty(specks, dtype=np.int64), 0
    for run in range(len(region)):
        if size[region[run]] < SPECK:
            for place in range(start[run], start[run + 1]):
                spots[found] = place
                found += 1
    label = flat.reshape(shape)
    left = _without_specks(label, size, spots)
    number, kept, many = np.empty(count, dtype=np.int32), np.empty(count, dtype=np.int64), 0
    for one in range(count):
        number[one], kept[many] = many, one
        many += 1 if left[one] > 0 else 0
    for run in range(len(region)):
        if size[region[run]] >= SPECK and number[region[run]] != region[run]:
            for place in range(start[run], start[run + 1]):
                flat[place] = number[region[run]]
    for spot in spots:
        flat[spot] = number[flat[spot]]
    return label, kept[:many]


@jit_part
def _without_specks(label: Labels, size: Ints, spots: Ints) -> Ints:
    """Gives pixels of specks, at `spots`, to the largest neighbour, in place; the regions' new sizes."""
    height, width = label.shape
    left = size.copy()
    for _ in range(ROUNDS):
        for place in spots:
            row, column = place // width, place % width
            here = best = label[row, column]
            if size[here] >= SPECK:
                continue
            for down, right in ((-1, 0), (0, -1), (0, 1), (1, 0)):
                r, c = row + down, column + right
                if 0 <= r < height and 0 <= c < width and size[label[r, c]] > size[best]:
                    best = label[r, c]
            label[row, column] = best
            left[here], left[best] = left[here] - 1, left[best] + 1
    return left
