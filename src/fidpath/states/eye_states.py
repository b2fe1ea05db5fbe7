"""Rope states from the line laid out to the marked place drawn out through H1."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.geometry import BLEND, Opening, Seat, chain, heading, points
from fidpath.planning import Plan
from fidpath.states.pieces import Pieces, loop, path, swing_away
from fidpath.states.recipe import TAIL_SHOWN, WEST, StateBuilder, builder_of, pushed_together, through_hole
from fidpath.states.rope_state import Pass, RopeState
from fidpath.states.state_kind import OWN_HOLE, PASSED, StateKind

LEAST_CIRCLE = 10.0
"""Axis of the least circle that the tail is laid in to reach its own hole, in rope diameters."""


def laid_out(plan: Plan) -> RopeState:
    """The whole line laid straight on the table."""
    builder = builder_of(plan)
    line = chain([(builder.tail_end + WEST * builder.d, 0.0)], BLEND * builder.d, 0.0, (-WEST * builder.d, 0.0))
    return builder.state(line, WEST * builder.d, -WEST * builder.d, builder.tail_end, tip=builder.tail_end)


def _crowned(state: RopeState, seat: Seat, radius: float, loop: float) -> RopeState:
    """The state with the terminator in the bend of its eye, the crown halfway round the loop."""
    at = np.array([state.arc_zero + loop / 2])
    middle, along = points(state.chain, at)[0], float(heading(state.chain, at)[0])
    inward = np.array([-np.sin(along), np.cos(along)])
    centre = middle + radius * inward
    return replace(state, seat=seat, seat_centre=(float(centre[0]), float(centre[1]), 0.0))


def wrapped(plan: Plan) -> RopeState:
    """The rope wrapped round the terminator, the tail lying along the standing part."""
    builder, held, round_eye = builder_of(plan), plan.wrapped_loop, plan.loop_fitted
    line, west = path(builder.d, [*held.pieces, (200 * builder.d, 0.0)])
    state = builder.state(line, west, -WEST * builder.d, round_eye + WEST * builder.d)
    return _crowned(state, plan.seat, plan.eye.bend_radius, held.axis)


def first_fid(plan: Plan) -> RopeState:
    """The small fid through H1."""
    return with_fid(plan, "small fid", plan.openings.first_fid)


def second_fid(plan: Plan) -> RopeState:
    """The larger fid through H1, opened as far as the plan says."""
    return with_fid(plan, "large fid", plan.openings.second_fid)


def with_fid(plan: Plan, kind: str, diameter: float) -> RopeState:
    """A fid of that diameter right through H1."""
    builder = builder_of(plan)
    hole = builder.opened(builder.letters[0], diameter)
    line, west = path(builder.d, [(80 * builder.d, 0.0)])
    reach, baggy = WEST * builder.d, pushed_together(builder.braid, hole)
    state = builder.state(line, west, -reach, reach, (hole,), profile=baggy)
    return replace(state, tools=(through_hole(state, hole, kind, diameter / 2, 1.0, 0.0, diameter / 2),))


def tail_entering(plan: Plan) -> RopeState:
    """The tail's end, tapered for passing, just through H1."""
    builder = builder_of(plan)
    d, h1 = builder.d, builder.passed(builder.letters[0])
    guest = builder.tail_end - 4 * d
    line, west = path(d, [*loop(d, builder.arc((h1,), guest)), (20 * d, 0.0)])
    return builder.state(line, west, -WEST * d, builder.tail_end, (h1,), (Pass(h1.name, guest),),
        tip=builder.tail_end, taper=3.5 * d,
    )  # fmt: skip


def marking(plan: Plan) -> RopeState:
    """The tail drawn through H1 round the terminator, the loop as long as when H1 was marked."""
    builder, held, guest = builder_of(plan), plan.marking_loop, plan.loop_fitted
    d, h1 = builder.d, builder.passed(builder.letters[0])
    line, west = path(d, [*held.pieces, *swing_away(d, 2.5)], -np.pi / 4)
    state = builder.state(
        line, west, -WEST * d, guest + TAIL_SHOWN * d, (h1,), (Pass(h1.name, guest),), heading=-np.pi / 4
    )
    return _crowned(state, plan.seat, plan.eye.bend_radius, held.axis)


def drawn_out(builder: StateBuilder) -> float:
    """Rope from H1 to H2 once H2 has been drawn out through H1, mm: about a quarter of the eye, 4 to 7 diameters."""
    return float(np.clip(0.28 * builder.h2, 4 * builder.d, 7 * builder.d))


