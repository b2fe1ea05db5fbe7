"""Strands as plain data: what the solver settles, `verify` measures and the meshes draw."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry.braid import Braid
from fidpath.geometry.parts import Part
from fidpath.geometry.rods import Rod
from fidpath.geometry.seat import Seat


@dataclass(frozen=True)
class Hole:
    """A place where the braid is parted: its centre on the host, and the guest's station that lies in it, mm.

    One entry for each pass: two legs in one hole are two entries of one name. `face`, left or right of the host, is
    where the guest enters as its station grows.
    """

    name: str
    host: float
    guest: float
    length: float
    face: str = "left"


@dataclass(frozen=True)
class Bury:
    """Tail in the standing part, as stations on the rope, mm.

    `host` runs from the entry (nearest the eye) down to where the tail's tip lies; `guest` from the entry to the
    tip. Rope station grows from the captive end to the tail's tip, so host[0] > host[1] and guest[0] < guest[1].
    """

    host: tuple[float, float]
    guest: tuple[float, float]


@dataclass(frozen=True)
class RopePart:
    """A part of the rope, between two of its own stations in mm."""

    part: Part
    start: float
    end: float


@dataclass(frozen=True)
class Strands:
    """Every strand of one rope, which may run through itself.

    points: `(strands, n, 3) float` mm; column i of every strand is at the rope's own station `station[i]`.
    count: `(strands,) int`; strand k lives in columns 0 to count[k] - 1 (the taper drops strands at the tail's end).
    hand: `(strands,) int`, +1 or -1.
    axis, normal: `(n, 3) float`, the rope's centre line and its frame's in-plane normal at the start (unsettled).
    packing: `(n,) float`, share of its free thickness a strand keeps at each column (a squeezed tail packs tighter).
    seat: the terminator's body, its crown centre at `seat_centre`, axis along z, crown toward +x.
    rods: fids and posts that the strands go round.
    """

    braid: Braid
    points: Floats
    count: Ints
    station: Floats
    hand: Ints
    axis: Floats
    normal: Floats
    packing: Floats
    holes: tuple[Hole, ...] = ()
    bury: Bury | None = None
    parts: tuple[RopePart, ...] = ()
    seat: Seat | None = None
    seat_centre: Floats = field(default_factory=lambda: np.zeros(3))
    rods: tuple[Rod, ...] = ()

    @property
    def thickness(self) -> Floats:
        """Contact thickness of the strands by column, `(n,) float` mm."""
        return self.braid.thickness * self.packing

    @property
    def nodes(self) -> int:
        """Number of live nodes."""
        return int(self.count.sum())

    def strand(self, k: int) -> Floats:
        """Centre line of strand k, `(count[k], 3) float` mm."""
        return self.points[k, : self.count[k]]
