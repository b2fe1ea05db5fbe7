"""A rope state: where the rope lies on the table, where it is parted, and what passes through where.

Stations are the rope's own length in mm from H1's centre on the standing part, growing toward the tail's end; the
table is the plane z = 0. A hole's faces are the two sides of its host, left and right as seen along the host toward
the tail's end with the hole's top group up; a host rolled half a turn shows its left face on the right.
"""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.arrays import Vector
from fidpath.geometry.curve import Chain
from fidpath.geometry.parts import Part
from fidpath.geometry.rods import Rod
from fidpath.geometry.seat import Seat


@dataclass(frozen=True)
class Opening:
    """A place where the braid is parted in two groups; lengths in mm, `turns` whole turns of (top, bottom) group.

    Strands lie `lift` apart from where the braid would have them over `flat` either side of the centre, falling to
    nothing at `half`. The groups' turns, right-handed ones positive, lie half before and half after `flat`.
    `moved` names strands that lie in the other group by mistake.
    """

    name: str
    host: float
    half: float
    flat: float
    lift: float
    turns: tuple[int, int] = (0, 0)
    moved: tuple[int, ...] = ()


@dataclass(frozen=True)
class Pass:
    """One leg through a hole: the guest's station in it, and the face it enters by as its station grows."""

    hole: str
    guest: float
    face: str = "left"


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
class RopeState:
    """One state of the rope, planar, from station `first` to `last`; `arc_h1` is H1's arc length on `chain`.

    `tip` is the tail's own end where the model reaches it (None: the rope runs on), `head` the standing part's where
    that end is free; either is squeezed over its last `taper` mm. `ends` are the stations at which the tail's strands
    end, where they have been dropped. `rolled` is a stretch of rope
    between two stations over which the rope is rolled half a turn, and stays so. `mark_offset`: mm from H1's planned
    place to where it was opened. `heading`: direction of the standing part at H1, radians; pictures turn with it.
    `stretches` are the rope's parts, each from its first station; `marks` the stations of lettered marks.
    """

    name: str
    chain: Chain
    arc_h1: float
    first: float
    last: float
    openings: tuple[Opening, ...] = ()
    passes: tuple[Pass, ...] = ()
    tools: tuple[Tool, ...] = ()
    tip: float | None = None
    head: float | None = None
    taper: float = 0.0
    ends: tuple[float, ...] = ()
    rolled: tuple[float, float] | None = None
    phase: float = 0.0
    seat: Seat | None = None
    seat_centre: Vector = (0.0, 0.0, 0.0)
    heading: float = 0.0
    stretches: tuple[tuple[Part, float], ...] = ()
    marks: tuple[tuple[str, float], ...] = ()

    @property
    def rods(self) -> tuple[Rod, ...]:
        """Bodies of the tools in use that strands go round."""
        return tuple(tool.rod for tool in self.tools if tool.rod is not None)

    def opening(self, name: str) -> Opening:
        """The opening of that name. Raises KeyError where the state has none."""
        return next(o for o in self.openings if o.name == name)
