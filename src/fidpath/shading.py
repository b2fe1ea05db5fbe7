"""What makes a rendered rope readable: darker crevices and fine outlines, from the picture's depths and groups."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]

DIRECTIONS = 8
"""Directions in which a pixel's surroundings are looked at."""

RINGS = (0.3, 0.75, 1.5)
"""How far, as shares of the strand's thickness."""


def crevices(depth: Floats, reach: float, pixel: float) -> Floats:
    """How open each pixel lies, `(h, w)` from 0 to 1 (unshaded).

    depth: `(h, w)` mm from the viewer, infinite where there is nothing. reach: mm, about a strand's thickness;
    pixel: mm. A neighbour that stands nearer to the viewer shades, less so when it stands much nearer (another
    body, not the side of a crevice).
    """
    shade = np.zeros(depth.shape, dtype=np.float32)
    far = np.where(np.isfinite(depth), depth, np.float32(1e6)).astype(np.float32)
    total = 0
    for ring, share in enumerate(RINGS):
        away = share * reach
        for turn in range(DIRECTIONS):
            angle = 2 * np.pi * (turn + 0.5 * (ring % 2)) / DIRECTIONS
            dx, dy = (round(away / pixel * f) for f in (np.cos(angle), np.sin(angle)))
            higher = (far - shifted(far, dx, dy)) / np.float32(away)
            shade += np.clip(higher, 0, 1) * np.clip((4 * reach / away - higher) * (away / reach), 0, 1)
            total += 1
    return 1 - np.minimum(shade / total * 1.5, 1)


def shifted(image: NDArray[np.float32], dx: int, dy: int) -> NDArray[np.float32]:
    """The image moved so that each pixel holds its neighbour `dx, dy` away; edges repeat."""
    height, width = image.shape
    rows = np.clip(np.arange(height) + dy, 0, height - 1)
    columns = np.clip(np.arange(width) + dx, 0, width - 1)
    return image[rows][:, columns]


def outlines(depth: Floats, group: Ints, step: float, wide: int) -> Floats:
    """Strength of outlines `(h, w)` from 0 to 1: between groups that stand apart in depth, and round everything.

    step: mm of depth at which a line reaches its full strength; wide: half-width in pixels.
    """
    far = np.where(np.isfinite(depth), depth, np.float32(1e6)).astype(np.float32)
    line = np.zeros(depth.shape, dtype=np.float32)
    for dx, dy in ((wide, 0), (-wide, 0), (0, wide), (0, -wide)):
        beyond = shifted(far, dx, dy) - far
        other = shifted(group.astype(np.float32), dx, dy) != group
        line = np.maximum(line, np.clip(beyond / np.float32(step), 0, 1) * (0.35 + 0.65 * other))
        line = np.maximum(line, 0.55 * other)
    return np.where(np.isfinite(depth), line, 0).astype(np.float32)


def composed(colour: NDArray[np.uint8], openness: Floats, lines: Floats, paper: NDArray[np.float32]) -> Floats:
    """The picture `(h, w, 3) float32` from 0 to 255: crevices darkened, outlines inked."""
    ink = np.array([28, 26, 30], dtype=np.float32)
    shade = (0.30 + 0.70 * openness)[..., None]
    picture = colour.astype(np.float32) * shade
    strength = (0.75 * lines)[..., None]
    return np.asarray(np.minimum(picture * (1 - strength) + ink * strength, paper))
