"""What is seen of a lock at the bench -> hints at its usual mistakes, made with the other end captive."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fidpath.methods.eye_hints import CERTAIN
from fidpath.methods.lock_hints import LockMistake, lock_hints, mark_to_look_at
from fidpath.methods.lock_sightings import Face
from fidpath.methods.locked_captive.sightings import INSPECTION, CaptiveSightings, Phase, handed, phase
from fidpath.methods.method import Method
from fidpath.methods.registration import Diagnostics, Hint
from fidpath.planning import Plan


@dataclass(frozen=True)
class Passing:
    """One way of passing tail and bight through H2, right where it has no mistakes, and what it leaves to be seen.

    turns: those left in H2's top group, right-handed positive. face: the one at which the standing part goes in.
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


def hints(method: Method, seen: CaptiveSightings, plan: Plan | None = None) -> Iterator[Hint]:
    """What each sighting says. With a plan the figures are the job's. Raises SightingError where they can't be."""
    INSPECTION.check(method, seen, plan)
    yield from _by_turns(method, seen, plan)
    yield from lock_hints(seen, plan)


def _passings(method: Method, seen: CaptiveSightings, plan: Plan | None = None) -> tuple[Passing, ...]:
    """Ways of passing through H2 that agree with what was seen there; all of them where nobody looked."""
    sign = 0 if seen.hand is None else seen.hand.sign * handed(plan)
    return tuple(
        one
        for one in (TAIL_PASSED if phase(method, seen) is Phase.TAIL_THROUGH else LOCKED)
        if (seen.turns is None or abs(one.turns) == seen.turns)
        and (seen.hand is None or one.turns * sign > 0)
        and (seen.standing_part is None or one.face is seen.standing_part)
    )


def _by_turns(method: Method, seen: CaptiveSightings, plan: Plan | None) -> Iterator[Hint]:
    """H2's turns and the standing part's face, held against every way of passing through H2."""
    if phase(method, seen) is Phase.NONE_YET:
        return
    agree = _passings(method, seen, plan)
    if any(not one.mistakes for one in agree):
        return
    for mistake in dict.fromkeys(mistake for one in agree for mistake in one.mistakes):
        share = sum(mistake in one.mistakes for one in agree) / len(agree)
        yield Hint(mistake, CERTAIN * share, _turns_said(seen))


def _turns_said(seen: CaptiveSightings) -> str:
    said = []
    if seen.turns is not None:
        number = ("no turns", "one turn", "two turns")[seen.turns]
        hand = f", {seen.hand.value}-handed in the top group" if seen.hand else ""
        said.append(f"{number} in each group of H2{hand}")
    if seen.standing_part is not None:
        said.append(f"the standing part goes into H2 at the {seen.standing_part.words} face")
    return "; ".join(said)


def look_next(method: Method, seen: CaptiveSightings) -> tuple[str, ...]:
    """What to look at to tell apart what the sightings leave open."""
    asked: list[str] = []
    if seen.turns is not None or seen.standing_part is not None:
        still_open = {one.mistakes for one in _passings(method, seen)}
        if len(still_open) > 1:
            asked += _asked_at_h2(method, seen)
    return (*asked, *mark_to_look_at(seen))


def _asked_at_h2(method: Method, seen: CaptiveSightings) -> Iterator[str]:
    final = phase(method, seen) is not Phase.TAIL_THROUGH
    if seen.turns is None:
        yield "How many turns are left in each group of H2 (--turns)?"
    if seen.hand is None and seen.turns:
        yield "Of which hand is the turn in H2's top group (--hand)?"
    if final and seen.standing_part is None and not seen.hand:
        yield "By which face does the standing part go into H2 (--standing-part)?"


DIAGNOSTICS = Diagnostics(INSPECTION.questions, INSPECTION.read, INSPECTION.given, hints, look_next)
