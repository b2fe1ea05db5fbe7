"""A settled state made ready for its pictures: which openings show their groups, marks, dots, tools and labels."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening, Part
from fidpath.methods import Step
from fidpath.planning import Plan, marks, shown
from fidpath.scene.broken_view import is_left_out, shortened
from fidpath.scene.captions import entry_words, mark_places, mark_words, turn_words
from fidpath.scene.ink_marks import face_dot, face_dots
from fidpath.scene.paint import TICK, Model, RopeLines, hole_axes, model_of, opened
from fidpath.scene.part_words import PART_WORDS
from fidpath.scene.props import UP, eased_over, place_of, prop_top, terminator, tools, vector, way_of
from fidpath.scene.scene import Dimension, Label, Solid
from fidpath.scene.shapes.bury_tools import exit_of
from fidpath.scene.step_dimensions import dimensions_of
from fidpath.settling import SettledState

NAMED = {Part.POST: 0.5, Part.LONG_FID: 0.5, Part.MARK_SLEEVE: 0.32}
"""Tools that are named in the picture, and where along x their names point at them: off a sleeve's middle window."""

EASED = (("top group first", Part.TOP_GROUP), ("then the bottom group", Part.BOTTOM_GROUP))
"""What is said of groups that are eased over a crossing, and where."""

KEPT = 4.2
"""How far to either side of a place a broken-length view keeps the rope, in rope diameters."""

CROWDED = 6.0
"""How near a mark may lie to where the rope runs on, for that to be named, in rope diameters."""

LEG_AT = 2.2
"""How far before a hole a leg in it is named, in rope diameters."""


@dataclass(frozen=True)
class Stage:
    """What all panels of one picture are drawn from.

    toned: openings whose groups are shown; inked, dots: see `rope_solid`; dotted: the holes of the dots;
    way, eased: the lines `(n, 3)` mm of the arrows for what moves and for groups that are eased over it; places:
    stations of the lettered marks. plan: what the ropes are spliced to; None where they only lie there.
    """

    model: Model
    before: RopeLines | None = None
    plan: Plan | None = None
    toned: tuple[Opening, ...] = ()
    inked: tuple[float, ...] = ()
    dots: tuple[tuple[float, float, float], ...] = ()
    dotted: tuple[str, ...] = ()
    props: tuple[Solid, ...] = ()
    way: Floats | None = None
    eased: tuple[Floats, ...] = ()
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
    kept: Sequence[str] = (),
    known: Collection[str] = (),
) -> Stage:
    """A state with its terminator, marks and openings; tools and arrow come with the step (`equipped`).

    turns: whether turns of the hole in the tail are counted; worked: names of holes that something is drawn through.
    kept: places between which the rope is left out, if any. known: letters of marks that were made before.
    """
    model = model_of(made)
    if kept:
        model = shortened(model, _kept(model, plan, kept))
    toned = opened(model, before.state if before is not None else None, worked)
    places = mark_places(model, plan, marks)
    holes = {o.name for o in model.state.openings}
    inked = tuple(at for letter, at in places.items() if letter not in holes)
    counted = next((o for o in model.state.openings if turns and o.name in plan.letters[1:]), None)
    labels = _turn_labels(model, counted) if counted is not None else []
    labels += [_mark_label(model, plan, letter, places, counted, known) for letter in places]
    stage = Stage(
        model,
        before,
        plan,
        inked=inked,
        props=tuple(s for s in terminator(model, plan) if not is_left_out(model, s.mesh.points.mean(axis=0))),
        labels=(*labels, *_guest_labels(model), *_captive_end(model, list(places.values()))),
        places=tuple(places.items()),
        dimensions=dimensions_of(model, plan, marks),
    )
    marked = {letter: at for letter, at in places.items() if letter in plan.letters[1:] and at in inked}
    shown = showing(stage, toned)
    dots = tuple(face_dot(model, at) for at in marked.values())
    return replace(shown, dots=(*shown.dots, *dots), dotted=(*shown.dotted, *marked))


