"""The check measures how far the loop is held on the settled steps, and finds it where the plan has it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from fidpath.checking import SolverLog, measure_step, throat
from fidpath.outputs.check_reports import planned_for, state_report
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job
from scenes.settled import settled

KINDS = ("wrapped", "marking")
"""Steps before the lock, with the loop still long."""

SEATED = ("on-terminator", "cut-and-tapered", "bury-measured")
"""States of the finished eye on its terminator."""


@cache
def _plan() -> Plan:
    return make_plan(a_job(bury=24.0))


def _failed(name: str, plan: Plan) -> list[str]:
    report = state_report(plan, settled(_plan(), name))
    return [one["check"] for one in report["failures"]]


@pytest.mark.parametrize("kind", (*KINDS, *SEATED))
def test_the_settled_step_is_held_where_the_plan_says(kind: str) -> None:
    report = state_report(_plan(), settled(_plan(), kind))
    assert report["failures"] == []
    assert report["throat_to_crown_mm"] == pytest.approx(planned_for(_plan(), kind).throat_to_crown, abs=0.05)


@pytest.mark.parametrize("kind", SEATED)
def test_the_eye_on_its_terminator_is_as_long_as_planned(kind: str) -> None:
    report = state_report(_plan(), settled(_plan(), kind))
    assert planned_for(_plan(), kind).throat_to_crown == _plan().throat_to_crown
    assert report["eye_mm"] == pytest.approx(_plan().eye_length, abs=0.05 * _plan().braid.diameter)


@pytest.mark.parametrize("kind", KINDS)
def test_the_loop_has_its_rope(kind: str) -> None:
    report = state_report(_plan(), settled(_plan(), kind))
    assert report["loop_mm"] == pytest.approx(_plan().loop_fitted, abs=0.08 * _plan().braid.diameter)


def test_a_loop_that_was_meant_longer_fails() -> None:
    plan = _plan()
    planned = replace(planned_for(plan, "wrapped"), loop=plan.loop_fitted + 3.0)
    made = settled(plan, "wrapped")
    report = measure_step(made.settled.strands, made.settled.draft.thin, made.sections, SolverLog(1.0, 0.0), planned)
    assert [one["check"] for one in report["failures"]] == ["loop_off_diameters"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_loop_held_otherwise_is_noticed(kind: str) -> None:
    strands = settled(_plan(), kind).settled.strands
    asked = planned_for(_plan(), kind).throat_to_crown
    assert asked is not None
    wider = replace(strands, points=strands.points * np.array([1.01, 1.01, 1.0]))
    assert throat.throat_to_crown(wider, 0.0) - asked == pytest.approx(0.01 * (asked + 5.0), abs=0.1)


def test_steps_that_are_not_held_so_are_not_asked() -> None:
    assert planned_for(_plan(), "locked").throat_to_crown is None
    assert planned_for(_plan(), "no-lock-allowance").throat_to_crown is None


def test_a_step_off_its_planned_length_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    from fidpath.outputs import check_reports

    longer = {kind: lambda plan: plan.wrapped_loop.throat_to_crown + 1.0 for kind in KINDS}
    monkeypatch.setattr(check_reports, "HELD_AT", longer)
    assert _failed("wrapped", _plan()) == ["throat_to_crown_off_diameters"]
