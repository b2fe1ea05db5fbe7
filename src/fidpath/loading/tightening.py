"""Ropes of given thickness drawn as short as they go, without friction: closed loops and knots, and clasped bights.

What the solver's contact, guard and self-exclusion are held against: the lengths of tight knots are known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.loading import strand_kernels, tightening_kernels
from fidpath.loading.setup import CAP
from fidpath.loading.solver import SHARE
from fidpath.settling import neighbours

SKIN = 0.4
"""Neighbours are listed this far beyond contact, in thicknesses."""

STAGES = ((0.1, 0.95, 4000), (0.02, 0.9, 3000), (0.005, 0.8, 2000))
"""Displacement per unit of tension in a sweep, momentum, and sweeps (measured in trials)."""


@dataclass(frozen=True)
class TightRope:
    """Strands drawn tight: `points` each `(n, 3)`, a closed one's last point its first once more.

    length: of all, and thickness: the thickest rope they are the middles of without running into itself.
    certificate: as in `Loaded`.
    """

    points: tuple[Floats, ...]
    length: float
    thickness: float
    certificate: float

    @property
    def ropelength(self) -> float:
        """Length by thickness (diameter)."""
        return self.length / self.thickness


class _Tightening:
    """Ropes being drawn tight: their nodes in one list and who is whose neighbour and double."""

    def __init__(self, strands: Sequence[Floats], thickness: float, held: Sequence[Bools] | None) -> None:
        self.x = np.concatenate(strands)
        self.velocity = np.zeros_like(self.x)
        self.start = np.concatenate([[0], np.cumsum([len(one) for one in strands])])
        self.thickness = thickness
        self.mobility = np.ones_like(self.x) if held is None else np.where(np.concatenate(held), 0.0, 1.0)
        first, last = self.start[:-1], self.start[1:] - 1
        self.closed = np.linalg.norm(self.x[first] - self.x[last], axis=1) < 1e-12
        self.twin = np.arange(len(self.x))
        self.twin[first[self.closed]], self.twin[last[self.closed]] = last[self.closed], first[self.closed]
        ends = np.concatenate([first[~self.closed], last])
        self.inner = np.setdiff1d(np.arange(len(self.x)), ends)
        self.strand = np.repeat(np.arange(len(strands)), np.diff(self.start))
        self.strand[last] = -1
        self.pairs: Ints = np.empty((0, 2), np.int64)
        self.wandered, self.certificate, self.moves = np.inf, np.inf, np.zeros(2)

    def lengths(self) -> Floats:
        """Of each strand."""
        return np.array([_length(self.x[a:b]) for a, b in zip(self.start[:-1], self.start[1:], strict=True)])

    def _list(self) -> None:
        """Neighbours; of one strand only what is more than half a bend of the least radius apart along it."""
        number = np.diff(self.start)
        apart = np.ceil(np.pi / 2 * self.thickness / (self.lengths() / (number - 1))).astype(np.int64)
        thick = np.full(len(self.x), self.thickness)
        pairs = neighbours(self.x, self.strand, np.repeat(apart, number), thick, (SKIN + CAP) * self.thickness)
        one = self.strand[pairs[:, 0]]
        around = (number - 1)[one] - (pairs[:, 1] - pairs[:, 0])
        wrapped = (one == self.strand[pairs[:, 1]]) & self.closed[one] & (around <= apart[one])
        self.pairs = np.ascontiguousarray(pairs[~wrapped])
        self.wandered = 0.0

    def sweep(self, step: float, momentum: float) -> None:
        """Pull, push, least radius, guard."""
        if self.wandered > SKIN * self.thickness / 2:
            self._list()
        before = self.x.copy()
        tightening_kernels.pull(self.x, self.velocity, self.twin, self.inner, self.mobility, momentum, step)
        least = self._apart(before)
        tightening_kernels.push(self.x, self.twin, self.mobility, self.pairs, self.thickness)
        tightening_kernels.round_off(self.x, self.twin, self.inner, self.mobility, self.thickness / 2)
        strand_kernels.guard(self.x, before, self.velocity, min(CAP * self.thickness, SHARE * least), self.moves)
        self.wandered += self.moves[0]
        self.certificate = min(self.certificate, (least - 2 * float(self.moves[0])) / self.thickness)

    def _apart(self, x: Floats) -> float:
        """Least distance of neighbours, no more than what is certain of those not listed."""
        listed = tightening_kernels.push(x, self.twin, self.mobility, self.pairs, 0.0)
        return min(float(listed), (1 + SKIN) * self.thickness - 2 * self.wandered)


def _length(points: Floats) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def least_radius(points: Floats) -> float:
    """Least radius of the circle through three neighbouring points of a strand `(n, 3)`."""
    if np.linalg.norm(points[0] - points[-1]) < 1e-12:
        points = np.concatenate([points, points[1:2]])
    a, b, c = points[:-2], points[1:-1], points[2:]
    sides = [np.linalg.norm(q - p, axis=1) for p, q in ((a, b), (b, c), (a, c))]
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    return float((sides[0] * sides[1] * sides[2] / np.maximum(4 * area, 1e-300)).min())


def tightened(
    strands: Sequence[Floats],
    thickness: float = 1.0,
    held: Sequence[Bools] | None = None,
    stages: Sequence[tuple[float, float, int]] = STAGES,
) -> TightRope:
    """Strands `(n, 3)` each drawn as short as contact lets them, those that end where they begin as closed loops.

    held: axes along which nodes stay, `(n, 3)` each. The strands must begin further apart than `thickness`.
    """
    run = _Tightening(strands, thickness, held)
    for step, momentum, sweeps in stages:
        for _ in range(sweeps):
            run.sweep(step, momentum)
    points = tuple(run.x[a:b] for a, b in zip(run.start[:-1], run.start[1:], strict=True))
    run._list()
    least = min(run._apart(run.x), 2 * min(least_radius(one) for one in points))
    return TightRope(points, float(run.lengths().sum()), least, run.certificate)
