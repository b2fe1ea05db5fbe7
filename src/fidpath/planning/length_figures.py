"""Plan -> every length of the splice, each with its formula, its source and what it is measured from."""

from __future__ import annotations

import math

from fidpath.job import rule
from fidpath.planning.figure import (
    ALONG,
    COUNTING,
    ELEMENTARY,
    GEOMETRY,
    JOB,
    STRANDS_KEPT,
    TAIL_END,
    Figure,
    practice_source,
    rule_source,
)
from fidpath.planning.plan import TRIM, Lock, Openings, Plan


def lengths(plan: Plan) -> tuple[Figure, ...]:
    """Every length of the splice, in the order of the work."""
    return (*_before(plan), *_eye(plan), *_holes(plan), *_bury(plan))


def _before(plan: Plan) -> tuple[Figure, ...]:
    """What is laid out and taken to hand before the first mark."""
    d = plan.braid.diameter
    return (
        Figure("rope_diameter", "rope, nominal diameter", d, "d", JOB, "across the rope", fine=True),
        Figure("pick", "pick: spacing of the crossings", plan.pick, "P/N", COUNTING, "along the rope", fine=True),
        _tail_to_lay_out(plan),
        Figure(
            "rope_consumed",
            "rope the splice consumes",
            plan.rope_consumed,
            "rope from the bury's far end round the eye to the cut tail - its length when made",
            GEOMETRY,
            "the bury's far end, to the crown's bearing",
            rounding="up",
        ),
        _fid("first_fid", "fid for the first pass", plan.openings.first_fid, "fid_opens"),
        _fid("second_fid", "fid for the second pass", plan.openings.second_fid, "fid_passes"),
    )


def _tail_to_lay_out(plan: Plan) -> Figure:
    """Tail from the first mark on the standing part to its uncut end."""
    rope, place = ("rope from H1 to H2 + tail from H2 to the bury mark", "H1's middle") if plan.lock else ("eye", "E")
    formula = f"{rope} + bury + {TRIM:g} d to trim"
    label, measured = "tail to lay out before starting", f"{TAIL_END}, to {place}"
    return Figure("tail_to_lay_out", label, plan.tail_to_lay_out, formula, GEOMETRY, measured, rounding="up")


def _fid(name: str, label: str, value: float, rules: str) -> Figure:
    """A fid, by its diameter, within the practice's bounds."""
    low, high = rule(f"{rules}_least"), rule(f"{rules}_most")
    formula = f"of those at hand, {low.value:g} d to {high.value:g} d"
    return Figure(name, label, value, formula, rule_source(low), "the fid's diameter", fine=True)


def _eye(plan: Plan) -> tuple[Figure, ...]:
    """The eye, and with a lock how it fits and what the lock takes out of it."""
    around = f"the {plan.job.terminator.kind}"
    throat = "H1's middle" if plan.lock else "where the legs' straight parts would meet"
    return (
        _loop(plan.eye_length, plan.lock, around),
        Figure(
            "rope_round_terminator",
            f"rope bent round {around}",
            plan.eye.bend_radius * (math.pi + plan.throat_angle),
            "(D + d)/2 x (pi + throat angle)",
            ELEMENTARY,
            "the rope's middle, where it meets and leaves the crown",
        ),
        Figure(
            "eye_length_to_crown",
            "finished eye: throat to crown",
            plan.throat_to_crown,
            "H1 to the crown's centre + D/2" if plan.lock else "(D + d)/2 / sin(throat angle/2) + D/2",
            GEOMETRY,
            f"{throat}, in a straight line to the crown's bearing",
        ),
        *(_fit(plan, plan.lock) if plan.lock else ()),
    )


def _loop(length: float, lock: Lock | None, around: str) -> Figure:
    """The finished eye along the rope."""
    if lock is None:
        label, formula = "finished eye: rope from E round to B", "decided by the eye and D"
        return Figure("eye_length_along_rope", label, length, formula, GEOMETRY, f"E round {around} to B")
    return Figure(
        "eye_length_along_rope",
        "finished eye: rope from H1 round to H1",
        length,
        "picks from H1 to H2 x P/N - rope between the holes",
        GEOMETRY,
        f"H1's middle round {around} to H1's middle",
    )


