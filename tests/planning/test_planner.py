"""The plan: snapping to the lattice, the lock's toll, and what depends on what."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade
from fidpath.planning.notices import warnings
from fidpath.planning.planner import make_plan
from jobs import a_job


@given(st.floats(2.0, 8.0), st.floats(30, 60), st.sampled_from([6.0, 7.0, 8.5]), st.sampled_from([8, 12, 16]))
@settings(max_examples=25, deadline=None)
def test_holes_sit_on_the_lattice_and_the_pitch_is_never_bent(
    bearing: float, throat: float, pitch: float, strands: int
) -> None:
    plan = make_plan(a_job(bearing=bearing, throat=throat, pitch=pitch, strands=strands))
    diamond = 2 * plan.braid.pick
    for rope in (plan.station_h2, plan.needed_lock().rope_entry_to_h1):
        assert rope / diamond == pytest.approx(round(rope / diamond), abs=1e-9)
    assert plan.braid.pitch == pytest.approx(pitch * 10.0)


@given(st.floats(2.0, 8.0), st.floats(0.6, 2.0))
@settings(max_examples=25, deadline=None)
def test_the_lock_takes_the_hole_gap_and_the_rope_between_the_holes(bearing: float, gap: float) -> None:
    plan = make_plan(a_job(bearing=bearing, gap=gap, throat=45))
    before = plan.station_h2 + plan.eye.zone.gap
    after = plan.station_h2 - plan.rope_between_holes
    assert plan.eye_length == pytest.approx(after)
    assert plan.needed_lock().loop_before == pytest.approx(before)
    assert plan.needed_lock().eye_lost == pytest.approx(before - after)


def test_slack_is_at_most_half_a_diamond_either_way() -> None:
    for bearing in np.linspace(2, 8, 13):
        plan = make_plan(a_job(bearing=float(bearing), throat=45))
        assert abs(plan.needed_lock().eye_slack) <= plan.braid.pick + 1e-9
        assert plan.needed_lock().eye_slack == pytest.approx(plan.eye_length - plan.needed_lock().eye_wanted)


def test_choices_step_by_one_pick_and_odd_ones_need_the_rope_rolled() -> None:
    plan = make_plan(a_job())
    picks = [choice.picks for choice in plan.needed_lock().choices]
    assert picks == list(range(picks[0], picks[-1] + 1))
    assert all(choice.rolled == bool(choice.picks % 2) for choice in plan.needed_lock().choices)
    assert plan.needed_lock().picks_h1_to_h2 in picks
    slack = [choice.slack for choice in plan.needed_lock().choices]
    assert np.diff(slack) == pytest.approx(plan.braid.pick)


def test_eye_length_asked_for_is_met_within_the_lattice() -> None:
    plan = make_plan(a_job(bearing=2.0, kind="pin", eye_length=100.0))
    assert plan.eye.distance + 10.0 == pytest.approx(100.0, abs=plan.braid.pick)


def test_a_short_eye_asked_for_is_met_though_its_throat_is_wide() -> None:
    plan = make_plan(a_job(d=5.0, bearing=8.0, pitch=7.2, eye_length=58.0, throat=45.0))
    assert np.degrees(plan.throat_angle) > 70 and abs(plan.needed_lock().eye_slack) <= plan.pick
    assert [notice.name for notice in warnings(plan)][:1] == ["throat_angle"]


def test_a_long_eye_keeps_its_narrow_throat_whatever_angle_is_asked_for() -> None:
    narrow, wide = (make_plan(a_job(bearing=3.0, eye_length=55.5, throat=throat)) for throat in (45.0, 80.0))
    assert narrow.station_h2 == wide.station_h2 and narrow.throat_angle <= np.radians(60)


def test_teardrop_is_laid_along_its_flanks() -> None:
    plan = make_plan(a_job(kind="teardrop", bearing=5.0))
    assert plan.throat_angle <= 2 * plan.seat.flank + np.radians(2)
    assert plan.throat_angle == pytest.approx(2 * plan.seat.flank, abs=np.radians(8))


def test_rope_consumed_is_what_goes_in_less_what_it_spans() -> None:
    short, long = make_plan(a_job(bury=40)), make_plan(a_job(bury=72))
    more = long.rope_consumed - short.rope_consumed
    assert more == pytest.approx(32 * 10.0 + long.take_up - short.take_up, rel=0.02)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"strands": 10}, "doesn't close"),
        ({"strands": 10, "weave": "over-one"}, "can't part 10 strands evenly"),
        ({"strands": 14}, "multiple of 4"),
        ({"drops": 6}, "at most 5"),
        ({"gap": 0.1}, "hole gap"),
    ],
)
def test_what_cannot_be_made_is_refused_in_words(changes: dict[str, object], says: str) -> None:
    with pytest.raises(CannotBeMade, match=says):
        make_plan(a_job(**changes))  # type: ignore[arg-type]


def test_a_wide_throat_is_taken_where_the_job_asks_for_it() -> None:
    usual, wide = (make_plan(a_job(throat=angle)) for angle in (60.0, 80.0))
    assert np.degrees(usual.throat_angle) <= 60 < np.degrees(wide.throat_angle)
    assert abs(wide.needed_lock().eye_slack) <= wide.braid.pick + 1e-9
    assert any("throat angle is" in warning.text for warning in warnings(wide))
