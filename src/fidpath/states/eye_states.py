"""Rope states from the line laid out to the marked place drawn out through H1."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import BLEND, chain, heading, newton, points
from fidpath.planning import Plan
from fidpath.states.recipe import QUARTERS, TAIL_SHOWN, WEST, Pieces, StateBuilder, through_hole
from fidpath.states.rope_state import Opening, Pass, RopeState
from fidpath.states.state_kind import OWN_HOLE, PASSED, StateKind

LEAST_CIRCLE = 10.0
"""Axis of the least circle that the tail is laid in to reach its own hole, in rope diameters."""


def laid_out(plan: Plan) -> RopeState:
    """The whole line on the table, gently bent."""
    builder = StateBuilder(plan)
    long = builder.tail_end + WEST * builder.d
    pieces: Pieces = [(0.25 * long, 0.05), (0.5 * long, -0.1), (0.25 * long, 0.05)]
    line = chain(pieces, BLEND * builder.d, -0.02)
    at = points(line, np.array([WEST * builder.d]))[0]
    line = replace(line, start=(-float(at[0]), -float(at[1])))
    return builder.state(line, WEST * builder.d, -WEST * builder.d, builder.tail_end, tip=builder.tail_end)


def _round_terminator(builder: StateBuilder, loop: float, closing: float, before: float) -> tuple[Pieces, float]:
    """A loop of rope `loop` mm round the terminator that turns by `closing` in all, and comes back `before` beside.

    Returns its pieces, mirror images about the eye's own line, and how far the loop's legs turn toward it.
    """
    d, radius = builder.d, builder.plan.eye.bend_radius

    def pieces(x: Floats) -> Pieces:
        toward, leg = float(x[0]), float(x[1])
        half: Pieces = [(0.6 * d, 0.0), (max(abs(toward), 0.02) * 2.2 * d, toward), (leg, 0.0)]
        half.append((radius * (closing / 2 - toward), closing / 2 - toward))
        return half

    def miss(x: Floats) -> Floats:
        half = pieces(x)
        around = chain([*half, *reversed(half)], BLEND * d, (np.pi - closing) / 2)
        end = points(around, np.array([around.length]))[0]
        return np.array([end[1] - before, around.length - loop]) / d

    guess = loop / 2 - radius * closing / 2 - 1.5 * d
    x = newton(miss, np.array([closing / 2 - np.pi / 2 - np.arctan2(radius, max(guess, radius)), max(guess, d)]))
    half = pieces(x)
    return [*half, *reversed(half)], float(x[1])


def _crown(builder: StateBuilder, state: RopeState, loop: float) -> RopeState:
    """The state with the terminator in the bend of its eye, the crown halfway round the loop."""
    at = np.array([state.arc_zero + loop / 2])
    middle, along = points(state.chain, at)[0], float(heading(state.chain, at)[0])
    inward = np.array([-np.sin(along), np.cos(along)])
    centre = middle + builder.plan.eye.bend_radius * inward
    return replace(state, seat=builder.plan.seat, seat_centre=(float(centre[0]), float(centre[1]), 0.0))


def wrapped(plan: Plan) -> RopeState:
    """The rope wrapped round the terminator, the tail lying along the standing part."""
    builder = StateBuilder(plan)
    loop = plan.loop_fitted
    pieces, _ = _round_terminator(builder, loop, np.pi, 1.08 * builder.d)
    line, west = builder.path([*pieces, (200 * builder.d, 0.0)])
    state = builder.state(line, west, -WEST * builder.d, loop + WEST * builder.d)
    return _crown(builder, state, loop)


def _straight(plan: Plan, openings: tuple[Opening, ...] = ()) -> RopeState:
    builder = StateBuilder(plan)
    line, west = builder.path([(80 * builder.d, 0.0)])
    return builder.state(line, west, -WEST * builder.d, WEST * builder.d, openings)


def first_fid(plan: Plan) -> RopeState:
    """The small fid through H1."""
    return _with_fid(plan, "small fid", plan.openings.first_fid)


def second_fid(plan: Plan) -> RopeState:
    """The larger fid through H1, opened as far as the plan says."""
    return _with_fid(plan, "large fid", plan.openings.second_fid)


def _with_fid(plan: Plan, kind: str, diameter: float) -> RopeState:
    builder = StateBuilder(plan)
    state = _straight(plan, (builder.opened("H1", diameter),))
    return replace(state, tools=(through_hole(builder, state, "H1", kind, diameter / 2, 1.0, 0.0, diameter / 2),))


def tail_entering(plan: Plan) -> RopeState:
    """The tail's end, tapered for passing, just through H1."""
    builder = StateBuilder(plan)
    d, h1 = builder.d, builder.passed("H1")
    guest = builder.tail_end - 4 * d
    pieces = [*builder.loop(builder.arc((h1,), guest)), (20 * d, 0.0)]
    line, west = builder.path(pieces)
    return builder.state(line, west, -WEST * d, builder.tail_end, (h1,), (Pass("H1", guest),),
        tip=builder.tail_end, taper=3.5 * d,
    )  # fmt: skip


