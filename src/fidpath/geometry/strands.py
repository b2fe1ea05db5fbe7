"""Strands as plain data: what the solver settles, `verify` measures and the meshes draw.

A model holds one rope or several. Places on them are a rope's number and a station, its own length in mm; holes go by
their letters.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry.braid import Braid, hands
from fidpath.geometry.parts import Part
from fidpath.geometry.rods import Rod
from fidpath.geometry.seat import Seat


@dataclass(frozen=True)
class Hole:
    """A place where a braid is parted: its centre on the host, and the guest's station that lies in it, mm.

    One entry for each pass: two legs in one hole are two entries of one letter. `face`, left or right of the host, is
    where the guest enters as its station grows. Host and guest are stretches of ropes by number, of one rope or of two.
    """

    name: str
    host: float
    guest: float
    length: float
    face: str = "left"
    host_rope: int = 0
    guest_rope: int = 0


@dataclass(frozen=True)
class Bury:
    """Tail in the standing part, as stations on their ropes, mm.

    `host` runs from the entry (nearest the eye) down to where the tail's tip lies; `guest` from the entry to the
    tip. Rope station grows from the captive end to the tail's tip, so host[0] > host[1] and guest[0] < guest[1].
    """

    host: tuple[float, float]
    guest: tuple[float, float]
    host_rope: int = 0
    guest_rope: int = 0


@dataclass(frozen=True)
class RopePart:
    """A part of a rope, between two of its own stations in mm."""

    part: Part
    start: float
    end: float


@dataclass(frozen=True)
class LaidRope:
    """One rope of a model: column i of each of its strands is at its own station `station[i]`, `(n,)` mm.

    axis, normal: `(n, 3) float`, the rope's centre line and its frame's in-plane normal at the start (unsettled).
    packing: `(n,) float`, share of its free thickness a strand keeps at each column (a squeezed tail packs tighter).
    """

    braid: Braid
    station: Floats
    axis: Floats
    normal: Floats
    packing: Floats
    parts: tuple[RopePart, ...] = ()
    name: str = "rope"

    @property
    def thickness(self) -> Floats:
        """Contact thickness of the strands by column, `(n,) float` mm."""
        return self.braid.thickness * self.packing

    @property
    def step(self) -> float:
        """Rope from one column to the next, mm."""
        return float(self.station[1] - self.station[0])


@dataclass(frozen=True)
class Strands:
    """Every strand of one rope or several, which may run through themselves and one another.

    points: `(strands, n, 3) float` mm; column i of strand k is at its rope's station i. n is the longest rope's.
    count: `(strands,) int`; strand k lives in columns 0 to count[k] - 1 (the taper drops strands at the tail's end).
    hand: `(strands,) int`, +1 or -1. rope: `(strands,) int`, which of the `ropes` each strand belongs to.
    seat: the terminator's body, its crown centre at `seat_centre`, axis along z, crown toward +x; None without one.
    rods: fids and posts that the strands go round.
    """

    points: Floats
    count: Ints
    hand: Ints
    rope: Ints
    ropes: tuple[LaidRope, ...]
    holes: tuple[Hole, ...] = ()
    bury: Bury | None = None
    seat: Seat | None = None
    seat_centre: Floats = field(default_factory=lambda: np.zeros(3))
    rods: tuple[Rod, ...] = ()

    @property
    def only(self) -> LaidRope:
        """The model's only rope. Raises ValueError where there are several: ask for one by its number."""
        (rope,) = self.ropes
        return rope

    @property
    def braid(self) -> Braid:
        """The only rope's braid."""
        return self.only.braid

    @property
    def station(self) -> Floats:
        """The only rope's stations by column, `(n,)` mm."""
        return self.only.station

    @property
    def axis(self) -> Floats:
        """The only rope's centre line before settling, `(n, 3)` mm."""
        return self.only.axis

    @property
    def normal(self) -> Floats:
        """The only rope's in-plane normal before settling, `(n, 3)`."""
        return self.only.normal

    @property
    def packing(self) -> Floats:
        """Share of its free thickness a strand of the only rope keeps, `(n,)`."""
        return self.only.packing

    @property
    def parts(self) -> tuple[RopePart, ...]:
        """The only rope's parts."""
        return self.only.parts

    @property
    def thickness(self) -> Floats:
        """Contact thickness of the only rope's strands by column, `(n,) float` mm."""
        return self.only.thickness

    @property
    def nodes(self) -> int:
        """Number of live nodes."""
        return int(self.count.sum())

    @property
    def alive(self) -> Bools:
        """Which columns each strand lives in, `(strands, n) bool`."""
        return np.asarray(np.arange(self.points.shape[1])[None, :] < self.count[:, None])

    @property
    def diameters(self) -> Floats:
        """Diameter of every strand's rope, `(strands,) float` mm."""
        return np.array([rope.braid.diameter for rope in self.ropes])[self.rope]

    def strand(self, k: int) -> Floats:
        """Centre line of strand k, `(count[k], 3) float` mm."""
        return self.points[k, : self.count[k]]

    def rope_of(self, k: int) -> LaidRope:
        """The rope that strand k belongs to."""
        return self.ropes[int(self.rope[k])]

    def members(self, rope: int) -> Ints:
        """Numbers of a rope's strands, `(strands,) int`."""
        return np.flatnonzero(self.rope == rope)

    def by_strand(self, column_values: Callable[[LaidRope], Floats]) -> Floats:
        """Values by column of every strand's rope, `(strands, n) float`; a shorter rope's last one is carried on."""
        n = self.points.shape[1]
        rows = [np.asarray(column_values(rope), dtype=float) for rope in self.ropes]
        return np.stack([np.pad(row, (0, n - len(row)), mode="edge") for row in rows])[self.rope]

    def alone(self, rope: int = 0) -> Strands:
        """One of several ropes by itself, without what passes through it; the bodies beside it stay."""
        if len(self.ropes) == 1:
            return self
        members, n = self.members(rope), len(self.ropes[rope].station)
        return replace(
            self,
            points=self.points[members, :n],
            count=self.count[members],
            hand=self.hand[members],
            rope=np.zeros(len(members), dtype=np.int64),
            ropes=(self.ropes[rope],),
            holes=(),
            bury=None,
        )

    def repacked(self, packing: Floats) -> Strands:
        """The only rope's strands with another packing, `(n,)`."""
        return replace(self, ropes=(replace(self.only, packing=packing),))


def of_one_rope(rope: LaidRope, points: Floats, count: Ints | None = None, **more: Any) -> Strands:
    """Strands `(strands, n, 3)` mm of one rope, all of them as long as it where no count is given.

    more: `holes`, `bury`, `seat`, `seat_centre`, `rods` as in `Strands`.
    """
    number, n = points.shape[:2]
    ends = np.full(number, n, dtype=np.int64) if count is None else count
    return Strands(points, ends, hands(number), np.zeros(number, dtype=np.int64), (rope,), **more)


def of_ropes(ropes: Sequence[Strands], **more: Any) -> Strands:
    """Strands of several ropes, each given by itself, as one model; `more` as in `of_one_rope`."""
    if len(ropes) == 1:
        return replace(ropes[0], **more)
    n = max(one.points.shape[1] for one in ropes)
    return Strands(
        points=np.concatenate([padded(one.points, n) for one in ropes]),
        count=np.concatenate([one.count for one in ropes]),
        hand=np.concatenate([one.hand for one in ropes]),
        rope=np.repeat(np.arange(len(ropes)), [len(one.count) for one in ropes]),
        ropes=tuple(one.only for one in ropes),
        **more,
    )


def padded(points: Floats, n: int) -> Floats:
    """Values by column `(strands, m, ...)` carried on with the last one to n columns."""
    return np.pad(points, ((0, 0), (0, n - points.shape[1]), *((0, 0),) * (points.ndim - 2)), mode="edge")
