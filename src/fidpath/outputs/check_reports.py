"""The check's reports on settled states: what it is given of each, and what a build makes of its failures."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fidpath.checking import SolverLog, measure
from fidpath.checking.step_report import Planned, measure_step
from fidpath.errors import CannotBeMade
from fidpath.planning.plan import Plan
from fidpath.settling import Log
from fidpath.settling.settled_states import Made
from fidpath.states.kinds import INVARIANTS

NOT_DRAWN_UP = "free-end-in-h2"
"""Here each leg is through the other, and the lock still open."""


def finished_report(plan: Plan, made: Made) -> dict[str, Any]:
    """The check's report on the settled finished splice."""
    settled = made.settled
    return measure(
        settled.strands, settled.draft.thin, made.sections, _log(settled.log), plan.take_up, plan.throat_angle
    )


def state_report(plan: Plan, made: Made) -> dict[str, Any]:
    """The check's report on one state, right or wrong; `plan` is the job's."""
    planned = planned_for(made.plan if made.kind.startswith("plain-") else plan, made.kind)
    settled = made.settled
    return measure_step(settled.strands, settled.draft.thin, made.sections, _log(settled.log), planned)


def planned_for(plan: Plan, kind: str) -> Planned:
    """What a plan asks of a state, for the check."""
    return Planned(
        diameter=plan.braid.diameter,
        h1=0.0,
        h2=plan.station_h2,
        rope_between_holes=float("inf") if kind == NOT_DRAWN_UP else plan.rope_between_holes,
        bury_length=plan.bury_length,
        strands_at_tip=plan.braid.strands - 2 * plan.job.practice.taper_drops,
        locked=plan.lock is not None,
        invariants=INVARIANTS.get(kind),
    )


def _log(log: Log) -> SolverLog:
    return SolverLog(float(log.certificate_min), log.settle_seconds)


def without_time(report: Mapping[str, Any]) -> dict[str, Any]:
    """A report without its run time, so that the same job gives the same bytes."""
    return {key: value for key, value in report.items() if key != "settle_seconds"}


def refuse_failures(what: str, report: Mapping[str, Any], remedy: str) -> None:
    """Raises CannotBeMade where a check failed."""
    failed = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in report["failures"]]
    if failed:
        raise CannotBeMade(f"{what} misses its bounds: {'; '.join(failed)}", remedy)
