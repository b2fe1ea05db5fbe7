"""Rope states of the usual mistakes, each what the rope looks like once the mistake is made."""

from __future__ import annotations

from dataclasses import replace

from fidpath.geometry import Opening, crossing_of_gap
from fidpath.planning import Plan
from fidpath.states.drawn_up_states import BESIDE_SHOWN, bearing, drawn_up_state, eye_left, holes, seated
from fidpath.states.eye_states import marking
from fidpath.states.pieces import path
from fidpath.states.recipe import builder_of, drawn_tight, through_hole, unevenly_split
from fidpath.states.rope_state import RopeState
from fidpath.states.state_kind import StateKind

TOO_FAR = 2.5
"""Rope by which the holes of the gaping lock are further apart than planned, in rope diameters."""


def _turned(plan: Plan, turns: tuple[int, int], rolled: bool) -> RopeState:
    """A lock with turns left in H2's groups, and H2's host rolled half a turn where a leg took the other face."""
    builder = builder_of(plan)
    d = builder.d
    openings = holes(builder, turns)
    zone = crossing_of_gap(d, plan.eye.zone.gap + 1.2 * d * max(abs(t) for t in turns))
    state = drawn_up_state(builder, zone, eye_left(builder, zone, openings, bearing(plan)), openings, BESIDE_SHOWN * d)
    if not rolled:
        return state
    passes = tuple(replace(p, face="right") if p.hole == builder.letters[1] else p for p in state.passes)
    middle = builder.h2 / 2
    return replace(state.lying(rolled=(middle - 4 * d, middle + 4 * d)), passes=passes)


def tail_other_face(plan: Plan) -> RopeState:
    """The tail's end went in by H2's right face, the bight by its left: two turns left in each group."""
    return _turned(plan, (2, -2), rolled=False)


def bight_other_face(plan: Plan) -> RopeState:
    """The bight went in by H2's right face: two turns left in each group, the other way round."""
    return _turned(plan, (-2, 2), rolled=True)


def both_other_face(plan: Plan) -> RopeState:
    """Tail's end and bight both went in by H2's right face: the standing part goes in there, and no turns are left."""
    return _turned(plan, (0, 0), rolled=True)


def no_tail_pass(plan: Plan) -> RopeState:
    """The bight went through H2 without the tail's end before it: one turn left in each group."""
    return _turned(plan, (1, -1), rolled=False)


def holes_too_far(plan: Plan) -> RopeState:
    """The holes further apart than planned: the lock gapes."""
    builder = builder_of(plan)
    zone = crossing_of_gap(builder.d, plan.eye.zone.gap + TOO_FAR * builder.d)
    openings = holes(builder)
    eye = eye_left(builder, zone, openings, bearing(plan))
    return drawn_up_state(builder, zone, eye, openings, BESIDE_SHOWN * builder.d)


def mark_on_strand(plan: Plan) -> RopeState:
    """The mark of the first hole on a strand: the fid has slid to the next opening, one pick on."""
    builder = builder_of(plan)
    pick, fid = plan.pick, plan.openings.second_fid
    flat = fid / 2
    hole = Opening(builder.letters[0], pick, flat + 1.2 * builder.d, flat, 0.3 * builder.d)
    line, west = path(builder.d, [(80 * builder.d, 0.0)])
    reach = 12 * builder.d
    state = builder.state(line, west, -reach, reach, (hole,), phase=pick)
    return replace(state, tools=(through_hole(state, hole, "large fid", fid / 2, 1.0, 0.0, fid / 2),))


def split_uneven(plan: Plan) -> RopeState:
    """One strand taken on the wrong side of H1."""
    return unevenly_split(marking(plan))


def _other_eye(plan: Plan, picks: int, with_terminator: bool) -> RopeState:
    """A lock whose eye is so many picks longer than planned."""
    lock = plan.needed_lock()
    h2 = lock.station_h2 + picks * plan.pick
    other = replace(plan, lock=replace(lock, choice=replace(lock.choice, rope_h1_to_h2=h2)))
    builder = builder_of(other)
    openings = drawn_tight(other) if with_terminator else holes(builder)
    eye = eye_left(builder, plan.eye.zone, openings, bearing(plan))
    state = drawn_up_state(builder, plan.eye.zone, eye, openings, BESIDE_SHOWN * builder.d)
    return seated(state, plan.seat, eye) if with_terminator else state


def _even(picks: float) -> int:
    """The nearest even number of picks: H2 then needs no roll of the rope."""
    return 2 * round(picks / 2)


def no_lock_allowance(plan: Plan) -> RopeState:
    """H1 marked without what the lock takes: the eye is too small for its terminator."""
    return _other_eye(plan, -_even(plan.needed_lock().eye_lost / plan.pick), with_terminator=False)


def eye_overstretched(plan: Plan) -> RopeState:
    """The eye forced on, shorter than planned."""
    return _other_eye(plan, -2, with_terminator=True)


def eye_loose(plan: Plan) -> RopeState:
    """The eye longer than planned, loose on its terminator."""
    return _other_eye(plan, 6, with_terminator=True)


KINDS = (
    StateKind("mark-on-strand", mark_on_strand, mistake=True),
    StateKind("split-5-7", split_uneven, mistake=True),
    StateKind("tail-other-face", tail_other_face, (-1, -1, 2), mistake=True),
    StateKind("bight-other-face", bight_other_face, (-1, 1, -2), mistake=True),
    StateKind("both-other-face", both_other_face, (-1, 1, 0), mistake=True),
    StateKind("end-other-face", both_other_face, (-1, 1, 0), mistake=True),
    StateKind("no-tail-pass", no_tail_pass, (-1, -1, 1), mistake=True),
    StateKind("holes-too-far", holes_too_far, mistake=True),
    StateKind("no-lock-allowance", no_lock_allowance, mistake=True),
    StateKind("eye-overstretched", eye_overstretched, mistake=True),
    StateKind("eye-loose", eye_loose, mistake=True),
)
