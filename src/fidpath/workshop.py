"""The main job from end to end: plan, settle, measure, draw, write. No geometry here."""

from __future__ import annotations

import json
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fidpath import output, sheet
from fidpath.errors import CannotBeMade, EnvironmentProblem
from fidpath.job import Job
from fidpath.method import Method
from fidpath.method_file import method
from fidpath.plan import Plan, make_plan
from fidpath.sections import Sections, sections_of
from fidpath.settle import Settled, clearest, settle
from fidpath.step_record import Record, without_time
from fidpath.steps import check_state
from fidpath.verify import SolverLog, measure

Progress = Callable[[str, float], None]


@dataclass(frozen=True)
class Finished:
    """One job's finished splice: its plan, its settled strands, their drawn sections, and what the check found."""

    plan: Plan
    settled: Settled
    sections: Sections
    report: dict[str, Any]


def finished(job: Job, progress: Progress | None = None) -> Finished:
    """Plans, settles and measures the job's splice. Raises CannotBeMade where it can't be planned or settled."""
    tell = progress or _silent
    plan = make_plan(job)
    settled = settle(clearest(plan), progress=lambda share: tell("settling the strands", share))
    tell("measuring", 0.0)
    sections = sections_of(settled.strands)
    log = SolverLog(float(settled.log.certificate_min), settled.log.settle_seconds)
    found = measure(settled.strands, settled.draft.thin, sections, log, plan.take_up, plan.throat_angle)
    return Finished(plan, settled, sections, found)


def verify_job(job: Job, method_name: str | None = None) -> dict[str, Any]:
    """What the check measures on the job's finished splice, and with a method's name on all its steps and mistakes."""
    with _bar() as tell:
        report: dict[str, Any] = {"name": job.name, "finished": finished(job, tell).report}
        return report if method_name is None else report | verify_steps(job, method_name, tell)


def verify_steps(job: Job, method_name: str, tell: Progress | None = None) -> dict[str, Any]:
    """`steps` and `wrong_ways`: name, measures and failures of every state of a method."""
    from fidpath import bench_hand

    plan, way = make_plan(job), method(method_name)
    names = [*dict.fromkeys(step.state for step in way.steps), *(wrong.name for wrong in way.wrong_ways)]
    with _crew(plan, way) as pool, _deaf_to_ctrl_c():
        waiting = {name: pool.submit(bench_hand.measured, name) for name in names}
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
    output.sweep_parts(out)
    with _bar() as tell:
        with _crew(plan, way) as pool:
            written = _built(pool, job, way, out, tell)
        return sorted([*written, *_moving(plan, out, tell, motion or film, film)])


def _moving(plan: Plan, out: Path, tell: Progress, motion: bool, turned: bool) -> list[Path]:
    """What moves, where it is asked for."""
    if not motion:
        return []
    from fidpath import moving
    from fidpath.steps import FINISHED, made

    written = moving.write_motion(plan, out, tell)
    return written + (moving.write_turntable(plan, made(plan, FINISHED), out, tell) if turned else [])


def _built(pool: Executor, job: Job, way: Method | None, out: Path, tell: Progress) -> list[Path]:
    """Has the steps drawn by the crew while this process settles the finished splice; only this one writes."""
    from fidpath import bench_hand

    with _deaf_to_ctrl_c():
        steps = [pool.submit(bench_hand.draw_step, k) for k in range(len(way.steps) if way else 0)]
        wrongs = [pool.submit(bench_hand.draw_wrong, wrong.name) for wrong in (way.wrong_ways if way else ())]
    made = finished(job, tell)
    failures = made.report["failures"]
    if failures:
        raise CannotBeMade(_refusal(failures), "Nothing was drawn; see `fidpath verify` for all figures")
    written = _finished_files(pool, made, out, tell)
    if way is None:
        return [*written, *_texts(made, {}, out)]
    record = Record(way, made.plan, out, tell)
    written += record.steps([one.result for one in steps]) + record.wrong_ways([one.result for one in wrongs])
    return [*written, *_texts(made, record.reports, out)]


def _refusal(failures: list[dict[str, Any]]) -> str:
    parts = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in failures]
    return "the settled splice misses its bounds: " + "; ".join(parts)


def _texts(made: Finished, reports: dict[str, Any], out: Path) -> list[Path]:
    """plan.json and verify.json; the check's own run time is left out so that the same job gives the same bytes."""
    report = {"name": made.plan.job.name, "finished": without_time(made.report), **reports}
    files = {
        "plan.json": sheet.as_json(made.plan),
        "verify.json": json.dumps(report, indent=2, ensure_ascii=False) + "\n",
    }
    for name, text in files.items():
        output.write_text(out / name, text)
    return [out / name for name in files]


def _finished_files(pool: Executor, made: Finished, out: Path, tell: Progress) -> list[Path]:
    """Pictures and solids of the finished splice."""
    from concurrent.futures import as_completed

    from fidpath import bench_hand, solids
    from fidpath.views import FINISHED

    tell("drawing the finished splice", 0.0)
    strands = made.settled.strands
    with _deaf_to_ctrl_c():
        drawn = {pool.submit(bench_hand.draw_finished, name, strands): out / f"{name}.png" for name in FINISHED}
    written = []
    for name, content in solids.files("splice", made.plan.job.terminator, strands).items():
        output.write_bytes(out / name, content)
        written.append(out / name)
    for number, picture in enumerate(as_completed(drawn), start=1):
        output.write_bytes(drawn[picture], picture.result())
        written.append(drawn[picture])
        tell("drawing the finished splice", number / len(drawn))
    return written


@contextmanager
def _crew(plan: Plan, way: Method | None) -> Iterator[Executor]:
    """Processes that settle, measure and draw; only this one writes."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    from fidpath import bench_hand

    hands = min(4, max(2, os.cpu_count() or 2))
    pool = ProcessPoolExecutor(hands, get_context("spawn"), bench_hand.hold, (plan, way))
    try:
        yield pool
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that draws the pictures was stopped, or this machine can't draw off screen",
            "Free some memory, or install the system's OpenGL and EGL libraries (Mesa's do)",
        ) from problem
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


@contextmanager
def _deaf_to_ctrl_c() -> Iterator[None]:
    """Processes started in here ignore a Ctrl-C, which is this one's to answer."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


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
