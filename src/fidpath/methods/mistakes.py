"""What is seen at the bench -> the usual mistakes it points to, the likeliest first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from fidpath.job.rules import rule
from fidpath.methods.method import worded_way
from fidpath.methods.method_file import method
from fidpath.methods.placeholders import length_shown
from fidpath.methods.sightings import Sightings, check
from fidpath.planning.plan import Plan

CERTAIN = 3.0
STRONG = 2.0
POSSIBLE = 1.0
"""How much one sighting speaks for a mistake: nothing else does so; the usual cause; one of several."""

ALREADY_RIGHT = 0.5
"""Picks within which an eye is as planned, and rope diameters within which a bury is."""

NEAR = 1.5
"""Picks within which an eye is off by what a known mistake takes."""


@dataclass(frozen=True)
class Likely:
    """A mistake that the sightings point to: how much they do, why, how far off the work is, and the way back."""

    name: str
    title: str
    weight: float
    why: tuple[str, ...]
    how_far_off: str
    way_back: tuple[str, ...]
    signs: tuple[str, ...]
    at_step: int


@dataclass(frozen=True)
class Hint:
    """What one sighting says: the mistake, how strongly, in what words, and how far off that is."""

    name: str
    weight: float
    why: str
    off: str = ""


@dataclass(frozen=True)
class Made:
    """One way of making the lock: turns left in H2's upper group (right-handed positive), the standing part's face."""

    turns: int
    face: str
    mistakes: tuple[str, ...]


TAIL_PASSED = (
    Made(-1, "", ()),
    Made(1, "", ("tail-other-face",)),
    Made(0, "", ("no-tail-pass",)),
)
"""After step 8: the tail's end by the dotted face, by the other, or not at all."""

LOCKED = (
    Made(0, "dot", ()),
    Made(2, "dot", ("tail-other-face",)),
    Made(-2, "other", ("bight-other-face",)),
    Made(0, "other", ("both-other-face",)),
    Made(1, "dot", ("no-tail-pass",)),
    Made(-1, "other", ("no-tail-pass", "bight-other-face")),
)
"""Drawn up: the tail's end and the bight each add a turn, one way by the dotted face and the other way by the other."""


def likely(sightings: Sightings, plan: Plan | None = None) -> list[Likely]:
    """The usual mistakes that the sightings point to, the likeliest first; empty where they point to none.

    With a plan the figures are the job's. Raises SightingError where the sightings can't be or contradict each other.
    """
    check(sightings, plan)
    hints: dict[str, list[Hint]] = defaultdict(list)
    for read in READERS:
        for hint in read(sightings, plan):
            hints[hint.name].append(hint)
    ways = method("locked-captive").wrong_ways
    found = [_likely(way.name, hints[way.name], plan) for way in ways if way.name in hints]
    return sorted(found, key=lambda one: -one.weight)


def _likely(name: str, hints: list[Hint], plan: Plan | None) -> Likely:
    way = worded_way(method("locked-captive").wrong_way(name), plan)
    off = [text for text in (*(hint.off for hint in hints), way.how_far_off) if text]
    return Likely(
        name,
        way.title,
        round(sum(hint.weight for hint in hints), 3),
        tuple(dict.fromkeys(hint.why for hint in hints)),
        " ".join(off),
        way.way_back,
        way.signs,
        way.at_step,
    )


def _made(seen: Sightings) -> tuple[Made, ...]:
    """Ways of making the lock that agree with what was seen at H2; all of them where nobody looked."""
    sign = {"left": -1, "right": 1}
    return tuple(
        made
        for made in (TAIL_PASSED if seen.at_step in (8, 9) else LOCKED)
        if (seen.turns is None or abs(made.turns) == seen.turns)
        and (seen.hand is None or made.turns * sign[seen.hand] > 0)
        and (seen.standing_part is None or made.face == seen.standing_part)
    )


def _by_turns(seen: Sightings, _plan: Plan | None) -> Iterator[Hint]:
    """H2's turns and the standing part's face, held against every way of making the lock."""
    if seen.at_step is not None and seen.at_step < 8:
        return
    agree = _made(seen)
    if any(not made.mistakes for made in agree):
        return
    for name in dict.fromkeys(name for made in agree for name in made.mistakes):
        share = sum(name in made.mistakes for made in agree) / len(agree)
        yield Hint(name, CERTAIN * share, _turns_said(seen))


def _turns_said(seen: Sightings) -> str:
    said = []
    if seen.turns is not None:
        number = ("no turns", "one turn", "two turns")[seen.turns]
        hand = f", {seen.hand}-handed in the upper" if seen.hand else ""
        said.append(f"{number} in each group of H2{hand}")
    if seen.standing_part is not None:
        face = "dotted" if seen.standing_part == "dot" else "plain"
        said.append(f"the standing part goes into H2 at the {face} face")
    return "; ".join(said)


def _by_split(seen: Sightings, _plan: Plan | None) -> Iterator[Hint]:
    """Strands on either side of a hole."""
    for name, split in (("H1", seen.split_h1), ("H2", seen.split_h2)):
        if split is None or split[0] == split[1]:
            continue
        half = sum(split) // 2
        wrong = max(split) - half
        why = f"{min(split)} and {max(split)} strands at {name}, where {half} and {half} belong"
        off = f"At {name} {wrong} strand{'s' if wrong > 1 else ''} on the wrong side."
        yield Hint("split-5-7", CERTAIN, why, off)


