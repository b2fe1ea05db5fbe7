"""Regions to outlines: every border between two regions traced once, smoothed, and joined to closed loops."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.outputs.pictures import FINE

Labels = NDArray[np.int32]

OFF = 0.15 * FINE
"""A simplified border stays so near to the evened one, pixels."""

EVENED = round(1.5 * FINE**2)
"""Rounds of averaging along a border before it is simplified."""


LEFT, RIGHT = ((-1, 0), (0, 0), (0, -1), (-1, -1)), ((0, 0), (0, -1), (-1, -1), (-1, 0))
"""Pixels left and right of a unit step from the corner at a pixel's top left, as (rows, columns) from that pixel: of
steps to the right, down, to the left, up."""


@dataclass(frozen=True)
class Borders:
    """Borders between regions, `(n,)` lines of points `(m, 2)` (column, row) in pixels.

    left, right: `(n,)` labels either side as the line runs, EDGE beyond the picture. A closed line's first point is
    its last. start, end: `(n,)` numbers of the corners it runs between, the same for a closed one. beside: `(2, n, 2)`
    pixels (row, column) left and right of its middle; beyond the picture on one side where a label is EDGE.
    """

    lines: tuple[Floats, ...]
    left: Ints
    right: Ints
    start: Ints
    end: Ints
    beside: Ints


def borders(label: Labels, edge: int) -> Borders:
    """All borders of regions `(h, w)`; what lies beyond the picture has the label `edge`."""
    framed = np.pad(label, 1, constant_values=edge)
    points, size, sides = _traced(framed)
    cut = np.concatenate([[0], np.cumsum(size)])
    wide = framed.shape[1] + 1
    corner = points[:, 0] * wide + points[:, 1]
    line, kept = _simplified(points, cut, EVENED, OFF)
    found = tuple(np.split(line, np.cumsum(kept)[:-1])) if len(kept) else ()
    return Borders(found, sides[:, 0], sides[:, 1], corner[cut[:-1]], corner[cut[1:] - 1], _beside(points, cut))


def _beside(points: Ints, cut: Ints) -> Ints:
    """The pixels either side of the middle step of each traced line."""
    middle = (cut[:-1] + cut[1:] - 1) // 2
    here, step = points[middle], points[middle + 1] - points[middle]
    way = np.where(step[:, 0] == 0, 1 - step[:, 1], 2 - step[:, 0])
    left, right = (np.array(table)[way] for table in (LEFT, RIGHT))
    return np.stack([here + left, here + right]) - 1


@jit_part
def _sides(label: Labels, row: int, column: int, way: int) -> tuple[int, int]:
    """Labels left and right of the unit step from a corner: way 0 right, 1 down, 2 left, 3 up; rows run down."""
    a, b = label[row - 1, column - 1], label[row - 1, column]
    c, d = label[row, column - 1], label[row, column]
    if way == 0:
        return b, d
    if way == 1:
        return d, c
    if way == 2:
        return c, a
    return a, b


@jit_part
def _degree(label: Labels, row: int, column: int) -> int:
    """Number of borders that meet at a corner."""
    found = 0
    for way in range(4):
        left, right = _sides(label, row, column, way)
        found += left != right
    return found


@jit_part
def _walk(label: Labels, done: NDArray[np.uint8], row: int, column: int, way: int, points: Ints, size: int) -> int:
    """Follows a border to the next corner of three or more, or round to its start; the points' new number."""
    first_row, first_column = row, column
    points[size, 0], points[size, 1] = row, column
    size += 1
    while True:
        done[row, column] |= 1 << way
        row += (0, 1, 0, -1)[way]
        column += (1, 0, -1, 0)[way]
        done[row, column] |= 1 << (way + 2) % 4
        points[size, 0], points[size, 1] = row, column
        size += 1
        if _degree(label, row, column) != 2 or (row == first_row and column == first_column):
            return size
        for turn in (way, (way + 1) % 4, (way + 3) % 4):
            left, right = _sides(label, row, column, turn)
            if left != right:
                way = turn
                break


@jit
def _traced(label: Labels) -> tuple[Ints, Ints, Ints]:
    """Borders of framed labels: points `(total, 2)` (row, column), numbers of points `(n,)`, sides `(n, 2)`."""
    height, width = label.shape
    spots, total = _corners(label)
    points = np.empty((2 * total + 4, 2), dtype=np.int64)
    sizes, sides = np.empty(total + 1, dtype=np.int64), np.empty((total + 1, 2), dtype=np.int64)
    done = np.zeros((height + 1, width + 1), dtype=np.uint8)
    size, number = 0, 0
    for closed in (False, True):
        for spot in spots:
            row, column = spot // width, spot % width
            if not closed and _degree(label, row, column) == 2:
                continue
            for way in range(4):
                left, right = _sides(label, row, column, way)
                if left == right or done[row, column] >> way & 1:
                    continue
                after = _walk(label, done, row, column, way, points, size)
                sizes[number], size = after - size, after
                sides[number, 0], sides[number, 1] = left, right
                number += 1
    return points[:size], sizes[:number], sides[:number]


