"""A figure as it is read at the bench: in the user's unit, on the divisions of the user's tape."""

from __future__ import annotations

import math
from dataclasses import replace

from fidpath.planning.figure import Figure
from fidpath.planning.plan import Plan
from fidpath.units import (
    INCH_MM,
    Rounding,
    default_division,
    is_imperial,
    on_tape_mm,
    other_unit,
    show_length,
    show_tension,
)


def shown(figure: Figure, plan: Plan, both_units: bool = False) -> str:
    """A figure as it is read at the bench, in the user's unit, with the other system beside it where asked."""
    unit = plan.job.length_unit
    if figure.kind != "mm":
        return _number(figure, unit)
    text = _length(figure, plan, unit)
    return f"{text} ({_length(figure, plan, other_unit(unit))})" if both_units else text


def _length(figure: Figure, plan: Plan, unit: str) -> str:
    """A length in one unit."""
    return show_length(printed_mm(figure, plan, unit), unit, _division(figure, plan, unit))


def printed_mm(figure: Figure, plan: Plan, unit: str) -> float:
    """A length as it is printed in one unit, mm: rounded, and a sum made of its parts as they are printed."""
    if figure.parts:
        return sum(sign * printed_mm(part, plan, unit) for sign, part in figure.parts)
    return on_tape_mm(figure.value, _division(figure, plan, unit), figure.rounding)


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
        "count": _count(value),
    }
    return texts[figure.kind]


def _count(value: float) -> str:
    """A count that may end half-way."""
    whole, half = divmod(round(2 * value), 2)
    return f"{whole}{' and a half' if half else ''}"


def in_other_unit(plan: Plan) -> Plan:
    """The same plan read on a tape of the other system."""
    unit = other_unit(plan.job.length_unit)
    tools = replace(plan.job.tools, tape_division_mm=default_division(unit))
    return replace(plan, job=replace(plan.job, length_unit=unit, tools=tools))


def shown_mm(mm: float, plan: Plan, rounding: Rounding = "nearest") -> str:
    """A length on the divisions of the user's tape."""
    return show_length(mm, plan.job.length_unit, plan.job.tools.tape_division_mm, rounding)


def caliper_mm(mm: float, plan: Plan, rounding: Rounding = "nearest") -> str:
    """A length as it is read with a caliper."""
    return shown(Figure("", "", mm, "", "", "", rounding=rounding, fine=True), plan)


def stitch_words(plan: Plan) -> str:
    """The lock-stitch in words."""
    stitch = plan.job.practice.stitch
    if stitch is None:
        return "no"
    apart, long = (
        shown_mm(share * plan.braid.diameter, plan) for share in (stitch.spacing_diameters, stitch.length_diameters)
    )
    return f"{stitch.stitches} stitches {apart} apart, {long} in all, {stitch.twine} [{stitch.source}]"
