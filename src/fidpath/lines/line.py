"""A line between two ends: from the finished length to the rope to cut, every term with how well it is known.

At the reference tension, with X of plain rope and spans S1, S2 of the ends, the line measures X + S1 + S2. Under its
tension plain rope is longer by the shares b (bedding-in) and e (stretch), and a splice by half of them, where two
ropes side by side share the load: X = (L - S - (b + e) S'/2)/(1 + b + e), S' the spans of spliced ends. The rope to
cut is X and what either end holds, with what is left to trim.
"""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.errors import CannotBeMade, JobError
from fidpath.job import FITTING, USUAL_SPLICE, Job, rule, splice_words, splices
from fidpath.lines.terms import Ends, Growth, Term, causes_of, growth_of, terms_of
from fidpath.lines.uncertainty import Cause, TakeUpEstimate, half_width, prior
from fidpath.planning import EndMark, EndPlan, end_plan
from fidpath.units import show_length


@dataclass(frozen=True)
class MakingStep:
    """One end in the order of making: which of the job's ends, by what method, and why then."""

    end: int
    method: str
    why: str


@dataclass(frozen=True)
class LineMark:
    """One mark on the straight rope, mm from the datum: the cut end of the end made first."""

    name: str
    label: str
    from_datum: float
    formula: str


@dataclass(frozen=True)
class LinePlan:
    """A whole line, mm: its ends as the job names them, terms in the order they add up, marks from one datum."""

    job: Job
    estimate: TakeUpEstimate
    ends: Ends
    steps: tuple[MakingStep, MakingStep]
    growth: Growth
    tension: float
    finished: float
    plain: float
    least: float
    rope_to_cut: float
    terms: tuple[Term, ...]
    causes: tuple[Cause, ...]
    half: float
    marks: tuple[LineMark, ...]

    @property
    def adjuster_covers(self) -> bool | None:
        """Whether the adjuster makes good all that the interval holds, both ways; None where there is none."""
        fitted = self.job.line.adjuster
        return None if fitted is None else min(fitted.shorten_mm, fitted.lengthen_mm) >= self.half


def make_line(job: Job, estimate: TakeUpEstimate | None = None) -> LinePlan:
    """Everything of the job's line, take-up as `estimate` has it, by default the wide prior.

    Raises JobError where the job has no finished length or second end, CannotBeMade where the line can't be.
    """
    known = estimate or prior()
    finished = _finished(job)
    ends = (end_plan(job, 0), end_plan(job, 1))
    steps = order_of_making(job, ends)
    tension = job.practice.reference_tension_n if job.line.tension_n is None else job.line.tension_n
    growth = growth_of(job, tension)
    plain = plain_rope(finished, ends, growth.share)
    least = least_length(job, ends, growth.share)
    _check_least(job, finished, least)
    causes = causes_of(job, ends, known, growth, plain)
    terms = terms_of(job, ends, known, growth, plain, causes)
    cut = float(sum(term.value for term in terms))
    return LinePlan(
        job=job,
        estimate=known,
        ends=ends,
        steps=steps,
        growth=growth,
        tension=tension,
        finished=finished,
        plain=plain,
        least=least,
        rope_to_cut=cut,
        terms=terms,
        causes=causes,
        half=half_width(causes, job.line.confidence),
        marks=marks_of(ends, steps[0].end, known.mean, cut),
    )


def _finished(job: Job) -> float:
    """The finished length asked for, of a job that describes a whole line."""
    file = job.source or None
    if len(job.line.ends) < 2:
        remedy = "Add a second [[line.ends]]: a splice, or a fitting"
        raise JobError("the line has one end", remedy, file=file, key="line.ends")
    if job.line.finished_length_mm is None:
        remedy = 'Add finished_length = "9.2 m", bearing point to bearing point, to [line]'
        raise JobError("this key is missing", remedy, file=file, key="line.finished_length")
    return job.line.finished_length_mm


def order_of_making(job: Job, ends: Ends) -> tuple[MakingStep, MakingStep]:
    """Which end is made first, and which method each takes. Raises CannotBeMade where no order will do.

    A splice that passes the rope's other end through its own hole needs that end bare.
    """
    kinds = [end.splice for end in ends]
    bare = [kind for kind in kinds if kind != FITTING and splices()[kind].needs_bare_end]
    if len(bare) == 2:
        raise CannotBeMade(
            f"both ends ask for {bare[0]}, and once one is made the other has no free end to pass",
            f'Write splice = "{USUAL_SPLICE}" at the end to be made second',
            file=job.source or None,
            key="line.ends.splice",
        )
    if bare:
        first, why = kinds.index(bare[0]), "the other end of the rope must still be bare"
    elif FITTING in kinds:
        first, why = kinds.index(FITTING), "put on first, it leaves the other end to be cut and spliced to length"
    else:
        first, why = 0, "either end can go first; the job names it first"
    then = f"{ends[first].name} is made before, so this end has a captive end behind it"
    words = [splice_words(kind) for kind in kinds]
    return MakingStep(first, words[first], why), MakingStep(1 - first, words[1 - first], then)


def _spans(ends: Ends) -> tuple[float, float]:
    """Both spans, and those of spliced ends, which stretch."""
    return sum(end.span for end in ends), sum(end.span for end in ends if end.spliced)


def plain_rope(finished: float, ends: Ends, growth: float) -> float:
    """Plain rope between the tips at the reference tension, mm; less than nothing where the buries would meet."""
    spans, give = _spans(ends)
    return (finished - spans - growth * give / 2) / (1 + growth)


def least_length(job: Job, ends: Ends, growth: float) -> float:
    """The shortest line whose buries don't meet, mm."""
    spans, give = _spans(ends)
    clear = rule("clear_rope").value * job.rope.diameter_mm
    return clear * (1 + growth) + spans + growth * give / 2


def _check_least(job: Job, finished: float, least: float) -> None:
    """Refuse a line whose two buries would meet."""
    if finished >= least - 1e-9:
        return
    division = job.tools.tape_division_mm
    shown, asked = show_length(least, job.length_unit, division, "up"), show_length(finished, job.length_unit, division)
    raise CannotBeMade(
        f"the two buries would meet: with these ends a line measures at least {shown}, and {asked} is asked for",
        f"Make it {shown} or longer; whether a bury may be shorter is the rope maker's to say",
        file=job.source or None,
        key="line.finished_length",
    )


def marks_of(ends: Ends, first: int, factor: float, cut: float) -> tuple[LineMark, ...]:
    """Every mark on the straight rope, in the order of the tape laid from the datum; mm."""
    near, far = ends[first], ends[1 - first]
    here = [_mark(near, mark, _place(mark, near, factor)) for mark in near.marks]
    there = [_mark(far, mark, cut - _place(mark, far, factor)) for mark in far.marks]
    last = LineMark("cut", "cut the rope", cut, "rope to cut")
    return tuple(sorted([*here, *there, last], key=lambda mark: mark.from_datum))


def _place(mark: EndMark, end: EndPlan, factor: float) -> float:
    """A mark's distance from its own cut end, with the take-up believed in, mm."""
    return mark.from_cut + mark.take_up_share * (factor - 1) * end.take_up


def _mark(end: EndPlan, mark: EndMark, place: float) -> LineMark:
    return LineMark(f"{end.name}: {mark.name}", f"{end.name}: {mark.label}", place, mark.formula)
