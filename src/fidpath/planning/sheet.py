"""Plan -> the bench table and plan.json: the same figures, for reading and for other programs."""

from __future__ import annotations

import json
import math
import textwrap
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.planning.base_figures import eye_wanted, h2, rope_between_holes
from fidpath.planning.figure import Figure, figures
from fidpath.planning.h2_places import Choice
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.meanings import MEANINGS
from fidpath.planning.notices import Notice, warnings
from fidpath.planning.pitch_guess import Spread, spreads
from fidpath.planning.plan import Lock, Plan
from fidpath.planning.shown import printed_mm, shown, stitch_words
from fidpath.units import show_length

PLAN_SCHEMA = 1
DIGITS = 6
WIDTH = 110
LABEL = 48

SUFFIX = {"mm": "_mm", "deg": "_deg", "N": "_n", "share": "_share", "ratio": "", "count": ""}


def as_data(plan: Plan, both_units: bool = False) -> dict[str, Any]:
    """The whole plan as plain data, units in the keys, the same for the same job."""
    job = plan.job
    return {
        "plan_schema": PLAN_SCHEMA,
        "name": job.name,
        "length_unit": job.length_unit,
        "tape_division_mm": _round(job.tools.tape_division_mm),
        **_top(plan),
        "parts_to_thread_on_first": list(job.line.thread_on_first),
        "fids_mm": [_round(plan.openings.first_fid), _round(plan.openings.second_fid)],
        **({"h2_fids_mm": [_round(fid) for fid in plan.openings.h2_fids]} if plan.lock else {}),
        "lock_stitch": job.practice.lock_stitch,
        "pitch_guessed": job.rope.pitch_guessed,
        **figures_as_data(plan, both_units),
        **_h2_choices(plan.lock),
        **notices_as_data(plan),
    }


def figures_as_data(plan: Plan, both_units: bool = False) -> dict[str, list[dict[str, Any]]]:
    """Lengths, marks and other figures as plain data: what is read of a plan, without the places that H2 could have."""
    found = spreads(plan)
    return {
        "lengths": [_entry(figure, plan, both_units) | _doubt(found.get(figure.name)) for figure in lengths(plan)],
        "marks": [_entry(figure, plan, both_units) | _doubt(found.get(figure.name)) for figure in marks(plan)],
        "figures": [_entry(figure, plan, both_units) for figure in figures(plan)],
    }


def notices_as_data(plan: Plan) -> dict[str, Any]:
    """Warnings and cautions as plain data."""
    return {"warnings": [_warning(warning) for warning in warnings(plan)], "cautions": list(BESIDE_FIGURES)}


def as_json(data: Mapping[str, Any]) -> str:
    """A plan's plain data as JSON text that ends with a line end; the same bytes for the same job."""
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _top(plan: Plan) -> dict[str, float]:
    """The figures other programs ask for first."""
    found = {
        "rope_diameter_mm": plan.braid.diameter,
        "pick_mm": plan.pick,
        "tail_to_lay_out_mm": plan.tail_to_lay_out,
        "rough_bury_mark_mm": plan.rough_bury_mark,
        "bury_length_mm": plan.bury_length,
        "eye_length_along_rope_mm": plan.eye_length,
        **(_lock_top(plan, plan.lock) if plan.lock else {}),
        "throat_angle_deg": math.degrees(plan.throat_angle),
        "leg_tension_share": plan.leg_tension_share,
        "D_over_d": plan.D_over_d,
        "swollen_diameter_mm": plan.swollen_diameter,
        "take_up_mm": plan.take_up,
        "rope_consumed_mm": plan.rope_consumed,
    }
    return {key: _round(value) for key, value in found.items()}


def _lock_top(plan: Plan, lock: Lock) -> dict[str, float]:
    """Those of the lock."""
    return {
        "eye_lost_to_lock_mm": lock.eye_lost,
        "eye_slack_mm": lock.eye_slack,
        "loop_before_lock_mm": lock.loop_before,
        "wrapped_throat_to_crown_mm": plan.wrapped_loop.throat_to_crown,
        "marking_throat_to_crown_mm": plan.marking_loop.throat_to_crown,
        "stretch_without_allowance_share": lock.stretch_without_allowance,
        "hole_gap_mm": lock.zone.gap,
        "hole_spacing_mm": lock.zone.spacing,
        "rope_between_holes_mm": lock.zone.rope,
        "bare_neck_mm": lock.bare_neck,
    }


def _entry(figure: Figure, plan: Plan, both_units: bool) -> dict[str, Any]:
    """One figure as plain data."""
    value = math.degrees(figure.value) if figure.kind == "deg" else figure.value
    return {
        "name": figure.name,
        "label": figure.label,
        f"value{SUFFIX[figure.kind]}": _round(value),
        "shown": shown(figure, plan, both_units),
        "formula": figure.formula,
        "source": figure.source,
        "measured_from": figure.measured_from,
        **({"note": figure.note} if figure.note else {}),
    }


def _doubt(spread: Spread | None) -> dict[str, Any]:
    """How far a figure hangs on a guessed pitch, as plain data."""
    if spread is None:
        return {}
    return {"hangs_on_the_guessed_pitch": {"least_mm": _round(spread.least), "most_mm": _round(spread.most)}}


def _h2_choices(lock: Lock | None) -> dict[str, Any]:
    """The places where H2 could go; nothing where there is no H2."""
    return {} if lock is None else {"h2_choices": [_choice(choice, lock) for choice in lock.choices]}


