"""Every kind of rope state a method's step or mistake can name: the records of all recipes in one registry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fidpath.errors import CannotBeMade
from fidpath.geometry import Part
from fidpath.planning import Plan
from fidpath.states import (
    buried_states,
    drawn_up_states,
    eye_states,
    lock_states,
    mistake_states,
    moment_states,
    plain_states,
)
from fidpath.states.rope_state import Pass, RopeState, mirrored
from fidpath.states.state_kind import StateKind

_ALL = (eye_states, lock_states, drawn_up_states, plain_states, buried_states, moment_states, mistake_states)

KINDS: dict[str, StateKind] = {kind.name: kind for recipes in _ALL for kind in recipes.KINDS}
"""Every kind by its name. Another one is one more record with its recipe."""

BEARING = "terminator.bearing_diameter"
"""The key that geometry's refusals name."""

FINISHED = "buried"
"""The kind of the finished splice."""


def names(*, mistakes: bool) -> tuple[str, ...]:
    """The names of all mistakes, or of all states of steps."""
    return tuple(kind.name for kind in KINDS.values() if kind.mistake == mistakes)


def kind_of(name: str) -> StateKind:
    """The kind of that name. Raises CannotBeMade where there is none."""
    if name not in KINDS:
        raise CannotBeMade(f"no rope state of the kind {name!r}", f"Known ones: {', '.join(names(mistakes=False))}")
    return KINDS[name]


def state_of(plan: Plan, name: str) -> RopeState:
    """The rope state of that kind for the job's plan. Raises CannotBeMade as `made` does."""
    return made(plan, name)[1]


def made(plan: Plan, name: str) -> tuple[Plan, RopeState]:
    """The plan that a state of this kind is made to, from the job's, and the state with its stretches and marks.

    Raises CannotBeMade where there is no such kind, or the plan leaves no room for it.
    """
    kind = kind_of(name)
    try:
        own = plan if kind.made_to is None else kind.made_to(plan)
        state = kind.recipe(own)
    except CannotBeMade as refused:
        refused.key = _own_key(plan, refused.key)
        raise
    rope = replace(state.only, stretches=stretches(own, state.passes), marks=_marks(own, state))
    state = replace(state, ropes=(rope,), name=name)
    return own, mirrored(state) if plan.job.practice.mirrored else state


def _own_key(plan: Plan, key: str | None) -> str | None:
    """A key as the job has it: geometry knows a bearing diameter, which a terminator's table may call otherwise."""
    return f"terminator.{plan.job.terminator.body.bearing_key}" if key == BEARING else key


def stretches(plan: Plan, passes: Sequence[Pass] = ()) -> tuple[tuple[Part, float], ...]:
    """The rope's parts, each from its first station, mm.

    The piece between the holes begins where the tail leaves the first hole, while more rope leads to the second than
    the finished lock has between them; else where it will begin in that.
    """
    finished = plan.station_h2 - plan.rope_between_holes
    guests = [one.guest for one in passes if plan.lock is not None and one.hole == plan.letters[0]]
    longer = [guest for guest in guests if guest < finished - plan.braid.diameter]
    return (
        (Part.STANDING_PART, float("-inf")),
        (Part.EYE, 0.0),
        (Part.BETWEEN_THE_HOLES, min([finished, *longer])),
        (Part.TAIL, plan.station_h2),
    )


def _marks(plan: Plan, state: RopeState) -> tuple[tuple[str, float], ...]:
    """The lettered marks that lie in the model, by station."""
    opened = {opening.name: opening.host for opening in state.openings}
    holes = [(letter, opened.get(letter, at) if at else at) for letter, at in plan.holes]
    entry, bury = ("E", plan.station_entry_host), ("B", plan.station_entry_tail)
    marks = (entry, *holes, bury, ("X", plan.station_tip))
    return tuple((letter, at) for letter, at in marks if state.first <= at <= state.last)
