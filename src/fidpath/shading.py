"""What makes a rendered rope readable: darker crevices and fine outlines, from the picture's depths and groups."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]

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
    shade = np.zeros(depth.shape, dtype=np.float32)
    for down in range(TILE):
        for right in range(TILE):
            phase = (down * TILE + right) * 5 % TILE**2 / TILE**2
            shade[down::TILE, right::TILE] = _shade(far, (down, right), phase, reach, pixel)
    weight = there.astype(np.float32)
    shared = _box(shade * weight) / np.maximum(_box(weight), np.float32(1e-6))
    return np.where(there, 1 - np.minimum(1.5 * shared, 1), 1).astype(np.float32)


def _shade(far: Floats, start: tuple[int, int], phase: float, reach: float, pixel: float) -> Floats:
    """Mean shade of every TILE-th pixel from `start`, looked for along a spiral turned by `phase`, 0 to 1."""
    height, width = far.shape
    rows, columns = np.arange(start[0], height, TILE), np.arange(start[1], width, TILE)
    here = far[rows][:, columns]
    shade = np.zeros(here.shape, dtype=np.float32)
    for sample in range(SAMPLES):
        share = (sample + 0.5 + phase) / (SAMPLES + 1)
        away, angle = FARTHEST * share * reach, 2.399963 * sample + 2 * np.pi * phase
        dy, dx = (round(float(away / pixel * f)) for f in (np.sin(angle), np.cos(angle)))
        rise, fall = (here - _beside(far, rows, columns, dy, dx), _beside(far, rows, columns, -dy, -dx) - here)
        step = rise - np.clip(fall, 0, SLOPE * away)
        shade += np.clip(step / np.float32(away), 0, 1) * np.clip(4 - rise / np.float32(reach), 0, 1)
    return np.asarray(shade / SAMPLES, dtype=np.float32)


def _beside(far: Floats, rows: NDArray[np.int64], columns: NDArray[np.int64], dy: int, dx: int) -> Floats:
    height, width = far.shape
    return far[np.clip(rows + dy, 0, height - 1)][:, np.clip(columns + dx, 0, width - 1)]


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
    line = np.zeros(depth.shape, dtype=np.float32)
    for first, second in ((np.s_[:-wide], np.s_[wide:]), (np.s_[:, :-wide], np.s_[:, wide:])):
        beyond = (far[second] - far[first]) / np.float32(step)
        other = group[second] != group[first]
        for place, drop in ((first, beyond), (second, -beyond)):
            depth_line = np.clip(drop, 0, 1)
            ink = np.where(other, np.maximum(depth_line, np.float32(0.55)), np.float32(0.35) * depth_line)
            np.maximum(line[place], ink, out=line[place])
    return np.where(there, line, 0).astype(np.float32)


def composed(colour: NDArray[np.uint8], openness: Floats, lines: Floats, paper: NDArray[np.float32]) -> Floats:
    """The picture `(h, w, 3) float32` from 0 to 255: crevices darkened, outlines inked."""
    ink = np.array([28, 26, 30], dtype=np.float32)
    picture = colour.astype(np.float32)
    picture *= (0.34 + 0.66 * openness)[..., None]
    picture += (ink - picture) * (0.75 * lines)[..., None]
    return np.asarray(np.minimum(picture, paper))
