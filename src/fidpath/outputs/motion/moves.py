"""What the moves of the one-ended locked splice are made of: the steps' states on one board, fids, the terminator.

A move is a pure function from a share of it to the rope's state in it. It begins where the one before ends, and ends in
a step's own state. Nothing crosses outside a hole; passes come and go only where a move says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening
from fidpath.outputs.motion.morph import between, resized
from fidpath.planning import Plan
from fidpath.states import LONG, Pass, RopeState, StateBuilder, Tool, axis_of, bent, builder_of, mirrored, state_of

KINDS = (
    "laid-out", "wrapped", "h1-first-fid", "h1-second-fid", "tail-entering", "marking", "h2-drawn-out",
    "tail-end-in-h2", "curl-closing", "h2-inside-out", "tail-swung-round", "bight-in-h2", "h1-in-h2", "h2-curled",
    "curl-rolling-out", "locked", "on-terminator", "cut-and-tapered",
)  # fmt: skip
"""The steps' states that moves lead to, in order; the finished splice comes after them."""

BENT = {"tail-swung-round": 0.0, "bight-in-h2": 0.0, "h1-in-h2": -1.0}
"""Share of its bend the loose tail has in the film beside a long eye: none, or the other way."""

BACK = 1.5
"""How far clear of the rope a fid's tip is drawn, in rope diameters."""

THROUGH = 0.05
"""The tail is through a hole once its end is so far beyond the hole's centre, in rope diameters."""

EASED = 0.15
"""Share of a move at either end over which it gathers speed and loses it."""


@dataclass(frozen=True)
class Pose:
    """One moment of a move: the rope's state, and legs that are in a hole but not through it yet."""

    state: RopeState
    entering: tuple[Pass, ...] = ()
    thinner: float = 1.0

    @property
    def mirrored(self) -> Pose:
        """The same moment of left-handed work."""
        through = len(self.state.passes)
        state = mirrored(replace(self.state, passes=(*self.state.passes, *self.entering)))
        return replace(self, state=replace(state, passes=state.passes[:through]), entering=state.passes[through:])


@dataclass(frozen=True)
class Board:
    """A plan and its steps' states by kind."""

    plan: Plan
    keys: Mapping[str, RopeState]

    @property
    def builder(self) -> StateBuilder:
        """What the recipes ask of the plan."""
        return builder_of(self.plan)

    @property
    def d(self) -> float:
        """The rope's diameter, mm."""
        return self.plan.braid.diameter

    def whole(self, state: RopeState, taped: bool = True) -> RopeState:
        """The state with the whole tail, its end taped for passing."""
        end = self.builder.tail_end
        return state.lying(last=end, tip=end, taper=3.5 * self.d if taped else 0.0)

    def bare(self, kind: str) -> RopeState:
        """A step's state without tools and terminator."""
        return replace(self.keys[kind], tools=(), seat=None)


Move = Callable[[Board, float], Pose]


@dataclass(frozen=True)
class Stretch:
    """A move: what it is called, the step's state it ends in, and its share of the film's frames.

    `jump`: share of the move after which the rope's shape isn't continuous.
    """

    name: str
    to: str
    weight: float
    move: Move
    jump: float | None = None


def board_of(plan: Plan) -> Board:
    """The steps' states of a plan, the loose tail bent clear of a long eye. Raises CannotBeMade where one can't be.

    Braid lies as long as it is beside the holes, where the steps have it pushed together.

    Moves are made for the right hand; a left-handed plan's frames are mirrored afterwards.
    """
    practice = replace(plan.job.practice, hand="right")
    plan = replace(plan, job=replace(plan.job, practice=practice))
    keys = {kind: state_of(plan, kind).lying(profile=None) for kind in KINDS}
    if plan.station_h2 > LONG * plan.braid.diameter:
        keys |= {kind: bent(keys[kind], share) for kind, share in BENT.items()}
    return Board(plan, keys)


def phase(share: float, start: float = 0.0, end: float = 1.0) -> float:
    """Share of what happens between two shares of a move, 0 before and 1 after, eased at both ends."""
    x = min(max((share - start) / (end - start), 0.0), 1.0)
    if x > 0.5:
        return 1 - phase(1 - x)
    gathered = min(x, EASED) ** 2 / (2 * EASED) + max(x - EASED, 0.0)
    return gathered / (1 - EASED)


def seated(board: Board, state: RopeState, crown: float) -> RopeState:
    """The state with the terminator in the bend of the eye at station `crown`."""
    axis, left = (found[0] for found in axis_of(state, np.array([crown])))
    x, y, z = (axis + board.plan.eye.bend_radius * left).tolist()
    return replace(state, seat=board.plan.seat, seat_centre=(x, y, z))


def fids(board: Board, state: RopeState, name: str, tools: tuple[Tool, ...], least: Opening, share: float) -> RopeState:
    """The state with fids `share` of the way into a hole, which is parted as far as they need, and at least as `least`.

    The state's own opening is what the fids make of it once they are in.
    """
    d, most = board.d, state.opening(name)
    far = [5 * tool.radius + (1.4 + BACK) * d for tool in tools]
    deep = [5 * t.radius + 0.9 * d - (1 - share) * f for t, f in zip(tools, far, strict=True)]
    open_ = max(np.clip((x + 0.6 * d) / (5 * t.radius + 0.6 * d), 0.0, 1.0) for x, t in zip(deep, tools, strict=True))
    parted = opened(board, state, resized(least, most, float(open_)))
    places = [axis_of(s, np.array([most.host]))[0][0] for s in (state, parted)]
    drawn = tuple(
        _moved(tool, places[1] - places[0] - (1 - share) * f * np.array(tool.direction))
        for tool, f in zip(tools, far, strict=True)
    )
    return replace(parted, tools=drawn)


def opened(board: Board, state: RopeState, opening: Opening) -> RopeState:
    """The state with the opening of that name resized, its passes closed again."""
    openings = tuple(opening if o.name == opening.name else o for o in state.openings)
    return between(board.plan.braid, state, state, 0.0, openings=openings)


def _moved(tool: Tool, by: Floats) -> Tool:
    """A fid moved by `(3,)` mm."""
    x, y, z = (np.array(tool.place) + by).tolist()
    return replace(tool, place=(x, y, z), rod=None if tool.rod is None else replace(tool.rod, tip=(x, y, z)))