def _mark_label(
    model: Model, plan: Plan, letter: str, places: Mapping[str, float], counted: Opening | None, known: Collection[str]
) -> Label:
    """A mark's letter, with what is said of it. counted: the hole whose turns are; known: marks made before."""
    at, holes = places[letter], {o.name for o in model.state.openings}
    words = entry_words(model) if letter == "E" else ""
    words = words or mark_words(plan, letter, letter not in {*holes, *known})
    within = _within(model, letter, at)
    if within:
        words += f",\nunder here, in {within}"
    if counted is not None and letter == counted.name and not any(counted.turns):
        words += ",\nno turn in either group"
    place = _over_hole(model, letter, places, within) if letter in holes else beside_tick(model, at)
    return Label(words, place, letter, rank=0 if letter in holes else -1)


def _within(model: Model, letter: str, at: float) -> str:
    """The other hole that a hole at a station lies in, if any."""
    found = (p.hole for p in model.state.passes if abs(p.guest - at) < 0.5 * model.d and p.hole != letter)
    return next(found, "")


def showing(stage: Stage, toned: Sequence[Opening]) -> Stage:
    """The stage with these openings' groups shown, and the dot of every hole."""
    model, openings = stage.model, stage.model.state.openings
    dots, names = face_dots(model, openings), tuple(opening.name for opening in openings)
    return replace(stage, toned=tuple(toned), dots=dots, dotted=names)


def _over_hole(model: Model, letter: str, places: Mapping[str, float], within: str) -> tuple[float, float, float]:
    """Where a hole's letter points: at its middle, or at its top group off it where another mark lies in the hole.

    Where it lies `within` another hole, at the top group that covers it.
    """
    if within:
        return _top(model, model.state.opening(within), 0.0)
    opening, at = model.state.opening(letter), places[letter]
    others = (model.at(station) for other, station in places.items() if other != letter)
    crowded = any(float(np.linalg.norm(model.at(at) - other)) < 1.5 * model.d for other in others)
    if not crowded or opening.flat <= model.d:
        return over(model, at)
    return _top(model, opening, 0.9 * opening.flat)


def _top(model: Model, opening: Opening, off: float) -> tuple[float, float, float]:
    """The uppermost strand's upper side at an opened hole, `off` mm along the rope from its middle."""
    strands = model.points(opening.rope)[:, model.column(opening.host + off, opening.rope)]
    return vector(strands[int(strands[:, 2].argmax())] + 0.4 * model.braid.thickness * UP)


def _kept(model: Model, plan: Plan, names: Sequence[str]) -> list[tuple[float, float]]:
    """Stretches of the table's x about places and marks, mm: those that a broken-length view keeps."""
    low, high, reach = float(model.lines[0][:, 0].min()), float(model.lines[0][:, 0].max()), KEPT * model.d
    marked = mark_places(model, plan, names)
    bury = model.strands.bury
    ends = {} if bury is None else {"tail end": bury.host[1]}
    drops = [at for letter, at in mark_places(model, plan, ["T"]).items()] if "T" in names else []
    stations = [*(ends.get(name, marked.get(name, place_of(model, plan, name))) for name in names), *drops]
    found = [float(model.at(station)[0]) for station in stations if station is not None]
    return [(max(x - reach, low), min(x + reach, high)) for x in found]


def over(model: Model, station: float, rope: int = 0) -> tuple[float, float, float]:
    """A place on a rope's upper side at a station, mm."""
    return vector(model.at(station, rope) + 0.4 * model.d * UP)


def beside_tick(model: Model, station: float, side: int = -1) -> tuple[float, float, float]:
    """The end of a tick at a station, mm, on the rope's right (-1) or left: a leader to its middle would hide it.

    At the rope's end there is no tick.
    """
    if station > model.state.last - 0.3 * model.d:
        return vector(model.at(station))
    out = 1.4 * TICK * model.d * np.cross(UP, model.along(station))
    return vector(model.at(station) + side * out + 0.4 * model.d * UP)


