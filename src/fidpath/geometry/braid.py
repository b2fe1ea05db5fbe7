"""The law of the plain braid: where strand k runs at station u of the rope's own length.

Strands turn in two hands at the same rate; both hands' crossings sit on a lattice, spaced P/N along the
rope and 2 pi/N round it (x = n P/N, angle = 2 pi q/N, n and q of equal parity). Over-two-under-two depends
on the angle alone and closes only for N divisible by 4; over-one-under-one depends on x alone.
Source: counting; braid angle tan a = 2 pi R/P after Brunschweiler, J. Text. Inst. 44 (1953) T666.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

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
    count = samples.shape[-1]
    least = samples.reshape(-1, count).argmin(axis=1)
    inner = np.clip(least, 1, count - 2)
    place, flat = inner + count * np.arange(len(inner)), samples.ravel()
    before, at, after = flat[place - 1], flat[place], flat[place + 1]
    bend = before - 2 * at + after
    foot = at - (after - before) ** 2 / (8 * np.where(bend > 0, bend, np.inf))
    return np.asarray(np.where(inner == least, foot, np.minimum(before, after))).reshape(samples.shape[:-1])


RATIOS = np.linspace(0.46, 0.80, 18)
"""Undulations that are tried, in strand thicknesses."""

Turned = tuple[Floats, ...]
"""How far over a strand runs, and the cosine and sine of its angle."""


class _Period:
    """One strand beside all others over the weave's whole period, four picks, in a rope of diameter 1.

    The two hands are alike, so one strand stands for all. Only how thick strands are and how they undulate changes.
    """

    def __init__(self, strands: int, weave: Weave, pitch: float) -> None:
        def turned(station: Floats, which: slice) -> Turned:
            angle = strand_angles(strands, pitch, station)
            over, own = lift(strands, weave, pitch, station, angle)[which], angle[which]
            return over, np.cos(own), np.sin(own)

        here = np.arange(64) / 64 * 4 * pitch / strands
        shift = np.linspace(-1.2, 1.2, 31) * pitch / strands
        self._grid = (strands - 1, len(here), len(shift))
        self._one = turned(here, slice(0, 1))
        self._others = turned((here[:, None] + shift).ravel(), slice(1, None))
        self._along = shift**2
        self._peak = np.sqrt(2.0) if weave == "over-two" else 1.0
        self._nearest: list[int] = []

    def wave(self, thickness: float, ratio: Floats | float) -> tuple[Any, Any]:
        """Mean radius and undulation of strands that touch the rope's surface from inside."""
        return 0.5 - thickness / 2 - self._peak * ratio * thickness, ratio * thickness

    def most_clear(self, thickness: float) -> tuple[float, float]:
        """The greatest least distance between strands less their thickness, and the undulation ratio that leaves it.

        A ratio can't leave more than is left at any one place. Where the strands are nearest at one ratio they are
        nearly so at others: most ratios are known by those places to be worse.
        """
        found = np.full(len(RATIOS), -np.inf)
        while True:
            at_most = np.where(np.isneginf(found), self._at_most(thickness), -np.inf)
            k = int(at_most.argmax())
            if at_most[k] < found.max() or np.isneginf(at_most[k]):
                break
            found[k] = self._clearance(thickness, k)
        best = int(found.argmax())
        return float(found[best]), float(RATIOS[best])

    def _at_most(self, thickness: float) -> Floats:
        """Least distances less the thickness, `(ratios,)`, over the places where strands were nearest at some ratio."""
        if not self._nearest:
            return np.full(len(RATIOS), np.inf)
        places = np.array(self._nearest)
        _, station, shift = np.unravel_index(places, self._grid)
        one, others = ([each[0, station] for each in self._one], [each.ravel()[places] for each in self._others])
        mean, wave = self.wave(thickness, RATIOS[:, None])
        squared = _squared((*one,), (*others,), self._along[shift], mean, wave)
        return np.asarray(np.sqrt(squared.min(axis=1)) - thickness)

    def _clearance(self, thickness: float, k: int) -> float:
        """Least distance less the thickness at one ratio.

        Where two strands come nearest lies between the samples of either: the nearest samples alone leave strands up
        to 1.6 % too thick.
        """
        over, cos, sin = (each[..., None] for each in self._one)
        others = tuple(each.reshape(self._grid) for each in self._others)
        squared = _squared((over, cos, sin), others, self._along, *self.wave(thickness, RATIOS[k]))
        self._nearest.append(int(squared.argmin()))
        return float(np.sqrt(np.maximum(_valley(_valley(squared)).min(), 0.0)) - thickness)


def _squared(one: Turned, other: Turned, along: Floats, mean: Any, wave: Any) -> Floats:
    """Squared distance of strands at places that lie as far along the rope from each other as the root of `along`.

    Arrays are worked on in place: a fresh one of this size costs more than the sum that goes into it.
    """
    near = mean + wave * one[0]
    far = np.asarray(wave * other[0])
    far += mean
    squared = np.asarray(far * other[1])
    squared -= near * one[1]
    squared *= squared
    far *= other[2]
    far -= near * one[2]
    far *= far
    squared += far
    squared += along
    return squared


@lru_cache(maxsize=64)
def fitted(strands: int, weave: Weave, pitch_over_diameter: float) -> tuple[float, float, float]:
    """Largest round strand that clears its neighbours: `(thickness, radius, undulation)` in rope diameters."""
    period = _Period(strands, weave, pitch_over_diameter)
    before, thick = 0.45 / strands**0.5, 0.55 / strands**0.5
    clear_before, _ = period.most_clear(before)
    clear, ratio = period.most_clear(thick)
    for _ in range(6):
        if abs(clear) < 1e-7:
            break
        before, thick, clear_before = thick, thick - clear * (thick - before) / (clear - clear_before), clear
        clear, ratio = period.most_clear(thick)
    radius, undulation = period.wave(thick, ratio)
    return float(thick), float(radius), float(undulation)


def braid_of(rope: Rope) -> Braid:
    """The plain braid a rope is laid with, strands as thick as its diameter and pitch leave room for."""
    d = rope.diameter_mm
    thickness, radius, undulation = fitted(rope.strands, rope.weave, round(rope.pitch_mm / d, 6))
    return Braid(rope.strands, rope.weave, d, rope.pitch_mm, thickness * d, radius * d, undulation * d)