@jit_part
def _corners(label: Labels) -> tuple[Ints, int]:
    """Corners at which borders of framed labels begin, bend or pass, as rows are read: row times width plus column; and
    how many unit steps the borders have in all."""
    height, width = label.shape
    mark, total = np.zeros((height, width), dtype=np.uint8), 0
    for row in range(1, height):
        above, here = label[row - 1], label[row]
        for column in range(1, width):
            left, up = here[column] != here[column - 1], here[column] != above[column]
            total += left + up
            mark[row, column] = (
                left | up | (above[column - 1] != above[column]) | (here[column - 1] != above[column - 1])
            )
    return np.flatnonzero(mark), total


@jit
def _simplified(points: Ints, cut: Ints, rounds: int, off: float) -> tuple[Floats, Ints]:
    """Traced lines evened and simplified, one after the other: points `(m, 2)` (column, row) in pixels, and how many of
    them each line has, `(n,)`; it began at `cut` `(n + 1,)` before."""
    out, kept = np.empty((len(points), 2)), np.empty(len(cut) - 1, dtype=np.int64)
    total = 0
    for number in range(len(kept)):
        first, after = cut[number], cut[number + 1]
        line = np.empty((after - first, 2))
        for k in range(first, after):
            line[k - first, 0], line[k - first, 1] = points[k, 1] - 1.0, points[k, 0] - 1.0
        even = _evened(line, rounds)
        keep = _needed(even, off)
        before = total
        for k in range(len(even)):
            if keep[k]:
                out[total, 0], out[total, 1] = even[k, 0], even[k, 1]
                total += 1
        kept[number] = total - before
    return out[:total], kept


@jit_part
def _evened(line: Floats, rounds: int) -> Floats:
    """Every point between the ends averaged with its neighbours, so many times; a closed line all round."""
    out = line.copy()
    n = len(line)
    closed = n > 3 and line[0, 0] == line[n - 1, 0] and line[0, 1] == line[n - 1, 1]
    for axis in range(2):
        for _ in range(rounds):
            first, second, before = out[0, axis], out[1, axis], out[0, axis]
            for i in range(1, n - 1):
                here = out[i, axis]
                out[i, axis] = (before + 2 * here + out[i + 1, axis]) / 4
                before = here
            if closed:
                out[0, axis] = out[n - 1, axis] = (before + 2 * first + second) / 4
    return out


@jit_part
def _needed(line: Floats, off: float) -> Bools:
    """Which points of a line are kept so that none lies farther than `off` from what they make (Douglas-Peucker)."""
    n = len(line)
    keep = np.zeros(n, dtype=np.bool_)
    keep[0], keep[n - 1] = True, True
    stack = np.empty((n + 2, 2), dtype=np.int64)
    stack[0, 0], stack[0, 1] = 0, n - 1
    depth = 1
    while depth > 0:
        depth -= 1
        a, b = stack[depth, 0], stack[depth, 1]
        farthest, place = off, -1
        dx, dy = line[b, 0] - line[a, 0], line[b, 1] - line[a, 1]
        length = np.sqrt(dx * dx + dy * dy)
        for i in range(a + 1, b):
            x, y = line[i, 0] - line[a, 0], line[i, 1] - line[a, 1]
            away = abs(x * dy - y * dx) / length if length > 1e-9 else np.sqrt(x * x + y * y)
            if away > farthest:
                farthest, place = away, i
        if place >= 0:
            keep[place] = True
            stack[depth, 0], stack[depth, 1] = a, place
            stack[depth + 1, 0], stack[depth + 1, 1] = place, b
            depth += 2
    return keep


def loops(found: Borders, outward: Sequence[int], inward: Sequence[int]) -> list[list[tuple[int, bool]]]:
    """Borders of an area joined to closed loops that have it on their left: lists of (border, whether run backward).

    `outward` have the area on their left alone, `inward` on their right alone; every one that can be stands in a loop.
    """
    runs = [*((int(n), False) for n in outward), *((int(n), True) for n in inward)]
    ends = [(found.end[n], found.start[n]) if back else (found.start[n], found.end[n]) for n, back in runs]
    leaving: dict[int, list[int]] = {}
    for number in reversed(range(len(runs))):
        leaving.setdefault(int(ends[number][0]), []).append(number)
    used = [False] * len(runs)
    closed = []
    for first in range(len(runs)):
        if used[first]:
            continue
        loop: list[tuple[int, bool]] = []
        at = start = int(ends[first][0])
        while not loop or at != start:
            number = leaving[at].pop()
            used[number] = True
            loop.append(runs[number])
            at = int(ends[number][1])
        closed.append(loop)
    return closed
