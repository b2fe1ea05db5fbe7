"""Every scene, settled and measured from end to end, meets every bound of the check."""

from __future__ import annotations

from pathlib import Path

import pytest

from fidpath.building.request import request_for
from fidpath.job.reader import read_job
from fidpath.outputs.check_reports import finished_report, state_report
from scenes.settled import settled
from terminators import depth_in_bars

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_scene_meets_every_bound(scene: Path) -> None:
    job = read_job(scene)
    request = request_for(job)
    made = settled(request.plan, request.finished)
    found = finished_report(request.plan, made)
    half = job.rope.strands // 2
    assert found["failures"] == []
    assert found["overlap_max"] <= 0.02
    assert found["overlap_p99"] <= 0.001
    assert found["drawn_overlap_max"] <= 0.06
    assert found["drawn_overlap_p99"] == 0
    assert found["terminator_overlap_max_mm"] <= 0.05
    assert found["certificate_min"] >= (0.3 if scene.stem == "demo" else 0.05)
    assert found["crossings_changed"] == 0
    assert found["split"] == {letter: [half, half] for letter in request.plan.letters}
    assert found["tail_enclosed"] is True
    assert found["strand_length_change_max"] <= 0.02
    if job.terminator.body.bars:
        drawn = made.sections.rings.reshape(-1, 3) - made.settled.strands.seat_centre
        assert depth_in_bars(drawn, job.terminator.body.bars) <= 0.05


@pytest.mark.parametrize("kind", ["tail-entering", "locked"])
def test_no_strand_counts_as_hooked_where_two_of_plain_rope_nearly_hide_one_another(kind: str) -> None:
    """The legs of this scene end where, seen along z, some strands of the plain braid lie one behind the other."""
    plan = request_for(read_job(next(scene for scene in SCENES if scene.stem == "both-ends-free"))).plan
    report = state_report(plan, settled(plan, kind))
    assert report["failures"] == [] and report["strands_hooked"] == 0


@pytest.mark.parametrize("kind", ["plain-buried", "plain-eye-loose"])
def test_a_plain_eye_is_measured_from_where_the_tail_goes_in(kind: str) -> None:
    plan = request_for(read_job(next(scene for scene in SCENES if scene.stem == "plain-eye"))).plan
    report = state_report(plan, settled(plan, kind))
    assert report["plain_eye_off_picks"] == pytest.approx(6.0 if kind == "plain-eye-loose" else 0.0, abs=0.5)
    assert report["named"] == (kind if kind == "plain-eye-loose" else None)


def test_scenes_cover_what_was_asked_for() -> None:
    jobs = [read_job(scene) for scene in SCENES]
    assert len(jobs) >= 7
    assert {job.rope.strands for job in jobs} >= {8, 12, 16}
    assert {job.terminator.kind for job in jobs} >= {"ring", "teardrop", "deadeye", "pin", "shackle", "sheave"}
    assert {job.rope.weave for job in jobs} == {"over-two", "over-one"}
    assert min(job.rope.diameter_mm for job in jobs) <= 4
    assert max(job.rope.diameter_mm for job in jobs) >= 20
