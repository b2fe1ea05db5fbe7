"""As built: what was measured at the bench against the plan, and what a difference means there. Never strength."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Annotated, Literal

from pydantic import Field

from fidpath.errors import JobError
from fidpath.geometry import braid_of, eye_of_loop, wall
from fidpath.job import Force, Job, Length, Name, Table, about, key_path, positive, read_as, rule
from fidpath.lines.line import make_line
from fidpath.lines.loft import cover_of
from fidpath.lines.uncertainty import TakeUpEstimate, prior
from fidpath.planning import EndPlan, Plan, end_plan
from fidpath.units import INCH_MM, is_imperial, show_length

LENGTHS = ("bury", "eye_length", "h1_to_h2", "swollen_diameter", "finished_length", "before", "after")
READING = 0.05
"""Two lengths closer than this, mm, are the same to any tape or caliper."""


class MeasuredTable(Table):
    """[measured]"""

    date: datetime.date | None = None
    end: Annotated[int, Field(ge=1, le=2)] = 1
    tension: Force | None = None
    note: Name | None = None
    bury: Length | None = None
    eye_length: Length | None = None
    h1_to_h2: Length | None = None
    swollen_diameter: Length | None = None
    finished_length: Length | None = None
    before: Length | None = None
    after: Length | None = None


class MeasuredFile(Table):
    """A whole file of measurements."""

    schema_version: Literal[1] = Field(alias="schema")
    measured: MeasuredTable


@dataclass(frozen=True)
class Measured:
    """What was measured of one end, mm and N; `end` counts from 0."""

    end: int
    lengths: dict[str, float]
    tension: float | None
    date: str
    note: str


@dataclass(frozen=True)
class Row:
    """One figure, planned and measured, mm; what is allowed of the difference, and what the difference means."""

    name: str
    label: str
    planned: float
    measured: float
    least: float
    most: float
    meaning: str

    @property
    def difference(self) -> float:
        """Measured less planned."""
        return self.measured - self.planned

    @property
    def within(self) -> bool:
        """Whether the difference is one that is allowed."""
        return self.least - READING <= self.difference <= self.most + READING


def read_measured(path: FilePath, job: Job) -> Measured:
    """The measurements in a TOML file. Raises JobError where it says what can't be."""
    table, text = read_as(path, MeasuredFile)
    said = table.measured
    lengths: dict[str, float] = {}
    with about(text, str(path)):
        for name in LENGTHS:
            measure = getattr(said, name)
            if measure is not None:
                positive(key_path("measured") / name, measure)
                lengths[name] = measure.mm(job.rope.diameter_mm)
    if not lengths:
        remedy = f"Give one or more of {', '.join(LENGTHS)}"
        raise JobError("nothing is measured in this file", remedy, file=str(path), key="measured")
    if said.end > len(job.line.ends):
        raise JobError("the job's line has one end", "Write end = 1", file=str(path), key="measured.end")
    tension = said.tension.value if said.tension else None
    return Measured(said.end - 1, lengths, tension, str(said.date or ""), said.note or "")


@dataclass(frozen=True)
class _Comparison:
    """What every comparison needs."""

    job: Job
    end: EndPlan
    estimate: TakeUpEstimate
    measured: Measured

    def shown(self, mm: float, fine: bool = False) -> str:
        """A length in the job's unit."""
        imperial = is_imperial(self.job.length_unit)
        tenth = INCH_MM / 64 if imperial else 0.1
        return show_length(mm, self.job.length_unit, tenth if fine else self.job.tools.tape_division_mm)


def compare(job: Job, measured: Measured, estimate: TakeUpEstimate | None = None) -> tuple[Row, ...]:
    """Every figure that was measured. Raises JobError where the job plans no such figure."""
    comparison = _Comparison(job, end_plan(job, measured.end), estimate or prior(), measured)
    return tuple(row for compared in COMPARED for row in compared(comparison))


def _bury(comparison: _Comparison) -> Iterator[Row]:
    """A bury is a least length."""
    cut = comparison.measured.lengths.get("bury")
    if cut is None:
        return
    planned = _bury_planned(comparison)
    short = planned - cut
    if short > READING:
        meaning = (
            f"the bury is {comparison.shown(short)} short of {comparison.shown(planned)}: a least length goes up to "
            "the tape's next mark, never down to a round figure. The rope maker's instructions say whether it may stand"
        )
    else:
        meaning = "as long as planned" if -short <= READING else f"{comparison.shown(-short)} longer than it need be"
    yield Row("bury", "bury", planned, cut, 0.0, float("inf"), meaning)


def _bury_planned(comparison: _Comparison) -> float:
    _spliced(comparison, "bury")
    return comparison.job.practice.bury_diameters * comparison.job.rope.diameter_mm


def _spliced(comparison: _Comparison, key: str) -> None:
    if not comparison.end.spliced:
        what = f"{comparison.end.name} is a made-up fitting and has none"
        raise JobError(what, "Leave it out, or name the other end", key=f"measured.{key}")


def _planned(comparison: _Comparison, key: str) -> Plan:
    """The end's splice as planned. Raises JobError for a made-up fitting."""
    _spliced(comparison, key)
    assert comparison.end.plan is not None
    return comparison.end.plan


def pick_of_eye(plan: Plan) -> float:
    """How much longer the eye gets, throat to crown, with one pick more of rope in it, mm."""
    bearing = plan.job.terminator.bearing_diameter_mm
    closed = plan.eye_length if plan.lock else plan.eye_length - 2 * plan.neck.reach
    longer = eye_of_loop(plan.eye.zone, plan.braid.diameter, bearing, closed + plan.pick)
    return longer.distance - plan.eye.distance


