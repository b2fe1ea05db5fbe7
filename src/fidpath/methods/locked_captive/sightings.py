"""What is seen of a lock at the bench, read from words and checked for what can't be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from enum import Enum, auto
from typing import Any

from fidpath.methods.diagnosis_questions import (
    Question,
    SightingError,
    Split,
    answered,
    diameters,
    one_of,
    picks,
    split,
    whole,
    yes_or_no,
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


class Face(Enum):
    """A face of H2: the one that got a dot, by which everything goes in, or the other. The values stand in JSON."""

    DOTTED = "dot"
    PLAIN = "other"

    @property
    def words(self) -> str:
        """What the pictures call it."""
        return "dotted" if self is Face.DOTTED else "plain"


class Phase(Enum):
    """How far the turns in H2's groups have come."""

    NONE_YET = auto()
    TAIL_THROUGH = auto()
    ROLLING_OUT = auto()
    DRAWN_UP = auto()


TURNED, HALF_WAY, DRAWN_UP = "h2-inside-out", "h1-in-h2", "locked"
"""The states at which the turns come in, begin to go, and are gone."""

FIRST_SEEN: tuple[tuple[str, str, str], ...] = (
    ("split_h1", "h1-second-fid", "H1 is not opened"),
    ("split_h2", "h2-drawn-out", "H2 is not opened"),
    ("gap_diameters", "snug", "H2 is not marked"),
    ("standing_part", "h2-curled", "the standing part is not in H2"),
    ("daylight", DRAWN_UP, "the lock is not drawn up"),
    ("slack_picks", DRAWN_UP, "the lock is not drawn up"),
    ("wont_go_in", DRAWN_UP, "the lock is not drawn up"),
    ("bury_diameters", "cut-and-tapered", "the tail is not cut"),
    ("cover_step", "buried", "the tail is not buried"),
)
"""Sightings, the state before which they can't be had, and why."""


@dataclass(frozen=True)
class LockSightings:
    """What is seen; None where nobody looked. Lengths in picks or rope diameters.

    done: the state after the last step of the work done; left out, the lock is drawn up. turns: whole turns left in
    each group of H2; hand: that of the upper group's. standing_part: the face by which it goes into H2, coming from the
    captive end. slack_picks: rope too much in the eye for its terminator; negative, too little.
    """

    done: str | None = None
    turns: int | None = None
    hand: Hand | None = None
    standing_part: Face | None = None
    split_h1: Split | None = None
    split_h2: Split | None = None
    mark_on_strand: bool | None = None
    daylight: bool | None = None
    gap_diameters: float | None = None
    slack_picks: float | None = None
    wont_go_in: bool | None = None
    bury_diameters: float | None = None
    cover_step: bool | None = None


def phase(method: Method, seen: LockSightings) -> Phase:
    """How far the turns in H2's groups have come."""
    if seen.done is None or method.reaches(seen.done, DRAWN_UP):
        return Phase.DRAWN_UP
    if method.reaches(seen.done, HALF_WAY):
        return Phase.ROLLING_OUT
    return Phase.TAIL_THROUGH if method.reaches(seen.done, TURNED) else Phase.NONE_YET


def given(method: Method, seen: LockSightings) -> dict[str, Any]:
    """What was looked at, by name, as plain data; the work done by its step's number."""
    every = {field.name: getattr(seen, field.name) for field in fields(seen)}
    plain = {name: value.value if isinstance(value, Enum) else value for name, value in every.items()}
    done = plain.pop("done")
    step = None if done is None else method.number(done)
    return {name: value for name, value in {"at_step": step, **plain}.items() if value is not None}


def questions(method: Method) -> tuple[Question, ...]:
    """Everything that can be looked at, in the order of the work."""

    def done(text: str, plan: Plan | None) -> str:
        number = whole(text, plan)
        state = method.last_state(number)
        if state is None:
            raise SightingError(f"there is no step {number}", f"The steps are 1 to {last}")
        return state

    last = method.steps[-1].number
    return (Question("at-step", "done", "Which step of the work was done last?", f"1 to {last}", done), *OF_THE_ROPE)


def _tight(text: str, plan: Plan | None) -> float:
    return -picks(text, plan)


HANDS = {hand.value: hand for hand in Hand}
FACES = {word: face for face in Face for word in (face.value, face.words)}

OF_THE_ROPE: tuple[Question, ...] = (
    Question("split-h1", "split_h1", "How many strands lie on either side of the leg or fid in H1?", "6/6", split),
    Question("split-h2", "split_h2", "How many strands lie on either side of what is in H2?", "6/6", split),
    Question(
        "mark-on-strand",
        "mark_on_strand",
        "Does a mark sit on a strand, so that the fid slides off it?",
        "yes or no",
        yes_or_no,
    ),
    Question("turns", "turns", "How many turns are left in each group of H2?", "0, 1 or 2", whole),
    Question(
        "hand",
        "hand",
        "Which hand has the upper group's turn?",
        "left or right",
        one_of(HANDS, "left or right"),
    ),
    Question(
        "standing-part",
        "standing_part",
        "From the captive end, by which face does the standing part go into H2?",
        "dot or other (the dotted or the plain face)",
        one_of(FACES, "dot or other"),
    ),
    Question("daylight", "daylight", "Is there daylight between the legs of the lock?", "yes or no", yes_or_no),
    Question("gap", "gap_diameters", "How much clear rope lies between the two holes?", "a length", diameters),
    Question("loose", "slack_picks", "By how much is the eye too loose?", '"3 picks" or a length', picks),
    Question("tight", "slack_picks", "By how much is the eye too tight?", '"3 picks" or a length', _tight),
    Question("wont-go-in", "wont_go_in", "Is the eye too small for the terminator to go in?", "yes or no", yes_or_no),
    Question("bury", "bury_diameters", "How long is the bury, entry to tail's tip?", "a length", diameters),
    Question("cover-step", "cover_step", "Is there a step in the cover at the tail's tip?", "yes or no", yes_or_no),
)
"""Everything that can be looked at besides how far the work has come."""


