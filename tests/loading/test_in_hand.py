"""Steps' states as they lie in the hand: lenses, a pinched bight, a curl drawn through; strands true throughout."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import top_group
from fidpath.loading import in_hand
from fidpath.loading.hauling import hauled, mean_turn
from fidpath.outputs.check_reports import state_report
from fidpath.settling.settled_states import SettledState
from fidpath.settling.settled_states import settled_state as made_state
from scenes.steps import settled_state, small_plan


@cache
def _settled(kind: str) -> SettledState:
    return made_state(small_plan(), kind)


def _gap(made: SettledState, away: float) -> float:
    """How far H2's groups lie apart `away` diameters from its middle, mm."""
    strands, hole = made.settled.strands, made.state.opening("H2")
    top = top_group(strands.braid, hole)
    lies = strands.points[:, int(np.abs(strands.station - hole.host - away * strands.braid.diameter).argmin())]
    return float(np.linalg.norm(lies[top].mean(axis=0) - lies[~top].mean(axis=0)))


@pytest.mark.parametrize("kind", ["bight-in-h2", "tail-swung-round"])
def test_an_open_hole_narrows_toward_its_ends_as_a_lens_does(kind: str) -> None:
    lens, laid = (np.array([_gap(made, x) for x in (0.0, 2.2)]) for made in (settled_state(kind), _settled(kind)))
    assert lens[1] < 0.85 * lens[0]
    assert lens[1] / lens[0] < laid[1] / laid[0] - 0.1


def _width(points: Floats, made: SettledState) -> float:
    """How far apart the bight's legs are 1.4 diameters of rope from its apex, mm."""
    strands, nose = made.settled.strands, made.state.pulls[0].station
    line, d = points.mean(axis=0), strands.braid.diameter
    columns = [int(np.abs(strands.station - nose - side * 1.4 * d).argmin()) for side in (-1, 1)]
    return float(np.linalg.norm(line[columns[0]] - line[columns[1]]))


def test_the_bight_is_pinched() -> None:
    made, laid = settled_state("bight-in-h2"), _settled("bight-in-h2")
    assert _width(made.settled.strands.points, made) < 0.95 * _width(laid.settled.strands.points, laid)


def test_the_apex_in_the_hole_passes_the_whole_check() -> None:
    made = settled_state("bight-entering")
    report = state_report(small_plan(), made)
    assert report["failures"] == [] and report["strand_length_change_max"] < 0.01
    nose, hole = made.state.pulls[0].station, made.state.opening("H2")
    line, d = made.settled.strands.points.mean(axis=0), made.settled.strands.braid.diameter
    at = [int(np.abs(made.settled.strands.station - station).argmin()) for station in (nose, hole.host)]
    assert 0.5 * d < np.linalg.norm(line[at[0]] - line[at[1]]) < 3.0 * d


@pytest.mark.parametrize("kind", ["h2-drawn-out", "bight-in-h2", "curl-rolling-out", "no-tail-pass"])
def test_the_check_finds_what_it_found_before(kind: str) -> None:
    before, now = (state_report(small_plan(), made) for made in (_settled(kind), settled_state(kind)))
    for measure in ("invariants", "strands_hooked", "crossings_changed", "crossings_outside_holes"):
        assert now[measure] == before[measure], measure
    splits = [[(each["hole"], each["face"], each["split"]) for each in report["passes"]] for report in (now, before)]
    assert splits[0] == splits[1]
    assert {each["check"] for each in now["failures"]} <= {each["check"] for each in before["failures"]}
    assert now["certificate_min"] >= 0.05


@pytest.mark.parametrize(("kind", "turns"), [("h2-half-turned", (0.2, 0.9)), ("curl-half-rolled", (0.0, 0.85))])
def test_a_curl_drawn_through_is_stopped_on_its_way_and_stays_true(kind: str, turns: tuple[float, float]) -> None:
    made = settled_state(kind)
    report = state_report(small_plan(), made)
    assert report["failures"] == [] and report["certificate_min"] >= 0.05
    assert turns[0] < mean_turn(made.settled.strands, made.state) < turns[1]
    assert len(made.settled.between) > 10


def test_a_curl_that_jams_is_refused() -> None:
    made = _settled("h2-half-turned")
    haul = made.state.haul
    assert haul is not None
    with pytest.raises(CannotBeMade, match=r"jams|certificate"):
        hauled(made.settled, replace(made.state, haul=replace(haul, turned=5.0)))


def test_a_moment_that_jams_is_left_out_and_no_other_state() -> None:
    def jammed(kind: str) -> SettledState:
        if kind != "locked":
            raise CannotBeMade("the curl jams")
        return _settled("h1-second-fid")

    assert list(in_hand.moments_in_hand(jammed, ("h2-half-turned", "locked"))) == ["locked"]
    with pytest.raises(CannotBeMade):
        in_hand.moments_in_hand(jammed, ("bight-entering",))


def test_a_state_that_cannot_be_pressed_apart_stays_as_it_was() -> None:
    made = _settled("h1-second-fid")
    assert in_hand.shaped_in_hand(made.settled, made.state, bound=-1.0) is made.settled


def test_a_seated_state_is_left_to_the_plan() -> None:
    made = settled_state("marking")
    assert made.settled.between == ()
    assert np.array_equal(made.settled.strands.points, _settled("marking").settled.strands.points)


def test_the_same_state_lies_the_same_each_time() -> None:
    made = _settled("h1-second-fid")
    once, again = (in_hand.shaped_in_hand(made.settled, made.state).strands.points for _ in range(2))
    assert once.tobytes() == again.tobytes()
