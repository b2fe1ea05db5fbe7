"""Many builds at once: each once, known again by its content, done again where its process was killed."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from builders import begun, counted, files_of
from fidpath.building import batch
from fidpath.building.batch import RECORD, SpliceFiles, SpliceTask, run, tasks_of
from fidpath.building.manifest import HOME
from fidpath.cli import main as cli
from fidpath.errors import EnvironmentProblem, Exit
from fidpath.job.job import Job
from fidpath.lines.set_file import read_set
from fidpath.lines.sets import make_set
from lines import SETS, shroud


def the_tasks() -> list[SpliceTask]:
    """The boat's different splices."""
    done = make_set(read_set(SETS / "boat.toml"))
    return tasks_of([(each.name, each.plan.job) for each in done.planned])[0]


def test_like_splices_are_built_once_and_plain_ones_not_at_all() -> None:
    done = make_set(read_set(SETS / "boat.toml"))
    tasks, left = tasks_of([(each.name, each.plan.job) for each in done.planned])
    assert [task.used_by for task in tasks] == [
        (("cap shroud", "lower end"), ("aft shroud", "lower end")),
        (("cap shroud", "upper end"), ("aft shroud", "upper end")),
    ]
    assert left == [("backstay", "upper end", "plain"), ("backstay", "lower end", "fitting")]


def test_a_key_knows_what_changes_the_splice_and_nothing_else() -> None:
    def key(job: Job) -> str:
        return tasks_of([("x", job)])[0][0].key

    same = replace(shroud(), name="another", source="elsewhere.toml")
    longer = shroud(('finished_length = "9.350 m"', 'finished_length = "9.5 m"'))
    assert key(same) == key(shroud()) == key(replace(longer, units=shroud().units))
    assert key(shroud(('pitch = "7 d"', 'pitch = "7.2 d"'))) != key(shroud())


def test_another_version_has_other_keys(monkeypatch: pytest.MonkeyPatch) -> None:
    before = the_tasks()[0].key
    monkeypatch.setattr(batch, "source_digest", lambda _libraries: "another")
    assert the_tasks()[0].key != before


def test_results_are_kept_and_reused_by_content(tmp_path: Path) -> None:
    tally = tmp_path / "tally"
    tally.mkdir()
    tasks, home = the_tasks(), tmp_path / "out"
    first = run(tasks, home, work=counted(tally))
    assert [outcome.reused for outcome in first] == [False, False]
    again = run(tasks, home, work=counted(tally))
    assert [outcome.reused for outcome in again] == [True, True]
    assert [outcome.files for outcome in again] == [outcome.files for outcome in first]
    fresh = run(tasks, home, work=counted(tally), fresh=True)
    assert [outcome.reused for outcome in fresh] == [False, False]
    assert [begun(tally, task.folder) for task in tasks] == [2, 2]


def test_a_damaged_result_is_done_again(tmp_path: Path) -> None:
    tally = tmp_path / "tally"
    tally.mkdir()
    tasks, home = the_tasks(), tmp_path / "out"
    run(tasks, home, work=counted(tally))
    (home / tasks[0].folder / "plan.json").write_bytes(b"cut short")
    (home / tasks[1].folder / HOME / f"{RECORD}.json").unlink()
    assert [outcome.reused for outcome in run(tasks, home, work=counted(tally))] == [False, False]
    assert (home / tasks[0].folder / "plan.json").read_bytes() == tasks[0].folder.encode()


def test_what_fails_is_told_and_the_rest_go_on(tmp_path: Path) -> None:
    def sometimes(job: Job) -> SpliceFiles:
        if job.terminator.kind == "ring":
            raise RuntimeError("it went wrong")
        return SpliceFiles(batch.version(), files_of(job))

    outcomes = run(the_tasks(), tmp_path, work=sometimes, workers=2)
    assert [outcome.error for outcome in outcomes] == ["", "RuntimeError: it went wrong"]
    assert not (tmp_path / outcomes[1].task.folder).exists()


def test_a_worker_of_another_version_is_not_believed(tmp_path: Path) -> None:
    outcomes = run(the_tasks(), tmp_path, work=lambda job: SpliceFiles("older", files_of(job)))
    assert all("another version" in outcome.error for outcome in outcomes)
    assert list(tmp_path.iterdir()) == []


def stand_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: str) -> None:
    """Make the build in a process of its own run `body` in place of the real one."""
    program = tmp_path / "build.py"
    program.write_text(f"import os, pathlib, pickle, signal, sys\nhome = pathlib.Path(sys.argv[-1])\n{body}\n")
    script = tmp_path / "python"
    import sys

    script.write_text(f'#!/bin/sh\nshift 2\nexec {sys.executable} {program} "$@"\n')
    script.chmod(0o755)
    monkeypatch.setattr(batch.sys, "executable", str(script))


