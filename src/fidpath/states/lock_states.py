"""Rope states of the lock being made: H2 brought over the pinched eye, the crossing drawn through, the curl let go.

H1 lies at the table's origin, the standing part along y = 0; H2's host runs north, the two legs in it 0.65 d either
side of its centre.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import Opening
from fidpath.planning import Plan
from fidpath.states.closing import Closures, Draw, Places, Shape, Sizes, closed
from fidpath.states.draft import strained
from fidpath.states.pieces import QUARTERS, Pieces, loop, path
from fidpath.states.recipe import BLUNT, POINT, TAIL_SHOWN, WEST, StateBuilder, builder_of, through_hole
from fidpath.states.rope_state import Grip, Pass, Pull, RopeState
from fidpath.states.state_kind import LOCKED, OWN_HOLE, StateKind

LONG = 35.0
"""Rope between the holes beyond which the tail, where it runs north from H2 and bends toward the eye, would meet it, in
rope diameters."""

APART = 0.65
"""Distance of either of two legs in one hole from its centre, in rope diameters."""

BIGHT_NEEDS = 16.0
"""Rope between the holes below which the pinched eye hardly goes through, in rope diameters."""

LEAST_BENDS = ((14.0, 18.0, 22.0, 26.0, 32.0), (0.65, 0.93, 1.1, 1.3, 1.5))
"""Bend radius of the pinched eye by rope between the holes, both in rope diameters."""


PINCHED = 0.66
"""Bend radius at the apex of the pinched bight as laid, in rope diameters: its legs lie 1.3 apart, so it is no wider.
A hand that pulls at it makes it a point."""

APEX, PULLED = 0.6, 0.3
"""Rope either side of the apex that a hand pulls at, in rope diameters, and how hard: each strand's share of it."""

PRESSED_AT, PRESSED_OVER, PRESSED = 2.2, 1.2, 0.06
"""How far from the apex a hand presses the two legs together, over how much rope either way, and how hard."""

HELD = (-1.2, 0.8, 1.6)
"""A hand holds the crossing in H1 meanwhile: the standing part up to there, and the tail in H1 from there to there, in
rope diameters from H1 on each."""

SHORT_OF = 0.6
"""How far the point of a fid in H2 stands out of its middle toward the bight, in rope diameters at most."""

JUST_OUT = 1.2
"""How far beyond H2's middle the apex of the bight lies where it shows at the other face, in rope diameters."""

STRAINED = 0.02
"""A shape that lengthens or shortens a strand by more, as laid, is laid otherwise where that serves."""

FURTHER_OUT = (0.0, 0.4, 0.8, 1.2, 1.6, 2.0, 2.4)
"""How much farther out the apex of the bight may lie where it can't be so near, in rope diameters."""

BEFORE_H2 = (1.7, 2.1, 2.5, 2.9)
"""How far the pinched bight's apex lies before H2, in rope diameters."""

LEANS = (50.0, 45.0, 40.0)
"""Degrees at which the legs may cross in H1 while it lies in H2."""

HOOK = 2.2
"""Bend radius with which the tail turns back over the standing part, in rope diameters."""


def _bend(rope: float) -> float:
    return float(np.interp(rope, *LEAST_BENDS))


def _evenest(shapes: Iterable[Callable[[], RopeState]]) -> RopeState:
    """The first shape whose bends leave the strands near their lengths; of several that don't, the best.

    Raises CannotBeMade where the first can't be made.
    """
    best = None
    for make in shapes:
        try:
            state = make()
        except CannotBeMade:
            if best is None:
                raise
            break
        now = strained(state)
        if best is None or now < best[0]:
            best = now, state
        if now <= STRAINED:
            break
    assert best is not None
    return best[1]


