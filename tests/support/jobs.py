"""Jobs made in code for the tests, without a file."""

from __future__ import annotations

import os
from typing import Any

import numpy as np

from fidpath.job.job import End, Job, Line, Practice, Rope, SpliceKind, StitchPattern, Tools, Weave
from terminators import a_terminator


def a_job(
    d: float = 10.0,
    bearing: float = 5.0,
    strands: int = 12,
    weave: Weave = "over-two",
    pitch: float = 7.0,
    kind: str = "ring",
    squeeze: float = 0.75,
    throat: float = 50.0,
    bury: float = 72.0,
    drops: int | None = None,
    gap: float = 1.0,
    eye_length: float | None = None,
    splice: SpliceKind = "locked-captive",
) -> Job:
    """A job with a rope of `d` mm; other lengths in rope diameters, the throat in degrees."""
    sizes = (bearing * d, 1.4 * d, 0.55 * d)
    more = {
        "ring": {"hole": 0.7 * bearing * d},
        "teardrop": {"hole": 0.7 * bearing * d, "length": (2 * bearing + 1.5) * d, "nose": 0.35 * d},
        "sheave": {"bore": 0.3 * bearing * d},
    }
    return Job(
        name="test",
        rope=Rope("test rope", d, 0.96 * d, 1.05 * d, strands, weave, pitch * d, squeeze),
        terminator=a_terminator(kind, *sizes[: 2 if kind == "pin" else 3], **more.get(kind, {})),
        line=Line("test line", (End("eye", splice, eye_length),), "made off"),
        tools=Tools((0.8 * d, 1.19 * d), 1.0),
        practice=Practice(
            bury_diameters=bury,
            taper_share=1 / 3,
            taper_drops=strands // 2 - 1 if drops is None else drops,
            hole_gap_diameters=gap,
            throat_angle=float(np.radians(throat)),
            post_stretch_share=0.05,
            reference_tension_n=10 * d * d / 8,
            neck_diameters=1.1,
            stitch=StitchPattern(7, 1.0, "whipping twine", "common practice, no source"),
        ),
    )


def plain_job(d: float = 10.0, **more: Any) -> Job:
    """A job for a plain buried eye; the rest as in `a_job`."""
    return a_job(d, splice="plain", **more)


def die(*_about: object) -> bytes:
    """What a drawing process does when the machine kills it."""
    os.abort()
