"""Job -> every number of the splice, in mm and radians. What each is called and where it comes from: `sheet`.

Stations are rope lengths from H1's centre on the standing part, growing toward the tail's tip. A hole's centre
lies half a diamond off the crossings, so holes of one direction are a whole number of diamonds (two picks) apart.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.geometry.braid import Braid, braid_of
from fidpath.geometry.bury import Cover, Taper, cover, taper
from fidpath.geometry.eye import Eye, Lens, eye_of_distance, eye_of_loop, eye_of_throat, leg_tension_share, lens_of_gap
from fidpath.geometry.neck import Neck, neck_of_length
from fidpath.geometry.seat import Seat, seat_of
from fidpath.job.job import Job, Terminator, closes
from fidpath.job.rules import rule

LEAST_NECK, MOST_NECK = 1.3, 3.4
"""Rope from the entry to H2's centre that the neck can be laid in, in rope diameters."""

PASSING_ROOM = 0.3
"""Least clear distance from the terminator's rim to the middle of H1, in rope diameters, beyond half the rope."""

ENTRY_TAKE_UP = 0.045
"""Rope that the cover loses besides, where its strands part round the tail at the entry, in rope diameters (measured on
settled models of 8 to 16 strands: 0.01 to 0.1)."""

TRIM = 4.0
"""Rope left beyond the rough bury mark, to be cut off when the bury is measured exactly, in rope diameters."""


@dataclass(frozen=True)
class Choice:
    """One place where H2 could go: rope from H1 in whole picks, and the eye that comes of it."""

    picks: int
    rope_h1_to_h2: float
    eye: float
    slack: float
    throat: float
    rolled: bool
    fits: bool


@dataclass(frozen=True)
class Openings:
    """How far each hole is opened across, and no more; fids by diameter. All mm."""

    first_fid: float
    second_fid: float
    h1_across: float
    h2_across: float
    most_across: float


@dataclass(frozen=True)
class Plan:
    """Every number of one splice; mm, radians, shares. The geometry the model is built from rides along."""

    job: Job
    braid: Braid
    lens: Lens
    eye: Eye
    neck: Neck
    cover: Cover
    taper: Taper
    seat: Seat
    choices: tuple[Choice, ...]
    openings: Openings
    picks_h1_to_h2: int
    diamonds_entry_to_h1: int
    rope_h1_to_h2: float
    rope_entry_to_h1: float
    neck_host: float
    neck_tail: float
    bare_neck: float
    bury_length: float
    hole_gap: float
    hole_spacing: float
    rope_between_holes: float
    hole_length: float
    eye_wanted: float
    eye_length: float
    eye_slack: float
    eye_lost_to_lock: float
    loop_before_lock: float
    stretch_needed_without_allowance: float
    throat_angle: float
    throat_distance: float
    leg_tension_share: float
    D_over_d: float
    pick: float
    swollen_diameter: float
    take_up: float
    rope_consumed: float
    tail_beyond_h1: float
    tail_to_lay_out: float
    rough_bury_mark: float

    @property
    def locked(self) -> bool:
        """Whether the legs run through each other; a plain buried eye has no lock."""
        return self.rope_between_holes > 0

    @property
    def holes(self) -> tuple[tuple[str, float], ...]:
        """The lock's holes by letter and station on their host, mm, in order from the eye; none without a lock."""
        return (("H1", 0.0), ("H2", self.station_h2)) if self.locked else ()

    @property
    def letters(self) -> tuple[str, ...]:
        """The letters of the lock's holes, in order from the eye."""
        return tuple(letter for letter, _ in self.holes)

    @property
    def station_h2(self) -> float:
        """H2's centre on the tail."""
        return self.rope_h1_to_h2

    @property
    def station_entry_tail(self) -> float:
        """The tail's station at the entry."""
        return self.rope_h1_to_h2 + self.neck_tail

    @property
    def station_entry_host(self) -> float:
        """The standing part's station at the entry."""
        return -self.rope_entry_to_h1

    @property
    def station_tip(self) -> float:
        """The tail's tip, once cut."""
        return self.tail_beyond_h1