def _out(builder: StateBuilder, h2: Opening) -> tuple[Pieces, tuple[Opening, ...], float]:
    """Eye and the stretch from H1 to H2, the openings, and the tail's station in H1."""
    openings = (builder.passed(builder.letters[0]), h2)
    stretch = drawn_out(builder)
    arc = builder.arc(openings, builder.h2)
    pieces = [*loop(builder.d, arc - stretch), (stretch, 0.0)]
    return pieces, openings, builder.station(openings, arc - stretch)


def h2_drawn_out(plan: Plan) -> RopeState:
    """The marked place drawn out through H1 to its far side, opened by its two fids, one from either side."""
    builder = builder_of(plan)
    small, large = (fid / 2 for fid in plan.openings.h2_fids)
    h2 = builder.opened(builder.letters[1], 2 * (small + large))
    pieces, openings, guest = _out(builder, h2)
    line, west = path(builder.d, [*pieces, *swing_away(builder.d)])
    last = builder.h2 + TAIL_SHOWN * builder.d
    state = builder.state(line, west, -WEST * builder.d, last, openings, (Pass(openings[0].name, guest),))
    fids = (
        through_hole(state, h2, "large fid", large, 1.0, -small, large),
        through_hole(state, h2, "small fid", small, -1.0, large, small),
    )
    return replace(state, tools=fids)


def inside_out(plan: Plan) -> RopeState:
    """The tail drawn through its own hole: H2 is inside out, each group with one turn."""
    return drawn_through(plan, builder_of(plan).inside_out())


def drawn_through(plan: Plan, h2: Opening) -> RopeState:
    """The tail drawn through its own hole, which is open so far."""
    builder = builder_of(plan)
    pieces, openings, guest = _out(builder, h2)
    line, west = path(builder.d, [*pieces, *swing_away(builder.d)])
    last = builder.h2 + TAIL_SHOWN * builder.d
    return builder.state(line, west, -WEST * builder.d, last, openings, (Pass(openings[0].name, guest),))


def _through_itself(builder: StateBuilder, curl: float, after: Pieces, shown: float) -> RopeState:
    """The tail's end through H2: a loop of `curl` mm of axis from H2 round to H2, then `after`."""
    d = builder.d
    pieces, openings, guest = _out(builder, builder.passed(builder.letters[1]))
    second = builder.station(openings, builder.arc(openings, builder.h2) + curl)
    line, west = path(d, [*pieces, *loop(d, curl), *after])
    passes = tuple(Pass(hole.name, at) for hole, at in zip(openings, (guest, second), strict=True))
    return builder.state(line, west, -WEST * d, second + shown, openings, passes)


def tail_end_in_h2(plan: Plan) -> RopeState:
    """The line laid in a circle, the tail's own end going into H2 by its left face."""
    builder = builder_of(plan)
    d = builder.d
    curl = builder.tail_end - builder.h2 - 5 * d
    if curl < LEAST_CIRCLE * d:
        have = (builder.tail_end - builder.h2) / d
        raise CannotBeMade(
            f"the tail is too short to be laid in a circle and passed through H2: {have:.1f} d of it lie beyond H2",
            f"It needs about {LEAST_CIRCLE + 5:g} d: make the bury longer",
            key="practice.bury",
        )
    state = _through_itself(builder, curl, [(2.6 * d, 0.0), (2.4 * d, 0.96), (10 * d, 0.0)], 0.0)
    return state.lying(last=builder.tail_end, tip=builder.tail_end, taper=3.5 * d)


def curl_closing(plan: Plan) -> RopeState:
    """The tail being drawn through its own hole, its curl nearly closed."""
    return curl_of(plan, 12.8)


def curl_of(plan: Plan, curl: float) -> RopeState:
    """The tail through its own hole, with so many rope diameters of it in the curl."""
    return through_itself(builder_of(plan), curl * plan.braid.diameter, 14 * plan.braid.diameter)


def through_itself(builder: StateBuilder, curl: float, shown: float) -> RopeState:
    """The same with so many mm in the curl, and so many of the tail shown beyond it."""
    d = builder.d
    after: Pieces = [(2.6 * d, 0.0), (3.9 * d, np.pi / 2), (1.0 * d, 0.0), (5.7 * d, -0.7), (120 * d, 0.0)]
    return _through_itself(builder, curl, after, shown)


KINDS = (
    StateKind("laid-out", laid_out),
    StateKind("wrapped", wrapped),
    StateKind("h1-first-fid", first_fid),
    StateKind("h1-second-fid", second_fid),
    StateKind("tail-entering", tail_entering, PASSED),
    StateKind("marking", marking, PASSED),
    StateKind("h2-drawn-out", h2_drawn_out, PASSED),
    StateKind("tail-end-in-h2", tail_end_in_h2, OWN_HOLE),
    StateKind("curl-closing", curl_closing, OWN_HOLE),
    StateKind("h2-inside-out", inside_out, OWN_HOLE),
)
