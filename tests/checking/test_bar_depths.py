"""The rope keeps clear of a shackle's jaws, pin and bow, and the check says so where it doesn't."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fidpath.checking.bar_depths import depths_in_bars
from fidpath.job.bearing_body import Bar
from fidpath.job.job import Job
from fidpath.job.reader import parse_job
from fidpath.outputs.check_reports import state_report
from fidpath.planning.planner import make_plan
from fidpath.settling.settled_states import SettledState, settled_state
from terminators import depth_in_bars

SCENE = (Path(__file__).parents[2] / "scenes" / "bow-shackle.toml").read_text("utf-8")
NARROWEST = "8.96 mm"
"""1.12 diameters of the scene's rope, the least that a job may say."""


@cache
def job(on: str) -> Job:
    text = SCENE.replace('bears_on = "bow"', f'bears_on = "{on}"')
    return parse_job(text.replace('jaw_width = "28 mm"', f'jaw_width = "{NARROWEST}"') if on == "pin" else text, "")


@cache
def fitted(on: str) -> SettledState:
    return settled_state(make_plan(job(on)), "on-terminator")


@pytest.mark.parametrize("on", ["pin", "bow"])
def test_the_rope_keeps_clear_of_the_whole_shackle(on: str) -> None:
    """Between the narrowest jaws that a job may have, too, though only the pin is a body to the solver."""
    made = fitted(on)
    report = state_report(made.plan, made)
    assert report["failures"] == []
    assert report["terminator_overlap_max_mm"] <= 0.05


def test_jaws_nearer_than_the_rope_is_wide_fail_the_check() -> None:
    made = fitted("pin")
    terminator = made.plan.job.terminator
    jaws = tuple(
        replace(bar, line=tuple((x, y, z - np.sign(z) * 0.8) for x, y, z in bar.line)) for bar in terminator.body.bars
    )
    tight = replace(terminator, body=replace(terminator.body, bars=jaws))
    plan = replace(made.plan, job=replace(made.plan.job, terminator=tight))
    report = state_report(plan, replace(made, plan=plan))
    assert [failure["check"] for failure in report["failures"]] == ["terminator_overlap_max_mm"]
    assert 0.1 < report["terminator_overlap_max_mm"] < 0.81


def test_depths_are_those_of_the_deepest_bar() -> None:
    rng = np.random.default_rng(3)
    places = rng.uniform(-30, 30, (4000, 3))
    bars = job("bow").terminator.body.bars
    found = depths_in_bars(places, bars)
    assert found.max() == pytest.approx(depth_in_bars(places, bars))
    for at in np.argsort(found)[-40:]:
        assert found[at] == pytest.approx(depth_in_bars(places[at : at + 1], bars))
    assert (depths_in_bars(places, ()) == 0).all()
    rod = Bar(((0.0, 0.0, -5.0), (0.0, 0.0, 5.0)), (2.0, 2.0))
    depths = depths_in_bars(np.array([[0.0, 0.0, 0.0], [1.5, 0.0, 0.0], [0.0, 0.0, 4.7], [3.0, 0.0, 0.0]]), (rod,))
    assert depths == pytest.approx([2.0, 0.5, 0.3, 0.0])
