"""The terms that add up to the rope to cut, and the causes that may make a finished line longer or shorter."""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.job import Job, rule
from fidpath.lines.uncertainty import Cause, TakeUpEstimate, half_width, of_half_width, take_up_scale, uniform
from fidpath.planning import ELEMENTARY, GEOMETRY, JOB, OWN, STRANDS_KEPT, TRIM, EndPlan, rule_source

READ = 12.0**0.5
"""A length read to the nearest division is equally likely anywhere in it: standard deviation division/sqrt 12."""

Ends = tuple[EndPlan, EndPlan]


@dataclass(frozen=True)
class Term:
    """One term of the rope to cut, mm: its value, its half-width at the line's confidence, and where each is from."""

    name: str
    label: str
    value: float
    half: float
    formula: str
    source: str
    doubt: str


@dataclass(frozen=True)
class Growth:
    """What the line's tension adds, as shares of plain rope, and what was left out for want of data."""

    bedding_in: float
    stretch: float
    left_out: tuple[str, ...]

    @property
    def share(self) -> float:
        """Both together."""
        return self.bedding_in + self.stretch


def growth_of(job: Job, tension: float) -> Growth:
    """Bedding-in and elastic stretch from the reference tension to the line's, where the data sheet gives them."""
    rope, reference = job.rope, job.practice.reference_tension_n
    left_out = []
    stretch = 0.0
    if rope.bedding_in_share is None:
        left_out.append("bedding-in: the job gives no rope.bedding_in; measure again after the first load")
    if rope.stretch_share is None:
        left_out.append("elastic stretch: the job gives no rope.stretch")
    elif rope.stretch_tension_n is None:
        left_out.append("elastic stretch: rope.stretch has no rope.stretch_tension, the tension it was measured at")
    else:
        stretch = rope.stretch_share * (tension - reference) / rope.stretch_tension_n
    return Growth(rope.bedding_in_share or 0.0, stretch, tuple(left_out))


def stretching(ends: Ends, plain: float) -> float:
    """Rope that the shares of growth act on: the plain rope, and splices by half, mm."""
    return plain + sum(end.span for end in ends if end.spliced) / 2


def basis(estimate: TakeUpEstimate) -> str:
    """What a take-up rests on, in words."""
    if not estimate.tests:
        wide = rule("take_up_spread")
        return f"geometry x (1 +- {wide.value:g}) at 95 %, the wide prior, no test splice: {rule_source(wide)}"
    number = len(estimate.tests)
    return (
        f"geometry x {estimate.mean:.3f}, +- {estimate.half_width(0.95):.3f} at 95 % for the next splice, "
        f"from {number} test splice{'s' if number > 1 else ''}: {', '.join(estimate.tests)}"
    )


def causes_of(job: Job, ends: Ends, estimate: TakeUpEstimate, growth: Growth, plain: float) -> tuple[Cause, ...]:
    """What may make the finished line longer or shorter than meant, each cause by itself."""
    spliced = tuple((index, end) for index, end in enumerate(ends, 1) if end.spliced)
    takes = tuple(end.take_up for _, end in spliced)
    grows = stretching(ends, plain)
    reading = (2**0.5) * job.tools.tape_division_mm / READ
    return (
        Cause("take_up", "take-up", take_up_scale(estimate, takes), basis(estimate), estimate.freedom),
        *(_placing(f"placing_{index}", end) for index, end in spliced),
        *(_seat(f"seat_{index}", end) for index, end in spliced),
        Cause("tape", "tape", reading, "the marks at both ends are read to the nearest division"),
        Cause("bedding_in", "bedding-in", _of_share("bedding_in", growth.bedding_in * grows), _own("bedding_in")),
        Cause("stretch", "elastic stretch", _of_share("stretch", growth.stretch * grows), _own("stretch")),
    )


def _placing(name: str, end: EndPlan) -> Cause:
    hole = end.plan.origin if end.plan is not None and end.plan.lock else "entry"
    source = (
        f"moved up to one pick either way, {end.placing:.1f} mm, to leave the strands even on both sides of the fid"
    )
    return Cause(name, f"{hole} set between crossings", uniform(end.placing), source)