def make_plan(job: Job) -> Plan:
    """Every number of the job's splice. Raises CannotBeMade where the job's geometry can't be."""
    _check_weave(job)
    braid = braid_of(job.rope)
    d = braid.diameter
    lens = lens_of_gap(d, job.practice.hole_gap_diameters * d)
    openings = openings_of(job)
    wanted = _wanted_eye(job, lens)
    choices = _choices(job, braid, lens, wanted)
    eye, picks = _chosen(job, braid, lens, wanted, choices)
    cut = taper(braid.strands, job.practice.bury_diameters * d, job.practice.taper_share, job.practice.taper_drops, d)
    swallowed = cover(braid, job.rope.squeeze, cut)
    diamonds, neck, neck_host, neck_tail = _neck(job, braid, lens, swallowed)
    rope_h1_to_h2 = picks * braid.pick
    bury_length = cut.tip
    lost = lens.gap + lens.rope
    tail = rope_h1_to_h2 + neck_tail + bury_length
    return Plan(
        job=job,
        braid=braid,
        lens=lens,
        eye=eye,
        neck=neck,
        cover=swallowed,
        taper=cut,
        seat=seat_of(job.terminator),
        choices=choices,
        openings=openings,
        picks_h1_to_h2=picks,
        diamonds_entry_to_h1=diamonds,
        rope_h1_to_h2=rope_h1_to_h2,
        rope_entry_to_h1=2 * diamonds * braid.pick,
        neck_host=neck_host,
        neck_tail=neck_tail,
        bare_neck=neck_host - lens.hole_length / 2,
        bury_length=bury_length,
        hole_gap=lens.gap,
        hole_spacing=lens.spacing,
        rope_between_holes=lens.rope,
        hole_length=lens.hole_length,
        eye_wanted=wanted.loop,
        eye_length=eye.loop,
        eye_slack=eye.loop - wanted.loop,
        eye_lost_to_lock=lost,
        loop_before_lock=eye.loop + lost,
        stretch_needed_without_allowance=lost / (eye.loop - lost),
        throat_angle=eye.throat,
        throat_distance=eye.distance,
        leg_tension_share=leg_tension_share(eye.throat),
        D_over_d=job.terminator.bearing_diameter_mm / d,
        pick=braid.pick,
        swollen_diameter=swallowed.swollen_diameter,
        take_up=swallowed.take_up + ENTRY_TAKE_UP * d,
        rope_consumed=_consumed(lens, eye, neck, neck_host, neck_tail, swallowed, bury_length),
        tail_beyond_h1=tail,
        tail_to_lay_out=tail + TRIM * d,
        rough_bury_mark=bury_length + TRIM * d,
    )


def _check_weave(job: Job) -> None:
    rope = job.rope
    if not closes(rope.strands, rope.weave):
        raise CannotBeMade(
            f"a braid of {rope.strands} strands doesn't close on itself {rope.weave}",
            "Use a number of strands that is a multiple of 4, or over-one",
            file=job.source or None,
            key="rope.weave",
        )
    if rope.strands % 4:
        raise CannotBeMade(
            f"a straight hole can't part {rope.strands} strands evenly: a gap faces a crossing",
            "The lock needs a number of strands that is a multiple of 4",
            file=job.source or None,
            key="rope.strands",
        )


def openings_of(job: Job) -> Openings:
    """Which fids open the rope and pass it, and how far each hole is opened.

    A squeezed tail is `squeeze` d across; two legs side by side fill a round hole of (pi + 2)/pi times that
    (perimeter of the hull of two touching circles). The fids' bounds are rules of practice.
    """
    d = job.rope.diameter_mm
    opens = (rule("fid_opens_least").value, rule("fid_opens_most").value)
    passes = (rule("fid_passes_least").value, rule("fid_passes_most").value)
    first = [f for f in job.tools.fids_mm if opens[0] * d <= f <= opens[1] * d]
    second = [f for f in job.tools.fids_mm if passes[0] * d <= f <= passes[1] * d]
    if not first or not second:
        (low, high), which = (opens, "opens the rope") if not first else (passes, "opens it wide enough to pass")
        raise CannotBeMade(
            f"no fid at hand {which}: {d:g} mm rope wants one of {low * d:.1f} to {high * d:.1f} mm",
            "Add such a fid to tools.fids",
            file=job.source or None,
            key="tools.fids",
        )
    squeezed = job.rope.squeeze * d
    return Openings(max(first), min(second), squeezed, squeezed * (np.pi + 2) / np.pi, passes[1] * d)


def _rim(terminator: Terminator) -> float:
    """How far the body reaches from the crown's centre toward the throat, mm."""
    seat = seat_of(terminator)
    return seat.reach + seat.nose + seat.lip


