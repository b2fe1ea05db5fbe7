"""What can be measured at the bench, beside what the plan says: the figures that are typed into the page."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from fidpath.lines import Measured, compare
from fidpath.planning import Plan

ASKED = {
    "h1_to_h2": "Rope from H1 to H2",
    "before": "Two marks, one on each side of the bury: apart before the tail goes in",
    "after": "The same two marks with the tail in",
    "bury": "Tail from the entry to its tip",
    "eye_length": "Eye, from the throat to the crown",
    "swollen_diameter": "Diameter of the cover over the full tail",
}
"""Keys of a file of measurements, in the order in which they are measured, and what is asked for."""

LOCKED = ("h1_to_h2",)
"""Those that only a locked eye has."""

MARKS = ("before", "after")
"""Those that take-up is found from; without a measured bury, it is that of the planned one."""


def measuring_record(plan: Plan) -> dict[str, Any]:
    """What is asked for, and what it is held against: planned, and how far off it may be, mm (None: without a bound).

    Take-up is found from the two distances between marks, and is that of the planned bury.
    """
    asked = {key: words for key, words in ASKED.items() if plan.lock or key not in LOCKED}
    own, of_marks = [key for key in asked if key not in MARKS], [key for key in asked if key in MARKS]
    rows = [row for keys in (own, of_marks) for row in compare(plan.job, _any(plan, keys))]
    figures = [
        {
            "name": row.name,
            "label": row.label,
            "planned": round(row.planned, 3),
            "least": _bound(row.least),
            "most": _bound(row.most),
            "why": row.allowance,
        }
        for row in rows
    ]
    return {"asked": [{"name": name, "words": words} for name, words in asked.items()], "figures": figures}


def _any(plan: Plan, keys: Sequence[str]) -> Measured:
    """Measurements of these keys: of what they are compared with, nothing depends on how large they are."""
    return Measured(0, dict.fromkeys(keys, plan.braid.diameter), None, "", "")


def _bound(mm: float) -> float | None:
    return round(mm, 3) if math.isfinite(mm) else None
