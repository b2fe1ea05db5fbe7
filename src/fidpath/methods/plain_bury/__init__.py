"""The plain buried eye: no lock, the tail goes straight into the standing part at the throat."""

from __future__ import annotations

from dataclasses import replace

from fidpath.methods.placeholders import OF_AN_EYE, tape_shown
from fidpath.methods.registration import Registration
from fidpath.planning.ends import EndPlan, end_plan
from fidpath.planning.planner import Plan


def _plain(plan: Plan) -> EndPlan:
    """The job's first end as a plain buried eye."""
    line = plan.job.line
    plain = replace(line.ends[0], splice="plain", terminator=None)
    return end_plan(replace(plan.job, line=replace(line, ends=(plain,))), 0)


def _from_cut(name: str, plan: Plan) -> float:
    """A mark's place from the tail's cut end, mm."""
    return next(mark.from_cut for mark in _plain(plan).marks if mark.name == name)


def _eye(plan: Plan) -> str:
    return tape_shown(_from_cut("entry", plan) - _from_cut("bury_mark", plan), plan)


REGISTRATION = Registration(
    {
        **OF_AN_EYE,
        "plain_eye": _eye,
        "plain_bury_mark": lambda plan: tape_shown(_from_cut("bury_mark", plan), plan, "up"),
        "plain_tail": lambda plan: tape_shown(_from_cut("entry", plan), plan, "up"),
    }
)
