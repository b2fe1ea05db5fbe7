"""`Job` -> `Plan`: every length and mark of the splice, with its formula, its source and what it is measured from.

A `Job` comes in; a frozen `Plan`, its named figures, its warnings (`notices`; their limits are rules of practice in
`job/practices`) and the bench sheet go out. Open `plan` first, then `planner`; `locked` finds the place of H2.
"""

from fidpath.planning.ends import EndMark, EndPlan, end_plan, splice_job
from fidpath.planning.figure import ELEMENTARY, GEOMETRY, JOB, OWN, STRANDS_KEPT, Figure, figures, rule_source
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.meanings import MEANINGS
from fidpath.planning.notices import short_bury, warnings
from fidpath.planning.pitch_guess import spreads
from fidpath.planning.plan import ENTRY_TAKE_UP, TRIM, Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import WIDTH, figures_as_data, notices_as_data
from fidpath.planning.shown import caliper_mm, in_other_unit, printed_mm, shown, shown_mm

__all__ = [
    "ELEMENTARY",
    "ENTRY_TAKE_UP",
    "GEOMETRY",
    "JOB",
    "MEANINGS",
    "OWN",
    "STRANDS_KEPT",
    "TRIM",
    "WIDTH",
    "EndMark",
    "EndPlan",
    "Figure",
    "Plan",
    "caliper_mm",
    "end_plan",
    "figures",
    "figures_as_data",
    "in_other_unit",
    "lengths",
    "make_plan",
    "marks",
    "notices_as_data",
    "printed_mm",
    "rule_source",
    "short_bury",
    "shown",
    "shown_mm",
    "splice_job",
    "spreads",
    "warnings",
]
