"""Signed crossings of all strand pairs in several projections, before and after settling.

A strand that has passed through another changes their signed count by two in every projection, with one sign; an open
end that passes over a strand in one projection changes that projection only. Two passages of opposite sign cancel in
the count of a whole pair (a plain braid's pairs cross over and under by turns), so short lengths are counted as well;
there every cut is an end, and only changes of two or more mean a passage.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import Strands
from fidpath.machine.compiled import jit

View = tuple[float, float, float]

VIEWS: tuple[View, ...] = ((0.0, 0.13, 1.0), (0.05, 1.0, -0.21), (-0.08, 0.8, 0.77), (0.11, -0.62, 0.9))
"""Directions the strands are looked at along; all nearly square to the load line."""

BLOCK = 1.5
"""Length of rope counted apart, in diameters: a pair crosses at most once in it, except where it tangles."""


@jit
def _find(first: Floats, last: Floats, piece: Ints, column: Ints, blocks: int, found: Ints) -> int:
    """Crossings of segments seen along the third axis, sorted by their least x; returns their number.

    Enters the two pieces and the sign in `found` `(room, 3)` as far as there is room. Each strand is cut into
    `blocks` pieces, numbered strand by strand; a strand's adjacent segments don't count.
    """
    number = 0
    n = len(first)
    for i in range(n):
        right = max(first[i, 0], last[i, 0])
        low, high = min(first[i, 1], last[i, 1]), max(first[i, 1], last[i, 1])
        ux, uy, uz = last[i, 0] - first[i, 0], last[i, 1] - first[i, 1], last[i, 2] - first[i, 2]
        for j in range(i + 1, n):
            if min(first[j, 0], last[j, 0]) > right:
                break
            if max(first[j, 1], last[j, 1]) < low or min(first[j, 1], last[j, 1]) > high:
                continue
            if abs(column[i] - column[j]) < 2 and piece[i] // blocks == piece[j] // blocks:
                continue
            vx, vy, vz = last[j, 0] - first[j, 0], last[j, 1] - first[j, 1], last[j, 2] - first[j, 2]
            det = ux * vy - uy * vx
            if det == 0.0:
                continue
            wx, wy = first[j, 0] - first[i, 0], first[j, 1] - first[i, 1]
            s = (wx * vy - wy * vx) / det
            t = (wx * uy - wy * ux) / det
            if s < 0.0 or s >= 1.0 or t < 0.0 or t >= 1.0:
                continue
            over = first[i, 2] + s * uz > first[j, 2] + t * vz
            sign = 1 if (det > 0) == over else -1
            if number < len(found):
                found[number, 0] = min(piece[i], piece[j])
                found[number, 1] = max(piece[i], piece[j])
                found[number, 2] = sign
            number += 1
    return number


def _looking_along(view: View) -> Floats:
    """Rotation `(3, 3)` whose third row is the view's direction and whose first is as near to x as can be."""
    up = np.asarray(view) / np.linalg.norm(view)
    side = np.array([1.0, 0.0, 0.0]) - up[0] * up
    side /= np.linalg.norm(side)
    return np.stack([side, np.cross(up, side), up])


def signed_crossings(points: Floats, count: Ints, view: View, block: Ints) -> Ints:
    """Crossings seen along `view`, `(m, 3) int`: the two pieces, the lower first, and the sign.

    points: `(strands, n, 3)`; count: `(strands,)`; block: the block each column's segment lies in, from 0,
    `(n - 1,)` or `(strands, n - 1)`; strand k's piece in block b is number k x blocks + b.
    """
    blocks = int(block.max()) + 1
    alive = np.arange(points.shape[1])[None, :] < (count - 1)[:, None]
    strand, column = (index.astype(np.int64) for index in np.nonzero(alive))
    turned = points @ _looking_along(view).T
    first, last = turned[strand, column], turned[strand, column + 1]
    order = np.argsort(np.minimum(first[:, 0], last[:, 0]), kind="stable")
    piece = strand * blocks + np.broadcast_to(block, (len(points), points.shape[1] - 1))[strand, column]
    seen = (first[order], last[order], piece[order], column[order], blocks)
    found = np.empty((4 * len(order), 3), np.int64)
    number = _find(*seen, found)
    if number > len(found):
        found = np.empty((number, 3), np.int64)
        _find(*seen, found)
    return found[:number]


def blocks_of(strands: Strands) -> Ints:
    """Block of BLOCK diameters of its rope each column's segment lies in, `(strands, n - 1) int`."""
    station = strands.by_strand(lambda rope: rope.station)
    place = station[:, :-1] - station[:, :1]
    return np.asarray(place // (BLOCK * strands.diameters[:, None]), dtype=np.int64)


def crossings_changed(before: Floats, after: Strands) -> int:
    """Number of passages of one strand through another between two placings `(strands, n, 3)` of the same strands."""
    return passages(before, after)[0]


def passages_on_the_way(placings: Sequence[Floats], after: Strands) -> tuple[int, float | None]:
    """Passages from the first of the placings `(strands, n, 3)` to how the strands lie, as in `passages`.

    Strands that have slid far change crossings at their ends. So where the two alone show passages, they are counted
    from each placing to the next instead.
    """
    found = passages(placings[0], after)
    if found[0] == 0 or len(placings) == 1:
        return found
    ends = [*(replace(after, points=points) for points in placings[1:]), after]
    steps = [passages(first, then) for first, then in zip(placings, ends, strict=True)]
    where = next((at for number, at in steps if number), None)
    return sum(number for number, _ in steps), where


def passages(before: Floats, after: Strands) -> tuple[int, float | None]:
    """Passages of strands through one another, and the rope station in mm where most of them are, if that is known.

    The greater of two counts: by whole strands, and by short lengths of them.
    """
    count, block = np.asarray(after.count, dtype=np.int64), blocks_of(after)
    now = [signed_crossings(after.points, count, view, block) for view in VIEWS]
    once = [signed_crossings(before, count, view, block) for view in VIEWS]
    blocks = int(block.max()) + 1
    _, by_strand = _agreed(now, once, blocks)
    pieces, by_length = _agreed(now, once, 1)
    number = max(int(((by_strand + 1) // 2).sum()), int((by_length // 2).sum()))
    if not by_length.max(initial=0) > 1:
        return number, None
    place = after.rope[pieces[:, 0] // blocks] * blocks + pieces[:, 0] % blocks
    most = int(np.bincount(place, weights=by_length // 2).argmax())
    rope = after.ropes[most // blocks]
    return number, float(rope.station[0] + (most % blocks + 0.5) * BLOCK * rope.braid.diameter)


def _agreed(now: list[Ints], once: list[Ints], size: int) -> tuple[Ints, Ints]:
    """Pairs `(m, 2) int`, `size` pieces making one, and the least size of a pair's change; 0 where views disagree."""
    rows = np.concatenate([*now, *once])
    view = np.repeat(np.tile(np.arange(len(VIEWS)), 2), [len(found) for found in (*now, *once)])
    gained = np.where(np.arange(len(rows)) < sum(map(len, now)), rows[:, 2], -rows[:, 2])
    names = rows[:, :2] // size
    width = int(names.max(initial=0)) + 1
    pairs, place = np.unique(names[:, 0] * width + names[:, 1], return_inverse=True)
    change = np.zeros((len(VIEWS), len(pairs)), dtype=np.int64)
    np.add.at(change, (view, place), gained)
    same_sign = np.all(change > 0, axis=0) | np.all(change < 0, axis=0)
    return np.column_stack([pairs // width, pairs % width]), np.where(same_sign, np.abs(change).min(axis=0), 0)