def snug(plan: Plan) -> RopeState:
    """The tail drawn through and snug round the terminator; H2 is marked one hole gap before the tail goes in."""
    builder = StateBuilder(plan)
    d, h1 = builder.d, builder.passed("H1")
    guest = plan.loop_fitted
    loop = builder.arc((h1,), guest)
    pieces, _ = _round_terminator(builder, loop, QUARTERS, 0.0)
    line, west = builder.path([*pieces, *builder.swing_away(2.5)], -np.pi / 4)
    state = builder.state(
        line, west, -WEST * d, guest + TAIL_SHOWN * d, (h1,), (Pass("H1", guest),), heading=-np.pi / 4
    )
    return _crown(builder, state, loop)


def drawn_out(builder: StateBuilder) -> float:
    """Rope from H1 to H2 once H2 has been drawn out through H1, mm: about a quarter of the eye, 4 to 7 diameters."""
    return float(np.clip(0.28 * builder.h2, 4 * builder.d, 7 * builder.d))


def _out(builder: StateBuilder, h2: Opening) -> tuple[Pieces, tuple[Opening, ...], float]:
    """Eye and the stretch from H1 to H2, the openings, and the tail's station in H1."""
    openings = (builder.passed("H1"), h2)
    stretch = drawn_out(builder)
    arc = builder.arc(openings, builder.h2)
    loop = builder.loop(arc - stretch)
    return [*loop, (stretch, 0.0)], openings, builder.station(openings, arc - stretch)


def h2_drawn_out(plan: Plan) -> RopeState:
    """The marked place drawn out through H1 to its far side and opened wide, a fid from either side."""
    builder = StateBuilder(plan)
    small, large = plan.openings.first_fid / 2, plan.openings.second_fid / 2
    each = plan.openings.h2_across / 4
    pieces, openings, guest = _out(builder, builder.opened("H2", plan.openings.h2_across))
    line, west = builder.path([*pieces, *builder.swing_away()])
    last = builder.h2 + TAIL_SHOWN * builder.d
    state = builder.state(line, west, -WEST * builder.d, last, openings, (Pass("H1", guest),))
    fids = (
        through_hole(builder, state, "H2", "large fid", large, 1.0, -each, min(each, large)),
        through_hole(builder, state, "H2", "small fid", small, -1.0, each, min(each, small)),
    )
    return replace(state, tools=fids)


def inside_out(plan: Plan) -> RopeState:
    """The tail drawn through its own hole: H2 is inside out, each group with one turn."""
    builder = StateBuilder(plan)
    pieces, openings, guest = _out(builder, builder.inside_out())
    line, west = builder.path([*pieces, *builder.swing_away()])
    return builder.state(
        line,
        west,
        -WEST * builder.d,
        builder.h2 + TAIL_SHOWN * builder.d,
        openings,
        (Pass("H1", guest),),
    )


def _through_itself(plan: Plan, curl: float, after: Pieces, shown: float) -> RopeState:
    """The tail's end through H2: a loop of `curl` mm of axis from H2 round to H2, then `after`."""
    builder = StateBuilder(plan)
    d = builder.d
    pieces, openings, guest = _out(builder, builder.passed("H2"))
    second = builder.station(openings, builder.arc(openings, builder.h2) + curl)
    line, west = builder.path([*pieces, *builder.loop(curl), *after])
    passes = (Pass("H1", guest), Pass("H2", second))
    return builder.state(line, west, -WEST * d, second + shown, openings, passes)


def tail_end_in_h2(plan: Plan) -> RopeState:
    """The line laid in a circle, the tail's own end going into H2 by its left face."""
    builder = StateBuilder(plan)
    d = builder.d
    curl = builder.tail_end - builder.h2 - 5 * d
    if curl < LEAST_CIRCLE * d:
        have = (builder.tail_end - builder.h2) / d
        raise CannotBeMade(
            f"the tail is too short to be laid in a circle and passed through H2: {have:.1f} d of it lie beyond H2",
            f"It needs about {LEAST_CIRCLE + 5:g} d: make the bury longer",
            key="practice.bury",
        )
    state = _through_itself(plan, curl, [(2.6 * d, 0.0), (2.4 * d, 0.96), (10 * d, 0.0)], 0.0)
    return state.lying(last=builder.tail_end, tip=builder.tail_end, taper=3.5 * d)


def curl_closing(plan: Plan) -> RopeState:
    """The tail being drawn through its own hole, its curl nearly closed."""
    d = StateBuilder(plan).d
    after: Pieces = [(2.6 * d, 0.0), (3.9 * d, np.pi / 2), (1.0 * d, 0.0), (5.7 * d, -0.7), (120 * d, 0.0)]
    return _through_itself(plan, 12.8 * d, after, 14 * d)


KINDS = (
    StateKind("laid-out", laid_out),
    StateKind("wrapped", wrapped),
    StateKind("h1-first-fid", first_fid),
    StateKind("h1-second-fid", second_fid),
    StateKind("tail-entering", tail_entering, PASSED),
    StateKind("snug", snug, PASSED),
    StateKind("h2-drawn-out", h2_drawn_out, PASSED),
    StateKind("tail-end-in-h2", tail_end_in_h2, OWN_HOLE),
    StateKind("curl-closing", curl_closing, OWN_HOLE),
    StateKind("h2-inside-out", inside_out, OWN_HOLE),
)
