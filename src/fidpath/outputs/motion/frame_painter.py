"""Frames of a film: solids shaded pixel by pixel on the processor, quick enough for hundreds, alike on every machine.

The light is that of the still pictures: two lamps beside the camera, crevices darkened, a line between strands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit
from fidpath.meshing import Mesh
from fidpath.outputs.lineart import smooth_pieces
from fidpath.outputs.pictures import Depths, Faces, fill
from fidpath.scene import PALETTE, Camera, Solid, colours_of

Picture = NDArray[np.uint8]

FINE = 2
"""Pixels painted to one shown, each way."""

LAMPS = ((-0.55, 0.75, 1.0, 0.66), (0.9, -0.25, 0.7, 0.29))
"""Directions to the lamps (right, up, toward the viewer) and their strengths."""

AMBIENT = 0.32

TILE, SAMPLES, FARTHEST, SLOPE = 4, 6, 1.5, 1.0
"""Crevices, as in `shading`: neighbours in a tile look different ways and share what they find."""

INK = 0.62
"""Strength of the line between strands."""


@dataclass(frozen=True)
class Bodies:
    """All that a frame shows as one: points, unit normals `(v, 3)`, colours `(v, 3)` 0 to 255, faces `(f, 3)`, and what
    each face belongs to `(f,)`: a line is drawn between different ones."""

    points: Floats
    normals: Floats
    colours: Floats
    faces: NDArray[np.signedinteger[Any]]
    group: Ints


def bodies(solids: Sequence[Solid]) -> Bodies:
    """Solids joined, edges of those without normals kept sharp."""
    parts, first = [], 0
    for solid in solids:
        if len(solid.mesh.faces):
            parts.append(_body(solid, first))
            first = int(parts[-1].group.max()) + 1
    start = np.cumsum([0, *(len(part.points) for part in parts)])
    return Bodies(
        np.concatenate([part.points for part in parts]),
        np.concatenate([part.normals for part in parts]),
        np.concatenate([part.colours for part in parts]),
        np.concatenate([part.faces + at for part, at in zip(parts, start, strict=False)], dtype=np.int32),
        np.concatenate([part.group for part in parts]),
    )


def _body(solid: Solid, first: int) -> Bodies:
    mesh = solid.mesh
    colours = colours_of(solid).astype(float)
    group = np.zeros(len(mesh.points), dtype=np.int64) if solid.group is None else solid.group
    own = group[mesh.faces[:, 0]] + first
    if mesh.normals is not None:
        return Bodies(mesh.points, mesh.normals, colours, mesh.faces, own)
    place, faces, normals = _sharp(mesh)
    return Bodies(mesh.points[place], normals, colours[place], faces, own)


def _sharp(mesh: Mesh) -> tuple[Ints, Ints, Floats]:
    """Points doubled along creases: which point each is `(m,)`, faces `(f, 3)` of them, and their normals `(m, 3)`."""
    piece = smooth_pieces(mesh)
    key = np.repeat(piece, 3) * len(mesh.points) + mesh.faces.ravel()
    names, place = np.unique(key, return_inverse=True)
    a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
    lean = np.repeat(np.cross(b - a, c - a), 3, axis=0)
    normal: Floats = np.column_stack([np.bincount(place, lean[:, i], len(names)) for i in range(3)]).astype(float)
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-12)
    return names % len(mesh.points), place.reshape(-1, 3), normal


def painted(shown: Bodies, camera: Camera, size: tuple[int, int], reach: float) -> Picture:
    """A frame `(h, w, 3) uint8` of size (w, h); reach: strand thickness in mm that crevices are judged by."""
    width, height = size
    right, up = np.asarray(camera.right), np.asarray(camera.up)
    turn = np.column_stack([right, up, camera.toward])
    scale = width * FINE / camera.width
    place = (shown.points - np.asarray(camera.middle)) @ turn
    flat = np.column_stack(
        [width * FINE / 2 + scale * place[:, 0], height * FINE / 2 - scale * place[:, 1], place[:, 2]]
    )
    front = np.full((height * FINE, width * FINE), -np.inf, dtype=np.float32)
    face = np.full(front.shape, -1, dtype=np.int32)
    faces = np.ascontiguousarray(shown.faces)
    fill(flat, faces, 0, face, front)
    light = _lit(shown.colours, shown.normals @ turn)
    open_ = _openness(np.ascontiguousarray(front[::FINE, ::FINE]), reach, camera.width / width)
    paper = np.asarray(PALETTE.paper, dtype=float)
    return _composed(face, front, flat, faces, light, shown.group, open_, paper, 0.3 * reach)


def _lit(colours: Floats, normals: Floats) -> Floats:
    """Colours `(v, 3)` as the lamps light them; normals `(v, 3)` in the camera's own axes."""
    light = np.full(len(normals), AMBIENT)
    shine = np.zeros(len(normals))
    for x, y, z, strength in LAMPS:
        lamp = np.array([x, y, z]) / np.sqrt(x * x + y * y + z * z)
        half = lamp + np.array([0.0, 0.0, 1.0])
        light += strength * np.maximum(normals @ lamp, 0.0)
        shine += strength * np.maximum(normals @ (half / np.linalg.norm(half)), 0.0) ** 18
    return np.asarray(np.minimum(colours * light[:, None] + 30 * shine[:, None], 255.0))


