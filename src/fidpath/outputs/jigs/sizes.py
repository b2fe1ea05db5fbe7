"""Sizes as they are engraved and reported: in the user's unit, as a caliper shows them."""

from __future__ import annotations

from fidpath.job import Job
from fidpath.outputs.jigs.lettering import HELD, wrapped
from fidpath.units import INCH_MM

CHECK = "CHECK WITH CALIPER"
"""Engraved on every gauge."""


def foot(title: str, height: float, room: float) -> list[str]:
    """What stands at the foot of a gauge: its title, and that it is to be checked, in as few lines as fit."""
    return [*wrapped(title, height, room), *wrapped(CHECK, height, room)]


def in_inches(job: Job) -> bool:
    """Whether the job's bench works in inches."""
    return job.length_unit == "in"


def engraved(mm: float, job: Job) -> str:
    """A size without its unit: "10.5", or "0.413" for a bench that works in inches."""
    if in_inches(job):
        return f"{mm / INCH_MM:.3f}"
    return f"{mm:.2f}".rstrip("0").rstrip(".")


def with_unit(mm: float, job: Job) -> str:
    """A size with its unit: "10.5 MM", "0.413 IN"."""
    return f"{engraved(mm, job)}{HELD}{'IN' if in_inches(job) else 'MM'}"


def spoken(mm: float, job: Job) -> str:
    """A size with its unit as a report has it: "10.5 mm", "0.413 in"."""
    return with_unit(mm, job).replace(HELD, " ").lower()
