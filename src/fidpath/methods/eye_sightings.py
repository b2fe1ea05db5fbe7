"""What is seen of any eye splice at the bench, read from words and checked for what can't be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from enum import Enum
from typing import Any, Generic, TypeVar

from fidpath.methods.diagnosis_questions import (
    Question,
    SightingError,
    Split,
    answered,
    diameters,
    picks,
    whole,
    yes_or_no,
)
from fidpath.methods.method import Method
from fidpath.planning import Plan


@dataclass(frozen=True)
class EyeSightings:
    """What is seen of an eye splice; None where nobody looked. Lengths in picks or rope diameters.

    done: the state after the last step of the work done; left out, all of it is. slack_picks: rope too much in the eye
    for its terminator; negative, too little.
    """

    done: str | None = None
    mark_on_strand: bool | None = None
    slack_picks: float | None = None
    wont_go_in: bool | None = None
    bury_diameters: float | None = None
    cover_step: bool | None = None


Seen = TypeVar("Seen", bound=EyeSightings)
Check = Callable[[Method, Seen, "Plan | None"], None]


def tight(text: str, plan: Plan | None) -> float:
    """By how many picks an eye is too tight, as slack."""
    return -picks(text, plan)


MARK = Question(
    "mark-on-strand",
    "mark_on_strand",
    "Does the fid slide off the mark, because the mark sits on a strand?",
    "yes or no",
    yes_or_no,
)
OF_THE_EYE: tuple[Question, ...] = (
    Question(
        "loose",
        "slack_picks",
        "If the eye hangs loose on what sits in it: how much rope too much?",
        '"3 picks" or a length',
        picks,
    ),
    Question(
        "tight", "slack_picks", "If the eye is too tight: how much rope is missing?", '"3 picks" or a length', tight
    ),
    Question(
        "wont-go-in", "wont_go_in", "Will the ring or thimble not go into the eye at all?", "yes or no", yes_or_no
    ),
)
OF_THE_BURY: tuple[Question, ...] = (
    Question(
        "bury",
        "bury_diameters",
        "How long is the bury, from where the tail goes in to where you feel its tip?",
        "a length",
        diameters,
    ),
    Question(
        "cover-step",
        "cover_step",
        "Run your hand along the bury: does the rope step down all at once where the tail ends?",
        "yes or no",
        yes_or_no,
    ),
)
"""What can be looked at in any eye splice: its mark, its eye, its bury."""


@dataclass(frozen=True)
class Inspection(Generic[Seen]):
    """What can be looked at in one method, besides how far the work has come.

    sightings: what the answers make. asked: the questions, in the order of the work. first_seen: sightings, the state
    before which they can't be had, and why. checks: of what can't be, besides those of every eye.
    """

    sightings: type[Seen]
    asked: tuple[Question, ...]
    first_seen: tuple[tuple[str, str, str], ...]
    checks: tuple[Check[Seen], ...] = ()

    def questions(self, method: Method) -> tuple[Question, ...]:
        """Everything that can be looked at, in the order of the work."""
        last = method.steps[-1].number

        def done(text: str, plan: Plan | None) -> str:
            number = whole(text, plan)
            state = method.last_state(number)
            if state is None:
                raise SightingError(f"there is no step {number}", f"The steps are 1 to {last}")
            return state

        return (Question("at-step", "done", "Which step of the work was done last?", f"1 to {last}", done), *self.asked)

    def given(self, method: Method, seen: Seen) -> dict[str, Any]:
        """What was looked at, by name, as plain data, in the order of the questions; the work done by its step."""
        every = {field.name: getattr(seen, field.name) for field in fields(seen)}
        plain = {name: value.value if isinstance(value, Enum) else value for name, value in every.items()}
        done = plain.pop("done")
        step = None if done is None else method.number(done)
        order = dict.fromkeys(question.field for question in self.asked)
        found = {"at_step": step, **{name: plain[name] for name in order}}
        return {name: value for name, value in found.items() if value is not None}

    def read(self, method: Method, said: Mapping[str, str], plan: Plan | None) -> Seen:
        """What was said, by the questions' keys, as sightings. Raises SightingError where it can't be read or be."""
        if "loose" in said and "tight" in said:
            raise SightingError("an eye can't be both loose and tight", "Give one of the two")
        by_key = {question.key: question for question in self.questions(method)}
        strange = next((key for key in said if key not in by_key), None)
        if strange is not None:
            options = ", ".join(f"--{key}" for key in by_key)
            what = f"--{strange} doesn't apply to this kind of splice ({method.title})"
            raise SightingError(what, f"Look at {options}")
        values = {by_key[key].field: answered(by_key[key], text, plan) for key, text in said.items()}
        seen = self.sightings(**values)
        self.check(method, seen, plan)
        return seen

    def check(self, method: Method, seen: Seen, plan: Plan | None) -> None:
        """Refuse what can't be, or contradicts itself. Raises SightingError."""
        for check in self.checks:
            check(method, seen, plan)
        self._check_order(method, seen)
        _check_eye(seen, plan)
        _check_rope(seen, plan)

    def _check_order(self, method: Method, seen: Seen) -> None:
        """Nothing is seen before it is there."""
        if seen.done is None:
            return
        for name, state, why in self.first_seen:
            value = getattr(seen, name)
            if value is not None and value is not False and not method.reaches(seen.done, state):
                what = f"{why} before step {method.number(state)}"
                raise SightingError(what, f"Step {method.number(seen.done)} was given as the last step done")


def check_split(name: str, counted: Split | None, plan: Plan | None) -> None:
    """The strands counted on both sides of a hole are as many as a rope has. Raises SightingError."""
    if counted is None:
        return
    if min(counted) == 0:
        raise SightingError(f"if all strands are on one side of {name} there is no hole", "Count again")
    total = sum(counted)
    remedy = "Count again; if one is missing, look for a cut strand and don't load the rope"
    if plan is not None and total != plan.braid.strands:
        raise SightingError(f"at {name} {total} strands were counted, but this rope has {plan.braid.strands}", remedy)
    if total % 4:
        what = f"at {name} {total} strands were counted, but ropes that take a straight hole have 8, 12, 16 or so"
        raise SightingError(what, remedy)


def _check_eye(seen: EyeSightings, plan: Plan | None) -> None:
    """The eye is tight, loose or fits, and has some rope in it."""
    slack = seen.slack_picks
    if seen.wont_go_in and slack is not None and slack > -0.5:
        raise SightingError("the terminator won't go in, but the eye isn't tight", "Measure the eye again")
    if plan is None or slack is None:
        return
    wanted = plan.lock.eye_wanted if plan.lock else plan.eye_length
    if slack * plan.pick <= -wanted:
        raise SightingError("an eye this tight would have no rope in it", "Measure again how much is missing")


def _check_rope(seen: EyeSightings, plan: Plan | None) -> None:
    """A bury is no longer than the tail."""
    if plan is None or seen.bury_diameters is None:
        return
    longest = plan.tail_to_lay_out / plan.braid.diameter
    if seen.bury_diameters > longest:
        raise SightingError(f"a bury of {seen.bury_diameters:.0f} d is longer than the whole tail", "Measure it again")
