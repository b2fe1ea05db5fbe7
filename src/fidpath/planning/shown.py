"""A figure as it is read at the bench: in the user's unit, on the divisions of the user's tape."""

from __future__ import annotations

import math
from dataclasses import replace

from fidpath.planning.figure import Figure
from fidpath.planning.plan import Plan
from fidpath.units import INCH_MM, default_division, is_imperial, other_unit, show_length, show_tension


def shown(figure: Figure, plan: Plan, both_units: bool = False) -> str:
    """A figure as it is read at the bench, in the user's unit, with the other system beside it where asked."""
    if figure.kind != "mm":
        return _number(figure, plan.job.length_unit)
    unit = plan.job.length_unit
    text = show_length(figure.value, unit, _division(figure, plan, unit), figure.rounding)
    if not both_units:
        return text
    other = other_unit(unit)
    return f"{text} ({show_length(figure.value, other, _division(figure, plan, other), figure.rounding)})"


def _division(figure: Figure, plan: Plan, unit: str) -> float:
    """What a length is rounded to, mm: the tape's division, or a caliper's."""
    if figure.fine:
        return INCH_MM / 64 if is_imperial(unit) else 0.1
    if unit == plan.job.length_unit:
        return plan.job.tools.tape_division_mm
    return INCH_MM / 16 if is_imperial(unit) else 1.0


def _number(figure: Figure, unit: str) -> str:
    """An angle, share, ratio or tension for the bench."""
    value = figure.value
    texts = {
        "deg": f"{math.degrees(value):.0f} deg",
        "share": f"{value:.1%}",
        "ratio": f"{value:.2f}",
        "N": show_tension(value, unit),
    }
    return texts[figure.kind]


def in_other_unit(plan: Plan) -> Plan:
    """The same plan read on a tape of the other system."""
    unit = other_unit(plan.job.length_unit)
    tools = replace(plan.job.tools, tape_division_mm=default_division(unit))
    return replace(plan, job=replace(plan.job, length_unit=unit, tools=tools))


def shown_mm(mm: float, plan: Plan) -> str:
    """A length on the divisions of the user's tape."""
    return show_length(mm, plan.job.length_unit, plan.job.tools.tape_division_mm)


def stitch_words(plan: Plan) -> str:
    """The lock-stitch in words."""
    stitch = plan.job.practice.stitch
    if stitch is None:
        return "no"
    apart, long = (
        shown_mm(share * plan.braid.diameter, plan) for share in (stitch.spacing_diameters, stitch.length_diameters)
    )
    return f"{stitch.stitches} stitches {apart} apart, {long} in all, {stitch.twine} [{stitch.source}]"
