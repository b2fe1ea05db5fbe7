"""A curl pulled through: a rope's end drawn on by a hand until the groups of a hole turn over, strand by strand.

The tail drawn through its own hole turns H2 inside out, and drawn toward the captive end it rolls the curl out again.
Both happen by themselves once the curl is drawn small; here a motion is stopped where its groups are part of the way.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import Strands, straight, top_group
from fidpath.loading.hand_setup import STRAINED, as_loaded, hand_setup, nodes_between, placed, strain, unit_of
from fidpath.loading.setup import LoadingSetup, Schedule, SweepStage
from fidpath.loading.solver import load
from fidpath.settling import STEP_BOUND, Settled, pressed_apart
from fidpath.states import RopeState

DRAWN = 0.012
"""How far the hand draws the end in a sweep, in rope diameters."""

MOST_SWEEPS = 1500
"""A curl that hasn't turned over by then has jammed."""

STAGES = (SweepStage(0.012, 0.97, MOST_SWEEPS, drive=1.0, cap=0.09), SweepStage(0.003, 0.0, 60, press=6.0))
"""The hand draws, and then holds still while the strands are pressed apart."""

LOOK_EVERY, KEEP_EVERY = 10, 20
"""Sweeps between two looks at the turns, and between placings that are kept."""

REACH = 6.0
"""Rope either side of the hole over which its groups may be turned, in rope diameters."""


def hauled(settled: Settled, state: RopeState, progress: Callable[[float], None] | None = None) -> Settled:
    """The settled strands once the hand of the state's haul has drawn its end so far.

    Raises CannotBeMade where the curl jams, or the strands can't be pressed apart again.
    """
    haul, strands, unit = state.haul, settled.strands, unit_of(settled.strands)
    assert haul is not None
    kept: list[Floats] = [strands.points]
    members, begun = _top(state), mean_turn(strands, state)
    reached = [False]

    def watch(sweep: int, points: Floats) -> bool:
        """Keeps placings, and tells the solver to stop once the groups are turned so far."""
        if progress is not None and sweep % LOOK_EVERY == 0:
            progress(min(0.99, sweep / MOST_SWEEPS))
        if sweep % KEEP_EVERY == 0:
            kept.append(placed(strands, points * unit))
        if reached[0] or sweep % LOOK_EVERY:
            return False
        now = replace(strands, points=placed(strands, points * unit))
        reached[0] = abs(_mean_turn(now, members, state) - begun) >= haul.turned
        return reached[0]

    loaded = load(_setup(settled, state), Schedule(STAGES), watch)
    if not reached[0]:
        raise CannotBeMade("the curl jams where it is drawn through", "Use a longer pitch", key="rope.pitch")
    found = pressed_apart(as_loaded(settled, loaded, kept), STEP_BOUND)
    if found.log.overlap > STEP_BOUND or strain(found) > STRAINED:
        raise CannotBeMade("strands can't be drawn through without strain", "Use a longer pitch", key="rope.pitch")
    return found


def _setup(settled: Settled, state: RopeState) -> LoadingSetup:
    """The rope's end held by the hand that draws it, all up to where the other hand holds it at rest."""
    haul, setup = state.haul, hand_setup(settled, state)
    assert haul is not None
    mobility, moves = setup.mobility.copy(), np.zeros_like(setup.points)
    end = nodes_between(settled.strands, 0, haul.start, np.inf)
    mobility[end] = mobility[nodes_between(settled.strands, 0, -np.inf, haul.held)] = 0.0
    moves[end] = DRAWN * np.array(haul.direction)
    return replace(setup, mobility=mobility, moves=moves)


def _top(state: RopeState) -> Bools:
    """The top group of the state's last hole, `(strands,)`."""
    return top_group(state.braid, state.openings[-1], state.phase)


def mean_turn(strands: Strands, state: RopeState) -> float:
    """By how much of a turn the groups of the state's last hole are turned, as a mean of both, of either hand."""
    return _mean_turn(strands, _top(state), state)


def _mean_turn(strands: Strands, members: Bools, state: RopeState) -> float:
    near = np.abs(strands.station - state.openings[-1].host) <= REACH * strands.braid.diameter
    near &= np.arange(len(near)) < strands.count.min()
    lies = strands.points[:, near]
    line = lies.mean(axis=0)
    ahead = np.gradient(line, axis=0) * np.array([1.0, 1.0, 0.0])
    ahead /= np.linalg.norm(ahead, axis=1)[:, None]
    off = lies - line
    across = off[..., 1] * ahead[:, 0] - off[..., 0] * ahead[:, 1] + 1j * off[..., 2]
    plain = straight(strands.braid, strands.station[near] + strands.braid.pick)
    flat = plain[..., 1] + 1j * plain[..., 2]
    groups = (members, ~members)
    return float(np.mean([abs(_wound(across[group]) - _wound(flat[group])) for group in groups]))


def _wound(lie: np.ndarray) -> float:
    """Turns by which pairs of strands `(strands, n) complex` wind about each other, mean over pairs."""
    i, j = np.triu_indices(len(lie), 1)
    angle = np.unwrap(np.angle(lie[i] - lie[j]), axis=1)
    return float((angle[:, -1] - angle[:, 0]).mean() / (2 * np.pi))
