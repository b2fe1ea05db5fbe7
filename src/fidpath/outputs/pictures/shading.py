"""What makes a rendered rope readable: darker crevices and fine outlines, from the picture's depths and groups."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools
from fidpath.machine.compiled import jit

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]
Flags = Bools
Bytes = NDArray[np.uint8]

INK = (28, 26, 30)
"""The colour of outlines."""

SAMPLES = 24
"""Places round a pixel that are looked at."""

FARTHEST = 1.5
"""How far they lie at most, as a share of the strand's thickness."""

SLOPE = 1.0
"""Steepest lean, mm of depth to a mm across, that is told from a crevice."""

TILE = 4
"""Neighbouring pixels look in different directions, in a tile of so many each way, and share what they find:
otherwise the edge of a high body shows as a row of bands beside it."""


def crevices(depth: Floats, reach: float, pixel: float) -> Floats:
    """How open each pixel lies, `(h, w)` from 0 to 1 (unshaded).

    depth: `(h, w)` mm from the viewer, infinite where there is nothing. reach: mm, about a strand's thickness;
    pixel: mm. A neighbour that stands nearer to the viewer shades, less so when it stands much nearer (another
    body, not the side of a crevice), and only by what it rises above the slope on the pixel's other side: a flat
    face that leans is not a crevice.
    """
    there = np.isfinite(depth)
    far = np.where(there, depth, np.float32(1e6)).astype(np.float32)
    away, down, right = _spiral(reach, pixel)
    shade = _shades(far, there, away, down, right, np.float32(reach))
    weight = there.astype(np.float32)
    shared = _box(shade) / np.maximum(_box(weight), np.float32(1e-6))
    return np.where(there, 1 - np.minimum(1.5 * shared, 1), 1).astype(np.float32)


def _spiral(reach: float, pixel: float) -> tuple[Floats, Ints, Ints]:
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
def _shades(far: Floats, there: Flags, away: Floats, down: Ints, right: Ints, reach: np.float32) -> Floats:
    """Mean shade of every pixel `(h, w)`, 0 where there is nothing."""
    height, width = far.shape
    shade = np.zeros((height, width), dtype=np.float32)
    none, full = np.float32(0), np.float32(1)
    for row in range(height):
        for column in range(width):
            if not there[row, column]:
                continue
            place = row % TILE * TILE + column % TILE
            found = none
            for sample in range(SAMPLES):
                dy, dx = down[place, sample], right[place, sample]
                one = far[min(max(row + dy, 0), height - 1), min(max(column + dx, 0), width - 1)]
                other = far[min(max(row - dy, 0), height - 1), min(max(column - dx, 0), width - 1)]
                rise, fall = far[row, column] - one, other - far[row, column]
                step = rise - min(max(fall, none), np.float32(SLOPE) * away[place, sample])
                found += min(max(step / away[place, sample], none), full) * min(
                    max(np.float32(4) - rise / reach, none), full
                )
            shade[row, column] = found / np.float32(SAMPLES)
    return shade


def _box(image: Floats) -> Floats:
    """Mean over TILE x TILE pixels round each one, edges repeated."""
    padded = np.pad(image, ((TILE // 2, TILE // 2 - 1), (TILE // 2, TILE // 2 - 1)), mode="edge")
    height, width = image.shape
    across = np.sum([padded[:, i : i + width] for i in range(TILE)], axis=0)
    return np.asarray(np.sum([across[i : i + height] for i in range(TILE)], axis=0) / TILE**2, dtype=np.float32)


def outlines(depth: Floats, group: Ints, step: float, wide: int) -> Floats:
    """Strength of outlines `(h, w)` from 0 to 1: between groups that stand apart in depth, and round everything.

    step: mm of depth at which a line reaches its full strength; wide: half-width in pixels.
    """
    there = np.isfinite(depth)
    far = np.where(there, depth, np.float32(1e6)).astype(np.float32)
    return _inked(far, there, group, np.float32(step), wide)


@jit
def _inked(far: Floats, there: Flags, group: Ints, step: np.float32, wide: int) -> Floats:
    height, width = far.shape
    line = np.zeros((height, width), dtype=np.float32)
    none, full = np.float32(0), np.float32(1)
    for row in range(height):
        for column in range(width):
            if not there[row, column]:
                continue
            most = none
            for dy, dx in ((wide, 0), (-wide, 0), (0, wide), (0, -wide)):
                y, x = row + dy, column + dx
                if y < 0 or x < 0 or y >= height or x >= width:
                    continue
                drop = min(max((far[y, x] - far[row, column]) / step, none), full)
                other = group[y, x] != group[row, column]
                ink = max(drop, np.float32(0.55)) if other else np.float32(0.35) * drop
                most = max(most, ink)
            line[row, column] = most
    return line


@jit
def composed(colour: Bytes, openness: Floats, lines: Floats, fine: int) -> Bytes:
    """The picture `(h, w, 3)`: crevices darkened, outlines inked, every `fine` x `fine` pixels of them made one.

    colour: `(fine * h, fine * w, 3)`; openness: `(h, w)`; lines: `(fine * h, fine * w)`, both from 0 to 1.
    """
    height, width = openness.shape
    picture = np.empty((height, width, 3), dtype=np.uint8)
    for row in range(height):
        for column in range(width):
            shade = np.float32(0.34) + np.float32(0.66) * openness[row, column]
            for channel in range(3):
                ink = np.float32(INK[channel])
                total = np.float32(0)
                for y in range(row * fine, row * fine + fine):
                    for x in range(column * fine, column * fine + fine):
                        bright = shade * np.float32(colour[y, x, channel])
                        total += bright + (ink - bright) * np.float32(0.75) * lines[y, x]
                picture[row, column, channel] = np.uint8(np.rint(total / np.float32(fine * fine)))
    return picture
