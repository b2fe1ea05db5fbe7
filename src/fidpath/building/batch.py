"""Many splices built at once: by processes of this machine or by a Dask cluster, each once, kept by content.

A build is named by a hash of its job and of this program's own source. The worker hands back the files' bytes; only
this process writes, first the files, last a record of their hashes, so a folder with a fitting record is whole.
Run as `python -m fidpath.building.batch FOLDER`, it builds the pickled job on stdin into the folder.
"""

from __future__ import annotations

import hashlib
import json
import pickle
import secrets
import signal
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, cast

from fidpath.errors import EnvironmentProblem, FidpathError
from fidpath.job.job import Job
from fidpath.machine import files as output
from fidpath.machine.digest import source_digest
from fidpath.planning.ends import splice_job

RECORD = "record.json"
TRIES = 3
"""A build whose process was killed is done again so many times in all."""


@dataclass(frozen=True)
class Built:
    """What a worker hands back: the files by name, or what is wrong; and which source made them."""

    digest: str
    files: dict[str, bytes]
    error: str = ""


@dataclass(frozen=True)
class Task:
    """One splice to build: its key, its job, and the lines and ends that use it."""

    key: str
    job: Job
    used_by: tuple[tuple[str, str], ...]

    @property
    def folder(self) -> str:
        """The name of its folder, and of its job."""
        return f"splice-{self.key[:12]}"


@dataclass(frozen=True)
class Outcome:
    """One task done: the hashes of its files, or what is wrong; `reused` where it was there already."""

    task: Task
    files: dict[str, str]
    reused: bool
    error: str = ""


Work = Callable[[Job], Built]
Tell = Callable[[int, int], None]


def tasks_of(lines: list[tuple[str, Job]]) -> tuple[list[Task], list[tuple[str, str, str]]]:
    """Every different locked splice of these lines once, and the ends that have no strand model, with their kind."""
    found: dict[str, Task] = {}
    left: list[tuple[str, str, str]] = []
    for name, job in lines:
        for index, end in enumerate(job.line.ends):
            if not end.splice.startswith("locked"):
                left.append((name, end.name, end.splice))
                continue
            task = _task(job, index)
            used = (*(found[task.key].used_by if task.key in found else ()), (name, end.name))
            found[task.key] = replace(task, used_by=used)
    return list(found.values()), left


def _task(job: Job, index: int) -> Task:
    """One splice without the names and lengths that don't change it."""
    alone = splice_job(job, index)
    end = replace(alone.line.ends[0], name="eye")
    line = replace(alone.line, name="", ends=(end,), finished_length_mm=None, tension_n=None, adjuster=None)
    bare = replace(alone, name="", source="", line=replace(line, captive_end="other end", confidence=0.95))
    key = hashlib.sha256(f"{source_digest()}\n{bare!r}".encode()).hexdigest()
    task = Task(key, bare, ())
    return replace(task, job=replace(bare, name=task.folder, line=replace(bare.line, name=task.folder)))


def run(
    tasks: list[Task],
    folder: Path,
    *,
    workers: int = 1,
    scheduler: str | None = None,
    fresh: bool = False,
    work: Work | None = None,
    tell: Tell | None = None,
) -> list[Outcome]:
    """Builds every task into its folder, those with a fitting record left as they are; in the order of the tasks.

    Raises OutputError where a result can't be written, EnvironmentProblem where there is no such cluster.
    """
    found = {} if fresh else {task.key: kept for task in tasks if (kept := _kept(task, folder)) is not None}
    wanted = {task.key: task for task in tasks if task.key not in found}
    does = work or build_apart
    results = _by_dask(wanted, does, scheduler) if scheduler else _by_processes(wanted, does, workers)
    for key, built in results:
        if key in found:
            continue
        found[key] = _written(wanted[key], built, folder)
        if tell:
            tell(len(found), len(tasks))
    return [found[task.key] for task in tasks]


