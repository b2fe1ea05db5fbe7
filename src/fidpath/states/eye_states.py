"""Rope states from the line laid out to the marked place drawn out through H1."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.crossing_zone import BLEND
from fidpath.geometry.curve import chain, heading, newton, points
from fidpath.planning.plan import Plan
from fidpath.states.recipe import QUARTERS, TAIL_SHOWN, WEST, Bench, Pieces, through_hole
from fidpath.states.rope_state import Opening, Pass, RopeState

LEAST_CIRCLE = 10.0
"""Axis of the least circle that the tail is laid in to reach its own hole, in rope diameters."""


def laid_out(plan: Plan) -> RopeState:
    """The whole line on the table, gently bent."""
    bench = Bench(plan)
    long = bench.tail_end + WEST * bench.d
    pieces: Pieces = [(0.25 * long, 0.05), (0.5 * long, -0.1), (0.25 * long, 0.05)]
    line = chain(pieces, BLEND * bench.d, -0.02)
    at = points(line, np.array([WEST * bench.d]))[0]
    line = replace(line, start=(-float(at[0]), -float(at[1])))
    return RopeState("laid-out", line, WEST * bench.d, -WEST * bench.d, bench.tail_end, tip=bench.tail_end)


def _round_terminator(bench: Bench, loop: float, closing: float, before: float) -> tuple[Pieces, float]:
    """A loop of rope `loop` mm round the terminator that turns by `closing` in all, and comes back `before` beside.

    Returns its pieces, mirror images about the eye's own line, and how far the loop's legs turn toward it.
    """
    d, radius = bench.d, bench.plan.eye.bend_radius

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


def _crown(bench: Bench, state: RopeState, loop: float) -> RopeState:
    """The state with the terminator in the bend of its eye, the crown halfway round the loop."""
    at = np.array([state.arc_h1 + loop / 2])
    middle, along = points(state.chain, at)[0], float(heading(state.chain, at)[0])
    inward = np.array([-np.sin(along), np.cos(along)])
    centre = middle + bench.plan.eye.bend_radius * inward
    return replace(state, seat=bench.plan.seat, seat_centre=(float(centre[0]), float(centre[1]), 0.0))


def wrapped(plan: Plan) -> RopeState:
    """The rope wrapped round the terminator, the tail lying along the standing part."""
    bench = Bench(plan)
    loop = plan.loop_fitted
    pieces, _ = _round_terminator(bench, loop, np.pi, 1.08 * bench.d)
    line, west = bench.path([*pieces, (200 * bench.d, 0.0)])
    state = RopeState("wrapped", line, west, -WEST * bench.d, loop + WEST * bench.d)
    return _crown(bench, state, loop)


def _straight(plan: Plan, name: str, openings: tuple[Opening, ...] = ()) -> RopeState:
    bench = Bench(plan)
    line, west = bench.path([(80 * bench.d, 0.0)])
    return RopeState(name, line, west, -WEST * bench.d, WEST * bench.d, openings)


def first_fid(plan: Plan) -> RopeState:
    """The small fid through H1."""
    return _with_fid(plan, "h1-first-fid", "small fid", plan.openings.first_fid)


def second_fid(plan: Plan) -> RopeState:
    """The larger fid through H1, opened as far as the plan says."""
    return _with_fid(plan, "h1-second-fid", "large fid", plan.openings.second_fid)


def _with_fid(plan: Plan, name: str, kind: str, diameter: float) -> RopeState:
    bench = Bench(plan)
    state = _straight(plan, name, (bench.opened("H1", diameter),))
    return replace(state, tools=(through_hole(bench, state, "H1", kind, diameter / 2, 1.0, 0.0, diameter / 2),))


def tail_entering(plan: Plan) -> RopeState:
    """The tail's end, tapered for passing, just through H1."""
    bench = Bench(plan)
    d, h1 = bench.d, bench.passed("H1")
    guest = bench.tail_end - 4 * d
    pieces = [*bench.loop(bench.arc((h1,), guest)), (20 * d, 0.0)]
    line, west = bench.path(pieces)
    return RopeState(
        "tail-entering", line, west, -WEST * d, bench.tail_end, (h1,), (Pass("H1", guest),),
        tip=bench.tail_end, taper=3.5 * d,
    )  # fmt: skip


