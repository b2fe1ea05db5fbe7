"""Broken-length views: ropes along the x axis drawn in the stretches that matter, what lies between them left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part
from fidpath.scene.paint import UP, Model
from fidpath.scene.scene import Solid
from fidpath.scene.shapes.solids import strip, tube

GAP = 0.6
"""What is left between two stretches, in rope diameters."""

BAND, WAVE = 1.3, 0.2
"""Width of the blank band over it and how far its edges wave, in rope diameters: the stretches end under it."""

LEAST = 8.0
"""Less rope than this isn't left out, in rope diameters."""

REACH, PERIOD = 1.9, 1.9
"""How far the band reaches beyond the ropes' middles, and the length of its waves, in rope diameters."""

RUNS_ON, RIPPLE = 0.62, 0.62
"""The same of the waved edge where a rope runs on beyond what is modelled: no farther than the rope itself."""

Stretch = tuple[float, float]


def merged(stretches: Sequence[Stretch], near: float) -> tuple[Stretch, ...]:
    """Stretches in their order, those that come nearer than `near` to each other as one."""
    found: list[Stretch] = []
    for start, end in sorted(stretches):
        if found and start - found[-1][1] < near:
            found[-1] = found[-1][0], max(found[-1][1], end)
        else:
            found.append((start, end))
    return tuple(found)


def shortened(model: Model, across: Sequence[Stretch]) -> Model:
    """The model with all left out but what lies in these stretches of the table's x, mm; the others are moved up."""
    shown = merged(across, LEAST * model.d)
    knots, moves = _moves(shown, GAP * model.d)
    lines, sections = model.lines[0], model.sections

    def moved(station: Floats) -> Floats:
        x = np.interp(station, model.stations(), lines[:, 0])
        return np.column_stack([np.interp(x, knots, moves), np.zeros((len(x), 2))])

    nodes, rings = moved(model.stations()), moved(sections.stations[0])
    return replace(
        model,
        strands=replace(model.strands, points=model.strands.points + nodes),
        lines=(lines + nodes, *model.lines[1:]),
        sections=replace(sections, rings=sections.rings + rings[:, None], centres=sections.centres + rings),
        kept=_stations_in(model, shown),
        gaps=tuple(float(end + np.interp(end, knots, moves) + GAP * model.d / 2) for _, end in shown[:-1]),
    )


def _moves(shown: Sequence[Stretch], gap: float) -> tuple[Floats, Floats]:
    """Places `(n,)` mm along x and how far what lies there is moved along it `(n,)` mm, the last stretch not at all."""
    knots, moves, far = [], [], 0.0
    for (start, end), after in zip(reversed(shown), [None, *reversed(shown)], strict=False):
        far += 0.0 if after is None else after[0] - end - gap
        knots += [end, start]
        moves += [far, far]
    return np.array(knots[::-1]), np.array(moves[::-1])


def _stations_in(model: Model, shown: Sequence[Stretch]) -> tuple[Stretch, ...]:
    """Stretches of the first rope, as stations, that lie in stretches of x."""
    x, station = model.lines[0][:, 0], model.stations()
    inside = np.any([(x >= start) & (x <= end) for start, end in shown], axis=0)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], inside, [False]]).astype(int)))
    return tuple((float(station[a]), float(station[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True))


def kept_of(model: Model, stretches: Sequence[Stretch]) -> list[Stretch]:
    """What is drawn of stretches of a rope."""
    if not model.kept:
        return list(stretches)
    both = [(max(a, start), min(b, end)) for a, b in stretches for start, end in model.kept]
    return [(start, end) for start, end in both if start < end]


def is_left_out(model: Model, place: Floats) -> bool:
    """Whether a place `(3,)` mm lies in a gap or beyond all that is kept, where no rope is drawn."""
    if any(abs(float(place[0]) - gap) < BAND / 2 * model.d for gap in model.gaps):
        return True
    if not model.kept:
        return False
    kept = (model.lines[0][model.column(start) : model.column(end) + 1, 0] for start, end in model.kept)
    return float(place[0]) > max(float(x.max()) for x in kept) + model.d


def break_signs(model: Model) -> list[Solid]:
    """A blank band with waved edges across the ropes and what lies beside them, wherever rope is left out."""
    found, d = [], model.d
    x, y, z = model.lines[0].T
    for gap in model.gaps:
        beside = y[np.abs(x - gap) < d]
        across = np.arange(beside.min() - REACH * d, beside.max() + REACH * d, 0.05 * d)
        wave = gap + WAVE * d * np.sin(2 * np.pi * across / (PERIOD * d))
        line = np.column_stack([wave, across, np.full(len(across), z.max() + 0.9 * d)])
        edges = [line + np.array([side * BAND / 2 * d, 0.0, 0.0]) for side in (-1, 1)]
        found.append(Solid(strip(edges[0], edges[1], 0.04 * d), Part.BREAK))
        found += [Solid(tube(edge, 0.03 * d, 8), Part.TICKS) for edge in edges]
    return found


def run_on_signs(model: Model) -> list[Solid]:
    """A waved edge over every end where a rope runs on beyond what is modelled, so that none looks cut off there."""
    found = []
    for number, rope in enumerate(model.state.ropes):
        shown = kept_of(model, [(rope.first, rope.last)]) if number == 0 else [(rope.first, rope.last)]
        ends = [(shown[0][0], -1.0)] if rope.head is None else []
        ends += [(shown[-1][1], 1.0)] if rope.tip is None else []
        found += [solid for station, side in ends for solid in _run_on(model, number, station, side)]
    return found


def _run_on(model: Model, rope: int, station: float, side: float) -> list[Solid]:
    """The waved edge at a rope's end, and blank paper over what lies beyond it."""
    d = model.d
    out = side * model.along(station, rope)
    across = np.cross(UP, out)
    reach = np.arange(-RUNS_ON * d, RUNS_ON * d, 0.03 * d)
    wave = 0.1 * d * np.sin(2 * np.pi * reach / (RIPPLE * d)) - 0.3 * d
    edge = model.at(station, rope) + 0.75 * d * UP + wave[:, None] * out + reach[:, None] * across
    paper = strip(edge, edge + 0.45 * d * out, 0.03 * d)
    return [Solid(paper, Part.BREAK), Solid(tube(edge, 0.03 * d, 8), Part.TICKS)]
