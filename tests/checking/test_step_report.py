"""The check of the steps between: right steps pass, wrong ways are named, and what is broken on purpose is found."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.checking import SolverLog
from fidpath.checking.found_passes import (
    DoublePoint,
    Found,
    above,
    crossings_found,
    double_points,
    fids_found,
    passes_equal,
)
from fidpath.checking.rope_measures import centre_line
from fidpath.checking.step_report import Planned, bury_length, drawn_up, measure_step, mistake_named, off_plan
from fidpath.geometry.strands import Strands
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling.settled_states import SettledState
from jobs import a_job
from scenes.settled import settled
from shapes import lone

Floats = NDArray[np.float64]

D = 10.0
STEPS = (
    "laid-out", "h1-second-fid", "tail-entering", "marking", "h2-drawn-out", "tail-end-in-h2", "h2-inside-out",
    "bight-in-h2", "h1-in-h2", "curl-rolling-out", "locked", "on-terminator", "free-end-in-h2", "buried",
)  # fmt: skip
WRONG = (
    "mark-on-strand", "split-5-7", "tail-other-face", "bight-other-face", "both-other-face", "no-tail-pass",
    "holes-too-far", "no-lock-allowance", "bury-too-short", "no-taper", "eye-overstretched", "eye-loose",
)  # fmt: skip


@cache
def _plan() -> Plan:
    return make_plan(a_job(bury=24.0))


@cache
def _made(kind: str) -> SettledState:
    return settled(_plan(), kind)


def passes_found(strands: Strands) -> tuple[Found, ...]:
    return crossings_found(strands).passes


def _planned(**changed: Any) -> Planned:
    plan = _plan()
    at_tip = plan.braid.strands - 2 * plan.job.practice.taper_drops
    asked = Planned(D, plan.holes, plan.rope_between_holes, plan.bury_length, at_tip)
    return replace(asked, **changed)


def _holes(h2: float) -> tuple[tuple[str, float], ...]:
    return ("H1", 0.0), ("H2", h2)


def _measured(kind: str, strands: Strands | None = None, **changed: Any) -> dict[str, Any]:
    one = _made(kind)
    log = SolverLog(float(one.settled.log.certificate_min), 1.0)
    return measure_step(strands or one.settled.strands, one.settled.draft.thin, one.sections, log, _planned(**changed))


@cache
def _good(kind: str) -> dict[str, Any]:
    return _measured(kind)


def _strands(kind: str) -> Strands:
    return _made(kind).settled.strands


def _failed(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {failure["check"]: failure for failure in report["failures"]}


def _bump(strands: Strands, at: float, half: float) -> Floats:
    return np.cos(np.pi / 2 * np.clip((strands.station - at) / half, -1, 1)) ** 2


# Right steps, wrong ways.


@pytest.mark.parametrize("kind", STEPS)
def test_right_step_passes_and_names_no_mistake(kind: str) -> None:
    report = _good(kind)
    assert report["failures"] == []
    assert report["named"] is None
    assert report["caught"] is False
    assert report["passes_as_declared"] is True
    assert report["crossings_outside_holes"] == 0


@pytest.mark.parametrize("name", WRONG)
def test_wrong_way_is_caught_and_named_by_its_measures_alone(name: str) -> None:
    report = _good(name)
    assert report["named"] == name
    assert report["caught"] is True


@pytest.mark.parametrize("name", ["tail-other-face", "bight-other-face", "both-other-face", "no-tail-pass"])
def test_wrong_invariants_fail_where_the_step_must_have_the_right_ones(name: str) -> None:
    report = _measured(name, invariants=(-1, -1, 0))
    wrong = {key for key, right in (("s_1", -1), ("s_2", -1), ("I_2", 0)) if report["invariants"][key] != right}
    assert wrong
    assert wrong <= _failed(report).keys()


@pytest.mark.parametrize("kind", ["marking", "h2-inside-out", "h1-in-h2", "locked"])
def test_invariants_are_what_passes_and_measured_turns_make_them(kind: str) -> None:
    assert _good(kind)["invariants_agreed"]
    assert all(isinstance(value, int) for value in _good(kind)["invariants"].values())


def test_models_that_end_before_h2_have_no_invariants_and_plain_eyes_none_either() -> None:
    assert "invariants" not in _good("h1-second-fid")
    assert "invariants" in _good("locked")
    assert "invariants" not in _measured("locked", holes=())


# Passes.


def test_bight_is_two_legs_in_one_hole_by_its_two_faces() -> None:
    found = [(one.hole, one.face, one.split) for one in passes_found(_strands("bight-in-h2"))]
    assert found == [("H1", "left", (6, 6)), ("H2", "left", (6, 6)), ("H2", "right", (6, 6))]


def test_first_crossing_is_found_though_it_lies_within_h2() -> None:
    strands = _strands("h1-in-h2")
    places = [
        centre_line(strands)[int(np.searchsorted(strands.station, one.host)), :2] for one in passes_found(strands)
    ]
    assert [one.hole for one in passes_found(strands)] == ["H1", "H2", "H2"]
    assert max(np.linalg.norm(place - places[0]) for place in places) < 0.5 * D


def test_buried_tail_is_no_crossing_until_its_bury_goes_unsaid() -> None:
    strands = _strands("buried")
    assert len(passes_found(strands)) == 2
    assert crossings_found(strands).outside == ()
    assert len(double_points(replace(strands, bury=None))) > 2


def test_double_points_of_a_curve_in_closed_form() -> None:
    """(a sin t, a sin 2t / 2) runs through itself at the origin, at t = 0 and t = pi; it begins at t = -1."""
    t = np.linspace(-1.0, np.pi + 1.0, 1201)
    curve = 100 * np.column_stack([np.sin(t), np.sin(2 * t) / 2, 0 * t])
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(curve, axis=0), axis=1))])
    even = np.arange(0.0, along[-1], 1.0)
    rope = lone([np.column_stack([np.interp(even, along, curve[:, c]) for c in range(3)])])
    expected = [np.interp(place, t, along) for place in (0.0, np.pi)]
    assert double_points(rope) == [pytest.approx((*expected, 0, 0), abs=0.1)]


@pytest.mark.parametrize(("depth", "wide", "number"), [(-1.0, 4.0, 0), (1.0, 4.0, 0), (12.0, 20.0, 2)])
def test_legs_that_only_touch_do_not_cross(depth: float, wide: float, number: int) -> None:
    """A leg 40 mm beside another, with a bulge about `wide` mm across that reaches `depth` mm over it."""
    x = np.arange(0.0, 300.0, 1.0)
    angle = np.linspace(-np.pi / 2, np.pi / 2, 64)[1:-1]
    bend = np.column_stack([300 + 20 * np.cos(angle), 20 + 20 * np.sin(angle)])
    back = np.column_stack([x, 40 - (40 + depth) * np.exp(-(((x - 150) / wide) ** 2))])[::-1]
    line = np.concatenate([np.column_stack([x, 0 * x]), bend, back])
    assert len(double_points(lone([np.pad(line, ((0, 0), (0, 1)))]))) == number


def test_leg_wholly_over_another_is_a_crossing_outside_all_holes() -> None:
    strands = _strands("marking")
    points = strands.points.copy()
    points[..., 2] += 25.0 * _bump(strands, strands.holes[0].guest, 40.0)
    report = _measured("marking", replace(strands, points=points))
    failed = _failed(report)
    assert report["passes"] == []
    assert failed["crossings_outside_holes"]["value"] == 1
    assert failed["crossings_outside_holes"]["where_mm"] == pytest.approx(0.0, abs=3.0)
    assert "passes_as_declared" in failed


def test_hole_declared_elsewhere_leaves_its_pass_outside() -> None:
    strands = _strands("marking")
    moved = replace(strands, holes=(replace(strands.holes[0], host=-60.0),))
    found = crossings_found(moved)
    assert [one.hole for one in found.passes] == [None]
    assert len(found.outside) == 1
    assert not passes_equal(found.passes, moved.holes, D)


@pytest.mark.parametrize("change", [{"face": "right"}, {"guest": 300.0}, {"host": 40.0}])
def test_pass_unlike_the_declared_one_is_noticed(change: dict[str, Any]) -> None:
    strands = _strands("marking")
    declared = (replace(strands.holes[0], **change),)
    assert passes_equal(passes_found(strands), strands.holes, D)
    assert not passes_equal(passes_found(replace(strands, holes=declared)), declared, D)


def test_missing_and_surplus_passes_are_noticed() -> None:
    strands = _strands("bight-in-h2")
    found = passes_found(strands)
    assert passes_equal(found, strands.holes, D)
    assert not passes_equal(found[:-1], strands.holes, D)
    assert not passes_equal(found, strands.holes[:-1], D)
    assert not passes_equal((*found[:2], found[1]), strands.holes, D)


def test_every_pair_of_strands_over_or_under_as_the_split_says() -> None:
    strands = _strands("locked")
    (h1, _) = passes_found(strands)
    over = above(strands, DoublePoint(h1.host, h1.guest))
    assert sorted(over.sum(axis=1).tolist()) == [-12] * 6 + [12] * 6
    assert {int(k) for k in np.nonzero(over.sum(axis=1) > 0)[0]} == set(h1.top)


def test_one_host_strand_on_the_wrong_side_is_counted() -> None:
    strands = _strands("marking")
    top = passes_found(strands)[0].top
    points = strands.points.copy()
    points[top[2], :, 2] -= 22.0 * _bump(strands, 0.0, 35.0)
    report = _measured("marking", replace(strands, points=points))
    assert report["passes"][0]["split"] == [5, 7]
    assert _failed(report)["split at H1"]["bound"] == [6, 6]
    assert report["named"] == "split-5-7"


# Fids.


def test_fid_is_found_where_it_parts_the_rope() -> None:
    (station, split, _), = fids_found(_strands("h1-second-fid"))  # fmt: skip
    assert station == pytest.approx(0.0, abs=0.3)
    assert split == (6, 6)
    (off, split, _), = fids_found(_strands("mark-on-strand"))  # fmt: skip
    assert off == pytest.approx(_plan().pick, abs=0.3)
    assert split == (6, 6)


def test_two_fids_from_opposite_sides_are_both_found_in_h2() -> None:
    found = fids_found(_strands("h2-drawn-out"))
    assert len(found) == 2
    assert all(abs(station - _plan().station_h2) < 1.5 * D for station, _, _ in found)
    assert "h1_off_picks" in _good("h2-drawn-out")


def test_strand_taken_on_the_wrong_side_of_a_fid_is_counted() -> None:
    strands = _strands("h1-second-fid")
    up = int(np.argmax(strands.points[:, int(np.searchsorted(strands.station, 0.0)), 2]))
    points = strands.points.copy()
    points[up, :, 2] -= 30.0 * _bump(strands, 0.0, 40.0)
    report = _measured("h1-second-fid", replace(strands, points=points))
    assert report["fids"][0]["split"] == [5, 7]
    assert "split at a fid" in _failed(report)
    assert report["named"] == "split-5-7"


# What the plan says.


def test_plan_with_h2_elsewhere_names_an_eye_too_short_or_too_long() -> None:
    pick, h2 = _plan().pick, _plan().station_h2
    assert _measured("on-terminator", holes=_holes(h2 + 2 * pick))["named"] == "eye-overstretched"
    assert _measured("locked", holes=_holes(h2 + 2 * pick))["named"] == "no-lock-allowance"
    longer = _measured("locked", holes=_holes(h2 - 4 * pick))
    assert longer["named"] == "eye-loose"
    assert _failed(longer)["eye_off_picks"]["value"] == 4


def test_eye_and_holes_are_measured_as_planned() -> None:
    report = _good("on-terminator")
    assert report["eye_off_picks"] == 0
    assert report["eye_mm"] == pytest.approx(_plan().eye_length, abs=0.2 * D)
    assert report["rope_between_holes_mm"] == pytest.approx(_plan().rope_between_holes, abs=0.2 * D)
    assert report["h1_off_picks"] == pytest.approx(0.0, abs=0.1)


def test_lock_not_drawn_up_yet_has_no_eye_to_measure() -> None:
    for kind in ("marking", "tail-end-in-h2", "bight-in-h2", "free-end-in-h2"):
        assert drawn_up(_strands(kind), passes_found(_strands(kind)), ("H1", "H2")) is None
        assert "eye_mm" not in _good(kind)
    assert drawn_up(_strands("locked"), passes_found(_strands("locked")), ("H1", "H2")) is not None


def test_bury_measured_from_where_the_tail_goes_in() -> None:
    assert bury_length(_strands("buried")) == pytest.approx(_plan().bury_length, abs=0.5 * D)
    assert _good("buried")["strands_at_tip"] == _planned().strands_at_tip
    longer = _measured("buried", bury_length=1.2 * _plan().bury_length)
    assert longer["named"] == "bury-too-short"
    assert _measured("buried", strands_at_tip=0)["named"] == "no-taper"


def test_tail_out_of_its_cover_fails_there() -> None:
    strands = _strands("buried")
    assert strands.bury is not None
    at = strands.bury.guest[0] + 120.0
    points = strands.points + (11.0 * _bump(strands, at, 15.0))[:, None] * [0.0, 1.0, 0.0]
    failed = _failed(_measured("buried", replace(strands, points=points)))
    assert failed["tail_enclosed"]["where_mm"] == pytest.approx(at, abs=15.0)


# Naming, from plain numbers.

PLANNED = Planned(10.0, _holes(268.0), 26.6, 240.0, 2)
LOCKED: dict[str, Any] = {
    "passes": [{"split": [6, 6]}, {"split": [6, 6]}],
    "fids": [],
    "invariants": {"s_1": -1, "s_2": -1, "I_2": 0},
    "h1_off_picks": 0.02,
    "eye_off_picks": 0,
    "rope_between_holes_mm": 27.0,
    "terminator_in": True,
    "bury_length_mm": 238.0,
    "strands_at_tip": 2,
}


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({}, None),
        ({"passes": [{"split": [5, 7]}]}, "split-5-7"),
        ({"fids": [{"split": [7, 5]}]}, "split-5-7"),
        ({"h1_off_picks": -1.0}, "mark-on-strand"),
        ({"invariants": {"s_1": -1, "s_2": -1, "I_2": 2}}, "tail-other-face"),
        ({"invariants": {"s_1": -1, "s_2": 1, "I_2": -2}}, "bight-other-face"),
        ({"invariants": {"s_1": -1, "s_2": 1, "I_2": 0}}, "both-other-face"),
        ({"invariants": {"s_1": -1, "s_2": -1, "I_2": 1}}, "no-tail-pass"),
        ({"rope_between_holes_mm": 40.0}, "holes-too-far"),
        ({"rope_between_holes_mm": 60.0, "invariants": {"s_1": -1, "s_2": -1, "I_2": 2}}, "tail-other-face"),
        ({"eye_off_picks": 6}, "eye-loose"),
        ({"eye_off_picks": -2}, "eye-overstretched"),
        ({"eye_off_picks": -6, "terminator_in": False}, "no-lock-allowance"),
        ({"bury_length_mm": 200.0}, "bury-too-short"),
        ({"strands_at_tip": 12}, "no-taper"),
        ({"bury_length_mm": 100.0, "strands_at_tip": 3}, "bury-too-short"),
    ],
)
def test_name_by_numbers(change: dict[str, Any], name: str | None) -> None:
    assert mistake_named({**LOCKED, **change}, PLANNED) == name


def test_mistakes_of_other_splices_are_not_named() -> None:
    """What is measured is the same; what it is called is the splice's own."""
    other_face = {**LOCKED, "invariants": {"s_1": -1, "s_2": 1, "I_2": 0}}
    assert mistake_named(other_face, replace(PLANNED, mistakes=("end-other-face",))) == "end-other-face"
    assert mistake_named(other_face, replace(PLANNED, mistakes=("eye-loose",))) is None
    uneven = {**LOCKED, "fids": [{"host_mm": 0.0, "split": [5, 7]}]}
    assert mistake_named(uneven, replace(PLANNED, mistakes=("plain-split-5-7",))) == "plain-split-5-7"


@pytest.mark.parametrize(
    ("off", "name"), [(0.4, None), (-0.9, None), (1.2, "plain-eye-loose"), (-1.8, "plain-eye-tight")]
)
def test_a_plain_eye_is_named_loose_or_tight_by_its_rope(off: float, name: str | None) -> None:
    plain = replace(PLANNED, mistakes=("plain-eye-loose", "plain-eye-tight"))
    assert mistake_named({**LOCKED, "plain_eye_off_picks": off}, plain) == name


def test_measures_not_taken_are_not_held_against_the_plan() -> None:
    assert off_plan({}, PLANNED) == []
    assert mistake_named({"passes": [], "fids": [], "terminator_in": False}, PLANNED) is None
