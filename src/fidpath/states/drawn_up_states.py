"""Rope states with the lock drawn up: each leg through the other, the tail lying beside the standing part.

The load line is y = 0, the eye toward +x; the legs lie `BESIDE` apart west of H2.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import BLEND, CrossingZone, Eye, Opening, Seat, chain, eye_of_loop, newton, points
from fidpath.planning import Plan
from fidpath.states.pieces import Pieces
from fidpath.states.recipe import StateBuilder, builder_of, drawn_tight, strand_ends
from fidpath.states.rope_state import Pass, RopeState
from fidpath.states.state_kind import LOCKED, StateKind

BESIDE = 1.1
"""Distance of the tail's axis from the standing part's where they lie side by side, in rope diameters."""

BESIDE_SHOWN = 12.0
"""Tail that the model shows beyond H2 where it lies beside the standing part, in rope diameters."""

GATHER = 2.2
"""Bend radius with which the legs come together west of H2, in rope diameters."""


def _gathered(zone: CrossingZone, d: float) -> tuple[Pieces, float]:
    """One leg from where it lies beside the other up to H2, and how far west of H2 that is."""

    def pieces(x: Floats) -> Pieces:
        return [(2 * d, 0.0), (GATHER * zone.half_angle * d, zone.half_angle), (float(x[0]), 0.0)]

    def end(x: Floats) -> Floats:
        leg = chain([*pieces(x), *zone.pieces], BLEND * d, 0.0)
        return np.asarray(points(leg, np.array([leg.length - zone.rope]))[0])

    x = newton(lambda x: np.array([end(x)[1] - BESIDE * d / 2]) / d, np.array([0.5 * d]))
    return pieces(x), float(end(x)[0])


def drawn_up_state(
    builder: StateBuilder, zone: CrossingZone, eye: Eye, openings: tuple[Opening, ...], tail: float
) -> RopeState:
    """A drawn-up lock with `eye` beyond it, the model ending `tail` mm beyond H2 on the tail."""
    d = builder.d
    gathered, reach = _gathered(zone, d)
    far = 120.0 * d
    out: Pieces = [(far, 0.0), *gathered, *zone.pieces, *eye.half_pieces]
    start = (-(far + reach + zone.spacing), -BESIDE * d / 2)
    line = chain([*out, *reversed(out)], BLEND * d, 0.0, start)
    arc_zero = far + sum(length for length, _ in gathered) + zone.rope
    in_h2 = builder.station(openings, -zone.rope)
    in_h1 = builder.station(openings, eye.loop)
    passes = tuple(Pass(hole.name, at) for hole, at in zip(openings, (in_h1, in_h2), strict=True))
    first = -(zone.rope + tail + 2 * d)
    return builder.state(line, arc_zero, first, builder.h2 + tail, openings, passes)


def holes(builder: StateBuilder, turns: tuple[int, int] = (0, 0)) -> tuple[Opening, ...]:
    """The lock's two holes, H2 with `turns` left in its groups."""
    d = builder.d
    (first, at_first), (second, at_second) = builder.holes
    h1 = Opening(first, at_first, 1.1 * d, 0.3 * d, 0.3 * d)
    if turns == (0, 0):
        return h1, Opening(second, at_second, 1.1 * d, 0.3 * d, 0.3 * d)
    reach = 1.4 + 0.9 * max(abs(t) for t in turns)
    return h1, Opening(second, at_second, reach * d, 0.6 * d, 0.35 * d, turns)


def eye_left(builder: StateBuilder, zone: CrossingZone, openings: tuple[Opening, ...], widest: float) -> Eye:
    """The eye that the rope between H1 and H2 leaves, round a bend of `widest` mm, or a tighter one that closes."""
    loop = builder.arc(openings, builder.h2) - zone.rope
    for share in (1.0, 0.8, 0.6, 0.45, 0.3):
        try:
            return eye_of_loop(zone, builder.d, share * widest, loop)
        except CannotBeMade:
            continue
    return eye_of_loop(zone, builder.d, 0.2 * widest, loop)


def bearing(plan: Plan) -> float:
    """Diameter the rope bears on, mm."""
    return 2 * plan.eye.bend_radius - plan.braid.diameter


def seated(state: RopeState, seat: Seat, eye: Eye) -> RopeState:
    """The state with the terminator in its eye."""
    return replace(state, seat=seat, seat_centre=(eye.distance, 0.0, 0.0))


def locked(plan: Plan) -> RopeState:
    """Each leg through the other, drawn up, the terminator not yet in."""
    builder = builder_of(plan)
    openings = holes(builder)
    eye = eye_left(builder, plan.eye.zone, openings, 1.25 * bearing(plan))
    return drawn_up_state(builder, plan.eye.zone, eye, openings, BESIDE_SHOWN * builder.d)


def on_terminator(plan: Plan) -> RopeState:
    """The terminator refitted, the eye snug."""
    builder = builder_of(plan)
    openings = drawn_tight(plan)
    state = drawn_up_state(builder, plan.eye.zone, plan.eye, openings, BESIDE_SHOWN * builder.d)
    return seated(state, plan.seat, plan.eye)


def cut_and_tapered(plan: Plan) -> RopeState:
    """The bury measured along a straight edge, the tail cut and its strands dropped in pairs."""
    builder = builder_of(plan)
    openings = drawn_tight(plan)
    tail = plan.station_tip - builder.h2
    state = drawn_up_state(builder, plan.eye.zone, plan.eye, openings, tail)
    state = state.lying(tip=plan.station_tip, ends=tuple(strand_ends(plan).tolist()))
    return seated(state, plan.seat, plan.eye)


KINDS = (
    StateKind("locked", locked, LOCKED),
    StateKind("on-terminator", on_terminator, LOCKED),
    StateKind("cut-and-tapered", cut_and_tapered, LOCKED),
)
