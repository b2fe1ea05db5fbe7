"""`Job` -> `Plan`: every length and mark of the splice, with its formula, its source and what it is measured from.

A `Job` comes in; a frozen `Plan`, its named figures, its warnings (`figure`; their limits are rules of practice in
`job/practices`) and the bench sheet go out. Open `plan` first, then `planner`; `locked` finds the place of H2.
"""

from fidpath.planning.ends import EndMark, EndPlan, end_plan, splice_job
from fidpath.planning.figure import ELEMENTARY, GEOMETRY, JOB, OWN, STRANDS_KEPT, Figure, figures, rule_source, warnings
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.plan import ENTRY_TAKE_UP, TRIM, Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import WIDTH, as_data, shown

__all__ = [
    "ELEMENTARY",
    "ENTRY_TAKE_UP",
    "GEOMETRY",
    "JOB",
    "OWN",
    "STRANDS_KEPT",
    "TRIM",
    "WIDTH",
    "EndMark",
    "EndPlan",
    "Figure",
    "Plan",
    "as_data",
    "end_plan",
    "figures",
    "lengths",
    "make_plan",
    "marks",
    "rule_source",
    "shown",
    "splice_job",
    "warnings",
]
