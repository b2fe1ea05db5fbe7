"""A method's steps and mistakes, and the plan's tables, as a page's words and places. Plain data, nothing escaped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.cautions import BESIDE_FIGURES
from fidpath.geometry import Opening, Part
from fidpath.methods import CameraView, Method, Mistake, Step, worded, worded_mistake
from fidpath.outputs.page.record import Record, bodies_record, hole_record, paint_record, place
from fidpath.planning import MEANINGS, Plan, figures_as_data, notices_as_data
from fidpath.scene import (
    PART_WORDS,
    Chip,
    Label,
    Model,
    Sight,
    Solid,
    Stage,
    arrow,
    chips,
    colour_of,
    equipped,
    faces_of,
    hole_axes,
    is_open,
    lines_of,
    looked_at,
    staged,
    vector,
)
from fidpath.settling import SettledState

ARROW = 0.2
"""Half width of an arrow's shaft, in rope diameters."""

BESIDE_HOME = 25.0
"""Rope beyond the entry that the first picture is made with, in rope diameters: the rest follows."""

ROOM = 1.3
"""How much larger a view may become so that it holds the arrow too; otherwise it goes without."""

HOME = (0.22, -0.55, 0.9), (0.0, 1.0, 0.0)
"""From where the aim is looked at first, and what is up there."""


def numbered(steps: Sequence[Step]) -> list[str]:
    """What each step is called: its number, with a letter where several states share it."""
    names, seen = [], dict[int, int]()
    for step in steps:
        alone = sum(other.number == step.number for other in steps) == 1
        seen[step.number] = seen.get(step.number, -1) + 1
        names.append(f"{step.number}" if alone else f"{step.number}{chr(ord('a') + seen[step.number])}")
    return names


def step_records(plan: Plan, method: Method, pictures: Mapping[str, Record]) -> list[Record]:
    """Every step of a method: its words, and with them its picture's record, by state, where there is one."""
    named = zip(numbered(method.steps), method.steps, strict=True)
    return [{"name": name, **_step_words(worded(step, plan)), **pictures.get(step.state, {})} for name, step in named]


def step_picture(
    plan: Plan,
    step: Step,
    made: SettledState,
    before: SettledState | None,
    between: Sequence[SettledState] = (),
) -> Record:
    """What belongs to a step's picture.

    step: with its words filled; before: the state of the step before, if any; between: those on the way from there.
    """
    then = None if before is None else lines_of(before)
    return {
        **_picture(
            equipped(staged(made, then, plan, step.marks, step.turns), step),
            [v for v in step.views if v.state in ("", step.state) and not v.crossed],
        ),
        "between": [{"state": one.kind, "heading": round(one.state.heading, 6)} for one in between],
    }


def _step_words(step: Step) -> Record:
    return {
        "state": step.state,
        "caption": step.caption,
        "instructions": list(step.instructions),
        "check": step.check,
        "caution": step.caution,
    }


def _picture(stage: Stage, views: Iterable[CameraView]) -> Record:
    """Cameras, colours, labels, numbers and bodies of one picture."""
    model = stage.model
    return {
        "heading": round(model.state.heading, 6),
        "views": _views(stage, views),
        "marks": _marks(stage),
        "paint": paint_record(model, stage.toned, stage.inked, stage.dots),
        "labels": _labels(stage),
        "chips": [_chip(model, chip, i) for i, opening in enumerate(stage.toned) for chip in chips(model, opening)],
        "holes": [hole_record(model, opening) for opening in _open_holes(stage)],
        "bodies": bodies_record(_bodies(stage)),
    }


def _chip(model: Model, chip: Chip, opening: int) -> Record:
    """A number on a strand: which strand that is, and the place of its opening among those shown."""
    away = np.linalg.norm(model.strands.points - np.array(chip.at), axis=2)
    strand = int(np.unravel_index(int(away.argmin()), away.shape)[0])
    return {"words": chip.text, "strand": strand, "opening": opening, "colour": list(colour_of(chip.part))}


def _open_holes(stage: Stage) -> list[Opening]:
    """Openings that one can look into, those worked on first."""
    found = [opening for opening in stage.model.state.openings if is_open(stage.model, opening)]
    return sorted(found, key=lambda opening: opening not in stage.toned)


def _bodies(stage: Stage) -> list[Solid]:
    """Tools and the arrow for what moves; the terminator is the same in every picture."""
    solids = [solid for solid in stage.props if solid.part is not Part.TERMINATOR]
    if stage.way is not None:
        body = arrow(stage.way, ARROW * stage.model.d)
        solids.append(Solid(body, Part.ARROW))
    return solids


