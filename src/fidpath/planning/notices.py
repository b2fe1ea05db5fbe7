"""What to look at before work begins: figures beyond a rule of practice, and a pitch that is only a guess."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fidpath.job import HOW_TO_COUNT, rule
from fidpath.planning.figure import rule_source
from fidpath.planning.model_reach import beyond_reach
from fidpath.planning.pitch_guess import spreads
from fidpath.planning.plan import Plan
from fidpath.planning.planner import suits
from fidpath.planning.shown import caliper_mm, shown_mm

EYE_MARKS = ("H1", "H2", "entry", "bury_mark")
"""Marks that set the eye and its lock."""


@dataclass(frozen=True)
class Notice:
    """Something to look at before work begins: the figure, its limit, where the limit comes from."""

    name: str
    text: str
    value: float
    limit: float
    source: str


def warnings(plan: Plan) -> tuple[Notice, ...]:
    """What is out of the usual, each with its limit and source; nothing here stops the work."""
    angle, bearing, neck, bury = (rule(name) for name in ("throat_angle_most", "bearing_least", "neck_most", "bury"))
    throat = math.degrees(plan.throat_angle)
    bare = plan.lock.bare_neck / plan.braid.diameter if plan.lock else 0.0
    buried = plan.bury_length / plan.braid.diameter
    slip = 1e-6
    found = (
        (throat > angle.value + slip, "throat_angle", f"the throat angle is {throat:.1f} deg", throat, angle),
        (plan.D_over_d < bearing.value - slip, "D_over_d", f"D/d is {plan.D_over_d:.2f}", plan.D_over_d, bearing),
        (
            buried < bury.value - slip and not (plan.job.practice.source("bury") or short_bury(plan)),
            "bury",
            f"the bury is {buried:.3g} d",
            buried,
            bury,
        ),
        (bare > neck.value + slip, "bare_neck", f"the bare neck is {bare:.2f} d", bare, neck),
    )
    by_rule = tuple(
        Notice(name, f"{text}; {_bound(name)} {limit.value:g} {limit.unit}", value, limit.value, rule_source(limit))
        for true, name, text, value, limit in found
        if true
    )
    fids = (*_of_a_fid(plan, "fid_opens"), *_of_a_fid(plan, "fid_passes"), *_of_the_fids(plan))
    return (*short_bury(plan), *by_rule, *fids, *_of_a_guess(plan), *_of_the_model(plan))


def short_bury(plan: Plan) -> tuple[Notice, ...]:
    """A loud word where the bury is shorter than any that makers and writers name: the bury holds the splice."""
    least, buried = rule("bury_least"), plan.bury_length / plan.braid.diameter
    if buried >= least.value - 1e-6:
        return ()
    own = plan.job.practice.source("bury")
    check = f"Look again whether {own} asks for so little" if own else "Make practice.bury as long as the maker asks"
    lock = "A lock without its bury is known to be fatal" if plan.lock else "Without its bury a splice draws out"
    text = (
        f"DANGER: a bury of {buried:.3g} d is shorter than any that rope makers and writers name, "
        f"{least.value:g} d and more. {lock}. {check}"
    )
    return (Notice("short_bury", text, buried, least.value, rule_source(least)),)


def _of_a_fid(plan: Plan, name: str) -> tuple[Notice, ...]:
    """A word where no fid at hand is of the size that a pass takes; the plan goes on with one that would do."""
    rope, d = plan.job.rope, plan.braid.diameter
    planned = plan.openings.first_fid if name == "fid_opens" else plan.openings.second_fid
    if any(suits(name, rope, fid) for fid in plan.job.tools.fids_mm):
        return ()
    low, high = rule(f"{name}_least"), rule(f"{name}_most")
    does = "opens the rope for the first pass" if name == "fid_opens" else "is thick enough for the second pass"
    least, most, taken = (caliper_mm(mm, plan) for mm in (low.value * d, high.value * d, planned))
    text = (
        f"no fid at hand {does}: it takes one of {least} to {most}. The plan goes on as if you had one of {taken}; "
        "find one, or correct tools.fids"
    )
    return (Notice(name, text, planned / d, high.value, rule_source(low)),)


def _of_the_model(plan: Plan) -> tuple[Notice, ...]:
    """Where the strand model is known to miss its own check: `verify` may fail there, and `build` draw nothing."""
    return tuple(
        Notice(f"model_{reach.name}", reach.words(value), value, reach.limit.value, rule_source(reach.limit))
        for reach, value in beyond_reach(plan)
    )


def _of_the_fids(plan: Plan) -> tuple[Notice, ...]:
    """What to look at where no two fids at hand open H2 for two legs."""
    opened, limit = plan.openings, rule("fid_passes_most")
    if plan.lock is None or opened.h2_fids_pass:
        return ()
    of_two = opened.h1_across / opened.h2_across
    least, most = (caliper_mm(mm * of_two, plan) for mm in (opened.h2_across, opened.most_across))
    small, large, found = (caliper_mm(mm, plan) for mm in (*opened.h2_fids, opened.h2_opened))
    text = (
        f"no two fids at hand open H2 well. Two legs need it as wide as a round hole of "
        f"{caliper_mm(opened.h2_across, plan)}, and none may be wider than {caliper_mm(opened.most_across, plan)}; "
        f"{small} and {large} side by side open {found}. Two of {least} to {most} would do: add them to tools.fids"
    )
    d = plan.braid.diameter
    return (Notice("h2_fids", text, opened.h2_opened / d, opened.most_across / d, rule_source(limit)),)


def _bound(name: str) -> str:
    """How a limit is spoken of."""
    return "the rule asks for at least" if name in ("bury", "D_over_d") else "the rule asks for no more than"


def _of_a_guess(plan: Plan) -> tuple[Notice, ...]:
    """What to look at before work begins where the pitch is a guess."""
    if not plan.job.rope.pitch_guessed:
        return ()
    found, guess = spreads(plan), rule("pitch_guess")
    least, most = rule("pitch_guess_least").value, rule("pitch_guess_most").value
    moved = max((found[name].off for name in EYE_MARKS if name in found), default=0.0)
    take_up = found["take_up"].words if "take_up" in found else "unchanged"
    text = (
        f"the pitch is a guess, {guess.value:g} d. From {least:g} to {most:g} d the take-up, by which the line "
        f"shortens, ranges from {take_up}; the eye's marks move by up to {shown_mm(moved, plan)} either way. "
        f"{HOW_TO_COUNT}"
    )
    return (Notice("pitch", text, guess.value, most, rule_source(guess)),)