def _by_mark(seen: Sightings, _plan: Plan | None) -> Iterator[Hint]:
    """A mark on a strand."""
    if seen.mark_on_strand:
        yield Hint("mark-on-strand", CERTAIN, "a mark sits on a strand")


def _by_eye(seen: Sightings, plan: Plan | None) -> Iterator[Hint]:
    """The eye too tight, too loose, or too small for its terminator."""
    if seen.wont_go_in:
        yield Hint("no-lock-allowance", STRONG, "the terminator won't go in")
    if seen.slack_picks is None:
        return
    off = seen.slack_picks - (plan.needed_lock().eye_slack / plan.pick if plan else 0.0)
    if abs(off) <= ALREADY_RIGHT:
        return
    why, far = f"the eye is {_picks_said(off)}", _eye_off(off, plan)
    for name, weight in _eye_causes(off, seen, plan):
        yield Hint(name, weight, why, far)


def _eye_causes(off: float, seen: Sightings, plan: Plan | None) -> Iterator[tuple[str, float]]:
    """Mistakes that leave an eye off by so many picks, and how strongly that speaks for each."""
    lost = plan.needed_lock().eye_lost / plan.pick if plan else None
    as_lost = lost is not None and abs(off + lost) <= NEAR
    one = abs(off) <= NEAR
    if one:
        yield "mark-on-strand", STRONG
    if as_lost:
        yield "no-lock-allowance", CERTAIN
    if off < 0:
        yield "eye-overstretched", POSSIBLE if one or as_lost or seen.wont_go_in else STRONG
        if seen.daylight:
            yield "holes-too-far", POSSIBLE
    else:
        yield "eye-loose", POSSIBLE if one else STRONG


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
        way = "looser" if plan.needed_lock().eye_slack > 0 else "tighter"
        said += f" The plan itself leaves it {length_shown(abs(plan.needed_lock().eye_slack), plan)} {way} than exact."
    left = plan.eye_length + rope
    if off > 0 or left <= 0:
        return said
    limit = plan.job.practice.post_stretch_share
    return f"{said} To make it up by stretch takes {-rope / left:.1%}; the limit is {limit:.1%}."


def _by_gap(seen: Sightings, plan: Plan | None) -> Iterator[Hint]:
    """Daylight, or too much rope between the holes."""
    if seen.daylight:
        yield Hint("holes-too-far", CERTAIN, "daylight between the legs of the lock")
    if seen.gap_diameters is None:
        return
    planned = plan.job.practice.hole_gap_diameters if plan else rule("hole_gap").value
    diamond = 2 * plan.pick / plan.braid.diameter if plan else 1.0
    excess = seen.gap_diameters - planned
    if excess > diamond / 2:
        why = f"{seen.gap_diameters:.2g} d of clear rope between the holes, where {planned:g} d belongs"
        off = f"The holes are {length_shown(excess * plan.braid.diameter, plan)} too far apart." if plan else ""
        yield Hint("holes-too-far", CERTAIN if excess > diamond else STRONG, why, off)


def _by_bury(seen: Sightings, plan: Plan | None) -> Iterator[Hint]:
    """The bury's length, and the cover over its end."""
    if seen.bury_diameters is not None:
        wanted = plan.job.practice.bury_diameters if plan else rule("bury").value
        short = wanted - seen.bury_diameters
        if short > ALREADY_RIGHT:
            why = f"a bury of {seen.bury_diameters:.3g} d, where the practice asks for {wanted:g} d"
            off = f"It is {length_shown(short * plan.braid.diameter, plan)} too short." if plan else ""
            yield Hint("bury-too-short", CERTAIN, why, off)
    if seen.cover_step:
        none = plan is not None and plan.job.practice.taper_drops == 0
        yield Hint("no-taper", CERTAIN, "a step in the cover at the tail's tip", NO_DROPS if none else "")


NO_DROPS = "The job's own practice drops no strands: change it first."

READERS: tuple[Callable[[Sightings, Plan | None], Iterator[Hint]], ...] = (
    _by_mark,
    _by_split,
    _by_turns,
    _by_gap,
    _by_eye,
    _by_bury,
)


def look_next(seen: Sightings) -> tuple[str, ...]:
    """What to look at to tell apart what the sightings leave open."""
    asked: list[str] = []
    if seen.turns is not None or seen.standing_part is not None:
        open_ways = {made.mistakes for made in _made(seen)}
        if len(open_ways) > 1:
            asked += _asked_at_h2(seen)
    if seen.slack_picks is not None and seen.mark_on_strand is None and abs(seen.slack_picks) <= 2 * NEAR:
        asked.append("Does H1's or H2's mark sit on a strand? Count the picks from H1 to H2 (--mark-on-strand).")
    return tuple(asked)


def _asked_at_h2(seen: Sightings) -> Iterator[str]:
    final = seen.at_step not in (8, 9)
    if seen.turns is None:
        yield "How many turns are left in each group of H2 (--turns)?"
    if seen.hand is None and seen.turns:
        yield "Of which hand is the turn in H2's upper group (--hand)?"
    if final and seen.standing_part is None and not seen.hand:
        yield "By which face does the standing part go into H2 (--standing-part)?"