def _wanted_eye(job: Job, lens: Lens) -> Eye:
    """The eye as asked for: by its length, by a teardrop's flanks, or by the practice's throat angle."""
    d = job.rope.diameter_mm
    bearing = job.terminator.bearing_diameter_mm
    asked = job.line.ends[0].eye_length_mm
    if asked is not None:
        return eye_of_distance(lens, d, bearing, asked - bearing / 2)
    flank = seat_of(job.terminator).flank
    throat = min(2 * flank, job.practice.throat_angle) if flank > 0 else job.practice.throat_angle
    return eye_of_throat(lens, d, bearing, throat)


def _fits(job: Job, eye: Eye) -> bool:
    d = job.rope.diameter_mm
    room = eye.distance - _rim(job.terminator) >= (0.5 + PASSING_ROOM) * d
    flank = seat_of(job.terminator).flank
    return bool(room and (flank == 0 or eye.throat / 2 <= flank + np.radians(1.0)))


def _choices(job: Job, braid: Braid, lens: Lens, wanted: Eye) -> tuple[Choice, ...]:
    """The places for H2 nearest the one that would fit exactly, shortest first."""
    ideal = (wanted.loop + lens.rope) / braid.pick
    found = []
    for picks in range(int(np.floor(ideal)) - 3, int(np.ceil(ideal)) + 5):
        loop = picks * braid.pick - lens.rope
        try:
            eye = eye_of_loop(lens, braid.diameter, job.terminator.bearing_diameter_mm, loop)
        except CannotBeMade:
            continue
        rolled = bool(picks % 2)
        fits = _fits(job, eye)
        found.append(Choice(picks, picks * braid.pick, loop, loop - wanted.loop, eye.throat, rolled, fits))
    return tuple(found)


def _chosen(job: Job, braid: Braid, lens: Lens, wanted: Eye, choices: tuple[Choice, ...]) -> tuple[Eye, int]:
    """The place for H2 that leaves the least slack and lets the terminator in, without rolling the rope.

    A wide throat is taken only where none else is left, or where the job itself asks for one, by its throat angle or
    by a short eye.
    """
    most = np.radians(rule("throat_angle_most").value) + 1e-9
    most = np.inf if wanted.throat > most else most
    good = [c for c in choices if c.fits and not c.rolled]
    if not good:
        raise CannotBeMade(
            f"the terminator ({job.terminator.name}) can't sit in an eye with this throat",
            "Ask for a smaller throat angle or a longer eye",
            file=job.source or None,
            key="terminator",
        )
    best = min(good, key=lambda c: (c.throat > most, abs(c.slack)))
    return eye_of_loop(lens, braid.diameter, job.terminator.bearing_diameter_mm, best.eye), best.picks


def _neck(job: Job, braid: Braid, lens: Lens, swallowed: Cover) -> tuple[int, Neck, float, float]:
    """Diamonds from the entry to H1, the neck's axis, and rope from the entry to H2 on either leg."""
    d = braid.diameter
    diamond = 2 * braid.pick
    wanted = job.practice.neck_diameters * d + lens.hole_length / 2 + lens.rope
    counts = [k for k in range(1, 40) if LEAST_NECK * d <= k * diamond - lens.rope <= MOST_NECK * d]
    if not counts:
        raise CannotBeMade(
            f"no whole number of diamonds ({diamond:.1f} mm each) leaves a neck that closes",
            "Use a shorter pitch or another hole gap",
            file=job.source or None,
            key="rope.pitch",
        )
    best = min(counts, key=lambda k: abs(k * diamond - wanted))
    host = best * diamond - lens.rope
    axial = -float(np.interp(-host, swallowed.host, swallowed.axial))
    try:
        neck = neck_of_length(lens, d, axial)
    except ArithmeticError as problem:
        raise CannotBeMade(
            f"the neck between the entry and H2 doesn't close at {axial / d:.2f} d",
            "Use another hole gap or pitch",
            file=job.source or None,
            key="practice.hole_gap",
        ) from problem
    return best, neck, host, -float(np.interp(-axial, swallowed.axial, swallowed.tail))


def _consumed(
    lens: Lens, eye: Eye, neck: Neck, neck_host: float, neck_tail: float, swallowed: Cover, bury_length: float
) -> float:
    """Rope from a point of the standing part below the tip to the cut tail's end, less what it spans when made."""
    rope = swallowed.host_length + neck_host + 2 * lens.rope + eye.loop + neck_tail + bury_length
    span = swallowed.tip_axial + neck.reach + lens.spacing + eye.distance + eye.bend_radius - eye.diameter / 2
    return rope - span
