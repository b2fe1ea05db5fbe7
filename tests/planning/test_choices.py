"""Places for H2: which there are, which fit, which is chosen."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.planning import planner as planning
from fidpath.planning.planner import Plan, make_plan
from jobs import a_job


def test_places_for_h2_reach_from_three_picks_short_to_four_long() -> None:
    plan = make_plan(a_job())
    ideal = (plan.eye_wanted + plan.rope_between_holes) / plan.pick
    picks = [choice.picks for choice in plan.choices]
    assert picks == list(range(int(np.floor(ideal)) - 3, int(np.ceil(ideal)) + 5))
    for choice in plan.choices:
        assert choice.rope_h1_to_h2 == pytest.approx(choice.picks * plan.pick)
        assert choice.eye == pytest.approx(choice.rope_h1_to_h2 - plan.rope_between_holes)


def test_the_place_chosen_has_the_least_slack_of_those_that_fit_under_sixty_degrees() -> None:
    for throat in (35.0, 50.0, 58.0, 60.0, 64.0):
        plan = make_plan(a_job(throat=throat))
        good = [c for c in plan.choices if c.fits and not c.rolled]
        narrow = [c for c in good if c.throat <= np.radians(60) + 1e-9] or good
        best = min(narrow, key=lambda c: abs(c.slack))
        assert plan.picks_h1_to_h2 == best.picks, throat


def room(plan: Plan, choice_eye: float) -> float:
    """Clear rope beyond the terminator's rim, in rope diameters."""
    d = plan.braid.diameter
    eye = planning.eye_of_loop(plan.lens, d, plan.job.terminator.bearing_diameter_mm, choice_eye)
    return (eye.distance - plan.seat.reach - plan.seat.nose - plan.seat.lip) / d


@pytest.mark.parametrize("eye_length", [90.0, 95.0, 100.0, 110.0, 130.0])
def test_a_place_fits_where_the_rim_leaves_the_rope_room_to_pass(eye_length: float) -> None:
    plan = make_plan(a_job(eye_length=eye_length))
    for choice in plan.choices:
        assert choice.fits is bool(room(plan, choice.eye) >= 0.8), choice


def test_a_teardrops_flanks_leave_one_degree_to_spare() -> None:
    seen = set()
    for bearing in (4.0, 4.5, 5.0, 5.5, 6.0):
        plan = make_plan(a_job(kind="teardrop", bearing=bearing))
        for choice in plan.choices:
            wide = choice.throat / 2 > plan.seat.flank + np.radians(1.0)
            assert choice.fits is (not wide and bool(room(plan, choice.eye) >= 0.8))
            seen.add((wide, choice.fits))
        narrow = make_plan(a_job(kind="teardrop", bearing=bearing, throat=20.0))
        by_flank = min(2 * plan.seat.flank, np.radians(20.0))
        wanted = planning.eye_of_throat(plan.lens, 10.0, bearing * 10, by_flank)
        assert narrow.eye_wanted == pytest.approx(wanted.loop)
    assert len(seen) > 1


def test_a_throat_of_sixty_degrees_is_preferred_to_a_wider_one_whatever_the_slack() -> None:
    job = a_job()
    plan = make_plan(job)
    near, wide, wanted = plan.choices[3], np.radians(60) + 1e-9, planning._wanted_eye(job, plan.lens)
    for throat, chosen in ((wide, 20), (wide + 1e-6, 30), (np.radians(60.5), 30)):
        choices = (
            replace(near, picks=20, throat=throat, slack=0.1, fits=True, rolled=False),
            replace(near, picks=30, throat=np.radians(50), slack=-5.0, fits=True, rolled=False),
        )
        assert planning._chosen(job, plan.braid, plan.lens, wanted, choices)[1] == chosen


def test_a_teardrops_throat_may_be_wider_than_its_flanks_by_one_degree_and_no_more() -> None:
    job = a_job(kind="teardrop")
    eye = make_plan(job).eye
    half = planning.seat_of(job.terminator).flank + np.radians(1.0)
    assert planning._fits(job, replace(eye, throat=2 * half, distance=1e4))
    assert not planning._fits(job, replace(eye, throat=2 * half + 1e-9, distance=1e4))
