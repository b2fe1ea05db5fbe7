"""The main job from end to end: plan, settle, measure, draw, write. No geometry here."""

from __future__ import annotations

import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from fidpath import bench_hand, output, together, worklist
from fidpath.bench_hand import SCREEN, Finish
from fidpath.digest import digest_of
from fidpath.errors import CannotBeMade, EnvironmentProblem
from fidpath.finished import Finished, finished_splice
from fidpath.job import Job
from fidpath.kept import Kept
from fidpath.method import Method
from fidpath.method_file import method
from fidpath.planning import Plan, make_plan
from fidpath.steps import check_state
from fidpath.together import without_time

Progress = Callable[[str, float], None]


def finished(job: Job, progress: Progress | None = None) -> Finished:
    """Plans, settles and measures the job's splice. Raises CannotBeMade where it can't be planned or settled."""
    tell = progress or _silent
    return finished_splice(make_plan(job), lambda share: tell("settling the strands", share))


def verify_job(job: Job, method_name: str | None = None) -> dict[str, Any]:
    """What the check measures on the job's finished splice, and with a method's name on all its steps and mistakes."""
    with _bar() as tell:
        report: dict[str, Any] = {"name": job.name, "finished": finished(job, tell).report}
        return report if method_name is None else report | verify_steps(job, method_name, tell)


def verify_steps(job: Job, method_name: str, tell: Progress | None = None) -> dict[str, Any]:
    """`steps` and `wrong_ways`: name, measures and failures of every state of a method."""
    plan, way = make_plan(job), method(method_name)
    names = [*dict.fromkeys(step.state for step in way.steps), *(wrong.name for wrong in way.wrong_ways)]
    with _crew(plan, way) as pool:
        waiting = {name: _hand_out(pool, bench_hand.measured, name) for name in names}
        reports = {}
        for number, (name, one) in enumerate(waiting.items()):
            (tell or _silent)(f"checking {name}", number / len(names))
            reports[name] = {"name": name} | one.result()
    wrong = {wrong.name for wrong in way.wrong_ways}
    return {
        "steps": [report for name, report in reports.items() if name not in wrong],
        "wrong_ways": [report for name, report in reports.items() if name in wrong],
    }


def build(
    job: Job,
    out: Path,
    *,
    steps: bool = True,
    method_name: str | None = None,
    motion: bool = False,
    film: bool = False,
    finish: Finish = SCREEN,
) -> list[Path]:
    """Writes everything that leaves the screen into `out`; returns the files written.

    Without `steps` only the finished splice. `motion` adds the way from step to step, `film` that and a turntable.
    Raises CannotBeMade where a state can't be made or doesn't pass its own check: it is never drawn wrong.
    """
    way = method(method_name or job.line.ends[0].splice) if steps else None
    plan = make_plan(job)
    for step in way.steps if way else ():
        check_state(plan, step.state)
    output.make_folder(out)
    for folder in (out, *(path for path in out.iterdir() if path.is_dir())):
        output.sweep_parts(folder)
    with _bar() as tell:
        with _crew(plan, way, finish) as pool:
            written = _built(pool, plan, way, finish, out, tell)
        return sorted([*written, *_moving(plan, out, tell, motion or film, film)])


def _moving(plan: Plan, out: Path, tell: Progress, motion: bool, turned: bool) -> list[Path]:
    """What moves, where it is asked for."""
    if not motion:
        return []
    from fidpath import moving
    from fidpath.steps import FINISHED, made

    written = moving.write_motion(plan, out, tell)
    return written + (moving.write_turntable(plan, made(plan, FINISHED), out, tell) if turned else [])


def _built(pool: Executor, plan: Plan, way: Method | None, finish: Finish, out: Path, tell: Progress) -> list[Path]:
    """Has done by the crew what isn't there from before, puts it together; only this process writes."""
    kept = Kept(out)
    try:
        data = _pieces(pool, plan, way, finish, kept, tell)
        _put_together(plan, way, finish, kept, data, tell)
    except CannotBeMade:
        kept.withdraw()
        raise
    kept.sweep()
    return kept.files()


def _pieces(
    pool: Executor, plan: Plan, way: Method | None, finish: Finish, kept: Kept, tell: Progress
) -> dict[str, Any]:
    """The data of every piece of work, by its name. Raises CannotBeMade for a state that doesn't pass its check."""
    pieces = worklist.splice_pieces(plan, finish)
    if way is not None:
        steps, wrongs = worklist.step_pieces(plan, way, finish), worklist.wrong_pieces(plan, way, finish)
        pieces = [*steps, *wrongs, *pieces, worklist.jig_piece(plan)]
    found = {piece.name: kept.data(piece.name, piece.digest) for piece in pieces}
    report = kept.data("finished", worklist.finished_digest(plan))
    todo = [piece for piece in pieces if found[piece.name] is None]
    needed = report is None or any(piece.finished for piece in todo)
    settling = _hand_out(pool, bench_hand.settle_finished) if needed else None
    early = {piece.name: _hand_out(pool, piece.task, *piece.arguments) for piece in todo if not piece.finished}
    if settling is not None:
        tell("settling the strands", 0.0)
        measured = settling.result()
        _check("the settled splice", measured, "Nothing was drawn; see `fidpath verify` for all figures")
        report = {"report": without_time(measured)}
        kept.keep("finished", worklist.finished_digest(plan), {}, report)
        for piece in todo:
            if piece.finished:
                early[piece.name] = _hand_out(pool, piece.task, *piece.arguments)
    for number, piece in enumerate(todo):
        tell(piece.name.replace("-", " "), number / len(todo))
        drawn = early[piece.name].result()
        _judge(piece.name, drawn.data)
        data = dict(drawn.data)
        if "report" in data:
            data["report"] = without_time(data["report"])
        kept.keep(piece.name, piece.digest, drawn.files, data)
        found[piece.name] = data
    return {name: data for name, data in found.items() if data is not None} | {"finished": report}


