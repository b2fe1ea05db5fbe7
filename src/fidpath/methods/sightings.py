"""What is seen at the bench, read from words and checked for what can't be."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType
from typing import Any, Literal

from fidpath.errors import Exit, FidpathError
from fidpath.planning.plan import Plan
from fidpath.units import UnitError, read_length

Hand = Literal["left", "right"]
Face = Literal["dot", "other"]
Split = tuple[int, int]

LAST_STEP = 14
MOST = 500.0
"""Most picks or rope diameters a sighting can be; beyond, it is a slip of the pen."""


class SightingError(FidpathError):
    """What was said to be seen can't be read, can't be, or contradicts itself."""

    code = Exit.USAGE


@dataclass(frozen=True)
class Sightings:
    """What is seen; None where nobody looked. Lengths in picks or rope diameters.

    at_step: last step of the work done; left out, the lock is drawn up. turns: whole turns left in each group of H2;
    hand: that of the upper group's. standing_part: the face by which it goes into H2, coming from the captive end.
    slack_picks: rope too much in the eye for its terminator; negative, too little.
    """

    at_step: int | None = None
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

    @property
    def given(self) -> dict[str, Any]:
        """What was looked at, by name."""
        every = {field.name: getattr(self, field.name) for field in fields(self)}
        return {name: value for name, value in every.items() if value is not None}


@dataclass(frozen=True)
class Question:
    """One thing to look at: its key on the command line, the sighting it gives, how to ask, what an answer may be."""

    key: str
    field: str
    ask: str
    answer: str
    read: Callable[[str, Plan | None], Any]


def _whole(text: str, _plan: Plan | None) -> int:
    if not re.fullmatch(r"\d{1,3}", text, re.ASCII):
        raise SightingError(f"{text!r} is not a whole number", "Write one such as 2")
    return int(text)


def _yes(text: str, _plan: Plan | None) -> bool:
    known = {"yes": True, "y": True, "no": False, "n": False}
    if text.lower() not in known:
        raise SightingError(f"{text!r} is neither yes nor no", "Write yes or no")
    return known[text.lower()]


def _one_of(*words: str) -> Callable[[str, Plan | None], str]:
    def read(text: str, _plan: Plan | None) -> str:
        if text.lower() not in words:
            raise SightingError(f"{text!r} is not one of its words", f"Write {' or '.join(words)}")
        return text.lower()

    return read


def _face(text: str, plan: Plan | None) -> str:
    """A hole's face, by the words at the bench or by those in the pictures."""
    return _one_of("dot", "other")({"dotted": "dot", "plain": "other"}.get(text.lower(), text), plan)


def _split(text: str, _plan: Plan | None) -> Split:
    found = re.fullmatch(r"(\d{1,3})\s*(?:/|-|and)\s*(\d{1,3})", text, re.ASCII)
    if not found:
        raise SightingError(f"{text!r} is not a count of both sides", "Write it as 6/6")
    return int(found[1]), int(found[2])


def _picks(text: str, plan: Plan | None) -> float:
    """A number of picks, from picks or from a length of this job's rope."""
    found = re.fullmatch(r"(\d{1,4}(?:\.\d{1,6})?)\s*picks?", text, re.ASCII)
    if found:
        return _bounded(float(found[1]), text)
    if plan is None:
        remedy = 'Write it in picks, such as "3 picks", or name the job file'
        raise SightingError(f"{text!r} can't be held against anything without a job", remedy)
    return _bounded(_mm(text, plan) / plan.pick, text)


def _tight(text: str, plan: Plan | None) -> float:
    return -_picks(text, plan)


def _diameters(text: str, plan: Plan | None) -> float:
    """A length in rope diameters."""
    if plan is not None:
        return _bounded(_mm(text, plan) / plan.braid.diameter, text)
    measure = _measure(text)
    if measure.unit != "d":
        remedy = 'Write it in rope diameters, such as "1.5 d", or name the job file'
        raise SightingError(f"{text!r} can't be held against anything without a job", remedy)
    return _bounded(measure.value, text)


