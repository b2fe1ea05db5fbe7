"""Panels of a step's picture: views fitted to the places they name, labels and numbers, and the opened place cut.

What an opened place looks like cut across its host, seen toward the tail's end, is a panel of its own: that is where
strands are counted.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening, Part
from fidpath.meshing import Mesh, joined, part_strands
from fidpath.scene.broken_view import break_signs, is_left_out, kept_of, run_on_signs
from fidpath.scene.cameras import ASIDE, PEN, Box
from fidpath.scene.captions import Sight, seen_from
from fidpath.scene.ink_marks import dot_solids, tick_solids
from fidpath.scene.paint import (
    Model,
    chips,
    clearness,
    faces_of,
    fanned,
    group_of,
    hole_axes,
    is_open,
    mouth,
    rope_solid,
    toned_over,
)
from fidpath.scene.part_words import PART_WORDS
from fidpath.scene.props import UP, ghost, vector
from fidpath.scene.scene import Camera, Chip, Dimension, Label, Panel, Solid, project
from fidpath.scene.shapes.solids import arrow
from fidpath.scene.shapes.solids import box as plain_box
from fidpath.scene.stage import Stage

COARSE = 45.0
"""Pixels to a rope diameter below which strands are drawn with fewer rays."""

CHIPS_FROM = 95.0
"""Pixels to a rope diameter from which strands carry numbers."""

CHIPS_APART = 26.0
"""Pixels between the middles of numbers in a row: nearer to one another some are left out."""

FACES_FROM = 34.0
"""Pixels to a rope diameter from which a hole's faces are named."""

DOTS_FROM = 20.0
"""Pixels to a rope diameter from which dots are named."""

GHOST_BELOW = 80.0
"""Pixels to a rope diameter above which the state before is left out: too large to be told from a shadow."""

ARROW, THICKEST = 7.0, 0.27
"""Half width of an arrow's shaft, pixels, and in rope diameters at most."""

NEAR = 230.0
"""Longest leader of a label, pixels: a longer one is left out rather than drawn across the picture, but for a mark that
is made in this step."""

CAPTION = 56
"""Band kept free for a panel's caption, half a numbered disc beside it, pixels."""

FIRST = (*ASIDE, *PEN)
"""Props that the first view alone shows; a pen would hide the mark in the others."""

TRUE = 0.96
"""Least share of its length that a dimension is seen at: one more foreshortened is left out."""

SHORTEST = 40.0
"""Pixels that a dimension takes at least: a shorter one is left to a closer view."""


