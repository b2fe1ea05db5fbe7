"""A finished splice under load: what `verify --loaded` reports of it, and what holds it."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fidpath.building.request import request_for
from fidpath.checking import measure_loaded
from fidpath.job import Job, read_job
from fidpath.loading import load_band
from fidpath.loading.load_band import leg_diameter, let_go
from fidpath.loading.lock import LoadCase, loaded_lock
from fidpath.outputs import loaded_report
from fidpath.settling import SettledState, settled_state

SCENE = Path(__file__).parents[2] / "scenes" / "eight-strand-teardrop.toml"
FIGURES = ("throat_angle_deg", "hole_spacing_mm", "throat_to_crown_mm", "lengthening")


@cache
def _job() -> Job:
    return read_job(SCENE)


@cache
def _state() -> SettledState:
    request = request_for(_job())
    return settled_state(request.plan, request.finished)


@cache
def _report() -> dict:
    return loaded_report(load_band(_state().settled, _job().rope))


def test_figures_are_ranges_in_order_and_the_certificate_holds() -> None:
    report = _report()
    for name in FIGURES:
        least, middle, most = (report[name][end] for end in ("least", "middle", "most"))
        assert least <= middle <= most and least < most
    assert report["certificate_min"] > 0.05
    assert report["split"] == {"H1": [4, 4], "H2": [4, 4]} and report["split_agreed"]


def test_under_load_the_legs_straighten_and_the_rope_grows_longer_and_thinner() -> None:
    report = _report()
    assert report["throat_to_crown_mm"]["least"] > report["hand_snug"]["throat_to_crown_mm"]
    assert report["loaded_diameter_mm"]["most"] < report["hand_snug"]["loaded_diameter_mm"]
    assert report["lengthening"]["middle"] > 0


def test_the_limits_are_said_and_strength_is_denied() -> None:
    said = " ".join(_report()["limits"])
    assert "no statement of strength" in said and "rope.loaded_diameter" in said


def test_a_measured_diameter_is_met_and_leaves_friction_alone_to_spread() -> None:
    rope = _job().rope
    measured = 0.9 * rope.diameter_mm
    band = load_band(_state().settled, replace(rope, loaded_diameter_mm=measured))
    assert leg_diameter(band.middle.strands) == pytest.approx(measured, rel=0.02)
    assert band.thickness[0] == band.thickness[1] and len(band.corners) == 2


def test_the_same_splice_is_loaded_to_the_same_bytes() -> None:
    case = LoadCase(0.1)
    once, again = (loaded_lock(_state().settled, case, stride=2).strands.points for _ in range(2))
    assert once.tobytes() == again.tobytes()


def test_without_friction_the_tail_runs_out_when_its_end_is_let_go() -> None:
    """The lock alone doesn't hold: only friction does."""
    run_out = {}
    for friction in (0.0, 0.1):
        lock = let_go(_state().settled, friction)
        moved = lock.strands.points[:, -1, 0] - lock.before.points[:, -1, 0]
        run_out[friction] = float(np.mean(moved)) / lock.before.braid.diameter
    assert run_out[0.0] > 2.0
    assert run_out[0.1] < 1.0


def test_a_load_is_measured_against_the_splice_itself() -> None:
    lock = loaded_lock(_state().settled, LoadCase(0.1), stride=2)
    unmoved = measure_loaded(lock.before, lock.before, 1.0)
    assert unmoved["lengthening"] == 0.0
    assert unmoved["throat_angle_deg"] == pytest.approx(np.degrees(_state().plan.throat_angle), abs=1.5)
