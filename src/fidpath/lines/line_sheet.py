"""Line -> the cut sheet and its JSON: the same figures, for reading at the bench and for other programs."""

from __future__ import annotations

import json
import math
import textwrap
from typing import Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.lines.line import LineMark, LinePlan
from fidpath.lines.terms import Term, basis
from fidpath.lines.uncertainty import TakeUpEstimate
from fidpath.planning import WIDTH, EndPlan, marks, printed_mm, warnings
from fidpath.units import INCH_MM, Rounding, is_imperial, on_tape_mm, other_unit, show_length

LINE_SCHEMA = 1
DIGITS = 6
LABEL = 44

FROM_H1 = ("H2", "entry", "bury_mark")
"""Marks of a lock that the card measures from H1."""

LINE_CAUTIONS = (
    "Make the first end, let it bed in under the reference tension, measure it, and only then cut the other.",
    *BESIDE_FIGURES,
)


def as_data(line: LinePlan) -> dict[str, Any]:
    """The whole line as plain data, units in the keys, the same for the same job."""
    job = line.job
    adjuster = job.line.adjuster
    return {
        "line_schema": LINE_SCHEMA,
        "name": job.name,
        "length_unit": job.length_unit,
        "rope": job.rope.name,
        "finished_length_mm": _round(line.finished),
        "finished_half_width_mm": _round(line.half),
        "confidence": line.job.line.confidence,
        "tension_n": _round(line.tension),
        "reference_tension_n": _round(job.practice.reference_tension_n),
        "rope_to_cut_mm": _round(line.rope_to_cut),
        "rope_to_cut": length(line, line.rope_to_cut, rounding="up"),
        "plain_rope_mm": _round(line.plain),
        "least_length_mm": _round(line.least),
        "take_up_basis": basis(line.estimate),
        "take_up_factor": estimate_data(line.estimate, job.line.confidence),
        "ends": [_end(line, index) for index in (0, 1)],
        "order": [{"end": line.ends[s.end].name, "method": s.method, "why": s.why} for s in line.steps],
        "terms": [_term(term) for term in line.terms],
        "marks": [
            {"name": m.name, "label": m.label, "from_datum_mm": _round(m.from_datum), "formula": m.formula}
            for m in line.marks
        ],
        "datum": datum(line),
        "left_out": list(line.growth.left_out),
        "adjuster": None
        if adjuster is None
        else {
            "kind": adjuster.kind,
            "shorten_mm": _round(adjuster.shorten_mm),
            "lengthen_mm": _round(adjuster.lengthen_mm),
            "covers": line.adjuster_covers,
        },
        "warnings": notices(line),
        "cautions": list(LINE_CAUTIONS),
    }


def estimate_data(estimate: TakeUpEstimate, confidence: float) -> dict[str, Any]:
    """A take-up factor as plain data."""
    return {
        "mean": _round(estimate.mean),
        "half_width_next_splice": _round(estimate.half_width(confidence)),
        "confidence": confidence,
        "scatter": _round(estimate.scatter),
        "degrees_of_freedom": _round(estimate.freedom),
        "test_splices": list(estimate.tests),
    }


