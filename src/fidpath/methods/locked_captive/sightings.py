"""What is seen of a lock made with the other end captive: how far its turns have come, besides what every lock has."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from fidpath.methods.diagnosis_questions import Question, SightingError, one_of, whole
from fidpath.methods.eye_sightings import MARK, OF_THE_BURY, OF_THE_EYE, Inspection
from fidpath.methods.lock_sightings import (
    DRAWN_UP,
    SPLIT_H1,
    SPLIT_H2,
    STANDING_PART,
    Face,
    LockSightings,
    check_daylight,
    check_splits,
    seen_from,
)
from fidpath.methods.method import Method
from fidpath.planning import Plan


class Hand(Enum):
    """The hand of a turn."""

    LEFT = "left"
    RIGHT = "right"

    @property
    def sign(self) -> int:
        """-1 left, 1 right."""
        return 1 if self is Hand.RIGHT else -1


class Phase(Enum):
    """How far the turns in H2's groups have come."""

    NONE_YET = auto()
    TAIL_THROUGH = auto()
    ROLLING_OUT = auto()
    DRAWN_UP = auto()


TURNED, HALF_WAY, LAST = "h2-inside-out", "h1-in-h2", "locked"
"""The states at which the turns come in, begin to go, and are gone."""


@dataclass(frozen=True)
class CaptiveSightings(LockSightings):
    """What is seen of this lock besides.

    turns: whole turns left in each group of H2; hand: that of the top group's.
    """

    turns: int | None = None
    hand: Hand | None = None


def phase(method: Method, seen: CaptiveSightings) -> Phase:
    """How far the turns in H2's groups have come."""
    if seen.done is None or method.reaches(seen.done, LAST):
        return Phase.DRAWN_UP
    if method.reaches(seen.done, HALF_WAY):
        return Phase.ROLLING_OUT
    return Phase.TAIL_THROUGH if method.reaches(seen.done, TURNED) else Phase.NONE_YET


def _check_turns(method: Method, seen: CaptiveSightings, _plan: Plan | None) -> None:
    """Turns come in with what goes through H2."""
    if seen.turns not in (None, 0, 1, 2):
        raise SightingError(f"{seen.turns} turns can't be", "A group of H2 can hold none, one or two: count again")
    if seen.hand is not None and not seen.turns:
        raise SightingError("a hand was given, but no turns were counted", "Give --turns 1 or --turns 2")
    if seen.done is None:
        return
    now = phase(method, seen)
    if now is Phase.TAIL_THROUGH and seen.turns == 2:
        raise SightingError("before the bight goes in, a group of H2 holds one turn at most", "Count again")
    if now is Phase.ROLLING_OUT and seen.turns is not None:
        what = f"at step {method.number(seen.done)} the turns are just coming out"
        raise SightingError(what, "Count them after the curl has rolled out")


def handed(plan: Plan | None) -> int:
    """1 where turns have the hand that the method says, -1 where the job's work is mirrored."""
    return -1 if plan is not None and plan.job.practice.mirrored else 1


def _check_faces(_method: Method, seen: CaptiveSightings, plan: Plan | None) -> None:
    """The hand of the turns tells by which face the standing part goes in."""
    by_dot, by_other = (Hand.RIGHT, Hand.LEFT) if handed(plan) > 0 else (Hand.LEFT, Hand.RIGHT)
    if (seen.hand, seen.standing_part) in ((by_dot, Face.PLAIN), (by_other, Face.DOTTED)):
        face = "at the dot" if seen.standing_part is Face.DOTTED else "at the other face"
        hand = Hand(seen.hand).value
        what = f"{hand}-handed turns in the top group and the standing part in {face} can't both be"
        pair = f"{by_dot.value}-handed goes with the dot, {by_other.value}-handed with the other face"
        remedy = f"{pair[0].upper()}{pair[1:]}: look again which group is up"
        raise SightingError(what, remedy)


def _check_turned(method: Method, seen: CaptiveSightings, _plan: Plan | None) -> None:
    """No turns are in H2 before anything has gone through it."""
    if seen.done is not None and seen.turns and phase(method, seen) is Phase.NONE_YET:
        what = f"nothing has gone through H2 before step {method.number(TURNED)}"
        raise SightingError(what, "It can't have turns yet: look at H2 again")


INSPECTION = Inspection(
    CaptiveSightings,
    (
        SPLIT_H1,
        SPLIT_H2,
        MARK,
        Question(
            "turns",
            "turns",
            "At H2, how often is the bundle of strands on one side twisted round itself?",
            "0, 1 or 2",
            whole,
        ),
        Question(
            "hand",
            "hand",
            "Which way is the top bundle twisted? Right-handed runs like an ordinary screw.",
            "left or right",
            one_of({hand.value: hand for hand in Hand}, "left or right"),
        ),
        STANDING_PART,
        *DRAWN_UP,
        *OF_THE_EYE,
        *OF_THE_BURY,
    ),
    seen_from("marking", "h2-curled", LAST),
    (_check_turns, _check_faces, check_splits, _check_turned, check_daylight),
)
"""Everything that can be looked at, and what of it can't be."""
