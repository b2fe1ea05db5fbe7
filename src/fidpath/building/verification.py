"""What `verify` does: settle a job's splice, and its steps if they are wanted, and measure them. Nothing is written."""

from __future__ import annotations

from typing import Any

from fidpath.arrays import Progress
from fidpath.building import worker
from fidpath.building.pool import worker_pool
from fidpath.building.progress import progress_bar, silent
from fidpath.building.request import request_for
from fidpath.building.state_cache import shared_folder
from fidpath.job import Job
from fidpath.outputs import finished_report
from fidpath.settling import settled_state


def verify_finished(job: Job, tell: Progress = silent) -> dict[str, Any]:
    """What the check measures on the job's finished splice. Raises CannotBeMade where it can't be made."""
    request = request_for(job)
    state = settled_state(request.plan, request.finished, lambda share: tell("settling the strands", share))
    return finished_report(request.plan, state)


def verify_job(job: Job, steps: bool = False) -> dict[str, Any]:
    """What the check measures on the job's finished splice, and with `steps` on every step and the usual mistakes."""
    with progress_bar() as shown:
        report: dict[str, Any] = {"name": job.name, "finished": verify_finished(job, shown.tell)}
        return report | verify_steps(job, shown.tell) if steps else report


def verify_steps(job: Job, tell: Progress = silent) -> dict[str, Any]:
    """`steps` and `mistakes`: name, measures and failures of every state of the job's method."""
    request = request_for(job)
    right = [*dict.fromkeys(state for step in request.method.steps for state in step.states)]
    wrong = [mistake.name for mistake in request.method.mistakes]
    with shared_folder() as folder, worker_pool(request, folder) as pool:
        waiting = {name: pool.submit(worker.measured, name) for name in (*right, *wrong)}
        reports = {}
        for number, (name, report) in enumerate(waiting.items()):
            tell(f"checking {name}", number / len(waiting))
            reports[name] = {"name": name} | report.result()
    return {"steps": [reports[name] for name in right], "mistakes": [reports[name] for name in wrong]}
