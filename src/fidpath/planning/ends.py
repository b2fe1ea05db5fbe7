"""One end of a line: what its splice or fitting takes of the rope, and where its marks lie from the rope's cut end."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from fidpath.errors import CannotBeMade
from fidpath.job import End, Job, Line, SpliceKind
from fidpath.planning.plan import TRIM, Lock, Plan
from fidpath.planning.planner import make_plan


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
        planned = _spliced(alone)
    except CannotBeMade as refused:
        what = f"{end.name}: {refused.what}"
        raise CannotBeMade(what, refused.remedy, key=_key(refused.key, index, end)) from None
    return replace(planned, name=end.name, splice=end.splice)


def _key(key: str | None, index: int, end: End) -> str | None:
    """A splice's key as the line's file has it: the second end's own tables are below that end."""
    if key is None or index == 0:
        return key
    mine = f"line.ends[{index + 1}]"
    if key.startswith("line.ends."):
        return f"{mine}.{key.removeprefix('line.ends.')}"
    return f"{mine}.{key}" if key.startswith("terminator") and end.terminator else key


def splice_job(job: Job, index: int) -> Job:
    """The job of one spliced end by itself, as the strand model takes it."""
    end = job.line.ends[index]
    line = replace(job.line, ends=(replace(end, terminator=None),))
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
def _spliced(job: Job) -> EndPlan:
    """The splice of a job: the same rope goes into a lock whichever way it is made."""
    plan = make_plan(job)
    d, trim = plan.braid.diameter, TRIM * plan.braid.diameter
    return EndPlan(
        name="",
        splice=job.line.ends[0].splice,
        terminator=job.terminator.name,
        span=plan.span,
        consumed=plan.rope_consumed,
        take_up=plan.take_up,
        trim=trim,
        placing=plan.pick,
        throat=plan.throat_angle,
        diameter=d,
        marks=_marks(plan, trim),
        parts=(*_parts(plan), ("less: bearing point to where the tip comes to lie", -plan.span)),
        plan=plan,
    )


def _marks(plan: Plan, trim: float) -> tuple[EndMark, ...]:
    """The splice's marks from the rope's cut end, nearest first; `trim` is cut off."""
    bury_mark = trim + plan.bury_length
    origin = trim + plan.station_tip
    entry = origin - plan.station_entry_host
    between = _lock_marks(plan.lock, bury_mark, origin) if plan.lock else ()
    into = f"H1 + {plan.lock.diamonds_entry_to_h1} diamonds" if plan.lock else "bury mark + rope round the eye"
    return (
        EndMark("tail_cut", "cut the tail", trim, f"{TRIM:g} d to trim"),
        EndMark("bury_mark", "bury mark, on the tail", bury_mark, "cut + bury"),
        *between,
        EndMark("entry", "entry, on the standing part", entry, into),
        EndMark("tip", "where the tip comes to lie", entry + plan.cover.host_length, "entry + cover of the bury", 1.0),
    )


def _lock_marks(lock: Lock, bury_mark: float, h1: float) -> tuple[EndMark, ...]:
    """The lock's two holes."""
    return (
        EndMark("H2", "H2, on the tail", bury_mark + lock.neck_tail, "bury mark + neck"),
        EndMark("H1", "H1, on the standing part", h1, f"H2 + {lock.picks_h1_to_h2} picks"),
    )


def _parts(plan: Plan) -> tuple[tuple[str, float], ...]:
    """The rope in a splice, from where its tip comes to lie round the eye to the tail's cut end."""
    swallowed = ("standing part that swallows the bury", plan.cover.host_length)
    if plan.lock is None:
        return (swallowed, ("eye, from the entry round to the entry", plan.eye_length), ("bury", plan.bury_length))
    return (
        swallowed,
        ("neck, standing part", plan.lock.neck_host),
        ("legs between the holes, both", 2 * plan.lock.zone.rope),
        ("eye, from H1 round to H1", plan.eye_length),
        ("neck, tail", plan.lock.neck_tail),
        ("bury", plan.bury_length),
    )
