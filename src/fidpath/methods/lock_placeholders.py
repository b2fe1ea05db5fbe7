"""Figures of the lock in a method's words, for every way of making it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from fidpath.methods.placeholders import DOT_AWAY, OF_AN_EYE, ON_A_CROSSING, Wording, figure, figure_of, mark_place
from fidpath.planning import Plan, caliper_mm, printed_mm, shown_mm

LOCK_FIGURES = (
    "eye_length_wanted", "eye_slack", "eye_lost_to_lock", "loop_before_lock", "eye_too_tight_without_allowance",
    "hole_gap", "hole_spacing", "rope_between_holes", "h1_across", "h2_across", "h2_opened", "h2_first_fid",
    "h2_second_fid", "line_past_h1", "bare_neck", "neck_on_standing_part", "neck_on_tail", "H1", "H2",
    "crossings_to_h2", "crossings_to_entry", "wrapped_throat_to_crown", "marking_throat_to_crown",
    "stretch_without_allowance",
)  # fmt: skip
"""Figures of every locked plan, by their names."""


def printed_slack(plan: Plan) -> float:
    """How much looser (+) or tighter (-) than exact the eye is as printed, mm."""
    return printed_mm(figure_of("eye_slack", plan), plan, plan.job.length_unit)


def _fit(plan: Plan) -> str:
    """How the planned eye fits, in words."""
    slack = printed_slack(plan)
    if abs(slack) < 1e-6:
        return "an exact fit"
    return f"{shown_mm(abs(slack), plan)} {'loose' if slack > 0 else 'tight'}"


def _past_h1(plan: Plan) -> str:
    """How the finished line compares with the rope up to H1, in words."""
    more = printed_mm(figure_of("line_past_h1", plan), plan, plan.job.length_unit)
    return f"{shown_mm(abs(more), plan)} {'less' if more < 0 else 'more'}"


def _counted_to(plan: Plan) -> str:
    """Where a hole lies that is found by counting crossings along one line, when the first hole is marked likewise."""
    crossing = mark_place(plan) == ON_A_CROSSING
    return "at the last of them" if crossing else "in the middle of the diamond beyond the last of them"


def _sides(plan: Plan) -> str:
    """The fids for H2, one from either face."""
    small, large = (caliper_mm(fid, plan) for fid in plan.openings.h2_fids)
    return f"two {small} fids" if small == large else f"the {small} and the {large} fid"


OF_A_LOCK: Mapping[str, Wording] = MappingProxyType(
    {
        **OF_AN_EYE,
        **{name: figure(name) for name in LOCK_FIGURES},
        "eye_fit": _fit,
        "past_H1": _past_h1,
        "h2_fids": _sides,
        "counted_to": _counted_to,
        "dot_away": lambda plan: shown_mm(DOT_AWAY * plan.braid.diameter, plan),
        "loop_to_throat": lambda plan: f"{plan.loop_to_throat:.1f}",
        "picks_h1_to_h2": lambda plan: str(plan.needed_lock().picks_h1_to_h2),
    }
)
"""Names that may stand in braces in the words of a locked splice, and what each stands for."""
