"""The main job from end to end: what is written, that it is whole, repeatable, and safe when stopped."""

from __future__ import annotations

import contextlib
import json
import os
import re
import signal
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
import trimesh
from PIL import Image

from fidpath.building import worker
from fidpath.building.manifest import HOME
from fidpath.building.pipeline import build
from fidpath.building.pool import WorkerPool
from fidpath.building.verification import verify_job
from fidpath.errors import CannotBeMade, NotOurs, OutputError
from fidpath.job.reader import parse_job
from fidpath.machine.compiled import cache_folder
from fidpath.machine.files import beside, folder_name, sweep_parts, write_text
from fidpath.outputs.registered.finished_splice import PICTURES as FINISHED_PICTURES
from fidpath.outputs.registry import OUTPUTS, Request
from jobs import die

ROOT = Path(__file__).parents[2]
SHORT = (ROOT / "scenes" / "demo.toml").read_text().replace('bury = "72 d"', 'bury = "16 d"')
VIEWS = {"1-whole-splice.png", "2-throat.png", "3-entry-cut-open.png", "4-taper-end-cut-open.png"}
DRAWINGS = {f"lineart/{Path(name).stem}.{end}" for name in VIEWS for end in ("svg", "pdf")}
FILES = VIEWS | DRAWINGS | {"plan.json", "verify.json", "splice-mm.stl", "splice.glb"}


def names_in(folder: Path) -> set[str]:
    """Every file in a folder by its path there, without the records."""
    found = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    return {path.as_posix() for path in found if path.parts[0] != HOME}


def test_everything_is_there_and_the_users_file_too(built: Path) -> None:
    assert names_in(built) == FILES | {"my own notes.txt"}
    assert (built / "my own notes.txt").read_text() == "keep me"


