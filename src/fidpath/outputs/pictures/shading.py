"""What makes a drawn rope readable: two lamps, darker crevices, fine outlines, from what each pixel shows."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats
from fidpath.machine.compiled import jit, jit_part
from fidpath.outputs.pictures.bodies import Corners
from fidpath.outputs.pictures.raster import Singles
from fidpath.scene import Colour

Ints = NDArray[np.int32]
Bytes = NDArray[np.uint8]

INK = (28.0, 26.0, 30.0)
"""The colour of outlines."""

INKED, ALONE, BESIDE = 0.75, 0.35, 0.55
"""Strength of outlines; of those within one group, in it; the least of those between two."""

LAMPS = tuple(
    (
        x / np.sqrt(x * x + y * y + z * z),
        y / np.sqrt(x * x + y * y + z * z),
        z / np.sqrt(x * x + y * y + z * z),
        strength,
    )
    for x, y, z, strength in ((-0.55, 0.75, 1.0, 0.92), (0.9, -0.25, 0.7, 0.40))
)
"""Unit directions to the lamps (right, up, toward the viewer), and their strengths."""

SHINE = 18
"""How narrow highlights are."""

DARKEST = 0.34
"""What is left of a colour in the deepest crevice."""

ALIKE = 0.9
"""Cosine of the angle between two faces of one group up to which they are lit as one within a pixel of the page."""

SAMPLES = 24
"""Places round a pixel that are looked at for crevices."""

FARTHEST = 1.5
"""How far they lie at most, as a share of the strand's thickness."""

SLOPE = 1.0
"""Steepest lean, mm of depth to a mm across, that is told from a crevice."""

TILE = 4
"""Neighbouring pixels look in different directions, in a tile of so many each way, and share what they find:
otherwise the edge of a high body shows as a row of bands beside it."""


def crevices(front: Singles, reach: float, pixel: float) -> Singles:
    """How open each pixel lies, `(h, w)` from 0 to 1 (unshaded).

    front: `(h, w)` mm toward the viewer, -inf where there is nothing. reach: mm, about a strand's thickness;
    pixel: mm. A neighbour that stands nearer to the viewer shades, less so when it stands much nearer (another
    body, not the side of a crevice), and only by what it rises above the slope on the pixel's other side: a flat
    face that leans is not a crevice.
    """
    shade = _shades(front, *_spiral(reach, pixel), np.float32(reach))
    return _openness(front, shade)


def _spiral(reach: float, pixel: float) -> tuple[Singles, Ints, Ints]:
    """Where each pixel of a tile looks, `(TILE * TILE, SAMPLES)`: how far in mm, and rows and columns away.

    Every pixel of a tile looks along the same spiral, turned by a share of its own.
    """
    turn = (np.arange(TILE**2) * 5 % TILE**2 / TILE**2)[:, None]
    sample = np.arange(SAMPLES)[None, :]
    away = FARTHEST * (sample + 0.5 + turn) / (SAMPLES + 1) * reach
    angle = 2.399963 * sample + 2 * np.pi * turn
    down, right = (np.rint(away / pixel * f).astype(np.int32) for f in (np.sin(angle), np.cos(angle)))
    return away.astype(np.float32), down, right


@jit
def _shades(front: Singles, away: Singles, down: Ints, right: Ints, reach: np.float32) -> Singles:
    """Mean shade of every pixel `(h, w)`, 0 where there is nothing."""
    height, width = front.shape
    shade = np.zeros((height, width), dtype=np.float32)
    none, full = np.float32(0), np.float32(1)
    for row in range(height):
        for column in range(width):
            if front[row, column] == -np.inf:
                continue
            place = row % TILE * TILE + column % TILE
            here, found = front[row, column], none
            for sample in range(SAMPLES):
                dy, dx = down[place, sample], right[place, sample]
                one = front[min(max(row + dy, 0), height - 1), min(max(column + dx, 0), width - 1)]
                rise = one - here
                if rise <= none:
                    continue
                other = front[min(max(row - dy, 0), height - 1), min(max(column - dx, 0), width - 1)]
                step = rise - min(max(here - other, none), np.float32(SLOPE) * away[place, sample])
                found += min(max(step / away[place, sample], none), full) * min(
                    max(np.float32(4) - rise / reach, none), full
                )
            shade[row, column] = found / np.float32(SAMPLES)
    return shade


