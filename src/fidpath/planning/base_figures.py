"""The figures that others are sums of: a rigger adds them up as printed, so a sum is made of its parts as printed."""

from __future__ import annotations

from fidpath.planning.figure import (
    COUNTING,
    FROM_ENTRY,
    FROM_H1_CAPTIVE,
    FROM_H1_TAIL,
    GEOMETRY,
    JOB,
    OWN,
    STRANDS_KEPT,
    TAIL_END,
    Figure,
    practice_source,
)
from fidpath.planning.plan import TRIM, Lock, Plan

COUNT_RULES = "where the count of crossings and the tape differ, the count rules"


def h2(plan: Plan, lock: Lock) -> Figure:
    """H2 from H1, in mm; its count of crossings is a figure of its own."""
    return Figure(
        "H2",
        "H2, on the tail",
        lock.station_h2,
        f"{lock.picks_h1_to_h2 / 2:g} crossings x 2P/N; set it where strands cross",
        f"{COUNTING}; {plan.braid.strands // 2} strands each side of the fid: common practice, no source",
        FROM_H1_TAIL,
        note=COUNT_RULES,
    )


def entry(plan: Plan, lock: Lock) -> Figure:
    """E from H1, away from the eye."""
    return Figure(
        "entry",
        "E, entry on the standing part",
        lock.rope_entry_to_h1,
        f"{lock.diamonds_entry_to_h1} crossings x 2P/N",
        COUNTING,
        FROM_H1_CAPTIVE,
    )


def neck_on_tail(lock: Lock) -> Figure:
    """Tail from H2 to the bury mark."""
    return Figure(
        "neck_on_tail",
        "neck, on the tail",
        lock.neck_tail,
        "rope of the tail from H2 to where it goes in",
        GEOMETRY,
        "H2's middle, to B",
    )


def neck_on_standing_part(plan: Plan, lock: Lock) -> Figure:
    """Standing part from the entry to H2's middle."""
    return Figure(
        "neck_on_standing_part",
        "neck, on the standing part",
        lock.neck_host,
        "E - rope between the holes",
        GEOMETRY,
        "H2's middle, to E",
        parts=((1, entry(plan, lock)), (-1, rope_between_holes(lock))),
    )


def bury_mark(plan: Plan, lock: Lock) -> Figure:
    """B from H1: H2 and the neck."""
    parts = ((1, h2(plan, lock)), (1, neck_on_tail(lock)))
    label, formula = "B, bury mark on the tail", "H2 + neck on the tail"
    return Figure("bury_mark", label, plan.station_entry_tail, formula, GEOMETRY, FROM_H1_TAIL, parts=parts)


def plain_eye_mark(plan: Plan) -> Figure:
    """B from the entry of an eye without a lock, round the eye."""
    label, formula = "B, from E round the eye", "decided by the eye and D"
    return Figure("bury_mark", label, plan.station_entry_tail, formula, GEOMETRY, FROM_ENTRY)


def any_bury_mark(plan: Plan) -> Figure:
    """B from the mark at the rope's zero."""
    return bury_mark(plan, plan.lock) if plan.lock else plain_eye_mark(plan)


def bury(plan: Plan) -> Figure:
    """The tail in the standing part."""
    return Figure(
        "bury_length",
        "bury",
        plan.bury_length,
        f"{plan.job.practice.bury_diameters:g} d",
        practice_source(plan, "bury"),
        "E, along the tail to its tip",
        rounding="up",
    )


def trim(plan: Plan) -> Figure:
    """What is cut off beyond the bury."""
    label, formula = "tail to cut off", f"{TRIM:g} d, so that the bury can be measured anew"
    return Figure("trim", label, TRIM * plan.braid.diameter, formula, OWN, "X, to the tail's end", rounding="up")


def rough_bury_mark(plan: Plan, label: str) -> Figure:
    """The bury mark as it is made first, with rope to spare."""
    source = f"bury: {practice_source(plan, 'bury')}; trim: {OWN}"
    formula, parts = "bury + tail to cut off", ((1, bury(plan)), (1, trim(plan)))
    return Figure("rough_bury_mark", label, plan.rough_bury_mark, formula, source, TAIL_END, parts=parts)


def hole_gap(plan: Plan, lock: Lock) -> Figure:
    """Clear rope between the holes."""
    return Figure(
        "hole_gap",
        "hole gap: clear rope between the holes",
        lock.zone.gap,
        "rope between the holes - rope a hole takes up",
        practice_source(plan, "hole_gap"),
        "near edge to near edge, along a leg",
        note="when H2 is checked, the point of the tail in H1's middle lies as far beyond H2's middle",
    )


def rope_between_holes(lock: Lock) -> Figure:
    """Rope of one leg between the holes."""
    return Figure(
        "rope_between_holes",
        "rope between the holes",
        lock.zone.rope,
        "length of one leg of the crossing",
        GEOMETRY,
        "H1's middle to H2's middle, along a leg",
    )


def finished_eye(plan: Plan, lock: Lock) -> Figure:
    """The finished eye along the rope: H2 less the rope between the holes."""
    return Figure(
        "eye_length_along_rope",
        "finished eye: rope from H1 round to H1",
        plan.eye_length,
        "H2 - rope between the holes",
        GEOMETRY,
        _round_the_eye(plan),
        parts=((1, h2(plan, lock)), (-1, rope_between_holes(lock))),
    )


def eye_wanted(plan: Plan, lock: Lock) -> Figure:
    """The eye that would fit exactly, and what decided its length."""
    asked = plan.job.line.ends[0].eye_length_mm is not None
    return Figure(
        "eye_length_wanted",
        "eye that would fit exactly",
        lock.eye_wanted,
        "eye asked for, before H2 is set on the braid's crossings",
        f"{JOB}: eye_length" if asked else f"throat angle: {practice_source(plan, 'throat_angle')}",
        _round_the_eye(plan),
    )


def around_terminator(plan: Plan) -> str:
    """What the eye goes round, in a word."""
    return f"the {plan.job.terminator.kind}"


def _round_the_eye(plan: Plan) -> str:
    return f"H1's middle, round {around_terminator(plan)} to H1's middle"


def swallowed(plan: Plan) -> Figure:
    """Rope of the cover over the buried tail."""
    return Figure(
        "bury_in_standing_part",
        "standing part that swallows the bury",
        plan.cover.host_length,
        "rope of the cover over the buried tail, before it swells",
        STRANDS_KEPT,
        "E, along the standing part as it lay before",
    )


def take_up(plan: Plan) -> Figure:
    """What the standing part loses."""
    return Figure(
        "take_up",
        "take-up of the cover",
        plan.take_up,
        "sum of 1 - cos a/cos a0 along the cover, over and under counted, + 0.045 d where the tail parts it",
        STRANDS_KEPT,
        "the standing part over the bury, plain less swollen",
    )
