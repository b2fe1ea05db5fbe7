"""Rope states between those of the steps: moments that a step's picture shows beside its own state."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.planning import Plan
from fidpath.states.draping import axis_of
from fidpath.states.drawn_up_states import drawn_up_state, seated
from fidpath.states.eye_states import curl_of, drawn_through, through_itself, with_fid
from fidpath.states.lock_states import curled_and_drawn
from fidpath.states.recipe import builder_of, drawn_tight, through_hole
from fidpath.states.rope_state import Haul, RopeState
from fidpath.states.state_kind import LOCKED, OWN_HOLE, StateKind

OVERWIDE = 1.25
"""Fid of the overwide hole by the widest that a hole may be opened to."""

TURNING = 9.0
"""Rope in the curl just before it turns over, in rope diameters."""


TURNING_OVER, DRAWN_SHOWN = 6.5, 5.0
"""Rope in the curl where a hand begins to draw it through, and tail shown beyond it, in rope diameters."""

FREE, PAST_H1 = 3.0, 0.5
"""Rope before H2, and beyond H1 on the tail, up to which all is held while the end is drawn, in rope diameters."""

END_HELD = 1.0
"""Rope of the end that the hand holds, in rope diameters."""

HALF_TURNED, HALF_ROLLED = 0.45, 0.2
"""Share of a turn made, or lost, at which the hand stops; then the strands still give a little."""


def overwide(plan: Plan) -> RopeState:
    """H1 opened beyond what the braid takes."""
    return with_fid(plan, "large fid", OVERWIDE * plan.openings.most_across)


def curl_turning(plan: Plan) -> RopeState:
    """The tail drawn through its own hole until the curl is about to turn over."""
    return curl_of(plan, TURNING)


def half_turned(plan: Plan) -> RopeState:
    """The curl drawn on: H2 half turned inside out."""
    return inverting(plan, HALF_TURNED)


def inverting(plan: Plan, turned: float) -> RopeState:
    """The tail drawn through its own hole until H2's groups have made so much of their turn."""
    state = through_itself(builder_of(plan), TURNING_OVER * plan.braid.diameter, DRAWN_SHOWN * plan.braid.diameter)
    return _hauled(state, builder_of(plan).h2 - FREE * plan.braid.diameter, turned)


def half_rolled(plan: Plan) -> RopeState:
    """The tail drawn toward the captive end: the curl half rolled out."""
    return rolling_out(plan, HALF_ROLLED)


def rolling_out(plan: Plan, turned: float) -> RopeState:
    """The curl drawn on until H2's groups have lost so much of their turn."""
    state = curled_and_drawn(plan)
    return _hauled(state, state.passes[0].guest + PAST_H1 * plan.braid.diameter, turned)


def _hauled(state: RopeState, held: float, turned: float) -> RopeState:
    """The state with a hand that draws its end the way it points, all up to a station held."""
    start = state.last - END_HELD * state.braid.diameter
    _, left = axis_of(state, np.array([start]))
    along = (float(left[0, 1]), -float(left[0, 0]), 0.0)
    return replace(state, haul=Haul(start, along, held, turned))


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
    StateKind("h2-half-turned", half_turned, OWN_HOLE, moving=True),
    StateKind("curl-half-rolled", half_rolled, LOCKED, moving=True),
    StateKind("h2-opened-again", opened_again, OWN_HOLE),
    StateKind("bury-measured", bury_measured, LOCKED),
)