@jit
def _openness(front: Singles, shade: Singles) -> Singles:
    """How open each pixel lies `(h, w)`, by the mean shade of TILE x TILE pixels round it, edges repeated."""
    height, width = front.shape
    openness = np.ones((height, width), dtype=np.float32)
    half, one = TILE // 2, np.float32(1)
    for row in range(height):
        for column in range(width):
            if front[row, column] == -np.inf:
                continue
            dark, there = np.float32(0), np.float32(0)
            for down in range(-half, TILE - half):
                y = min(max(row + down, 0), height - 1)
                along, count = np.float32(0), np.float32(0)
                for right in range(-half, TILE - half):
                    x = min(max(column + right, 0), width - 1)
                    along += shade[y, x]
                    count += np.float32(front[y, x] > -np.inf)
                dark, there = dark + along, there + count
            shared = dark / there
            openness[row, column] = one - min(np.float32(1.5) * shared, one)
    return openness


@jit_part
def _span(face: Corners, first: int, after: int) -> tuple[int, int]:
    """The columns, from the first on and to before the last, that show something in any of some rows."""
    low, high = face.shape[1], 0
    for row in range(first, after):
        column = 0
        while column < low and face[row, column] < 0:
            column += 1
        low, column = column, face.shape[1]
        while column > high and face[row, column - 1] < 0:
            column -= 1
        high = column
    return low, high


@jit
def ink_rows(
    face: Corners,
    front: Singles,
    group: Ints,
    first: int,
    span: tuple[int, int],
    pen: tuple[int, float, float],
    kin: Ints,
    ink: Floats,
) -> None:
    """Strength of the outline at pixels that show something, from the row `first` on, into `ink` `(rows, w)`: between
    groups that stand apart in depth, and round everything.

    group: `(f,)`, of each face; span: the columns that show something; pen: half-width of a line in pixels, mm of depth
    at which it reaches its full strength, and that. kin: `(2 pen[0] + rows, w)`, room for the groups of pixels: looked
    up once, so that many pixels are done at a time.
    """
    height, width, wide = len(face), face.shape[1], pen[0]
    low, high = max(span[0] - wide, 0), min(span[1] + wide, width)
    for k in range(len(kin)):
        y = min(max(first + k - wide, 0), height - 1)
        for column in range(low, high):
            kin[k, column] = group[face[y, column]] if face[y, column] >= 0 else -1
    for k in range(len(ink)):
        up, down = max(first + k - wide, 0), min(first + k + wide, height - 1)
        rows = front[up], front[first + k], front[down], kin[k], kin[k + wide], kin[k + 2 * wide]
        for column in range(span[0], min(wide, span[1])):
            ink[k, column] = pen[2] * _ink(rows, column, 0, min(column + wide, width - 1), pen[1])
        for column in range(max(span[0], wide), min(span[1], width - wide)):
            ink[k, column] = pen[2] * _ink(rows, column, column - wide, column + wide, pen[1])
        for column in range(max(width - wide, wide, span[0]), span[1]):
            ink[k, column] = pen[2] * _ink(rows, column, column - wide, width - 1, pen[1])


@jit
def _ink(
    rows: tuple[Singles, Singles, Singles, Ints, Ints, Ints], column: int, left: int, right: int, step: float
) -> float:
    """The outline's strength at a column of a row, from depths and groups above, in and below that row."""
    up, own, down, kin_up, kin, kin_down = rows
    here, kind = own[column], kin[column]
    alone, beside = np.float32(0), np.float32(-np.inf)
    for other, apart in (
        (up[column], kin_up[column] != kind),
        (down[column], kin_down[column] != kind),
        (own[left], kin[left] != kind),
        (own[right], kin[right] != kind),
    ):
        drop = here - other
        alone = max(alone, np.float32(0) if apart else drop)
        beside = max(beside, drop if apart else np.float32(-np.inf))
    inside = ALONE * min(np.divide(alone, step), 1.0)
    between = max(min(np.divide(beside, step), 1.0), BESIDE)
    return float(max(inside, between) if beside > -np.inf else inside)


@jit_part
def weights(a: int, b: int, c: int, points: Singles, column: float, row: float) -> tuple[float, float, float]:
    """How much of each corner of a face there is at a place of the picture."""
    ax, ay = points[a, 0] - column, points[a, 1] - row
    bx, by = points[b, 0] - column, points[b, 1] - row
    cx, cy = points[c, 0] - column, points[c, 1] - row
    u, v, w = bx * cy - by * cx, cx * ay - cy * ax, ax * by - ay * bx
    whole = 1 / (u + v + w)
    return u * whole, v * whole, w * whole


