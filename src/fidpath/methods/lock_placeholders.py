"""Figures of the lock in a method's words, for every way of making it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from fidpath.methods.placeholders import OF_AN_EYE, Wording, figure

LOCK_FIGURES = (
    "eye_lost_to_lock", "loop_before_lock", "eye_too_tight_without_allowance", "hole_gap", "hole_spacing",
    "rope_between_holes", "h1_across", "h2_across", "bare_neck", "rough_bury_mark", "H1", "H2", "tip_in_standing_part",
    "stretch_without_allowance",
)  # fmt: skip
"""Figures of every locked plan, by their names."""

OF_A_LOCK: Mapping[str, Wording] = MappingProxyType(
    {
        **OF_AN_EYE,
        **{name: figure(name) for name in LOCK_FIGURES},
        "picks_h1_to_h2": lambda plan: str(plan.needed_lock().picks_h1_to_h2),
    }
)
"""Names that may stand in braces in the words of a locked splice, and what each stands for."""
