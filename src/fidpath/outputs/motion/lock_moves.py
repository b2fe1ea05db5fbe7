"""Moves from H2's curl closing to the tail cut: the bight through H2, the lock drawn up."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fidpath.geometry import Opening, arc_lengths, heading, points, stations
from fidpath.outputs.motion.morph import (
    Closure,
    GuestPlace,
    between,
    chain_of,
    offsets,
    passes_between,
    places_between,
    resized,
    shape_of,
    straightened,
)
from fidpath.outputs.motion.moves import Board, Pose, phase, seated
from fidpath.states import Pass, RopeState, axis_of

WIDE = 2.2
"""Half of what H2 is held open along the rope while the bight's nose goes through, in rope diameters."""

NEAR = 1.3
"""From this far off a hole, the nose of a bight makes its strands give way, in rope diameters."""

UNTIL = 0.5
"""Share of the moves that let a curl go at which it does."""


@dataclass(frozen=True)
class Curl:
    """How small a curl through H2 is drawn, as shares of what it is in the step: `full` at full thickness, `least` in a
    rope thinner by as much again."""

    full: float
    least: float

    @property
    def thinnest(self) -> float:
        """The rope's thickness where the curl is least, as a share of its own."""
        return self.least / self.full


CLOSING, ROLLING = Curl(0.45, 0.2), Curl(0.7, 0.32)
"""The curl of the tail's own pass, and the one that rolls out over H2 at the end."""


def curl_closed(board: Board, share: float) -> Pose:
    """The curl drawn shut as far as a thinner rope lets it; then its pass is a turn in each of H2's groups."""
    return _let_go(board, "curl-closing", "h2-inside-out", CLOSING, share)


def _let_go(board: Board, start: str, end: str, curl: Curl, share: float) -> Pose:
    """A curl through H2 drawn small, up to UNTIL, and the rope without it drawn up to a step's state."""
    if share <= UNTIL:
        size = float(np.interp(phase(share, 0.0, UNTIL), [0.0, 0.4, 1.0], [1.0, curl.full, curl.least]))
        thin = min(1.0, size / curl.full)
        return Pose(_small_curl(board, board.keys[start], size, thin), thinner=thin)
    grown, last = phase(share, UNTIL, 1.0), board.keys[end]
    least = _small_curl(board, board.keys[start], curl.least, curl.thinnest)
    first = _unrolled(board, least, _scaled(last.opening("H2"), curl.thinnest))
    state = between(board.plan.braid, first, last, grown)
    return Pose(state, thinner=curl.thinnest + (1 - curl.thinnest) * grown)


def _scaled(opening: Opening, share: float) -> Opening:
    return replace(opening, half=share * opening.half, flat=share * opening.flat, lift=share * opening.lift)


def _small_curl(board: Board, state: RopeState, size: float, thin: float) -> RopeState:
    """The state with the curl through H2 drawn to a share of its size, H2 and what lies in it to that of the thickness.

    A curl before H2 gives its rope to the eye, one behind it to the tail.
    """
    braid, h2 = board.plan.braid, board.builder.h2
    openings = tuple(_scaled(o, thin) if o.name == "H2" else o for o in state.openings)
    *others, curl = state.passes
    rope = (1 - size) * max(h2 - curl.guest, 0.0)
    passes = [replace(p, guest=p.guest + rope) if p.hole == "H1" else p for p in others]
    passes.append(replace(curl, guest=h2 + size * (curl.guest - h2)))
    places = [
        place if place.index == 0 or place.off is None else replace(place, off=(thin * place.off[0], place.off[1]))
        for place in places_between(braid, state, state, 0.0)
    ]
    return between(braid, state, state, 0.0, openings=openings, passes=passes, places=places)


def _unrolled(board: Board, state: RopeState, h2: Opening) -> RopeState:
    """The state with its curl through H2 let go: the rope turns the short way where the curl turned the long way."""
    braid = board.plan.braid
    openings = tuple(h2 if o.name == "H2" else o for o in state.openings)
    kept = replace(state, passes=state.passes[:-1])
    ends = np.sort(arc_lengths(braid, state.openings, np.array([state.passes[-1].guest, h2.host])))
    line, h1 = chain_of(straightened(shape_of(state), float(ends[0]), float(ends[1])))
    let_go = kept.lying(chain=line, arc_zero=h1)
    turns = offsets(braid, let_go)[:, 2]
    places = [
        replace(place, turn=float(turn))
        for place, turn in zip(places_between(braid, kept, kept, 0.0), turns, strict=True)
    ]
    return between(braid, let_go, let_go, 0.0, openings=openings, places=places)


def swung_round(board: Board, share: float) -> Pose:
    """The eye pinched, the tail swung round, H2 opened again."""
    start, end = board.keys["h2-inside-out"], board.keys["tail-swung-round"]
    pinched, swung = phase(share, 0.0, 0.6), phase(share, 0.25, 1.0)
    return Pose(between(board.plan.braid, start, end, pinched, beyond=swung))


