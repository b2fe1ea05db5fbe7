"""The cases over which a loaded splice's figures are given: what is known of friction and of strand thickness."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools
from fidpath.geometry import Strands
from fidpath.job import Rope
from fidpath.loading.lock import LoadCase, LoadedLock, loaded_lock
from fidpath.loading.setup import Schedule, SweepStage
from fidpath.settling import Settled

FRICTION = (0.05, 0.16)
"""Band of friction of HMPE on HMPE where the job gives none (from memory of general materials literature)."""

THICKNESS = (1.0, 1.18)
"""Band of strand thickness under load, as a share of the hand-snug model's, where the job gives no loaded diameter: the
first lets plain rope shrink to about 0.8 of its diameter, the last keeps about 0.92 (trials; chosen here)."""

USUAL_STRETCH = 400.0
"""The force that would double a strand's length, in strand tensions: fibres that give 0.25 % (chosen here)."""


COARSE = 2
"""In the models by which the spread is found every so many nodes are kept: half of them move the throat by 0.8 degrees,
so only differences are taken from these models."""

COARSE_SCHEDULE = Schedule(
    (SweepStage(0.012, 0.97, 200), SweepStage(0.004, 0.97, 110), SweepStage(0.0015, 0.95, 60)), ramp=100
)
"""Stages of these models: they rest sooner."""

RUNNING = Schedule((SweepStage(0.012, 0.97, 2000),), ramp=120)
"""Enough sweeps for a tail that nothing holds to run out by several rope diameters."""


@dataclass(frozen=True)
class LoadBand:
    """The splice loaded at the middle of the band, and how far figures spread over it.

    middle: in full. coarse, corners: the same and the band's corners with fewer nodes, for differences between them.
    friction, thickness: the band, low and high; thickness as a share of the hand-snug model's.
    """

    friction: tuple[float, float]
    thickness: tuple[float, float]
    middle: LoadedLock
    coarse: LoadedLock
    corners: tuple[LoadedLock, ...]

    @property
    def certificate(self) -> float:
        """The least of all."""
        return min(lock.loaded.certificate for lock in (self.middle, self.coarse, *self.corners))

    @property
    def overlap(self) -> float:
        """The worst of all, as a share of a strand's thickness: large where the thickest strands find no room."""
        return max(lock.loaded.overlap for lock in (self.middle, self.coarse, *self.corners))


def load_band(settled: Settled, rope: Rope) -> LoadBand:
    """A finished splice under load over what the job leaves open. Raises CannotBeMade where one can't be found."""
    friction = rope.friction or FRICTION
    thickness, stretch = _thickness_and_stretch(settled, rope, sum(friction) / 2)
    middle = LoadCase(sum(friction) / 2, sum(thickness) / 2, stretch=stretch)
    corners = [
        LoadCase(mu, thick, stretch=stretch) for mu in dict.fromkeys(friction) for thick in dict.fromkeys(thickness)
    ]
    return LoadBand(
        friction,
        thickness,
        loaded_lock(settled, middle),
        loaded_lock(settled, middle, COARSE_SCHEDULE, COARSE),
        tuple(loaded_lock(settled, case, COARSE_SCHEDULE, COARSE) for case in corners if case != middle),
    )


def let_go(settled: Settled, friction: float, thickness: float = 1.0) -> LoadedLock:
    """Lock and eye with the tail's cut end let go after RUNNING: nothing holds but the lock and friction."""
    return loaded_lock(settled, LoadCase(friction, thickness, tail=0.0), RUNNING, COARSE)


def _thickness_and_stretch(settled: Settled, rope: Rope, friction: float) -> tuple[tuple[float, float], float]:
    """Thickness and stretch by which plain rope gets the diameter and the lengthening that were measured, if any."""
    thickness, stretch = THICKNESS, USUAL_STRETCH
    if rope.loaded_diameter_mm is None and rope.loaded_strain_share is None:
        return thickness, stretch
    trial = loaded_lock(settled, LoadCase(friction))
    if rope.loaded_diameter_mm is not None:
        share = rope.loaded_diameter_mm / leg_diameter(trial.strands)
        thickness = (share, share)
    if rope.loaded_strain_share is not None:
        by_shape = leg_lengthening(trial.before, trial.strands) - 1 / USUAL_STRETCH
        stretch = 1 / max(rope.loaded_strain_share - by_shape, 1 / USUAL_STRETCH)
    return thickness, stretch


def _legs(strands: Strands) -> Bools:
    """Columns of the standing leg and the tail leg where they are plain rope, 2 to 4 diameters beyond the throat."""
    assert strands.bury is not None
    ends = [(hole.host, hole.guest) for hole in strands.holes] or [(strands.bury.host[0], strands.bury.guest[0])]
    low, high = min(ends[0]), max(ends[0])
    off = np.minimum(strands.station - low, high - strands.station) / strands.braid.diameter
    return np.asarray((off > 2.0) & (off < 4.0))


def leg_diameter(strands: Strands) -> float:
    """Outer diameter of the plain rope in the legs, mean along them, mm."""
    here = _legs(strands)
    points = strands.points[:, here]
    out = np.linalg.norm(points - points.mean(axis=0), axis=2).max(axis=0)
    return float((2 * out + strands.thickness[here]).mean())


def leg_lengthening(before: Strands, after: Strands) -> float:
    """By what share the plain rope in the legs has become longer."""
    here = _legs(before)
    inside = here[:-1] & here[1:]
    step = [np.linalg.norm(np.diff(s.points.mean(axis=0), axis=0), axis=1)[inside].sum() for s in (before, after)]
    return float(step[1] / step[0] - 1)
