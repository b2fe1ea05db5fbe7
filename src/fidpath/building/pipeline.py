"""A build as one pass: plan, outputs asked for, what is up to date; make the rest in the pool, assemble, sweep."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

from fidpath.building.manifest import Manifest
from fidpath.building.pool import WorkerPool, worker_pool
from fidpath.building.progress import progress_bar
from fidpath.building.request import request_for
from fidpath.building.state_cache import StateCache, shared_folder
from fidpath.building.tasks import Task, tasks_of
from fidpath.errors import CannotBeMade, NotOurs
from fidpath.job.job import Job
from fidpath.machine import files
from fidpath.methods.registry import registration
from fidpath.outputs.registered import all_outputs
from fidpath.outputs.registered.finished_splice import CHECK
from fidpath.outputs.registry import Context, Option, Output, PictureStyle, Request, Result, Results, Turn
from fidpath.states.kinds import state_of


def build(
    job: Job,
    out: Path,
    *,
    steps: bool = True,
    motion: bool = False,
    film: bool = False,
    style: PictureStyle | None = None,
) -> list[Path]:
    """Writes everything that leaves the screen into `out`; returns the files written.

    Without `steps` only the finished splice. `motion` adds the way from step to step, `film` that and a turntable. What
    isn't asked for stays where it is there already and still fits the job.
    Raises CannotBeMade where a state can't be made or doesn't pass its own check: it is never drawn wrong; NotOurs
    where a file of the user's own would be written over.
    """
    asked: dict[Option, bool] = {"always": True, "steps": steps, "motion": motion or film, "film": film}
    request, manifest = request_for(job, style), Manifest(out)
    if motion and not registration(request.method.name).moves:
        known = f"the motion from step to step isn't known for {request.method.name}"
        raise CannotBeMade(known, "Leave --motion out; --film turns the finished splice", key="line.ends.splice")
    work = _planned(request, {option for option in asked if asked[option]}, manifest)
    outdated = [task for task in work.tasks if manifest.outdated(task.name, task.digest)]
    for kind in dict.fromkeys(kind for task in outdated for kind in task.item.states):
        state_of(request.plan, kind)
    manifest.refuse({*_known_files(request, work.outputs)})
    files.make_folder(out)
    for folder in (out, *(path for path in out.iterdir() if path.is_dir())):
        files.sweep_parts(folder)
    with progress_bar() as tell, shared_folder() as shared, worker_pool(request, shared) as pool:
        context = Context(request, StateCache(request.plan, shared).settled, tell=tell)
        with manifest.withdrawn_on(CannotBeMade, NotOurs):
            results = _run(work, outdated, manifest, pool, context)
        _assemble(work, results, manifest, context)
    manifest.sweep()
    return manifest.files()


@dataclass(frozen=True)
class _Work:
    """One build: the outputs that belong to it, and the tasks of those of them that need no others.

    left: outputs that need others and weren't asked for; they stay only while they fit.
    """

    outputs: tuple[Output, ...]
    tasks: tuple[Task, ...]
    left: tuple[Output, ...]

    @property
    def assembled(self) -> list[Output]:
        """The outputs that are made from the results of others."""
        return [output for output in self.outputs if output.needs]


def _planned(request: Request, asked: set[Option], manifest: Manifest) -> _Work:
    """The outputs asked for; those of another option belong to the build too where all they are made from is there."""
    outputs = all_outputs()
    tasks = {option: _first_tasks(request, outputs, option) for option in {output.option for output in outputs}}
    wanted = {
        option
        for option, those in tasks.items()
        if option in asked or (those and all(manifest.find(task.name, task.digest) for task in those))
    }
    return _Work(
        tuple(output for output in outputs if output.option in wanted),
        tuple(sorted((t for option in wanted for t in tasks[option]), key=lambda task: outputs.index(task.output))),
        tuple(output for output in outputs if output.option not in wanted and output.needs),
    )


def _first_tasks(request: Request, outputs: Sequence[Output], option: Option) -> list[Task]:
    """The tasks of an option's outputs that need no others."""
    return list(tasks_of(request, (one for one in outputs if one.option == option and not one.needs)))


def _known_files(request: Request, outputs: Sequence[Output]) -> Iterator[str]:
    """Paths of the outputs' files that are known before anything is made."""
    for output in outputs:
        for item in output.items(request):
            yield from output.files_of(item.name)


def _run(work: _Work, outdated: Sequence[Task], manifest: Manifest, pool: WorkerPool, context: Context) -> Results:
    """The results of the first tasks, made by the pool where they aren't up to date; only this process writes.

    What is known to be outdated is begun before the files of the rest are looked at.
    """
    _begin(pool, work.tasks, outdated)
    found = {task.name: manifest.up_to_date(task.name, task.digest) for task in work.tasks}
    todo = _begin(pool, work.tasks, [task for task in work.tasks if found[task.name] is None])
    if len(todo) < len(work.tasks):
        _prepare(work, _by_output(work.tasks, found), context, todo)
    for number, task in enumerate(todo):
        context.tell(task.label, number / len(todo))
        found[task.name] = manifest.write(task.name, task.digest, pool.make(task).result())
        if task.output.name == CHECK.name:
            pool.begin(todo)
    return _by_output(work.tasks, found)


def _by_output(tasks: Sequence[Task], found: Mapping[str, Result | None]) -> Results:
    """The results that are there by output and item, in the order of the tasks whichever was made first."""
    results: dict[str, dict[str, Result]] = {task.output.name: {} for task in tasks}
    for task in tasks:
        result = found[task.name]
        if result is not None:
            results[task.output.name][task.item.name] = result
    return results


def _begin(pool: WorkerPool, tasks: Sequence[Task], wanted: Sequence[Task]) -> list[Task]:
    """Hands out the tasks wanted, but those that show the finished splice: they wait until it has passed its check.

    Returns the tasks wanted, with that check where it has to be made for them.
    """
    names = {task.name for task in wanted}
    waits = any(task.shows_finished for task in wanted)
    todo = [task for task in tasks if task.name in names or (waits and task.output.name == CHECK.name)]
    pool.begin(task for task in todo if not task.shows_finished)
    return todo


def _prepare(work: _Work, results: Results, context: Context, todo: Sequence[Task]) -> None:
    """While the pool is at work, what can be made ready of the results that are there."""
    changed = {task.output.name for task in todo}
    for output in work.assembled:
        if output.prepare is not None and changed & set(output.needs):
            output.prepare(replace(context, results=results))


def _assemble(work: _Work, results: Results, manifest: Manifest, context: Context) -> None:
    """The outputs made from others' results, each item only where those or its own words changed.

    Films are made in this thread, which hears a Ctrl-C.
    """
    for task in tasks_of(context.request, work.left, results):
        manifest.up_to_date(task.name, task.digest)
    tasks = list(tasks_of(context.request, work.assembled, results))
    todo = [task for task in tasks if manifest.up_to_date(task.name, task.digest) is None]
    context.tell("putting together", 0.9)
    given = replace(context, results=results)
    with ThreadPoolExecutor(2) as threads:
        short = [task for task in todo if task.output.turn < Turn.FILMS]
        waiting = [(task, threads.submit(task.output.make, given, task.item.name)) for task in short]
        for task, product in waiting:
            manifest.write(task.name, task.digest, product.result())
    for task in (task for task in todo if task.output.turn == Turn.FILMS):
        manifest.write(task.name, task.digest, task.output.make(given, task.item.name))