def _fit(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """How the eye fits, and what decided it."""
    return (
        Figure(
            "eye_length_wanted",
            "eye that would fit exactly",
            lock.eye_wanted,
            "eye asked for, before H2 is set on the braid's crossings",
            _wanted_source(plan),
            "H1's middle round to H1's middle",
        ),
        Figure(
            "eye_slack",
            "eye loose (+) or tight (-)",
            lock.eye_slack,
            "finished eye - eye that would fit exactly",
            GEOMETRY,
            ALONG,
            fine=True,
        ),
        *_lost(lock),
    )


def _wanted_source(plan: Plan) -> str:
    """What decided the eye's length."""
    if plan.job.line.ends[0].eye_length_mm is not None:
        return f"{JOB}: eye_length"
    return f"throat angle: {practice_source(plan, 'throat_angle')}"


def _lost(lock: Lock) -> tuple[Figure, ...]:
    """The rope that the lock takes out of the eye, which the H1 mark allows for."""
    return (
        Figure(
            "eye_lost_to_lock",
            "rope the lock takes out of the eye",
            lock.eye_lost,
            "hole gap + rope between the holes",
            GEOMETRY,
            "loop from H1 round to H1, snug before H2 is made, less the same when locked",
            fine=True,
        ),
        Figure(
            "loop_before_lock",
            "loop to fit snug before H2 is marked",
            lock.loop_before,
            "finished eye + rope the lock takes out",
            GEOMETRY,
            "H1's middle round to where the tail leaves H1",
        ),
        Figure(
            "eye_too_tight_without_allowance",
            "too tight by, if the loop were fitted without it",
            lock.eye_lost,
            "rope the lock takes out of the eye",
            GEOMETRY,
            ALONG,
            fine=True,
        ),
    )


def _holes(plan: Plan) -> tuple[Figure, ...]:
    """The holes: how far apart, and how far each is opened."""
    if plan.lock is None:
        return (_most_across(plan.openings, "open no hole beyond"),)
    zone = plan.lock.zone
    return (
        Figure(
            "hole_gap",
            "hole gap: clear rope between the holes",
            zone.gap,
            "rope between the holes - rope a hole takes up",
            practice_source(plan, "hole_gap"),
            "near edge to near edge, along a leg",
            fine=True,
        ),
        Figure(
            "hole_spacing",
            "hole spacing",
            zone.spacing,
            "distance of the holes' middles that leaves the hole gap",
            GEOMETRY,
            "H1's middle to H2's middle, in a straight line",
            fine=True,
        ),
        Figure(
            "rope_between_holes",
            "rope between the holes",
            zone.rope,
            "length of one leg of the crossing",
            GEOMETRY,
            "H1's middle to H2's middle, along a leg",
            fine=True,
        ),
        *_openings(plan.openings),
    )


def _openings(opened: Openings) -> tuple[Figure, ...]:
    """How far each hole is opened across, and no more."""
    return (
        Figure("h1_across", "open H1 to", opened.h1_across, "squeeze x d", ELEMENTARY, "across the hole", fine=True),
        Figure(
            "h2_across",
            "open H2 to",
            opened.h2_across,
            "squeeze x d x (pi + 2)/pi: two legs side by side",
            ELEMENTARY,
            "across the hole",
            fine=True,
        ),
        _most_across(opened, "open neither hole beyond"),
    )


def _most_across(opened: Openings, label: str) -> Figure:
    """How far no hole is opened."""
    return Figure(
        "most_across",
        label,
        opened.most_across,
        f"{rule('fid_passes_most').value:g} d",
        rule_source(rule("fid_passes_most")),
        "across the hole",
        rounding="down",
        fine=True,
    )


def _bury(plan: Plan) -> tuple[Figure, ...]:
    """The neck and the bury."""
    return (
        *((_bare_neck(plan, plan.lock),) if plan.lock else ()),
        Figure(
            "bury_length",
            "bury",
            plan.bury_length,
            f"{plan.job.practice.bury_diameters:g} d",
            practice_source(plan, "bury"),
            "the entry, along the tail to its tip",
            rounding="up",
        ),
        Figure(
            "bury_in_standing_part",
            "standing part that swallows the bury",
            plan.cover.host_length,
            "rope of the cover over the buried tail, before it swells",
            STRANDS_KEPT,
            "the entry, along the standing part as it lay before",
        ),
        *_taper(plan),
    )


def _bare_neck(plan: Plan, lock: Lock) -> Figure:
    """The standing part between the entry and the lock."""
    return Figure(
        "bare_neck",
        "bare neck",
        lock.bare_neck,
        "rope from the entry to H2 - half a hole, on a whole number of diamonds",
        practice_source(plan, "neck"),
        "the entry, to H2's near edge",
        fine=True,
    )


def _taper(plan: Plan) -> tuple[Figure, ...]:
    """The taper, and the cover over the tail."""
    return (
        Figure(
            "taper_length",
            "taper",
            plan.bury_length - plan.taper.start,
            f"{plan.job.practice.taper_share:.3g} x bury",
            practice_source(plan, "taper_share"),
            "the first drop, to the tail's tip",
        ),
        Figure(
            "swollen_diameter",
            "cover's diameter over the full tail",
            plan.swollen_diameter,
            "2 x (mean radius of the swollen cover + half its wall)",
            f"{GEOMETRY}; squeeze {plan.job.rope.squeeze:g}: calibrate against your own splices",
            "across the bury, beyond the entry",
            fine=True,
        ),
        Figure(
            "take_up",
            "take-up of the cover",
            plan.take_up,
            "sum of 1 - cos a/cos a0 along the cover, over and under counted, + 0.045 d where the tail parts it",
            STRANDS_KEPT,
            "the standing part over the bury, plain less swollen",
        ),
    )
