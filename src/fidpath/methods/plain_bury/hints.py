"""What is seen of a plain buried eye at the bench -> hints at its usual mistakes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from fidpath.methods.diagnosis_questions import Question, Split, split
from fidpath.methods.eye_hints import (
    ALREADY_RIGHT,
    NEAR,
    POSSIBLE,
    STRONG,
    by_bury,
    by_mark,
    by_split,
    eye_off,
    picks_said,
)
from fidpath.methods.eye_sightings import MARK, OF_THE_BURY, OF_THE_EYE, EyeSightings, Inspection, check_split
from fidpath.methods.method import Method
from fidpath.methods.registration import Diagnostics, Hint
from fidpath.planning import Plan


class PlainMistake(StrEnum):
    """The mistakes of a plain eye, by their names in the method's data."""

    MARK_ON_STRAND = "mark-on-strand"
    UNEVEN_SPLIT = "plain-split-5-7"
    EYE_LOOSE = "plain-eye-loose"
    EYE_TIGHT = "plain-eye-tight"
    BURY_TOO_SHORT = "bury-too-short"
    NO_TAPER = "no-taper"


@dataclass(frozen=True)
class PlainSightings(EyeSightings):
    """What is seen of a plain eye besides what every eye has: the strands on each side of the entry."""

    split_entry: Split | None = None


def _check_entry(_method: Method, seen: PlainSightings, plan: Plan | None) -> None:
    check_split("E", seen.split_entry, plan)


INSPECTION = Inspection(
    PlainSightings,
    (
        Question("split-entry", "split_entry", "How many strands lie on each side of the fid in E?", "6/6", split),
        MARK,
        *OF_THE_EYE,
        *OF_THE_BURY,
    ),
    (
        ("split_entry", "plain-entry-opened", "E is not opened"),
        ("mark_on_strand", "plain-wrapped", "E is not marked"),
        ("slack_picks", "plain-wrapped", "the rope is not laid round the terminator"),
        ("wont_go_in", "plain-wrapped", "the rope is not laid round the terminator"),
        ("bury_diameters", "plain-tapered", "the tail is not cut"),
        ("cover_step", "plain-tail-in", "the tail is not in"),
    ),
    (_check_entry,),
)
"""Everything that can be looked at, and from which state on."""


def hints(method: Method, seen: PlainSightings, plan: Plan | None = None) -> Iterator[Hint]:
    """What each sighting says. With a plan the figures are the job's. Raises SightingError where they can't be."""
    INSPECTION.check(method, seen, plan)
    yield from by_mark(seen, PlainMistake.MARK_ON_STRAND)
    yield from by_split("E", seen.split_entry, PlainMistake.UNEVEN_SPLIT)
    yield from _by_eye(seen, plan)
    yield from by_bury(seen, plan, PlainMistake.BURY_TOO_SHORT, PlainMistake.NO_TAPER)


def _by_eye(seen: PlainSightings, plan: Plan | None) -> Iterator[Hint]:
    """The eye too tight, too loose, or too small for its terminator."""
    if seen.wont_go_in:
        yield Hint(PlainMistake.EYE_TIGHT, STRONG, "the terminator won't go in")
    off = seen.slack_picks
    if off is None or abs(off) <= ALREADY_RIGHT:
        return
    why, far = f"the eye is {picks_said(off)}", eye_off(off, plan)
    one = abs(off) <= NEAR
    if one:
        yield Hint(PlainMistake.MARK_ON_STRAND, STRONG, why, far)
    yield Hint(PlainMistake.EYE_LOOSE if off > 0 else PlainMistake.EYE_TIGHT, POSSIBLE if one else STRONG, why, far)


def look_next(_method: Method, seen: PlainSightings) -> tuple[str, ...]:
    """What to look at to tell apart what the sightings leave open."""
    if seen.slack_picks is None or seen.mark_on_strand is not None or abs(seen.slack_picks) > 2 * NEAR:
        return ()
    return ("Does E's mark sit on a strand? Look where the fid went in (--mark-on-strand).",)


DIAGNOSTICS = Diagnostics(INSPECTION.questions, INSPECTION.read, INSPECTION.given, hints, look_next)