def snug(plan: Plan) -> RopeState:
    """The tail drawn through and snug round the terminator; H2 is marked one hole gap before the tail goes in."""
    bench = Bench(plan)
    d, h1 = bench.d, bench.passed("H1")
    guest = plan.loop_fitted
    loop = bench.arc((h1,), guest)
    pieces, _ = _round_terminator(bench, loop, QUARTERS, 0.0)
    line, west = bench.path([*pieces, *bench.swing_away(2.5)], -np.pi / 4)
    state = RopeState(
        "snug", line, west, -WEST * d, guest + TAIL_SHOWN * d, (h1,), (Pass("H1", guest),), heading=-np.pi / 4
    )
    return _crown(bench, state, loop)


def drawn_out(bench: Bench) -> float:
    """Rope from H1 to H2 once H2 has been drawn out through H1, mm: about a quarter of the eye, 4 to 7 diameters."""
    return float(np.clip(0.28 * bench.h2, 4 * bench.d, 7 * bench.d))


def _out(bench: Bench, h2: Opening) -> tuple[Pieces, tuple[Opening, ...], float]:
    """Eye and the stretch from H1 to H2, the openings, and the tail's station in H1."""
    openings = (bench.passed("H1"), h2)
    stretch = drawn_out(bench)
    arc = bench.arc(openings, bench.h2)
    loop = bench.loop(arc - stretch)
    return [*loop, (stretch, 0.0)], openings, bench.station(openings, arc - stretch)


def h2_drawn_out(plan: Plan) -> RopeState:
    """The marked place drawn out through H1 to its far side and opened wide, a fid from either side."""
    bench = Bench(plan)
    small, large = plan.openings.first_fid / 2, plan.openings.second_fid / 2
    each = plan.openings.h2_across / 4
    pieces, openings, guest = _out(bench, bench.opened("H2", plan.openings.h2_across))
    line, west = bench.path([*pieces, *bench.swing_away()])
    last = bench.h2 + TAIL_SHOWN * bench.d
    state = RopeState("h2-drawn-out", line, west, -WEST * bench.d, last, openings, (Pass("H1", guest),))
    fids = (
        through_hole(bench, state, "H2", "large fid", large, 1.0, -each, min(each, large)),
        through_hole(bench, state, "H2", "small fid", small, -1.0, each, min(each, small)),
    )
    return replace(state, tools=fids)


def inside_out(plan: Plan) -> RopeState:
    """The tail drawn through its own hole: H2 is inside out, each group with one turn."""
    bench = Bench(plan)
    pieces, openings, guest = _out(bench, bench.inside_out())
    line, west = bench.path([*pieces, *bench.swing_away()])
    return RopeState(
        "h2-inside-out", line, west, -WEST * bench.d, bench.h2 + TAIL_SHOWN * bench.d, openings, (Pass("H1", guest),)
    )


def _through_itself(plan: Plan, name: str, curl: float, after: Pieces, shown: float) -> RopeState:
    """The tail's end through H2: a loop of `curl` mm of axis from H2 round to H2, then `after`."""
    bench = Bench(plan)
    d = bench.d
    pieces, openings, guest = _out(bench, bench.passed("H2"))
    second = bench.station(openings, bench.arc(openings, bench.h2) + curl)
    line, west = bench.path([*pieces, *bench.loop(curl), *after])
    passes = (Pass("H1", guest), Pass("H2", second))
    return RopeState(name, line, west, -WEST * d, second + shown, openings, passes)


def tail_end_in_h2(plan: Plan) -> RopeState:
    """The line laid in a circle, the tail's own end going into H2 by its left face."""
    bench = Bench(plan)
    d = bench.d
    curl = bench.tail_end - bench.h2 - 5 * d
    if curl < LEAST_CIRCLE * d:
        have = (bench.tail_end - bench.h2) / d
        raise CannotBeMade(
            f"the tail is too short to be laid in a circle and passed through H2: {have:.1f} d of it lie beyond H2",
            f"It needs about {LEAST_CIRCLE + 5:g} d: make the bury longer",
            key="practice.bury",
        )
    state = _through_itself(plan, "tail-end-in-h2", curl, [(2.6 * d, 0.0), (2.4 * d, 0.96), (10 * d, 0.0)], 0.0)
    return replace(state, last=bench.tail_end, tip=bench.tail_end, taper=3.5 * d)


def curl_closing(plan: Plan) -> RopeState:
    """The tail being drawn through its own hole, its curl nearly closed."""
    d = Bench(plan).d
    after: Pieces = [(2.6 * d, 0.0), (3.9 * d, np.pi / 2), (1.0 * d, 0.0), (5.7 * d, -0.7), (120 * d, 0.0)]
    return _through_itself(plan, "curl-closing", 12.8 * d, after, 14 * d)
