"""Closed-form estimates that plans are held against and do not use themselves."""

from __future__ import annotations

import numpy as np


def rope_between_holes(spacing: float, height: float) -> float:
    """Arc length of a circular arc of chord `spacing` and sagitta `height`/2, mm; the closed-form estimate."""
    a = 2 * np.arctan(height / spacing)
    return float(spacing * a / np.sin(a))


def load_share(length: float, friction: float, angle: float, radius: float) -> float:
    """Share of the load that friction alone hands from the tail to its cover within `length` mm of the tail's tip.

    1 - exp(-length friction tan^2 angle/radius): Coulomb friction; constant angle (radians) and mean radius (mm) of the
    cover's strands; no taper, no lock, no lock-stitch.
    """
    return float(1 - np.exp(-length * friction * np.tan(angle) ** 2 / radius))


def belt_length(radius: float, distance: float) -> float:
    """Loop of a line round a circle from a point at `distance` from its centre, mm (elementary geometry)."""
    return float(2 * np.sqrt(distance**2 - radius**2) + radius * (np.pi + 2 * np.arcsin(radius / distance)))
