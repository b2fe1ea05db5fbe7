"""The main job from end to end: plan, settle, measure, draw, write. No geometry here."""

from __future__ import annotations

import json
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
from fidpath.plan import Plan, make_plan
from fidpath.sections import Sections, sections_of
from fidpath.settle import Settled, clearest, settle
from fidpath.strands import Strands
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


def verify_job(job: Job) -> dict[str, Any]:
    """What the check measures on the job's finished splice, with its `failures`."""
    with _bar() as tell:
        return {"name": job.name, "finished": finished(job, tell).report}


def build(job: Job, out: Path) -> list[Path]:
    """Writes everything that leaves the screen into `out`; returns the files written.

    Raises CannotBeMade where the splice doesn't pass its own check: it is never drawn wrong.
    """
    output.make_folder(out)
    output.sweep_parts(out)
    with _bar() as tell:
        made = finished(job, tell)
        failures = made.report["failures"]
        if failures:
            raise CannotBeMade(_refusal(failures), "Nothing was drawn; see `fidpath verify` for all figures")
        return [*_texts(made, out), *_drawings(made, out, tell)]


def _refusal(failures: list[dict[str, Any]]) -> str:
    parts = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in failures]
    return "the settled splice misses its bounds: " + "; ".join(parts)


def _texts(made: Finished, out: Path) -> list[Path]:
    """plan.json and verify.json; the check's own run time is left out so that the same job gives the same bytes."""
    report = {key: value for key, value in made.report.items() if key != "settle_seconds"}
    files = {
        "plan.json": sheet.as_json(made.plan),
        "verify.json": json.dumps({"name": made.plan.job.name, "finished": report}, indent=2, ensure_ascii=False)
        + "\n",
    }
    for name, text in files.items():
        output.write_text(out / name, text)
    return [out / name for name in files]


def _drawings(made: Finished, out: Path, tell: Progress) -> list[Path]:
    """Pictures and solids; pictures are drawn by two processes of their own, and only this one writes."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    pool = ProcessPoolExecutor(2, get_context("spawn"), _hold, (made.plan, made.settled.strands, made.sections))
    try:
        return _drawn_by(pool, made, out, tell)
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that draws the pictures was stopped, or this machine can't draw off screen",
            "Free some memory, or install the system's OpenGL and EGL libraries (Mesa's do)",
        ) from problem
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _drawn_by(pool: Executor, made: Finished, out: Path, tell: Progress) -> list[Path]:
    from concurrent.futures import as_completed

    from fidpath import solids
    from fidpath.views import FINISHED

    tell("drawing", 0.0)
    with _deaf_to_ctrl_c():
        drawn = {pool.submit(_draw, name): out / f"{name}.png" for name in FINISHED}
    written = []
    for name, content in solids.files("splice", made.plan.job.terminator, made.settled.strands).items():
        output.write_bytes(out / name, content)
        written.append(out / name)
    for number, picture in enumerate(as_completed(drawn), start=1):
        output.write_bytes(drawn[picture], picture.result())
        written.append(drawn[picture])
        tell("drawing", number / len(drawn))
    return sorted(written)


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


_held: list[tuple[Plan, Strands, Sections]] = []


def _hold(plan: Plan, strands: Strands, sections: Sections) -> None:
    """Keeps a drawing process's model between its pictures."""
    _held[:] = [(plan, strands, sections)]


def _draw(name: str) -> bytes:
    from fidpath import pages, views

    plan, strands, sections = _held[0]
    return pages.png(views.finished_scene(name, plan, strands, sections), plan.braid.thickness)


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
