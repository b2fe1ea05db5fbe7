"""What shows where in every picture of a rope state: its parts, the two groups of an opened place, a hole's two faces.

The dotted face is the one at which the tail's end goes in first: the host's left, as seen along it toward the tail's
end with the hole's top group up. A dot of ink on the rope names it, clear of the hole: a strand at the hole's edge goes
to the other face when the hole is turned inside out.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints, Vector
from fidpath.geometry import Braid, Opening, Part, Strands, smooth_step, strand_angles, top_group
from fidpath.meshing import Mesh, Sections, joined, thinned
from fidpath.meshing import middle as rope_middle
from fidpath.scene.scene import Chip, Coat, Solid
from fidpath.settling import SettledState
from fidpath.states import RopeState

UP = np.array([0.0, 0.0, 1.0])

BLEND = 0.06
"""Rope diameters over which one part of the rope passes into the next one: a line, as two colours in one strand would
look like two strands."""

FADE, INSET, FOLLOWED_ON = 0.12, 0.77, 1.6
"""Rope diameters over which a group's tone ends, how far that is from its hole's ends, and how far beyond that the
strand runs on by which a turn is followed."""

WORKED = 1.3
"""Holes at least so long to either side are open ones, whose groups and faces are shown; in rope diameters."""

INK, TICK = 0.05, 0.2
"""Half width and half length of a pen mark, a tick across the top of the rope, in rope diameters."""

HELD_APART = 0.5
"""Half length of the level part of a hole from which its groups lie straight there, in rope diameters."""

DOT, RIM = 0.15, 0.21
"""Radius of the dot of ink that names a hole's dotted face and of the pale rim round it, in rope diameters."""

FACES = {Part.DOTTED_FACE: 1, Part.PLAIN_FACE: -1}
"""A hole's two faces, and the side of its host each lies on: 1 left, -1 right; in mirrored work the other way round."""


def faces_of(state: RopeState) -> dict[Part, int]:
    """The side of a hole's host that each face lies on in a state: 1 left, -1 right."""
    hand = -1 if state.mirrored else 1
    return {face: hand * side for face, side in FACES.items()}


@dataclass(frozen=True)
class RopeLines:
    """Where a state's ropes lie: all that a ghost or an arrow needs.

    `lines`: every rope's middle by column, `(n, 3)` mm.
    Places on a rope are its number and a station; what is asked without a number is the first rope's.
    """

    state: RopeState
    strands: Strands
    lines: tuple[Floats, ...]

    @property
    def braid(self) -> Braid:
        """The first rope's braid, by which sizes in a picture go."""
        return self.strands.ropes[0].braid

    @property
    def d(self) -> float:
        """The thickest rope's diameter, mm."""
        return max(rope.braid.diameter for rope in self.strands.ropes)

    @property
    def line(self) -> Floats:
        """The middles of all ropes, one after the other, `(n, 3)` mm."""
        return np.concatenate(self.lines)

    def points(self, rope: int = 0) -> Floats:
        """Centre lines of a rope's strands, `(strands, n, 3)` mm."""
        return self.strands.alone(rope).points

    def stations(self, rope: int = 0) -> Floats:
        """A rope's stations by column, `(n,)` mm."""
        return self.strands.ropes[rope].station

    def at(self, station: float, rope: int = 0) -> Floats:
        """Place of a rope's middle at a station, `(3,)` mm."""
        here, line = self.stations(rope), self.lines[rope]
        return np.array([np.interp(station, here, line[:, c]) for c in range(3)])

    def along(self, station: float, rope: int = 0) -> Floats:
        """Unit direction of a rope at a station, `(3,)`, toward the tail's end."""
        reach = 0.25 * self.strands.ropes[rope].braid.diameter
        step = self.at(station + reach, rope) - self.at(station - reach, rope)
        return np.asarray(step / np.linalg.norm(step))

    def column(self, station: float, rope: int = 0) -> int:
        """The column of nodes nearest to a station of a rope."""
        return int(np.abs(self.stations(rope) - station).argmin())


