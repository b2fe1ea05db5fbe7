"""Rope states of the other ways to make an eye: the lock with both ends free, and the plain buried eye."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.planning.plan import Plan
from fidpath.states.eye_states import first_fid, wrapped
from fidpath.states.finished_rope import strand_ends
from fidpath.states.recipe import TAIL_SHOWN, Bench
from fidpath.states.rope_state import Pass, RopeState

HOOK = 2.2
"""Bend radius with which the tail turns back over the standing part, in rope diameters."""


def free_end_in_h2(plan: Plan) -> RopeState:
    """The standing part's own free end, tapered for passing, just through H2 by its left face."""
    bench = Bench(plan)
    d = bench.d
    openings = (bench.passed("H1"), bench.passed("H2"))
    out = 1.6 * d
    arc = bench.arc(openings, bench.h2)
    loop = arc - 2 * out - np.pi * HOOK * d
    hook = [(out, 0.0), (np.pi * HOOK * d, -np.pi), (out, 0.0), (3.0 * d, 0.0), (7.0 * d, 0.9), (90 * d, 0.0)]
    line, west = bench.path([*bench.loop(loop), *hook])
    through = bench.station(openings, -2 * HOOK * d)
    first = through - 4.0 * d
    passes = (Pass("H1", bench.station(openings, loop)), Pass("H2", through))
    last = bench.h2 + TAIL_SHOWN * d
    return RopeState("free-end-in-h2", line, west, first, last, openings, passes, head=first, taper=3.5 * d)


def plain_wrapped(plan: Plan) -> RopeState:
    """The rope wrapped round the terminator for a plain eye; the entry is marked where the tail meets it."""
    return replace(wrapped(plan), name="plain-wrapped")


def plain_entry_opened(plan: Plan) -> RopeState:
    """A fid through the standing part at the entry."""
    return replace(first_fid(plan), name="plain-entry-opened")


def plain_tapered(plan: Plan) -> RopeState:
    """The tail of a plain eye cut to its bury and tapered, lying along the standing part."""
    tip, room = plan.station_tip, 2 * plan.braid.diameter
    ends = tuple(strand_ends(plan).tolist())
    return replace(wrapped(plan), name="plain-tapered", first=-plan.bury_length - room, last=tip, tip=tip, ends=ends)
