"""One job's finished splice: planned, settled, measured."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from fidpath.checking import SolverLog, measure
from fidpath.meshing.sections import Sections
from fidpath.planning.plan import Plan
from fidpath.settling import Settled
from fidpath.settling.settled_states import settled_state
from fidpath.states.kinds import FINISHED


@dataclass(frozen=True)
class Finished:
    """A finished splice: its plan, its settled strands, their drawn sections, and what the check found."""

    plan: Plan
    settled: Settled
    sections: Sections
    report: dict[str, Any]


def finished_splice(plan: Plan, progress: Callable[[float], None] | None = None) -> Finished:
    """Settles and measures a plan's splice. Raises CannotBeMade where it can't be settled."""
    one = settled_state(plan, FINISHED, progress)
    return Finished(plan, one.settled, one.sections, found(plan, one.settled, one.sections))


def found(plan: Plan, settled: Settled, sections: Sections) -> dict[str, Any]:
    """What the check finds on a settled finished splice."""
    log = SolverLog(float(settled.log.certificate_min), settled.log.settle_seconds)
    return measure(settled.strands, settled.draft.thin, sections, log, plan.take_up, plan.throat_angle, plan.letters)