@dataclass(frozen=True)
class Model(RopeLines):
    """A settled rope state and what its pictures draw from.

    kept: stretches of the first rope, as stations, that are drawn where others are left out; empty for all of it.
    gaps: where along x rope is left out, mm.
    """

    sections: Sections
    kept: tuple[tuple[float, float], ...] = ()
    gaps: tuple[float, ...] = ()

    @cached_property
    def coarse(self) -> Sections:
        """Sections for views from far off: of those there are every second ray, at the strands' own nodes."""
        nodes = self.strands.points.shape[1]
        return thinned(self.sections, (self.sections.centres.shape[1] - 1) // (nodes - 1), 2)


def lines_of(made: SettledState) -> RopeLines:
    """Where a state's ropes lie; no sections are made for it."""
    strands = made.settled.strands
    return RopeLines(made.state, strands, _middles(strands))


def model_of(made: SettledState) -> Model:
    """What a settled state's pictures draw from."""
    return modelled(made.state, made.settled.strands, made.sections)


def modelled(state: RopeState, strands: Strands, sections: Sections) -> Model:
    """The model of a state's settled strands and their sections, of one rope or several."""
    return Model(state, strands, _middles(strands), sections)


def _middles(strands: Strands) -> tuple[Floats, ...]:
    """Every rope's middle by column."""
    ropes = [strands.alone(rope) for rope in range(len(strands.ropes))]
    return tuple(rope_middle(rope.points, rope.count)[0] for rope in ropes)


def key_of(model: Model) -> tuple[Part, ...]:
    """The parts that a state's key explains: those of its ropes that have any length."""
    found: list[Part] = []
    for path in model.state.ropes:
        ends = [*(start for _, start in path.stretches[1:]), float("inf")]
        found += [part for (part, start), end in zip(path.stretches, ends, strict=True) if end > start]
    return tuple(dict.fromkeys(found))


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
    """Which of its rope's strands lie in an opening's top group, `(strands,) bool`."""
    path = model.state.ropes[opening.rope]
    law = top_group(path.braid, opening, path.phase)
    law[list(opening.moved)] ^= True
    return law


def hole_axes(model: Model, opening: Opening) -> HoleAxes:
    """Where an opening lies, measured on the settled strands."""
    points, rope = model.points(opening.rope), opening.rope
    braid, here = model.strands.ropes[rope].braid, points[:, model.column(opening.host, rope)]
    top = group_of(model, opening)
    middle = (here[top].mean(axis=0) + here[~top].mean(axis=0)) / 2
    along = model.along(opening.host, rope)
    up = here[top].mean(axis=0) - here[~top].mean(axis=0)
    up = up - (up @ along) * along
    up = up / np.linalg.norm(up)
    left = np.cross(up, along)
    away = here - middle
    thick = braid.thickness
    mouth = np.abs(model.stations(rope) - opening.host) < 0.75 * opening.flat + 0.1 * braid.diameter
    wide = float(np.abs((points[:, mouth] - middle) @ left).max()) + 0.7 * thick
    heights = away @ up
    gap = max((float(heights[top].min()) - float(heights[~top].max())) / 2 - 0.5 * thick, 0.1 * braid.diameter)
    return HoleAxes(middle, along, left, up, top, wide, gap, opening.flat + 0.3 * braid.diameter)


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

    toned: openings whose groups are shown. inked: stations with a pen mark on top of the rope. dots: places `(3,)` mm
    with a dot on the strands beside them. cap: whether the meshes are cut faces.
    """
    mesh = joined([m for m in meshes if len(m.faces)])
    first = model.state.ropes[0].stretches[0][0]
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
    rope = model.strands.rope[mesh.strand]
    found = [coat for number in range(len(model.state.ropes)) for coat in _stretched(model, mesh.station, rope, number)]
    found += [_grouped(model, mesh.station, mesh.strand, opening) for opening in toned]
    found += [Coat(Part.PEN_MARK, _share(_tick(model, mesh, station) & (rope == 0))) for station in inked]
    for dot in dots:
        away = np.linalg.norm(mesh.points - np.array(dot), axis=1) / model.d
        found += [Coat(Part.FACE_DOT_RIM, _share(away < RIM)), Coat(Part.FACE_DOT, _share(away < DOT))]
    return tuple(coat for coat in found if coat.share.any())


def _tick(model: Model, mesh: Mesh, station: float) -> Bools:
    """Which vertices `(v,)` lie under a pen's tick across the top of the first rope at a station."""
    assert mesh.station is not None
    away = mesh.points - model.at(station)
    across = np.abs(away @ across_at(model, station))
    return (np.abs(mesh.station - station) < INK * model.d) & (across < TICK * model.d) & (away[:, 2] > 0)


def across_at(model: Model, station: float) -> Floats:
    """The level direction across the first rope at a station, along which a pen's tick is drawn, `(3,)`."""
    return np.asarray(np.cross(UP, model.along(station)))


def _stretched(model: Model, station: Floats, rope: Ints, number: int) -> Iterator[Coat]:
    """What covers the first rope's first part where vertices `(v,)` belong to the rope of this number."""
    path, mine = model.state.ropes[number], rope == number
    if number:
        yield Coat(path.stretches[0][0], _share(mine))
    for part, start in path.stretches[1:]:
        if start < path.last:
            share = smooth_step((station - start) / (BLEND * path.braid.diameter) + 0.5)
            yield Coat(part, _share(np.where(mine, share, 0.0)))


def _grouped(model: Model, station: Floats, strand: Ints, opening: Opening) -> Coat:
    """An opening's two groups up to near its ends, a strand that is followed farther."""
    followed, d = followed_strands(model, opening), model.state.ropes[opening.rope].braid.diameter
    members, mine = np.zeros(len(model.strands.rope), dtype=bool), model.strands.rope == opening.rope
    members[mine] = group_of(model, opening)
    group = np.where(members[strand], Part.TOP_GROUP, Part.BOTTOM_GROUP).astype(np.uint8)
    farther = np.isin(strand, followed)
    group[farther] = Part.FOLLOWED_STRAND
    reach = np.where(farther, *reversed(toned_over(opening, d)))
    shown = 1 - smooth_step((np.abs(station - opening.host) - reach) / (FADE * d) + 0.5)
    return Coat(group, _share(np.where(mine[strand], shown, 0.0)))


def toned_over(opening: Opening, diameter: float) -> tuple[float, float]:
    """How far to either side of an opening's middle its groups are shown, and a strand that is followed, mm."""
    shown = opening.half - INSET * diameter
    return shown, shown + FOLLOWED_ON * diameter


def followed_strands(model: Model, opening: Opening) -> Ints:
    """One strand of each group of an opening whose groups turn, by which the turn can be followed, `(2,)`; or none.

    The same two in every state: those that lie outermost on the host's left by the braid's law.
    """
    turning = any(opening.turns) or model.state.haul is not None
    if not turning or opening.name != model.state.openings[-1].name or opening.flat >= HELD_APART * model.d:
        return np.zeros(0, dtype=int)
    path = model.state.ropes[opening.rope]
    own, braid = np.flatnonzero(model.strands.rope == opening.rope), path.braid
    at = np.array([opening.host + braid.pick + path.phase])
    left, top = np.cos(strand_angles(braid.strands, braid.pitch, at)[:, 0]), group_of(model, opening)
    return np.array([own[int(np.where(members, left, -np.inf).argmax())] for members in (top, ~top)])


def _share(values: Floats | Bools) -> NDArray[np.float32]:
    return values.astype(np.float32)


def _ordered(model: Model, opening: Opening) -> list[tuple[list[int], Part]]:
    """Strands of either group at an opening, from the host's left to its right, and the group."""
    axes = hole_axes(model, opening)
    here = model.points(opening.rope)[:, model.column(opening.host, opening.rope)]

    def from_left(members: Bools) -> list[int]:
        return sorted((int(k) for k in np.flatnonzero(members)), key=lambda k: -float(here[k] @ axes.left))

    return [(from_left(axes.top), Part.TOP_GROUP), (from_left(~axes.top), Part.BOTTOM_GROUP)]


def chips(model: Model, opening: Opening) -> tuple[Chip, ...]:
    """Numbers 1 to N/2 on each group's strands from the host's left to its right, neighbours set apart along it."""
    found = []
    for order, group in _ordered(model, opening):
        for number, k in enumerate(order, start=1):
            station = opening.host + (0.17 if number % 2 else -0.17) * model.d
            x, y, z = (float(v) for v in model.points(opening.rope)[k, model.column(station, opening.rope)])
            found.append(Chip(str(number), (x, y, z), group))
    return tuple(found)


FANNED = 0.31
"""How far apart numbers in a row stand at least, in rope diameters."""


def fanned(model: Model, opening: Opening, apart: float = 0.0) -> tuple[Chip, ...]:
    """The same numbers in a row above the top group and one below the bottom group, a line from each to its strand.

    apart: how far they stand apart at least, mm.
    """
    axes, d = hole_axes(model, opening), model.state.ropes[opening.rope].braid.diameter
    here = model.points(opening.rope)[:, model.column(opening.host, opening.rope)]
    found = []
    for side, (order, group) in zip((1, -1), _ordered(model, opening), strict=True):
        high = max(side * float((here[k] - axes.middle) @ axes.up) for k in order) + 0.5 * d
        for number, k in enumerate(order, start=1):
            across = max(FANNED * d, apart) * ((len(order) + 1) / 2 - number)
            x, y, z = (float(v) for v in axes.middle + across * axes.left + side * high * axes.up)
            to = (float(here[k, 0]), float(here[k, 1]), float(here[k, 2]))
            found.append(Chip(str(number), (x, y, z), group, to))
    return tuple(found)


def clearness(model: Model, places: Floats, toward: Floats) -> Floats:
    """How far to the side of each place `(m, 3)` the nearest strand before it runs, for a viewer along `toward`, mm.

    A place is hidden where that is less than a strand's half width.
    """
    near = [np.linalg.norm(line - places.mean(axis=0), axis=1) < 5 * model.d for line in model.lines]
    nodes = np.concatenate([model.points(rope)[:, some].reshape(-1, 3) for rope, some in enumerate(near)])
    to = nodes[None] - places[:, None]
    ahead = to @ toward
    beside = np.linalg.norm(to - ahead[..., None] * toward, axis=2)
    return np.asarray(np.where(ahead > 0.1 * model.braid.thickness, beside, np.inf).min(axis=1))


def mouth(model: Model, opening: Opening, side: int, steps: int = 24) -> Floats:
    """The rim of a hole's mouth at its left (1) or right (-1) face `(steps, 3)` mm, a little off the host's side."""
    axes = hole_axes(model, opening)
    angle = 2 * np.pi * np.arange(steps) / steps
    high = max(axes.gap + 0.12 * model.d, 0.4 * model.d)
    middle = axes.middle + side * (axes.wide + 0.06 * model.d) * axes.left
    wide, tall = axes.along_half * np.cos(angle), high * np.sin(angle)
    return np.asarray(middle + wide[:, None] * axes.along + tall[:, None] * axes.up)
