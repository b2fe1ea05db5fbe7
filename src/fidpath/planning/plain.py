"""The plain buried eye as a plan of its own: no lock, the tail goes straight into the standing part at the throat.

Its stations begin at the entry, which stands for both H1 and H2 of a locked splice.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.geometry.braid import braid_of
from fidpath.geometry.bury import cover, taper
from fidpath.geometry.curve import chain, points
from fidpath.geometry.eye import BLEND, Eye, Lens, eye_of_throat, throat_angle
from fidpath.geometry.neck import ENTRY_GAP, SHARED, Neck
from fidpath.job.job import Job
from fidpath.planning.ends import plain_distance
from fidpath.planning.planner import ENTRY_TAKE_UP, TRIM, Plan, make_plan

NO_LOCK = Lens(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
"""A crossing zone without length: the legs part where they lay together."""


def plain_plan(job: Job) -> Plan:
    """The plain buried eye round the job's terminator. Raises CannotBeMade where it can't be."""
    base = make_plan(job)
    braid, practice = braid_of(job.rope), job.practice
    d, bearing = braid.diameter, job.terminator.bearing_diameter_mm
    cut = taper(braid.strands, practice.bury_diameters * d, practice.taper_share, practice.taper_drops, d)
    swallowed = cover(braid, job.rope.squeeze, cut)
    distance = plain_distance(job.terminator, d, job.line.ends[0].eye_length_mm, practice.throat_angle)
    eye = eye_of_throat(NO_LOCK, d, bearing, throat_angle((bearing + d) / 2, distance))
    parting = _parting(eye)
    loop = eye.loop - 2 * parting
    neck = Neck([(SHARED * d, 0.0)], SHARED * d + parting, 0.0, 0.0, SHARED * d)
    tail = loop + cut.tip
    return replace(
        base,
        lens=NO_LOCK,
        eye=replace(eye, loop=loop),
        neck=neck,
        cover=swallowed,
        taper=cut,
        rope_h1_to_h2=loop,
        rope_entry_to_h1=0.0,
        neck_host=0.0,
        neck_tail=0.0,
        bury_length=cut.tip,
        rope_between_holes=0.0,
        hole_spacing=0.0,
        hole_length=0.0,
        eye_length=loop,
        eye_lost_to_lock=0.0,
        loop_before_lock=loop,
        throat_angle=eye.throat,
        throat_distance=eye.distance,
        take_up=swallowed.take_up + ENTRY_TAKE_UP * d,
        tail_beyond_h1=tail,
        tail_to_lay_out=tail + TRIM * d,
    )


def _parting(eye: Eye) -> float:
    """Rope of one leg from where it leaves the common axis to where the tail pierces the wall, mm."""
    d = eye.diameter
    leg = chain(eye.half_pieces, BLEND * d)
    along = np.linspace(0.0, 6 * d, 400)
    off = -points(leg, along)[:, 1]
    return float(np.interp(ENTRY_GAP * d / 2, off, along))