def _measure(text: str) -> Any:
    try:
        return read_length(text)
    except UnitError as problem:
        raise SightingError(problem.what, problem.remedy.rstrip(".")) from None


def _mm(text: str, plan: Plan) -> float:
    return float(_measure(text).mm(plan.braid.diameter))


def _bounded(value: float, text: str) -> float:
    if not 0 <= value <= MOST:
        raise SightingError(f"{text!r} can't be", "Write a length of nothing or more, such as 12 mm")
    return value


QUESTIONS: tuple[Question, ...] = (
    Question("at-step", "at_step", "Which step of the work was done last?", "1 to 14", _whole),
    Question("split-h1", "split_h1", "How many strands lie on either side of the leg or fid in H1?", "6/6", _split),
    Question("split-h2", "split_h2", "How many strands lie on either side of what is in H2?", "6/6", _split),
    Question(
        "mark-on-strand",
        "mark_on_strand",
        "Does a mark sit on a strand, so that the fid slides off it?",
        "yes or no",
        _yes,
    ),
    Question("turns", "turns", "How many turns are left in each group of H2?", "0, 1 or 2", _whole),
    Question("hand", "hand", "Which hand has the upper group's turn?", "left or right", _one_of("left", "right")),
    Question(
        "standing-part",
        "standing_part",
        "From the captive end, by which face does the standing part go into H2?",
        "dot or other (the dotted or the plain face)",
        _face,
    ),
    Question("daylight", "daylight", "Is there daylight between the legs of the lock?", "yes or no", _yes),
    Question("gap", "gap_diameters", "How much clear rope lies between the two holes?", "a length", _diameters),
    Question("loose", "slack_picks", "By how much is the eye too loose?", '"3 picks" or a length', _picks),
    Question("tight", "slack_picks", "By how much is the eye too tight?", '"3 picks" or a length', _tight),
    Question("wont-go-in", "wont_go_in", "Is the eye too small for the terminator to go in?", "yes or no", _yes),
    Question("bury", "bury_diameters", "How long is the bury, entry to tail's tip?", "a length", _diameters),
    Question("cover-step", "cover_step", "Is there a step in the cover at the tail's tip?", "yes or no", _yes),
)
"""Everything that can be looked at, in the order of the work."""

BY_KEY: Mapping[str, Question] = MappingProxyType({question.key: question for question in QUESTIONS})


def sightings_of(said: Mapping[str, str], plan: Plan | None) -> Sightings:
    """What was said, by the questions' keys, as sightings. Raises SightingError where it can't be read or can't be."""
    both = [key for key in ("loose", "tight") if key in said]
    if len(both) == 2:
        raise SightingError("an eye can't be loose and tight at once", "Give one of the two")
    values = {BY_KEY[key].field: answer(key, text, plan) for key, text in said.items()}
    found = Sightings(**values)
    check(found, plan)
    return found


def answer(key: str, text: str, plan: Plan | None) -> Any:
    """One answer, read. Raises SightingError, with the question's key, where it can't be."""
    try:
        return BY_KEY[key].read(text.strip(), plan)
    except SightingError as problem:
        problem.key = f"--{key}"
        raise


def check(seen: Sightings, plan: Plan | None) -> None:
    """Refuse what can't be, or contradicts itself. Raises SightingError."""
    if seen.at_step is not None and not 1 <= seen.at_step <= LAST_STEP:
        raise SightingError(f"there is no step {seen.at_step}", f"The steps are 1 to {LAST_STEP}", key="--at-step")
    _check_turns(seen)
    _check_splits(seen, plan)
    _check_order(seen)
    _check_eye(seen, plan)
    _check_rope(seen, plan)


