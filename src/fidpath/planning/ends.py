"""One end of a line: what its splice or fitting takes of the rope, and where its marks lie from the rope's cut end."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from fidpath.errors import CannotBeMade
from fidpath.geometry.braid import braid_of
from fidpath.geometry.bury import cover, taper
from fidpath.geometry.eye import belt_length, throat_angle
from fidpath.geometry.seat import seat_of
from fidpath.job.job import End, Job, Line, SpliceKind, Terminator
from fidpath.planning.planner import ENTRY_TAKE_UP, TRIM, Plan, make_plan

LEAST_LEG = 1.05
"""A plain eye's throat is at least so many bend radii from the crown's centre; nearer, the legs can't meet."""


@dataclass(frozen=True)
class EndMark:
    """One mark on the straight rope, mm from the cut end it belongs to; `take_up` shares of take-up go on top."""

    name: str
    label: str
    from_cut: float
    formula: str
    take_up_share: float = 0.0


@dataclass(frozen=True)
class EndPlan:
    """One end of a line, mm. Without a splice (a fitting) only `span` counts.

    span: bearing point to where the tail's tip lies in the standing part (a fitting: to the rope's end in it).
    consumed: rope between the same two places, tail and all, less the span, at geometry's own take-up.
    placing: how far H1 or the entry may have to move to sit between crossings, either way.
    parts: what `consumed` is made of, each with its label.
    """

    name: str
    splice: SpliceKind
    terminator: str
    span: float
    consumed: float
    take_up: float
    trim: float
    placing: float
    throat: float
    diameter: float
    marks: tuple[EndMark, ...]
    parts: tuple[tuple[str, float], ...]
    plan: Plan | None = None

    @property
    def spliced(self) -> bool:
        """Whether the rope itself is worked here."""
        return self.splice != "fitting"

    @property
    def fixed(self) -> float:
        """What the splice consumes beside the take-up of its cover."""
        return self.consumed - self.take_up


def end_plan(job: Job, index: int) -> EndPlan:
    """One end of the job's line. Raises CannotBeMade where its splice can't be."""
    end = job.line.ends[index]
    if end.splice == "fitting":
        return _fitting(job, end)
    alone = _alone(job, end)
    try:
        made = _plain(alone) if end.splice == "plain" else _locked(alone)
    except CannotBeMade as refused:
        what = f"{end.name}: {refused.what}"
        raise CannotBeMade(what, refused.remedy, key=_key(refused.key, index, end)) from None
    parts = tuple((label, float(value)) for label, value in made.parts)
    return replace(made, name=end.name, splice=end.splice, span=float(made.span), parts=parts)


def _key(key: str | None, index: int, end: End) -> str | None:
    """A splice's key as the line's file has it: the second end's own tables are below that end."""
    if key is None or index == 0:
        return key
    mine = f"line.ends[{index + 1}]"
    if key.startswith("line.ends."):
        return f"{mine}.{key.removeprefix('line.ends.')}"
    return f"{mine}.{key}" if key.startswith("terminator") and end.terminator else key


def splice_job(job: Job, index: int) -> Job:
    """The job of one locked end by itself, as the strand model takes it; both ways of locking end up the same."""
    end = job.line.ends[index]
    line = replace(job.line, ends=(replace(end, splice="locked-captive", terminator=None),))
    return replace(job, terminator=end.terminator or job.terminator, line=line)


def _alone(job: Job, end: End) -> Job:
    """The splice without names, so that like splices of many lines are worked out once."""
    bare = End("", "locked-captive" if end.splice == "locked-free" else end.splice, end.eye_length_mm)
    terminator = end.terminator or job.terminator
    return Job("", job.rope, terminator, Line("", (bare,), ""), job.tools, job.practice, length_unit=job.length_unit)


def _fitting(job: Job, end: End) -> EndPlan:
    length = end.fitting_length_mm or 0.0
    return EndPlan(
        name=end.name,
        splice=end.splice,
        terminator="made-up fitting",
        span=length,
        consumed=-length,
        take_up=0.0,
        trim=0.0,
        placing=0.0,
        throat=0.0,
        diameter=job.rope.diameter_mm,
        marks=(),
        parts=(("bearing point to the rope's end in the fitting", -length),),
    )


