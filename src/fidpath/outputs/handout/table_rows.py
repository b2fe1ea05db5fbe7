"""Rows of the handout's table of what is measured on the rope and written down."""

from __future__ import annotations

from fidpath.planning import Figure, Plan, lengths, marks

MEASURED = (
    "rope_diameter", "pick", "tail_to_lay_out", "loop_before_lock", "eye_length_along_rope", "eye_length_to_crown",
    "hole_gap", "hole_spacing", "bury_length", "tail_cut", "swollen_diameter",
)  # fmt: skip
"""Figures to be measured on the rope and written down."""


def measured_rows(plan: Plan) -> tuple[Figure, ...]:
    """What is measured and written down, in the order of the work."""
    every = {f.name: f for f in (*lengths(plan), *marks(plan))}
    return tuple(every[name] for name in MEASURED if name in every)
