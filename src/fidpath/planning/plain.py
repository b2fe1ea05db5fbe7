"""The plain buried eye: no lock; the tail goes straight into the standing part at the throat."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.geometry import (
    BLEND,
    ENTRY_GAP,
    NO_CROSSING,
    SHARED,
    Eye,
    Neck,
    Seat,
    chain,
    eye_of_throat,
    points,
    throat_angle,
)
from fidpath.job import Job

LEAST_LEG = 1.05
"""A plain eye's throat is at least so many bend radii from the crown's centre; nearer, the legs can't meet."""


def plain_eye(job: Job, seat: Seat) -> tuple[Eye, Neck]:
    """The job's eye and its neck. Raises CannotBeMade where the eye is too short for its terminator.

    The eye's loop runs from the entry round to the entry, where the tail pierces the standing part's wall; the legs lie
    together from there to the throat, and the neck ends at the entry.
    """
    d, bearing = job.rope.diameter_mm, job.terminator.bearing_diameter_mm
    distance = _distance(job, seat)
    eye = eye_of_throat(NO_CROSSING, d, bearing, throat_angle((bearing + d) / 2, distance))
    together = _together(eye)
    neck = Neck([(SHARED * d, 0.0)], SHARED * d + together, 0.0, -together, SHARED * d)
    return replace(eye, loop=eye.loop - 2 * together), neck


def _together(eye: Eye) -> float:
    """Rope of one leg from the throat, where the axes part, to where the tail pierces the wall, mm."""
    d = eye.diameter
    leg = chain(eye.half_pieces, BLEND * d)
    along = np.linspace(0.0, 6 * d, 400)
    off = -points(leg, along)[:, 1]
    return float(np.interp(ENTRY_GAP * d / 2, off, along))


def _distance(job: Job, seat: Seat) -> float:
    """From the throat to the crown's centre, mm: by the eye's length, by the body's flanks, or by the throat angle.

    The legs run straight from the throat to a circle of radius (D + d)/2 (elementary geometry).
    """
    d, bearing = job.rope.diameter_mm, job.terminator.bearing_diameter_mm
    radius, asked = (bearing + d) / 2, job.line.ends[0].eye_length_mm
    if asked is None:
        throat = job.practice.throat_angle
        return radius / math.sin((min(throat, 2 * seat.flank) if seat.flank > 0 else throat) / 2)
    distance = asked - bearing / 2
    least = max(LEAST_LEG * radius, seat.reach + seat.nose + seat.lip + d / 2)
    if distance < least:
        raise CannotBeMade(
            f"an eye of {asked:.0f} mm is too short for the terminator",
            f"Make it at least {math.ceil(least + bearing / 2)} mm",
            file=job.source or None,
            key="line.ends.eye_length",
        )
    return distance
