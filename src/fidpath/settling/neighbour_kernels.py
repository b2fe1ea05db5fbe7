"""Compiled loops that list near segments by a grid of cells, in arrays that the caller brings.

Nodes and segments are numbered as in `contact_kernels`.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.settling.contact_kernels import closest, squared_distance


class Grid(NamedTuple):
    """Arrays to list neighbours in, for n nodes.

    half: `(n,)`, half the length of each segment. live, place: `(n,)`, the segments that aren't void, and their cells.
    name, where, middle, ball: `(n,)` and `(3, n)`, live segments sorted by cell: number, cell, middle, and the radius
    of the ball that holds half their thickness. order: `(n,)`. low, shape: `(3,)`, the grid's corner, cells each way.
    first, filled: `(cells + 1,)`, as many as there is room for.
    """

    half: Floats
    live: Ints
    place: Ints
    order: Ints
    name: Ints
    where: Ints
    middle: Floats
    ball: Floats
    low: Floats
    shape: Ints
    first: Ints
    filled: Ints


def new_grid(nodes: int, cells: int) -> Grid:
    """Arrays for so many nodes and cells; their values don't matter."""
    live, place, order, name, where = (np.zeros(nodes, dtype=np.int64) for _ in range(5))
    first, filled = np.zeros(cells, dtype=np.int64), np.zeros(cells, dtype=np.int64)
    half, ball, middle = np.zeros(nodes), np.zeros(nodes), np.zeros((3, nodes))
    low, shape = np.zeros(3), np.zeros(3, dtype=np.int64)
    return Grid(half, live, place, order, name, where, middle, ball, low, shape, first, filled)


@jit_part
def _side(x: Floats, strand: Ints, thick: Floats, room: float, half: Floats) -> float:
    """The side of a cell, mm: no pair within reach is further than one cell apart. Fills `half`."""
    thickest, longest = 0.0, 0.0
    for i in range(len(x)):
        thickest = max(thickest, thick[i])
    for i in range(len(x) - 1):
        half[i] = np.sqrt(squared_distance(x, i, x, i + 1)) / 2
        if strand[i] >= 0:
            longest = max(longest, half[i])
    return thickest + room + 2 * longest


@jit_part
def _lay_grid(x: Floats, side: float, low: Floats, shape: Ints) -> int:
    """A grid round all nodes with a cell to spare; returns how many cells it has."""
    for c in range(3):
        lowest, highest = x[0, c], x[0, c]
        for i in range(len(x)):
            lowest, highest = min(lowest, x[i, c]), max(highest, x[i, c])
        low[c] = lowest - 1.5 * side
        shape[c] = int((highest + 1.5 * side - low[c]) / side) + 1
    return int(shape[0] * shape[1] * shape[2])


@jit_part
def _middle(x: Floats, i: int, c: int) -> float:
    """One coordinate of the middle of segment i."""
    return float(x[i, c] + (x[i + 1, c] - x[i, c]) / 2)


@jit_part
def _place(x: Floats, strand: Ints, side: float, grid: Grid) -> int:
    """Live segments and their cells; returns how many there are."""
    live = 0
    for i in range(len(x) - 1):
        if strand[i] < 0:
            continue
        cell = 0
        for c in range(3):
            cell = cell * grid.shape[c] + int((_middle(x, i, c) - grid.low[c]) / side)
        grid.live[live], grid.place[live] = i, cell
        live += 1
    return live


@jit_part
def _fill_cells(where: Ints, first: Ints, filled: Ints, order: Ints) -> None:
    """Counting sort by cell: `order[first[c]:first[c + 1]]` are those of cell c, in their order."""
    first[:] = 0
    for i in range(len(where)):
        first[where[i] + 1] += 1
    for c in range(len(first) - 1):
        first[c + 1] += first[c]
        filled[c] = first[c]
    for i in range(len(where)):
        order[filled[where[i]]] = i
        filled[where[i]] += 1