def _eye(comparison: _Comparison) -> Iterator[Row]:
    """The eye, throat to crown: it moves in steps of one pick."""
    eye = comparison.measured.lengths.get("eye_length")
    if eye is None:
        return
    plan = _planned(comparison, "eye_length")
    planned = plan.throat_to_crown
    step = pick_of_eye(plan)
    off = eye - planned
    picks = round(abs(off) / step)
    mark, first = plan.letters[-1] if plan.lock else "B", plan.origin
    moved = f"nearer to {first} makes the eye shorter" if off > 0 else f"further from {first} makes the eye longer"
    pick, by = comparison.shown(plan.pick, fine=True), comparison.shown(step, fine=True)
    said = f"{mark} one pick ({pick} of rope) {moved} by {by}"
    turn = "; an odd pick needs the rope rolled by one strand" if plan.lock and picks % 2 else ""
    if picks == 0:
        meaning = f"within half a pick; {said}"
    else:
        meaning = f"{'long' if off > 0 else 'short'} by about {picks} pick{'s' if picks > 1 else ''}: {said}{turn}"
    yield Row("eye_length", "eye, throat to crown", planned, eye, -step / 2, step / 2, meaning)


def _holes(comparison: _Comparison) -> Iterator[Row]:
    """The rope from H1 to H2, a whole number of picks."""
    rope = comparison.measured.lengths.get("h1_to_h2")
    if rope is None:
        return
    plan = _planned(comparison, "h1_to_h2")
    if plan.lock is None:
        what = f"{comparison.end.name} is not locked, and has no such figure"
        raise JobError(what, "Leave it out, or name the other end", key="measured.h1_to_h2")
    off = rope - plan.station_h2
    picks = round(off / plan.pick)
    eye = comparison.shown(abs(picks) * pick_of_eye(plan), fine=True)
    if picks == 0:
        meaning = "the pick that was planned"
    else:
        meaning = f"{abs(picks)} pick{'s' if abs(picks) > 1 else ''} too {'far' if off > 0 else 'near'}: "
        meaning += f"the eye comes out {eye} {'longer' if off > 0 else 'shorter'}, throat to crown"
    half = plan.pick / 2
    yield Row("h1_to_h2", "rope from H1 to H2", plan.station_h2, rope, -half, half, meaning)


def squeeze_of(job: Job, swollen: float) -> float:
    """The squeeze whose cover comes to this diameter: the plan's own formula turned round."""
    braid = braid_of(job.rope)
    widest = max(swollen / 2 - wall(braid), braid.radius)
    core = float((widest**8 - braid.radius**8) ** 0.125) - wall(braid)
    return max(0.0, 2 * core / braid.diameter)


def _swollen(comparison: _Comparison) -> Iterator[Row]:
    """The cover over the full tail: how tight the tail packs."""
    swollen = comparison.measured.lengths.get("swollen_diameter")
    if swollen is None:
        return
    plan = _planned(comparison, "swollen_diameter")
    bound = rule("swollen_spread").value * plan.swollen_diameter
    packs = "looser" if swollen > plan.swollen_diameter else "tighter"
    squeeze = squeeze_of(comparison.job, swollen)
    meaning = f"a squeeze of {squeeze:.2f} gives this diameter; the job has {comparison.job.rope.squeeze:.2f}"
    if abs(swollen - plan.swollen_diameter) > bound:
        meaning = f"the tail packs {packs} than planned, and take-up goes with it: {meaning}"
    yield Row("swollen_diameter", "cover over the full tail", plan.swollen_diameter, swollen, -bound, bound, meaning)


def _finished(comparison: _Comparison) -> Iterator[Row]:
    """The finished line against its interval, and the adjuster."""
    finished = comparison.measured.lengths.get("finished_length")
    if finished is None:
        return
    line = make_line(comparison.job, comparison.estimate)
    off = finished - line.finished
    inside = "inside" if abs(off) <= line.half else "outside"
    meaning = f"{comparison.shown(abs(off))} {'long' if off > 0 else 'short'}, {inside} the interval the plan gave"
    fitted = comparison.job.line.adjuster
    if fitted is not None:
        reach = fitted.shorten_mm if off > 0 else fitted.lengthen_mm
        makes = "makes it good" if abs(off) <= reach else f"reaches {comparison.shown(reach)} and can't make it good"
        meaning += f"; the {fitted.kind} {makes}"
    yield Row("finished_length", "finished length", line.finished, finished, -line.half, line.half, meaning)


def _take_up(comparison: _Comparison) -> Iterator[Row]:
    """Take-up of the cover, from two marks either side of the bury, before and after."""
    lengths = comparison.measured.lengths
    if "before" not in lengths or "after" not in lengths:
        return
    _spliced(comparison, "before")
    bury = lengths.get("bury", _bury_planned(comparison))
    geometry = cover_of(comparison.job.rope, comparison.job.practice, bury)[0]
    taken = lengths["before"] - lengths["after"]
    half = comparison.estimate.half_width(comparison.job.line.confidence) * geometry
    ratio = taken / geometry
    meaning = f"{ratio:.3f} times geometry's; "
    meaning += (
        "its record can join the loft's test splices" if "bury" in lengths else "with the bury measured too, its "
    )
    meaning += "" if "bury" in lengths else "record can join the loft's test splices"
    yield Row("take_up", "take-up of the cover", comparison.estimate.mean * geometry, taken, -half, half, meaning)


COMPARED: tuple[Callable[[_Comparison], Iterator[Row]], ...] = (_bury, _eye, _holes, _swollen, _take_up, _finished)