@jit
def _openness(front: Depths, reach: float, pixel: float) -> Depths:
    """How open each pixel lies `(h, w)`, 0 to 1: neighbours that stand nearer to the viewer shade it."""
    height, width = front.shape
    shade = np.zeros((height, width), dtype=np.float32)
    for row in range(height):
        for column in range(width):
            here = front[row, column]
            if here == -np.inf:
                continue
            phase = (row % TILE * TILE + column % TILE) * 5 % (TILE * TILE) / (TILE * TILE)
            found = 0.0
            for sample in range(SAMPLES):
                away = FARTHEST * reach * (sample + 0.5 + phase) / (SAMPLES + 1)
                angle = 2.399963 * sample + 2 * np.pi * phase
                dy, dx = round(away / pixel * np.sin(angle)), round(away / pixel * np.cos(angle))
                one = front[min(max(row + dy, 0), height - 1), min(max(column + dx, 0), width - 1)]
                other = front[min(max(row - dy, 0), height - 1), min(max(column - dx, 0), width - 1)]
                rise, fall = max(one - here, -1e6), min(here - other, 1e6)
                step = rise - min(max(fall, 0.0), SLOPE * away)
                found += min(max(step / away, 0.0), 1.0) * min(max(4 - rise / reach, 0.0), 1.0)
            shade[row, column] = found / SAMPLES
    return _shared(shade, front)


@jit
def _shared(shade: Depths, front: Depths) -> Depths:
    """Shades averaged over a tile, as openness."""
    height, width = shade.shape
    out = np.ones((height, width), dtype=np.float32)
    for row in range(height):
        for column in range(width):
            if front[row, column] == -np.inf:
                continue
            total, number = 0.0, 0
            for r in range(max(row - TILE // 2, 0), min(row + TILE // 2, height)):
                for c in range(max(column - TILE // 2, 0), min(column + TILE // 2, width)):
                    if front[r, c] > -np.inf:
                        total += shade[r, c]
                        number += 1
            out[row, column] = 1 - min(1.5 * total / number, 1.0)
    return out


@jit
def _composed(
    face: Faces,
    front: Depths,
    flat: Floats,
    faces: Faces,
    light: Floats,
    group: Ints,
    open_: Depths,
    paper: Floats,
    step: float,
) -> Picture:
    """The frame `(h, w, 3)`: lit colours between each face's corners, crevices and lines over them, pixels joined."""
    height, width = face.shape[0] // FINE, face.shape[1] // FINE
    out = np.empty((height, width, 3), dtype=np.uint8)
    total = np.zeros(3)
    for row in range(height):
        for column in range(width):
            total[:] = 0.0
            for r in range(row * FINE, row * FINE + FINE):
                for c in range(column * FINE, column * FINE + FINE):
                    number = face[r, c]
                    if number < 0:
                        total += paper
                        continue
                    a, b, d = faces[number, 0], faces[number, 1], faces[number, 2]
                    ax, ay = flat[a, 0] - c - 0.5, flat[a, 1] - r - 0.5
                    bx, by = flat[b, 0] - c - 0.5, flat[b, 1] - r - 0.5
                    dx, dy = flat[d, 0] - c - 0.5, flat[d, 1] - r - 0.5
                    u, v = bx * dy - by * dx, dx * ay - dy * ax
                    size = u + v + ax * by - ay * bx
                    u, v = u / size, v / size
                    ink = INK * _line(face, front, group, r, c, step)
                    dim = (1 - ink) * (0.34 + 0.66 * open_[row, column])
                    for k in range(3):
                        total[k] += dim * (u * light[a, k] + v * light[b, k] + (1 - u - v) * light[d, k]) + ink * 28
            for k in range(3):
                out[row, column, k] = np.uint8(min(total[k] / (FINE * FINE) + 0.5, 255.0))
    return out


@jit
def softened(picture: Picture) -> Picture:
    """Every pixel mixed a little with its neighbours: edges don't crawl as they move, and a quarter fewer bytes."""
    height, width = picture.shape[:2]
    across, out = picture.copy(), picture.copy()
    for row in range(height):
        for column in range(1, width - 1):
            for k in range(3):
                beside = int(picture[row, column - 1, k]) + int(picture[row, column + 1, k])
                across[row, column, k] = (beside + 4 * int(picture[row, column, k]) + 3) // 6
    for row in range(1, height - 1):
        for column in range(width):
            for k in range(3):
                beside = int(across[row - 1, column, k]) + int(across[row + 1, column, k])
                out[row, column, k] = (beside + 4 * int(across[row, column, k]) + 3) // 6
    return out


@jit
def _line(face: Faces, front: Depths, group: Ints, row: int, column: int, step: float) -> float:
    """How strongly a line shows at a pixel, 0 to 1: where a neighbour is of another group and lies behind it."""
    height, width = face.shape
    own = group[face[row, column]]
    most = 0.0
    for down, right in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        r, c = row + down, column + right
        if r < 0 or c < 0 or r >= height or c >= width:
            continue
        drop = front[row, column] - front[r, c]
        behind = min(max(drop / step, 0.0), 1.0)
        if face[r, c] >= 0 and group[face[r, c]] == own:
            behind *= 0.35
        elif drop >= 0:
            behind = max(behind, 0.55)
        most = max(most, behind)
    return most