def _seat(name: str, end: EndPlan) -> Cause:
    half = rule("seat_spread").value * end.diameter
    return Cause(name, "rope's seat in the groove", of_half_width(half), _own("seat"))


def _of_share(name: str, length: float) -> float:
    return of_half_width(rule(f"{name}_spread").value * abs(length))


def _own(name: str) -> str:
    spread = rule(f"{name}_spread")
    return f"+- {spread.value:g} {spread.unit} at 95 %: {rule_source(spread)}"


def terms_of(
    job: Job, ends: Ends, estimate: TakeUpEstimate, growth: Growth, plain: float, causes: tuple[Cause, ...]
) -> tuple[Term, ...]:
    """The rope to cut, term by term, in the order they are added up."""
    finished = job.line.finished_length_mm or 0.0
    level = job.line.confidence
    grows = stretching(ends, plain)
    asked = Term("finished_length", "finished length", finished, 0.0, "bearing point to bearing point", JOB, "")
    per_end = [term for index in (0, 1) for term in _end_terms(ends[index], index + 1, estimate, causes, level)]
    return (
        asked,
        *per_end,
        *(_grown(*each, grows, causes, level) for each in _growths(growth) if each[2] != 0),
        _term("tape", "reading the tape", 0.0, "nothing to add", ELEMENTARY, causes, ("tape",), level),
        *(_trim(end, index) for index, end in enumerate(ends, 1) if end.spliced),
    )


def _growths(growth: Growth) -> tuple[tuple[str, str, float, str], ...]:
    """Name, label, share and formula of what the tension adds."""
    elastic = "stretch x (tension - reference)/tension it was measured at"
    return (
        ("bedding_in", "less bedding-in", growth.bedding_in, "bedding-in"),
        ("stretch", "less elastic stretch", growth.stretch, elastic),
    )


def _grown(
    name: str, label: str, share: float, formula: str, grows: float, causes: tuple[Cause, ...], level: float
) -> Term:
    """What the line grows by under its tension, taken off the rope to cut."""
    said = f"{formula} x (plain rope + half of what lies in splices)"
    return _term(name, label, -share * grows, said, f"{JOB}, from the data sheet", causes, (name,), level)


def _trim(end: EndPlan, index: int) -> Term:
    formula = f"{TRIM:g} d, cut off again"
    return Term(f"trim_{index}", f"{end.name}: left to trim", end.trim, 0.0, formula, OWN, "")


def _end_terms(
    end: EndPlan, index: int, estimate: TakeUpEstimate, causes: tuple[Cause, ...], level: float
) -> tuple[Term, ...]:
    """What one end adds: all but take-up, then take-up as estimated."""
    if not end.spliced:
        formula = "- its bearing point to the rope's end in it"
        return (Term(f"fitting_{index}", f"{end.name}: made-up fitting", end.consumed, 0.0, formula, JOB, ""),)
    own = Cause("take_up", "take-up", estimate.next_scale * end.take_up, basis(estimate), estimate.freedom)
    return (
        _term(
            f"consumed_{index}",
            f"{end.name}: eye, neck and tail",
            end.fixed,
            "rope from the tip's place round the eye to the cut - its length when made - take-up",
            GEOMETRY,
            causes,
            (f"placing_{index}", f"seat_{index}"),
            level,
        ),
        _term(
            f"take_up_{index}",
            f"{end.name}: take-up of the cover",
            estimate.mean * end.take_up,
            f"{estimate.mean:.4g} x {end.take_up:.1f} mm",
            STRANDS_KEPT,
            (own,),
            ("take_up",),
            level,
        ),
    )


def _term(
    name: str,
    label: str,
    value: float,
    formula: str,
    source: str,
    causes: tuple[Cause, ...],
    named: tuple[str, ...],
    level: float,
) -> Term:
    """A term with the doubt that its causes bring."""
    chosen = tuple(cause for cause in causes if cause.name in named and cause.scale > 0)
    half = half_width(chosen, level) if chosen else 0.0
    return Term(
        name, label, value, half, formula, source, "; ".join(f"{cause.label}: {cause.source}" for cause in chosen)
    )
