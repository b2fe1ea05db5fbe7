"""The settling: thin start, a ramp of the contact thickness, sweeps until the bound is met, and a guard.

No node moves further in a sweep than a share of the least distance between centre lines at its beginning; so
(least distance - 2 x largest move)/thickness > 0 in every sweep certifies that no strand crossed another.

The ramp goes at the pace that contact allows: fast while little is pressed, slow where strands are squeezed. The guard
lets nodes move less where the certificate would fall below KEPT. The sweeps themselves are in `sweep_kernels`.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import Strands
from fidpath.settling import sweep_kernels as kernels
from fidpath.settling.flat import Flat, flatten
from fidpath.settling.neighbour_kernels import neighbours
from fidpath.settling.sweep_kernels import Room, SettlingAim, State
from fidpath.states import Draft

RAMP = 100
"""Sweeps of the ramp at full pace."""

TELL = 6
"""Sweeps between two reports of progress."""

BOUND = 0.0015
MOST_SWEEPS = 900

AHEAD = 0.176
"""Neighbours are listed for strands so much thicker than they are, as a share of the full thickness."""

LAST_SWEEPS = 120
"""Sweeps at most in which strands that lie nearly right are pressed apart."""


@dataclass(frozen=True)
class Effort:
    """How much work a settling may be: sweeps of the ramp at its full pace, and sweeps in all."""

    ramp: int = RAMP
    most_sweeps: int = MOST_SWEEPS


FULL = Effort()


@dataclass(frozen=True)
class Log:
    """What the solver says of itself: its certificate, sweeps, seconds, and the overlap it stopped at."""

    certificate_min: float
    sweeps: int
    settle_seconds: float
    overlap: float


@dataclass(frozen=True)
class Settled:
    """Settled strands, the draft they came from, and the solver's log.

    between: placings `(strands, n, 3)` mm on the way from the thin start to `strands`, in order, where any were kept.
    """

    strands: Strands
    draft: Draft
    log: Log
    between: tuple[Floats, ...] = ()


def room_for(flat: Flat) -> Room:
    """Arrays for a settling to work in, drawn to the laid braid at first, with no neighbours listed."""
    n = len(flat.x)
    goal, length = flat.laid.copy(), flat.rest.copy()
    before, listed_at = np.zeros((n, 3)), np.zeros((n, 3))
    pairs, active = np.zeros((0, 2), dtype=np.int64), np.zeros(0, dtype=np.int64)
    return Room(goal, length, np.zeros(n), before, np.zeros(2), listed_at, pairs, active, np.zeros(0))


def listed_anew(flat: Flat, room: Room, state: State, thickness: float) -> Room:
    """The room with the neighbours of now, none of them looked at yet."""
    values = state.values
    grown = kernels.FIRST_THICKNESS + (1 - kernels.FIRST_THICKNESS) * values[kernels.RAMPED]
    wide = min(1.0, max(grown, values[kernels.LISTED]) + AHEAD)
    reach = (kernels.SKIN + 2 * kernels.CAP) * thickness
    pairs = neighbours(flat.x, flat.strand, flat.gap, flat.thick * wide, reach)
    values[kernels.LISTED], values[kernels.WANDERED], values[kernels.CLOSED] = wide, 0.0, 0.0
    active, apart_until = np.empty(len(pairs), np.int64), np.full(len(pairs), -np.inf)
    return room._replace(listed_at=flat.x.copy(), pairs=pairs, active=active, apart_until=apart_until)


def state_at_first(aim: SettlingAim) -> State:
    """Nothing swept, nothing listed; the ramp begins only where the guard holds."""
    counts, values = np.zeros(4, dtype=np.int64), np.zeros(8)
    counts[kernels.LOOKED] = -1
    values[kernels.CERTIFICATE], values[kernels.LISTED], values[kernels.MOVED] = 1.0, -1.0, aim.thickness
    if not aim.guarded:
        counts[kernels.DRAWN], values[kernels.RAMPED] = kernels.STEPS, 1.0
    return State(counts, values)


def state_at_last(aim: SettlingAim) -> State:
    """The ramp's end, with one sweep made before the first look."""
    state = state_at_first(aim)
    state.counts[kernels.DRAWN], state.counts[kernels.HELD] = kernels.STEPS, kernels.HOLD + 1
    state.counts[kernels.LOOKED], state.values[kernels.RAMPED] = state.counts[kernels.SWEEP], 1.0
    return state


