"""Panels of a step's picture: views fitted to the places they name, labels and numbers, and the opened place cut.

What an opened place looks like cut across its host, seen toward the tail's end, is a panel of its own: that is where
strands are counted.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening, Part
from fidpath.meshing import Mesh, joined, part_strands
from fidpath.scene.captions import MOST_VIEWS, Sight, seen_from
from fidpath.scene.ink_marks import dot_solids, tick_solids
from fidpath.scene.paint import (
    Model,
    chips,
    clearness,
    faces_of,
    fanned,
    hole_axes,
    is_open,
    mouth,
    rope_solid,
)
from fidpath.scene.part_words import PART_WORDS
from fidpath.scene.props import UP, ghost, place_of, vector
from fidpath.scene.scene import Camera, Chip, Dimension, Label, Panel, Solid, aimed, project
from fidpath.scene.stage import Stage
from fidpath.scene.tool_shapes import arrow
from fidpath.scene.tool_shapes import box as plain_box

Box = tuple[int, int, int, int]

COARSE = 45.0
"""Pixels to a rope diameter below which strands are drawn with fewer rays."""

CHIPS_FROM = 95.0
"""Pixels to a rope diameter from which strands carry numbers."""

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

ASIDE = (Part.POST, Part.TERMINATOR_ASIDE)
"""Props that stand aside; the first view alone makes room for them."""

FIRST = (*ASIDE, Part.MARKER_NIB, Part.MARKER_BARREL)
"""Props that the first view alone shows; a pen would hide the mark in the others."""

MARGIN = 0.07
"""Share of a panel left free at every side of what its view must hold."""

HELD = (Part.POST, Part.LONG_FID)
"""Tools that a later view makes room for, where it shows them."""

AIR = 2.2
"""Room kept beside what is measured along a way, in rope diameters."""

TRUE = 0.96
"""Least share of its length that a dimension is seen at: one more foreshortened is left out."""

SHORTEST = 40.0
"""Pixels that a dimension takes at least: a shorter one is left to a closer view."""

NOTHING: Floats = np.zeros((0, 3))

SHARES = (0.5, 0.4, 0.6, 0.3, 0.7)
"""Shares of the page that the first view may have beside the others."""


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


def _rope(stage: Stage, box: Box, camera: Camera) -> Solid:
    """All rope that a camera sees."""
    model = stage.model
    fine = box[2] / camera.width * model.d > COARSE
    sections = model.sections if fine else model.coarse
    meshes: list[Mesh] = []
    for rope in range(len(model.lines)):
        for start, end in spans(model, box, camera, rope):
            meshes += part_strands(sections, start, end, weld=False, rope=rope)
    return rope_solid(model, meshes, stage.toned)


def looked_at(stage: Stage, look: Iterable[str]) -> Floats:
    """Places `(n, 3)` mm that a view must hold: the strands at the places it names, the whole state where it has none.

    A name is a place of the method's views, or a mark's letter.
    """
    model = stage.model
    everything = [(rope, path.first, path.last) for rope, path in enumerate(model.state.ropes)]
    named = [] if "all" in look else [span for name in look for span in _stretches(stage, name)]
    seen = []
    for rope, start, end in named or everything:
        station = model.stations(rope)
        seen.append(model.points(rope)[:, (station >= start) & (station <= end)].reshape(-1, 3))
    return np.concatenate(seen)


def _stretches(stage: Stage, name: str) -> list[tuple[int, float, float]]:
    """Ropes and their stations at a named place: an opening with what goes through it, or a place of the plan."""
    opening = next((o for o in stage.model.state.openings if o.name == name), None)
    if opening is None:
        return [(0, start, end) for start, end in _places(stage, name)]
    d = stage.model.d
    reach = max(opening.half, 1.2 * d) + 1.0 * d
    guests = [(p.rope, p.guest - 1.6 * d, p.guest + 1.6 * d) for p in stage.model.state.passes if p.hole == name]
    return [(opening.rope, opening.host - reach, opening.host + reach), *guests]


def _places(stage: Stage, name: str) -> list[tuple[float, float]]:
    """Stations of the spliced rope at a place that its plan knows; none where there is no plan."""
    model, state, d = stage.model, stage.model.state, stage.model.d
    if stage.plan is None:
        return []
    if name in ("eye", "terminator"):
        guests = [p.guest for p in state.passes if p.hole in stage.plan.letters[:1]]
        return [(0.0, guests[0] if guests else stage.plan.station_h2)]
    if name == "tail end" and model.strands.bury is not None:
        tip = model.strands.bury.host[1]
        return [(tip - 5 * d, tip + 5 * d)]
    station = dict(stage.places).get(name, place_of(model, stage.plan, name))
    if station is None:
        return []
    if name == "entry":
        return [(station - 7 * d, station + 2 * d)]
    return [(station - 3 * d, station + 3 * d)]


def camera_of(stage: Stage, sight: Sight, box: Box, also: Floats = NOTHING) -> Camera:
    """A view's camera, fitted to a box. also: further places `(n, 3)` mm that must be seen."""
    return _fitted(stage, sight, box, np.concatenate([looked_at(stage, sight.look), also]))


