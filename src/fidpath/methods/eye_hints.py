"""What is seen of any eye splice at the bench -> hints at its usual mistakes, which each method names."""

from __future__ import annotations

from collections.abc import Iterator

from fidpath.job import rule
from fidpath.methods.diagnosis_questions import Split
from fidpath.methods.eye_sightings import EyeSightings
from fidpath.methods.lock_placeholders import printed_slack
from fidpath.methods.registration import Hint
from fidpath.planning import Plan, caliper_mm, shown_mm

CERTAIN = 3.0
STRONG = 2.0
POSSIBLE = 1.0
"""How much one sighting speaks for a mistake: nothing else does so; the usual cause; one of several."""

ALREADY_RIGHT = 0.5
"""Picks within which an eye is as planned, and rope diameters within which a bury is."""

NEAR = 1.5
"""Picks within which an eye is off by what a known mistake takes."""

NO_DROPS = "The job's own practice drops no strands: change it first."


def by_mark(seen: EyeSightings, mistake: str) -> Iterator[Hint]:
    """A mark on a strand."""
    if seen.mark_on_strand:
        yield Hint(mistake, CERTAIN, "a mark sits on a strand")


def by_split(name: str, split: Split | None, mistake: str) -> Iterator[Hint]:
    """Strands on either side of a place that was opened."""
    if split is None or split[0] == split[1]:
        return
    half = sum(split) // 2
    wrong = max(split) - half
    why = f"{min(split)} and {max(split)} strands at {name}, where {half} and {half} belong"
    off = f"{wrong} strand{'s are' if wrong > 1 else ' is'} on the wrong side at {name}."
    yield Hint(mistake, CERTAIN, why, off)


def slack_planned(plan: Plan | None) -> float:
    """Picks of rope too much (+) or too little (-) that the planned eye has itself."""
    return plan.lock.eye_slack / plan.pick if plan and plan.lock else 0.0


def picks_said(off: float) -> str:
    """How far off an eye is, in words."""
    number = f"{abs(off):.1f}".removesuffix(".0")
    return f"{number} pick{'' if number == '1' else 's'} {'loose' if off > 0 else 'tight'} against the plan"


def eye_off(off: float, plan: Plan | None) -> str:
    """How far off the eye is by so many picks, and what forcing it on would take; nothing without a plan."""
    if plan is None:
        return ""
    rope, slack = off * plan.pick, slack_planned(plan) * plan.pick
    said = f"Against the plan the eye is {caliper_mm(abs(rope), plan)} too {'loose' if off > 0 else 'tight'}."
    if abs(slack) > plan.pick / 4:
        fit = "looser" if slack > 0 else "tighter"
        said += f" The plan itself leaves it {shown_mm(abs(printed_slack(plan)), plan)} {fit} than exact."
    left = plan.eye_length + rope
    if off > 0 or left <= 0:
        return said
    limit = plan.job.practice.post_stretch_share
    return f"{said} To make it up by stretch takes {-rope / left:.1%}; the limit is {limit:.1%}."


def by_bury(seen: EyeSightings, plan: Plan | None, too_short: str, no_taper: str) -> Iterator[Hint]:
    """The bury's length, and the cover over its end."""
    if seen.bury_diameters is not None:
        wanted = plan.job.practice.bury_diameters if plan else rule("bury").value
        short = wanted - seen.bury_diameters
        if short > ALREADY_RIGHT:
            why = f"a bury of {seen.bury_diameters:.3g} d, where the practice asks for {wanted:g} d"
            off = f"It is {caliper_mm(short * plan.braid.diameter, plan)} too short." if plan else ""
            yield Hint(too_short, CERTAIN, why, off)
    if seen.cover_step:
        none = plan is not None and plan.job.practice.taper_drops == 0
        yield Hint(no_taper, CERTAIN, "a step in the cover at the tail's tip", NO_DROPS if none else "")