def sightings_of(method: Method, said: Mapping[str, str], plan: Plan | None) -> LockSightings:
    """What was said, by the questions' keys, as sightings. Raises SightingError where it can't be read or can't be."""
    if "loose" in said and "tight" in said:
        raise SightingError("an eye can't be loose and tight at once", "Give one of the two")
    by_key = {question.key: question for question in questions(method)}
    values = {by_key[key].field: answered(by_key[key], text, plan) for key, text in said.items()}
    seen = LockSightings(**values)
    check(method, seen, plan)
    return seen


def check(method: Method, seen: LockSightings, plan: Plan | None) -> None:
    """Refuse what can't be, or contradicts itself. Raises SightingError."""
    _check_turns(method, seen)
    _check_faces(seen)
    _check_splits(seen, plan)
    _check_order(method, seen)
    _check_eye(seen, plan)
    _check_rope(seen, plan)


def _check_turns(method: Method, seen: LockSightings) -> None:
    """Turns come in with what goes through H2."""
    if seen.turns not in (None, 0, 1, 2):
        raise SightingError(f"{seen.turns} turns can't be", "A group of H2 can hold none, one or two: count again")
    if seen.hand is not None and not seen.turns:
        raise SightingError("a hand belongs to a turn, and no turns were counted", "Give --turns 1 or --turns 2")
    if seen.done is None:
        return
    now = phase(method, seen)
    if now is Phase.TAIL_THROUGH and seen.turns == 2:
        raise SightingError("before the bight goes in, a group of H2 holds one turn at most", "Count again")
    if now is Phase.ROLLING_OUT and seen.turns is not None:
        what = f"at step {method.number(seen.done)} the turns are on their way out"
        raise SightingError(what, "Count them when the curl has rolled out")


def _check_faces(seen: LockSightings) -> None:
    """The hand of the turns tells by which face the standing part goes in."""
    if (seen.hand, seen.standing_part) in ((Hand.RIGHT, Face.PLAIN), (Hand.LEFT, Face.DOTTED)):
        face = "at the dot" if seen.standing_part is Face.DOTTED else "at the other face"
        hand = Hand(seen.hand).value
        what = f"{hand}-handed turns in the upper group and the standing part in {face} can't both be"
        remedy = "Right-handed goes with the dot, left-handed with the other face: look again which group is up"
        raise SightingError(what, remedy)


def _check_splits(seen: LockSightings, plan: Plan | None) -> None:
    """Strands on both sides of a hole add up to the rope's."""
    splits = {"H1": seen.split_h1, "H2": seen.split_h2}
    sums = {name: sum(counted) for name, counted in splits.items() if counted is not None}
    for name, counted in splits.items():
        if counted is not None and min(counted) == 0:
            raise SightingError(f"with all strands on one side of {name} there is no hole", "Count again")
    for name, total in sums.items():
        _check_total(name, total, plan)
    if len(set(sums.values())) > 1:
        raise SightingError("H1 and H2 were counted to different sums, and it is one rope", "Count again")


def _check_total(name: str, total: int, plan: Plan | None) -> None:
    """The strands counted at one hole are as many as a rope has."""
    remedy = "Count again; if one is missing, look for a cut strand and don't load the rope"
    if plan is not None and total != plan.braid.strands:
        raise SightingError(f"at {name} {total} strands were counted; this rope has {plan.braid.strands}", remedy)
    if total % 4:
        what = f"at {name} {total} strands were counted; ropes that take this lock have 8, 12, 16 or so"
        raise SightingError(what, remedy)


def _check_order(method: Method, seen: LockSightings) -> None:
    """Nothing is seen before it is there."""
    if seen.done is None:
        return
    if seen.turns and phase(method, seen) is Phase.NONE_YET:
        what = f"nothing has gone through H2 before step {method.number(TURNED)}"
        raise SightingError(what, "It can hold no turns yet: look again at H2")
    for name, state, why in FIRST_SEEN:
        value = getattr(seen, name)
        if value is not None and value is not False and not method.reaches(seen.done, state):
            what = f"{why} before step {method.number(state)}"
            raise SightingError(what, f"Step {method.number(seen.done)} was said to be the last done")


def _check_eye(seen: LockSightings, plan: Plan | None) -> None:
    """The eye is tight, loose or fits, and has some rope in it."""
    slack = seen.slack_picks
    if seen.wont_go_in and slack is not None and slack > -0.5:
        raise SightingError("the terminator won't go in and yet the eye isn't tight", "Measure the eye again")
    if plan is not None and slack is not None and slack * plan.pick <= -plan.needed_lock().eye_wanted:
        raise SightingError("an eye so tight would have no rope in it", "Measure again how much is missing")
    if seen.daylight and seen.gap_diameters == 0:
        raise SightingError("there is daylight between the legs and yet no rope between the holes", "Look again")


def _check_rope(seen: LockSightings, plan: Plan | None) -> None:
    """A bury is no longer than the tail."""
    if plan is None or seen.bury_diameters is None:
        return
    longest = plan.tail_to_lay_out / plan.braid.diameter
    if seen.bury_diameters > longest:
        raise SightingError(f"a bury of {seen.bury_diameters:.0f} d is longer than the whole tail", "Measure it again")