def _doubled(builder: StateBuilder, state: RopeState, shape: Shape, along: float) -> RopeState:
    """The state with a hand that doubles the eye: it pulls at the apex, which points along `along` radians, and presses
    the legs together.
    """
    d, openings = builder.d, state.openings
    nose = builder.station(openings, shape.marks["nose"] * d)
    ahead, left = (float(np.cos(along)), float(np.sin(along)), 0.0), (-float(np.sin(along)), float(np.cos(along)), 0.0)
    right = (-left[0], -left[1], 0.0)
    legs = ((nose - PRESSED_AT * d, left), (nose + PRESSED_AT * d, right))
    pressed = tuple(Pull(at, PRESSED_OVER * d, toward, PRESSED) for at, toward in legs)
    return replace(state, pulls=(Pull(nose, APEX * d, ahead, PULLED), *pressed))


def _held(builder: StateBuilder, state: RopeState) -> RopeState:
    """The state with a hand that holds the crossing in H1."""
    guest = state.passes[0].guest
    standing, start, end = (diameters * builder.d for diameters in HELD)
    return replace(state, grips=(Grip(state.first, standing), Grip(guest + start, guest + end)))


def _north(d: float) -> Pieces:
    """The tail on from H2, north and then gently to the right."""
    return [(3.2 * d, 0.0), (7.3 * d, -1.2), (120 * d, 0.0)]


def _roomy(plan: Plan) -> StateBuilder:
    """The builder of a plan whose eye is long enough to be drawn through H2. Raises CannotBeMade for any other."""
    have = plan.station_h2 / plan.braid.diameter
    if have < BIGHT_NEEDS:
        raise CannotBeMade(
            f"the eye's bight can't be drawn through H2: {have:.1f} d of rope lie between the holes",
            f"It needs about {BIGHT_NEEDS:g} d: make the eye longer",
            key="line.ends.eye_length",
        )
    return builder_of(plan)


def _closed(draw: Draw, closures: Closures, rope: float, sizes: Sizes) -> tuple[Floats, Shape]:
    """The shape nearest to what is preferred, its line from H1 to H2 `rope` diameters long.

    Raises CannotBeMade where nothing closes.
    """
    try:
        return closed(draw, closures, rope, "H2", sizes)
    except ArithmeticError as problem:
        raise CannotBeMade(
            f"with {rope:.1f} d of rope between the holes this step's shape doesn't close",
            f"The bight needs about {BIGHT_NEEDS:g} d: make the eye longer",
            key="line.ends.eye_length",
        ) from problem


def _pinched(d: float, x: Floats) -> Shape:
    """The eye pinched to a flat bight east of H1, the tail out of H1 southward, round to the north through H2."""
    l1, l2, dip, leg, nose, l3, gather, last, la, r5, across, r6, lb = (float(v) for v in x)
    side = 1.25 * nose
    shape = Shape(d).line(l1).mark("P1").line(l2).arc(side * dip, -dip).line(leg)
    shape.arc(nose * (np.pi / 2 + dip), np.pi / 2 + dip).mark("nose").arc(nose * (np.pi / 2 + dip), np.pi / 2 + dip)
    shape.line(leg).arc(side * dip, -dip).line(l2).mark("P2").line(l3).arc(1.6 * nose * gather, -gather)
    shape.arc(nose * (np.pi / 2 + gather), np.pi / 2 + gather).line(last).mark("TA")
    shape.line(la).arc(r5 * np.pi / 2, np.pi / 2).line(across).arc(r6 * np.pi / 2, np.pi / 2).line(lb)
    return shape.mark("H2")


_PINCH_SCALE = [1.0, 1.0, 0.4, 1.5, 0.12, 0.5, 0.3, 0.5, 0.5, 0.12, 1.0, 0.3, 0.5]


def _pinch(bend: float, l1: float, straight: float, across: float) -> list[float]:
    return [l1, straight, 0.08, 1.0, min(bend, PINCHED), 0.3, 0.56, 0.55, 0.96, bend, across, 1.25 * bend, 1.28]