def _fitted(stage: Stage, sight: Sight, box: Box, places: Floats) -> Camera:
    """A camera on places `(n, 3)` mm; pictures turn with the state, so that the standing part always heads east."""
    turn = stage.model.state.heading
    cos, sin = np.cos(turn), np.sin(turn)
    round_up = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
    toward, up = round_up @ np.array(sight.direction), round_up @ np.array(sight.up)
    return aimed(box, places, toward, up, MARGIN, 5.0 * stage.model.d)


def divided(area: Box, share: float, stacked: bool) -> list[Box]:
    """An area in two boxes, one above the other or side by side, the first with so much of it."""
    x, y, width, height = area
    high, wide = round(height * share), round(width * share)
    if stacked:
        return [(x, y, width, high), (x, y + high, width, height - high)]
    return [(x, y, wide, height), (x + wide, y, width - wide, height)]


def aside(stage: Stage) -> Floats:
    """Places `(n, 3)` mm of props that stand aside."""
    return np.concatenate([NOTHING, *(s.mesh.points for s in stage.props if s.part in ASIDE)])


def cameras(stages: Sequence[Stage], sights: Sequence[Sight], area: Box) -> list[tuple[Box, Camera]]:
    """Boxes and cameras for one to four views, each of its stage: the division of the area that shows all largest.

    The first holds the arrow and props that stand aside.
    """
    first = stages[0]
    way = NOTHING if first.way is None else first.way
    also = [np.concatenate([way, aside(first)]), *(_held(stage) for stage in stages[1:])]
    places = [_seen(stage, sight, more) for stage, sight, more in zip(stages, sights, also, strict=True)]

    def fitted(boxes: list[Box]) -> list[tuple[Box, Camera]]:
        rows = zip(boxes, stages, sights, places, strict=False)
        return [(box, _fitted(stage, sight, box, there)) for box, stage, sight, there in rows]

    def seen(found: list[tuple[Box, Camera]]) -> float:
        return float(np.sum([np.log(box[2] / camera.width) for box, camera in found]))

    return max((fitted(boxes) for boxes in divisions(area, len(sights))), key=seen)


def _seen(stage: Stage, sight: Sight, also: Floats) -> Floats:
    """All places `(n, 3)` mm that a view makes room for: a tape beside what it looks at, and lengths round an eye."""
    looked, reach = looked_at(stage, sight.look), 2.5 * stage.model.d
    tape = np.concatenate([NOTHING, *(s.mesh.points for s in stage.props if s.part is Part.MEASURING_TAPE)])
    near = ((tape > looked.min(axis=0) - reach) & (tape < looked.max(axis=0) + reach)).all(axis=1)
    near &= (tape[:, 0] > looked[:, 0].min()) & (tape[:, 0] < looked[:, 0].max())
    below = looked - (0.0, 0.8 * stage.model.d if near.any() else 0.0, 0.0)
    return np.concatenate([looked, below, also, tape[near], _round_measured(stage) if "eye" in sight.look else NOTHING])


def _held(stage: Stage) -> Floats:
    """Places `(n, 3)` mm of props that a later view makes room for."""
    return np.concatenate([NOTHING, *(s.mesh.points for s in stage.props if s.part in HELD)])


def _round_measured(stage: Stage) -> Floats:
    """Places `(n, 3)` mm beside the ways that lengths are measured along: room for their lines."""
    found = [NOTHING]
    for line in (each.line for each in stage.dimensions if each.way):
        across = np.cross(np.gradient(line, axis=0), (0.0, 0.0, 1.0))
        across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-9)
        found += [line + AIR * stage.model.d * across, line - AIR * stage.model.d * across]
    return np.concatenate(found)


def divisions(area: Box, count: int) -> list[list[Box]]:
    """Ways to divide an area between so many views: one of them apart, the rest in a row in the other part.

    Of four, a second may stand apart from the last two.
    """
    if count < 2:
        return [[area]]
    found = []
    for share, stacked, row in itertools.product(SHARES, (True, False), (True, False)):
        one, rest = divided(area, share, stacked)
        found.append([one, *_in_a_row(rest, count - 1, row)])
        if count == MOST_VIEWS and row:
            found += [[one, *boxes] for boxes in divisions(rest, count - 1)]
    return found


