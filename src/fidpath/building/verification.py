"""What `verify` does: settle a job's splice, and its steps if they are wanted, and measure them. Nothing is written."""

from __future__ import annotations

from typing import Any

from fidpath.arrays import Progress
from fidpath.building import worker
from fidpath.building.pool import worker_pool
from fidpath.building.progress import progress_bar, silent
from fidpath.building.request import request_for
from fidpath.building.state_cache import shared_folder
from fidpath.errors import CannotBeMade
from fidpath.job import Job
from fidpath.loading import load_band
from fidpath.outputs import Request, finished_report, loaded_report
from fidpath.settling import SettledState, settled_state
from fidpath.states import kind_of


def verify_finished(job: Job, tell: Progress = silent) -> dict[str, Any]:
    """What the check measures on the job's finished splice. Raises CannotBeMade where it can't be made."""
    request, state = _finished(job, tell)
    return finished_report(request.plan, state)


def _finished(job: Job, tell: Progress) -> tuple[Request, SettledState]:
    request = request_for(job)
    return request, settled_state(request.plan, request.finished, lambda share: tell("settling the strands", share))


def verify_job(job: Job, steps: bool = False, loaded: bool = False) -> dict[str, Any]:
    """What the check measures on the job's finished splice, in `finished`.

    steps: also on every step and the usual mistakes. loaded: also on the finished splice under load, in `loaded`.
    """
    with progress_bar() as shown:
        request, state = _finished(job, shown.tell)
        report: dict[str, Any] = {"name": job.name, "finished": finished_report(request.plan, state)}
        if loaded:
            shown.tell("loading the splice", 0.0)
            report["loaded"] = loaded_report(load_band(state.settled, job.rope))
        return report | verify_steps(job, shown.tell) if steps else report


def verify_steps(job: Job, tell: Progress = silent) -> dict[str, Any]:
    """`steps` and `mistakes`: name, measures and failures of every state of the job's method.

    A moment of a motion that jams is left out.
    """
    request = request_for(job)
    right = [*dict.fromkeys(state for step in request.method.steps for state in step.states)]
    wrong = [mistake.name for mistake in request.method.mistakes]
    with shared_folder() as folder, worker_pool(request, folder) as pool:
        waiting = {name: pool.submit(worker.measured, name) for name in (*right, *wrong)}
        reports = {}
        for number, (name, report) in enumerate(waiting.items()):
            tell(f"checking {name}", number / len(waiting))
            try:
                reports[name] = {"name": name} | report.result()
            except CannotBeMade:
                if not kind_of(name).moving:
                    raise
    return {
        "steps": [reports[name] for name in right if name in reports],
        "mistakes": [reports[name] for name in wrong],
    }