def _pinch_least(bend: float) -> list[float]:
    low = 0.9 * bend
    return [1.3, 0.2, 0.02, 0.1, 0.9 * min(bend, PINCHED), 0.1, 0.1, 0.1, 0.3, low, 0.05, low, 0.8]


def _lock_state(
    builder: StateBuilder,
    shape: Shape,
    openings: tuple[Opening, ...],
    passes: tuple[Pass, ...],
    west: float = WEST,
) -> RopeState:
    line, arc_zero = shape.chain(_north(builder.d))
    last = builder.h2 + TAIL_SHOWN * builder.d
    return builder.state(line, arc_zero, -west * builder.d, last, openings, passes)


def swung_round(plan: Plan) -> RopeState:
    """The eye pinched to a flat bight, the tail swung round so that H2 stands open before it."""
    return _evenest(partial(_swung_round, plan, before) for before in BEFORE_H2)


def _swung_round(plan: Plan, before: float) -> RopeState:
    """The same with the apex so many rope diameters before H2."""
    builder = _roomy(plan)
    openings = (builder.passed("H1"), builder.two_legs())
    d = builder.d
    rope = builder.arc(openings, builder.h2) / d
    bend = _bend(rope) * 0.95
    straight = max(0.3, (rope - 20) / 3)

    def closures(_x: Floats, at: Places) -> list[float]:
        ahead = at["H2"][0] - at["nose"][0]
        return [at["P2"][1] - 2 * APART, *at["TA"], at["H2"][1] - APART, 0.5 * (ahead - before)]

    preferred = _pinch(bend, 1.5, straight, straight + 2.5)
    _, shape = _closed(lambda x: _pinched(d, x), closures, rope, Sizes(preferred, _PINCH_SCALE, _pinch_least(bend)))
    guest = builder.station(openings, shape.marks["TA"] * d)
    state = _lock_state(builder, shape, openings, (Pass("H1", guest),))
    fid = plan.openings.first_fid / 2
    wide = min(0.7 * fid, BLUNT * fid + (1 - BLUNT) * SHORT_OF * d / POINT)
    fids = (through_hole(state, openings[-1], "small fid", fid, -1.0, 0.0, wide),)
    return _held(builder, _doubled(builder, replace(state, tools=fids), shape, 0.0))


def bight_in_h2(plan: Plan) -> RopeState:
    """The bight of the pinched eye pushed into H2 by its left face: two legs in one hole."""
    return _through_h2(plan, None)


def bight_entering(plan: Plan) -> RopeState:
    """The pinched bight on its way into H2, its apex at the other face; right through where eyes are short."""
    for more in FURTHER_OUT:
        try:
            return _through_h2(plan, JUST_OUT + more)
        except CannotBeMade:
            continue
    return _through_h2(plan, None)


def _through_h2(plan: Plan, ahead: float | None) -> RopeState:
    """The bight in H2, its apex so many rope diameters beyond H2's middle, None for as many as there are."""
    builder = _roomy(plan)
    openings = (builder.passed("H1"), builder.two_legs())
    d = builder.d
    rope = builder.arc(openings, builder.h2) / d
    bend = _bend(rope)

    def closures(x: Floats, at: Places) -> list[float]:
        out = [] if ahead is None else [float(at["nose"][0] - x[0]) - ahead]
        return [*(at["P2"] - [x[0], 2 * APART]), *at["TA"], *(at["H2"] - [x[0], APART]), *out]

    preferred = _pinch(bend, 3.3, max(0.3, 1.0 + 0.5 * (rope - 25)), 0.46)
    _, shape = _closed(lambda x: _pinched(d, x), closures, rope, Sizes(preferred, _PINCH_SCALE, _pinch_least(bend)))
    passes = [Pass("H1", builder.station(openings, shape.marks["TA"] * d))]
    for place, face in (("P1", "left"), ("P2", "right")):
        passes.append(Pass("H2", builder.station(openings, shape.marks[place] * d), face))
    state = _lock_state(builder, shape, openings, tuple(passes))
    return _held(builder, _doubled(builder, state, shape, 0.0))


