"""What is built: the job's plan, and the method by which its splice is made."""

from __future__ import annotations

from fidpath.job.job import Job
from fidpath.methods.method_file import method
from fidpath.outputs.registry import PictureStyle, Request
from fidpath.planning.planner import make_plan


def request_for(job: Job, method_name: str | None = None, style: PictureStyle | None = None) -> Request:
    """The request for a job; the method is the one of that name, or else the job's own.

    Raises CannotBeMade where the job can't be planned.
    """
    chosen = method(method_name or job.line.ends[0].splice)
    return Request(make_plan(job), chosen, style or PictureStyle())
