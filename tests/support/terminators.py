"""Terminators made in code for the tests, without a file: lengths in mm, nothing checked."""

from __future__ import annotations

from fidpath.job.job import Terminator
from fidpath.job.terminators.deadeye import deadeye
from fidpath.job.terminators.pin import pin
from fidpath.job.terminators.ring import ring
from fidpath.job.terminators.shackle import Shackle, shackle
from fidpath.job.terminators.sheave import sheave
from fidpath.job.terminators.teardrop import teardrop

BODIES = {"ring": ring, "teardrop": teardrop, "deadeye": deadeye, "pin": pin, "sheave": sheave}


def a_terminator(kind: str, *sizes: float, **more: float) -> Terminator:
    """A terminator named for its kind: bearing diameter, width, groove radius, then what the kind has besides."""
    return Terminator(kind, kind, BODIES[kind](*sizes, **more))  # type: ignore[operator]


def a_shackle(on: str = "bow", d: float = 8.0) -> Terminator:
    """A bow shackle for rope `d` mm thick."""
    return Terminator("shackle", "shackle", shackle(Shackle(20.0, 18.0, 28.0, 44.0, 66.0), on, d))  # type: ignore[arg-type]
