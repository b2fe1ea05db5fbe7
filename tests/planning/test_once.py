"""Laws of a plan that are worked out once."""

from __future__ import annotations

import pickle
from dataclasses import replace

from fidpath.planning.length_figures import lengths
from fidpath.planning.plan import Plan, once
from fidpath.planning.planner import make_plan
from jobs import a_job


def test_a_law_is_worked_out_once_for_each_plan() -> None:
    seen: list[float] = []

    @once
    def doubled(plan: Plan) -> float:
        seen.append(plan.bury_length)
        return 2 * plan.bury_length

    plan = make_plan(a_job())
    longer = replace(plan, taper=replace(plan.taper, tip=plan.taper.tip + 1))
    assert [doubled(one) for one in (plan, longer, plan, longer)] == [2 * plan.bury_length, 2 * longer.bury_length] * 2
    assert seen == [plan.bury_length, longer.bury_length]


def test_what_a_plan_keeps_goes_along_to_other_processes() -> None:
    plan = make_plan(a_job())
    found = lengths(plan)
    there = pickle.loads(pickle.dumps(plan))
    assert there.kept == plan.kept and lengths(there) == found
