"""What shows where in every picture of a rope state: its parts, the two groups of an opened place, a hole's two faces.

The dotted face is the one at which the tail's end goes in first: the host's left, as seen along it toward the tail's
end with the hole's top group up.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints, Vector
from fidpath.geometry import Braid, Part, Strands, smooth_step
from fidpath.meshing import Mesh, Sections, joined, sections_of
from fidpath.meshing import middle as rope_middle
from fidpath.scene.scene import Chip, Coat, Solid
from fidpath.scene.tool_shapes import ball, ring_tube
from fidpath.settling import SettledState
from fidpath.states import Opening, RopeState, top_group

BLEND = 0.5
"""Rope diameters over which one part of the rope passes into the next one."""

WORKED = 1.3
"""Holes at least so long to either side are open ones, whose groups and faces are shown; in rope diameters."""

INK = 0.09
"""Half width of a pen mark round the rope, in rope diameters."""

DOT, RIM = 0.14, 0.22
"""Radius of the dot painted on a hole's dotted face and of the pale rim round it, in rope diameters."""

BESIDE = 0.8
"""How far from the hole's middle along its host that dot lies, in rope diameters."""

DOTS = 8
"""Dots round the mouth of a hole at its dotted face."""

FACES = {Part.DOTTED_FACE: 1, Part.PLAIN_FACE: -1}
"""A hole's two faces, and the side of its host each lies on: 1 left, -1 right."""


@dataclass(frozen=True)
class RopeLine:
    """Where a state's rope lies: all that a ghost or an arrow needs; `line` `(n, 3)` mm is its middle by column."""

    braid: Braid
    state: RopeState
    strands: Strands
    line: Floats

    @property
    def d(self) -> float:
        """Rope diameter, mm."""
        return self.braid.diameter

    def at(self, station: float) -> Floats:
        """Place of the rope's middle at a station, `(3,)` mm."""
        return np.array([np.interp(station, self.strands.station, self.line[:, c]) for c in range(3)])

    def along(self, station: float) -> Floats:
        """Unit direction of the rope at a station, `(3,)`, toward the tail's end."""
        step = self.at(station + 0.25 * self.d) - self.at(station - 0.25 * self.d)
        return np.asarray(step / np.linalg.norm(step))

    def column(self, station: float) -> int:
        """The column of nodes nearest to a station."""
        return int(np.abs(self.strands.station - station).argmin())


@dataclass(frozen=True)
class Model(RopeLine):
    """A settled rope state and what its pictures draw from."""

    sections: Sections

    @cached_property
    def coarse(self) -> Sections:
        """Sections for views from far off, made once for all of them."""
        return sections_of(self.strands, rays=12, refine=1)


def line_of(made: SettledState) -> RopeLine:
    """Where a state's rope lies; no sections are made for it."""
    strands = made.settled.strands
    line, _ = rope_middle(strands.points, strands.count)
    return RopeLine(strands.braid, made.state, strands, line)


def model_of(made: SettledState) -> Model:
    """What a settled state's pictures draw from."""
    lies = line_of(made)
    return Model(lies.braid, lies.state, lies.strands, lies.line, made.sections)


def key_of(model: Model) -> tuple[Part, ...]:
    """The parts that a state's key explains: those of its rope that have any length."""
    ends = [*(start for _, start in model.state.stretches[1:]), float("inf")]
    return tuple(part for (part, start), end in zip(model.state.stretches, ends, strict=True) if end > start)


@dataclass(frozen=True)
class HoleAxes:
    """An opened place: its middle `(3,)` mm, unit axes along the host, to its left and to its top group, all `(3,)`.

    top: `(strands,) bool`. wide: how far the host's strands reach to either side; gap: half the clear height
    between the groups; along_half: half the hole's length, mm.
    """

    middle: Floats
    along: Floats
    left: Floats
    up: Floats
    top: Bools
    wide: float
    gap: float
    along_half: float


def group_of(model: Model, opening: Opening) -> Bools:
    """Which strands lie in an opening's top group, `(strands,) bool`."""
    law = top_group(model.braid, opening, model.state.phase)
    law[list(opening.moved)] ^= True
    return law


