"""What the rope states of a splice are made of: the holes' usual sizes, a rope laid on a line, fids in holes.

A recipe is a pure function from the plan to a `RopeState`; each has its record in `kinds`. It asks the plan once, by
`builder_of` and for the few figures of its own, and lays the line by `pieces`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Braid, Chain, Opening, Rod, arc_lengths, passed_hole, smooth_step, stations, strand_angles
from fidpath.planning import Plan
from fidpath.states.draping import axis_of
from fidpath.states.rope_state import Pass, Profile, RopePath, RopeState, Tool

WEST = 12.0
"""Standing part that the model shows beyond H1, in rope diameters."""

TAIL_SHOWN = 16.0
"""Tail that the model shows beyond H2 where its end plays no part, in rope diameters."""


DRAWN_TIGHT = 0.3
"""Rope either side of a hole's middle that lies flat round the leg in it, in rope diameters."""

POINT, BLUNT = 5.0, 0.2
"""A fid's point: its length and its tip's radius, both in the fid's own radii."""


BAGGY, BAGGY_OVER = 0.015, 6.0
"""By what share braid pushed together beside a hole is shorter at most, and over how much rope, in rope diameters."""


@dataclass(frozen=True)
class StateBuilder:
    """What every recipe asks of a plan, and the states it makes of that.

    holes: the lock's by letter and station in mm, the standing part's first; without a lock the entry alone.
    tail_begins, tail_end: stations at which the tail begins and ends, before it is cut.
    """

    braid: Braid
    holes: tuple[tuple[str, float], ...]
    tail_begins: float
    tail_end: float

    @property
    def d(self) -> float:
        """The rope's diameter, mm."""
        return self.braid.diameter

    @property
    def letters(self) -> tuple[str, ...]:
        """The holes' letters."""
        return tuple(letter for letter, _ in self.holes)

    @property
    def h2(self) -> float:
        """Station of the hole in the tail, mm, where the tail begins."""
        return self.tail_begins

    def passed(self, name: str) -> Opening:
        """A hole one leg goes through."""
        return passed_hole(name, dict(self.holes)[name], self.d)

    def opened(self, name: str, across: float) -> Opening:
        """A hole held open `across` mm along the rope."""
        flat = across / 2
        return Opening(name, dict(self.holes)[name], flat + 1.2 * self.d, flat, 0.3 * self.d)

    def inside_out(self, turns: tuple[int, int] = (-1, 1)) -> Opening:
        """The hole in the tail turned inside out, nothing in it: each group holds one turn."""
        return Opening(self.letters[-1], self.h2, 2.2 * self.d, 0.0, 0.35 * self.d, turns)

    def two_legs(self, turns: tuple[int, int] = (-1, 1)) -> Opening:
        """The hole in the tail with two legs side by side in it, its groups' turns on both sides of them."""
        return Opening(self.letters[-1], self.h2, 3.2 * self.d, 1.3 * self.d, 0.4 * self.d, turns)

    def arc(self, openings: Sequence[Opening], station: float) -> float:
        """Axis from H1's centre to a station, with these openings."""
        return float(arc_lengths(self.braid, tuple(openings), np.array([station]))[0])

    def station(self, openings: Sequence[Opening], arc: float) -> float:
        """The station at an arc length from H1's centre, with these openings."""
        grid = stations(self.braid, arc - 6 * self.d, arc + 6 * self.d)
        return float(np.interp(arc, arc_lengths(self.braid, tuple(openings), grid), grid))

    def state(
        self,
        line: Chain,
        arc_zero: float,
        first: float,
        last: float,
        openings: tuple[Opening, ...] = (),
        passes: tuple[Pass, ...] = (),
        *,
        heading: float = 0.0,
        **more: Any,
    ) -> RopeState:
        """A state of one rope as it lies on `line`, not named yet; `more` as in `RopePath`."""
        rope = RopePath(self.braid, line, arc_zero, first, last, **more)
        return RopeState("", (rope,), openings, passes, heading=heading)


