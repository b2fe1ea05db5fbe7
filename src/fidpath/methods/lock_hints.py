"""What is seen of a lock at the bench -> hints at the usual mistakes that every way of making it has."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum

from fidpath.job import rule
from fidpath.methods.eye_hints import (
    ALREADY_RIGHT,
    CERTAIN,
    NEAR,
    POSSIBLE,
    STRONG,
    by_bury,
    by_mark,
    by_split,
    eye_off,
    picks_said,
    slack_planned,
)
from fidpath.methods.lock_sightings import LockSightings
from fidpath.methods.registration import Hint
from fidpath.planning import Plan, caliper_mm


class LockMistake(StrEnum):
    """The mistakes of the lock, by their names in the methods' data."""

    MARK_ON_STRAND = "mark-on-strand"
    UNEVEN_SPLIT = "split-5-7"
    TAIL_OTHER_FACE = "tail-other-face"
    BIGHT_OTHER_FACE = "bight-other-face"
    BOTH_OTHER_FACE = "both-other-face"
    END_OTHER_FACE = "end-other-face"
    NO_TAIL_PASS = "no-tail-pass"
    HOLES_TOO_FAR = "holes-too-far"
    NO_LOCK_ALLOWANCE = "no-lock-allowance"
    EYE_OVERSTRETCHED = "eye-overstretched"
    EYE_LOOSE = "eye-loose"
    BURY_TOO_SHORT = "bury-too-short"
    NO_TAPER = "no-taper"


def lock_hints(seen: LockSightings, plan: Plan | None) -> Iterator[Hint]:
    """What mark, holes, gap, eye and bury say, in that order."""
    yield from by_mark(seen, LockMistake.MARK_ON_STRAND)
    yield from by_split("H1", seen.split_h1, LockMistake.UNEVEN_SPLIT)
    yield from by_split("H2", seen.split_h2, LockMistake.UNEVEN_SPLIT)
    yield from _by_gap(seen, plan)
    yield from _by_eye(seen, plan)
    yield from by_bury(seen, plan, LockMistake.BURY_TOO_SHORT, LockMistake.NO_TAPER)


def _by_eye(seen: LockSightings, plan: Plan | None) -> Iterator[Hint]:
    """The eye too tight, too loose, or too small for its terminator."""
    if seen.wont_go_in:
        yield Hint(LockMistake.NO_LOCK_ALLOWANCE, STRONG, "the terminator won't go in")
    if seen.slack_picks is None:
        return
    off = seen.slack_picks - slack_planned(plan)
    if abs(off) <= ALREADY_RIGHT:
        return
    why, far = f"the eye is {picks_said(off)}", eye_off(off, plan)
    for mistake, weight in _eye_causes(off, seen, plan):
        yield Hint(mistake, weight, why, far)


def _eye_causes(off: float, seen: LockSightings, plan: Plan | None) -> Iterator[tuple[LockMistake, float]]:
    """Mistakes that leave an eye off by so many picks, and how strongly that speaks for each."""
    lost = plan.needed_lock().eye_lost / plan.pick if plan else None
    as_lost = lost is not None and abs(off + lost) <= NEAR
    one = abs(off) <= NEAR
    if one:
        yield LockMistake.MARK_ON_STRAND, STRONG
    if as_lost:
        yield LockMistake.NO_LOCK_ALLOWANCE, CERTAIN
    if off < 0:
        yield LockMistake.EYE_OVERSTRETCHED, POSSIBLE if one or as_lost or seen.wont_go_in else STRONG
        if seen.daylight:
            yield LockMistake.HOLES_TOO_FAR, POSSIBLE
    else:
        yield LockMistake.EYE_LOOSE, POSSIBLE if one else STRONG


def _by_gap(seen: LockSightings, plan: Plan | None) -> Iterator[Hint]:
    """Daylight, or too much rope between the holes."""
    if seen.daylight:
        yield Hint(LockMistake.HOLES_TOO_FAR, CERTAIN, "daylight between the legs of the lock")
    if seen.gap_diameters is None:
        return
    planned = plan.job.practice.hole_gap_diameters if plan else rule("hole_gap").value
    diamond = 2 * plan.pick / plan.braid.diameter if plan else 1.0
    excess = seen.gap_diameters - planned
    if excess > diamond / 2:
        why = f"{seen.gap_diameters:.2g} d of clear rope between the holes, where {planned:g} d belongs"
        off = f"The holes are {caliper_mm(excess * plan.braid.diameter, plan)} too far apart." if plan else ""
        yield Hint(LockMistake.HOLES_TOO_FAR, CERTAIN if excess > diamond else STRONG, why, off)


def mark_to_look_at(seen: LockSightings) -> Iterator[str]:
    """What tells an eye that is off by a mark from one that is off otherwise."""
    if seen.slack_picks is not None and seen.mark_on_strand is None and abs(seen.slack_picks) <= 2 * NEAR:
        yield "Does H1's or H2's mark sit on a strand? Count the picks from H1 to H2 (--mark-on-strand)."
