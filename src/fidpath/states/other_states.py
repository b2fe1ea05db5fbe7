"""Rope states of the other ways to make an eye: the lock with both ends free, and the plain buried eye."""

from __future__ import annotations

import numpy as np

from fidpath.planning import Plan
from fidpath.states.eye_states import first_fid, wrapped
from fidpath.states.recipe import TAIL_SHOWN, StateBuilder, strand_ends
from fidpath.states.rope_state import Pass, RopeState
from fidpath.states.state_kind import LOCKED, StateKind

HOOK = 2.2
"""Bend radius with which the tail turns back over the standing part, in rope diameters."""


def free_end_in_h2(plan: Plan) -> RopeState:
    """The standing part's own free end, tapered for passing, just through H2 by its left face."""
    builder = StateBuilder(plan)
    d = builder.d
    openings = (builder.passed("H1"), builder.passed("H2"))
    out = 1.6 * d
    arc = builder.arc(openings, builder.h2)
    loop = arc - 2 * out - np.pi * HOOK * d
    hook = [(out, 0.0), (np.pi * HOOK * d, -np.pi), (out, 0.0), (3.0 * d, 0.0), (7.0 * d, 0.9), (90 * d, 0.0)]
    line, west = builder.path([*builder.loop(loop), *hook])
    through = builder.station(openings, -2 * HOOK * d)
    first = through - 4.0 * d
    passes = (Pass("H1", builder.station(openings, loop)), Pass("H2", through))
    last = builder.h2 + TAIL_SHOWN * d
    return builder.state(line, west, first, last, openings, passes, head=first, taper=3.5 * d)


def plain_tapered(plan: Plan) -> RopeState:
    """The tail of a plain eye cut to its bury and tapered, lying along the standing part."""
    tip, room = plan.station_tip, 2 * plan.braid.diameter
    ends = tuple(strand_ends(plan).tolist())
    return wrapped(plan).lying(first=-plan.bury_length - room, last=tip, tip=tip, ends=ends)


KINDS = (
    StateKind("free-end-in-h2", free_end_in_h2, LOCKED, drawn_up=False),
    StateKind("plain-wrapped", wrapped),
    StateKind("plain-entry-opened", first_fid),
    StateKind("plain-tapered", plain_tapered),
)