def settle(
    draft: Draft,
    *,
    guarded: bool = True,
    progress: Callable[[float], None] | None = None,
    bound: float = BOUND,
    effort: Effort = FULL,
) -> Settled:
    """Settles a draft until no overlap exceeds `bound`.

    `guarded=False` leaves ramp and guard out: the control that must tunnel.

    Raises CannotBeMade where the certificate or the overlap can't be had; the message gives the figures.
    """
    began = time.perf_counter()
    laid = draft.laid
    flat = flatten(draft, draft.thin if guarded else laid.points)
    thickness = min(rope.braid.thickness for rope in laid.ropes)
    log = run(flat, SettlingAim(thickness, bound, effort.ramp, effort.most_sweeps, guarded), progress)
    points = laid.points.copy()
    points[laid.alive] = flat.x
    return Settled(replace(laid, points=points), draft, replace(log, settle_seconds=time.perf_counter() - began))


def pressed_apart(settled: Settled, bound: float = BOUND) -> Settled:
    """Strands that are nearly settled, pressed apart from where they lie until no overlap exceeds `bound`.

    Where that can't be had in LAST_SWEEPS, the overlap that is left is in the log. Raises CannotBeMade as `settle`.
    """
    strands = settled.strands
    lies = np.linalg.norm(np.diff(strands.points, axis=1), axis=2)
    flat = flatten(Draft(strands, strands.points, lies), strands.points)
    thickness = min(rope.braid.thickness for rope in strands.ropes)
    aim = SettlingAim(thickness, bound, FULL.ramp, LAST_SWEEPS, guarded=True)
    log = run(flat, aim, None, state_at_last(aim))
    points = strands.points.copy()
    points[strands.alive] = flat.x
    log = replace(
        log,
        certificate_min=min(settled.log.certificate_min, log.certificate_min),
        sweeps=settled.log.sweeps + log.sweeps,
        settle_seconds=settled.log.settle_seconds,
    )
    return replace(settled, strands=replace(strands, points=points), log=log)


def run(flat: Flat, aim: SettlingAim, progress: Callable[[float], None] | None, state: State | None = None) -> Log:
    """Settles flat nodes where they are; the log is without its seconds. Raises CannotBeMade as `settle` does."""
    room, state = room_for(flat), state or state_at_first(aim)
    counts, values = state
    until, why = 0 if progress is not None else aim.most, kernels.AGAIN
    while why != kernels.DONE:
        why = kernels.sweeps(flat, room, state, aim, until)
        if why == kernels.AGAIN and progress is not None:
            progress(min(0.99, until / (2.5 * aim.ramp)))
            until += TELL
        elif why == kernels.STALE:
            room = listed_anew(flat, room, state, aim.thickness)
        elif why == kernels.FAILED:
            raise _lost(float(values[kernels.CERTIFICATE]), int(counts[kernels.SWEEP]))
    return Log(float(values[kernels.CERTIFICATE]), int(counts[kernels.SWEEP]), 0.0, float(values[kernels.OVERLAP]))


def _lost(certificate: float, sweep: int) -> CannotBeMade:
    return CannotBeMade(
        f"the strands can't be settled: the guard's certificate fell to {certificate:.3f} in sweep {sweep}",
        "Use a longer pitch, a larger hole gap or a narrower throat",
        key="rope.pitch",
    )