def _choice(choice: Choice, lock: Lock) -> dict[str, Any]:
    """One place where H2 could go, as plain data."""
    return {
        "picks_from_h1": choice.picks,
        "rope_h1_to_h2_mm": _round(choice.rope_h1_to_h2),
        "eye_length_along_rope_mm": _round(choice.eye.loop),
        "eye_slack_mm": _round(choice.slack),
        "throat_angle_deg": _round(math.degrees(choice.eye.throat)),
        "rope_rolled": choice.rolled,
        "terminator_fits": choice.fits,
        "chosen": choice is lock.choice,
    }


def _warning(warning: Notice) -> dict[str, Any]:
    """One warning as plain data, its unit in the keys."""
    unit = "_deg" if "throat" in warning.name else "" if "strands" in warning.name else "_diameters"
    return {
        "name": warning.name,
        "text": warning.text,
        f"value{unit}": _round(warning.value),
        f"limit{unit}": _round(warning.limit),
        "source": warning.source,
    }


def _round(value: float) -> float:
    """A number to a millionth: what lies below is the machine's, not the job's."""
    return round(float(value), DIGITS) + 0.0


def bench_table(plan: Plan, both_units: bool = False) -> str:
    """The plan as it is read at the bench; ends with a line end."""
    blocks = [
        *_preamble(plan),
        _warnings(plan),
        _block("Lay out and mark", marks(plan), plan, both_units),
        _block("Lengths", lengths(plan), plan, both_units),
        _block("Angles, counts and tensions", figures(plan), plan, both_units),
        _choices(plan, plan.lock, both_units) if plan.lock else [],
        _words(plan),
        ["CAUTIONS", *_wrapped(BESIDE_FIGURES)],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _words(plan: Plan) -> list[str]:
    """What the words of the marking mean; those of the lock where there is one."""
    if plan.lock is None:
        return []
    return ["WORDS", *(line for word, means in MEANINGS.items() for line in _hanging(f"  {word}: ", means))]


def _preamble(plan: Plan) -> list[list[str]]:
    """What stands at the top of every sheet: the job, what goes on first, and the stitching."""
    job = plan.job
    names = [f"{job.name}: {job.rope.name}, {job.terminator.name}", f"captive end: {job.line.captive_end}"]
    return [names, _threading(plan)]


def below(plan: Plan) -> str:
    """The warnings and the cautions, as they stand under a card; ends with a line end."""
    blocks = [_warnings(plan), ["CAUTIONS", *_wrapped(BESIDE_FIGURES)]]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _threading(plan: Plan) -> list[str]:
    """What goes on first, and whether the bury is stitched at the end."""
    parts = ", ".join(plan.job.line.thread_on_first) or "nothing"
    return [f"Thread on first: {parts}", *_hanging("Lock-stitch the bury: ", stitch_words(plan))]


def _warnings(plan: Plan) -> list[str]:
    """The warnings, or nothing."""
    found = [f"{warning.text} ({warning.source})" for warning in warnings(plan)]
    return ["WARNINGS", *_wrapped(found)] if found else []


def _wrapped(texts: Iterable[str]) -> list[str]:
    """Texts as a list that keeps to the width."""
    return [
        line
        for text in texts
        for line in textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ", break_long_words=False)
    ]


def _block(title: str, entries: tuple[Figure, ...], plan: Plan, both_units: bool) -> list[str]:
    """A titled list of figures: value and what it is measured from, then formula and source in small print."""
    column = 22 if both_units else 12
    lines = [f"{title.upper():<{LABEL + 2}} {'':<{column}} measured from"]
    found = spreads(plan)
    for figure in entries:
        value = shown(figure, plan, both_units)
        lines += _hanging(f"  {figure.label:<{LABEL}} {value:<{column}} ", figure.measured_from)
        lines += _hanging("      = ", f"{figure.formula} [{figure.source}]")
        if figure.note:
            lines += _hanging("      : ", figure.note)
        if figure.name in found:
            lines += _hanging("      ? ", f"depends on the guessed pitch: {found[figure.name].words}")
    return lines


def _hanging(start: str, text: str) -> list[str]:
    """A text after its start, further lines hanging under it."""
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)


def _choices(plan: Plan, lock: Lock, both_units: bool) -> list[str]:
    """The places for H2 next to the one chosen, and the eye that comes of each."""
    taken, unit = ((-1, rope_between_holes(lock)), (-1, eye_wanted(plan, lock))), plan.job.length_unit
    lines = ["WHERE H2 CAN GO: PICKS FROM H1, AND THE EYE THAT COMES OF EACH"]
    for choice in lock.choices:
        place = replace(h2(plan, lock), value=choice.rope_h1_to_h2)
        slack = Figure("", "", choice.slack, "", "", "", parts=((1, place), *taken))
        fit = "loose" if choice.slack >= 0 else "tight"
        off = show_length(abs(printed_mm(slack, plan, unit)), unit, plan.job.tools.tape_division_mm)
        notes = [
            "<- this plan" if choice is lock.choice else "",
            "rope rolled one strand" if choice.rolled else "",
            "" if choice.fits else "terminator does not fit",
        ]
        lines.append(
            f"  {choice.picks:>4} picks  {shown(place, plan, both_units):<{22 if both_units else 10}}"
            f" {off} {fit}, throat {math.degrees(choice.eye.throat):.0f} deg"
            f"  {', '.join(note for note in notes if note)}".rstrip()
        )
    return lines
