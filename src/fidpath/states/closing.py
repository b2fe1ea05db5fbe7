"""Closing a chain: the free lengths nearest to what is preferred that satisfy its closures."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import newton

Residual = Callable[[Floats], Floats]


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

        def within(y: Floats, fixed: Floats = x, free: Ints = free) -> Floats:
            whole = fixed.copy()
            whole[free] = y
            return residual(whole)

        x = x.copy()
        x[free] = _nearest(within, preferred[free], scale[free], x[free])
        low = x < least - 1e-9
        if not low.any():
            x[free] = newton(within, x[free])
            return x
        held |= low
        x = np.maximum(x, least)
    raise ArithmeticError("no length within its bounds closes the shape")
