"""What is built: the job's plan, and the method by which its splice is made."""

from __future__ import annotations

from fidpath.job import Job
from fidpath.methods import method_of
from fidpath.outputs import PictureStyle, Request
from fidpath.planning import make_plan


def request_for(job: Job, style: PictureStyle | None = None) -> Request:
    """The request for a job, by the method of its own splice. Raises CannotBeMade where it can't be planned."""
    return Request(make_plan(job), method_of(job.line.ends[0].splice), style or PictureStyle())
