"""The eye of a locked splice: H2 set on the braid's lattice, the eye that comes of it, and the neck behind it.

A hole's centre lies half a diamond off the crossings, so holes of one direction are a whole number of diamonds (two
picks) apart.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.geometry import (
    Braid,
    Cover,
    CrossingZone,
    Eye,
    Neck,
    Seat,
    crossing_of_gap,
    eye_of_distance,
    eye_of_throat,
    neck_of_length,
)
from fidpath.job import Job, rule
from fidpath.planning.h2_places import Choice, H2Places
from fidpath.planning.plan import Lock

LEAST_NECK, MOST_NECK = 1.3, 3.4
"""Rope from the entry to H2's centre that the neck can be laid in, in rope diameters."""


def locked_eye(job: Job, braid: Braid, seat: Seat, swallowed: Cover) -> tuple[Eye, Neck, Lock]:
    """The job's eye, its neck and its lock. Raises CannotBeMade where none of them closes round the terminator."""
    zone = crossing_of_gap(braid.diameter, job.practice.hole_gap_diameters * braid.diameter)
    wanted = wanted_eye(job, zone, seat)
    places = H2Places(wanted, braid, job.terminator.bearing_diameter_mm, seat)
    choice = chosen(job, wanted, places.nearest_first())
    diamonds, neck, host, tail = neck_on_lattice(job, zone, braid, swallowed)
    return choice.eye, neck, Lock(zone, choice, places, diamonds, host, tail)


def wanted_eye(job: Job, zone: CrossingZone, seat: Seat) -> Eye:
    """The eye as asked for: by its length, by the body's flanks, or by the practice's throat angle."""
    d = job.rope.diameter_mm
    bearing = job.terminator.bearing_diameter_mm
    asked = job.line.ends[0].eye_length_mm
    if asked is not None:
        return eye_of_distance(zone, d, bearing, asked - bearing / 2)
    throat = job.practice.throat_angle
    return eye_of_throat(zone, d, bearing, min(2 * seat.flank, throat) if seat.flank > 0 else throat)


def chosen(job: Job, wanted: Eye, choices: Iterable[Choice]) -> Choice:
    """The place for H2 that leaves the least slack and lets the terminator in, of `choices` in the order of slack.

    A wide throat is taken only where none else is left, or where the job itself asks for one, by its throat angle or
    by a short eye.
    """
    most = np.radians(rule("throat_angle_most").value) + 1e-9
    most = np.inf if wanted.throat > most else most
    wide = None
    for choice in (choice for choice in choices if choice.fits):
        if choice.eye.throat <= most:
            return choice
        wide = wide or choice
    if wide is None:
        raise CannotBeMade(
            f"the terminator ({job.terminator.name}) can't sit in an eye with this throat",
            "Ask for a smaller throat angle or a longer eye",
            file=job.source or None,
            key="terminator",
        )
    return wide


def neck_on_lattice(job: Job, zone: CrossingZone, braid: Braid, swallowed: Cover) -> tuple[int, Neck, float, float]:
    """Diamonds from the entry to H1, the neck's axis, and rope from the entry to H2 on either leg."""
    d = braid.diameter
    diamond = 2 * braid.pick
    wanted = job.practice.neck_diameters * d + zone.hole_length / 2 + zone.rope
    counts = [k for k in range(1, 40) if LEAST_NECK * d <= k * diamond - zone.rope <= MOST_NECK * d]
    if not counts:
        raise CannotBeMade(
            f"no whole number of diamonds ({diamond:.1f} mm each) leaves a neck that closes",
            "Use a shorter pitch or another hole gap",
            file=job.source or None,
            key="rope.pitch",
        )
    best = min(counts, key=lambda k: abs(k * diamond - wanted))
    host = best * diamond - zone.rope
    axial = -float(np.interp(-host, swallowed.host, swallowed.axial))
    try:
        neck = neck_of_length(zone, d, axial)
    except ArithmeticError as problem:
        raise CannotBeMade(
            f"the neck between the entry and H2 doesn't close at {axial / d:.2f} d",
            "Use another hole gap or pitch",
            file=job.source or None,
            key="practice.hole_gap",
        ) from problem
    return best, neck, host, -float(np.interp(-axial, swallowed.axial, swallowed.tail))
