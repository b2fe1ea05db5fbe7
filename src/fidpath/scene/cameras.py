"""Where a picture's views look from: cameras fitted to the places they name, and how an area is divided among them."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part
from fidpath.scene.captions import MOST_VIEWS, Sight
from fidpath.scene.props import place_of
from fidpath.scene.scene import Aim, Camera, aimed
from fidpath.scene.stage import Stage

Box = tuple[int, int, int, int]

PEN = (Part.MARKER_NIB, Part.MARKER_BARREL)

ASIDE = (Part.POST, Part.TERMINATOR_ASIDE)
"""Props that stand aside; the first view alone makes room for them."""

MARGIN = 0.07
"""Share of a panel left free at every side of what its view must hold."""

HELD = (Part.POST, Part.LONG_FID, Part.NEEDLE, Part.LOCK_STITCH)
"""Tools that a view makes room for, where it shows them."""

TAPERED = 7.0
"""How much of a tapered tail is shown at its end, in rope diameters: its last dropped pair as well."""

ENOUGH = 105.0
"""Pixels to a rope diameter beyond which a view shows hardly more."""

LEAST = 4.0
"""Width of a view at least, in rope diameters."""

AIR = 2.2
"""Room kept beside what is measured along a way, in rope diameters."""

NOTHING: Floats = np.zeros((0, 3))

SHARES = (1 / 2, 2 / 5, 3 / 5, 1 / 3, 2 / 3, 3 / 10, 7 / 10)
"""Shares of the page that the first view may have beside the others."""


def looked_at(stage: Stage, look: Iterable[str]) -> Floats:
    """Places `(n, 3)` mm that a view must hold: the strands at the places it names, the whole state where it has none.

    A name is a place of the method's views, or a mark's letter.
    """
    model = stage.model
    if model.kept:
        look = ()
    everything = [
        (rope, *span) for rope, path in enumerate(model.state.ropes) for span in model.kept or [(path.first, path.last)]
    ]
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
    if name == "tail end" and state.ends:
        return [(station - TAPERED * d, station)]
    if name == "entry":
        return [(station - 7 * d, station + 2 * d)]
    return [(station - 3 * d, station + 3 * d)]


def camera_of(stage: Stage, sight: Sight, box: Box, also: Floats = NOTHING) -> Camera:
    """A view's camera, fitted to a box. also: further places `(n, 3)` mm that must be seen."""
    aim = _aim(stage, sight, np.concatenate([looked_at(stage, sight.look), also]))
    return aim.camera(box, MARGIN, LEAST * stage.model.d)


def _aim(stage: Stage, sight: Sight, places: Floats) -> Aim:
    """A view of places `(n, 3)` mm; pictures turn with the state, so that the standing part always heads east."""
    turn = stage.model.state.heading
    cos, sin = np.cos(turn), np.sin(turn)
    round_up = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
    toward, up = round_up @ np.array(sight.direction), round_up @ np.array(sight.up)
    return aimed(places, toward, up)


def divided(area: Box, share: float, stacked: bool) -> list[Box]:
    """An area in two boxes, one above the other or side by side, the first with so much of it."""
    x, y, width, height = area
    high, wide = round(height * share), round(width * share)
    if stacked:
        return [(x, y, width, high), (x, y + high, width, height - high)]
    return [(x, y, wide, height), (x + wide, y, width - wide, height)]


def aside(stage: Stage) -> Floats:
    """Places `(n, 3)` mm of props that stand aside, and of a pen where there is room: beside rope drawn broken."""
    parts = (*ASIDE, *PEN) if stage.model.kept else ASIDE
    return np.concatenate([NOTHING, *(s.mesh.points for s in stage.props if s.part in parts)])


def cameras(stages: Sequence[Stage], sights: Sequence[Sight], area: Box) -> list[tuple[Box, Camera]]:
    """Boxes and cameras for one to four views, each of its stage: the division of the area that shows all largest.

    Of several that show it alike, the most even. The first holds props that stand aside, each its arrow. Moments seen
    alike are shown in one scale.
    """
    first = stages[0]
    also = [np.concatenate([_held(stage), NOTHING if stage.way is None else stage.way]) for stage in stages]
    also[0] = np.concatenate([also[0], aside(first)])
    rows = zip(stages, sights, also, strict=True)
    aims = [(_aim(stage, sight, _seen(stage, sight, more)), LEAST * stage.model.d) for stage, sight, more in rows]

    def fitted(boxes: list[Box]) -> list[tuple[Box, Camera]]:
        placed = [(box, aim.camera(box, MARGIN, least)) for box, (aim, least) in zip(boxes, aims, strict=False)]
        return _in_one_scale(sights, placed)

    def seen(found: list[tuple[Box, Camera]]) -> tuple[float, float]:
        worth = sum(_worth(box[2] / camera.width * first.model.d) for box, camera in found)
        return round(worth, 3), -float(np.std([np.log(box[2] * box[3]) for box, _ in found]))

    return max((fitted(boxes) for boxes in divisions(area, len(sights))), key=seen)


def _worth(scale: float) -> float:
    """What a view is worth that shows a rope diameter in so many pixels: beyond enough of them, little more."""
    return float(np.log(min(scale, ENOUGH)) + 0.2 * np.log(max(scale / ENOUGH, 1.0)))


def _in_one_scale(sights: Sequence[Sight], placed: list[tuple[Box, Camera]]) -> list[tuple[Box, Camera]]:
    """The same with views that are compared in the smallest scale that one of them has.

    Those are views of the same places in one moment, or from one side.
    """
    scales = [box[2] / camera.width for box, camera in placed]
    for alike in ([(s.look, s.state) for s in sights], [(s.look, s.direction, s.up) for s in sights]):
        scales = [min(scale for scale, other in zip(scales, alike, strict=True) if other == one) for one in alike]
    return [(box, replace(camera, width=box[2] / scale)) for (box, camera), scale in zip(placed, scales, strict=True)]


def _seen(stage: Stage, sight: Sight, also: Floats) -> Floats:
    """All places `(n, 3)` mm that a view makes room for: a tape beside what it looks at, and lengths round an eye."""
    looked, reach = looked_at(stage, sight.look), 2.5 * stage.model.d
    tape = np.concatenate([NOTHING, *(s.mesh.points for s in stage.props if s.part is Part.MEASURING_TAPE)])
    near = ((tape > looked.min(axis=0) - reach) & (tape < looked.max(axis=0) + reach)).all(axis=1)
    near &= (tape[:, 0] > looked[:, 0].min()) & (tape[:, 0] < looked[:, 0].max())
    below = looked - (0.0, 0.8 * stage.model.d if near.any() or _is_of_ticks(stage, sight) else 0.0, 0.0)
    return np.concatenate([looked, below, also, tape[near], _round_measured(stage) if "eye" in sight.look else NOTHING])


def _is_of_ticks(stage: Stage, sight: Sight) -> bool:
    """Whether a view is of ticks alone, on straight rope, whose letters then need room beside it."""
    ticked = {letter for letter, at in stage.places if at in stage.inked or sight.beside}
    return set(sight.look) <= ticked and stage.model.state.name == "laid-out"


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
    """Ways to divide an area between so many views: the first or the last apart, the rest in a row in the other part.

    Of four, a second may stand apart from the last two.
    """
    if count < 2:
        return [[area]]
    found = []
    for share, stacked, row in itertools.product(SHARES, (True, False), (True, False)):
        one, rest = divided(area, share, stacked)
        found.append([one, *_in_a_row(rest, count - 1, row)])
        if count > 2:
            found.append([*_in_a_row(one, count - 1, row), rest])
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