@lru_cache(maxsize=4096)
def _locked(job: Job) -> EndPlan:
    """A locked splice: the same rope goes into it whichever way it is made."""
    plan = make_plan(job)
    d, cut = plan.braid.diameter, plan.bury_length
    rope = plan.cover.host_length + plan.rope_entry_to_h1 + plan.tail_beyond_h1
    trim = TRIM * d
    h1 = trim + plan.tail_beyond_h1
    entry = h1 + plan.rope_entry_to_h1
    marks = (
        EndMark("tail_cut", "cut the tail", trim, f"{TRIM:g} d to trim"),
        EndMark("bury_mark", "bury mark, on the tail", trim + cut, "cut + bury"),
        EndMark("H2", "H2, on the tail", trim + cut + plan.neck_tail, "bury mark + neck"),
        EndMark("H1", "H1, on the standing part", h1, f"H2 + {plan.picks_h1_to_h2} picks"),
        EndMark("entry", "entry, on the standing part", entry, f"H1 + {plan.diamonds_entry_to_h1} diamonds"),
        EndMark("tip", "where the tip comes to lie", entry + plan.cover.host_length, "entry + cover of the bury", 1.0),
    )
    return EndPlan(
        name="",
        splice="locked-captive",
        terminator=job.terminator.name,
        span=rope - plan.rope_consumed,
        consumed=plan.rope_consumed,
        take_up=plan.take_up,
        trim=trim,
        placing=plan.pick,
        throat=plan.throat_angle,
        diameter=d,
        marks=marks,
        parts=(
            ("standing part that swallows the bury", plan.cover.host_length),
            ("neck, standing part", plan.neck_host),
            ("legs between the holes, both", 2 * plan.rope_between_holes),
            ("eye, from H1 round to H1", plan.eye_length),
            ("neck, tail", plan.neck_tail),
            ("bury", cut),
            ("less: bearing point to where the tip comes to lie", plan.rope_consumed - rope),
        ),
        plan=plan,
    )


@lru_cache(maxsize=4096)
def _plain(job: Job) -> EndPlan:
    """A plain buried eye: no lock; the tail goes straight into the standing part at the throat."""
    braid = braid_of(job.rope)
    d, practice = braid.diameter, job.practice
    cut = taper(braid.strands, practice.bury_diameters * d, practice.taper_share, practice.taper_drops, d)
    swallowed = cover(braid, job.rope.squeeze, cut)
    bearing = job.terminator.bearing_diameter_mm
    radius = (bearing + d) / 2
    distance = plain_distance(job.terminator, d, job.line.ends[0].eye_length_mm, practice.throat_angle)
    loop = belt_length(radius, distance)
    trim = TRIM * d
    entry = trim + cut.tip + loop
    marks = (
        EndMark("tail_cut", "cut the tail", trim, f"{TRIM:g} d to trim"),
        EndMark("bury_mark", "bury mark, on the tail", trim + cut.tip, "cut + bury"),
        EndMark("entry", "entry, on the standing part", entry, "bury mark + rope round the eye"),
        EndMark("tip", "where the tip comes to lie", entry + swallowed.host_length, "entry + cover of the bury", 1.0),
    )
    span = swallowed.tip_axial + distance + bearing / 2
    return EndPlan(
        name="",
        splice="plain",
        terminator=job.terminator.name,
        span=span,
        consumed=swallowed.host_length + loop + cut.tip - span,
        take_up=swallowed.take_up + ENTRY_TAKE_UP * d,
        trim=trim,
        placing=braid.pick,
        throat=throat_angle(radius, distance),
        diameter=d,
        marks=marks,
        parts=(
            ("standing part that swallows the bury", swallowed.host_length),
            ("eye, from the entry round to the entry", loop),
            ("bury", cut.tip),
            ("less: bearing point to where the tip comes to lie", -span),
        ),
    )


def plain_distance(terminator: Terminator, d: float, eye_length: float | None, throat: float) -> float:
    """From a plain eye's throat to the crown's centre, mm: by the eye's length, or by the throat angle in radians.

    The legs run straight from the throat to a circle of radius (D + d)/2 (elementary geometry).
    Raises CannotBeMade where the eye is too short for its terminator.
    """
    bearing, seat = terminator.bearing_diameter_mm, seat_of(terminator)
    radius = (bearing + d) / 2
    if eye_length is None:
        widest = min(throat, 2 * seat.flank) if seat.flank > 0 else throat
        return radius / math.sin(widest / 2)
    distance = eye_length - bearing / 2
    least = max(LEAST_LEG * radius, seat.reach + seat.nose + seat.lip + d / 2)
    if distance < least:
        raise CannotBeMade(
            f"an eye of {eye_length:.0f} mm is too short for the terminator",
            f"Make it at least {math.ceil(least + bearing / 2)} mm",
            key="line.ends.eye_length",
        )
    return distance
