"""Places for H2: which there are, which fit, which is chosen."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.geometry.eye import eye_of_loop, eye_of_throat
from fidpath.geometry.seat import seat_of
from fidpath.planning import h2_places
from fidpath.planning.h2_places import fits
from fidpath.planning.locked import chosen, wanted_eye
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job


def test_places_for_h2_reach_from_three_picks_short_to_four_long() -> None:
    plan = make_plan(a_job())
    ideal = (plan.needed_lock().eye_wanted + plan.rope_between_holes) / plan.pick
    picks = [choice.picks for choice in plan.needed_lock().choices]
    assert picks == list(range(int(np.floor(ideal)) - 3, int(np.ceil(ideal)) + 5))
    for choice in plan.needed_lock().choices:
        assert choice.rope_h1_to_h2 == pytest.approx(choice.picks * plan.pick)
        assert choice.eye.loop == pytest.approx(choice.rope_h1_to_h2 - plan.rope_between_holes)


def test_the_place_chosen_has_the_least_slack_of_those_that_fit_under_sixty_degrees() -> None:
    for throat in (35.0, 50.0, 58.0, 60.0, 64.0):
        plan = make_plan(a_job(throat=throat))
        good = [c for c in plan.needed_lock().choices if c.fits and not c.rolled]
        narrow = [c for c in good if c.eye.throat <= np.radians(60) + 1e-9] or good
        best = min(narrow, key=lambda c: abs(c.slack))
        assert plan.needed_lock().picks_h1_to_h2 == best.picks, throat


def room(plan: Plan, choice_eye: float) -> float:
    """Clear rope beyond the terminator's rim, in rope diameters."""
    d = plan.braid.diameter
    eye = eye_of_loop(plan.eye.zone, d, plan.job.terminator.bearing_diameter_mm, choice_eye)
    return (eye.distance - plan.seat.reach - plan.seat.nose - plan.seat.lip) / d


@pytest.mark.parametrize("eye_length", [90.0, 95.0, 100.0, 110.0, 130.0])
def test_a_place_fits_where_the_rim_leaves_the_rope_room_to_pass(eye_length: float) -> None:
    plan = make_plan(a_job(eye_length=eye_length))
    for choice in plan.needed_lock().choices:
        assert choice.fits is bool(room(plan, choice.eye.loop) >= 0.8), choice


def test_a_teardrops_flanks_leave_one_degree_to_spare() -> None:
    seen = set()
    for bearing in (4.0, 4.5, 5.0, 5.5, 6.0):
        plan = make_plan(a_job(kind="teardrop", bearing=bearing))
        for choice in plan.needed_lock().choices:
            wide = choice.eye.throat / 2 > plan.seat.flank + np.radians(1.0)
            assert choice.fits is (not wide and bool(room(plan, choice.eye.loop) >= 0.8))
            seen.add((wide, choice.fits))
        narrow = make_plan(a_job(kind="teardrop", bearing=bearing, throat=20.0))
        by_flank = min(2 * plan.seat.flank, np.radians(20.0))
        wanted = eye_of_throat(plan.eye.zone, 10.0, bearing * 10, by_flank)
        assert narrow.needed_lock().eye_wanted == pytest.approx(wanted.loop)
    assert len(seen) > 1


def test_a_throat_of_sixty_degrees_is_preferred_to_a_wider_one_whatever_the_slack() -> None:
    job = a_job()
    plan = make_plan(job)
    near, wide = plan.needed_lock().choices[3], np.radians(60) + 1e-9
    wanted = wanted_eye(job, plan.eye.zone, plan.seat)
    for throat, taken in ((wide, 20), (wide + 1e-6, 30), (np.radians(60.5), 30)):
        choices = (
            replace(near, picks=20, eye=replace(near.eye, throat=throat), slack=0.1, fits=True, rolled=False),
            replace(near, picks=30, eye=replace(near.eye, throat=np.radians(50)), slack=-5.0, fits=True, rolled=False),
        )
        assert chosen(job, wanted, choices).picks == taken


def test_a_teardrops_throat_may_be_wider_than_its_flanks_by_one_degree_and_no_more() -> None:
    job = a_job(kind="teardrop")
    eye = make_plan(job).eye
    seat = seat_of(job.terminator)
    half = seat.flank + np.radians(1.0)
    assert fits(replace(eye, throat=2 * half, distance=1e4), seat)
    assert not fits(replace(eye, throat=2 * half + 1e-9, distance=1e4), seat)


def test_only_the_places_looked_at_are_worked_out_and_each_once(monkeypatch: pytest.MonkeyPatch) -> None:
    loops: list[float] = []
    monkeypatch.setattr(h2_places, "eye_of_loop", lambda *given: loops.append(given[-1]) or eye_of_loop(*given))
    lock = make_plan(a_job()).needed_lock()
    assert loops == [lock.choice.eye.loop]
    assert [choice for choice in lock.choices if choice is lock.choice] == [lock.choice]
    assert len(loops) == len(lock.choices) > 1
