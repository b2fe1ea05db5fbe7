"""A method from end to end: every state settled and checked, right and wrong, and what a build writes of them."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import trimesh
from PIL import Image

from fidpath.building.manifest import HOME
from fidpath.building.pipeline import build
from fidpath.building.request import request_for
from fidpath.building.state_cache import StateCache
from fidpath.building.verification import verify_steps
from fidpath.checking.report import UPPER
from fidpath.errors import CannotBeMade
from fidpath.job.reader import read_job
from fidpath.methods.registry import method_of
from fidpath.outputs.registered import steps as step_outputs
from fidpath.outputs.registered.steps import step_names
from fidpath.outputs.registry import Context
from fidpath.states.kinds import KINDS
from jobs import a_job
from scenes.settled import shared, states_of

SCENES = Path(__file__).parents[2] / "scenes"
JOBS = ("demo", "eight-strand-teardrop")
LONG = ("pin-twice-the-rope", "inches")
"""More jobs, tried by `make soak`."""


@pytest.fixture(scope="module", params=JOBS + (LONG if os.environ.get("FIDPATH_SOAK") else ()))
def reports(request: pytest.FixtureRequest) -> dict[str, list[dict[str, object]]]:
    job = read_job(SCENES / f"{request.param}.toml")
    if request.param != "demo":
        job = replace(job, practice=replace(job.practice, bury_diameters=20.0))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fidpath.building.verification.shared_folder", shared(request_for(job).plan))
        return verify_steps(job)


def test_every_step_meets_every_bound(reports: dict[str, list[dict[str, object]]]) -> None:
    names = [step["name"] for step in reports["steps"]]
    known = list(dict.fromkeys(state for step in method_of("locked-captive").steps for state in step.states))
    assert names == [state for state in known if state in names or not KINDS[state].moving]  # some moments jam
    for step in reports["steps"]:
        assert step["failures"] == [], step["name"]
        assert step["named"] is None, step["name"]
        moving = KINDS[step["name"]].moving
        assert (step["passes_as_declared"] or moving) and step["crossings_outside_holes"] == 0, step["name"]
        assert all(step[name] <= bound for name, bound in UPPER.items() if name in step)
        if (asked := KINDS[step["name"]].invariants) is not None:
            assert tuple(step["invariants"].values()) == asked, step["name"]


def test_every_wrong_way_is_caught_and_named(reports: dict[str, list[dict[str, object]]]) -> None:
    assert len(reports["mistakes"]) == 12
    for wrong in reports["mistakes"]:
        assert wrong["caught"] and wrong["named"] == wrong["name"]
        assert wrong["overlap_max"] <= UPPER["overlap_max"] and wrong["crossings_changed"] == 0


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out, job = tmp_path_factory.mktemp("method"), a_job(strands=8, bury=14.0)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fidpath.building.pipeline.shared_folder", shared(request_for(job).plan))
        build(job, out)
    return out


def test_a_build_writes_every_step_and_every_wrong_way(folder: Path) -> None:
    way = method_of("locked-captive")
    names = step_names(way)
    wanted = {f"{name}{end}" for name in names for end in (".png", "-mm.stl", ".glb")}
    assert {path.name for path in (folder / "steps").iterdir()} == wanted
    assert {path.stem for path in (folder / "wrong").iterdir()} == {wrong.name for wrong in way.mistakes}
    assert (folder / "contact-sheet.png").exists()
    drawn = {*names, *(f"wrong-{wrong.name}" for wrong in way.mistakes)}
    assert drawn < {path.stem for path in (folder / "lineart").glob("*.svg")}
    assert {path.stem for path in (folder / "lineart").glob("*.svg")} == {
        path.stem for path in (folder / "lineart").glob("*.pdf")
    }
    assert "jigs.txt" in {path.name for path in (folder / "jigs").iterdir()}
    page = (folder / "splice.html").read_text(encoding="utf-8")
    assert all(f'"state":"{state}"' in page for state in ("laid-out", "buried", "eye-loose"))
    assert page.count("data:image/webp") == len(names) + len(way.mistakes)
    report = json.loads((folder / "verify.json").read_text())
    assert len(report["steps"]) == len(way.steps)
    assert [wrong["named"] for wrong in report["mistakes"]] == [wrong.name for wrong in way.mistakes]


def test_a_build_again_makes_only_what_changed(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stamps() -> dict[str, int]:
        files = [path for path in folder.rglob("*") if path.is_file()]
        return {path.relative_to(folder).as_posix(): path.stat().st_mtime_ns for path in files}

    job, way = a_job(strands=8, bury=14.0), method_of("locked-captive")
    monkeypatch.setattr("fidpath.building.pipeline.shared_folder", shared(request_for(job).plan))
    before = stamps()
    build(job, folder)
    assert stamps() == before
    build(job, folder, steps=False)
    assert stamps() == before

    steps = [replace(step, caption="An odd caption") if step.number == 1 else step for step in way.steps]
    with monkeypatch.context() as recaptioned:
        recaptioned.setattr("fidpath.building.request.method_of", lambda _name: replace(way, steps=tuple(steps)))
        recaptioned.setattr(
            "fidpath.building.pipeline.state_of", lambda _plan, kind: pytest.fail(f"{kind} is laid again")
        )
        build(job, folder)
    changed = {name for name, when in stamps().items() if before.get(name) != when}
    assert changed == {
        "steps/01-laid-out.png", "lineart/01-laid-out.svg", "lineart/01-laid-out.pdf", "contact-sheet.png",
        "splice.html", "handout-a4.pdf", "handout-letter.pdf",
        *(f"{HOME}/{name}.json" for name in
          ("step-pictures.01-laid-out", "contact-sheet", "page", "handout.a4", "handout.letter")),
    }  # fmt: skip
    assert "An odd caption" in (folder / "splice.html").read_text(encoding="utf-8")
    (folder / "wrong" / "eye-loose.png").write_bytes(b"spoilt")
    build(job, folder)
    assert (folder / "wrong" / "eye-loose.png").read_bytes().startswith(b"\x89PNG")
    assert "An odd caption" not in (folder / "splice.html").read_text(encoding="utf-8")


def test_a_steps_picture_differs_from_its_neighbours(folder: Path) -> None:
    pictures = sorted((folder / "steps").glob("*.png"))
    seen = [np.asarray(Image.open(path).convert("L").resize((400, 300)), dtype=float) for path in pictures]
    for before, after, path in zip(seen, seen[1:], pictures[1:], strict=False):
        assert (np.abs(before - after) > 25).mean() > 0.02, path.name


def test_solids_of_steps_read_back_as_closed_bodies(folder: Path) -> None:
    for path in (folder / "steps").glob("09*-mm.stl"):
        body = trimesh.load(path)
        assert body.is_watertight and body.volume > 0


def test_a_step_drawn_twice_is_the_same_to_the_byte() -> None:
    request = request_for(a_job(strands=8, bury=14.0))
    states = StateCache(request.plan, states_of(request.plan))
    name = next(name for name in step_names(request.method) if name.endswith("h2-inside-out"))
    sums = []
    for _ in range(2):
        files = step_outputs.make_picture(Context(request, states.settled), name).files
        sums.append({name: hashlib.sha256(content).hexdigest() for name, content in files.items()})
    assert sums[0] == sums[1]


def test_a_job_whose_bight_cannot_pass_is_refused_before_anything_is_written(tmp_path: Path) -> None:
    out = tmp_path / "out"
    with pytest.raises(CannotBeMade, match="16 d"):
        build(a_job(bearing=1.2, eye_length=50.0), out)
    assert not out.exists()


@pytest.mark.parametrize("name", ["locked-free", "plain"])
def test_the_other_methods_settle_and_pass_too(name: str) -> None:
    found = verify_steps(a_job(bury=20.0, splice=name))
    for step in found["steps"]:
        assert step["failures"] == [] and step["named"] is None, step["name"]
    assert [(one["name"], one["named"]) for one in found["mistakes"]] == [
        (m.name, m.name) for m in method_of(name).mistakes
    ]