def builder_of(plan: Plan) -> StateBuilder:
    """The builder of a plan's states."""
    return StateBuilder(plan.braid, plan.holes or ((plan.origin, 0.0),), plan.station_h2, plan.tail_to_lay_out)


def drawn_tight(plan: Plan) -> tuple[Opening, ...]:
    """The lock's holes drawn tight round their legs: they take no rope out of the eye."""
    half, flat = plan.eye.zone.hole_length / 2, DRAWN_TIGHT * plan.braid.diameter
    return tuple(Opening(letter, at, half, min(flat, half / 2), 0.0) for letter, at in plan.holes)


def pushed_together(braid: Braid, hole: Opening) -> Profile:
    """The braid baggy on both sides of a hole, over a hand's length: shorter, and wider as its strands keep theirs."""
    d = braid.diameter
    reach = hole.half + BAGGY_OVER * d
    off = np.arange(-4 * reach, 4.05 * reach, 0.05 * d)
    share = 1 - BAGGY * (1 - smooth_step(np.clip((np.abs(off) - hole.flat) / (reach - hole.flat), 0.0, 1.0)))
    arc = np.concatenate([[0.0], np.cumsum(np.diff(off) * (share[1:] + share[:-1]) / 2)])
    arc -= np.interp(0.0, off, arc)
    radius = np.sqrt(braid.radius**2 + (1 - share**2) * (braid.pitch / (2 * np.pi)) ** 2)
    return Profile(hole.host + off, hole.host + arc, radius, np.ones_like(off))


def rod_tool(kind: str, tip: Floats, direction: Floats, radius: float, length: float) -> Tool:
    """A fid in use, its tip at `tip` `(3,)` mm."""
    place: Vector = (float(tip[0]), float(tip[1]), float(tip[2]))
    along: Vector = (float(direction[0]), float(direction[1]), float(direction[2]))
    return Tool(kind, place, along, radius, length, Rod(place, along, radius, BLUNT * radius, POINT * radius, length))


def through_hole(
    state: RopeState, hole: Opening, kind: str, radius: float, side: float, off: float, wide: float
) -> Tool:
    """A fid in a hole from its left face (side 1) or right (-1), `off` mm from its centre along the host.

    It is pushed in until it is `wide` mm in radius at the hole's middle; `radius` itself is all the way.
    """
    d = state.ropes[hole.rope].braid.diameter
    place, left = (found[0] for found in axis_of(state, np.array([hole.host]), hole.rope))
    along = np.array([left[1], -left[0], 0.0])
    deep = POINT * radius * max(0.0, (wide / radius - BLUNT) / (1 - BLUNT))
    tip = place - side * left * (deep if wide < radius else deep + 0.9 * d) + off * along
    return rod_tool(kind, tip, -side * left, radius, 12 * d)


def unevenly_split(state: RopeState) -> RopeState:
    """The state with one strand on the wrong side of its first opening: the edge strand lying outermost."""
    hole = state.openings[0]
    braid = state.ropes[hole.rope].braid
    angle = strand_angles(braid.strands, braid.pitch, np.array([braid.pick]))[:, 0]
    height, side = np.sin(angle), np.cos(angle)
    edge = int(np.argmax(np.where(height > 1e-6, side, -np.inf)))
    return replace(state, openings=(replace(hole, moved=(edge,)), *state.openings[1:]))


def strand_ends(plan: Plan) -> Floats:
    """Station at which each strand of the tail ends, `(strands,)` mm: dropped in pairs, opposite ones first."""
    strands = plan.braid.strands
    half = strands // 2
    order = [*range(0, half, 2), *range(1, half, 2)]
    ends = np.full(strands, plan.taper.tip)
    for place, which in zip(plan.taper.drops, order, strict=False):
        ends[2 * which] = place
        ends[2 * ((which + half // 2) % half) + 1] = min(place + plan.taper.stagger, plan.taper.tip)
    return np.asarray(plan.station_entry_tail + ends)