def h1_in_h2(plan: Plan) -> RopeState:
    """The bight drawn on until the first crossing, H1, lies halfway through H2."""
    return _evenest(partial(_h1_in_h2, plan, lean) for lean in LEANS)


def _h1_in_h2(plan: Plan, degrees: float) -> RopeState:
    """The same with the legs crossing in H1 at that many degrees."""
    builder = _roomy(plan)
    d = builder.d
    h2 = Opening("H2", builder.h2, 3.6 * d, 1.6 * d, 0.6 * d, (-1, 1))
    openings = (builder.passed("H1"), h2)
    rope = builder.arc(openings, builder.h2) / d
    lean = np.radians(degrees)
    bend = min(1.25, _bend(rope))
    nose, gather = min(bend, PINCHED), 1.2
    leg = max(0.1, (0.954 * (rope - 10.0) - np.pi * nose) / 2 - 1.3 - gather * lean / 2)

    def draw(x: Floats) -> Shape:
        a, r0, leg, nose, b, c, r1, w, radius, up = (float(v) for v in x)
        shape = Shape(d).line(a).arc(r0 * lean / 2, lean / 2).line(leg).arc(nose * np.pi / 2, np.pi / 2).mark("nose")
        shape.arc(nose * np.pi / 2, np.pi / 2).line(leg).arc(r0 * lean / 2, lean / 2).line(b).mark("TA").line(c)
        shape.arc(r1 * lean, -lean).line(w).arc(radius * QUARTERS, QUARTERS).line(up)
        return shape.mark("H2")

    def closures(_x: Floats, at: Places) -> list[float]:
        return [*at["TA"], *at["H2"]]

    preferred = [1.3, gather, leg, nose, 1.3, 0.5, 1.2, 1.2, 1.2, 2.0]
    scale = [1.0, 0.5, 1.5, 0.12, 1.0, 0.4, 0.3, 0.8, 0.3, 1.0]
    least = [0.3, 0.8 * bend, 0.05, 0.9 * nose, 0.3, 0.2, 0.8 * bend, 0.3, 0.9 * bend, 0.5]
    _, shape = _closed(draw, closures, rope, Sizes(preferred, scale, least))
    guest = builder.station(openings, shape.marks["TA"] * d)
    passes = (Pass("H1", guest), Pass("H2", 0.0), Pass("H2", guest, "right"))
    return _doubled(builder, _lock_state(builder, shape, openings, passes), shape, lean / 2)


def _curled(
    plan: Plan, curl: float, beyond: float, after: Pieces | None = None, shown: float = TAIL_SHOWN
) -> RopeState:
    """Eye and first crossing drawn right through H2, which lies in a curl of its own of radius `curl` diameters.

    after: the tail's pieces beyond H2 where they aren't the usual ones; shown: how much of it, in diameters.
    """
    builder = _roomy(plan)
    d = builder.d
    openings = (builder.passed("H1"), builder.two_legs())
    rope = builder.arc(openings, builder.h2) / d
    bend = min(1.25, _bend(rope))
    eye = max(bend, (rope - 7.0 - 7.0 * curl - beyond) / (2 + QUARTERS))

    def draw(x: Floats) -> Shape:
        _, a, eye_radius, b, la, r1, dip, lw, ca, radius, cb = (float(v) for v in x)
        shape = Shape(d).line(a).arc(eye_radius * QUARTERS, QUARTERS).line(b).mark("TA").line(la)
        shape.arc(r1 * (np.pi / 2 + dip), -(np.pi / 2 + dip)).arc(r1 * dip, dip).line(lw).mark("PT")
        return shape.line(ca).arc(radius * QUARTERS, QUARTERS).line(cb).mark("H2")

    def closures(x: Floats, at: Places) -> list[float]:
        return [*at["TA"], *(at["PT"] + [x[0], 2 * APART]), *(at["H2"] + [x[0], APART])]

    preferred = [beyond, eye, eye, eye, 0.5, bend, 0.61, beyond - 2.7, curl, curl, curl]
    scale = [0.5, 0.6, 0.6, 0.6, 0.4, 0.15, 0.4, 0.8, 0.3, 0.15, 0.3]
    least = [2.6, 0.4, 0.9 * bend, 0.4, 0.3, 0.9 * bend, 0.1, 0.2, 0.6, 0.72 * curl, 0.6]
    x, shape = _closed(draw, closures, rope, Sizes(preferred, scale, least))
    through = builder.station(openings, -float(x[0]) * d)
    guest, own = (builder.station(openings, shape.marks[place] * d) for place in ("TA", "PT"))
    passes = (Pass("H1", guest), Pass("H2", through), Pass("H2", own, "right"))
    if after is not None:
        line, arc_zero = shape.chain(after)
        first, last = -(WEST + 4) * d, builder.h2 + shown * d
        return builder.state(line, arc_zero, first, last, openings, passes)
    state = _lock_state(builder, shape, openings, passes, WEST + 4)
    return state if plan.station_h2 <= LONG * d else bent(state, -1.0)