def hole_axes(model: Model, opening: Opening) -> HoleAxes:
    """Where an opening lies, measured on the settled strands."""
    here = model.strands.points[:, model.column(opening.host)]
    top = group_of(model, opening)
    middle = (here[top].mean(axis=0) + here[~top].mean(axis=0)) / 2
    along = model.along(opening.host)
    up = here[top].mean(axis=0) - here[~top].mean(axis=0)
    up = up - (up @ along) * along
    up = up / np.linalg.norm(up)
    left = np.cross(up, along)
    away = here - middle
    thick = model.braid.thickness
    mouth = np.abs(model.strands.station - opening.host) < 0.75 * opening.flat + 0.1 * model.d
    wide = float(np.abs((model.strands.points[:, mouth] - middle) @ left).max()) + 0.7 * thick
    heights = away @ up
    gap = max((float(heights[top].min()) - float(heights[~top].max())) / 2 - 0.5 * thick, 0.1 * model.d)
    return HoleAxes(middle, along, left, up, top, wide, gap, opening.flat + 0.3 * model.d)


def is_open(model: Model, opening: Opening) -> bool:
    """Whether a hole stands open, and is not drawn up round the leg in it."""
    return opening.half >= WORKED * model.d


def opened(model: Model, before: RopeState | None = None, named: Collection[str] = ()) -> tuple[Opening, ...]:
    """The openings whose groups are shown: those worked on in this state.

    Open ones that are `named`, with a tool in them or turns in their groups, held wide, or gone through since the
    state before.
    """
    was = [p.hole for p in before.passes] if before is not None else []
    now = [p.hole for p in model.state.passes]
    d = model.d

    def worked(o: Opening) -> bool:
        held = o.name in named or any(o.turns) or o.flat >= d or bool(o.moved) or o.name not in now
        return is_open(model, o) and (held or now.count(o.name) != was.count(o.name))

    return tuple(o for o in model.state.openings if worked(o))


def rope_solid(
    model: Model,
    meshes: Sequence[Mesh],
    toned: Sequence[Opening] = (),
    inked: Sequence[float] = (),
    dots: Sequence[Vector] = (),
    cap: bool = False,
) -> Solid:
    """Strand meshes as one solid, a line drawn between strands; without any, an empty one.

    toned: openings whose groups are shown. inked: stations with a pen mark round the rope. dots: places `(3,)` mm with
    a dot on the strands beside them. cap: whether the meshes are cut faces.
    """
    mesh = joined([m for m in meshes if len(m.faces)])
    first = model.state.stretches[0][0]
    if mesh.station is None or mesh.strand is None:
        return Solid(mesh, first, cap=cap)
    coats = rope_coats(model, mesh, toned, inked, dots)
    return Solid(mesh, first, coats, mesh.strand, model.strands.hand[mesh.strand] <= 0, cap)


def rope_coats(
    model: Model,
    mesh: Mesh,
    toned: Sequence[Opening] = (),
    inked: Sequence[float] = (),
    dots: Sequence[Vector] = (),
) -> tuple[Coat, ...]:
    """What covers the rope's first part at a rope mesh's vertices: other parts, groups, pen marks, dots on faces."""
    assert mesh.station is not None and mesh.strand is not None
    found = [
        Coat(part, _share(smooth_step((mesh.station - start) / (BLEND * model.d) + 0.5)))
        for part, start in model.state.stretches[1:]
        if start < model.state.last
    ]
    found += [_grouped(model, mesh.station, mesh.strand, opening) for opening in toned]
    marks = [np.abs(mesh.station - station) < INK * model.d for station in inked]
    found += [Coat(Part.PEN_MARK, _share(mark)) for mark in marks]
    for dot in dots:
        away = np.linalg.norm(mesh.points - np.array(dot), axis=1) / model.d
        found += [Coat(Part.FACE_DOT_RIM, _share(away < RIM)), Coat(Part.FACE_DOT, _share(away < DOT))]
    return tuple(coat for coat in found if coat.share.any())


def _grouped(model: Model, station: Floats, strand: Ints, opening: Opening) -> Coat:
    """An opening's two groups, fading toward its ends."""
    off = np.abs(station - opening.host) - opening.half
    group = np.where(group_of(model, opening)[strand], Part.TOP_GROUP, Part.BOTTOM_GROUP).astype(np.uint8)
    return Coat(group, _share(1 - smooth_step(off / (0.7 * model.d) + 1.6)))


def _share(values: Floats | Bools) -> NDArray[np.float32]:
    return values.astype(np.float32)


def _ordered(model: Model, opening: Opening) -> list[tuple[list[int], Part]]:
    """Strands of either group at an opening, from the host's left to its right, and the group."""
    axes = hole_axes(model, opening)
    here = model.strands.points[:, model.column(opening.host)]

    def from_left(members: Bools) -> list[int]:
        return sorted((int(k) for k in np.flatnonzero(members)), key=lambda k: -float(here[k] @ axes.left))

    return [(from_left(axes.top), Part.TOP_GROUP), (from_left(~axes.top), Part.BOTTOM_GROUP)]


