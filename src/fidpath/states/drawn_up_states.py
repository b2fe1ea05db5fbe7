"""Rope states with the lock drawn up: each leg through the other, the tail lying beside the standing part.

The load line is y = 0, the eye toward +x; the legs lie `BESIDE` apart west of H2.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.crossing_zone import BLEND, CrossingZone
from fidpath.geometry.curve import chain, newton, points
from fidpath.geometry.eye import Eye, eye_of_loop
from fidpath.planning.plan import Plan
from fidpath.states.finished_rope import strand_ends
from fidpath.states.recipe import Bench, Pieces
from fidpath.states.rope_state import Opening, Pass, RopeState

BESIDE = 1.1
"""Distance of the tail's axis from the standing part's where they lie side by side, in rope diameters."""

BESIDE_SHOWN = 12.0
"""Tail that the model shows beyond H2 where it lies beside the standing part, in rope diameters."""

GATHER = 2.2
"""Bend radius with which the legs come together west of H2, in rope diameters."""


def _gathered(lens: CrossingZone, d: float) -> tuple[Pieces, float]:
    """One leg from where it lies beside the other up to H2, and how far west of H2 that is."""

    def pieces(x: Floats) -> Pieces:
        return [(2 * d, 0.0), (GATHER * lens.half_angle * d, lens.half_angle), (float(x[0]), 0.0)]

    def end(x: Floats) -> Floats:
        leg = chain([*pieces(x), *lens.pieces], BLEND * d, 0.0)
        return np.asarray(points(leg, np.array([leg.length - lens.rope]))[0])

    x = newton(lambda x: np.array([end(x)[1] - BESIDE * d / 2]) / d, np.array([0.5 * d]))
    return pieces(x), float(end(x)[0])


def lens_state(
    bench: Bench, name: str, lens: CrossingZone, eye: Eye, openings: tuple[Opening, ...], tail: float
) -> RopeState:
    """A drawn-up lock with `eye` beyond it, the model ending `tail` mm beyond H2 on the tail."""
    d = bench.d
    gathered, reach = _gathered(lens, d)
    far = 120.0 * d
    out: Pieces = [(far, 0.0), *gathered, *lens.pieces, *eye.half_pieces]
    start = (-(far + reach + lens.spacing), -BESIDE * d / 2)
    line = chain([*out, *reversed(out)], BLEND * d, 0.0, start)
    arc_h1 = far + sum(length for length, _ in gathered) + lens.rope
    in_h2 = bench.station(openings, -lens.rope)
    in_h1 = bench.station(openings, eye.loop)
    passes = (Pass("H1", in_h1), Pass("H2", in_h2))
    first = -(lens.rope + tail + 2 * d)
    return RopeState(name, line, arc_h1, first, bench.h2 + tail, openings, passes)


def holes(bench: Bench, turns: tuple[int, int] = (0, 0)) -> tuple[Opening, ...]:
    """The lock's two holes, H2 with `turns` left in its groups."""
    d = bench.d
    h1 = Opening("H1", 0.0, 1.1 * d, 0.3 * d, 0.3 * d)
    if turns == (0, 0):
        return h1, Opening("H2", bench.h2, 1.1 * d, 0.3 * d, 0.3 * d)
    reach = 1.4 + 0.9 * max(abs(t) for t in turns)
    return h1, Opening("H2", bench.h2, reach * d, 0.6 * d, 0.35 * d, turns)


def eye_left(bench: Bench, lens: CrossingZone, openings: tuple[Opening, ...], widest: float) -> Eye:
    """The eye that the rope between H1 and H2 leaves, round a bend of `widest` mm, or a tighter one that closes."""
    loop = bench.arc(openings, bench.h2) - lens.rope
    for share in (1.0, 0.8, 0.6, 0.45, 0.3):
        try:
            return eye_of_loop(lens, bench.d, share * widest, loop)
        except CannotBeMade:
            continue
    return eye_of_loop(lens, bench.d, 0.2 * widest, loop)


def bearing(plan: Plan) -> float:
    """Diameter the rope bears on, mm."""
    return 2 * plan.eye.bend_radius - plan.braid.diameter


def seated(state: RopeState, plan: Plan, eye: Eye) -> RopeState:
    """The state with the terminator in its eye."""
    return replace(state, seat=plan.seat, seat_centre=(eye.distance, 0.0, 0.0))


def locked(plan: Plan) -> RopeState:
    """Each leg through the other, drawn up, the terminator not yet in."""
    bench = Bench(plan)
    openings = holes(bench)
    eye = eye_left(bench, plan.eye.zone, openings, 1.25 * bearing(plan))
    return lens_state(bench, "locked", plan.eye.zone, eye, openings, BESIDE_SHOWN * bench.d)


def on_terminator(plan: Plan) -> RopeState:
    """The terminator refitted, the eye snug."""
    bench = Bench(plan)
    openings = holes(bench)
    eye = eye_left(bench, plan.eye.zone, openings, bearing(plan))
    state = lens_state(bench, "on-terminator", plan.eye.zone, eye, openings, BESIDE_SHOWN * bench.d)
    return seated(state, plan, eye)


def cut_and_tapered(plan: Plan) -> RopeState:
    """The bury measured along a straight edge, the tail cut and its strands dropped in pairs."""
    bench = Bench(plan)
    openings = holes(bench)
    eye = eye_left(bench, plan.eye.zone, openings, bearing(plan))
    tail = plan.station_tip - bench.h2
    state = lens_state(bench, "cut-and-tapered", plan.eye.zone, eye, openings, tail)
    state = replace(state, tip=plan.station_tip, ends=tuple(strand_ends(plan).tolist()))
    return seated(state, plan, eye)
