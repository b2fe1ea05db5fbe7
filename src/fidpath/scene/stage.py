"""A settled state made ready for its pictures: which openings show their groups, marks, dots, tools and labels."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening, Part
from fidpath.methods import Step, fill
from fidpath.planning import Plan
from fidpath.scene.captions import mark_places, mark_words, turn_words
from fidpath.scene.paint import TICK, Model, RopeLines, face_dot, face_dots, hole_axes, model_of, opened
from fidpath.scene.part_words import PART_WORDS
from fidpath.scene.props import UP, prop_top, terminator, tools, vector, way_of
from fidpath.scene.scene import Dimension, Label, Solid
from fidpath.settling import SettledState


@dataclass(frozen=True)
class Stage:
    """What all panels of one picture are drawn from.

    toned: openings whose groups are shown; inked, dots: see `rope_solid`; way: the arrow's line `(n, 3)` mm;
    places: stations of the lettered marks. plan: what the ropes are spliced to; None where they only lie there.
    """

    model: Model
    before: RopeLines | None = None
    plan: Plan | None = None
    toned: tuple[Opening, ...] = ()
    inked: tuple[float, ...] = ()
    dots: tuple[tuple[float, float, float], ...] = ()
    props: tuple[Solid, ...] = ()
    way: Floats | None = None
    labels: tuple[Label, ...] = ()
    places: tuple[tuple[str, float], ...] = ()
    dimensions: tuple[Dimension, ...] = ()


def staged(
    made: SettledState,
    before: RopeLines | None,
    plan: Plan,
    marks: Sequence[str],
    turns: bool,
    worked: Collection[str] = (),
) -> Stage:
    """A state with its terminator, marks and openings; tools and arrow come with the step (`equipped`).

    turns: whether turns of the hole in the tail are counted; worked: names of holes that something is drawn through.
    """
    model = model_of(made)
    toned = opened(model, before.state if before is not None else None, worked)
    places = mark_places(model, plan, marks)
    holes = {o.name for o in model.state.openings}
    inked = tuple(at for letter, at in places.items() if letter not in holes)
    counted = next((o for o in model.state.openings if turns and o.name in plan.letters[1:]), None)
    labels = _turn_labels(model, counted) if counted is not None else []
    for letter, at in places.items():
        words = mark_words(plan, letter, letter not in holes)
        if counted is not None and letter == counted.name and not any(counted.turns):
            words += ",\nno turn in either group"
        place = over(model, at) if letter in holes else beside_tick(model, at)
        labels.append(Label(words, place, letter, rank=0 if letter in holes else -1))
    stage = Stage(
        model,
        before,
        plan,
        inked=inked,
        props=tuple(terminator(model, plan)),
        labels=tuple(labels),
        places=tuple(places.items()),
        dimensions=_buried(model, plan),
    )
    marked = tuple(face_dot(model, at) for letter, at in places.items() if letter in plan.letters[1:] and at in inked)
    shown = showing(stage, toned)
    return replace(shown, dots=(*shown.dots, *marked))


def _buried(model: Model, plan: Plan) -> tuple[Dimension, ...]:
    """The length of the bury, from the tail's tip to the entry."""
    if model.strands.bury is None:
        return ()
    entry, tip = (vector(model.at(station)) for station in model.strands.bury.host)
    return (Dimension(fill("bury {bury_length} of tail, {bury_along_cover} in the cover", plan), tip, entry, -1),)


def showing(stage: Stage, toned: Sequence[Opening]) -> Stage:
    """The stage with these openings' groups shown, and the dot of every hole."""
    model = stage.model
    return replace(stage, toned=tuple(toned), dots=face_dots(model, model.state.openings))


def over(model: Model, station: float, rope: int = 0) -> tuple[float, float, float]:
    """A place on a rope's upper side at a station, mm."""
    return vector(model.at(station, rope) + 0.4 * model.d * UP)


def beside_tick(model: Model, station: float) -> tuple[float, float, float]:
    """The end of a tick at a station, mm: a leader to its middle would hide it."""
    return vector(model.at(station) - 1.4 * TICK * model.d * np.cross(UP, model.along(station)) + 0.4 * model.d * UP)


def _turn_labels(model: Model, opening: Opening) -> list[Label]:
    """How often each group of an opening is turned about itself, beside the group; none where neither is."""
    if not any(opening.turns):
        return []
    members = hole_axes(model, opening).top
    points, rope = model.points(opening.rope), opening.rope
    column = model.column(opening.host + 0.5 * (opening.flat + opening.half), rope)
    labels = []
    groups = ((members, opening.turns[0], Part.TOP_GROUP), (~members, opening.turns[1], Part.BOTTOM_GROUP))
    for group, turns, part in groups:
        place = points[group, column].mean(axis=0)
        labels.append(Label(f"{PART_WORDS[part]}:\n{turn_words(turns)}", vector(place)))
    return labels


def equipped(stage: Stage, step: Step) -> Stage:
    """The stage with the step's tools and what moves."""
    assert stage.plan is not None
    used = tuple(tools(stage.model, stage.plan, [(t.kind, t.at) for t in step.tools], stage.inked))
    named = [Label(PART_WORDS[s.part], prop_top(s)) for s in used if s.part is Part.POST]
    way = way_of(stage.model, stage.before, stage.plan, (step.moves, step.start or "", step.goal or ""))
    return replace(stage, props=(*stage.props, *used), way=way, labels=(*stage.labels, *named))