def _check_turns(seen: Sightings) -> None:
    """Turns come in with what goes through H2, and their hand tells by which face."""
    if seen.turns not in (None, 0, 1, 2):
        raise SightingError(f"{seen.turns} turns can't be", "A group of H2 can hold none, one or two: count again")
    if seen.hand is not None and not seen.turns:
        raise SightingError("a hand belongs to a turn, and no turns were counted", "Give --turns 1 or --turns 2")
    if seen.at_step in (8, 9) and seen.turns == 2:
        raise SightingError("before the bight goes in, a group of H2 holds one turn at most", "Count again")
    if seen.at_step == 10 and seen.turns is not None:
        raise SightingError("at step 10 the turns are on their way out", "Count them when the curl has rolled out")
    if (seen.hand, seen.standing_part) in (("right", "other"), ("left", "dot")):
        face = "at the dot" if seen.standing_part == "dot" else "at the other face"
        what = f"{seen.hand}-handed turns in the upper group and the standing part in {face} can't both be"
        remedy = "Right-handed goes with the dot, left-handed with the other face: look again which group is up"
        raise SightingError(what, remedy)


def _check_splits(seen: Sightings, plan: Plan | None) -> None:
    """Strands on both sides of a hole add up to the rope's."""
    splits = {"H1": seen.split_h1, "H2": seen.split_h2}
    sums = {name: sum(split) for name, split in splits.items() if split is not None}
    for name, split in splits.items():
        if split is not None and min(split) == 0:
            raise SightingError(f"with all strands on one side of {name} there is no hole", "Count again")
    for name, total in sums.items():
        if plan is not None and total != plan.braid.strands:
            what = f"at {name} {total} strands were counted; this rope has {plan.braid.strands}"
            raise SightingError(what, "Count again; if one is missing, look for a cut strand and don't load the rope")
        if total % 4:
            what = f"at {name} {total} strands were counted; ropes that take this lock have 8, 12, 16 or so"
            raise SightingError(what, "Count again; if one is missing, look for a cut strand and don't load the rope")
    if len(set(sums.values())) > 1:
        raise SightingError("H1 and H2 were counted to different sums, and it is one rope", "Count again")


FIRST_SEEN: tuple[tuple[str, int, str], ...] = (
    ("split_h1", 3, "H1 is not opened"),
    ("split_h2", 6, "H2 is not opened"),
    ("gap_diameters", 5, "H2 is not marked"),
    ("standing_part", 10, "the standing part is not in H2"),
    ("daylight", 11, "the lock is not drawn up"),
    ("slack_picks", 11, "the lock is not drawn up"),
    ("wont_go_in", 11, "the lock is not drawn up"),
    ("bury_diameters", 13, "the tail is not cut"),
    ("cover_step", 14, "the tail is not buried"),
)
"""Sightings that can't be had before a step, and why."""


def _check_order(seen: Sightings) -> None:
    """Nothing is seen before it is there."""
    if seen.at_step is None:
        return
    if seen.turns and seen.at_step < 8:
        raise SightingError("nothing has gone through H2 before step 8", "It can hold no turns yet: look again at H2")
    for name, step, why in FIRST_SEEN:
        value = getattr(seen, name)
        if value is not None and value is not False and seen.at_step < step:
            raise SightingError(f"{why} before step {step}", f"Step {seen.at_step} was said to be the last done")


def _check_eye(seen: Sightings, plan: Plan | None) -> None:
    """The eye is tight, loose or fits, and has some rope in it."""
    slack = seen.slack_picks
    if seen.wont_go_in and slack is not None and slack > -0.5:
        raise SightingError("the terminator won't go in and yet the eye isn't tight", "Measure the eye again")
    if plan is not None and slack is not None and slack * plan.pick <= -plan.needed_lock().eye_wanted:
        raise SightingError("an eye so tight would have no rope in it", "Measure again how much is missing")
    if seen.daylight and seen.gap_diameters == 0:
        raise SightingError("there is daylight between the legs and yet no rope between the holes", "Look again")


def _check_rope(seen: Sightings, plan: Plan | None) -> None:
    """A bury is no longer than the tail."""
    if plan is None or seen.bury_diameters is None:
        return
    longest = plan.tail_to_lay_out / plan.braid.diameter
    if seen.bury_diameters > longest:
        raise SightingError(f"a bury of {seen.bury_diameters:.0f} d is longer than the whole tail", "Measure it again")
