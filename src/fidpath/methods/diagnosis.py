"""What is seen at the bench -> the usual mistakes it points to, the likeliest first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fidpath.methods.diagnosis_questions import SightingError
from fidpath.methods.method import Method, Mistake
from fidpath.methods.registration import Diagnostics, Hint
from fidpath.methods.registry import method_names, registration_of
from fidpath.methods.wording import worded_mistake
from fidpath.planning import Plan


@dataclass(frozen=True)
class Diagnosis:
    """A mistake that the sightings point to, its words filled: how much they do, why, and how far off the work is."""

    mistake: Mistake
    weight: float
    why: tuple[str, ...]
    how_far_off: str


@dataclass(frozen=True)
class Answer:
    """What the sightings, by name, point to, the likeliest first; and what to look at next."""

    sightings: Mapping[str, Any]
    likely: tuple[Diagnosis, ...]
    look_next: tuple[str, ...]


def diagnostics_of(method: Method) -> Diagnostics[Any]:
    """How this method's mistakes are told. Raises SightingError where they can't be."""
    known = registration_of(method.name).diagnostics
    if known is None:
        able = [name for name in method_names() if registration_of(name).diagnostics is not None]
        what = f"the mistakes of {method.name} can't be recognised at the bench"
        raise SightingError(what, f"Those of {', '.join(able)} can: see the pictures of the steps instead")
    return known()


def diagnose(method: Method, sightings: Any, plan: Plan | None = None) -> Answer:
    """The usual mistakes that the sightings point to; none where they point to none.

    With a plan the figures are the job's. Raises SightingError where the sightings can't be or contradict each other.
    """
    known = diagnostics_of(method)
    hints: dict[str, list[Hint]] = defaultdict(list)
    for hint in known.hints(method, sightings, plan):
        hints[hint.mistake].append(hint)
    likely = [_diagnosis(mistake, hints[mistake.name], plan) for mistake in method.mistakes if mistake.name in hints]
    likely.sort(key=lambda one: -one.weight)
    return Answer(known.given(method, sightings), tuple(likely), known.look_next(method, sightings))


def like_picture(method: Method, said: str, plan: Plan | None = None) -> Answer:
    """The mistake whose picture the work looks like, by its number on the sheet of mistakes or by its name.

    Raises SightingError where there is none.
    """
    ways = method.mistakes_in_order
    by_word = {str(number): mistake for number, mistake in enumerate(ways, 1)} | {way.name: way for way in ways}
    if said not in by_word:
        remedy = f"The pictures are 1 to {len(ways)}: {', '.join(way.name for way in ways)}"
        raise SightingError(f"there is no picture {said!r} of a usual mistake", remedy)
    hint = Hint(by_word[said].name, 1.0, f"The work looks like picture {ways.index(by_word[said]) + 1}.")
    return Answer({"like": by_word[said].name}, (_diagnosis(by_word[said], [hint], plan),), ())


def _diagnosis(mistake: Mistake, hints: list[Hint], plan: Plan | None) -> Diagnosis:
    worded = worded_mistake(mistake, plan)
    off = [text for text in (*(hint.off for hint in hints), worded.how_far_off) if text]
    weight = round(sum(hint.weight for hint in hints), 3)
    return Diagnosis(worded, weight, tuple(dict.fromkeys(hint.why for hint in hints)), " ".join(off))