@jit_part
def _sort(x: Floats, thick: Floats, live: int, grid: Grid) -> None:
    """Live segments by cell, and what is asked of each most often beside one another."""
    for a in range(live):
        i = grid.live[grid.order[a]]
        grid.name[a], grid.where[a] = i, grid.place[grid.order[a]]
        grid.ball[a] = grid.half[i] + thick[i] / 2
        for c in range(3):
            grid.middle[c, a] = _middle(x, i, c)


@jit_part
def _list_pairs(x: Floats, beside: Ints, thick: Floats, room: float, live: int, grid: Grid, pairs: Ints) -> int:
    """Writes near pairs into `pairs` as far as it goes; returns how many there are.

    Each segment looks at those after it in its own row of cells and in the four rows ahead, so every pair is met once.
    """
    name, where, middle, ball, first, shape = grid.name, grid.where, grid.middle, grid.ball, grid.first, grid.shape
    count = 0
    for a in range(live):
        ax, ay, az, own = middle[0, a], middle[1, a], middle[2, a], ball[a] + room
        for ahead in range(5):
            across, aside = (0, ahead) if ahead < 2 else (1, ahead - 3)
            row = where[a] + (across * shape[1] + aside) * shape[2]
            for b in range(a + 1 if ahead == 0 else first[row - 1], first[row + 2]):
                dx, dy, dz = ax - middle[0, b], ay - middle[1, b], az - middle[2, b]
                far = own + ball[b]
                if dx * dx + dy * dy + dz * dz > far * far:
                    continue
                i, j = min(name[a], name[b]), max(name[a], name[b])
                if j <= beside[i]:
                    continue
                reach = 0.5 * (thick[i] + thick[j]) + room
                _, _, squared = closest(x, i, j)
                if squared > reach * reach:
                    continue
                if count < len(pairs):
                    pairs[count, 0], pairs[count, 1] = i, j
                count += 1
    return count


@jit
def list_neighbours(x: Floats, strand: Ints, beside: Ints, thick: Floats, room: float, grid: Grid, pairs: Ints) -> int:
    """Lists pairs of segments nearer than their mean thickness plus `room`; returns how many there are.

    beside: `(n,)`, the last segment after each that is too close along the same strand to count. `strand` is per node,
    and -1 for the void segment after a strand's last node. Where there are more pairs than `pairs` holds, the rest are
    left out. Where the grid has too few cells, nothing is listed, and the cells wanted come back as a negative number.
    """
    side = _side(x, strand, thick, room, grid.half)
    cells = _lay_grid(x, side, grid.low, grid.shape) + 1
    if cells > len(grid.first):
        return -cells
    live = _place(x, strand, side, grid)
    _fill_cells(grid.place[:live], grid.first[:cells], grid.filled, grid.order)
    _sort(x, thick, live, grid)
    return _list_pairs(x, beside, thick, room, live, grid, pairs)


def last_beside(strand: Ints, gap: Ints) -> Ints:
    """The last segment after each that is too close along the same strand to count as a neighbour, `(n,)`.

    Segments of one strand are neighbours only where they are more than `gap` `(n,)` segments apart.
    """
    void = np.flatnonzero(strand < 0)
    each = np.arange(len(strand))
    return np.asarray(np.minimum(each + gap, void[np.searchsorted(void, each)]))


def neighbours(x: Floats, strand: Ints, gap: Ints, thick: Floats, room: float) -> Ints:
    """Pairs of segments nearer than their mean thickness plus `room`: `(pairs, 2) int`, the lower number first.

    `strand` as in `list_neighbours`, `gap` as in `last_beside`.
    """
    beside, grid, pairs = last_beside(strand, gap), new_grid(len(x), 4 * len(x)), np.empty((16 * len(x), 2), np.int64)
    count = list_neighbours(x, strand, beside, thick, room, grid, pairs)
    if count < 0:
        grid = new_grid(len(x), -count)
        count = list_neighbours(x, strand, beside, thick, room, grid, pairs)
    if count > len(pairs):
        pairs = np.empty((count, 2), np.int64)
        list_neighbours(x, strand, beside, thick, room, grid, pairs)
    return pairs[:count]
