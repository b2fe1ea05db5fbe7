"""The picture of one step: its views, the opened place cut across, its words and the key of colours."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry import Opening
from fidpath.methods import Step
from fidpath.planning import Plan
from fidpath.scene.cameras import Box, cameras
from fidpath.scene.captions import Sight, called, column, sights, subject
from fidpath.scene.paint import RopeLines, followed_strands, key_of, lines_of
from fidpath.scene.panels import cut_panel, panel, shows
from fidpath.scene.props import way_of
from fidpath.scene.scene import Label, Panel, Scene, Words, project
from fidpath.scene.stage import Stage, beside_tick, equipped, staged
from fidpath.settling import SettledState
from fidpath.states import kind_of

AREA: Box = (0, 74, 1132, 1052)
"""Where a step's views go, page pixels."""

COLUMN: Box = (1156, 92, 424, 1034)
"""Where a step's words go, with the cut through the opened place below them."""

CLOSE_BY = 45.0
"""Pixels from a mark within which another's letter is left to a closer view."""

CUT_HIGH = 376
"""Height of that cut's panel, pixels."""


def step_scene(
    step: Step,
    made: SettledState,
    previous: SettledState | None,
    plan: Plan,
    of: int = 0,
    part: str = "",
    name: str = "",
    moments: Mapping[str, SettledState] | None = None,
) -> Scene:
    """One step's picture. `of`: number of steps; `part`: a letter where one step has several pictures.

    `previous` is the state before, drawn as a ghost; None for the first. The step's words are filled already.
    moments: the other states its views show, by kind; views whose state isn't there are left out.
    """
    before = lines_of(previous) if previous is not None else None
    stage, states = _stage_of(step, made, before, plan), {**(moments or {}), step.state: made, "": made}
    views = [sight for sight in sights(step, stage.inked, plan.job.practice.mirrored) if sight.state in states]
    stages = [_seen(step, _staged_for(step, states, sight, stage), sight) for sight in views]
    stages = _with_arrows(stages, views)
    placed = cameras(stages, views, AREA)
    rows = zip(stages, views, placed, "ABCD", strict=False)
    panels = [panel(shown, sight, at, letter, first=letter == "A") for shown, sight, at, letter in rows]
    panels = _named_once(panels, stages, step.known)
    x, y, width, text = COLUMN
    cut = _cut_hole(stage, step)
    if cut is not None:
        text -= CUT_HIGH + 16
        shown = equipped(stage, step)
        across = cut_panel(shown, cut, (x, y + text + 16, width, CUT_HIGH), "ABCDE"[len(panels)])
        panels.append(replace(across, caption=_of_moment(across.caption, cut, views, step)))
    bare = Scene(name or f"{step.number:02d}{part}-{made.kind}", "", tuple(panels), key_of(stage.model))
    return step_words(replace(bare, words=(Words((x, y, width, text), ()),)), step, plan, of, part)


def _of_moment(caption: str, cut: Opening, views: Sequence[Sight], step: Step) -> str:
    """The caption of a hole cut across: as it is in which panel, where the panels show several moments."""
    own = [letter for letter, view in zip("ABCD", views, strict=False) if view.state in ("", step.state)]
    several = own and len(own) < len(views)
    return caption.replace(cut.name, f"{cut.name} in {own[0]}", 1) if several else caption


def _cut_hole(stage: Stage, step: Step) -> Opening | None:
    """The hole that is cut across: the one opened last, unless its groups lie turned on each other.

    Where turns are counted in a hole drawn up, that hole, to show what lies in it.
    """
    model, openings = stage.model, stage.model.state.openings
    if stage.toned:
        return None if len(followed_strands(model, stage.toned[-1])) else stage.toned[-1]
    filled = [one for one in openings if any(one.name == p.hole for p in model.state.passes)]
    return filled[-1] if step.turns and filled else None


def _with_arrows(stages: Sequence[Stage], views: Sequence[Sight]) -> list[Stage]:
    """The stages with the views' own arrows, or the step's in the first that has it."""
    own = any(view.arrow for view in views)
    first = next((k for k, seen in enumerate(stages) if seen.way is not None), 0)
    kept = [view.arrow is not None if own else k == first for k, view in enumerate(views)]
    return [seen if keep else replace(seen, way=None) for seen, keep in zip(stages, kept, strict=True)]