def _in_a_row(area: Box, count: int, stacked: bool) -> list[Box]:
    """An area in so many boxes of one size, one under the other or side by side."""
    found, rest = [], area
    for left in range(count, 1, -1):
        one, rest = divided(rest, 1 / left, stacked)
        found.append(one)
    return [*found, rest]


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
    """The dots that can be seen in a panel, by the names of their holes; an open hole's names its face."""
    if not stage.dots:
        return {}
    dots = np.array(stage.dots)
    lifted = dots + 0.3 * stage.model.braid.thickness * camera.toward
    clear = clearness(stage.model, lifted, camera.toward)
    seen = clear > 0.6 * stage.model.braid.thickness
    named = zip(stage.dotted, dots, seen, strict=True)
    shown = {o.name for o in stage.toned if is_open(stage.model, o)}
    labels = {
        name: Label(f"{name}'s dot: dotted face" if name in shown else f"{name}'s dot", vector(dot), rank=1)
        for name, dot, there in named
        if there
    }
    return {name: label for name, label in labels.items() if _inside(found, label)}


def panel(
    stage: Stage, sight: Sight, placed: tuple[Box, Camera], letter: str, caption: str = "", first: bool = True
) -> Panel:
    """One view of a step with its rope, props, arrow and numbers; the first has the ghost and what stands aside."""
    model, (box, camera) = stage.model, placed
    scale = box[2] / camera.width * model.d
    numbers: list[Chip] = []
    for opening in stage.toned if scale > CHIPS_FROM else ():
        numbers += chips(model, opening)
    ghosts = ghost(model, stage.before) if scale < GHOST_BELOW and first else ()
    props = [s for s in stage.props if first or sight.tools or s.part not in FIRST]
    crossed = cross(stage, box, camera, stage.inked if sight.beside else ()) if sight.crossed else []
    ink = [*tick_solids(model, stage.inked), *dot_solids(model, stage.dots)]
    solids = (_rope(stage, box, camera), *ink, *props, *_arrow(stage, box, camera), *crossed)
    words = caption or sight.say or f"seen {seen_from(sight)}"
    found = Panel(box, camera, solids, words, letter, ghosts=ghosts, chips=tuple(numbers))
    dots = _dot_labels(stage, camera, found) if scale > DOTS_FROM else {}
    faces = _face_labels(stage, camera, dots) if scale > FACES_FROM else []
    labels = [*stage.labels, *faces, *dots.values()]
    return replace(
        found,
        labels=tuple(
            label if label.rank < 0 else replace(label, near=NEAR)
            for label in labels
            if _inside(found, label) and (label.mark or label.rank < 0 or _shows(stage, camera, label))
        ),
        dimensions=tuple(measure for measure in stage.dimensions if _true(found, measure)),
    )


def _arrow(stage: Stage, box: Box, camera: Camera) -> list[Solid]:
    """The arrow for what moves, as wide in every panel, where most of it is seen."""
    if stage.way is None:
        return []
    spots = project(Panel(box, camera, ()), stage.way) - np.array(box[:2])
    if ((spots > 4) & (spots < np.array(box[2:]) - 4)).all(axis=1).mean() < 0.75:
        return []
    body = arrow(stage.way, min(ARROW * camera.width / box[2], THICKEST * stage.model.d))
    return [Solid(body, Part.ARROW)]


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


def _shows(stage: Stage, camera: Camera, label: Label) -> bool:
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
            near = passing.guest - 3.4 * d, passing.guest + 3.4 * d
            meshes += part_strands(model.sections, *near, weld=False, rope=passing.rope)
    solids = (rope_solid(model, meshes, (opening,)), *(s for s in stage.props if s.part is Part.FID))
    numbers = fanned(model, opening)
    reach = max(abs(float((np.array(chip.at) - axes.middle) @ axes.up)) for chip in numbers)
    width = max(4.2 * d, reach * box[2] / (box[3] / 2 - CAPTION))
    camera = Camera(vector(axes.middle), width, vector(-axes.left), vector(axes.up))
    caption = f"{opening.name} cut across, seen toward the tail"
    edges = {
        face: side * 0.92 * axes.wide * axes.left + 1.2 * axes.gap * axes.up
        for face, side in faces_of(model.state).items()
    }
    labels = [Label(PART_WORDS[face], vector(axes.middle + edge)) for face, edge in edges.items()]
    return Panel(box, camera, solids, caption, letter, tuple(labels), chips=numbers, across=True)
