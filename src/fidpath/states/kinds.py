"""Every kind of rope state a method's step can name, and the recipe that makes it from a plan."""

from __future__ import annotations

from dataclasses import replace

from fidpath.errors import CannotBeMade
from fidpath.geometry.parts import Part
from fidpath.planning.plan import Plan
from fidpath.states import drawn_up_states as recipes_lens
from fidpath.states import eye_states as recipes_eye
from fidpath.states import lock_states as recipes_lock
from fidpath.states import mistake_states as recipes_wrong
from fidpath.states import other_states as recipes_other
from fidpath.states.recipe import Recipe
from fidpath.states.rope_state import RopeState

STATES: dict[str, Recipe] = {
    "laid-out": recipes_eye.laid_out,
    "wrapped": recipes_eye.wrapped,
    "h1-first-fid": recipes_eye.first_fid,
    "h1-second-fid": recipes_eye.second_fid,
    "tail-entering": recipes_eye.tail_entering,
    "snug": recipes_eye.snug,
    "h2-drawn-out": recipes_eye.h2_drawn_out,
    "tail-end-in-h2": recipes_eye.tail_end_in_h2,
    "curl-closing": recipes_eye.curl_closing,
    "h2-inside-out": recipes_eye.inside_out,
    "tail-swung-round": recipes_lock.swung_round,
    "bight-in-h2": recipes_lock.bight_in_h2,
    "h1-in-h2": recipes_lock.h1_in_h2,
    "h2-curled": recipes_lock.h2_curled,
    "curl-rolling-out": recipes_lock.curl_rolling_out,
    "locked": recipes_lens.locked,
    "on-terminator": recipes_lens.on_terminator,
    "cut-and-tapered": recipes_lens.cut_and_tapered,
    "free-end-in-h2": recipes_other.free_end_in_h2,
    "plain-wrapped": recipes_other.plain_wrapped,
    "plain-entry-opened": recipes_other.plain_entry_opened,
    "plain-tapered": recipes_other.plain_tapered,
}
"""Steps of the methods. A method's file may name any of these; another kind is one more function here."""

WRONG_WAYS: dict[str, Recipe] = {
    "mark-on-strand": recipes_wrong.mark_on_strand,
    "split-5-7": recipes_wrong.split_uneven,
    "tail-other-face": recipes_wrong.tail_other_face,
    "bight-other-face": recipes_wrong.bight_other_face,
    "both-other-face": recipes_wrong.both_other_face,
    "no-tail-pass": recipes_wrong.no_tail_pass,
    "holes-too-far": recipes_wrong.holes_too_far,
    "no-lock-allowance": recipes_wrong.no_lock_allowance,
    "eye-overstretched": recipes_wrong.eye_overstretched,
    "eye-loose": recipes_wrong.eye_loose,
}
"""Mistakes that spoil the lock; those of the bury are finished splices with another plan."""

_PASSED, _OWN_HOLE, _LOCKED = (-1, 0, 0), (-1, 0, -1), (-1, -1, 0)

INVARIANTS: dict[str, tuple[int, int, int]] = {
    **dict.fromkeys(("tail-entering", "snug", "h2-drawn-out"), _PASSED),
    **dict.fromkeys(("tail-end-in-h2", "curl-closing", "h2-inside-out", "tail-swung-round"), _OWN_HOLE),
    **dict.fromkeys(("bight-in-h2", "h1-in-h2", "h2-curled", "curl-rolling-out"), _LOCKED),
    **dict.fromkeys(("locked", "on-terminator", "cut-and-tapered", "buried", "free-end-in-h2"), _LOCKED),
}
"""What (s_1, s_2, I_2) must be once a state is settled: the check computes them from the strands."""


def state_of(plan: Plan, kind: str) -> RopeState:
    """The rope state of that kind for the plan, its stretches and marks.

    Raises CannotBeMade where the plan leaves no room for it, or where no such kind is known.
    """
    recipe = {**STATES, **WRONG_WAYS}.get(kind)
    if recipe is None:
        raise CannotBeMade(f"no rope state of the kind {kind!r}", f"Known ones: {', '.join(STATES)}")
    state = recipe(plan)
    return replace(state, stretches=stretches(plan), marks=_marks(plan, state))


def stretches(plan: Plan) -> tuple[tuple[Part, float], ...]:
    """The rope's parts, each from its first station, mm: the same rope in every step."""
    return (
        (Part.STANDING_PART, float("-inf")),
        (Part.EYE, 0.0),
        (Part.BETWEEN_THE_HOLES, plan.station_h2 - plan.rope_between_holes),
        (Part.TAIL, plan.station_h2),
    )


def _marks(plan: Plan, state: RopeState) -> tuple[tuple[str, float], ...]:
    """The lettered marks that lie in the model, by station."""
    opened = {opening.name: opening.host for opening in state.openings}
    marks = (
        ("E", plan.station_entry_host),
        ("H1", 0.0),
        ("H2", opened.get("H2", plan.station_h2)),
        ("B", plan.station_entry_tail),
        ("X", plan.station_tip),
    )
    return tuple((letter, at) for letter, at in marks if state.first <= at <= state.last)
