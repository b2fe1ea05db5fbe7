"""A rope state: where the ropes lie on the table, where they are parted, and what passes through where.

A place on a rope is the rope's number and a station, its own length in mm from its zero, growing toward the tail's
end; of a splice in one rope, zero is the middle of the hole in the standing part. The table is the plane z = 0. A
hole's faces are the two sides of its host, left and right as seen along the host toward the tail's end with the hole's
top group up; a host rolled half a turn shows its left face on the right.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi
from typing import Any

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Braid, Bury, Chain, Opening, Part, Rod, Seat


@dataclass(frozen=True)
class Pass:
    """One leg through a hole: the guest's station in it, and the face it enters by as its station grows.

    `hole` is the opening's letter, `rope` the guest's number.
    """

    hole: str
    guest: float
    face: str = "left"
    rope: int = 0


@dataclass(frozen=True)
class Tool:
    """A tool in use: its tip at `place`, pointing along `direction`, mm. `rod` is the body that parts the strands."""

    kind: str
    place: Vector
    direction: Vector
    radius: float = 0.0
    length: float = 0.0
    rod: Rod | None = None


@dataclass(frozen=True)
class Pull:
    """A hand that pulls at the rope about `station`, over `reach` mm either side, along the unit `direction`.

    `force` is each strand's share of it, in hand-tight strand tensions.
    """

    station: float
    reach: float
    direction: Vector
    force: float
    rope: int = 0


@dataclass(frozen=True)
class Grip:
    """A hand that holds the rope between two stations, mm."""

    start: float
    end: float
    rope: int = 0


@dataclass(frozen=True)
class Haul:
    """A hand that draws the rope's end, from station `start` on, along the unit `direction`; all up to `held` is held.

    It stops when the groups of the last hole have made or lost `turned` of their turn.
    """

    start: float
    direction: Vector
    held: float
    turned: float


@dataclass(frozen=True)
class Profile:
    """How a bury shortens, swells and squeezes a rope, at rising stations `(m,)` mm and straight between them.

    arc: `(m,)` mm along the rope's line from its station zero; radius: `(m,)` mm, the strands' mean distance from the
    axis; packing: `(m,)`, share of its free thickness a strand keeps.
    """

    station: Floats
    arc: Floats
    radius: Floats
    packing: Floats


@dataclass(frozen=True)
class RopePath:
    """One rope of a state, planar, from station `first` to `last`; `arc_zero` is station zero's arc length on `chain`.

    `tip` is the tail's own end where the model reaches it (None: the rope runs on), `head` the other end's where that
    is free; either is squeezed over its last `taper` mm. `ends` are the stations at which the tail's strands end, where
    they have been dropped. `rolled` is a stretch between two stations over which the rope is rolled half a turn, and
    stays so, by `rolled_by` radians. `phase`: by how much the braid's crossings are ahead of their usual stations, mm.
    `stretches` are the rope's parts, each from its first station; `parts` are finer ones, as its solids have them,
    where there are any; `marks` the stations of lettered marks. `profile`: what a bury makes of the rope, None without
    one.
    """

    braid: Braid
    chain: Chain
    arc_zero: float
    first: float
    last: float
    tip: float | None = None
    head: float | None = None
    taper: float = 0.0
    ends: tuple[float, ...] = ()
    rolled: tuple[float, float] | None = None
    rolled_by: float = pi
    phase: float = 0.0
    stretches: tuple[tuple[Part, float], ...] = ()
    parts: tuple[tuple[Part, float], ...] = ()
    marks: tuple[tuple[str, float], ...] = ()
    profile: Profile | None = None
    name: str = "rope"


@dataclass(frozen=True)
class RopeState:
    """One state of the ropes on the table; openings, passes, tools and hands are of all of them.

    `bury`: where a tail lies in the standing part, None where none does. `seat` is the terminator's body, None without
    one. `heading`: direction of the standing part at its zero, radians; pictures turn with it. `mirrored`: whether it
    is the mirror image of what the methods say. What a state of one rope says of that rope can be asked of the state
    itself.
    """

    name: str
    ropes: tuple[RopePath, ...]
    openings: tuple[Opening, ...] = ()
    passes: tuple[Pass, ...] = ()
    tools: tuple[Tool, ...] = ()
    pulls: tuple[Pull, ...] = ()
    grips: tuple[Grip, ...] = ()
    haul: Haul | None = None
    bury: Bury | None = None
    seat: Seat | None = None
    seat_centre: Vector = (0.0, 0.0, 0.0)
    heading: float = 0.0
    mirrored: bool = False

    @property
    def rods(self) -> tuple[Rod, ...]:
        """Bodies of the tools in use that strands go round."""
        return tuple(tool.rod for tool in self.tools if tool.rod is not None)

    def opening(self, name: str) -> Opening:
        """The opening of that letter. Raises KeyError where the state has none."""
        found = next((o for o in self.openings if o.name == name), None)
        if found is None:
            raise KeyError(name)
        return found

    def openings_of(self, rope: int) -> tuple[Opening, ...]:
        """The openings of one rope, in order."""
        return tuple(opening for opening in self.openings if opening.rope == rope)

    @property
    def only(self) -> RopePath:
        """The state's only rope. Raises ValueError where there are several."""
        (rope,) = self.ropes
        return rope

    def lying(self, **changed: Any) -> RopeState:
        """The state with its only rope changed: fields of `RopePath` by name."""
        return replace(self, ropes=(replace(self.only, **changed),))

    @property
    def braid(self) -> Braid:
        """The only rope's braid."""
        return self.only.braid

    @property
    def chain(self) -> Chain:
        """The only rope's line on the table."""
        return self.only.chain

    @property
    def arc_zero(self) -> float:
        """Arc length of the only rope's station zero, mm."""
        return self.only.arc_zero

    @property
    def first(self) -> float:
        """The only rope's first station, mm."""
        return self.only.first

    @property
    def last(self) -> float:
        """The only rope's last station, mm."""
        return self.only.last

    @property
    def tip(self) -> float | None:
        """Station of the tail's own end, mm, where the model reaches it."""
        return self.only.tip

    @property
    def head(self) -> float | None:
        """Station of the only rope's other end, mm, where that is free."""
        return self.only.head

    @property
    def taper(self) -> float:
        """Rope over which the only rope's free ends are squeezed, mm."""
        return self.only.taper

    @property
    def ends(self) -> tuple[float, ...]:
        """Stations at which the only rope's strands end, mm; none where they all reach its end."""
        return self.only.ends

    @property
    def phase(self) -> float:
        """By how much the only rope's crossings are ahead of their usual stations, mm."""
        return self.only.phase

    @property
    def stretches(self) -> tuple[tuple[Part, float], ...]:
        """The only rope's parts, each from its first station, mm."""
        return self.only.stretches

    @property
    def marks(self) -> tuple[tuple[str, float], ...]:
        """The only rope's lettered marks by station, mm."""
        return self.only.marks


