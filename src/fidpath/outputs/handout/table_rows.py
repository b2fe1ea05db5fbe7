"""Rows of the handout's tables: figures of the plan, those that a method without a lock has, and what to measure."""

from __future__ import annotations

from dataclasses import replace

from fidpath.planning.ends import end_plan
from fidpath.planning.figures import GEOMETRY, TAIL_END, Figure, figures
from fidpath.planning.lengths import lengths
from fidpath.planning.marks import marks
from fidpath.planning.plain import plain_plan
from fidpath.planning.planner import TRIM, Plan

LOCK_ONLY = frozenset(
    {
        "tail_to_lay_out", "rope_consumed", "eye_length_along_rope", "rope_round_terminator", "eye_length_to_crown",
        "eye_length_wanted", "eye_slack", "eye_lost_to_lock", "loop_before_lock", "eye_too_tight_without_allowance",
        "hole_gap", "hole_spacing", "rope_between_holes", "h1_across", "h2_across", "bare_neck",
        "stretch_without_allowance", "tip_in_standing_part",
    }
)  # fmt: skip
"""Figures that a plain buried eye doesn't have, or has by another measure."""

MEASURED = (
    "rope_diameter", "pick", "tail_to_lay_out", "loop_before_lock", "eye_length_along_rope", "eye_length_to_crown",
    "hole_gap", "hole_spacing", "bury_length", "tail_cut", "swollen_diameter", "plain_eye",
)  # fmt: skip
"""Figures to be measured on the rope and written down."""


def plain_marked(plan: Plan) -> Plan:
    """The plain buried eye with its rope from E round to B as its steps' words have it, and all that follows from it.

    The model's own loop is shorter by what the legs lie together before the tail pierces the wall; a tape laid along
    the rope doesn't see that.
    """
    line = plan.job.line
    first = replace(line.ends[0], splice="plain", terminator=None)
    at = {m.name: m.from_cut for m in end_plan(replace(plan.job, line=replace(line, ends=(first,))), 0).marks}
    its, eye = plain_plan(plan.job), at["entry"] - at["bury_mark"]
    tail = eye + its.bury_length
    laid_out = tail + TRIM * its.braid.diameter
    return replace(its, rope_h1_to_h2=eye, tail_beyond_h1=tail, tail_to_lay_out=laid_out)


def mark_rows(plan: Plan) -> tuple[Figure, ...]:
    """Every mark, in the order they are made."""
    return marks(plan) if plan.locked else _plain_marks(plan)


def _plain_marks(plan: Plan) -> tuple[Figure, ...]:
    """Marks of a plain buried eye: the same places as in its steps' words, measured from E and B."""
    cut = [f for f in marks(plan) if f.name.startswith("taper_drop_") or f.name == "tail_cut"]
    eye = plan.station_entry_tail
    return (
        Figure("bury_mark", "B, bury mark on the tail", plan.rough_bury_mark, f"bury + {TRIM:g} d to trim", GEOMETRY,
               TAIL_END, rounding="up"),
        Figure("entry", "E, entry on the standing part", plan.tail_to_lay_out, f"eye + bury + {TRIM:g} d to trim",
               GEOMETRY, TAIL_END, rounding="up"),
        Figure("plain_eye", "eye: rope from E round to B", eye, "decided by the eye and D", GEOMETRY, "E, round to B"),
        *cut,
    )  # fmt: skip


def length_rows(plan: Plan) -> tuple[Figure, ...]:
    """Every length of the splice."""
    return tuple(f for f in lengths(plan) if plan.locked or f.name not in LOCK_ONLY)


def figure_rows(plan: Plan) -> tuple[Figure, ...]:
    """Angles, ratios and tensions."""
    return tuple(f for f in figures(plan) if plan.locked or f.name not in LOCK_ONLY)


def code_rows(plan: Plan) -> tuple[Figure, ...]:
    """What the code says."""
    return mark_rows(plan)


def measured_rows(plan: Plan) -> tuple[Figure, ...]:
    """What is measured and written down, in the order of the work."""
    every = {f.name: f for f in (*length_rows(plan), *mark_rows(plan))}
    return tuple(every[name] for name in MEASURED if name in every)
