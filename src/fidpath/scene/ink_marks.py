"""Ink on the rope: ticks at marks, and the dots that name holes' dotted faces, as bodies that lie on the strands."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Opening, Part
from fidpath.methods import DOT_AWAY
from fidpath.scene.paint import DOT, INK, RIM, TICK, UP, Model, hole_axes
from fidpath.scene.props import vector
from fidpath.scene.scene import Coat, Solid
from fidpath.scene.shapes.solids import tube, turned

DOT_RISES = 0.45
"""Angle by which the dot lies above the host's left, radians: to be seen from above, and still on that side."""

DOT_SEEKS = 0.2
"""How far along the rope a strand is looked for on which the dot lies, in rope diameters to either side."""

LENS = 0.07
"""Thickness of a dot in rope diameters."""


def face_dots(model: Model, openings: Sequence[Opening]) -> tuple[Vector, ...]:
    """Where the dot of ink lies that names each hole's dotted face: on its host's left side, clear of the hole."""
    return tuple(
        face_dot(model, opening.host, opening.rope, -1 if _rolled(model, opening) else 1) for opening in openings
    )


def face_dot(model: Model, station: float, rope: int = 0, side: int = 1) -> Vector:
    """The dot's place, mm, for a hole that is at a station or will be made there; side: -1 where the rope is rolled."""
    at = min(station + DOT_AWAY * model.d, float(model.stations(rope)[-1]) - 0.5 * model.d)
    hand = -1 if model.state.mirrored else 1
    left = hand * side * np.cross(UP, model.along(at, rope))
    out = np.cos(DOT_RISES) * left + np.sin(DOT_RISES) * UP
    place, away = _outermost(model, rope, at, out)
    return vector(place + 0.66 * model.strands.ropes[rope].braid.thickness * away)


def _outermost(model: Model, rope: int, station: float, out: Floats) -> tuple[Floats, Floats]:
    """Of the strands by a station, the place that lies farthest out and least aside of a direction; its way outward."""
    near = np.abs(model.stations(rope) - station) < DOT_SEEKS * model.d
    places = model.points(rope)[:, near].reshape(-1, 3)
    off = places - model.at(station, rope)
    aside = np.abs(off @ np.cross(model.along(station, rope), out))
    best = int((off @ out - aside).argmax())
    way = off[best] - (off[best] @ model.along(station, rope)) * model.along(station, rope)
    return places[best], way / np.linalg.norm(way)


def tick_solids(model: Model, stations: Sequence[float]) -> list[Solid]:
    """A pen's ticks across the top of the first rope at stations, lying on its strands."""
    if not stations:
        return []
    end = model.state.last - 0.3 * model.d
    return [Solid(tube(_over_top(model, at), INK * model.d, flat=0.5), Part.PEN_MARK) for at in stations if at < end]


def _over_top(model: Model, station: float, steps: int = 15) -> Floats:
    """A line `(steps, 3)` mm over the first rope's top at a station, across it, on its strands' upper sides."""
    sections, middle, along = model.sections, model.at(station), model.along(station)
    left = np.cross(UP, along)
    near = np.abs(sections.station - station) < 2 * INK * model.d
    rings = sections.rings[model.strands.rope == 0][:, near].reshape(-1, 3) - middle
    side, rise = rings @ left, rings @ UP
    across = np.linspace(-TICK, TICK, steps) * model.d
    high = [rise[np.abs(side - at) < 0.06 * model.d].max(initial=0.3 * model.d) for at in across]
    return np.asarray(middle + across[:, None] * left + np.array(high)[:, None] * UP)


def dot_solids(model: Model, dots: Sequence[Vector]) -> list[Solid]:
    """The dots of ink, each a thin lens on the strands, with a pale rim."""
    d, found = model.d, []
    profile = np.array([(-LENS, 0.0), (-LENS, RIM), (0.0, RIM), (0.01, DOT + 0.01), (0.01, DOT), (LENS / 2, 0.0)]) * d
    for dot in dots:
        place = np.array(dot)
        out = place - model.line[int(np.linalg.norm(model.line - place, axis=1).argmin())]
        mesh = turned(profile, place, out)
        beside = np.linalg.norm(np.cross(mesh.points - place, out / np.linalg.norm(out)), axis=1)
        rim = Coat(Part.FACE_DOT_RIM, (beside > (DOT + 0.005) * d).astype(np.float32))
        found.append(Solid(mesh, Part.FACE_DOT, (rim,)))
    return found


def _rolled(model: Model, opening: Opening) -> bool:
    """Whether a hole's host lies rolled, its left face on the table's right."""
    axes = hole_axes(model, opening)
    return float(axes.left @ np.cross(UP, axes.along)) < 0