def test_a_killed_process_is_started_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    mark = tmp_path / "mark"
    body = (
        f"mark = pathlib.Path({str(mark)!r})\nfirst = not mark.exists()\nmark.touch()\n"
        "os.kill(os.getpid(), signal.SIGKILL) if first else (home / 'plan.json').write_text('made')"
    )
    stand_in(tmp_path, monkeypatch, body)
    assert batch.build_in_process(the_tasks()[0].job).files == {"plan.json": b"made"}


def test_all_files_of_a_build_are_handed_back_and_no_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    body = (
        f"for name in ('plan.json', 'lineart/1.svg', '{HOME}/names'):\n"
        "    (home / name).parent.mkdir(exist_ok=True)\n    (home / name).write_text(name)"
    )
    stand_in(tmp_path, monkeypatch, body)
    task = the_tasks()[0]
    built = batch.build_in_process(task.job)
    assert set(built.files) == {"plan.json", "lineart/1.svg"}
    run([task], tmp_path / "out")
    assert (tmp_path / "out" / task.folder / "lineart" / "1.svg").read_text() == "lineart/1.svg"


def test_a_process_killed_every_time_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(tmp_path, monkeypatch, "os.kill(os.getpid(), signal.SIGKILL)")
    assert batch.build_in_process(the_tasks()[0].job).error == "its process was killed 3 times (SIGKILL)"


def test_what_a_build_refuses_is_handed_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(tmp_path, monkeypatch, "print('it misses its bounds', file=sys.stderr)\nsys.exit(4)")
    assert batch.build_in_process(the_tasks()[0].job).error == "it misses its bounds"


@pytest.mark.filterwarnings("ignore::ResourceWarning", "ignore::pytest.PytestUnraisableExceptionWarning")
@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_on_a_dask_cluster_a_killed_workers_job_is_done_again(tmp_path: Path) -> None:
    distributed = pytest.importorskip("distributed")
    tally, home = tmp_path / "tally", tmp_path / "out"
    tally.mkdir()
    jobs = [shroud(('eye_length = "110 mm"', f'eye_length = "{110 + 7 * n} mm"')) for n in range(4)]
    tasks = tasks_of([(f"line {n}", job) for n, job in enumerate(jobs)])[0]
    assert len(tasks) == 5
    told: list[tuple[int, int]] = []
    with distributed.LocalCluster(
        n_workers=2,
        threads_per_worker=1,
        dashboard_address="127.0.0.1:0",
        silence_logs=50,
        local_directory=str(tmp_path),
    ) as cluster:
        outcomes = run(
            tasks,
            home,
            scheduler=cluster.scheduler_address,
            work=counted(tally, dies="deadeye"),
            tell=lambda count, total: told.append((count, total)),
        )
    assert [outcome.error for outcome in outcomes] == [""] * 5
    assert told == [(count, 5) for count in range(1, 6)]
    killed = next(task for task in tasks if task.job.terminator.name == "deadeye")
    assert begun(tally, killed.folder) == 2
    book = batch.ledger(outcomes, [])["splices"]
    assert sorted(entry["key"] for entry in book) == sorted(task.key for task in tasks)
    for task in tasks:
        record = json.loads((home / task.folder / HOME / f"{RECORD}.json").read_text(encoding="utf-8"))
        assert record["digest"] == task.key
        assert (home / task.folder / "plan.json").read_bytes() == task.folder.encode()


@pytest.mark.filterwarnings("ignore::ResourceWarning", "ignore::pytest.PytestUnraisableExceptionWarning")
def test_no_cluster_at_that_address(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    distributed = pytest.importorskip("distributed")

    def refuses(*args: object, **kwargs: object) -> None:
        raise OSError("timed out")

    monkeypatch.setattr(distributed, "Client", refuses)
    with pytest.raises(EnvironmentProblem, match=r"no Dask scheduler answers at tcp://127\.0\.0\.1:9"):
        run(the_tasks(), tmp_path, scheduler="tcp://127.0.0.1:9", work=counted(tmp_path))


def test_the_command_builds_each_splice_and_keeps_a_book(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def builds(job: Job) -> SpliceFiles:
        bad = job.terminator.kind == "ring"
        return SpliceFiles(batch.version(), {} if bad else files_of(job), "it misses its bounds" if bad else "")

    monkeypatch.setattr(batch, "build_in_process", builds)
    command = ["set", str(SETS / "boat.toml"), "--build", "--workers", "2", "--out", str(tmp_path)]
    assert cli.main(command) == Exit.CANNOT_BE_MADE
    assert "1 splices were not built: cap shroud: it misses its bounds" in capsys.readouterr().err
    book = json.loads((tmp_path / "built.json").read_text(encoding="utf-8"))
    assert [bool(entry["error"]) for entry in book["splices"]] == [False, True]
    assert len(book["without_a_strand_model"]) == 2
    assert [path.name for path in (tmp_path / "splices").iterdir()] == [book["splices"][0]["folder"]]
