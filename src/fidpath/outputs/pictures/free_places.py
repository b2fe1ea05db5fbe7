"""Compiled loops over a page's free space: what lines and boxes run into, and which of many places a label takes.

Boxes are `(n, 4)` left, top, right, bottom; lines `(n, 2, 2)` their ends' places; pixels. drawn: `(h + 1, w + 1)`,
how many drawn pixels lie above and left of each.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats
from fidpath.machine.compiled import jit

Drawn = NDArray[np.int32]

OFF_LINES = 3.0
"""How far words keep beside a line, pixels."""


@jit
def summed(solid: Bools) -> Drawn:
    """How many pixels of a picture `(h, w)` are drawn above and left of each, `(h + 1, w + 1)`."""
    height, width = solid.shape
    total = np.zeros((height + 1, width + 1), dtype=np.int32)
    for row in range(height):
        along = np.int32(0)
        for column in range(width):
            along += np.int32(solid[row, column])
            total[row + 1, column + 1] = total[row, column + 1] + along
    return total


@jit
def enters(x: float, y: float, u: float, v: float, left: float, top: float, right: float, bottom: float) -> bool:
    """Whether the line from (x, y) to (u, v) enters a box (touching its edge doesn't count)."""
    left, top, right, bottom = left + 0.5, top + 0.5, right - 0.5, bottom - 0.5
    if max(x, u) <= left or min(x, u) >= right or max(y, v) <= top or min(y, v) >= bottom:
        return False
    low, high = 0.0, 1.0
    for start, move, least, most in ((x, u - x, left, right), (y, v - y, top, bottom)):
        if abs(move) < 1e-12:
            if not least < start < most:
                return False
            continue
        one, other = (least - start) / move, (most - start) / move
        low, high = max(low, min(one, other)), min(high, max(one, other))
    return low < high


@jit
def crosses(x: float, y: float, u: float, v: float, a: float, b: float, c: float, d: float) -> bool:
    """Whether the line from (x, y) to (u, v) crosses or touches the one from (a, b) to (c, d)."""
    first, last = (u - x) * (b - y) - (v - y) * (a - x), (u - x) * (d - y) - (v - y) * (c - x)
    before, after = (c - a) * (y - b) - (d - b) * (x - a), (c - a) * (v - b) - (d - b) * (u - a)
    return first * last <= 0 and before * after <= 0


@jit
def any_enters(lines: Floats, boxes: Floats) -> bool:
    """Whether any of the lines enters any of the boxes."""
    for i in range(len(lines)):
        x, y, u, v = lines[i, 0, 0], lines[i, 0, 1], lines[i, 1, 0], lines[i, 1, 1]
        for k in range(len(boxes)):
            if enters(x, y, u, v, boxes[k, 0], boxes[k, 1], boxes[k, 2], boxes[k, 3]):
                return True
    return False


@jit
def any_crosses(lines: Floats, others: Floats) -> bool:
    """Whether any of the lines crosses or touches any of the others."""
    for i in range(len(lines)):
        x, y, u, v = lines[i, 0, 0], lines[i, 0, 1], lines[i, 1, 0], lines[i, 1, 1]
        for k in range(len(others)):
            if crosses(x, y, u, v, others[k, 0, 0], others[k, 0, 1], others[k, 1, 0], others[k, 1, 1]):
                return True
    return False


@jit
def any_meets(box: Floats, boxes: Floats, pad: float) -> bool:
    """Whether a box `(4,)` comes nearer than `pad` to any of the boxes."""
    for k in range(len(boxes)):
        across = box[0] < boxes[k, 2] + pad and boxes[k, 0] < box[2] + pad
        if across and box[1] < boxes[k, 3] + pad and boxes[k, 1] < box[3] + pad:
            return True
    return False


@jit
def drawn_in(drawn: Drawn, left: float, top: float, right: float, bottom: float) -> int:
    """Number of drawn pixels in a box; what lies beyond the picture has none."""
    height, width = drawn.shape[0] - 1, drawn.shape[1] - 1
    x0, x1 = min(max(int(np.rint(left)), 0), width), min(max(int(np.rint(right)), 0), width)
    y0, y1 = min(max(int(np.rint(top)), 0), height), min(max(int(np.rint(bottom)), 0), height)
    return int(drawn[y1, x1] - drawn[y0, x1] - drawn[y1, x0] + drawn[y0, x0])


@jit
def drawn_along(drawn: Drawn, line: Floats, spacing: float, reach: float) -> int:
    """How many places of a line `(n, 2)`, `spacing` pixels apart, have something drawn within `reach` pixels."""
    run = np.zeros(len(line))
    for k in range(1, len(line)):
        across, down = line[k, 0] - line[k - 1, 0], line[k, 1] - line[k - 1, 1]
        run[k] = run[k - 1] + np.sqrt(across * across + down * down)
    found, k = 0, 0
    for place in range(int(np.ceil(run[-1] / spacing))):
        at = place * spacing
        while k < len(run) - 2 and run[k + 1] <= at:
            k += 1
        beyond, piece = at - run[k], run[k + 1] - run[k]
        x = (line[k + 1, 0] - line[k, 0]) / piece * beyond + line[k, 0]
        y = (line[k + 1, 1] - line[k, 1]) / piece * beyond + line[k, 1]
        found += drawn_in(drawn, x - reach, y - reach, x + reach, y + reach) > 0
    return found


@jit
def nearest(left: float, top: float, right: float, bottom: float, x: float, y: float) -> tuple[float, float]:
    """The point of a box's edge nearest to a point outside it, from the middle of its sides where that is near."""
    middle = (left + right) / 2
    return min(max(x, left), right) if abs(x - middle) > 1 else middle, min(max(y, top), bottom)


@jit
def costs(
    drawn: Drawn, boxes: Floats, xs: Floats, ys: Floats, size: Floats, anchor: Floats, pad: float, over: bool
) -> Floats:
    """How far a label of `size` `(2,)` would lie from its `anchor` `(2,)` at each of many places, `(rows, columns)`.

    A little more where it lies sideways; infinite where it would come nearer than `pad` to a box or, if not set `over`
    it, to what is drawn.
    """
    wide, high = size[0], size[1]
    cost = np.empty((len(ys), len(xs)))
    for row in range(len(ys)):
        y = ys[row]
        dy = max(y - anchor[1], anchor[1] - y - high, 0.0)
        for column in range(len(xs)):
            x = xs[column]
            if not over and drawn_in(drawn, x - pad, y - pad, x + wide + pad, y + high + pad) > 0:
                cost[row, column] = np.inf
                continue
            dx = max(x - anchor[0], anchor[0] - x - wide, 0.0)
            cost[row, column] = math.hypot(dx, dy) + 0.25 * abs(x + wide / 2 - anchor[0])
    for k in range(len(boxes)):
        for row in range(len(ys)):
            if ys[row] < boxes[k, 3] + pad and boxes[k, 1] < ys[row] + high + pad:
                for column in range(len(xs)):
                    if xs[column] < boxes[k, 2] + pad and boxes[k, 0] < xs[column] + wide + pad:
                        cost[row, column] = np.inf
    return cost


@jit
def chosen(
    corners: Floats,
    size: Floats,
    anchor: Floats,
    keep: float,
    compared: int,
    drawn: Drawn,
    boxes: Floats,
    lines: Floats,
    off: Floats,
) -> int:
    """Which of the places `(n, 2)` off all boxes, the best first, a label takes; -1 where none can be had.

    It lies in the picture, `keep` pixels off its anchor and off the lines and `off`, and its leader runs free. Of the
    first so many such places that are to be `compared` that which hides least.
    """
    box, leader = np.empty((1, 4)), np.empty((1, 2, 2))
    best, least, found = -1, np.inf, 0
    leader[0, 1, 0], leader[0, 1, 1] = anchor[0], anchor[1]
    height, width = drawn.shape[0] - 1, drawn.shape[1] - 1
    for place in range(len(corners)):
        left, top = corners[place, 0], corners[place, 1]
        right, low = left + size[0], top + size[1]
        if left < 2 or top < 2 or right > width - 2 or low > height - 2:
            continue
        beside = left >= anchor[0] + keep or anchor[0] - keep >= right
        if not (beside or top >= anchor[1] + keep or anchor[1] - keep >= low):
            continue
        box[0, 0], box[0, 1], box[0, 2], box[0, 3] = left - OFF_LINES, top - 1.0, right + OFF_LINES, low + 1.0
        leader[0, 0, 0], leader[0, 0, 1] = nearest(left, top, right, low, anchor[0], anchor[1])
        if any_enters(off, box) or any_enters(lines, box) or any_enters(leader, boxes) or any_crosses(leader, lines):
            continue
        hidden = drawn_in(drawn, left, top, right, low)
        best, least, found = (place if hidden < least else best), min(hidden, least), found + 1
        if found == compared:
            break
    return best
