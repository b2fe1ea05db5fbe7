"""Rope states of the plain buried eye, which has no lock, and of its own mistakes."""

from __future__ import annotations

from dataclasses import replace

from fidpath.geometry import eye_of_loop
from fidpath.planning import Plan
from fidpath.states.buried_states import buried
from fidpath.states.eye_states import first_fid, wrapped
from fidpath.states.recipe import strand_ends, unevenly_split
from fidpath.states.rope_state import RopeState
from fidpath.states.state_kind import StateKind

LOOSE, TIGHT = 6, -2
"""Picks by which the loose and the tight eye are longer than planned."""


def plain_tapered(plan: Plan) -> RopeState:
    """The tail of a plain eye cut to its bury and tapered, lying along the standing part."""
    tip, room = plan.station_tip, 2 * plan.braid.diameter
    ends = tuple(strand_ends(plan).tolist())
    return wrapped(plan).lying(first=-plan.bury_length - room, last=tip, tip=tip, ends=ends)


def entry_split_uneven(plan: Plan) -> RopeState:
    """One strand taken on the wrong side of the entry as it is opened."""
    return unevenly_split(first_fid(plan))


def with_eye(plan: Plan, picks: int) -> Plan:
    """The plan of a plain eye that is so many picks longer, from the entry round to the entry; all else as it is.

    Raises CannotBeMade where that eye doesn't close round the terminator.
    """
    old, loop = plan.eye, plan.eye.loop + picks * plan.pick
    bearing = 2 * old.bend_radius - old.diameter
    eye = eye_of_loop(old.zone, old.diameter, bearing, loop - 2 * plan.neck.reach)
    return replace(plan, eye=replace(eye, loop=loop))


def _loose(plan: Plan) -> Plan:
    return with_eye(plan, LOOSE)


def _tight(plan: Plan) -> Plan:
    return with_eye(plan, TIGHT)


KINDS = (
    StateKind("plain-wrapped", wrapped),
    StateKind("plain-entry-opened", first_fid),
    StateKind("plain-tapered", plain_tapered),
    StateKind("plain-split-5-7", entry_split_uneven, mistake=True),
    StateKind("plain-eye-loose", buried, made_to=_loose, finished=True, mistake=True),
    StateKind("plain-eye-tight", buried, made_to=_tight, finished=True, mistake=True),
)