def _views(stage: Stage, views: Iterable[CameraView | Sight]) -> list[Record]:
    """Each view's axes, turned with the state, and how far what it must hold reaches along them, mm."""
    heading = stage.model.state.heading
    cos, sin = np.cos(heading), np.sin(heading)
    turn = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
    return [_view(stage, view, turn @ np.array(view.direction), turn @ np.array(view.up)) for view in views]


def _view(stage: Stage, view: CameraView | Sight, direction: Floats, upward: Floats) -> Record:
    toward = direction / np.linalg.norm(direction)
    right = np.cross(upward, toward)
    right /= np.linalg.norm(right)
    axes = np.stack([right, np.cross(toward, right), toward])
    reach = looked_at(stage, view.look) @ axes.T
    wider = reach if stage.way is None else np.concatenate([reach, stage.way @ axes.T])
    fits = bool((np.ptp(wider, axis=0)[:2] <= ROOM * np.ptp(reach, axis=0)[:2].max()).all())
    reach = wider if fits else reach
    return {
        "axes": axes.round(6).tolist(),
        "low": place(reach.min(axis=0)),
        "high": place(reach.max(axis=0)),
        "arrow": fits,
    }


def home(made: SettledState, plan: Plan) -> Record:
    """The view of what is to be made, and between which stations there is rope to be seen in it."""
    reach = BESIDE_HOME * plan.braid.diameter
    sight = Sight(("eye", *plan.letters, "entry"), *HOME)
    return {
        "views": _views(staged(made, None, plan, (*plan.letters, "E"), False), [sight]),
        "only": [round(plan.station_entry_host - reach, 2), round(plan.station_entry_tail + reach, 2)],
    }


def _marks(stage: Stage) -> list[Record]:
    """Lettered marks of a picture: station, and the words beside them."""
    words = {label.mark: label.text for label in stage.labels if label.mark}
    return [
        {"letter": letter, "station": round(float(at), 4), "words": words.get(letter, "")}
        for letter, at in stage.places
    ]


def _labels(stage: Stage) -> list[Record]:
    """Words beside groups, tools and faces: turns where they count, which face is the dotted one."""
    found = [label for label in stage.labels if not label.mark]
    for opening in (each for each in stage.toned if is_open(stage.model, each)):
        axes = hole_axes(stage.model, opening)
        for face, side in faces_of(stage.model.state).items():
            edge = axes.middle + side * axes.wide * axes.left - 0.9 * axes.along_half * axes.along
            found.append(Label(PART_WORDS[face], vector(edge)))
    return [{"words": label.text, "at": place(label.at)} for label in found]


def wrong_records(plan: Plan, method: Method, pictures: Mapping[str, Record]) -> list[Record]:
    """Every mistake, by the step it is made at: its words, and with them its pictures' record, where there is one."""
    ways = method.mistakes_in_order
    return [{**_wrong_words(worded_mistake(mistake, plan)), **pictures.get(mistake.name, {})} for mistake in ways]


def wrong_picture(plan: Plan, mistake: Mistake, wrong: SettledState, right: SettledState) -> Record:
    """What belongs to a mistake's picture, and to that of its right counterpart beside it. way: its words filled."""
    return {
        **_beside(wrong, wrong.plan, mistake),
        "right": {"state": mistake.beside, **_beside(right, plan, mistake)},
    }


def _beside(made: SettledState, plan: Plan, mistake: Mistake) -> Record:
    """A mistake's or its right counterpart's picture, seen as the mistake is."""
    views = [view for view in mistake.views if not view.state]
    return _picture(staged(made, None, plan, plan.opened, True), views)


def _wrong_words(mistake: Mistake) -> Record:
    return {
        "state": mistake.name,
        "title": mistake.title,
        "step": mistake.step_number,
        "beside": mistake.beside,
        "signs": list(mistake.signs),
        "off": mistake.how_far_off,
        "back": list(mistake.remedy),
    }


def tables(plan: Plan) -> Record:
    """The plan's marks, lengths and figures for reading, its cautions and warnings."""
    data = {**figures_as_data(plan), **notices_as_data(plan)}
    return {
        **{name: [_row(entry) for entry in data[name]] for name in ("marks", "lengths", "figures")},
        "words": [f"{word}: {means}" for word, means in MEANINGS.items()] if plan.lock else [],
        "warnings": [f"{found['text']} ({found['source']})" for found in data["warnings"]],
        "cautions": list(BESIDE_FIGURES),
    }


def _row(entry: Mapping[str, Any]) -> Record:
    kept = ("name", "label", "shown", "measured_from", "formula", "source")
    return {**{key: entry[key] for key in kept}, "note": entry.get("note", "")}
