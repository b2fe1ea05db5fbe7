"""Many splices built at once: by processes of this machine or by a Dask cluster, each once, known again by its content.

A build is named by a hash of its job and of this program's own source. The worker hands back the files' bytes; only
this process writes, as the manifest of the splice's folder does it.
Run as `python -m fidpath.building.batch FOLDER`, it builds the pickled job on stdin into the folder.
"""

from __future__ import annotations

import hashlib
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

from fidpath.building.manifest import HOME, Manifest
from fidpath.errors import EnvironmentProblem, FidpathError
from fidpath.job import Job
from fidpath.machine import files, source_digest
from fidpath.outputs import Product
from fidpath.outputs.registered import all_outputs
from fidpath.planning import splice_job

RECORD = "splice"
"""The name of a splice's record in its folder."""

TRIES = 3
"""A build whose process was killed is done again so many times in all."""


@dataclass(frozen=True)
class SpliceFiles:
    """What a worker hands back: the files by name, or what is wrong; and which source made them."""

    digest: str
    files: dict[str, bytes]
    error: str = ""


@dataclass(frozen=True)
class SpliceTask:
    """One splice to build: its key, its job, and the lines and ends that use it."""

    key: str
    job: Job
    used_by: tuple[tuple[str, str], ...]

    @property
    def folder(self) -> str:
        """The name of its folder, and of its job."""
        return f"splice-{self.key[:12]}"


@dataclass(frozen=True)
class SpliceResult:
    """One task done: the hashes of its files, or what is wrong; `reused` where it was there already."""

    task: SpliceTask
    files: dict[str, str]
    reused: bool
    error: str = ""


Build = Callable[[Job], SpliceFiles]
Count = Callable[[int, int], None]


def version() -> str:
    """A hash of this program and of all libraries that decide what it builds."""
    return source_digest(tuple(sorted({name for output in all_outputs() for name in output.libraries})))


def tasks_of(lines: list[tuple[str, Job]]) -> tuple[list[SpliceTask], list[tuple[str, str, str]]]:
    """Every different locked splice of these lines once, and the ends that have no strand model, with their kind."""
    tasks: dict[str, SpliceTask] = {}
    left: list[tuple[str, str, str]] = []
    program = version()
    for name, job in lines:
        for index, end in enumerate(job.line.ends):
            if not end.splice.startswith("locked"):
                left.append((name, end.name, end.splice))
                continue
            task = _task(job, index, program)
            used = (*(tasks[task.key].used_by if task.key in tasks else ()), (name, end.name))
            tasks[task.key] = replace(task, used_by=used)
    return list(tasks.values()), left


def _task(job: Job, index: int, program: str) -> SpliceTask:
    """One splice without the names and lengths that don't change it."""
    alone = splice_job(job, index)
    end = replace(alone.line.ends[0], name="eye")
    line = replace(alone.line, name="", ends=(end,), finished_length_mm=None, tension_n=None, adjuster=None)
    bare = replace(alone, name="", source="", line=replace(line, captive_end="other end", confidence=0.95))
    key = hashlib.sha256(f"{program}\n{bare!r}".encode()).hexdigest()
    task = SpliceTask(key, bare, ())
    return replace(task, job=replace(bare, name=task.folder, line=replace(bare.line, name=task.folder)))


def run(
    tasks: list[SpliceTask],
    folder: Path,
    *,
    workers: int = 1,
    scheduler: str | None = None,
    fresh: bool = False,
    work: Build | None = None,
    tell: Count | None = None,
) -> list[SpliceResult]:
    """Builds every task into its folder, those with a fitting record left as they are; in the order of the tasks.

    Raises OutputError where a result can't be written, EnvironmentProblem where there is no such cluster.
    """
    results = {} if fresh else {task.key: done for task in tasks if (done := _there(task, folder)) is not None}
    wanted = {task.key: task for task in tasks if task.key not in results}
    does = work or build_in_process
    built_splices = _by_dask(wanted, does, scheduler) if scheduler else _by_processes(wanted, does, workers)
    for key, built in built_splices:
        if key in results:
            continue
        results[key] = _written(wanted[key], built, folder)
        if tell:
            tell(len(results), len(tasks))
    return [results[task.key] for task in tasks]


def _there(task: SpliceTask, folder: Path) -> SpliceResult | None:
    """The result that is there for this key, if it is whole."""
    result = Manifest(folder / task.folder).find(RECORD, task.key)
    return None if result is None else SpliceResult(task, dict(result.files), reused=True)


def _written(task: SpliceTask, built: SpliceFiles, folder: Path) -> SpliceResult:
    """A worker's result on disk."""
    if not built.error and built.digest != version():
        built = SpliceFiles(built.digest, {}, "the worker runs another version of fidpath: give the cluster this one")
    if built.error:
        return SpliceResult(task, {}, reused=False, error=built.error)
    home = folder / task.folder
    files.make_folder(home)
    product = Product({name: built.files[name] for name in sorted(built.files)})
    return SpliceResult(task, dict(Manifest(home).write(RECORD, task.key, product).files), reused=False)


def _by_processes(tasks: dict[str, SpliceTask], work: Build, workers: int) -> Iterator[tuple[str, SpliceFiles]]:
    """Each task in a process of its own, so many at a time."""
    from concurrent.futures import ThreadPoolExecutor, as_completed

    with ThreadPoolExecutor(max(1, workers)) as pool:
        running = {pool.submit(work, task.job): key for key, task in tasks.items()}
        for done in as_completed(running):
            yield running[done], _result(done)


def _by_dask(tasks: dict[str, SpliceTask], work: Build, scheduler: str) -> Iterator[tuple[str, SpliceFiles]]:
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


def _result(done: Any) -> SpliceFiles:
    """A worker's result; what it failed with becomes the task's error, so that the others go on."""
    problem = done.exception()
    if problem is None:
        return cast(SpliceFiles, done.result())
    return SpliceFiles("", {}, f"{type(problem).__name__}: {problem}")


def build_in_process(job: Job) -> SpliceFiles:
    """Builds one job in a process of its own; again, where that process was killed."""
    command = [sys.executable, "-m", "fidpath.building.batch"]
    said = ""
    for _ in range(TRIES):
        with tempfile.TemporaryDirectory() as home:
            done = subprocess.run([*command, home], input=pickle.dumps(job), capture_output=True, check=False)
            if done.returncode == 0:
                return SpliceFiles(version(), _files_in(Path(home)))
        said = done.stderr.decode("utf-8", "replace").strip().rpartition("\n")[2]
        if done.returncode > 0:
            return SpliceFiles(version(), {}, said or f"its process ended with code {done.returncode}")
    return SpliceFiles(version(), {}, f"its process was killed {TRIES} times ({signal.Signals(-done.returncode).name})")


def _files_in(home: Path) -> dict[str, bytes]:
    """The results in a folder by their paths there."""
    paths = {path.relative_to(home): path for path in sorted(home.rglob("*")) if path.is_file()}
    return {name.as_posix(): path.read_bytes() for name, path in paths.items() if name.parts[0] != HOME}


def ledger(results: list[SpliceResult], left: list[tuple[str, str, str]]) -> dict[str, Any]:
    """What was built for which lines, each splice once, as plain data."""
    return {
        "splices": [
            {
                "folder": result.task.folder,
                "key": result.task.key,
                "used_by": [{"line": line, "end": end} for line, end in result.task.used_by],
                "files": result.files,
                "error": result.error or None,
            }
            for result in results
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
