"""Figures in a method's words: what `{name}` stands for, from the plan, in the user's unit.

Every figure of the plan by its name (those of `lengths`, `marks` and `figures`), and a few more that words need. Those
here hold for every eye; a method registers them together with its own. Where there is no plan, the figure's name stands
in square brackets.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Mapping
from types import MappingProxyType

from fidpath.errors import JobError
from fidpath.job import StitchPattern, rule
from fidpath.planning import (
    Figure,
    Plan,
    caliper_mm,
    figures,
    in_other_unit,
    lengths,
    marks,
    rule_source,
    shown,
    shown_mm,
)
from fidpath.units import show_tension

FIGURES = (
    "rope_diameter", "pick", "tail_to_lay_out", "rope_consumed", "first_fid", "second_fid", "eye_length_along_rope",
    "rope_round_terminator", "eye_length_to_crown", "most_across", "bury_length", "bury_in_standing_part",
    "trim", "bury_along_cover", "taper_length", "swollen_diameter", "take_up", "rough_bury_mark", "entry", "bury_mark",
    "tail_cut", "tip_in_standing_part", "throat_angle", "leg_tension_share", "D_over_d", "reference_tension",
)  # fmt: skip

"""Figures of every plan, by their names."""

DOT_AWAY = 3.0
"""How far from a hole's middle the dot of ink lies that names its face, in rope diameters: clear of parted strands."""

PLACE = re.compile(r"\{([^{}]*)\}")

Wording = Callable[[Plan], str]
"""What a placeholder stands for in the words of a plan."""


def filled(text: str, plan: Plan | None, known: Mapping[str, Wording]) -> str:
    """The text with every `{name}` replaced; without a plan, the name in brackets. Raises JobError for a bad name."""
    unknown = unknown_in(text, known)
    if unknown:
        raise JobError(*unknown)
    return PLACE.sub(lambda name: _word(name.group(1), plan, known), text)


def filled_twice(text: str, plan: Plan, known: Mapping[str, Wording]) -> str:
    """The same with every length in the user's unit and, in brackets, in the other system's."""
    other = in_other_unit(plan)

    def word(name: re.Match[str]) -> str:
        first, second = (_word(name.group(1), one, known) for one in (plan, other))
        same = first.split()[:2] == second.split()[:2]
        return first if same else f"{first} ({second})"

    return PLACE.sub(word, text)


def unknown_in(text: str, known: Mapping[str, Wording]) -> tuple[str, str] | None:
    """What is wrong with the first bad placeholder of a text, and what to write; None where all are known."""
    names = PLACE.findall(text)
    bad = next((name for name in names if name not in known), None)
    if bad is not None:
        near = difflib.get_close_matches(bad, known, n=1)
        hint = f'Did you mean "{{{near[0]}}}"? ' if near else ""
        return f'there is no figure "{{{bad}}}"', f"{hint}Allowed are {', '.join(sorted(known))}."
    if re.search(r"[{}]", PLACE.sub("", text)):
        return "a brace stands alone", "Braces hold the name of a figure, such as {pick}."
    return None


def _word(name: str, plan: Plan | None, known: Mapping[str, Wording]) -> str:
    if plan is None:
        return name if name in SIDES else f"[{name.replace('_', ' ')}]"
    return known[name](plan)


def figure(name: str) -> Wording:
    """The plan's figure of that name, as words."""
    return lambda plan: shown(figure_of(name, plan), plan)


def figure_of(name: str, plan: Plan) -> Figure:
    """The plan's figure of that name. Raises JobError where it has none."""
    every = (*lengths(plan), *marks(plan), *figures(plan))
    named = next((figure for figure in every if figure.name == name), None)
    if named is None:
        raise JobError(f'this splice has no figure "{{{name}}}"', "Leave it out of the method's words")
    return named


def _drops(plan: Plan) -> str:
    drops = [mark for mark in marks(plan) if mark.name.startswith("taper_drop_")]
    return ", ".join(f"{drop.label.partition(',')[0]} {shown(drop, plan)}" for drop in drops) or "no place"


def _drop_order(plan: Plan) -> str:
    """In which order strands of a hand are dropped, numbered round the rope from the first: past one to the next."""
    half, order = plan.braid.strands // 2, [0]
    while len(order) < plan.job.practice.taper_drops:
        one = (order[-1] + 2) % half
        while one in order:
            one = (one + 1) % half
        order.append(one)
    return ", ".join(str(one + 1) for one in order)