def test_a_file_of_the_users_own_stops_a_build_before_it_begins(tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text("mine")
    with pytest.raises(NotOurs, match=r"plan\.json exists"):
        build(parse_job(SHORT), tmp_path)
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [("plan.json", "mine")]


def test_plan_and_check_agree(built: Path) -> None:
    plan = json.loads((built / "plan.json").read_text())
    found = json.loads((built / "verify.json").read_text())["finished"]
    assert found["failures"] == []
    assert found["split"] == {"H1": [6, 6], "H2": [6, 6]}
    assert found["take_up_mm"] == pytest.approx(plan["take_up_mm"], rel=0.02)
    assert found["throat_angle_deg"] == pytest.approx(plan["throat_angle_deg"], abs=1.0)


def test_pictures_are_whole_and_differ(built: Path) -> None:
    seen = set()
    for name in VIEWS:
        with Image.open(built / name) as picture:
            picture.load()
            assert picture.width == 1600
            assert len(picture.convert("RGB").getcolors(1 << 24)) > 1000
            seen.add(picture.tobytes())
    assert len(seen) == len(VIEWS)


def test_solids_read_back(built: Path) -> None:
    stl = trimesh.load(built / "splice-mm.stl")
    assert stl.is_watertight
    assert stl.volume > 0
    parts = trimesh.load(built / "splice.glb").geometry
    assert {"standing part", "cover", "eye", "tail", "terminator"} <= set(parts)
    assert 0.05 < float(trimesh.load(built / "splice.glb").extents.max()) < 2.0


def test_same_job_gives_the_same_bytes_elsewhere(built: Path, tmp_path: Path) -> None:
    job = tmp_path / "Übung Ελλάδα.toml"
    job.write_text(SHORT, encoding="utf-8")
    out = tmp_path / ("a rather long folder name " * 5)
    command = [sys.executable, "-m", "fidpath", "build", "--no-steps", str(job), "--out", str(out)]
    setting = {"PATH": "/usr/bin:/bin", "HOME": str(tmp_path), "PYTHONHASHSEED": "5", "TZ": "Asia/Tokyo", "LANG": "C"}
    setting |= {"PYTHONPATH": str(ROOT / "src")}
    setting |= {"NUMBA_CACHE_DIR": str(cache_folder())}  # compiling anew is benchmarks/soak_same.py's
    setting |= {name: value for name, value in os.environ.items() if name.startswith("OPENBLAS_")}  # the last digit's
    done = subprocess.run(command, env=setting, capture_output=True, text=True, check=False, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    for name in FILES:
        assert (out / name).read_bytes() == (built / name).read_bytes(), name


@pytest.mark.parametrize("after", [2.0, 5.0])
def test_a_killed_build_leaves_nothing_half_written(tmp_path: Path, built: Path, after: float) -> None:
    job = tmp_path / "job.toml"
    job.write_text(SHORT)
    out = tmp_path / "out"
    command = [sys.executable, "-m", "fidpath", "build", "--no-steps", str(job), "--out", str(out)]
    running = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    time.sleep(after)
    running.send_signal(signal.SIGKILL)
    running.wait()
    for name in names_in(out) if out.exists() else ():
        if name in FILES:
            assert (out / name).read_bytes() == (built / name).read_bytes(), name
        else:
            assert re.fullmatch(r"\..+\.part\.?\w*", Path(name).name)
    assert _gone(running.pid, 20.0)


def _gone(parent: int, within: float) -> bool:
    """Whether the processes that a killed one had started end by themselves."""
    until = time.monotonic() + within
    while time.monotonic() < until:
        if not _working_for(parent):
            return True
        time.sleep(0.2)
    return False


def _working_for(parent: int) -> list[str]:
    """Command lines of processes that were started to work for one."""
    found = []
    for entry in Path("/proc").glob("[0-9]*/cmdline"):
        with contextlib.suppress(OSError):
            line = entry.read_bytes().replace(b"\0", b" ").decode("utf-8", "replace")
            if f"parent_pid={parent}," in line or f"parent_pid={parent})" in line:
                found.append(line)
    return found


def test_what_a_killed_build_left_is_swept_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / ".plan.0123abcd.part.json").write_text("{")
    (tmp_path / ".my.part.of.the.work").write_text("mine")
    sweep_parts(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [".my.part.of.the.work"]


def test_a_failed_write_leaves_the_old_file(tmp_path: Path) -> None:
    target = tmp_path / "plan.json"
    target.write_text("old")
    with pytest.raises(ZeroDivisionError), beside(target) as part:
        part.write_text("half")
        raise ZeroDivisionError
    assert target.read_text() == "old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_place_that_cannot_be_written_is_said_in_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(OutputError, match="Choose another"):
        build(parse_job(SHORT), tmp_path / "file" / "out", steps=False)
    with pytest.raises(OutputError):
        write_text(tmp_path / "nowhere" / "x.txt", "x")


@pytest.mark.parametrize("name", ["../../etc", "a/b", ".hidden", "", "con\x00trol", "x" * 300])
def test_a_jobs_name_cannot_leave_the_output_folder(name: str) -> None:
    made = folder_name(name)
    assert made
    assert "/" not in made
    assert not made.startswith(".")
    assert len(made) <= 80


def test_a_splice_that_misses_a_bound_is_not_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from fidpath.checking import report

    @contextlib.contextmanager
    def in_a_thread(request: Request, folder: Path | None, _earlier: object) -> Iterator[WorkerPool]:
        worker.start(request, folder)
        with ThreadPoolExecutor(1) as pool:
            yield WorkerPool(pool)

    monkeypatch.setitem(report.UPPER, "overlap_max", 1e-9)
    monkeypatch.setattr("fidpath.building.pipeline.worker_pool", in_a_thread)
    with pytest.raises(CannotBeMade, match="strands run into one another"):
        build(parse_job(SHORT), tmp_path, steps=False)
    assert list(tmp_path.iterdir()) == []


def test_verify_passes_on_the_jobs_figures() -> None:
    found = verify_job(parse_job(SHORT))["finished"]
    assert found["certificate_min"] >= 0.3
    assert found["settle_seconds"] > 0
    assert found["nodes"] > 3000


def test_the_readmes_job_file_is_valid_and_ten_lines() -> None:
    text = (ROOT / "README.md").read_text().split("```toml\n")[1].split("```")[0]
    assert len(text.strip().splitlines()) == 10
    assert parse_job(text).name == "my first eye"


@pytest.mark.parametrize("scene", sorted((ROOT / "scenes").glob("*.toml")), ids=lambda path: path.stem)
def test_every_scene_says_what_it_shows(scene: Path) -> None:
    text = scene.read_text()
    assert text.startswith("# ")
    assert tomllib.loads(text)["schema"] == 1


@pytest.mark.parametrize("after", [1.5, 7.0])
def test_ctrl_c_ends_quietly_at_once_with_its_own_exit_code(tmp_path: Path, after: float) -> None:
    command = [
        sys.executable,
        "-m",
        "fidpath",
        "build",
        str(ROOT / "scenes" / "demo.toml"),
        "--out",
        str(tmp_path / "out"),
    ]
    running = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)
    time.sleep(after)
    os.killpg(running.pid, signal.SIGINT)
    _, said = running.communicate(timeout=20)
    assert running.returncode == 130
    assert said == b""


def test_a_drawing_process_that_dies_is_one_clear_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from fidpath.errors import EnvironmentProblem

    monkeypatch.setitem(OUTPUTS, FINISHED_PICTURES.name, replace(FINISHED_PICTURES, make=die))
    with pytest.raises(EnvironmentProblem, match="stopped from outside"):
        build(parse_job(SHORT), tmp_path, steps=False)
    assert not list(tmp_path.glob("*.png"))
