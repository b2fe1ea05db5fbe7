"""What is seen of a lock at the bench -> hints at its usual mistakes, made with both ends free."""

from __future__ import annotations

from collections.abc import Iterator

from fidpath.methods.eye_hints import CERTAIN
from fidpath.methods.eye_sightings import MARK, OF_THE_BURY, OF_THE_EYE, Inspection
from fidpath.methods.lock_hints import LockMistake, lock_hints, mark_to_look_at
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
from fidpath.methods.registration import Diagnostics, Hint
from fidpath.planning import Plan

INSPECTION = Inspection(
    LockSightings,
    (SPLIT_H1, SPLIT_H2, MARK, STANDING_PART, *DRAWN_UP, *OF_THE_EYE, *OF_THE_BURY),
    seen_from("h2-drawn-out", "free-end-in-h2", "locked"),
    (check_splits, check_daylight),
)
"""Everything that can be looked at, and from which state on."""


def hints(method: Method, seen: LockSightings, plan: Plan | None = None) -> Iterator[Hint]:
    """What each sighting says. With a plan the figures are the job's. Raises SightingError where they can't be."""
    INSPECTION.check(method, seen, plan)
    if seen.standing_part is Face.PLAIN:
        yield Hint(LockMistake.END_OTHER_FACE, CERTAIN, "the standing part goes into H2 at the plain face")
    yield from lock_hints(seen, plan)


def look_next(_method: Method, seen: LockSightings) -> tuple[str, ...]:
    """What to look at to tell apart what the sightings leave open."""
    return tuple(mark_to_look_at(seen))


DIAGNOSTICS = Diagnostics(INSPECTION.questions, INSPECTION.read, INSPECTION.given, hints, look_next)
