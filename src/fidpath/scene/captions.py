"""The words of a step's picture: what to do, what to check, what the marks are called and where they are measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.geometry import Part
from fidpath.methods import Mistake, Step, fill
from fidpath.planning import Plan, caliper_mm, figures, marks, shown
from fidpath.scene.paint import Model
from fidpath.scene.scene import Section, Words

HOLE_NAMES = ("hole in the standing part", "hole in the tail")
"""What the letters of a lock's holes mark, in their order from the eye."""

NAMES = {
    "E": "entry, on the standing part",
    "R": "rough bury mark, on the tail",
    "B": "bury mark, on the tail",
    "X": "cut here",
}
"""What each other letter marks."""

FIGURES = {"E": "entry", "R": "rough_bury_mark", "B": "bury_mark", "X": "tail_cut"}
"""The plan's figure that places each mark; a hole's has its letter."""

COUNTS = {"H2": "crossings_to_h2"}
"""The plan's count of crossings that places a mark, and that rules."""


IN_HAND = {
    "small fid": "{first_fid} fid",
    "large fid": "{second_fid} fid",
    "fids from both sides": "{h2_fids}",
    "tape": "measuring tape",
    "marker": "pen",
    "knife": "sharp knife",
    "terminator": "{terminator}",
    "post": "smooth post",
    "straight edge": "straight edge",
    "needle": "needle",
    "long fid": "long fid, wire or puller",
    "mark sleeve": "mark sleeve",
}
"""What each tool of a method is called where a step's are listed; figures in braces."""


def column(step: Step, plan: Plan) -> tuple[Section, ...]:
    """A step's column: what is needed, what to do, what to check, and where to take care."""
    do = Section("Do", tuple((str(i), text) for i, text in enumerate(step.instructions, start=1)))
    found = [do, Section("Check", (("", step.check),), framed=True)]
    if step.tools:
        used = dict.fromkeys(fill(IN_HAND[tool.kind], plan) for tool in step.tools)
        found.insert(0, Section("In hand", (("", _sentence("; ".join(used))),)))
    if step.caution:
        found.append(Section("Take care", (("", step.caution),)))
    return tuple(found)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def subject(plan: Plan) -> str:
    """What rope a picture is of, and what lies in the eye: a line under it."""
    job = plan.job
    rope, bears = (caliper_mm(mm, plan) for mm in (job.rope.diameter_mm, job.terminator.bearing_diameter_mm))
    return f"Drawn for {job.rope.strands}-strand rope of {rope}; {job.terminator.name}, bearing diameter {bears}."


LONGEST_NAME = 28
"""Letters of a terminator's name beyond which a picture's key leaves it at the general word."""


def called(plan: Plan) -> tuple[tuple[Part, str], ...]:
    """What the job itself calls a part of its pictures."""
    name = plan.job.terminator.name
    return ((Part.TERMINATOR, name),) if len(name) <= LONGEST_NAME else ()


def mark_places(model: Model, plan: Plan, letters: Sequence[str]) -> dict[str, float]:
    """Stations of a step's lettered marks that lie in its state; T stands for every drop of the taper."""
    state = model.state
    places = {
        **dict(plan.holes),
        "E": plan.station_entry_host,
        "R": plan.tail_to_lay_out - plan.rough_bury_mark,
        "B": plan.station_entry_tail,
        "X": plan.station_tip,
        **{opening.name: opening.host for opening in state.openings},
    }
    found = {letter: places[letter] for letter in letters if letter in places}
    if "T" in letters and plan.taper.stagger > 0:
        found |= {f"T{i}": plan.station_entry_tail + drop for i, drop in enumerate(plan.taper.drops, start=1)}
    return {letter: at for letter, at in found.items() if state.first <= at <= state.last}


