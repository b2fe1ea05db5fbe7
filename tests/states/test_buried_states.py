"""The finished splice as a rope state: its bury as data by station, and the plans its mistakes are made to."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states.buried_states import with_bury
from fidpath.states.draft import draft_of
from fidpath.states.draping import axis_of
from fidpath.states.kinds import KINDS, made, state_of
from jobs import a_job

BURIED = [kind.name for kind in KINDS.values() if kind.finished]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(a_job(bury=36.0))


@pytest.mark.parametrize(("diameters", "drops"), [(12.0, 3), (36.0, 0), (50.0, 2)])
def test_another_bury_is_the_plan_of_the_job_with_that_bury(plan: Plan, diameters: float, drops: int) -> None:
    practice = replace(plan.job.practice, bury_diameters=diameters, taper_drops=drops)
    anew, derived = make_plan(replace(plan.job, practice=practice)), with_bury(plan, diameters, drops)
    assert derived.job == anew.job and derived.taper == anew.taper
    for name in (
        "station_tip",
        "station_entry_tail",
        "station_entry_host",
        "take_up",
        "swollen_diameter",
        "rope_in_splice",
    ):
        assert getattr(derived, name) == pytest.approx(getattr(anew, name), abs=1e-9), name


def test_rope_keeps_its_length_from_neck_to_neck_and_only_there(plan: Plan) -> None:
    """Round the eye the axis is as long as the rope; in the bury the cover is shorter and the squeezed tail longer."""
    profile = state_of(plan, "buried").only.profile
    assert profile is not None
    rate = np.diff(profile.arc) / np.diff(profile.station)
    middle = (profile.station[1:] + profile.station[:-1]) / 2
    assert np.all(np.diff(profile.station) > 0)
    d = plan.braid.diameter
    eye = (middle > plan.station_entry_host + 2 * d) & (middle < plan.station_entry_tail - 2 * d)
    assert rate[eye] == pytest.approx(1.0, abs=1e-3)
    cover = (middle < plan.station_entry_host - 3 * d) & (middle > plan.station_entry_host - 10 * d)
    tail = (middle > plan.station_entry_tail + 3 * d) & (middle < plan.station_entry_tail + 10 * d)
    assert rate[cover].max() < 0.95 and rate[tail].min() > 1.0
    assert profile.packing.min() == pytest.approx(plan.job.rope.squeeze)


def test_tail_lies_on_the_axis_of_its_cover(plan: Plan) -> None:
    state = state_of(plan, "buried")
    assert state.bury is not None
    inside = np.linspace(state.bury.guest[0] + 40.0, state.bury.guest[1], 9)
    line = np.linspace(state.bury.host[1], state.bury.host[0], 4000)
    tail, cover = axis_of(state, inside)[0], axis_of(state, line)[0]
    assert np.linalg.norm(tail[:, None] - cover[None], axis=2).min(axis=1).max() < 0.02 * plan.braid.diameter


@pytest.mark.parametrize("name", BURIED)
def test_every_buried_state_is_laid_to_its_own_plan(plan: Plan, name: str) -> None:
    plan = make_plan(a_job(bury=36.0, splice="plain")) if name.startswith("plain-eye") else plan
    own = made(plan, name)[0]
    state, draft = state_of(plan, name), draft_of(state_of(plan, name))
    assert state.name == name
    assert draft.laid.bury == state.bury is not None
    assert state.tip == pytest.approx(own.station_tip)
    at_tip = own.braid.strands - 2 * own.job.practice.taper_drops
    assert int((draft.laid.count == draft.laid.count.max()).sum()) == at_tip


def test_plain_eye_is_buried_without_holes() -> None:
    plain = make_plan(replace(a_job(bury=20.0), line=_plain_line()))
    state = state_of(plain, "plain-buried")
    assert plain.lock is None and state.openings == () == state.passes
    assert state.bury is not None and state.bury.host[0] == plain.station_entry_host


def _plain_line():  # type: ignore[no-untyped-def]
    line = a_job().line
    return replace(line, ends=(replace(line.ends[0], splice="plain"), *line.ends[1:]))


def test_a_bunched_cover_is_baggy_shorter_than_its_rope_and_closes_before_the_puller(plan: Plan) -> None:
    own = made(plan, "cover-bunched")[0]
    bunched, smooth = (state_of(plan, name).only.profile for name in ("cover-bunched", "buried"))
    assert bunched is not None and smooth is not None
    d, entry = plan.braid.diameter, plan.station_entry_host
    over = (bunched.station < entry - 4 * d) & (bunched.station > entry - own.cover.host_length + 1 * d)
    rate = np.gradient(bunched.arc, bunched.station)
    assert bunched.radius[over].min() > smooth.radius[smooth.station < entry].max()
    assert (
        rate[over].max() < 0.92
        and np.interp(entry - 3 * d, smooth.station, np.gradient(smooth.arc, smooth.station)) > rate[over].max()
    )
    puller = entry - plan.cover.host_length
    assert np.interp(puller, bunched.station, bunched.radius) == pytest.approx(plan.braid.radius, rel=1e-3)
    assert state_of(plan, "cover-bunched").first < puller - 3 * d
    assert own.cover.puller_in == pytest.approx(plan.cover.host_length)
