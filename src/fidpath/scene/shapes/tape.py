"""A measuring tape lying along a rope, with ticks and figures that can be read; all lengths mm."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part, run_along
from fidpath.meshing import Mesh, joined
from fidpath.scene.scene import Solid
from fidpath.scene.shapes.solids import box, frame, ribbon, transported

FIGURE = 0.42
"""Height of a tape's figures as a share of its width."""


def measuring_tape(
    line: Floats,
    wide: float,
    step: float,
    every: int = 5,
    counts: float = 1.0,
    begins: float = 0.0,
    rightward: float = 1.0,
) -> list[Solid]:
    """A tape lying flat along a line `(n, 3)` mm, a tick across it every `step` mm, one in `every` longer and numbered.

    counts: by how much the figures on it rise from one to the next; begins: what it reads where the line begins, mm.
    rightward: -1 where pictures have the table's x axis to the left, so that figures stand upright in them.
    """
    length = run_along(line)
    thick = 0.12 * wide
    along, _ = transported(line)
    left = np.cross([0.0, 0.0, 1.0], along)
    ticks, up = [], np.array([0.0, 0.0, 1.0])
    for count in range(int(begins // step) + 1, int(np.ceil((begins + length[-1]) / step))):
        at = count * step - begins
        place, way, side = (np.array([np.interp(at, length, v[:, c]) for c in range(3)]) for v in (line, along, left))
        long = wide * (0.3 if count % every == 0 else 0.2)
        middle = place + (wide - long) / 2 * side / np.linalg.norm(side) + 0.75 * thick * up
        ticks.append(box((min(0.12 * step, 0.16 * wide), long, 0.5 * thick), middle, frame(way)))
        if count % every == 0:
            ahead = way if rightward * way[0] >= 0 else -way
            clear = place - 0.12 * wide * side / np.linalg.norm(side) + 0.75 * thick * up
            ticks += figures(f"{count // every * counts:g}", clear, frame(ahead), FIGURE * wide, 0.5 * thick)
    ahead = along[0] if rightward * along[0][0] >= 0 else -along[0]
    if begins < 0.5 * step:
        ticks += figures(
            "0", line[0] + 0.3 * wide * along[0] + 0.75 * thick * up, frame(ahead), FIGURE * wide, 0.5 * thick
        )
    return [Solid(ribbon(line, wide, thick), Part.MEASURING_TAPE), Solid(joined(ticks), Part.TICKS)]


STROKES = {
    "0": "abcdef", "1": "bc", "2": "abged", "3": "abgcd", "4": "fgbc", "5": "afgcd", "6": "afgedc", "7": "abc",
    "8": "abcdefg", "9": "abcdfg", ".": "p",
}  # fmt: skip
"""The strokes of each figure on a tape: a to f clockwise from the top, g across the middle, p a point."""

STROKE_PLACES = {
    "a": (0.5, 1.0, 1), "b": (1.0, 0.75, 0), "c": (1.0, 0.25, 0), "d": (0.5, 0.0, 1),
    "e": (0.0, 0.25, 0), "f": (0.0, 0.75, 0), "g": (0.5, 0.5, 1),
}  # fmt: skip
"""A stroke's middle as shares of a figure's width and height, and whether it lies across."""


def figures(text: str, middle: Floats, axes: Floats, high: float, thick: float) -> list[Mesh]:
    """Figures of plain strokes, `high` mm tall, their middle at a place, along the first of `axes` `(3, 3)`."""
    wide, pen = 0.5 * high, 0.14 * high
    pitch = wide + 0.28 * high
    found = []
    for i, sign in enumerate(text):
        left = (i - (len(text) - 1) / 2) * pitch - wide / 2
        for stroke in STROKES.get(sign, ""):
            u, v, across = STROKE_PLACES.get(stroke, (0.5, 0.05, 1))
            size = (wide + pen if across else pen, pen if across else high / 2 + pen, thick)
            size = (1.4 * pen, 1.4 * pen, thick) if stroke == "p" else size
            at = middle + (left + u * wide) * axes[0] + (v - 0.5) * high * axes[1]
            found.append(box(size, at, axes))
    return found
