"""What is seen of a lock at the bench -> hints at its usual mistakes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from fidpath.job import rule
from fidpath.methods.locked_captive.sightings import (
    Face,
    LockSightings,
    Phase,
    check,
    given,
    phase,
    questions,
    sightings_of,
)
from fidpath.methods.method import Method
from fidpath.methods.placeholders import length_shown
from fidpath.methods.registration import Diagnostics, Hint
from fidpath.planning import Plan

CERTAIN = 3.0
STRONG = 2.0
POSSIBLE = 1.0
"""How much one sighting speaks for a mistake: nothing else does so; the usual cause; one of several."""

ALREADY_RIGHT = 0.5
"""Picks within which an eye is as planned, and rope diameters within which a bury is."""

NEAR = 1.5
"""Picks within which an eye is off by what a known mistake takes."""

NO_DROPS = "The job's own practice drops no strands: change it first."


class LockMistake(StrEnum):
    """The mistakes of the lock, by their names in the method's data."""

    MARK_ON_STRAND = "mark-on-strand"
    UNEVEN_SPLIT = "split-5-7"
    TAIL_OTHER_FACE = "tail-other-face"
    BIGHT_OTHER_FACE = "bight-other-face"
    BOTH_OTHER_FACE = "both-other-face"
    NO_TAIL_PASS = "no-tail-pass"
    HOLES_TOO_FAR = "holes-too-far"
    NO_LOCK_ALLOWANCE = "no-lock-allowance"
    EYE_OVERSTRETCHED = "eye-overstretched"
    EYE_LOOSE = "eye-loose"
    BURY_TOO_SHORT = "bury-too-short"
    NO_TAPER = "no-taper"


@dataclass(frozen=True)
class Passing:
    """One way of passing tail and bight through H2, right where it has no mistakes, and what it leaves to be seen.

    turns: those left in H2's upper group, right-handed positive. face: the one at which the standing part goes in.
    """

    turns: int
    face: Face | None
    mistakes: tuple[LockMistake, ...]


TAIL_PASSED = (
    Passing(-1, None, ()),
    Passing(1, None, (LockMistake.TAIL_OTHER_FACE,)),
    Passing(0, None, (LockMistake.NO_TAIL_PASS,)),
)
"""With H2 inside out: the tail's end by the dotted face, by the other, or not at all."""

LOCKED = (
    Passing(0, Face.DOTTED, ()),
    Passing(2, Face.DOTTED, (LockMistake.TAIL_OTHER_FACE,)),
    Passing(-2, Face.PLAIN, (LockMistake.BIGHT_OTHER_FACE,)),
    Passing(0, Face.PLAIN, (LockMistake.BOTH_OTHER_FACE,)),
    Passing(1, Face.DOTTED, (LockMistake.NO_TAIL_PASS,)),
    Passing(-1, Face.PLAIN, (LockMistake.NO_TAIL_PASS, LockMistake.BIGHT_OTHER_FACE)),
)
"""Drawn up: the tail's end and the bight each add a turn, one way by the dotted face and the other way by the other."""


def hints(method: Method, seen: LockSightings, plan: Plan | None = None) -> Iterator[Hint]:
    """What each sighting says. With a plan the figures are the job's. Raises SightingError where they can't be."""
    check(method, seen, plan)
    yield from _by_turns(method, seen)
    for read in READERS:
        yield from read(seen, plan)


def _passings(method: Method, seen: LockSightings) -> tuple[Passing, ...]:
    """Ways of passing through H2 that agree with what was seen there; all of them where nobody looked."""
    return tuple(
        one
        for one in (TAIL_PASSED if phase(method, seen) is Phase.TAIL_THROUGH else LOCKED)
        if (seen.turns is None or abs(one.turns) == seen.turns)
        and (seen.hand is None or one.turns * seen.hand.sign > 0)
        and (seen.standing_part is None or one.face is seen.standing_part)
    )


def _by_turns(method: Method, seen: LockSightings) -> Iterator[Hint]:
    """H2's turns and the standing part's face, held against every way of passing through H2."""
    if phase(method, seen) is Phase.NONE_YET:
        return
    agree = _passings(method, seen)
    if any(not one.mistakes for one in agree):
        return
    for mistake in dict.fromkeys(mistake for one in agree for mistake in one.mistakes):
        share = sum(mistake in one.mistakes for one in agree) / len(agree)
        yield Hint(mistake, CERTAIN * share, _turns_said(seen))


def _turns_said(seen: LockSightings) -> str:
    said = []
    if seen.turns is not None:
        number = ("no turns", "one turn", "two turns")[seen.turns]
        hand = f", {seen.hand.value}-handed in the upper" if seen.hand else ""
        said.append(f"{number} in each group of H2{hand}")
    if seen.standing_part is not None:
        said.append(f"the standing part goes into H2 at the {seen.standing_part.words} face")
    return "; ".join(said)


