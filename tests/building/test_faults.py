"""A build that is disturbed leaves nothing half-written under a final name, and nothing of the user's lost.

The splice is built once; then a part of it is taken away, and what has to be made again is disturbed. The long trials,
with builds killed and starved from their start, are benchmarks/soak_kills.py.
"""

from __future__ import annotations

import os
import resource
import shutil
import time
from pathlib import Path

import pytest

import faults
from fidpath.building.manifest import HOME, Manifest
from fidpath.errors import OutputError
from fidpath.machine.files import beside, sweep_parts
from fidpath.outputs.registry import Product

TAKEN = "plan.json"
"""What is taken away."""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory, short: str) -> Path:
    path = tmp_path_factory.mktemp("faults") / "a.toml"
    path.write_text(short)
    return path


@pytest.fixture(scope="module")
def whole(job: Path, built: Path) -> dict[str, bytes]:
    """What an undisturbed build writes."""
    (built / faults.NOTES).unlink()
    built.rename(job.parent / "whole")
    return faults.files_in(job.parent / "whole")


@pytest.fixture
def out(job: Path, whole: dict[str, bytes], tmp_path: Path) -> Path:
    """A folder of results from which a file is missing, and with a file of the user's."""
    folder = tmp_path / "out"
    shutil.copytree(job.parent / "whole", folder)
    (folder / TAKEN).unlink()
    return faults.with_notes(folder)


def complete(out: Path, whole: dict[str, bytes]) -> bool:
    """Whether everything is there, and the user's file."""
    return faults.files_in(out) == {**whole, faults.NOTES: b"keep me"}


def test_no_room_for_a_file_is_one_sentence_and_its_exit_code(job: Path, whole: dict[str, bytes], out: Path) -> None:
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, before[1]))
    try:
        running = faults.started(job, out)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    code, said = faults.ended(running)
    assert code == 6, said
    assert faults.one_sentence(said) and "File too large" in said and "Free some space" in said
    assert faults.spoilt(out, whole) == []
    assert TAKEN not in faults.files_in(out)
    assert faults.ended(faults.started(job, out)) == (0, "")
    assert complete(out, whole)


def test_a_full_disk_and_one_that_cannot_be_written(job: Path, whole: dict[str, bytes], tmp_path: Path) -> None:
    size = sum(len(content) for content in whole.values())
    with faults.small_disk(tmp_path / "disk", f"{2 * size // 1024 + 400}k") as disk:
        if disk is None:
            pytest.skip("no disk can be mounted here")
        folder = disk / "out"
        shutil.copytree(job.parent / "whole", folder)
        (folder / TAKEN).unlink()
        faults.with_notes(folder)
        filler = disk / "filler"
        with pytest.raises(OSError), filler.open("wb", buffering=0) as stream:
            while True:
                stream.write(b"x" * 4096)
        code, said = faults.ended(faults.started(job, folder))
        assert code == 6 and faults.one_sentence(said) and "No space left" in said
        assert faults.spoilt(folder, whole) == []
        filler.unlink()
        assert faults.ended(faults.started(job, folder)) == (0, "")
        assert complete(folder, whole)
        assert faults.read_only(disk)
        code, said = faults.ended(faults.started(job, disk / "elsewhere"))
        assert code == 6 and faults.one_sentence(said) and "Choose another with --out" in said
        assert complete(folder, whole)


def test_two_builds_at_once_into_one_folder_both_end_well(job: Path, whole: dict[str, bytes], out: Path) -> None:
    both = [faults.started(job, out) for _ in range(2)]
    assert [faults.ended(one) for one in both] == [(0, ""), (0, "")]
    assert complete(out, whole)


def test_the_clock_does_not_matter(job: Path, whole: dict[str, bytes], out: Path, tmp_path: Path) -> None:
    for path, when in zip(sorted(out.rglob("*.json")), (0, 4e9, 1e9) * 9, strict=False):
        os.utime(path, (when, when))
    running = faults.started(job, out, env=faults.clock_that_jumps(tmp_path / "clock"))
    assert faults.ended(running) == (0, "")
    assert complete(out, whole)


