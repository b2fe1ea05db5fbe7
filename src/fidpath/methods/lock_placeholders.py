"""Figures of the lock in a method's words, for every way of making it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from fidpath.methods.placeholders import OF_AN_EYE, Wording, crossings, figure, length_shown
from fidpath.planning import Plan

LOCK_FIGURES = (
    "eye_length_wanted", "eye_slack", "eye_lost_to_lock", "loop_before_lock", "eye_too_tight_without_allowance",
    "hole_gap", "hole_spacing", "rope_between_holes", "h1_across", "h2_across", "bare_neck", "H1", "H2",
    "stretch_without_allowance",
)  # fmt: skip
"""Figures of every locked plan, by their names."""


def _fit(plan: Plan) -> str:
    """How the planned eye fits, in words."""
    slack = plan.needed_lock().eye_slack
    off = length_shown(abs(slack), plan)
    if off == length_shown(0.0, plan):
        return "an exact fit"
    return f"{off} {'loose' if slack > 0 else 'tight'}"


OF_A_LOCK: Mapping[str, Wording] = MappingProxyType(
    {
        **OF_AN_EYE,
        **{name: figure(name) for name in LOCK_FIGURES},
        "eye_fit": _fit,
        "crossings_to_h2": crossings(lambda plan: plan.station_h2),
        "picks_h1_to_h2": lambda plan: str(plan.needed_lock().picks_h1_to_h2),
    }
)
"""Names that may stand in braces in the words of a locked splice, and what each stands for."""