OTHER_FACE = {"left": "right", "right": "left"}
"""The face of a hole that the mirror makes of each."""


def mirrored(state: RopeState) -> RopeState:
    """The mirror image of a state in the plane y = 0, for left-handed work; mirrored twice, it is the state again.

    The rope stays the same braid: its strands are laid on the mirrored line by the braid's own law. What has a hand
    changes it: the faces that legs go in by, the turns of the groups, how a rope is rolled, and where tools point.
    """
    return replace(
        state,
        ropes=tuple(_rope(rope) for rope in state.ropes),
        openings=tuple(_opening(opening) for opening in state.openings),
        passes=tuple(_pass(passing) for passing in state.passes),
        tools=tuple(_tool(tool) for tool in state.tools),
        haul=None if state.haul is None else replace(state.haul, direction=_across(state.haul.direction)),
        pulls=tuple(replace(pull, direction=_across(pull.direction)) for pull in state.pulls),
        seat_centre=_across(state.seat_centre),
        heading=-state.heading,
        mirrored=not state.mirrored,
    )


def _across(v: Vector) -> Vector:
    x, y, z = v
    return x, -y, z


def _rope(rope: RopePath) -> RopePath:
    return replace(rope, chain=_chain(rope.chain), rolled_by=-rope.rolled_by)


def _chain(line: Chain) -> Chain:
    x, y = line.start
    return Chain(line.lengths, -line.turns, line.blend, -line.heading, (x, -y))


def _opening(opening: Opening) -> Opening:
    top, bottom = opening.turns
    return replace(opening, turns=(-top, -bottom))


def _pass(passing: Pass) -> Pass:
    return replace(passing, face=OTHER_FACE[passing.face])


def _tool(tool: Tool) -> Tool:
    rod = tool.rod
    if rod is not None:
        rod = replace(rod, tip=_across(rod.tip), direction=_across(rod.direction))
    return replace(tool, place=_across(tool.place), direction=_across(tool.direction), rod=rod)
