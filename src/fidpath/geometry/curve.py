"""Plane curves as chains of lines and arcs, blended so that curvature is continuous.

The heading is the box average, `blend` mm wide, of the chain's piecewise-linear heading; the curve is
arc-length parametrised and C2 by construction, and a mark's place along it is a sum of piece lengths.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fidpath.arrays import Floats

_HALF = (
    (0.2386191860831969, 0.6612093864662645, 0.9324695142031519),
    (0.46791393457269104, 0.3607615730481387, 0.17132449237917027),
)
"""Nodes and weights of the Gauss-Legendre rule of order 6, the positive half (Abramowitz & Stegun, table 25.4)."""

_NODES = np.array([*(-node for node in reversed(_HALF[0])), *_HALF[0]])
_WEIGHTS = np.array([*reversed(_HALF[1]), *_HALF[1]])


@dataclass(frozen=True)
class Chain:
    """Pieces `(length mm, turn rad)` end to end from `start` at `heading`; positive turns are to the left."""

    lengths: Floats
    turns: Floats
    blend: float
    heading: float = 0.0
    start: tuple[float, float] = (0.0, 0.0)

    @property
    def length(self) -> float:
        """Arc length of the whole chain, mm."""
        return float(self.lengths.sum())

    @cached_property
    def knots(self) -> tuple[Floats, Floats, Floats]:
        """Breakpoints, heading there, and its integral up to there."""
        at = np.concatenate([[0.0], np.cumsum(self.lengths)])
        heading = self.heading + np.concatenate([[0.0], np.cumsum(self.turns)])
        integral = np.concatenate([[0.0], np.cumsum(self.lengths * (heading[1:] + heading[:-1]) / 2)])
        return at, heading, integral

    @cached_property
    def slopes(self) -> Floats:
        """Turn over each piece for a unit of its length, none where it has no length."""
        return np.asarray(self.turns / np.where(self.lengths > 0, self.lengths, 1.0))


def chain(
    pieces: Sequence[tuple[float, float]], blend: float, heading: float = 0.0, start: tuple[float, float] = (0.0, 0.0)
) -> Chain:
    """A chain from `(length mm, turn rad)` pairs."""
    table = np.asarray(pieces, dtype=float).reshape(-1, 2)
    return Chain(table[:, 0], table[:, 1], blend, heading, start)


def _integral(c: Chain, s: Floats) -> Floats:
    """Integral of the unblended heading from 0 to s; the heading is constant beyond both ends."""
    at, heading, integral = c.knots
    i = np.searchsorted(at[1:-1], s, side="right")
    x = np.minimum(np.maximum(s, 0.0), at[-1]) - at[i]
    inside = integral[i] + x * (heading[i] + c.slopes[i] * x / 2)
    return np.asarray(inside + np.minimum(s, 0.0) * heading[0] + np.maximum(s - at[-1], 0.0) * heading[-1])


def heading(c: Chain, s: Floats) -> Floats:
    """Heading at arc lengths `(n,)` mm, radians."""
    half = c.blend / 2
    after, before = _integral(c, np.stack([s + half, s - half]))
    return np.asarray((after - before) / c.blend)


def curvature(c: Chain, s: Floats) -> Floats:
    """Signed curvature at arc lengths `(n,)`, 1/mm."""
    at, knots, _ = c.knots
    half = c.blend / 2
    return (np.interp(s + half, at, knots) - np.interp(s - half, at, knots)) / c.blend


def points(c: Chain, s: Floats, step: float | None = None) -> Floats:
    """Places `(n, 2)` mm at increasing arc lengths `(n,)` mm, the start at arc length 0."""
    step = c.blend / 2 if step is None else step
    low, high = min(0.0, float(s.min())), max(0.0, float(s.max()))
    kinks = np.concatenate([c.knots[0] - c.blend / 2, c.knots[0] + c.blend / 2])
    kinks = kinks[(kinks > low) & (kinks < high)]
    grid = np.sort(np.concatenate([np.arange(low, high, step), s, kinks, [0.0, high]]))
    grid = np.concatenate([grid[:1], grid[1:][grid[1:] > grid[:-1]]])
    mid = (grid[1:] + grid[:-1]) / 2
    half = (grid[1:] - grid[:-1]) / 2
    at = heading(c, (mid[:, None] + half[:, None] * _NODES).ravel()).reshape(len(mid), -1)
    places = np.zeros((len(grid), 2))
    np.cumsum((np.cos(at) @ _WEIGHTS) * half, out=places[1:, 0])
    np.cumsum((np.sin(at) @ _WEIGHTS) * half, out=places[1:, 1])
    places -= places[np.searchsorted(grid, 0.0)]
    return np.asarray(places[np.searchsorted(grid, s)] + np.asarray(c.start))


def run_along(line: Floats) -> Floats:
    """Lengths `(n,)` along a line of places `(n, 2)` or `(n, 3)` up to each of them."""
    return np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])


def end(c: Chain) -> tuple[float, float, float]:
    """Place and heading at the chain's far end: x, y in mm, heading in radians, all as the blend leaves them."""
    s = np.array([c.length])
    x, y = points(c, s)[0]
    return float(x), float(y), float(heading(c, s)[0])


def newton(residual: Callable[[Floats], Floats], guess: Floats, tolerance: float = 1e-10, tries: int = 40) -> Floats:
    """A root of `residual`, `(m,) -> (m,)`, by damped Newton with a difference Jacobian.

    Raises ArithmeticError where it doesn't come below `tolerance` (in the residual's own units).
    """
    x = np.asarray(guess, dtype=float)
    r = residual(x)
    for _ in range(tries):
        if np.abs(r).max() < tolerance:
            return x
        steps = 1e-7 * np.maximum(1.0, np.abs(x))
        jacobian = np.column_stack([(residual(x + h * e) - r) / h for h, e in zip(steps, np.eye(len(x)), strict=True)])
        move = np.linalg.lstsq(jacobian, -r, rcond=None)[0]
        share = 1.0
        while share > 1e-4:
            trial = residual(x + share * move)
            if np.all(np.isfinite(trial)) and np.abs(trial).max() < np.abs(r).max():
                break
            share /= 2
        else:
            break
        x, r = x + share * move, trial
    if np.abs(r).max() < 1e3 * tolerance:
        return x
    raise ArithmeticError(f"no root: residual {np.abs(r).max():.3g}")