def _off_tape(stage: Stage, used: Sequence[Solid]) -> tuple[Label, ...]:
    """The stage's labels, those of ticks pointing at the end that is farther from a measuring tape."""
    tape = [solid.mesh.points for solid in used if solid.part is Part.MEASURING_TAPE]
    places = dict(stage.places)

    def moved(label: Label) -> Label:
        at = places.get(label.mark)
        if at not in stage.inked or not tape:
            return label
        ends = [np.array(beside_tick(stage.model, at, side)) for side in (-1, 1)]
        far = [np.linalg.norm(np.concatenate(tape) - end, axis=1).min() for end in ends]
        return replace(label, at=vector(ends[int(np.argmax(far))]))

    return tuple(moved(label) for label in stage.labels)


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
        side = 1.0 if part is Part.TOP_GROUP else -1.0
        here = points[group, column]
        place = here[int((side * here[:, 2]).argmax())] + 0.5 * side * model.braid.thickness * UP
        labels.append(Label(f"{PART_WORDS[part]}:\n{turn_words(turns)}", vector(place), part=part))
    return labels


def _guest_labels(model: Model) -> list[Label]:
    """What each of several legs in one hole is, where they are different parts of the rope."""
    found = []
    for opening in model.state.openings:
        guests = [p.guest for p in model.state.passes if p.hole == opening.name and p.rope == 0]
        parts = [_part_at(model, guest - LEG_AT * model.d) for guest in guests]
        holes = [abs(other.host - guest) < 0.5 * model.d for other in model.state.openings for guest in guests]
        if len(set(parts)) > 1 and np.ptp(guests) > model.d and not any(holes):
            found += [
                Label(_guest_words(model, opening, guest, part), over(model, guest - LEG_AT * model.d), rank=1)
                for part, guest in zip(parts, guests, strict=True)
            ]
    return found


def _guest_words(model: Model, opening: Opening, guest: float, part: Part) -> str:
    """What a leg in a hole is: its part of the rope, or the two holes between which it lies."""
    before = [p for p in model.state.passes if p.hole != opening.name and p.guest < guest < opening.host]
    return f"{PART_WORDS[part]}:\nfrom {before[-1].hole} to {opening.name}" if before else PART_WORDS[part]


def _captive_end(model: Model, marked: Sequence[float]) -> list[Label]:
    """Where the rope runs on, at the near end of a broken-length view; none where a mark of the tail lies beside it."""
    if not model.kept:
        return []
    place = over(model, model.kept[0][0] + 0.4 * model.d)
    crowded = any(np.linalg.norm(model.at(station) - place) < CROWDED * model.d for station in marked)
    return [] if crowded else [Label("to the captive end", place, rank=1)]


def _part_at(model: Model, station: float) -> Part:
    return [part for part, start in model.state.stretches if start <= station][-1]


def _named(stage: Stage, tool: Solid) -> Label:
    """What a tool is called, at a place on it; a puller where it goes in, which is measured."""
    if tool.part is not Part.LONG_FID:
        return Label(PART_WORDS[tool.part], prop_top(tool, NAMED[tool.part]))
    assert stage.plan is not None
    far = next(shown(mark, stage.plan) for mark in marks(stage.plan) if mark.name == "tip_in_standing_part")
    words = f"{PART_WORDS[tool.part]}:\nin where the tip will lie,\n{far} from {stage.plan.origin}"
    return Label(words, over(stage.model, exit_of(stage.model, stage.plan)), rank=-1)


def equipped(stage: Stage, step: Step, kinds: Collection[str] | None = None) -> Stage:
    """The stage with the step's tools, of these kinds alone if there are any named, and what moves."""
    assert stage.plan is not None
    shown = [(tool.kind, tool.at) for tool in step.tools if kinds is None or tool.kind in kinds]
    used = tuple(tools(stage.model, stage.plan, shown, stage.inked))
    eased = eased_over(stage.model, stage.plan) if step.moves == "bight" else ()
    named = [_named(stage, s) for s in used if s.part in NAMED]
    named += [Label(words, vector(way[2]), part=part) for way, (words, part) in zip(eased, EASED, strict=False)]
    way = way_of(stage.model, stage.before, stage.plan, (step.moves, step.start or "", step.goal or ""))
    return replace(stage, props=(*stage.props, *used), way=way, eased=eased, labels=(*_off_tape(stage, used), *named))