def _judge(name: str, data: Mapping[str, Any]) -> None:
    """Raises CannotBeMade for a step that fails its check, and for a mistake that the check doesn't name."""
    kind, _, rest = name.partition("-")
    if kind == "step":
        _check(f"the step {rest}", data["report"], "See `fidpath verify --steps` for all figures")
    elif kind == "wrong" and data["report"]["named"] != rest:
        said = data["report"]["named"] or "nothing"
        raise CannotBeMade(f"the check names {said} where {rest} is shown", "Report this job: a fault of ours")


def _check(what: str, report: Mapping[str, Any], remedy: str) -> None:
    parts = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in report["failures"]]
    if parts:
        raise CannotBeMade(f"{what} misses its bounds: " + "; ".join(parts), remedy)


def _put_together(
    plan: Plan, way: Method | None, finish: Finish, kept: Kept, data: dict[str, Any], tell: Progress
) -> None:
    """What needs all pieces at once, each made again only where one of them changed."""
    tell("putting together", 0.9)
    of = digest_of(worklist.whole_digest(plan, way), finish, data)
    made: dict[str, Callable[[], dict[str, bytes]]] = {"texts": lambda: together.texts(plan, way, data)}
    if way is not None:
        made["contact-sheet"] = lambda: {"contact-sheet.png": together.steps_sheet(plan, way, kept.out)}
        made["handout"] = lambda: together.handouts(plan, way, data)
        made["page"] = lambda: {"splice.html": together.whole_page(plan, way, kept.out, data)}
    with ThreadPoolExecutor(2) as hands:
        waiting = {name: hands.submit(task) for name, task in made.items() if kept.data(name, of) is None}
        for name, one in waiting.items():
            kept.keep(name, of, one.result(), {})


@contextmanager
def _crew(plan: Plan, way: Method | None, finish: Finish = SCREEN) -> Iterator[Executor]:
    """Processes that settle, measure and draw; only this one writes."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import active_children, get_context

    hands = min(4, max(2, os.cpu_count() or 2))
    before = {child.pid for child in active_children()}
    shelf = _shelf()
    pool = ProcessPoolExecutor(hands, get_context("spawn"), bench_hand.hold, (plan, way, finish, shelf))
    try:
        yield pool
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that draws the pictures was stopped, or this machine can't draw off screen",
            "Free some memory, or install the system's OpenGL and EGL libraries (Mesa's do)",
        ) from problem
    except BaseException:
        _disband(pool, [child for child in active_children() if child.pid not in before])
        raise
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
        if shelf is not None:
            shutil.rmtree(shelf, ignore_errors=True)


def _shelf() -> Path | None:
    """A folder for a crew's settled states; None where there can be none: then some are settled twice."""
    try:
        return Path(tempfile.mkdtemp(prefix="fidpath-"))
    except OSError:
        return None


def _disband(pool: Any, children: list[Any]) -> None:
    """Ends a crew at once, whatever it is at.

    Half a message may be in its pipes, and the pool would wait for the rest forever: with their other ends closed it
    sees that nobody is there.
    """
    for child in children:
        child.kill()
    for child in children:
        child.join()
    for queue, end in (("_result_queue", "_writer"), ("_call_queue", "_reader")):
        pipe = getattr(getattr(pool, queue, None), end, None)
        if pipe is not None:
            pipe.close()
    pool.shutdown(wait=True, cancel_futures=True)


def _hand_out(pool: Executor, task: Callable[..., Any], *arguments: Any) -> Future[Any]:
    """Gives the crew a task. A process started for it never hears a Ctrl-C, which is this one's to answer."""
    with _holding_ctrl_c():
        return pool.submit(task, *arguments)


@contextmanager
def _holding_ctrl_c() -> Iterator[None]:
    """Keeps a Ctrl-C waiting until after; processes started in here never get one."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _silent(_what: str, _share: float) -> None:
    return None


@contextmanager
def _bar() -> Iterator[Progress]:
    """A progress bar on stderr; nothing where that is no terminal."""
    if not sys.stderr.isatty():
        yield _silent
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TimeElapsedColumn())
    with Bar(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("planning", total=1.0)
        yield lambda what, share: bar.update(task, description=what, completed=share)
