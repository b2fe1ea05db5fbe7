"""The picture of a mistake: the right state and the wrong one side by side, to one scale, and the way back below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from fidpath.cautions import BESIDE_PICTURES
from fidpath.methods import Mistake, fill
from fidpath.planning import Plan
from fidpath.scene.cameras import MARGIN, NOTHING, SHARES, Box, aside, camera_of, divided, looked_at
from fidpath.scene.captions import Sight, called, wrong_columns
from fidpath.scene.paint import key_of
from fidpath.scene.panels import cut_panel, panel
from fidpath.scene.props import terminator_aside, tools, vector
from fidpath.scene.scene import Camera, Label, Panel, Scene
from fidpath.scene.stage import Stage, beside_tick, showing, staged
from fidpath.settling import SettledState

AREA: Box = (0, 74, 1600, 730)
"""Where right and wrong stand, page pixels."""

WRONG_AREA: Box = (AREA[0] + AREA[2] // 2, AREA[1], AREA[2] // 2, AREA[3])
"""Where the mistake itself is shown, the right way being left of it."""

BELOW: Box = (24, 818, 1552, 312)
"""Where the words go."""

CAPTIONS = ("as it should be", "wrong")


def wrong_scene(
    mistake: Mistake,
    made_wrong: SettledState,
    made_right: SettledState,
    plan: Plan,
    moments: Mapping[str, SettledState] | None = None,
) -> Scene:
    """A mistake beside the right way, in one or two views, both to one scale; its signs and the way back below.

    The mistake's words are filled already. Where a hole is split unevenly, it is shown cut across besides.
    moments: the other states its views show, by kind; views whose state isn't there are left out.
    """
    pair = _compared(_shown(made_right, plan), _shown(made_wrong, made_wrong.plan), plan)
    known = {"": pair, **{kind: _marked(made, plan, mistake) for kind, made in (moments or {}).items()}}
    looks = [Sight(view.look, view.direction, view.up, view.state) for view in mistake.views[:2] if view.state in known]
    pairs = [known[look.state] for look in looks]
    uneven = next((o.name for o in pair[1].toned if o.moved), None)
    if uneven is not None:
        upper, lower = divided(AREA, 0.5, stacked=True)
        panels = [*_row(pair, looks[0], upper, "AB"), *_cuts(pair, uneven, lower)]
    else:
        rows = _rows(pairs, looks)
        panels = [
            p
            for both, look, box, letters in zip(pairs, looks, rows, ("AB", "CD"), strict=False)
            for p in _row(both, look, box, letters)
        ]
    words = wrong_columns(mistake, BELOW)
    title = f"Wrong at step {mistake.step_number}: {mistake.title}"
    return Scene(
        mistake.name, title, tuple(panels), key_of(pair[0].model), (BESIDE_PICTURES,), words=words, called=called(plan)
    )


def _shown(made: SettledState, plan: Plan) -> Stage:
    """A state with the tools it holds; letters stand at its open holes alone."""
    stage = staged(made, None, plan, plan.opened, turns=True)
    holes = {o.name for o in stage.model.state.openings}
    labels = tuple(label for label in stage.labels if not label.mark or label.mark in holes or not holes)
    measured = stage.dimensions if stage.model.strands.bury is not None else ()
    props = (*stage.props, *tools(stage.model, plan, ()))
    return replace(stage, inked=(), labels=labels, props=props, dimensions=measured)


def _marked(made: SettledState, plan: Plan, mistake: Mistake) -> tuple[Stage, Stage]:
    """A moment with the first hole's mark where it belongs, and as many picks beside it as the mistake's view says."""
    stage = replace(staged(made, None, plan, plan.opened[:1], turns=False), dimensions=())
    off = next(view.beside for view in mistake.views if view.state == made.kind) * plan.pick
    places = ((0.0, fill("{mark_place}", plan)), (off, "on a strand"))
    right, wrong = (
        replace(stage, inked=(at,), labels=(Label(words, beside_tick(stage.model, at), plan.origin, rank=-1),))
        for at, words in places
    )
    return right, wrong


def _compared(right: Stage, wrong: Stage, plan: Plan) -> tuple[Stage, Stage]:
    """Both with the same holes' groups shown, and with the pen mark where the hole has slid off it."""
    if right.model.state.seat is not None and wrong.model.state.seat is None:
        wrong = replace(wrong, props=(*wrong.props, *terminator_aside(wrong.model, plan)))
    names = {o.name for stage in (right, wrong) for o in stage.toned}
    right, wrong = (
        showing(stage, [o for o in stage.model.state.openings if o.name in names]) for stage in (right, wrong)
    )
    if any(o.name == plan.origin and abs(o.host) > 1e-6 for o in wrong.model.state.openings):
        right = replace(right, inked=(0.0,))
        wrong = replace(
            wrong, inked=(0.0,), labels=(*wrong.labels, Label("the mark", beside_tick(wrong.model, 0.0), rank=-1))
        )
    return right, wrong


def _widths(pair: Sequence[Stage], look: Sight, boxes: Sequence[Box], first: bool) -> list[Camera]:
    """Cameras of right and wrong that show as much of the rope's length, one beside the other."""
    found = [
        camera_of(stage, look, box, np.concatenate([looked_at(stage, look.look), aside(stage) if first else NOTHING]))
        for stage, box in zip(pair, boxes, strict=True)
    ]
    width = max(camera.width for camera in found)
    cameras = [replace(camera, width=width) for camera in found]
    return _aligned(pair, cameras) if "all" in look.look else cameras


def _aligned(pair: Sequence[Stage], cameras: Sequence[Camera]) -> list[Camera]:
    """The cameras moved so that both eyes stand as far from their panel's right edge: lengths can be compared."""
    moved = []
    for stage, camera in zip(pair, cameras, strict=True):
        right, middle = np.array(camera.right), np.array(camera.middle)
        last = float((stage.model.strands.points.reshape(-1, 3) @ right).max())
        off = last - camera.width * (0.5 - MARGIN) - float(middle @ right)
        moved.append(replace(camera, middle=vector(middle + off * right)))
    return moved


def _rows(pairs: Sequence[Sequence[Stage]], looks: Sequence[Sight]) -> list[Box]:
    """Rows for one or two views: the division of the area that shows both largest."""
    if len(looks) < 2:
        return [AREA]

    def seen(rows: list[Box]) -> float:
        halves = [divided(row, 0.5, stacked=False) for row in rows]
        views = zip(pairs, looks, halves, (True, False), strict=True)
        return -float(np.log([_widths(both, look, boxes, one)[0].width for both, look, boxes, one in views]).sum())

    return max((divided(AREA, share, stacked=True) for share in SHARES[:3]), key=seen)


def _row(pair: Sequence[Stage], look: Sight, row: Box, letters: str) -> list[Panel]:
    """Right and wrong in one view, side by side."""
    boxes = divided(row, 0.5, stacked=False)
    first = letters.startswith("A")
    placed = zip(boxes, _widths(pair, look, boxes, first), strict=True)
    return [
        panel(stage, look, at, letter, caption, first)
        for stage, at, letter, caption in zip(pair, placed, letters, CAPTIONS, strict=True)
    ]


def _cuts(pair: Sequence[Stage], hole: str, row: Box) -> list[Panel]:
    """One hole of right and wrong cut across, side by side."""
    boxes = divided(row, 0.5, stacked=False)
    holes = [next(o for o in stage.toned if o.name == hole) for stage in pair]
    return [cut_panel(s, o, b, letter) for s, o, b, letter in zip(pair, holes, boxes, "CD", strict=True)]