def bight_into_h2(board: Board, share: float) -> Pose:
    """The bight pushed into H2 by its left face, H2 held open for its nose."""
    braid, d = board.plan.braid, board.d
    start, end = board.keys["tail-swung-round"], board.keys["bight-in-h2"]
    usual = start.opening("H2")
    wide = replace(usual, half=(WIDE + 1.9) * d, flat=WIDE * d)
    held = resized(usual, wide, phase(share, 0.0, 0.35) - phase(share, 0.7, 1.0))
    at = _h2_between(board, start, end, share)
    plain = replace(end, passes=end.passes[:1])
    return _with_bight(board, between(braid, start, plain, share, openings=(start.openings[0], held), fixed=(at,)))


def _h2_between(board: Board, a: RopeState, b: RopeState, share: float) -> Closure:
    """H2 held where it lies and as it bears, its place and bearing shared out between two states."""
    found = []
    for state in (a, b):
        at = np.array([board.builder.h2])
        arc = arc_lengths(board.plan.braid, state.openings, at) + state.arc_zero
        found.append(np.append(points(state.chain, arc)[0], heading(state.chain, arc)[0]))
    x, y, turn = ((1 - share) * found[0] + share * found[1]).tolist()
    return Closure(board.builder.h2, (x, y), None, turn)


def _with_bight(board: Board, state: RopeState) -> Pose:
    """The state with the bight's two legs listed in H2 once its nose is through; while it enters, as entering."""
    d, eye = board.d, stations(board.plan.braid, 0.5 * board.d, state.passes[0].guest - 0.5 * board.d)
    axis, left = axis_of(state, np.append(eye, board.builder.h2))
    beyond = -((axis[:-1] - axis[-1]) @ left[-1])
    nose = int(np.argmax(beyond))
    if beyond[nose] < -NEAR * d:
        return Pose(state)
    if beyond[nose] <= 0:
        return Pose(state, tuple(Pass("H2", float(eye[nose]), face) for face in ("left", "right")))
    legs = (np.interp(0.0, beyond[: nose + 1], eye[: nose + 1]), np.interp(0.0, -beyond[nose:], eye[nose:]))
    passes = (Pass("H2", float(legs[0])), Pass("H2", float(legs[1]), "right"))
    return Pose(replace(state, passes=(*state.passes, *passes)))


def bight_drawn_on(board: Board, share: float) -> Pose:
    """The bight drawn on until the first crossing lies in H2."""
    return Pose(_drawn_on(board, board.keys["bight-in-h2"], board.keys["h1-in-h2"], share))


def h1_through(board: Board, share: float) -> Pose:
    """The first crossing drawn through, H2 rolling back into a curl of its own."""
    start, end = board.keys["h1-in-h2"], board.keys["h2-curled"]
    return Pose(_drawn_on(board, start, end, share).lying(first=end.first))


def _drawn_on(board: Board, a: RopeState, b: RopeState, share: float) -> RopeState:
    """Two legs through H2 that cross each other in H1: as far apart as H1's nearness lets them.

    The second leg's station is left to slide.
    """
    braid = board.plan.braid
    in_h1, in_h2, _ = places_between(braid, a, b, share)
    passes = passes_between(a, b, share)
    first, second = _apart(board, a, b, passes[1].guest, in_h1.turn or 0.0)
    places = (in_h1, replace(in_h2, off=(first, 0.0)), GuestPlace(2, (second, 0.0), None, slides=True))
    return between(braid, a, b, share, passes=passes, places=places)


def _apart(board: Board, a: RopeState, b: RopeState, station: float, lean: float) -> tuple[float, float]:
    """Where two legs lie in H2, mm from its centre, which lies at a station of the first; they cross at `lean` in H1.

    Far from H1 as in the states; near it they part as two straight legs do.
    """
    braid = board.plan.braid
    wide = max((offsets(braid, state)[1:, 0] for state in (a, b)), key=lambda off: abs(float(off[0])))
    near = abs(float(arc_lengths(braid, a.openings, np.array([station]))[0]) * np.tan(lean)) / 2
    share = (1 + (abs(float(wide[0])) / max(near, 1e-9)) ** 4) ** -0.25
    return float(share * wide[0]), float(share * wide[1])


def curl_drawn_small(board: Board, share: float) -> Pose:
    """The curl drawn small, the eye growing."""
    return Pose(between(board.plan.braid, board.keys["h2-curled"], board.keys["curl-rolling-out"], phase(share)))


def rolled_out(board: Board, share: float) -> Pose:
    """The curl drawn shut as far as a thinner rope lets it; then its pass and the groups' turns are gone together."""
    return _let_go(board, "curl-rolling-out", "locked", ROLLING, share)


def refitted(board: Board, share: float) -> Pose:
    """The eye closed on its terminator."""
    state = between(board.plan.braid, board.keys["locked"], board.bare("on-terminator"), phase(share))
    return Pose(seated(board, state, state.passes[0].guest / 2))


def cut(board: Board, share: float) -> Pose:
    """The tail cut, its strands dropped pair by pair."""
    state = board.keys["cut-and-tapered"]
    ends = np.sort(np.array(state.ends))
    dropped = ends[min(int(share * len(ends)), len(ends) - 1)] if share < 1 else np.inf
    kept = tuple(end if end <= dropped else board.plan.station_tip for end in state.ends)
    return Pose(state.lying(ends=kept))
