"""A build as one pass: plan, outputs asked for, what is up to date; make the rest in the pool, assemble, sweep."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from fidpath.building import worker
from fidpath.building.assembly import Assembly, assembly
from fidpath.building.manifest import Manifest
from fidpath.building.pool import WorkerPool, worker_pool
from fidpath.building.progress import ProgressDisplay, progress_bar
from fidpath.building.request import request_for
from fidpath.building.state_cache import StateCache, shared_folder
from fidpath.building.tasks import Task, tasks_of
from fidpath.errors import CannotBeMade, NotOurs
from fidpath.job import Job
from fidpath.machine import core_count, files
from fidpath.methods import registration_of
from fidpath.outputs import Context, Option, Output, PictureStyle, Product, Request, Result, Results
from fidpath.outputs.registered import all_outputs
from fidpath.outputs.registered.finished_splice import CHECK
from fidpath.states import state_of


def build(
    job: Job,
    out: Path,
    *,
    steps: bool = True,
    models: bool = False,
    motion: bool = False,
    film: bool = False,
    style: PictureStyle | None = None,
    display: ProgressDisplay | None = None,
) -> list[Path]:
    """Writes everything that leaves the screen into `out`; returns the files written.

    Without `steps` only the finished splice. `models` adds the teaching models, `motion` the way from step to step,
    `film` that and a turntable. What isn't asked for stays where it is there already and still fits the job. `display`
    is told how far the build is; without it, a terminal is.
    Raises CannotBeMade where a state can't be made or doesn't pass its own check: it is never drawn wrong; NotOurs
    where a file of the user's own would be written over.
    """
    extras: dict[Option, bool] = {"steps": steps, "models": models, "motion": motion or film, "film": film}
    request, manifest = request_for(job, style), Manifest(out)
    if motion and not registration_of(request.method.name).moves:
        known = f"the motion from step to step isn't known for {request.method.name}"
        raise CannotBeMade(known, "Leave --motion out; --film turns the finished splice", key="line.ends.splice")
    work = _planned(request, {"always", *(option for option in extras if extras[option])}, manifest)
    outdated = [task for task in work.tasks if manifest.outdated(task.name, task.digest)]
    for kind in _unlaid(work.tasks, outdated):
        state_of(request.plan, kind)
    manifest.refuse({*_known_files(request, work.outputs)})
    _make_ready(out)
    with (
        progress_bar(display) as shown,
        shared_folder() as shared,
        worker_pool(request, shared, manifest.earlier) as pool,
    ):
        context = Context(request, StateCache(request.plan, shared).settled, tell=shown.tell)
        with assembly(work.assembled, context) as assembled:
            with manifest.withdrawn_on(CannotBeMade, NotOurs):
                results = _run(work, outdated, _Running(manifest, pool, assembled, shown))
            for task in tasks_of(request, work.left, results):
                manifest.up_to_date(task.name, task.digest)
            shown.tell("putting together", 0.9)
            assembled.finish(results, manifest)
    manifest.sweep()
    return manifest.files()


def _make_ready(out: Path) -> None:
    """Makes the folder, and takes out of it what a killed build left half-written."""
    files.make_folder(out)
    for folder in (out, *(path for path in out.iterdir() if path.is_dir())):
        files.sweep_parts(folder)


def _unlaid(tasks: Sequence[Task], outdated: Sequence[Task]) -> list[str]:
    """The states that tasks to be done show, but those of which something has been made for this plan before."""
    to_do = {task.name for task in outdated}
    laid = {kind for task in tasks if task.name not in to_do for kind in task.item.states}
    return [kind for kind in dict.fromkeys(kind for task in outdated for kind in task.item.states) if kind not in laid]


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
        if option in asked or (those and all(_is_there(manifest, task) for task in those))
    }
    return _Work(
        tuple(output for output in outputs if output.option in wanted),
        tuple(sorted((t for option in wanted for t in tasks[option]), key=lambda task: outputs.index(task.output))),
        tuple(output for output in outputs if output.option not in wanted and output.needs),
    )


def _is_there(manifest: Manifest, task: Task) -> bool:
    """Whether a task's result is up to date, without saying that it belongs to this build."""
    return manifest.find(task.name, task.digest, replaced=task.output.replaced) is not None


