"""Rope states between those of the steps: moments that a step's picture shows beside its own state."""

from __future__ import annotations

from dataclasses import replace

from fidpath.planning import Plan
from fidpath.states.drawn_up_states import drawn_up_state, seated
from fidpath.states.eye_states import curl_of, drawn_through, with_fid
from fidpath.states.recipe import builder_of, drawn_tight, through_hole
from fidpath.states.rope_state import RopeState
from fidpath.states.state_kind import LOCKED, OWN_HOLE, StateKind

OVERWIDE = 1.25
"""Fid of the overwide hole by the widest that a hole may be opened to."""

TURNING = 9.0
"""Rope in the curl just before it turns over, in rope diameters."""


def overwide(plan: Plan) -> RopeState:
    """H1 opened beyond what the braid takes."""
    return with_fid(plan, "large fid", OVERWIDE * plan.openings.most_across)


def curl_turning(plan: Plan) -> RopeState:
    """The tail drawn through its own hole until the curl is about to turn over."""
    return curl_of(plan, TURNING)


def opened_again(plan: Plan) -> RopeState:
    """H2, inside out, opened with a fid from either side."""
    h2 = builder_of(plan).two_legs()
    state = drawn_through(plan, h2)
    fids = tuple(
        through_hole(state, h2, "small fid", fid / 2, side, -0.5 * side * h2.flat, 0.3 * fid)
        for fid, side in zip(plan.openings.h2_fids, (-1.0, 1.0), strict=True)
    )
    return replace(state, tools=fids)


def bury_measured(plan: Plan) -> RopeState:
    """The terminator in the eye, the tail whole beside the standing part."""
    builder = builder_of(plan)
    state = drawn_up_state(builder, plan.eye.zone, plan.eye, drawn_tight(plan), builder.tail_end - builder.h2)
    return seated(state.lying(tip=builder.tail_end), plan.seat, plan.eye)


KINDS = (
    StateKind("h1-overwide", overwide),
    StateKind("curl-turning", curl_turning, OWN_HOLE),
    StateKind("h2-opened-again", opened_again, OWN_HOLE),
    StateKind("bury-measured", bury_measured, LOCKED),
)