def as_json(line: LinePlan) -> str:
    """The line as JSON text that ends with a line end; the same bytes for the same job."""
    return json.dumps(as_data(line), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _end(line: LinePlan, index: int) -> dict[str, Any]:
    end = line.ends[index]
    return {
        "name": end.name,
        "splice": end.splice,
        "terminator": end.terminator,
        "consumed_mm": _round(end.consumed),
        "take_up_mm": _round(end.take_up),
        "throat_angle_deg": _round(math.degrees(end.throat)),
        "bearing_to_tip_mm": _round(end.span),
        "trim_mm": _round(end.trim),
        "parts": [{"label": label, "value_mm": _round(value)} for label, value in end.parts],
    }


def _term(term: Term) -> dict[str, Any]:
    return {
        "name": term.name,
        "label": term.label,
        "value_mm": _round(term.value),
        "half_width_mm": _round(term.half),
        "formula": term.formula,
        "source": term.source,
        "uncertainty": term.doubt or "none counted",
    }


def _round(value: float) -> float:
    return round(float(value), DIGITS) + 0.0


def length(line: LinePlan, mm: float, both: bool = False, fine: bool = False, rounding: Rounding = "nearest") -> str:
    """A length of the line in the user's unit; `fine` to a tenth of a millimetre or 1/64 in."""
    unit = line.job.length_unit
    text = show_length(mm, unit, _division(line, unit, fine), rounding)
    if not both:
        return text
    other = other_unit(unit)
    return f"{text} ({show_length(mm, other, _division(line, other, fine), rounding)})"


def _division(line: LinePlan, unit: str, fine: bool) -> float:
    if fine:
        return INCH_MM / 64 if is_imperial(unit) else 0.1
    if unit == line.job.length_unit:
        return line.job.tools.tape_division_mm
    return INCH_MM / 16 if is_imperial(unit) else 1.0


def datum(line: LinePlan) -> str:
    """What every mark is measured from, in words."""
    first = line.ends[line.steps[0].end]
    place = "the rope's end in its fitting" if not first.spliced else "the rope's cut end there"
    return f"{first.name}: {place}, rope laid straight under the reference tension"


def notices(line: LinePlan) -> list[str]:
    """What is out of the usual at either end, each with its source, and what the adjuster can't make good."""
    notices = [f"{end.name}: {text}" for end in line.ends for text in _end_notices(end)]
    if line.adjuster_covers is False:
        notices.append(adjuster_words(line))
    return notices


def _end_notices(end: EndPlan) -> list[str]:
    return [f"{notice.text} ({notice.source})" for notice in warnings(end.plan)] if end.plan else []


def adjuster_words(line: LinePlan, both: bool = False) -> str:
    """Whether the adjuster covers the interval."""
    fitted = line.job.line.adjuster
    if fitted is None:
        return "no adjuster in the job: what the interval holds stays in the line"
    reach = (
        f"the {fitted.kind} shortens by {length(line, fitted.shorten_mm, both, rounding='down')} "
        f"and lengthens by {length(line, fitted.lengthen_mm, both, rounding='down')}"
    )
    half = length(line, line.half, both, fine=True, rounding="up")
    return f"{reach}: it {'covers' if line.adjuster_covers else 'does not cover'} the interval of {half} either way"


def bench_sheet(line: LinePlan, both: bool = False) -> str:
    """The line as it is read at the bench; ends with a line end."""
    job = line.job
    noted = notices(line)
    blocks = [
        [f"{job.name}: {job.rope.name}, {line.ends[0].name} to {line.ends[1].name}"],
        _answer(line, both),
        ["WARNINGS", *_wrapped(noted)] if noted else [],
        _order(line),
        _marks(line, both),
        _terms(line, both),
        _parts(line, both),
        ["LEFT OUT", *_wrapped(line.growth.left_out)] if line.growth.left_out else [],
        ["CAUTIONS", *_wrapped(LINE_CAUTIONS)],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _answer(line: LinePlan, both: bool) -> list[str]:
    level = f"{line.job.line.confidence:.3g}"
    half = length(line, line.half, both, fine=True, rounding="up")
    return [
        f"Rope to cut: {length(line, line.rope_to_cut, both, rounding='up')}",
        f"Finished length: {length(line, line.finished, both)} +- {half}, confidence {level}, at {line.tension:.4g} N",
        *_wrapped([f"take-up: {basis(line.estimate)}", adjuster_words(line, both)]),
    ]


def _order(line: LinePlan) -> list[str]:
    lines = ["ORDER OF WORK"]
    for number, step in enumerate(line.steps, 1):
        lines += _hanging(f"  {number}. ", f"{line.ends[step.end].name}: {step.method} ({step.why})")
    return lines


def _marks(line: LinePlan, both: bool) -> list[str]:
    lines = ["MARKS ON THE STRAIGHT ROPE", *_hanging("  from ", datum(line))]
    for mark in line.marks:
        shown = mark_length(line, mark, both)
        lines.append(f"  {mark.label:<{LABEL}} {shown:<{_column(both)}} {mark.formula}".rstrip())
    return lines


def mark_length(line: LinePlan, mark: LineMark, both: bool = False) -> str:
    """A mark's distance from the datum as it is printed, in the user's unit.

    The marks of an end are as far apart as its card has them: one is rounded, and the others' distances from it.
    """

    def said(unit: str) -> str:
        return show_length(printed_place(line, mark, unit), unit, _division(line, unit, fine=False))

    own = line.job.length_unit
    return f"{said(own)} ({said(other_unit(own))})" if both else said(own)


def printed_place(line: LinePlan, mark: LineMark, unit: str) -> float:
    """A mark's distance from the datum in mm, as it is printed in a unit."""
    division = _division(line, unit, fine=False)
    if mark.name == "cut":
        return on_tape_mm(mark.from_datum, division, "up")
    end, _, name = mark.name.rpartition(": ")
    places = {other.name: other.from_datum for other in line.marks}
    origin = places.get(f"{end}: H1", places[f"{end}: entry"])
    plan = next(each.plan for each in line.ends if each.name == end)
    if plan is not None and plan.lock is not None and name in FROM_H1:
        apart = printed_mm(next(figure for figure in marks(plan) if figure.name == name), plan, unit)
    else:
        apart = on_tape_mm(abs(mark.from_datum - origin), division, "nearest")
    return on_tape_mm(origin, division, "nearest") + math.copysign(apart, mark.from_datum - origin)


def _column(both: bool) -> int:
    return 28 if both else 14


def _terms(line: LinePlan, both: bool) -> list[str]:
    lines = [f"ROPE TO CUT, TERM BY TERM; +- at confidence {line.job.line.confidence:.3g}"]
    for term in line.terms:
        value = length(line, term.value, both, fine=True)
        half = length(line, term.half, both, fine=True, rounding="up") if term.half else ""
        lines.append(f"  {term.label:<{LABEL}} {value:<{_column(both)}} {f'+- {half}' if half else ''}".rstrip())
        doubt = f"; {term.doubt}" if term.doubt else ""
        lines += _hanging("      = ", f"{term.formula} [{term.source}{doubt}]")
    lines.append(f"  {'rope to cut':<{LABEL}} {length(line, line.rope_to_cut, both, fine=True, rounding='up')}")
    return lines


def _parts(line: LinePlan, both: bool) -> list[str]:
    lines = ["WHAT EACH END CONSUMES, WITH TAKE-UP FROM GEOMETRY"]
    for end in line.ends:
        for label, value in (*end.parts, ("consumed", end.consumed)):
            shown = length(line, value, both, fine=True)
            lines.append(f"  {f'{end.name}: {label}':<{LABEL + 24}} {shown}")
    return lines


def _wrapped(texts: tuple[str, ...] | list[str]) -> list[str]:
    return [line for text in texts for line in _hanging("  - ", text)]


def _hanging(start: str, text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)
