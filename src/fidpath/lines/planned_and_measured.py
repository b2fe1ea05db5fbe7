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
from fidpath.planning import EndPlan, Plan, end_plan, rule_source
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
    """One figure, planned and measured, mm; what is allowed of the difference, where that comes from, what follows."""

    name: str
    label: str
    planned: float
    measured: float
    least: float
    most: float
    meaning: str
    allowance: str

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
        raise JobError("this file has no measurements", remedy, file=str(path), key="measured")
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

    @property
    def by_hand(self) -> float:
        """What a tape and an eye can tell apart on soft rope, mm."""
        return rule("hand_length").value * self.job.rope.diameter_mm

    @property
    def why_by_hand(self) -> str:
        """Where that comes from."""
        told = rule("hand_length")
        return f"{told.value:g} d: {told.what}; {rule_source(told)}"

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
    """A bury is a least length, short by no more than a tape can tell."""
    cut = comparison.measured.lengths.get("bury")
    if cut is None:
        return
    planned, least = _bury_planned(comparison), -comparison.by_hand
    meaning = ""
    if cut - planned < least - READING:
        meaning = (
            "Cut up to the tape's next mark, never down to a round figure. Whether this bury may stand is for the rope "
            "maker's instructions to say."
        )
    yield Row("bury", "bury", planned, cut, least, float("inf"), meaning, comparison.why_by_hand)


def _bury_planned(comparison: _Comparison) -> float:
    _spliced(comparison, "bury")
    return comparison.job.practice.bury_diameters * comparison.job.rope.diameter_mm


def _spliced(comparison: _Comparison, key: str) -> None:
    if not comparison.end.spliced:
        what = f"{comparison.end.name} is a made-up fitting and has no such figure"
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
    """The eye, throat to crown: it is put right by whole picks, and read no nearer than a tape can tell."""
    eye = comparison.measured.lengths.get("eye_length")
    if eye is None:
        return
    plan, half = _planned(comparison, "eye_length"), comparison.by_hand
    off = eye - plan.throat_to_crown
    meaning = "" if abs(off) <= half + READING else _put_right(comparison, plan, off)
    yield Row(
        "eye_length", "eye, throat to crown", plan.throat_to_crown, eye, -half, half, meaning, comparison.why_by_hand
    )


def _put_right(comparison: _Comparison, plan: Plan, off: float) -> str:
    """How an eye that came out `off` mm too long is made right the next time."""
    step = pick_of_eye(plan)
    picks = max(round(abs(off) / step), 1)
    mark, first = plan.letters[-1] if plan.lock else "B", plan.origin
    way, makes = ("nearer to", "shorter") if off > 0 else ("further from", "longer")
    moved = f"{_counted(picks)} ({comparison.shown(picks * plan.pick)} of rope) {way} {first}"
    rolled = " The rope then has to be rolled by one strand." if plan.lock and picks % 2 else ""
    each = comparison.shown(step, fine=True)
    return f"Next time put {mark} {moved}: each pick makes the eye {each} {makes}.{rolled}"


def _counted(picks: int) -> str:
    return f"{picks} pick{'s' if picks > 1 else ''}"


def _holes(comparison: _Comparison) -> Iterator[Row]:
    """The rope from H1 to H2, a whole number of picks."""
    rope = comparison.measured.lengths.get("h1_to_h2")
    if rope is None:
        return
    plan = _planned(comparison, "h1_to_h2")
    if plan.lock is None:
        what = f"{comparison.end.name} isn't locked and has no such figure"
        raise JobError(what, "Leave it out, or name the other end", key="measured.h1_to_h2")
    off, half = rope - plan.station_h2, comparison.by_hand
    picks = abs(round(off / plan.pick))
    meaning = ""
    if picks:
        eye, sense = comparison.shown(picks * pick_of_eye(plan), fine=True), "longer" if off > 0 else "shorter"
        meaning = (
            f"That is {_counted(picks)} too {'far' if off > 0 else 'near'}, if the count of crossings agrees: the eye "
            f"comes out {eye} {sense}, throat to crown."
        )
    yield Row("h1_to_h2", "rope from H1 to H2", plan.station_h2, rope, -half, half, meaning, comparison.why_by_hand)


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
    plan, spread = _planned(comparison, "swollen_diameter"), rule("swollen_spread")
    bound = spread.value * plan.swollen_diameter
    meaning = ""
    if abs(swollen - plan.swollen_diameter) > bound + READING:
        packs = "looser" if swollen > plan.swollen_diameter else "tighter"
        squeeze, has = squeeze_of(comparison.job, swollen), comparison.job.rope.squeeze
        meaning = (
            f"The tail packs {packs} than planned, and take-up goes with it. Write squeeze = {squeeze:.2f} in the job "
            f"for this diameter; it has {has:.2f}."
        )
    why = f"{spread.value:.0%} of the diameter; {rule_source(spread)}"
    yield Row(
        "swollen_diameter", "cover over the full tail", plan.swollen_diameter, swollen, -bound, bound, meaning, why
    )


def _finished(comparison: _Comparison) -> Iterator[Row]:
    """The finished line against its interval, and the adjuster."""
    finished = comparison.measured.lengths.get("finished_length")
    if finished is None:
        return
    line = make_line(comparison.job, comparison.estimate)
    off = finished - line.finished
    meaning = ""
    fitted = comparison.job.line.adjuster
    if fitted is not None and abs(off) > READING:
        reach = fitted.shorten_mm if off > 0 else fitted.lengthen_mm
        makes = "makes it good" if abs(off) <= reach else f"reaches {comparison.shown(reach)} and can't make it good"
        meaning = f"The {fitted.kind} {makes}."
    why = f"what the plan said the line might be out by, at {line.job.line.confidence:.0%} confidence"
    yield Row("finished_length", "finished length", line.finished, finished, -line.half, line.half, meaning, why)


def _take_up(comparison: _Comparison) -> Iterator[Row]:
    """Take-up of the cover, from two marks either side of the bury, before and after."""
    lengths = comparison.measured.lengths
    if "before" not in lengths or "after" not in lengths:
        return
    _spliced(comparison, "before")
    bury, level = lengths.get("bury", _bury_planned(comparison)), comparison.job.line.confidence
    geometry = cover_of(comparison.job.rope, comparison.job.practice, bury)[0]
    half = comparison.estimate.half_width(level) * geometry
    joins = "The record" if "bury" in lengths else "With the bury measured too, the record"
    meaning = f"{joins} can join the loft's test splices."
    tests = len(comparison.estimate.tests)
    basis = f"your {tests} test splice{'s' if tests > 1 else ''}" if tests else "no test splice, so a wide guess"
    why = f"what a splice may be out by at {level:.0%} confidence, from {basis}"
    taken = lengths["before"] - lengths["after"]
    yield Row("take_up", "take-up of the cover", comparison.estimate.mean * geometry, taken, -half, half, meaning, why)


COMPARED: tuple[Callable[[_Comparison], Iterator[Row]], ...] = (_bury, _eye, _holes, _swollen, _take_up, _finished)
