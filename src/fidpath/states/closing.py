"""Lines that must close: the free lengths nearest to what is preferred that satisfy a shape's closures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import BLEND, Chain, chain, newton, points
from fidpath.states.pieces import Pieces, path

Residual = Callable[[Floats], Floats]
Places = Mapping[str, Floats]


class Shape:
    """Pieces laid end to end from H1, with marks along them by name; lengths in diameters of a rope `d` mm thick."""

    def __init__(self, d: float) -> None:
        self.d = d
        self.pieces: Pieces = []
        self.marks: dict[str, float] = {}
        self.long = 0.0

    def line(self, length: float) -> Shape:
        """A straight piece more."""
        return self.arc(length, 0.0)

    def arc(self, length: float, turn: float) -> Shape:
        """A bent piece more."""
        self.pieces.append((length, turn))
        self.long += length
        return self

    def mark(self, name: str) -> Shape:
        """A mark at the end of the pieces so far."""
        self.marks[name] = self.long
        return self

    def chain(self, after: Pieces = []) -> tuple[Chain, float]:  # noqa: B006
        """The line, pieces in mm after it, and H1's arc length on it."""
        d = self.d
        return path(d, [*[(length * d, turn) for length, turn in self.pieces], *after])

    def places(self) -> Places:
        """Where the marks lie, `(2,)` each. The straight before H1 makes no difference, so none is laid."""
        line = chain([(length * self.d, turn) for length, turn in self.pieces], BLEND * self.d)
        order = sorted(self.marks, key=lambda name: self.marks[name])
        at = points(line, np.array([self.marks[name] for name in order]) * self.d) / self.d
        return dict(zip(order, at, strict=True))


FAR_TOO_LONG = 10.0
"""How many times its rope's length a shape may be drawn while it is sought: Newton's first steps can be a million."""

Draw = Callable[[Floats], Shape]
Closures = Callable[[Floats, Places], list[float]]


@dataclass(frozen=True)
class Sizes:
    """Free lengths of a shape: what is preferred, what a change of each counts against, and the least of each."""

    preferred: list[float]
    scale: list[float]
    least: list[float]


def closed(draw: Draw, closures: Closures, rope: float, end: str, sizes: Sizes) -> tuple[Floats, Shape]:
    """The free lengths nearest to what is preferred, and their shape, whose places close: all `closures` come to 0.

    rope: its line up to the mark `end`, in rope diameters. Raises ArithmeticError where nothing closes.
    """

    def miss(x: Floats) -> Floats:
        shape = draw(x)
        if sum(abs(length) for length, _ in shape.pieces) > FAR_TOO_LONG * rope:
            return np.array([np.inf])
        return np.array([*closures(x, shape.places()), shape.marks[end] - rope])

    preferred, scale, least = (np.array(each) for each in (sizes.preferred, sizes.scale, sizes.least))
    try:
        x = nearest(miss, preferred, scale, least)
    except ArithmeticError:
        x = _within_bounds(miss, preferred, scale, least)
    return x, draw(x)


def _within_bounds(residual: Residual, preferred: Floats, scale: Floats, least: Floats) -> Floats:
    """What `nearest` looks for, by sequential least squares: slower, and found where holding components fails.

    Raises ArithmeticError where nothing closes.
    """
    from scipy.optimize import Bounds, minimize

    low = (least - preferred) / scale
    found = minimize(
        lambda z: 0.5 * float(z @ z),
        np.maximum(low, 0.0),
        jac=lambda z: z,
        method="SLSQP",
        bounds=Bounds(low, np.full(len(low), np.inf)),
        constraints={"type": "eq", "fun": lambda z: residual(preferred + scale * z)},
        options={"maxiter": 200, "ftol": 1e-12},
    )
    x = preferred + scale * np.maximum(found.x, low)
    free = np.flatnonzero(x > least + 1e-9 * scale)
    x[free] = newton(_freed(residual, x, free), x[free])
    if (x < least - 0.01 * scale).any():
        raise ArithmeticError("no length within its bounds closes the shape")
    return np.asarray(x)


def _freed(residual: Residual, fixed: Floats, free: Ints) -> Residual:
    """The residual as a function of the free components alone, the others held as they are in `fixed`."""

    def within(y: Floats) -> Floats:
        whole = fixed.copy()
        whole[free] = y
        return residual(whole)

    return within


def _jacobian(residual: Residual, x: Floats, r: Floats, steps: Floats) -> Floats:
    return np.column_stack([(residual(x + h * e) - r) / h for h, e in zip(steps, np.eye(len(x)), strict=True)])


def _nearest(residual: Residual, preferred: Floats, scale: Floats, start: Floats) -> Floats:
    """Projects `preferred` on the closures, linearised anew each time; distances in units of `scale`."""
    x = start
    for _ in range(25):
        r = residual(x)
        slope = _jacobian(residual, x, r, 1e-6 * scale) * scale
        off = (x - preferred) / scale
        step = np.linalg.lstsq(slope, slope @ off - r, rcond=1e-9)[0] - off
        step *= min(1.0, 1.5 / max(float(np.abs(step).max()), 1e-12))
        x = x + scale * step
        if np.abs(step).max() < 1e-7:
            break
    return x


def nearest(residual: Residual, preferred: Floats, scale: Floats, least: Floats) -> Floats:
    """The solution of `residual(x) = 0` nearest `preferred` in units of `scale`, no component below `least`.

    Components that would fall below their least are held there. Raises ArithmeticError where nothing closes.
    """
    held = np.zeros(len(preferred), dtype=bool)
    x = np.maximum(preferred, least)
    for _ in range(len(preferred)):
        free = np.flatnonzero(~held)
        if not len(free):
            break

        within = _freed(residual, x, free)
        x = x.copy()
        x[free] = _nearest(within, preferred[free], scale[free], x[free])
        low = x < least - 1e-9
        if not low.any():
            x[free] = newton(within, x[free])
            return x
        held |= low
        x = np.maximum(x, least)
    raise ArithmeticError("no length within its bounds closes the shape")