def step_words(scene: Scene, step: Step, plan: Plan, of: int = 0, part: str = "") -> Scene:
    """A step's scene with these words round its panels: its title, its column, and what must be said under it."""
    total = f" of {of}" if of else ""
    words = tuple(replace(words, sections=column(step, plan)) for words in scene.words)
    title = f"Step {step.number}{part}{total}: {step.caption}"
    return replace(scene, title=title, notes=(BESIDE_PICTURES, subject(plan)), words=words, called=called(plan))


def _named_once(panels: Sequence[Panel], stages: Sequence[Stage], known: Collection[str]) -> list[Panel]:
    """The panels with each mark's words in one of those that show it, and its letter alone in the others.

    That is the first panel; of marks that are known, which need few words, the one in the largest scale.
    """
    there: dict[str, list[int]] = {}
    hidden: dict[str, list[int]] = {}
    for index, (each, stage) in enumerate(zip(panels, stages, strict=True)):
        for label in (one for one in each.labels if one.mark):
            seen = there if shows(stage, each.camera, label) else hidden
            seen.setdefault(label.mark, []).append(index)
    chosen = {
        letter: max(among, key=lambda k: panels[k].scale) if letter in known else among[0]
        for letter, among in {**{letter: at for letter, at in hidden.items() if letter in known}, **there}.items()
    }

    def named(index: int, label: Label) -> Label:
        return label if chosen.get(label.mark, index) == index else replace(label, text="")

    return [
        replace(each, labels=_clear(each, [named(k, label) for label in each.labels]))
        for k, each in enumerate(_said_once(panels))
    ]


def _clear(shown: Panel, labels: Sequence[Label]) -> tuple[Label, ...]:
    """The labels without letters that are named elsewhere and whose mark lies close to one that is kept."""
    kept: list[Label] = []
    for label in sorted(labels, key=lambda one: not one.text):
        spots = project(shown, np.array([one.at for one in (label, *(k for k in kept if k.mark))]))
        if label.text or np.linalg.norm(spots[1:] - spots[0], axis=1).min(initial=np.inf) > CLOSE_BY:
            kept.append(label)
    return tuple(label for label in labels if any(label is one for one in kept))


def _said_once(panels: Sequence[Panel]) -> list[Panel]:
    """The panels with each length, and what is said of a part such as a group, in the largest of them alone."""
    largest: dict[str, int] = {}
    for index, each in sorted(enumerate(panels), key=lambda one: one[1].scale):
        parts = [label.text for label in each.labels if label.part is not None and not label.mark]
        largest |= dict.fromkeys([*parts, *(length.text for length in each.dimensions)], index)
    return [
        replace(
            each,
            labels=tuple(label for label in each.labels if largest.get(label.text, index) == index),
            dimensions=tuple(length for length in each.dimensions if largest[length.text] == index),
        )
        for index, each in enumerate(panels)
    ]


def _stage_of(step: Step, made: SettledState, before: RopeLines | None, plan: Plan, kept: Sequence[str] = ()) -> Stage:
    """A step's or one of its moments' state with the step's marks."""
    worked = {step.moves, step.start or "", step.goal or ""}
    turns = step.turns and not kind_of(made.kind).moving
    return staged(made, before, plan, step.marks, turns, worked, kept, step.known)


def _staged_for(step: Step, states: Mapping[str, SettledState], sight: Sight, stage: Stage) -> Stage:
    """The stage of a view: the step's own, or that of another moment or of the stretches it keeps."""
    assert stage.plan is not None
    if sight.broken:
        return _stage_of(step, states[sight.state], None, stage.plan, sight.look)
    if sight.state in ("", step.state):
        return stage
    moment = states[sight.state]
    return replace(_stage_of(step, moment, lines_of(moment), stage.plan), before=None)


def _seen(step: Step, stage: Stage, sight: Sight) -> Stage:
    """The stage as a view has it: with its tools, and its marks off their places where it shows such a mistake."""
    stage = equipped(stage, step, sight.tools)
    if sight.state not in ("", step.state):
        stage = replace(stage, way=None, eased=(), dimensions=() if step.moves else stage.dimensions)
    if sight.arrow is not None and stage.plan is not None:
        stage = replace(stage, way=way_of(stage.model, stage.before, stage.plan, sight.arrow))
    if not sight.beside:
        return stage
    off = sight.beside * stage.model.braid.pick
    wrong = [(letter, at + off) for letter, at in stage.places if at in stage.inked and letter in sight.look]
    labels = [Label("on a strand", beside_tick(stage.model, at), letter, rank=-1) for letter, at in wrong]
    return replace(stage, inked=tuple(at for _, at in wrong), labels=tuple(labels), dimensions=())