def _stretch_source(plan: Plan) -> str:
    if plan.job.gives("practice.post_stretch"):
        return "the job file's limit"
    found = rule("post_stretch_share")
    return "a limit we chose, no source" if found.status == "own" else f"a limit from {rule_source(found)}"


def _most_stretch(plan: Plan) -> str:
    return shown_mm(plan.job.practice.post_stretch_share * plan.eye_length, plan, "down")


ON_A_CROSSING, IN_A_DIAMOND = "where strands cross", "in the middle of a diamond"
"""What lies on top of the rope at a hole."""


def mark_place(plan: Plan) -> str:
    """What lies on top of the rope where a hole goes through it from side to side.

    There the strands cross at every other of N places round the rope, beginning next to the hole's mouth; a quarter of
    the way round is N/4 places on (counting).
    """
    return ON_A_CROSSING if (plan.braid.strands // 4) % 2 else IN_A_DIAMOND


def _stitch(word: Callable[[StitchPattern, Plan], str]) -> Wording:
    """Words about the lock-stitch."""

    def said(plan: Plan) -> str:
        stitch = plan.job.practice.stitch
        return "no stitches" if stitch is None else word(stitch, plan)

    return said


_MAKERS_TIME = "the rope maker's time"


def _setting(plan: Plan) -> str:
    """Under what load the splice is set and for how long: the job's own, or what the rope maker says."""
    practice = plan.job.practice
    given, long = practice.set_load_n, practice.set_time
    if given is None:
        return f"the rope maker's load for {long}" if long else "the rope maker's load and time"
    return f"{show_tension(given, plan.job.length_unit)} for {long or _MAKERS_TIME}"


def _half(more: int = 0) -> Wording:
    return lambda plan: str(plan.braid.strands // 2 + more)


def _side(usual: str, mirrored: str) -> Wording:
    """A side or a hand: the other one in mirrored work, and where no job says, the usual one."""
    return lambda plan: mirrored if plan.job.practice.mirrored else usual


SIDES: Mapping[str, str] = MappingProxyType({"left": "right", "right": "left", "Left": "Right", "Right": "Left"})
"""Each side or hand that words may name, and what it is called in mirrored work."""

OF_AN_EYE: Mapping[str, Wording] = MappingProxyType(
    {
        **{name: figure(name) for name in FIGURES},
        **{usual: _side(usual, other) for usual, other in SIDES.items()},
        "strands": lambda plan: str(plan.braid.strands),
        "half": _half(),
        "less": _half(-1),
        "more": _half(1),
        "mark_place": mark_place,
        "stitches": _stitch(lambda stitch, _plan: f"{stitch.stitches} stitches"),
        "stitch_spacing": _stitch(lambda stitch, plan: shown_mm(stitch.spacing_diameters * plan.braid.diameter, plan)),
        "stitch_length": _stitch(lambda stitch, plan: shown_mm(stitch.length_diameters * plan.braid.diameter, plan)),
        "stitch_twine": _stitch(lambda stitch, _plan: stitch.twine),
        "stitch_source": _stitch(lambda stitch, _plan: stitch.source),
        "setting": _setting,
        "diamond": lambda plan: caliper_mm(2 * plan.pick, plan),
        "bury_diameters": lambda plan: f"{plan.job.practice.bury_diameters:g}",
        "drops": _drops,
        "drop_order": _drop_order,
        "stagger": lambda plan: shown_mm(plan.taper.stagger, plan),
        "tip_strands": lambda plan: str(plan.braid.strands - 2 * plan.job.practice.taper_drops),
        "post_stretch": lambda plan: f"{plan.job.practice.post_stretch_share:.1%}",
        "post_stretch_length": _most_stretch,
        "post_stretch_source": _stretch_source,
        "terminator": lambda plan: plan.job.terminator.name,
        "captive_end": lambda plan: plan.job.line.captive_end,
        "thread_on_first": lambda plan: ", ".join(plan.job.line.thread_on_first) or "nothing",
    }
)
"""Names that may stand in braces in the words of any eye splice, and what each stands for."""
