"""Compiled loops along strands: where forces and momentum carry nodes, bending, tension, and the guard's limit.

Nodes are one flat list `(m, 3)`, as in the settling: strand k owns nodes start[k] to start[k + 1] - 1. `mobility`
`(m, 3)` is 1 where a node may move along an axis and 0 where it is held. A sweep is a step of a motion with no mass to
speak of; forces and multipliers are times `step`, the displacement a unit of force makes in a sweep.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part


@jit
def carry(x: Floats, velocity: Floats, mobility: Floats, momentum: float, step: float, force: Floats) -> None:
    """Moves nodes by what is kept of their last move, and by the force on them."""
    for i in range(len(x)):
        for c in range(3):
            x[i, c] += mobility[i, c] * (momentum * velocity[i, c] + step * force[i, c])


@jit
def drive(x: Floats, moves: Floats, share: float) -> None:
    """Moves nodes by a share of `moves` `(m, 3)`: hands and vices that pull held nodes along."""
    for i in range(len(x)):
        for c in range(3):
            x[i, c] += share * moves[i, c]


@jit
def bend(x: Floats, start: Ints, rest: Floats, stiffness: float, force: Floats) -> None:
    """Adds to `force` how strands straight at rest resist bending: minus `stiffness` times the fourth derivative.

    The segments of one strand are taken to be equally long.
    """
    for k in range(len(start) - 1):
        for i in range(start[k] + 1, start[k + 1] - 1):
            scale = stiffness / (0.5 * (rest[i - 1] + rest[i])) ** 3
            for c in range(3):
                moment = scale * (x[i - 1, c] - 2 * x[i, c] + x[i + 1, c])
                force[i - 1, c] -= moment
                force[i, c] += 2 * moment
                force[i + 1, c] -= moment


@jit_part
def _edges(x: Floats, mobility: Floats, rest: Floats, give: Floats, first: int, along: Floats, rows: Floats) -> None:
    """Directions of one strand's segments, and the diagonal, the upper neighbour and the right side of their system."""
    number = len(along)
    for e in range(number):
        i = first + e
        length = 0.0
        for c in range(3):
            along[e, c] = x[i + 1, c] - x[i, c]
            length += along[e, c] ** 2
        length = np.sqrt(length)
        rows[e, 0], rows[e, 2] = give[i], length - rest[i]
        for c in range(3):
            along[e, c] /= length
            rows[e, 0] += (mobility[i, c] + mobility[i + 1, c]) * along[e, c] ** 2
    for e in range(number - 1):
        rows[e, 1] = 0.0
        for c in range(3):
            rows[e, 1] -= mobility[first + e + 1, c] * along[e, c] * along[e + 1, c]


@jit_part
def _solve(rows: Floats) -> None:
    """Solves a symmetric tridiagonal system in place (diagonal, upper, right side); the right side takes the answer."""
    last = len(rows) - 1
    for e in range(1, last + 1):
        share = rows[e - 1, 1] / rows[e - 1, 0]
        rows[e, 0] -= share * rows[e - 1, 1]
        rows[e, 2] -= share * rows[e - 1, 2]
    rows[last, 2] /= rows[last, 0]
    for e in range(last - 1, -1, -1):
        rows[e, 2] = (rows[e, 2] - rows[e, 1] * rows[e + 1, 2]) / rows[e, 0]


@jit
def tighten_strands(
    x: Floats, mobility: Floats, start: Ints, rest: Floats, give: Floats, tension: Floats, along: Floats, rows: Floats
) -> None:
    """Brings all segments of a strand to their lengths at once; `tension` takes each segment's multiplier.

    `give` `(m,)`: lengthening of a segment for a multiplier of one. `along` `(most, 3)` and `rows` `(most, 3)` are for
    the work in hand.
    """
    for k in range(len(start) - 1):
        first, number = start[k], start[k + 1] - 1 - start[k]
        _edges(x, mobility, rest, give, first, along[:number], rows[:number])
        _solve(rows[:number])
        for e in range(number):
            i = first + e
            tension[i] = rows[e, 2]
            for c in range(3):
                x[i, c] += mobility[i, c] * rows[e, 2] * along[e, c]
                x[i + 1, c] -= mobility[i + 1, c] * rows[e, 2] * along[e, c]


@jit
def guard(x: Floats, before: Floats, velocity: Floats, most: float, out: Floats) -> None:
    """Cuts every node's move since `before` to `most` and notes it in `velocity`.

    `out` takes the largest move made, and the root of the mean square of all.
    """
    largest, total = 0.0, 0.0
    for i in range(len(x)):
        squared = 0.0
        for c in range(3):
            velocity[i, c] = x[i, c] - before[i, c]
            squared += velocity[i, c] ** 2
        length = np.sqrt(squared)
        if length > most:
            for c in range(3):
                velocity[i, c] *= most / length
                x[i, c] = before[i, c] + velocity[i, c]
            length = most
        largest = max(largest, length)
        total += length * length
    out[0], out[1] = largest, np.sqrt(total / len(x))
