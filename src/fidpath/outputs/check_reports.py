"""The check's reports on settled states: what it is given of each, and what a build makes of its failures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from fidpath.checking import Planned, SolverLog, failure_words, measure, measure_step
from fidpath.errors import CannotBeMade
from fidpath.methods import method_of
from fidpath.planning import Plan
from fidpath.settling import Log, SettledState
from fidpath.states import Linking, kind_of

HELD_AT: Mapping[str, Callable[[Plan], float]] = {
    "wrapped": lambda plan: plan.wrapped_loop.throat_to_crown,
    "marking": lambda plan: plan.marking_loop.throat_to_crown,
    "on-terminator": lambda plan: plan.throat_to_crown,
    "cut-and-tapered": lambda plan: plan.throat_to_crown,
    "bury-measured": lambda plan: plan.throat_to_crown,
}
"""From H1's middle to the crown's bearing where a step is laid to it, mm."""

LOOPED: tuple[str, ...] = ("wrapped", "marking")
"""Steps at which the loop has its length of before the lock."""


def finished_report(plan: Plan, made: SettledState) -> dict[str, Any]:
    """The check's report on the settled finished splice."""
    settled = made.settled
    log = _log(settled.log)
    bars = plan.job.terminator.body.bars
    return measure(
        settled.strands, settled.draft.thin, made.sections, log, plan.take_up, plan.throat_angle, plan.letters, bars
    )


def state_report(plan: Plan, made: SettledState) -> dict[str, Any]:
    """The check's report on one state: a step held against its own plan, a mistake against the job's, `plan`."""
    settled, planned = made.settled, planned_for(plan if kind_of(made.kind).mistake else made.plan, made.kind)
    way = settled.draft.thin, made.sections, _log(settled.log), planned
    return measure_step(settled.strands, *way, between=settled.between)


def planned_for(plan: Plan, kind: str) -> Planned:
    """What a plan asks of a state, for the check."""
    known = kind_of(kind)
    return Planned(
        diameter=plan.braid.diameter,
        holes=plan.holes,
        rope_between_holes=plan.rope_between_holes if known.drawn_up else float("inf"),
        bury_length=plan.bury_length,
        strands_at_tip=plan.braid.strands - 2 * plan.job.practice.taper_drops,
        invariants=_linking(plan, known.invariants),
        eye_length=None if plan.lock else plan.eye_length,
        loop=plan.loop_fitted if kind in LOOPED else None,
        throat_to_crown=HELD_AT[kind](plan) if kind in HELD_AT else None,
        mistakes=tuple(mistake.name for mistake in method_of(plan.job.line.ends[0].splice).mistakes),
        moving=known.moving,
        mirrored=plan.job.practice.mirrored,
        bars=plan.job.terminator.body.bars,
    )


def _linking(plan: Plan, asked: Linking | None) -> Linking | None:
    """(s_1, s_2, I_2) that a state must have; in the mirror each has the other sign."""
    if asked is None or not plan.job.practice.mirrored:
        return asked
    s_1, s_2, i_2 = asked
    return -s_1, -s_2, -i_2


def _log(log: Log) -> SolverLog:
    return SolverLog(float(log.certificate_min), log.settle_seconds)


def without_time(report: Mapping[str, Any]) -> dict[str, Any]:
    """A report without its run time, so that the same job gives the same bytes."""
    return {key: value for key, value in report.items() if key != "settle_seconds"}


def refuse_failures(what: str, report: Mapping[str, Any], remedy: str) -> None:
    """Raises CannotBeMade where a check failed."""
    failed = [failure_words(failure) for failure in report["failures"]]
    if failed:
        raise CannotBeMade(f"{what} fails its check: {'; '.join(failed)}", remedy)
