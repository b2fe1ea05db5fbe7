"""Stand-ins for the build of a splice, importable by worker processes."""

from __future__ import annotations

import functools
import os
import signal
import time
from pathlib import Path

from fidpath.building.batch import Build, SpliceFiles, version
from fidpath.job.job import Job


def files_of(job: Job) -> dict[str, bytes]:
    """What the stand-in makes of a job."""
    return {"plan.json": job.name.encode(), "throat.png": b"\x89PNG" + job.terminator.name.encode()}


def _counted(job: Job, tally: str, dies: str | None) -> SpliceFiles:
    """Leaves a mark each time it is begun; the first time on the named terminator its process is killed."""
    begun = Path(tally) / f"{job.name}.{time.time_ns()}.{os.getpid()}"
    first = not list(begun.parent.glob(f"{job.name}.*"))
    begun.touch()
    if dies == job.terminator.name and first:
        os.kill(os.getpid(), signal.SIGKILL)
    return SpliceFiles(version(), files_of(job))


def counted(tally: Path, dies: str | None = None) -> Build:
    """A build that counts how often it was begun for each job."""
    return functools.partial(_counted, tally=str(tally), dies=dies)


def begun(tally: Path, folder: str) -> int:
    """How often the build of this folder's job was begun."""
    return len(list(tally.glob(f"{folder}.*")))