def spans(model: Model, box: Box, camera: Camera, rope: int = 0) -> list[tuple[float, float]]:
    """Stretches of a rope, as stations, that a camera sees in a box, a rope's width beyond its edges included."""
    spots = project(Panel(box, camera, ()), model.lines[rope])
    x, y, width, height = box
    pad = 1.5 * model.d * width / camera.width
    inside = (spots[:, 0] > x - pad) & (spots[:, 0] < x + width + pad)
    inside &= (spots[:, 1] > y - pad) & (spots[:, 1] < y + height + pad)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], inside, [False]]).astype(int)))
    station = model.stations(rope)
    return [(float(station[a]), float(station[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _rope(stage: Stage, box: Box, camera: Camera, group: Part | None = None) -> Solid:
    """All rope that a camera sees, or of the opened place one group alone."""
    model = stage.model
    fine = box[2] / camera.width * model.d > COARSE
    sections = model.sections if fine else model.coarse
    meshes: list[Mesh] = []
    for rope in range(len(model.lines)):
        for start, end in kept_of(model, spans(model, box, camera, rope)):
            meshes += part_strands(sections, start, end, weld=False, rope=rope)
    return rope_solid(model, meshes if group is None else _of_group(stage, group), stage.toned)


GROUPS = {PART_WORDS[part]: part for part in (Part.TOP_GROUP, Part.BOTTOM_GROUP)}
"""The groups of an opened place by their names."""


def _of_group(stage: Stage, group: Part) -> list[Mesh]:
    """The strands of one group of the place that is opened last, as far as one of them is followed."""
    if not stage.toned:
        return []
    model, opening = stage.model, stage.toned[-1]
    _, followed = toned_over(opening, model.d)
    members = model.strands.rope == opening.rope
    members[members] = group_of(model, opening) == (group is Part.TOP_GROUP)
    meshes = part_strands(model.sections, opening.host - followed, opening.host + followed, False, opening.rope)
    return [mesh for mesh in meshes if mesh.strand is not None and members[mesh.strand[0]]]


def _face_labels(stage: Stage, camera: Camera, dots: Collection[str]) -> list[Label]:
    """The name of each open hole's dotted face, at the point of its mouth that stands clearest to be seen, if any.

    dots: names of holes whose dot is seen; it names their face.
    """
    labels, thick = [], stage.model.braid.thickness
    side = faces_of(stage.model.state)[Part.DOTTED_FACE]
    for opening in (o for o in stage.toned if is_open(stage.model, o) and o.name not in dots):
        places = mouth(stage.model, opening, side)
        clear = clearness(stage.model, places, camera.toward)
        best = int((np.minimum(clear, 1.4 * thick) + 0.1 * places @ np.asarray(camera.up)).argmax())
        if clear[best] > 0.9 * thick:
            labels.append(Label(PART_WORDS[Part.DOTTED_FACE], vector(places[best]), rank=1))
    return labels


def _dot_labels(stage: Stage, camera: Camera, found: Panel) -> dict[str, Label]:
    """The dots that can be seen in a panel, by the names of their holes; an open hole's names its face.

    The first hole's is done with once that hole is no longer worked on.
    """
    if not stage.dots:
        return {}
    dots = np.array(stage.dots)
    lifted = dots + 0.3 * stage.model.braid.thickness * camera.toward
    clear = clearness(stage.model, lifted, camera.toward)
    seen = clear > 0.6 * stage.model.braid.thickness
    named = zip(stage.dotted, dots, seen, strict=True)
    shown = {o.name for o in stage.toned if is_open(stage.model, o)}
    first = stage.plan.letters[:1] if stage.plan is not None else ()
    labels = {
        name: Label(f"{name}'s dot: dotted face" if name in shown else f"{name}'s dot", vector(dot), rank=1)
        for name, dot, there in named
        if there and (name in shown or name not in first)
    }
    return {name: label for name, label in labels.items() if _inside(found, label)}


def panel(
    stage: Stage, sight: Sight, placed: tuple[Box, Camera], letter: str, caption: str = "", first: bool = True
) -> Panel:
    """One view of a step with its rope, props, arrow and numbers; the first has the ghost and what stands aside."""
    model, (box, camera) = stage.model, placed
    scale = box[2] / camera.width * model.d
    group = GROUPS.get(sight.group or "")
    if group is not None:
        stage = _alone(stage, group)
    numbers: list[Chip] = []
    for opening in stage.toned if scale > CHIPS_FROM and group is None else ():
        numbers += chips(model, opening)
    ghosts = ghost(model, stage.before) if scale < GHOST_BELOW and first and not stage.dimensions else ()
    props = [s for s in stage.props if first or sight.tools or s.part not in FIRST]
    crossed = cross(stage, box, camera, stage.inked if sight.beside else ()) if sight.crossed else []
    dots = [dot for dot in stage.dots if not is_left_out(model, np.array(dot))]
    ink = [*tick_solids(model, stage.inked), *dot_solids(model, dots)]
    signs = [*break_signs(model), *(s for s in run_on_signs(model) if _is_in(s, box, camera))]
    solids = (_rope(stage, box, camera, group), *ink, *props, *signs, *_arrows(stage, box, camera), *crossed)
    words = caption or sight.say or f"seen {seen_from(sight)}"
    found = Panel(box, camera, solids, words, letter, ghosts=ghosts, chips=tuple(numbers))
    named = _dot_labels(stage, camera, found) if scale > DOTS_FROM else {}
    faces = _face_labels(stage, camera, named) if scale > FACES_FROM and group is None else []
    labels = [*stage.labels, *faces, *named.values()]
    return replace(
        found,
        labels=tuple(
            label if label.rank < 0 else replace(label, near=NEAR)
            for label in labels
            if _inside(found, label)
            and not is_left_out(model, np.array(label.at))
            and (label.mark or label.rank < 0 or shows(stage, camera, label))
        ),
        dimensions=tuple(measure for measure in stage.dimensions if _true(found, measure)),
    )


def _alone(stage: Stage, group: Part) -> Stage:
    """The stage with what is said of one group alone."""
    labels = tuple(label for label in stage.labels if label.part is group)
    return replace(stage, labels=labels, dots=(), dotted=(), inked=(), dimensions=(), props=())


def _arrows(stage: Stage, box: Box, camera: Camera) -> list[Solid]:
    """Arrows for what moves, as wide in every panel, where most of them is seen; a close view has those of groups."""
    close = box[2] / camera.width * stage.model.d > CHIPS_FROM
    ways = stage.eased if close else () if stage.way is None else (stage.way,)
    radius = min(ARROW * camera.width / box[2], THICKEST * stage.model.d)
    return [Solid(arrow(way, radius), Part.ARROW) for way in ways if _is_seen(stage, way, box, camera)]


def _is_in(solid: Solid, box: Box, camera: Camera) -> bool:
    """Whether the middle of a solid lies in a panel: what lies beyond might come into view where it is set anew."""
    spot = project(Panel(box, camera, ()), solid.mesh.points.mean(axis=0)[None])[0] - np.array(box[:2])
    return bool((spot > 0).all() and (spot < np.array(box[2:])).all())


def _is_seen(stage: Stage, way: Floats, box: Box, camera: Camera) -> bool:
    """Whether most of an arrow's line lies in a panel, and none of it where rope is left out."""
    spots = project(Panel(box, camera, ()), way) - np.array(box[:2])
    inside = ((spots > 4) & (spots < np.array(box[2:]) - 4)).all(axis=1).mean()
    return bool(inside >= 0.75) and not any(is_left_out(stage.model, place) for place in way)


def cross(stage: Stage, box: Box, camera: Camera, wrong: Sequence[float] = ()) -> list[Solid]:
    """Two bars across a panel, before all that is in it: what it shows is wrong.

    wrong: stations of marks that are, the bars cross on the one nearest the panel's middle.
    """
    right, up, toward = np.asarray(camera.right), np.asarray(camera.up), camera.toward
    scale = camera.width / box[2]
    reach = (0.2 if wrong else 0.42) * scale * min(box[2], box[3])
    nearest = float(((stage.model.strands.points.reshape(-1, 3) - np.asarray(camera.middle)) @ toward).max())
    middle = np.asarray(camera.middle)
    if wrong:
        ticks = [np.asarray(stage.model.at(at)) + 0.4 * stage.model.d * UP for at in wrong]
        middle = min(ticks, key=lambda tick: float(np.linalg.norm(np.cross(tick - middle, toward))))
        middle = middle - (middle - np.asarray(camera.middle)) @ toward * toward
    middle = middle + (nearest + 3 * stage.model.d) * toward
    size = (2 * reach, 5 * scale, 0.5 * scale)
    ways = [(right + side * up) / np.sqrt(2) for side in (1, -1)]
    bars = [plain_box(size, middle, np.stack([way, np.cross(toward, way), toward])) for way in ways]
    return [Solid(joined(bars), Part.CROSSED_OUT)]


def _inside(found: Panel, label: Label) -> bool:
    """Whether what a label names lies in the panel, clear of its edge."""
    spot = project(found, np.array([label.at]))[0]
    x, y, width, height = found.box
    return bool(x + 8 < spot[0] < x + width - 8 and y + 8 < spot[1] < y + height - 8)


def shows(stage: Stage, camera: Camera, label: Label) -> bool:
    """Whether no strand lies before what a label names."""
    thick = stage.model.braid.thickness
    lifted = np.array(label.at)[None] + 0.3 * thick * camera.toward
    return bool(clearness(stage.model, lifted, camera.toward)[0] > 0.4 * thick)


def _true(found: Panel, dimension: Dimension) -> bool:
    """Whether a dimension lies in the panel, and so little foreshortened that it can be read true."""
    spots = project(found, dimension.line)
    x, y, width, height = found.box
    inside = (spots > np.array([x, y]) + 8) & (spots < np.array([x + width, y + height]) - 8)
    seen, true = (np.linalg.norm(np.diff(line, axis=0), axis=1).sum() for line in (spots, dimension.line))
    return bool(inside.all()) and bool(seen > max(TRUE * true * found.scale, SHORTEST))


def cut_panel(stage: Stage, opening: Opening, box: Box, letter: str) -> Panel:
    """The opened place cut across its host, seen toward the tail's end: the groups, numbered, and what lies between."""
    model, d = stage.model, stage.model.d
    axes = hole_axes(model, opening)
    meshes = part_strands(model.sections, opening.host, opening.host + 1.0 * d, weld=False, rope=opening.rope)
    for passing in model.state.passes:
        if passing.hole == opening.name:
            reach = (3.4 if is_open(model, opening) else 1.5) * d
            near = passing.guest - reach, passing.guest + reach
            meshes += part_strands(model.sections, *near, weld=False, rope=passing.rope)
    solids = (rope_solid(model, meshes, (opening,)), *(s for s in stage.props if s.part is Part.FID))
    numbers = fanned(model, opening)
    reach = max(abs(float((np.array(chip.at) - axes.middle) @ axes.up)) for chip in numbers)
    width = max(4.2 * d, reach * box[2] / (box[3] / 2 - CAPTION))
    numbers = fanned(model, opening, CHIPS_APART * width / box[2])
    camera = Camera(vector(axes.middle), width, vector(-axes.left), vector(axes.up))
    caption = f"{opening.name} cut across, seen toward the tail"
    edges = {
        face: side * 0.92 * axes.wide * axes.left + 1.2 * axes.gap * axes.up
        for face, side in faces_of(model.state).items()
    }
    labels = [Label(PART_WORDS[face], vector(axes.middle + edge)) for face, edge in edges.items()]
    return Panel(box, camera, solids, caption, letter, tuple(labels), chips=numbers, across=True)