def chips(model: Model, opening: Opening) -> tuple[Chip, ...]:
    """Numbers 1 to N/2 on each group's strands from the host's left to its right, neighbours set apart along it."""
    found = []
    for order, group in _ordered(model, opening):
        for number, k in enumerate(order, start=1):
            station = opening.host + (0.17 if number % 2 else -0.17) * model.d
            x, y, z = (float(v) for v in model.strands.points[k, model.column(station)])
            found.append(Chip(str(number), (x, y, z), group))
    return tuple(found)


def fanned(model: Model, opening: Opening) -> tuple[Chip, ...]:
    """The same numbers in a row above the top group and one below the bottom group, a line from each to its strand."""
    axes, d = hole_axes(model, opening), model.d
    here = model.strands.points[:, model.column(opening.host)]
    found = []
    for side, (order, group) in zip((1, -1), _ordered(model, opening), strict=True):
        high = max(side * float((here[k] - axes.middle) @ axes.up) for k in order) + 0.5 * d
        for number, k in enumerate(order, start=1):
            across = 0.31 * d * ((len(order) + 1) / 2 - number)
            x, y, z = (float(v) for v in axes.middle + across * axes.left + side * high * axes.up)
            to = (float(here[k, 0]), float(here[k, 1]), float(here[k, 2]))
            found.append(Chip(str(number), (x, y, z), group, to))
    return tuple(found)


def face_dots(model: Model, openings: Sequence[Opening]) -> tuple[Vector, ...]:
    """Where the dot lies on the dotted face of holes that are drawn up: on the host's outermost strand by the mouth.

    Of the places either side of the mouth, the one farther from all other rope.
    """
    found = []
    for opening in openings:
        left = hole_axes(model, opening).left
        places = []
        for station in (opening.host + BESIDE * model.d, opening.host - BESIDE * model.d):
            here = model.strands.points[:, model.column(station)]
            places.append(here[int((here @ left).argmax())] + 0.5 * model.braid.thickness * left)
        other = model.line[np.abs(model.strands.station - opening.host) > 2.5 * model.d]
        best = max(places, key=lambda place: float(np.linalg.norm(other - place, axis=1).min()))
        found.append((float(best[0]), float(best[1]), float(best[2])))
    return tuple(found)


def clearness(model: Model, places: Floats, toward: Floats) -> Floats:
    """How far to the side of each place `(m, 3)` the nearest strand before it runs, for a viewer along `toward`, mm.

    A place is hidden where that is less than a strand's half width.
    """
    near = np.linalg.norm(model.line - places.mean(axis=0), axis=1) < 5 * model.d
    nodes = model.strands.points[:, near].reshape(-1, 3)
    to = nodes[None] - places[:, None]
    ahead = to @ toward
    beside = np.linalg.norm(to - ahead[..., None] * toward, axis=2)
    return np.asarray(np.where(ahead > 0.1 * model.braid.thickness, beside, np.inf).min(axis=1))


def face_rings(model: Model, opening: Opening) -> tuple[Solid, ...]:
    """A ring round the mouth of a hole at each of its faces; dots sit on the one that is called dotted."""
    axes = hole_axes(model, opening)
    dotted, plain = (ring_tube(_mouth(model, axes, side), 0.05 * model.d) for side in (1, -1))
    dots = _dots(model, _mouth(model, axes, 1))
    return Solid(dotted, Part.DOTTED_FACE), Solid(dots, Part.RING_DOTS), Solid(plain, Part.PLAIN_FACE)


def _mouth(model: Model, axes: HoleAxes, side: int, steps: int = 72) -> Floats:
    """The rim of a hole's mouth `(steps, 3)` mm, a rounded oblong a little off the host's side."""
    angle = 2 * np.pi * np.arange(steps) / steps
    cos, sin = np.cos(angle), np.sin(angle)
    high = max(axes.gap + 0.12 * model.d, 0.4 * model.d)
    reach = (np.abs(cos) ** 3 + np.abs(sin) ** 3) ** (-1 / 3)
    middle = axes.middle + side * (axes.wide + 0.06 * model.d) * axes.left
    return np.asarray(
        middle + (axes.along_half * reach * cos)[:, None] * axes.along + (high * reach * sin)[:, None] * axes.up
    )


def _dots(model: Model, ring: Floats) -> Mesh:
    every = len(ring) // DOTS
    return joined([ball(place, 0.085 * model.d) for place in ring[every // 2 :: every]])