def _kept(task: Task, folder: Path) -> Outcome | None:
    """The result that is there for this key, if it is whole."""
    home = folder / task.folder
    try:
        record = json.loads((home / RECORD).read_text(encoding="utf-8"))
        files = {str(name): str(digest) for name, digest in record["files"].items()}
        whole = record["key"] == task.key and all(_hash((home / name).read_bytes()) == files[name] for name in files)
    except (OSError, ValueError, KeyError, AttributeError, TypeError):
        return None
    return Outcome(task, files, reused=True) if whole else None


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _written(task: Task, built: Built, folder: Path) -> Outcome:
    """A worker's result on disk, its record last."""
    if not built.error and built.digest != source_digest():
        built = Built(built.digest, {}, "the worker runs another version of fidpath: give the cluster this one")
    if built.error:
        return Outcome(task, {}, reused=False, error=built.error)
    home = folder / task.folder
    output.make_folder(home)
    (home / RECORD).unlink(missing_ok=True)
    files = {name: _hash(content) for name, content in sorted(built.files.items())}
    for name in files:
        output.write_bytes(home / name, built.files[name])
    record = {"key": task.key, "files": files}
    output.write_text(home / RECORD, json.dumps(record, indent=2) + "\n")
    return Outcome(task, files, reused=False)


def _by_processes(tasks: dict[str, Task], work: Work, workers: int) -> Iterator[tuple[str, Built]]:
    """Each task in a process of its own, so many at a time."""
    from concurrent.futures import ThreadPoolExecutor, as_completed

    with ThreadPoolExecutor(max(1, workers)) as pool:
        running = {pool.submit(work, task.job): key for key, task in tasks.items()}
        for done in as_completed(running):
            yield running[done], _result(done)


def _by_dask(tasks: dict[str, Task], work: Work, scheduler: str) -> Iterator[tuple[str, Built]]:
    """Each task on a Dask cluster, whose scheduler does a lost worker's tasks again; each comes back once."""
    try:
        from distributed import Client, as_completed
    except ImportError:
        remedy = 'Install it with `pip install "fidpath[cluster]"`'
        raise EnvironmentProblem("a Dask cluster needs the package distributed", remedy) from None
    try:
        client = Client(scheduler, timeout="10s")
    except (OSError, ValueError) as problem:
        raise EnvironmentProblem(f"no Dask scheduler answers at {scheduler}", "Check its address") from problem
    with client:
        own = secrets.token_hex(4)
        running = {client.submit(work, task.job, key=f"fidpath-{key}-{own}"): key for key, task in tasks.items()}
        for done in as_completed(list(running)):
            yield running[done], _result(done)
            done.release()


def _result(done: Any) -> Built:
    """A worker's result; what it failed with becomes the task's error, so that the others go on."""
    problem = done.exception()
    if problem is None:
        return cast(Built, done.result())
    return Built("", {}, f"{type(problem).__name__}: {problem}")


def build_apart(job: Job) -> Built:
    """Builds one job in a process of its own; again, where that process was killed."""
    command = [sys.executable, "-m", "fidpath.building.batch"]
    said = ""
    for _ in range(TRIES):
        with tempfile.TemporaryDirectory() as home:
            done = subprocess.run([*command, home], input=pickle.dumps(job), capture_output=True, check=False)
            if done.returncode == 0:
                return Built(source_digest(), {path.name: path.read_bytes() for path in Path(home).iterdir()})
        said = done.stderr.decode("utf-8", "replace").strip().rpartition("\n")[2]
        if done.returncode > 0:
            return Built(source_digest(), {}, said or f"its process ended with code {done.returncode}")
    return Built(source_digest(), {}, f"its process was killed {TRIES} times ({signal.Signals(-done.returncode).name})")


def ledger(outcomes: list[Outcome], left: list[tuple[str, str, str]]) -> dict[str, Any]:
    """What was built for which lines, each splice once, as plain data."""
    return {
        "splices": [
            {
                "folder": outcome.task.folder,
                "key": outcome.task.key,
                "used_by": [{"line": line, "end": end} for line, end in outcome.task.used_by],
                "files": outcome.files,
                "error": outcome.error or None,
            }
            for outcome in outcomes
        ],
        "without_a_strand_model": [{"line": line, "end": end, "splice": splice} for line, end, splice in left],
    }


def _build_here(folder: Path) -> int:
    """Builds the pickled job on stdin into the folder; returns the exit code."""
    from fidpath.building.pipeline import build

    try:
        build(pickle.loads(sys.stdin.buffer.read()), folder, steps=False)
    except FidpathError as error:
        print(error, file=sys.stderr)
        return int(error.code)
    return 0


if __name__ == "__main__":
    sys.exit(_build_here(Path(sys.argv[1])))
