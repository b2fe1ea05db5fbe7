"""Rope states: every recipe closes for every plan it accepts, and the rope keeps its length from step to step."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from fidpath.errors import CannotBeMade
from fidpath.geometry import Opening, arc_lengths, stations
from fidpath.geometry.braid import straight
from fidpath.geometry.curve import curvature
from fidpath.geometry.rods import Rod, clearance
from fidpath.job.reader import read_job
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states.closing import nearest
from fidpath.states.draft import draft_of, strained
from fidpath.states.draping import axis_of
from fidpath.states.kinds import KINDS, state_of
from fidpath.states.rope_state import RopeState
from jobs import a_job

SCENES = Path(__file__).parents[2] / "scenes"

STEPS = [kind.name for kind in KINDS.values() if not (kind.mistake or kind.finished)]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(a_job())


def place(plan: Plan, state: RopeState, station: float) -> np.ndarray:
    return axis_of(state, np.array([station]))[0][0]


def misses(plan: Plan, state: RopeState) -> list[float]:
    """How far each guest is from its host's line at the hole, square to the host, in diameters."""
    found = []
    for passing in state.passes:
        host = state.opening(passing.hole).host
        axis, left = axis_of(state, np.array([host]))
        off = place(plan, state, passing.guest) - axis[0]
        found.append(abs(float(off @ left[0])) / plan.braid.diameter)
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_every_pass_goes_through_its_hole(plan: Plan, kind: str) -> None:
    plan = make_plan(a_job(splice="plain")) if kind.startswith("plain-eye") else plan
    state = state_of(plan, kind)
    assert max(misses(plan, state), default=0.0) < 0.03
    for passing in state.passes:
        opening = state.opening(passing.hole)
        along = place(plan, state, passing.guest) - place(plan, state, opening.host)
        assert np.linalg.norm(along) < max(opening.flat, 0.1 * plan.braid.diameter)


@settings(max_examples=12, deadline=None)
@given(longer=some.floats(0.0, 60.0), ring=some.floats(2.0, 7.0))
def test_every_state_closes_for_any_eye(longer: float, ring: float) -> None:
    job = a_job(bearing=ring, eye_length=10 * (2.6 * ring + 3.0 + longer))
    plan = make_plan(job)
    for kind in STEPS:
        try:
            state = state_of(plan, kind)
        except CannotBeMade:
            assert plan.station_h2 < 20 * plan.braid.diameter
            continue
        assert max(misses(plan, state), default=0.0) < 0.03, kind
        along = np.linspace(state.first, state.last, 1500)
        arc = arc_lengths(plan.braid, state.openings, along, state.phase) + state.arc_zero
        assert np.abs(curvature(state.chain, arc)).max() * 0.55 * plan.braid.diameter < 1, kind


def test_the_rope_is_the_same_in_every_state(plan: Plan) -> None:
    """Between the marks lies the same rope: strands laid on any state are as long as in straight rope."""
    for kind in STEPS:
        draft = draft_of(state_of(plan, kind))
        station = draft.laid.station
        plain = straight(plan.braid, station + plan.pick)
        for k in range(plan.braid.strands):
            own = draft.laid.strand(k)
            here = np.linalg.norm(np.diff(own, axis=0), axis=1).sum()
            there = np.linalg.norm(np.diff(plain[k, : len(own)], axis=0), axis=1).sum()
            assert abs(here / there - 1) < 0.04, (kind, k)


def test_openings_shorten_the_axis_and_only_there(plan: Plan) -> None:
    d = plan.braid.diameter
    opening = Opening("H1", 0.0, 1.6 * d, 0.5 * d, 0.5 * d)
    at = stations(plan.braid, -20 * d, 20 * d)
    arc = arc_lengths(plan.braid, (opening,), at)
    rate = np.diff(arc) / np.diff(at)
    assert arc[-1] - arc[0] < at[-1] - at[0]
    assert np.all(rate[np.abs(at[:-1]) > 9 * d] == pytest.approx(1.0, abs=1e-3))
    assert np.interp(0.0, at, arc) == pytest.approx(0.0, abs=1e-9)
    assert np.all(rate > 0.3)


def test_a_short_eye_is_refused_with_the_number_that_would_do() -> None:
    plan = make_plan(a_job(bearing=1.2, eye_length=50.0))
    assert plan.station_h2 < 16 * plan.braid.diameter
    with pytest.raises(CannotBeMade, match="bight") as refused:
        state_of(plan, "bight-in-h2")
    assert "16 d" in str(refused.value)


def test_a_tail_too_short_for_its_circle_is_refused_with_the_number_that_would_do() -> None:
    with pytest.raises(CannotBeMade, match="circle") as refused:
        state_of(make_plan(a_job(bury=5.0)), "tail-end-in-h2")
    assert "15 d" in str(refused.value)


BENT = ("demo", "deadeye", "bow-shackle", "inches", "sheave", "sixteen-strand")


@pytest.mark.parametrize("scene", BENT)
@pytest.mark.parametrize(
    ("kind", "most"),
    [("tail-swung-round", 0.025), ("bight-in-h2", 0.025), ("bight-entering", 0.04), ("h1-in-h2", 0.025)],
)
def test_bends_leave_strands_near_their_lengths(scene: str, kind: str, most: float) -> None:
    """Settling takes most of it back: laid out by more than 2.5 %, strands end beyond the check's 2 %.

    An apex that lies in the hole is laid shorter; in the hand its strands come back to their lengths all the same
    (tests/loading/test_in_hand.py).
    """
    plan = make_plan(read_job(SCENES / f"{scene}.toml"))
    assert strained(state_of(plan, kind)) < most


def test_an_unknown_kind_names_the_known_ones(plan: Plan) -> None:
    with pytest.raises(CannotBeMade, match="laid-out"):
        state_of(plan, "no-such-state")


def test_nearest_keeps_to_its_bounds_and_its_wishes() -> None:
    """Closest point of the line x + y + z = 3 to (3, 1, -1), z at least 0: by hand (2.5, 0.5, 0)."""
    x = nearest(
        lambda x: np.array([x.sum() - 3.0]), np.array([3.0, 1.0, -1.0]), np.ones(3), np.array([-9.0, -9.0, 0.0])
    )
    assert x == pytest.approx([2.5, 0.5, 0.0], abs=1e-8)


def test_a_rods_clearance_is_measured_square_to_its_axis() -> None:
    rod = Rod((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 5.0, 1.0, 20.0, 60.0)
    points = np.array([[-40.0, 0.0, 9.0], [-10.0, 4.0, 0.0], [-10.0, 0.0, 0.0], [5.0, 0.0, 0.0]])
    assert clearance(rod, points) == pytest.approx([4.0, 1.0, -3.0, 5.0])


def test_a_refusal_names_the_key_of_the_terminators_own_table() -> None:
    """A shackle's table has no bearing diameter: the rope bends round its bow, or round its pin."""
    for scene, key in (("bow-shackle", "bow_diameter"), ("demo", "bearing_diameter")):
        plan = make_plan(read_job(SCENES / f"{scene}.toml"))
        lock = plan.needed_lock()
        choice = replace(lock.choice, rope_h1_to_h2=4 * plan.braid.diameter)
        with pytest.raises(CannotBeMade, match="too short to close round the terminator") as refused:
            state_of(replace(plan, lock=replace(lock, choice=choice)), "locked")
        assert refused.value.key == f"terminator.{key}"
