"""What is known of a kind of rope state: one record each, beside its recipe (`kinds` has them all)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fidpath.planning import Plan
from fidpath.states.rope_state import RopeState

Recipe = Callable[[Plan], RopeState]
Linking = tuple[int, int, int]

PASSED: Linking = (-1, 0, 0)
"""(s_1, s_2, I_2) of a tail passed through the standing part (see `checking.invariants`)."""

OWN_HOLE: Linking = (-1, 0, -1)
"""The same once the tail's end has gone through its own hole too."""

LOCKED: Linking = (-1, -1, 0)
"""The same where each leg goes through the other."""


@dataclass(frozen=True)
class StateKind:
    """A kind of rope state, by the name that methods give it, and the recipe that makes it from a plan.

    made_to: from the job's plan to the one it is made to, where that is another. invariants: what (s_1, s_2, I_2) must
    be once it is settled, None where that isn't asked. drawn_up: whether a lock with both legs through each other has
    its planned rope between the holes. finished: whether the tail is buried, so that it is settled and drawn as the
    whole splice is; else it is a step. mistake: whether it is what comes of a usual mistake. moving: whether it
    is a moment of a motion, in which H2's groups have part of a turn; it is left out where the motion jams.
    """

    name: str
    recipe: Recipe
    invariants: Linking | None = None
    made_to: Callable[[Plan], Plan] | None = None
    drawn_up: bool = True
    finished: bool = False
    mistake: bool = False
    moving: bool = False
