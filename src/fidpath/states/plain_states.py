"""Rope states of the plain buried eye, which has no lock."""

from __future__ import annotations

from fidpath.planning import Plan
from fidpath.states.eye_states import first_fid, wrapped
from fidpath.states.recipe import strand_ends
from fidpath.states.rope_state import RopeState
from fidpath.states.state_kind import StateKind


def plain_tapered(plan: Plan) -> RopeState:
    """The tail of a plain eye cut to its bury and tapered, lying along the standing part."""
    tip, room = plan.station_tip, 2 * plan.braid.diameter
    ends = tuple(strand_ends(plan).tolist())
    return wrapped(plan).lying(first=-plan.bury_length - room, last=tip, tip=tip, ends=ends)


KINDS = (
    StateKind("plain-wrapped", wrapped),
    StateKind("plain-entry-opened", first_fid),
    StateKind("plain-tapered", plain_tapered),
)
