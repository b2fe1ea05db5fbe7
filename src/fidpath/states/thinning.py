"""Thin starts of a laid state: guests shrunk where they go through their hosts, so that nothing touches.

A state is laid once (`draft`) and thinned for every start that is tried (`settling.thin_start`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import NARROWED, Braid, Bury, LaidRope, Opening, padded, smooth_step
from fidpath.states.draft import Draft
from fidpath.states.draping import arc_of, axis_of, radius_of, strand_points
from fidpath.states.rope_state import Pass, RopeState

NEAR_HOLE = 1.6
"""Rope either side of a hole over which a guest's path is steepened, in rope diameters."""

NEAR_ENTRY = 4.0
"""Rope either side of the entry over which a tail may start thin, in rope diameters."""


@dataclass(frozen=True)
class Start:
    """How a state begins: the guests' share of their radius, how much further than `lift` groups are apart, mm, the
    share of its width a turned group keeps, the least rope either side of a pass that may be thin, in diameters, and by
    how much guests are drawn toward a square crossing of their hosts.
    """

    thin: float = 0.15
    lift: float = 0.0
    narrowed: float = NARROWED
    window: float = 3.0
    steep: float = 0.0


def thinned(draft: Draft, state: RopeState, start: Start) -> Draft:
    """The draft of a state with another start."""
    n = draft.laid.points.shape[1]
    ropes = [_thin(state, rope, laid, start) for rope, laid in enumerate(draft.laid.ropes)]
    return replace(draft, thin=np.concatenate([padded(one, n) for one in ropes]))


def _thin(state: RopeState, rope: int, laid: LaidRope, start: Start) -> Floats:
    """One rope's strands as they start, `(strands, n, 3)` mm: its guests thin where they go through their hosts."""
    share, axis = np.ones_like(laid.station), laid.axis.copy()
    for passing in (one for one in state.passes if one.rope == rope):
        opening = state.opening(passing.hole)
        share = np.minimum(share, _in_hole(state, passing, opening, laid, start))
        axis -= start.steep * _along_host(state, passing, opening, laid)
    if state.bury is not None and state.bury.guest_rope == rope:
        share = np.minimum(share, _into_cover(state, state.bury, laid, start))
    return strand_points(state.ropes[rope], state.openings_of(rope), laid, share, axis, start.lift, start.narrowed)


def _host_frame(state: RopeState, opening: Opening) -> tuple[Floats, Floats]:
    """Middle of an opening and its host's left, `(2,)` each, on the table."""
    axis, left = axis_of(state, np.array([opening.host]), opening.rope)
    return axis[0, :2], left[0, :2]


def _in_hole(state: RopeState, passing: Pass, opening: Opening, laid: LaidRope, start: Start) -> Floats:
    """Share of its radius each column of a guest starts with near its hole, `(n,)`."""
    d = state.ropes[opening.rope].braid.diameter
    reach = max(start.window * d, *(each.half + 0.3 * d for each in state.openings))
    if opening.rope == passing.rope:
        reach = min(reach, 0.45 * abs(passing.guest - opening.host))
    middle, left = _host_frame(state, opening)
    apart = np.abs((laid.axis[:, :2] - middle) @ left)
    room = np.clip(apart / (0.55 * d) - 1.02, start.thin, 1.0)
    return np.where(np.abs(laid.station - passing.guest) < reach, room, 1.0)


def _along_host(state: RopeState, passing: Pass, opening: Opening, laid: LaidRope) -> Floats:
    """How far a guest lies along its host from the hole's middle, near it, `(n, 3)` mm: 0 where it crosses squarely."""
    d = state.ropes[opening.rope].braid.diameter
    middle, left = _host_frame(state, opening)
    ahead = np.array([left[1], -left[0]])
    off = laid.axis[:, :2] - middle
    window = 1 - smooth_step(np.abs(off @ left) / d - 0.35)
    near = np.where(np.abs(laid.station - passing.guest) < NEAR_HOLE * d, window, 0.0)
    return np.asarray(np.append(ahead, 0.0) * (near * (off @ ahead))[:, None])


def _crest(braid: Braid) -> float:
    """How far a strand's centre line rises over the braid's mean circle, mm."""
    return braid.undulation * (np.sqrt(2.0) if braid.weave == "over-two" else 1.0)


def _into_cover(state: RopeState, bury: Bury, laid: LaidRope, start: Start) -> Floats:
    """Share of its radius each column of a tail starts with where it goes in through its cover's wall, `(n,)`."""
    host, d = state.ropes[bury.host_rope], state.ropes[bury.host_rope].braid.diameter
    near = (np.abs(laid.station - bury.guest[0]) < NEAR_ENTRY * d) & (laid.station > _clear_of_holes(state, bury))
    beside = _beside(state, bury, laid.station[near])
    apart = np.linalg.norm(laid.axis[near] - axis_of(state, beside, bury.host_rope)[0], axis=1)
    wall, tail = radius_of(host, beside), radius_of(state.ropes[bury.guest_rope], laid.station[near])
    crest = _crest(host.braid)
    outside = apart / (1.03 * (host.braid.radius + crest)) - 1.02
    inside = (wall - crest - apart) / (tail + crest) - 0.05
    share = np.ones_like(laid.station)
    share[near] = np.clip(np.maximum(outside, inside), start.thin, 1.0)
    return share


def _beside(state: RopeState, bury: Bury, tail: Floats) -> Floats:
    """Stations of the standing part as far from the entry, along its line, as stations `(n,)` of the tail are, mm."""
    d = state.ropes[bury.host_rope].braid.diameter
    host = np.arange(bury.host[0] - 2 * NEAR_ENTRY * d, bury.host[0] + 2 * NEAR_ENTRY * d, 0.1 * d)
    into_tail = arc_of(state, tail, bury.guest_rope) - arc_of(state, np.array([bury.guest[0]]), bury.guest_rope)
    entry = arc_of(state, np.array([bury.host[0]]), bury.host_rope)
    return np.asarray(np.interp(entry - into_tail, arc_of(state, host, bury.host_rope), host))


def _clear_of_holes(state: RopeState, bury: Bury) -> float:
    """Station of the tail from which on it may be thin for its entry: beyond its own last hole, and its own half."""
    d = state.ropes[bury.guest_rope].braid.diameter
    holes = [o.host + 0.5 * d for o in state.openings_of(bury.guest_rope) if o.host < bury.guest[0]]
    middle = (bury.host[0] + bury.guest[0]) / 2 if bury.host_rope == bury.guest_rope else -np.inf
    return float(max([middle, *holes]))