def test_a_long_greek_path_with_spaces_and_nothing_in_the_environment(
    job: Path, whole: dict[str, bytes], out: Path, tmp_path: Path
) -> None:
    folder = tmp_path / ("Σχοινί με κενά " * 5).strip() / ("μακρύ όνομα " * 8).strip()
    folder.parent.mkdir()
    shutil.move(out, folder)
    assert len(str(folder)) > 200
    code, said = faults.ended(faults.started(job, folder, env=faults.bare()))
    assert (code, said) == (0, "")
    assert complete(folder, whole)
    odd = folder.parent / "Ψάθα 10 mm.toml"
    odd.write_text(job.read_text().replace('pitch = "7 d"', 'pitch = "7 κ"'), encoding="utf-8")
    code, said = faults.ended(faults.started(odd, folder, env=faults.bare()))
    assert code == 3 and faults.one_sentence(said) and "7 κ" in said
    assert complete(folder, whole)


def test_a_killed_build_of_another_job_leaves_the_folder_whole(job: Path, whole: dict[str, bytes], out: Path) -> None:
    other = job.with_name("b.toml")
    other.write_text(job.read_text().replace('hole_gap = "1 d"', 'hole_gap = "1.1 d"'))
    for after in (0.3, 1.2, 2.5):
        running = faults.started(other, out)
        assert faults.killed(running, after)
        assert faults.gone(running.pid)
        wrong = faults.spoilt(out, whole)
        assert [fault for fault in wrong if "is not whole, or nobody's" not in fault] == []
        assert not any(fault.startswith(tuple(whole)) for fault in wrong) or after > 1.0
    assert faults.ended(faults.started(job, out)) == (0, "")
    assert complete(out, whole)


def test_what_another_run_is_writing_is_not_swept_away(tmp_path: Path) -> None:
    target = tmp_path / "plan.json"
    with beside(target) as part:
        part.write_text("half")
        left = part.with_name(part.name.replace(f"{os.getpid():08x}", "7fffffff"))
        left.write_text("of a killed run")
        sweep_parts(tmp_path)
        assert part.exists() and not left.exists()
        part.write_text("whole")
    assert target.read_text() == "whole"
    assert list(tmp_path.iterdir()) == [target]


def test_what_cannot_be_removed_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Manifest(tmp_path).write("old", "d", Product({"old.txt": b"old"}))
    now = Manifest(tmp_path)
    now.write("new", "d", Product({"new.txt": b"new"}))

    def refused(path: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "unlink", refused)
    with pytest.raises(OutputError, match=r"can't remove .*old.txt: Permission denied. Choose another"):
        now.sweep()


def test_what_is_wrong_with_a_folder_is_seen(tmp_path: Path) -> None:
    out = faults.with_notes(tmp_path / "out")
    Manifest(out).write("a", "d", Product({"a.txt": b"A"}))
    assert faults.spoilt(out, {"a.txt": b"A"}) == []
    assert faults.spoilt(out, {"a.txt": b"other"}) == ["a.txt is not whole, or nobody's"]
    (out / ".plan.0123abcd0123abcd.part.json").write_text("{")
    (out / HOME / "b.json").write_text("{")
    (out / faults.NOTES).write_text("lost")
    assert faults.spoilt(out, {"a.txt": b"A"}) == ["the user's file was changed", "the record b.json is not whole"]
    (out / faults.NOTES).unlink()
    assert "the user's file is gone" in faults.spoilt(out, {"a.txt": b"A"})


def test_processes_left_behind_are_seen(tmp_path: Path) -> None:
    import subprocess

    running = subprocess.Popen(["sleep", "30"], start_new_session=True)
    try:
        assert faults.orphans(running.pid) == [running.pid]
        assert not faults.gone(running.pid, within=0.2)
    finally:
        running.kill()
        running.wait()
    time.sleep(0.05)
    assert faults.gone(running.pid, within=2.0)