def mark_words(plan: Plan, letter: str, new: bool) -> str:
    """What stands beside a mark's letter: its name, and how it is measured where it is new."""
    name = {**NAMES, **dict(zip(plan.letters, HOLE_NAMES, strict=False))}.get(letter, "")
    if not name or not new or not plan.lock:
        return name
    figure = next(f for f in marks(plan) if f.name == FIGURES.get(letter, letter))
    count = next((shown(f, plan) for f in figures(plan) if f.name == COUNTS.get(letter)), None)
    far = f"{shown(figure, plan)}, {count} crossings,\n" if count else f"{shown(figure, plan)} "
    return f"{name},\n{far}from {figure.measured_from.split(',')[0]}"


def short_words(text: str) -> str:
    """A label's words for where there is little room: without what was said of the mark, or of the dot, before."""
    for name in HOLE_NAMES:
        if text == name or text.startswith(f"{name},\nno turn"):
            return text.removeprefix(name).removeprefix(",\n")
    return text.removesuffix(": dotted face")


def entry_words(model: Model) -> str:
    """Which side of the standing part a buried tail goes in on; nothing where none does."""
    bury, d = model.strands.bury, model.d
    if bury is None:
        return ""
    host = bury.host[0] + d
    beside = model.at(bury.guest[0] - d) - model.at(host)
    left = float(beside @ np.cross((0.0, 0.0, 1.0), model.along(host))) > 0
    return f"entry: the tail goes in\non the standing part's {'left' if left else 'right'}"


def turn_words(turns: int) -> str:
    """How many whole turns a group makes about itself, and of which hand."""
    if turns == 0:
        return "no turn"
    hand = "right" if turns > 0 else "left"
    return f"{abs(turns)} turn{'s' if abs(turns) > 1 else ''} {hand}-handed"


@dataclass(frozen=True)
class Sight:
    """A view of a picture: names of places or letters of marks it must hold, where it is seen from, what is up.

    state, say, crossed, beside, tools, broken, arrow, group: as in a method's `CameraView`.
    """

    look: tuple[str, ...]
    direction: tuple[float, float, float]
    up: tuple[float, float, float]
    state: str = ""
    say: str = ""
    crossed: bool = False
    beside: int = 0
    tools: tuple[str, ...] | None = None
    broken: bool = False
    arrow: tuple[str, str, str] | None = None
    group: str | None = None


MOST_VIEWS = 4
"""Views of a step's picture at most."""

CLOSE = ((0.0, -0.3, 1.0), (0.0, 1.0, 0.0))
"""From where a mark is shown close to, and what is up there."""


def sights(step: Step, inked: Sequence[float], mirrored: bool = False) -> tuple[Sight, ...]:
    """A step's views; where there is but one and a mark is made, that mark close to besides.

    mirrored: whether the work is, as the step's own views are already.
    """
    found = tuple(
        Sight(v.look, v.direction, v.up, v.state, v.say, v.crossed, v.beside, v.tools, v.broken, v.arrow, v.group)
        for v in step.views[:MOST_VIEWS]
    )
    if len(found) > 1 or not inked or not step.marks:
        return found
    (x, y, z), (up_x, up_y, up_z) = CLOSE
    hand = -1.0 if mirrored else 1.0
    return (*found, Sight((step.marks[0],), (x, hand * y, z), (up_x, hand * up_y, up_z)))


def seen_from(sight: Sight) -> str:
    """Where a view is seen from, in words; the standing part heads away from the captive end, its left to the north."""
    x, y, z = sight.direction
    if z > 1.6 * (x * x + y * y) ** 0.5:
        return "from above"
    if abs(y) >= abs(x):
        return "from the standing part's left" if y > 0 else "from the standing part's right"
    return "toward the captive end" if x > 0 else "from the captive end's side"


def wrong_columns(mistake: Mistake, box: tuple[int, int, int, int]) -> tuple[Words, Words]:
    """What gives a mistake away and how far off it is, and the way back, side by side."""
    x, y, width, height = box
    half = width // 2 - 24
    signs = [Section("What gives it away", tuple(("-", sign) for sign in mistake.signs))]
    if mistake.how_far_off:
        signs.append(Section("How far off", (("", mistake.how_far_off),)))
    back = Section("Remedy", tuple((str(i), text) for i, text in enumerate(mistake.remedy, start=1)))
    return Words((x, y, half, height), tuple(signs)), Words((x + half + 48, y, half, height), (back,))
