"""A set of lines planned: what fails is named and the rest go on; totals per rope, and the spools to cut from."""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.errors import FidpathError
from fidpath.job import Job
from fidpath.lines.line import LinePlan, make_line
from fidpath.lines.loft import estimate_for
from fidpath.lines.loft_file import Loft, with_rules
from fidpath.lines.set_file import LineSet, SetLine, Spool
from fidpath.lines.stock import Allocation, allocate
from fidpath.lines.uncertainty import TakeUpEstimate, prior
from fidpath.units import on_tape_mm


@dataclass(frozen=True)
class PlannedLine:
    """One line of the set, planned: `cut` is the rope to cut for each piece, rounded up on the tape, mm."""

    name: str
    quantity: int
    plan: LinePlan
    cut: float


@dataclass(frozen=True)
class FailedLine:
    """One line that can't be made, and why."""

    name: str
    error: FidpathError


@dataclass(frozen=True)
class RopeTotal:
    """All pieces of one rope, by line and number, and the spools they come from (None where none are in stock)."""

    rope: str
    pieces: tuple[tuple[str, float], ...]
    spools: tuple[Spool, ...]
    allocation: Allocation | None

    @property
    def length(self) -> float:
        """Rope in all pieces together, mm."""
        return sum(size for _, size in self.pieces)


@dataclass(frozen=True)
class SetPlan:
    """A set of lines, planned."""

    name: str
    source: str
    planned: tuple[PlannedLine, ...]
    failed: tuple[FailedLine, ...]
    totals: tuple[RopeTotal, ...]


def make_set(wanted: LineSet, loft: Loft | None = None, spools: tuple[Spool, ...] = ()) -> SetPlan:
    """Every line of the set, and the spools to cut them from."""
    estimates: dict[str, TakeUpEstimate] = {}
    done = [_planned(asked, loft, estimates) for asked in wanted.lines]
    planned = tuple(each for each in done if isinstance(each, PlannedLine))
    failed = tuple(each for each in done if isinstance(each, FailedLine))
    stock = (*wanted.spools, *spools)
    ropes = dict.fromkeys(each.plan.job.rope.name for each in planned)
    totals = tuple(_total(rope, planned, stock) for rope in ropes)
    return SetPlan(wanted.name, wanted.source, planned, failed, totals)


def _planned(asked: SetLine, loft: Loft | None, estimates: dict[str, TakeUpEstimate]) -> PlannedLine | FailedLine:
    """One line planned, or why it can't be."""
    if asked.job is None:
        return FailedLine(asked.name, asked.error or FidpathError("no job"))
    try:
        job = asked.job if loft is None else with_rules(asked.job, loft)
        plan = make_line(job, _estimate(job, loft, estimates))
    except FidpathError as error:
        return FailedLine(asked.name, error)
    cut = on_tape_mm(plan.rope_to_cut, job.tools.tape_division_mm, "up")
    return PlannedLine(asked.name, asked.quantity, plan, cut)


def _estimate(job: Job, loft: Loft | None, estimates: dict[str, TakeUpEstimate]) -> TakeUpEstimate:
    """The rope's take-up, worked out once for the whole set."""
    if loft is None:
        return estimates.setdefault("", prior())
    key = repr(job.rope)
    if key not in estimates:
        estimates[key] = estimate_for(loft, job.rope)
    return estimates[key]


def _total(rope: str, planned: tuple[PlannedLine, ...], stock: tuple[Spool, ...]) -> RopeTotal:
    """All pieces of one rope and where they come from."""
    mine = [each for each in planned if each.plan.job.rope.name == rope]
    pieces = tuple((_piece(each, number), each.cut) for each in mine for number in range(1, each.quantity + 1))
    spools = tuple(spool for spool in stock if spool.rope == rope)
    if not spools:
        return RopeTotal(rope, pieces, (), None)
    sizes = tuple(size for _, size in pieces)
    return RopeTotal(rope, pieces, spools, allocate(sizes, tuple(spool.length for spool in spools)))


def _piece(each: PlannedLine, number: int) -> str:
    """A piece's name: the line's, numbered where there are more of it."""
    return each.name if each.quantity == 1 else f"{each.name}, {number} of {each.quantity}"