def bent(state: RopeState, share: float) -> RopeState:
    """The state with a share of its loose tail's bend, the last but one of its pieces."""
    turns = state.chain.turns.copy()
    turns[-2] *= share
    return state.lying(chain=replace(state.chain, turns=turns))


def h2_curled(plan: Plan) -> RopeState:
    """Bight and first crossing drawn right through: H2 rolls back and lies in a curl of its own."""
    room = plan.station_h2 / plan.braid.diameter
    return _curled(plan, float(np.clip(0.06 * room, 1.1, 1.5)), 4.5)


def curl_rolling_out(plan: Plan) -> RopeState:
    """The curl drawn small, about to roll out over H2."""
    return _curled(plan, 1.05, 3.4)


def curled_and_drawn(plan: Plan) -> RopeState:
    """The curl drawn smaller still, the tail bent toward the captive end and taut."""
    d = plan.braid.diameter
    west: Pieces = [(1.8 * d, 0.0), (0.8 * np.pi * d, np.pi / 2), (60 * d, 0.0)]
    return _curled(plan, 0.85, 3.2, west, 9.0)


def free_end_in_h2(plan: Plan) -> RopeState:
    """The standing part's own free end, tapered for passing, just through H2 by its left face."""
    builder = builder_of(plan)
    d = builder.d
    openings = (builder.passed("H1"), builder.passed("H2"))
    out = 1.6 * d
    arc = builder.arc(openings, builder.h2)
    eye = arc - 2 * out - np.pi * HOOK * d
    hook = [(out, 0.0), (np.pi * HOOK * d, -np.pi), (out, 0.0), (3.0 * d, 0.0), (7.0 * d, 0.9), (90 * d, 0.0)]
    line, west = path(d, [*loop(d, eye), *hook])
    through = builder.station(openings, -2 * HOOK * d)
    first = through - 4.0 * d
    passes = (Pass("H1", builder.station(openings, eye)), Pass("H2", through))
    last = builder.h2 + TAIL_SHOWN * d
    return builder.state(line, west, first, last, openings, passes, head=first, taper=3.5 * d)


KINDS = (
    StateKind("tail-swung-round", swung_round, OWN_HOLE),
    StateKind("free-end-in-h2", free_end_in_h2, LOCKED, drawn_up=False),
    StateKind("bight-entering", bight_entering),
    StateKind("bight-in-h2", bight_in_h2, LOCKED),
    StateKind("h1-in-h2", h1_in_h2, LOCKED),
    StateKind("h2-curled", h2_curled, LOCKED),
    StateKind("curl-rolling-out", curl_rolling_out, LOCKED),
)