def _first_tasks(request: Request, outputs: Sequence[Output], option: Option) -> list[Task]:
    """The tasks of an option's outputs that need no others."""
    return list(tasks_of(request, (one for one in outputs if one.option == option and not one.needs)))


def _known_files(request: Request, outputs: Sequence[Output]) -> Iterator[str]:
    """Paths of the outputs' files that are known before anything is made."""
    for output in outputs:
        for item in output.items(request):
            yield from output.files_of(item.name)


@dataclass(frozen=True)
class _Running:
    """What a build is run with: only this process writes, by `manifest`."""

    manifest: Manifest
    pool: WorkerPool
    assembled: Assembly
    shown: ProgressDisplay

    def find(self, task: Task) -> Result | None:
        """A task's result, if it is up to date."""
        return self.manifest.up_to_date(task.name, task.digest, replaced=task.output.replaced)

    def begin(self, tasks: Iterable[Task], passed: bool) -> None:
        """Hands out tasks, but those that show the finished splice only once it has passed its check."""
        self.pool.begin(task for task in tasks if passed or not task.shows_finished)

    def write(self, task: Task, product: Product) -> Result:
        """Writes what a task gave."""
        return self.manifest.write(task.name, task.digest, product)


def _run(work: _Work, outdated: Sequence[Task], running: _Running) -> Results:
    """The results of the first tasks, made by the pool where they aren't up to date.

    What is known to be outdated is begun before the files of the rest are looked at. While one process settles the
    finished splice, another gets ready to draw.
    """
    check = next((task for task in work.tasks if task.output.name == CHECK.name), None)
    passed = check is None or running.find(check) is not None
    running.begin(outdated, passed)
    if not passed:
        running.pool.submit(worker.draw_once)
    with ThreadPoolExecutor(core_count()) as threads:  # hashing lets go of the interpreter
        found = dict(zip((task.name for task in work.tasks), threads.map(running.find, work.tasks), strict=True))
    todo = {task.name: task for task in work.tasks if found[task.name] is None}
    running.begin(todo.values(), passed)
    if len(todo) < len(work.tasks):
        running.assembled.prepare(_by_output(work.tasks, found), {task.output.name for task in todo.values()})
    for task, result in _made(todo, running):
        found[task.name] = result
        if not any(other.output.replaced for other in todo.values()):  # it would write over what replaces it
            missing = {other.output.name for other in todo.values()}
            running.assembled.begin(_by_output(work.tasks, found), missing, running.manifest)
    return _by_output(work.tasks, found)


def _made(todo: dict[str, Task], running: _Running) -> Iterator[tuple[Task, Result]]:
    """Each task with its result as soon as that is written; it is then no longer among those to do."""
    whole, pictured = len(todo), False
    while todo:
        task, product = running.pool.next_done()
        result = running.write(task, product)
        del todo[task.name]
        if task.output.name == CHECK.name:
            running.begin(todo.values(), passed=True)
        picture = next((name for name in product.files if name.endswith(".png")), None)
        if picture is not None and not pictured:
            running.shown.note(f"first picture: {running.manifest.out / picture}")
            pictured = True
        running.shown.tell(task.label, (whole - len(todo)) / whole)
        yield task, result


def _by_output(tasks: Sequence[Task], found: Mapping[str, Result | None]) -> Results:
    """The results that are there by output and item, in the order of the tasks whichever was made first."""
    results: dict[str, dict[str, Result]] = {task.output.name: {} for task in tasks}
    for task in tasks:
        result = found[task.name]
        if result is not None:
            results[task.output.name][task.item.name] = result
    return results
