"""The law of the plain braid: where strand k runs at station u of the rope's own length.

Strands turn in two hands at the same rate; both hands' crossings sit on a lattice, spaced P/N along the
rope and 2 pi/N round it (x = n P/N, angle = 2 pi q/N, n and q of equal parity). Over-two-under-two depends
on the angle alone and closes only for N divisible by 4; over-one-under-one depends on x alone.
Source: counting; braid angle tan a = 2 pi R/P after Brunschweiler, J. Text. Inst. 44 (1953) T666.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.job import Rope, Weave


@dataclass(frozen=True)
class Braid:
    """A plain braid at rest. Lengths in mm: outer diameter, pitch, strand thickness, mean radius, undulation."""

    strands: int
    weave: Weave
    diameter: float
    pitch: float
    thickness: float
    radius: float
    undulation: float

    @property
    def pick(self) -> float:
        """Spacing of crossings along the rope, P/N, mm."""
        return self.pitch / self.strands

    @property
    def angle(self) -> float:
        """Braid angle of the mean circle, radians."""
        return float(np.arctan2(2 * np.pi * self.radius, self.pitch))


def hands(strands: int) -> Ints:
    """+1 for strands turning with the right hand, -1 for the others, `(strands,) int`; they alternate."""
    return np.where(np.arange(strands) % 2 == 0, 1, -1)


def strand_angles(strands: int, pitch: float, station: Floats) -> Floats:
    """Angle of every strand round the axis, `(strands, n) float` radians, at rope stations `(n,) float` mm."""
    turn = 2 * np.pi * np.asarray(station) / pitch
    start = 2 * np.pi * (np.arange(strands) // 2) / (strands // 2)
    return start[:, None] + hands(strands)[:, None] * turn[None, :]


def lift(strands: int, weave: Weave, pitch: float, station: Floats, angle: Floats) -> Floats:
    """How far over (+) or under (-) each strand runs, `(strands, n) float`; +-1 at every crossing."""
    sign = hands(strands)[:, None]
    if weave == "over-two":
        return np.asarray(sign * np.sqrt(2.0) * np.cos(strands / 4 * (angle - np.pi / strands)))
    return sign * np.cos(strands * np.pi * np.asarray(station) / pitch)[None, :] * np.ones_like(angle)


def strand_offsets(
    braid: Braid, station: Floats, radius: Floats | float | None = None, undulation: Floats | float | None = None
) -> tuple[Floats, Floats]:
    """Polar place of each strand across the rope: `(radius, angle)`, each `(strands, n) float`, mm and radians.

    `radius` and `undulation` replace the braid's own where it is swollen or squeezed, scalar or `(n,)`.
    """
    angle = strand_angles(braid.strands, braid.pitch, station)
    over = lift(braid.strands, braid.weave, braid.pitch, station, angle)
    mean = braid.radius if radius is None else radius
    wave = braid.undulation if undulation is None else undulation
    return np.asarray(mean) + np.asarray(wave) * over, angle


def straight(braid: Braid, station: Floats) -> Floats:
    """Strand centre lines of straight rope along +x, `(strands, n, 3) float` mm."""
    radius, angle = strand_offsets(braid, station)
    along = np.broadcast_to(station, radius.shape)
    return np.stack([along, radius * np.cos(angle), radius * np.sin(angle)], axis=-1)


def _valley(samples: Floats) -> Floats:
    """Least value along the last axis, evenly sampled, at the foot of the parabola through it and its neighbours.

    `(..., n) float` to `(...) float`; a least sample at either end stands as it is.
    """
    least = samples.argmin(axis=-1)[..., None]
    inner = np.clip(least, 1, samples.shape[-1] - 2)
    before, at, after = (np.take_along_axis(samples, inner + step, axis=-1)[..., 0] for step in (-1, 0, 1))
    bend = before - 2 * at + after
    foot = at - (after - before) ** 2 / (8 * np.where(bend > 0, bend, np.inf))
    return np.where(inner[..., 0] == least[..., 0], foot, np.minimum(before, after))


def _clearance(strands: int, weave: Weave, pitch: float, thickness: float, ratio: Floats) -> Floats:
    """Least distance of one strand from all others minus the thickness, for several undulation ratios, d = 1.

    Four picks of one strand are looked at, the weave's whole period; the two hands are alike. Where two strands come
    nearest lies between the samples of either: the nearest samples alone leave strands up to 1.6 % too thick.
    """
    peak = np.sqrt(2.0) if weave == "over-two" else 1.0
    here = np.arange(64) / 64 * 4 * pitch / strands
    shift = np.linspace(-1.2, 1.2, 31) * pitch / strands
    mean = (0.5 - thickness / 2 - peak * ratio * thickness)[:, None, None]
    wave = (ratio * thickness)[:, None, None]

    def across(station: Floats, which: slice) -> tuple[Floats, Floats]:
        angle = strand_angles(strands, pitch, station)
        radius = mean + wave * lift(strands, weave, pitch, station, angle)[which]
        return radius * np.cos(angle[which]), radius * np.sin(angle[which])

    y, z = across(here, slice(0, 1))
    there = (here[:, None] + shift).ravel()
    other_y, other_z = across(there, slice(1, None))
    grid = (len(ratio), strands - 1, len(here), len(shift))
    squared = (other_y.reshape(grid) - y[..., None]) ** 2 + (other_z.reshape(grid) - z[..., None]) ** 2 + shift**2
    nearest = _valley(_valley(squared)).min(axis=1)
    return np.asarray(np.sqrt(np.maximum(nearest, 0.0)) - thickness)


@lru_cache(maxsize=64)
def fitted(strands: int, weave: Weave, pitch_over_diameter: float) -> tuple[float, float, float]:
    """Largest round strand that clears its neighbours: `(thickness, radius, undulation)` in rope diameters."""
    peak = np.sqrt(2.0) if weave == "over-two" else 1.0
    ratio = np.linspace(0.46, 0.80, 18)
    a, thick = 0.45 / strands**0.5, 0.55 / strands**0.5
    clear_a = _clearance(strands, weave, pitch_over_diameter, a, ratio).max()
    for _ in range(6):
        clear = _clearance(strands, weave, pitch_over_diameter, thick, ratio).max()
        if abs(clear) < 1e-7:
            break
        a, thick, clear_a = thick, thick - clear * (thick - a) / (clear - clear_a), clear
    best = float(ratio[int(np.argmax(_clearance(strands, weave, pitch_over_diameter, thick, ratio)))])
    return float(thick), float(0.5 - thick / 2 - peak * best * thick), float(best * thick)


def braid_of(rope: Rope) -> Braid:
    """The plain braid a rope is laid with, strands as thick as its diameter and pitch leave room for."""
    d = rope.diameter_mm
    thickness, radius, undulation = fitted(rope.strands, rope.weave, round(rope.pitch_mm / d, 6))
    return Braid(rope.strands, rope.weave, d, rope.pitch_mm, thickness * d, radius * d, undulation * d)