def _by_split(seen: LockSightings, _plan: Plan | None) -> Iterator[Hint]:
    """Strands on either side of a hole."""
    for name, split in (("H1", seen.split_h1), ("H2", seen.split_h2)):
        if split is None or split[0] == split[1]:
            continue
        half = sum(split) // 2
        wrong = max(split) - half
        why = f"{min(split)} and {max(split)} strands at {name}, where {half} and {half} belong"
        off = f"At {name} {wrong} strand{'s' if wrong > 1 else ''} on the wrong side."
        yield Hint(LockMistake.UNEVEN_SPLIT, CERTAIN, why, off)


def _by_mark(seen: LockSightings, _plan: Plan | None) -> Iterator[Hint]:
    """A mark on a strand."""
    if seen.mark_on_strand:
        yield Hint(LockMistake.MARK_ON_STRAND, CERTAIN, "a mark sits on a strand")


def _by_eye(seen: LockSightings, plan: Plan | None) -> Iterator[Hint]:
    """The eye too tight, too loose, or too small for its terminator."""
    if seen.wont_go_in:
        yield Hint(LockMistake.NO_LOCK_ALLOWANCE, STRONG, "the terminator won't go in")
    if seen.slack_picks is None:
        return
    off = seen.slack_picks - (plan.needed_lock().eye_slack / plan.pick if plan else 0.0)
    if abs(off) <= ALREADY_RIGHT:
        return
    why, far = f"the eye is {_picks_said(off)}", _eye_off(off, plan)
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


def _picks_said(off: float) -> str:
    number = f"{abs(off):.1f}".removesuffix(".0")
    return f"{number} pick{'' if number == '1' else 's'} {'loose' if off > 0 else 'tight'} against the plan"


def _eye_off(off: float, plan: Plan | None) -> str:
    """How far off the eye is, and what forcing it on would take."""
    if plan is None:
        return ""
    rope = off * plan.pick
    said = f"Against the plan the eye is {length_shown(abs(rope), plan)} too {'loose' if off > 0 else 'tight'}."
    if abs(plan.needed_lock().eye_slack) > plan.pick / 4:
        fit = "looser" if plan.needed_lock().eye_slack > 0 else "tighter"
        said += f" The plan itself leaves it {length_shown(abs(plan.needed_lock().eye_slack), plan)} {fit} than exact."
    left = plan.eye_length + rope
    if off > 0 or left <= 0:
        return said
    limit = plan.job.practice.post_stretch_share
    return f"{said} To make it up by stretch takes {-rope / left:.1%}; the limit is {limit:.1%}."


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
        off = f"The holes are {length_shown(excess * plan.braid.diameter, plan)} too far apart." if plan else ""
        yield Hint(LockMistake.HOLES_TOO_FAR, CERTAIN if excess > diamond else STRONG, why, off)


def _by_bury(seen: LockSightings, plan: Plan | None) -> Iterator[Hint]:
    """The bury's length, and the cover over its end."""
    if seen.bury_diameters is not None:
        wanted = plan.job.practice.bury_diameters if plan else rule("bury").value
        short = wanted - seen.bury_diameters
        if short > ALREADY_RIGHT:
            why = f"a bury of {seen.bury_diameters:.3g} d, where the practice asks for {wanted:g} d"
            off = f"It is {length_shown(short * plan.braid.diameter, plan)} too short." if plan else ""
            yield Hint(LockMistake.BURY_TOO_SHORT, CERTAIN, why, off)
    if seen.cover_step:
        none = plan is not None and plan.job.practice.taper_drops == 0
        yield Hint(LockMistake.NO_TAPER, CERTAIN, "a step in the cover at the tail's tip", NO_DROPS if none else "")


READERS: tuple[Callable[[LockSightings, Plan | None], Iterator[Hint]], ...] = (
    _by_mark,
    _by_split,
    _by_gap,
    _by_eye,
    _by_bury,
)


def look_next(method: Method, seen: LockSightings) -> tuple[str, ...]:
    """What to look at to tell apart what the sightings leave open."""
    asked: list[str] = []
    if seen.turns is not None or seen.standing_part is not None:
        still_open = {one.mistakes for one in _passings(method, seen)}
        if len(still_open) > 1:
            asked += _asked_at_h2(method, seen)
    if seen.slack_picks is not None and seen.mark_on_strand is None and abs(seen.slack_picks) <= 2 * NEAR:
        asked.append("Does H1's or H2's mark sit on a strand? Count the picks from H1 to H2 (--mark-on-strand).")
    return tuple(asked)


def _asked_at_h2(method: Method, seen: LockSightings) -> Iterator[str]:
    final = phase(method, seen) is not Phase.TAIL_THROUGH
    if seen.turns is None:
        yield "How many turns are left in each group of H2 (--turns)?"
    if seen.hand is None and seen.turns:
        yield "Of which hand is the turn in H2's upper group (--hand)?"
    if final and seen.standing_part is None and not seen.hand:
        yield "By which face does the standing part go into H2 (--standing-part)?"


DIAGNOSTICS = Diagnostics(questions, sightings_of, given, hints, look_next)