class Lit(NamedTuple):
    """What is shaded: points (in fine pixels), normals and colours `(v, 3)` of vertices; faces `(f, 3)`, their groups
    `(f,)` and looks `(f, 4)`.

    A look: how much of the light from all sides, of the lamps', and of that as highlights a face gives back, and the
    share of the way to white that it is lightened by.
    """

    points: Singles
    normals: Singles
    colours: Bytes
    faces: Corners
    group: Ints
    looks: Singles


@jit_part
def _light(
    face: int,
    column: float,
    row: float,
    points: Singles,
    normals: Singles,
    colours: Bytes,
    faces: Corners,
    looks: Singles,
) -> tuple[float, float, float]:
    """A face's colour at a place of the picture, as the lamps light it, 0 to 255."""
    a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
    u, v, w = weights(a, b, c, points, column, row)
    x = u * normals[a, 0] + v * normals[b, 0] + w * normals[c, 0]
    y = u * normals[a, 1] + v * normals[b, 1] + w * normals[c, 1]
    z = u * normals[a, 2] + v * normals[b, 2] + w * normals[c, 2]
    shorter = 1 / np.sqrt(x * x + y * y + z * z + 1e-12)
    light, shine, lift = np.float64(looks[face, 0]), 0.0, looks[face, 3]
    for right, up, ahead, strength in LAMPS:
        facing = (x * right + y * up + z * ahead) * shorter
        if facing > 0:
            light += looks[face, 1] * strength * facing
            gleam = 2 * facing * z * shorter - ahead
            if gleam > 0:
                shine += looks[face, 2] * 255 * strength * gleam**SHINE
    red = u * colours[a, 0] + v * colours[b, 0] + w * colours[c, 0]
    green = u * colours[a, 1] + v * colours[b, 1] + w * colours[c, 1]
    blue = u * colours[a, 2] + v * colours[b, 2] + w * colours[c, 2]
    return (
        lift * 255 + (1 - lift) * min(red * light + shine, 255.0),
        lift * 255 + (1 - lift) * min(green * light + shine, 255.0),
        lift * 255 + (1 - lift) * min(blue * light + shine, 255.0),
    )


@jit_part
def _alike(face: int, other: int, faces: Corners, group: Ints, n: Singles) -> bool:
    """Whether two faces that show in one of the page's pixels can be lit as one."""
    a, b = faces[face, 0], faces[other, 0]
    facing = n[a, 0] * n[b, 0] + n[a, 1] * n[b, 1] + n[a, 2] * n[b, 2]
    return bool(group[face] == group[other] and facing > ALIKE)


@jit
def shaded(
    face: Corners, front: Singles, body: Lit, openness: Singles, paper: Colour, pen: tuple[int, float, float]
) -> Bytes:
    """The picture `(h, w, 3)`: faces lit, crevices darkened, outlines inked, fine pixels joined to the page's.

    openness: `(h, w)` from 0 to 1; pen: half-width of outlines in fine pixels, mm of depth at which they are full, and
    their strength. A face is lit once in each of the page's pixels, and so are those like it.
    """
    points, normals, colours, faces, group, looks = body
    height, width = openness.shape
    fine = len(face) // height
    picture = np.empty((height, width, 3), dtype=np.uint8)
    picture[:, :, 0], picture[:, :, 1], picture[:, :, 2] = paper[0], paper[1], paper[2]
    kin, ink = np.empty((2 * pen[0] + fine, face.shape[1]), dtype=np.int32), np.empty((fine, face.shape[1]))
    for row in range(height):
        top = row * fine
        span = _span(face, top, top + fine)
        ink_rows(face, front, group, top, span, pen, kin, ink)
        for column in range(span[0] // fine, -(-span[1] // fine)):
            shade, lit = DARKEST + (1 - DARKEST) * openness[row, column], -1
            red, green, blue, reds, greens, blues = 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
            for y in range(top, top + fine):
                for x in range(column * fine, column * fine + fine):
                    own, line = face[y, x], ink[y - top, x]
                    if own < 0:
                        reds, greens, blues = reds + paper[0], greens + paper[1], blues + paper[2]
                        continue
                    if lit < 0 or (own != lit and not _alike(own, lit, faces, group, normals)):
                        red, green, blue = _light(own, x + 0.5, y + 0.5, points, normals, colours, faces, looks)
                        lit = own
                    reds += shade * red * (1 - line) + INK[0] * line
                    greens += shade * green * (1 - line) + INK[1] * line
                    blues += shade * blue * (1 - line) + INK[2] * line
            picture[row, column, 0] = np.uint8(reds / (fine * fine) + 0.5)
            picture[row, column, 1] = np.uint8(greens / (fine * fine) + 0.5)
            picture[row, column, 2] = np.uint8(blues / (fine * fine) + 0.5)
    return picture
