"""What the rope states of a splice are made of: a pencil that lays pieces end to end, and the holes' usual sizes.

A recipe is a pure function from the plan to a `RopeState`; each has its record in `kinds`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import BLEND, Braid, Chain, Rod, chain, newton, points
from fidpath.planning import Plan
from fidpath.states.draping import arc_lengths, axis_of, stations
from fidpath.states.rope_state import Opening, Pass, RopePath, RopeState, Tool

Pieces = list[tuple[float, float]]

QUARTERS = 1.5 * np.pi
"""Turn of a loop that crosses its own beginning square, radians."""

WEST = 12.0
"""Standing part that the model shows beyond H1, in rope diameters."""

TAIL_SHOWN = 16.0
"""Tail that the model shows beyond H2 where its end plays no part, in rope diameters."""


POINT, BLUNT = 5.0, 0.2
"""A fid's point: its length and its tip's radius, both in the fid's own radii."""


@dataclass(frozen=True)
class StateBuilder:
    """A plan with what every recipe asks of it; all mm."""

    plan: Plan

    @property
    def braid(self) -> Braid:
        """The rope's braid."""
        return self.plan.braid

    @property
    def d(self) -> float:
        """The rope's diameter."""
        return self.plan.braid.diameter

    @property
    def h2(self) -> float:
        """H2's station."""
        return self.plan.station_h2

    @property
    def tail_end(self) -> float:
        """The uncut tail's end."""
        return self.plan.tail_to_lay_out

    def passed(self, name: str) -> Opening:
        """A hole one leg goes through."""
        return Opening(name, self._host(name), 1.4 * self.d, 0.5 * self.d, 0.35 * self.d)

    def opened(self, name: str, across: float) -> Opening:
        """A hole held open `across` mm along the rope."""
        flat = across / 2
        return Opening(name, self._host(name), flat + 1.2 * self.d, flat, 0.3 * self.d)

    def inside_out(self, turns: tuple[int, int] = (-1, 1)) -> Opening:
        """H2 turned inside out, nothing in it: each group holds one turn."""
        return Opening("H2", self.h2, 2.2 * self.d, 0.0, 0.35 * self.d, turns)

    def two_legs(self, turns: tuple[int, int] = (-1, 1)) -> Opening:
        """H2 with two legs side by side in it, its groups' turns on both sides of them."""
        return Opening("H2", self.h2, 3.2 * self.d, 1.3 * self.d, 0.4 * self.d, turns)

    def _host(self, name: str) -> float:
        return 0.0 if name == "H1" else self.h2

    def arc(self, openings: Sequence[Opening], station: float) -> float:
        """Axis from H1's centre to a station, with these openings."""
        return float(arc_lengths(self.braid, tuple(openings), np.array([station]))[0])

    def station(self, openings: Sequence[Opening], arc: float) -> float:
        """The station at an arc length from H1's centre, with these openings."""
        grid = stations(self.braid, arc - 6 * self.d, arc + 6 * self.d)
        return float(np.interp(arc, arc_lengths(self.braid, tuple(openings), grid), grid))

    def loop(self, length: float) -> Pieces:
        """A three-quarter loop to the left that closes on its own beginning: line, 270 degrees, line."""

        def miss(x: Floats) -> Floats:
            around = chain(_loop(x), BLEND * self.d)
            end = points(around, np.array([around.length]))[0]
            return np.array([end[0], end[1], around.length - length]) / self.d

        radius = length / (2 + QUARTERS)
        return _loop(newton(miss, np.full(3, radius)))

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
        """A state of the plan's one rope as it lies on `line`, not named yet; `more` as in `RopePath`."""
        rope = RopePath(self.braid, line, arc_zero, first, last, **more)
        return RopeState("", (rope,), openings, passes, heading=heading)

    def path(self, pieces: Pieces, heading: float = 0.0) -> tuple[Chain, float]:
        """A chain with the standing part's straight before it, H1 at the table's origin; H1's arc length."""
        west = 60.0 * self.d
        start = (-west * float(np.cos(heading)), -west * float(np.sin(heading)))
        return chain([(west, 0.0), *pieces], BLEND * self.d, heading, start), west

    def swing_away(self, straight: float = 3.0) -> Pieces:
        """The tail on from a hole: straight for a while, then gently to the right."""
        d = self.d
        return [(straight * d, 0.0), (8.4 * d, -np.pi / 3), (120 * d, 0.0)]


def _loop(x: Floats) -> Pieces:
    return [(float(x[0]), 0.0), (QUARTERS * float(x[1]), QUARTERS), (float(x[2]), 0.0)]


def rod_tool(kind: str, tip: Floats, direction: Floats, radius: float, length: float) -> Tool:
    """A fid in use, its tip at `tip` `(3,)` mm."""
    place: Vector = (float(tip[0]), float(tip[1]), float(tip[2]))
    along: Vector = (float(direction[0]), float(direction[1]), float(direction[2]))
    return Tool(kind, place, along, radius, length, Rod(place, along, radius, BLUNT * radius, POINT * radius, length))


def through_hole(
    builder: StateBuilder, state: RopeState, name: str, kind: str, radius: float, side: float, off: float, wide: float
) -> Tool:
    """A fid in a hole from its left face (side 1) or right (-1), `off` mm from its centre along the host.

    It is pushed in until it is `wide` mm in radius at the hole's middle; `radius` itself is all the way.
    """
    place, left = (found[0] for found in axis_of(state, np.array([state.opening(name).host])))
    along = np.array([left[1], -left[0], 0.0])
    deep = POINT * radius * max(0.0, (wide / radius - BLUNT) / (1 - BLUNT))
    tip = place - side * left * (deep if wide < radius else deep + 0.9 * builder.d) + off * along
    return rod_tool(kind, tip, -side * left, radius, 12 * builder.d)


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
