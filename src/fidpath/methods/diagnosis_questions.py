"""Questions about what is seen at the bench, and their answers: words in, numbers and enums out."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any, TypeVar

from fidpath.errors import Exit, FidpathError
from fidpath.planning import Plan
from fidpath.units import Measure, UnitError, read_length

MOST = 500.0
"""Most picks or rope diameters an answer can be; beyond, it is a slip of the pen."""

Split = tuple[int, int]
"""Strands on either side of what lies in a hole."""

Kind = TypeVar("Kind", bound=Enum)


class SightingError(FidpathError):
    """What was said to be seen can't be read, can't be, or contradicts itself."""

    code = Exit.USAGE


@dataclass(frozen=True)
class Question:
    """One thing to look at: its key on the command line, the sighting it gives, how to ask, what an answer may be."""

    key: str
    field: str
    ask: str
    answer: str
    read: Callable[[str, Plan | None], Any]


def answered(question: Question, text: str, plan: Plan | None) -> Any:
    """One answer, read. Raises SightingError, with the question's key, where it can't be."""
    try:
        return question.read(text.strip(), plan)
    except SightingError as problem:
        problem.key = f"--{question.key}"
        raise


def whole(text: str, _plan: Plan | None) -> int:
    """A whole number."""
    if not re.fullmatch(r"\d{1,3}", text, re.ASCII):
        raise SightingError(f"{text!r} is not a whole number", "Write one such as 2")
    return int(text)


def yes_or_no(text: str, _plan: Plan | None) -> bool:
    """Yes or no."""
    known = {"yes": True, "y": True, "no": False, "n": False}
    if text.lower() not in known:
        raise SightingError(f"{text!r} is neither yes nor no", "Write yes or no")
    return known[text.lower()]


def one_of(words: Mapping[str, Kind], shown: str) -> Callable[[str, Plan | None], Kind]:
    """A reader of one of some words, each standing for a member of an enum; `shown` says what to write."""

    def read(text: str, _plan: Plan | None) -> Kind:
        if text.lower() not in words:
            raise SightingError(f"{text!r} is not one of the choices", f"Write {shown}")
        return words[text.lower()]

    return read


def split(text: str, _plan: Plan | None) -> Split:
    """Strands on both sides of a hole, written as 6/6."""
    counted = re.fullmatch(r"(\d{1,3})\s*(?:/|-|and)\s*(\d{1,3})", text, re.ASCII)
    if not counted:
        raise SightingError(f"{text!r} is not a count of both sides", "Write it as 6/6")
    return int(counted[1]), int(counted[2])


def picks(text: str, plan: Plan | None) -> float:
    """A number of picks, from picks or from a length of this job's rope."""
    number = re.fullmatch(r"(\d{1,4}(?:\.\d{1,6})?)\s*picks?", text, re.ASCII)
    if number:
        return _bounded(float(number[1]), text)
    if plan is None:
        remedy = 'Write it in picks, such as "3 picks", or name the job file'
        raise SightingError(f"{text!r} can't be compared with anything without a job", remedy)
    return _bounded(_mm(text, plan) / plan.pick, text)


def diameters(text: str, plan: Plan | None) -> float:
    """A length in rope diameters."""
    if plan is not None:
        return _bounded(_mm(text, plan) / plan.braid.diameter, text)
    measure = _measure(text)
    if measure.unit != "d":
        remedy = 'Write it in rope diameters, such as "1.5 d", or name the job file'
        raise SightingError(f"{text!r} can't be compared with anything without a job", remedy)
    return _bounded(measure.value, text)


def _measure(text: str) -> Measure:
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
