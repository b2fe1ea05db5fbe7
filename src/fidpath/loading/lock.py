"""The finished splice under load: lock and eye, cut below the entry, pulled at both ends from the hand-snug state.

Lengths in the solver are in rope diameters, forces in the tension of one strand of the standing part where it is cut.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fidpath.geometry import Strands
from fidpath.loading.setup import Loaded, LoadingSetup, Schedule, SweepStage, seat_body
from fidpath.loading.solver import load
from fidpath.settling import Settled, flatten
from fidpath.states import Draft

BELOW = 5.0
"""Rope kept below the entry, in diameters (7 and 10 give the same shape, measured in trials)."""

SCHEDULE = Schedule(
    (SweepStage(0.012, 0.97, 300), SweepStage(0.004, 0.97, 200), SweepStage(0.0015, 0.95, 100)), ramp=120
)
"""Comes within 0.2 degrees of throat and 0.02 diameters of where six times the sweeps lead (measured on the demo)."""


@dataclass(frozen=True)
class LoadCase:
    """One set of conditions.

    friction: between strands, and on the terminator. thickness: strand thickness as a share of the hand-snug model's.
    tail: pull on the tail's cut end, as a share of that on the standing part's: 1 where the bury holds, 0 let go.
    stretch: the force that would double a strand's length, in strand tensions.
    """

    friction: float
    thickness: float = 1.0
    tail: float = 1.0
    stretch: float = 400.0


@dataclass(frozen=True)
class LoadedLock:
    """Lock and eye as cut out of the hand-snug state, `before`, and under load, `strands`, both in mm."""

    case: LoadCase
    before: Strands
    strands: Strands
    loaded: Loaded


def loaded_lock(settled: Settled, case: LoadCase, schedule: Schedule = SCHEDULE, stride: int = 1) -> LoadedLock:
    """A finished splice's lock and eye under load. Raises CannotBeMade where the certificate is lost.

    stride: every so many nodes of a strand are kept.
    """
    draft = cut_below_entry(settled, stride)
    before = draft.laid
    setup = _setup(draft, case)
    loaded = load(setup, replace(schedule, growth=case.thickness))
    points = loaded.points.reshape(before.points.shape) * before.braid.diameter
    after = replace(before, points=points).repacked(before.packing * case.thickness)
    return LoadedLock(case, before, after, loaded)


def cut_below_entry(settled: Settled, stride: int = 1, below: float = BELOW) -> Draft:
    """The settled strands from `below` diameters beneath the entry on the standing part to as much of the tail.

    Each strand keeps the whole length that straight rope gives it, shared out as it lies: settling slides nodes along
    their strands, and that is no stretch.
    """
    strands, draft = settled.strands, settled.draft
    assert strands.bury is not None
    room = below * strands.braid.diameter
    station = strands.station
    low, high = np.searchsorted(station, [strands.bury.host[0] - room, strands.bury.guest[0] + room])
    high = min(int(high), int(strands.count.min()) - 1)
    kept = np.arange(int(low), high + 1, stride)
    points = strands.points[:, kept]
    lies = np.linalg.norm(np.diff(points, axis=1), axis=2)
    rest = lies * (draft.rest[:, kept[0] : kept[-1]].sum(axis=1) / lies.sum(axis=1))[:, None]
    rope = strands.only
    rope = replace(rope, **{name: getattr(rope, name)[kept] for name in ("station", "axis", "normal", "packing")})
    count = np.full(len(strands.count), len(kept), dtype=np.int64)
    cut = replace(strands, points=points, count=count, ropes=(rope,))
    return Draft(cut, cut.points, rest)


def _setup(draft: Draft, case: LoadCase) -> LoadingSetup:
    cut = draft.laid
    flat, d = flatten(draft, cut.points), cut.braid.diameter
    first, last = flat.start[:-1], flat.start[1:] - 1
    mobility, force = np.ones_like(flat.x), np.zeros_like(flat.x)
    mobility[first, 1:] = mobility[last, 1:] = 0.0
    force[first, 0], force[last, 0] = -1.0, -case.tail
    bodies = () if cut.seat is None else (seat_body(cut.seat, cut.seat_centre, d, case.friction),)
    return LoadingSetup(
        points=flat.x / d,
        start=flat.start,
        rest=flat.rest / d,
        thick=flat.thick / d,
        gap=flat.gap,
        mobility=mobility,
        force=force,
        moves=np.zeros_like(flat.x),
        stretch=case.stretch,
        friction=case.friction,
        bodies=bodies,
        ignore=flat.ignore,
    )
