"""Figures of the trade. Every one of them: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fidpath.checking import rope_measures
from fidpath.job.job import Tools
from fidpath.job.rules import rule
from fidpath.planning.planner import make_plan, openings_of
from fidpath.settling.thin_start import starts
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from fidpath.states.thinning import thinned
from jobs import a_job


@pytest.mark.parametrize(("d", "bury"), [(8.0, 576.0), (12.0, 864.0)])
def test_bury_of_seventy_two_diameters(d: float, bury: float) -> None:
    assert rule("bury").value == 72
    assert rule("bury").source == "common practice, no source"
    assert make_plan(a_job(d=d)).bury_length == pytest.approx(bury)


def test_six_strands_each_side_of_the_guest_in_a_braid_of_twelve() -> None:
    # Common practice, no source. As first laid, every guest strand agreeing; the settled splice is judged by `verify`.
    state = state_of(make_plan(a_job(d=8.0, bury=12.0)), "buried")
    start = thinned(draft_of(state), state, next(iter(starts(state))))
    laid = replace(start.laid, points=start.thin)
    assert {hole.name: rope_measures.split(laid, hole) for hole in laid.holes} == {
        "H1": ([6, 6], True),
        "H2": ([6, 6], True),
    }


@pytest.mark.parametrize("d", [7.0, 8.0, 9.0])
def test_second_mark_about_a_quarter_inch_on_from_the_pass(d: float) -> None:
    # Common practice, no source: about 6.4 mm on ropes of 7 to 9 mm, as a band of 5 to 10 mm. The plan's default,
    # one diameter of clear rope between the holes, lies in it.
    gap = make_plan(a_job(d=d, gap=rule("hole_gap").value)).needed_lock().zone.gap
    assert gap == pytest.approx(d)
    assert 5.0 < gap < 10.0


@pytest.mark.parametrize("d", [7.0, 8.0, 9.0])
def test_fids_of_a_quarter_and_three_eighths_inch_serve_these_ropes(d: float) -> None:
    # Common practice, no source: the thinner opens the rope, the thicker opens it wide enough to pass.
    chosen = openings_of(a_job(d=d).rope, Tools((6.35, 9.525), 1.0))
    assert (chosen.first_fid, chosen.second_fid) == (6.35, 9.525)


def test_a_fid_too_thick_is_not_planned_with() -> None:
    assert openings_of(a_job(d=8.0).rope, Tools((6.4, 20.0), 1.0)).second_fid <= 1.5 * 8.0
