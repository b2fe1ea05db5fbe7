"""The settling as one compiled loop over arrays that the caller brings.

It stops where neighbours must be listed anew, and where its caller wants to say how far it is. Called again, it goes
on as if it had not stopped.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.settling.contact_kernels import (
    hold_back,
    keep_out,
    keep_out_of_rods,
    near_pairs,
    push_apart,
    relax,
    squared_distance,
    worst_overlap,
)
from fidpath.settling.flat import Flat

STEPS = 20
"""Steps in which the goal is moved from the thin start to the laid braid."""

FIRST_THICKNESS = 0.12
"""Contact thickness at the start, as a share of the strands' own."""

FIRMNESS, HELD_NODES = 0.5, 2
"""How firmly a strand's displacement from the laid braid is smoothed in a sweep; nodes at its captive end that stay."""

FREE, PRESSED, SLOWEST = 0.08, 0.22, 0.2
"""The ramp goes at full pace up to a worst overlap of FREE, at SLOWEST of it from PRESSED on (measured in trials)."""

CAP, SHARE = 0.08, 0.25
"""A node moves at most CAP of the thickness and SHARE of the least distance in a sweep."""

KEPT, LEAST_SHARE, LOST = 0.7, 0.03, 0.01
"""A node moves so little that the certificate stays at KEPT, but may always move LEAST_SHARE of the least distance.
Below LOST the settling has failed."""

SKIN = 0.4
"""Neighbours are listed this far beyond contact and what a sweep may move, in thicknesses, and anew once nodes have
moved half of it."""

ROUNDING = 1e-9
"""Added to what gaps can have closed by in a sweep, in thicknesses: more than rounding can."""

HOLD = 5
"""Sweeps at full thickness before the first look at the overlap."""

CREEP = 0.1
"""From then on, share by which laid shape and rest lengths give way in every sweep to what contact asks for."""

DONE, AGAIN, STALE, FAILED = range(4)
"""Why the loop returns: the bound is met or no sweep is left, `until` is reached, neighbours must be listed anew, or
the certificate is lost."""

SWEEP, HELD, DRAWN, LOOKED = range(4)
"""State.counts: sweeps made, those at full thickness, the goal's step, the sweep last looked at."""

CERTIFICATE, RAMPED, GROWN, LISTED, WANDERED, CLOSED, MOVED, OVERLAP = range(8)
"""State.values: least certificate, how much of the ramp is done, thickness now and as the pairs were listed, how far
nodes have moved and gaps may have closed since, mm, the last sweep's largest move, the last overlap."""


class SettlingAim(NamedTuple):
    """What a settling is to come to: the overlap that no pair may exceed, with the thinnest rope's thickness in mm.

    ramp, most: sweeps of the ramp at its full pace, and in all. guarded: whether the guard holds.
    """

    thickness: float
    bound: float
    ramp: int
    most: int
    guarded: bool


class Room(NamedTuple):
    """Arrays to work in. goal, before, listed_at: `(n, 3)`; length, now: `(n,)`; least: `(2,)`.

    listed_at: where nodes were as `pairs` `(pairs, 2)` were listed. active, apart_until: `(pairs,)`, see `near_pairs`.
    """

    goal: Floats
    length: Floats
    now: Floats
    before: Floats
    least: Floats
    listed_at: Floats
    pairs: Ints
    active: Ints
    apart_until: Floats


class State(NamedTuple):
    """How far a settling is: counts `(4,)` and values `(8,)`, by the names above."""

    counts: Ints
    values: Floats


@jit
def pace(overlap: float) -> float:
    """Share of the ramp's full pace where the worst overlap is `overlap` of the thickness."""
    return min(max((PRESSED - overlap) / (PRESSED - FREE), SLOWEST), 1.0)


@jit
def most_move(least: float, thickness: float, cap: float) -> float:
    """How far a node may move, mm, where centre lines of strands now so thick are `least` mm apart."""
    return min(cap, SHARE * least, max((least - KEPT * thickness) / 2, LEAST_SHARE * least))


@jit_part
def _strayed(x: Floats, listed_at: Floats, values: Floats, most: float) -> bool:
    """Whether a node has moved too far since the neighbours were listed: the cheap sum of moves first."""
    if values[WANDERED] < most:
        return False
    furthest = 0.0
    for i in range(len(x)):
        furthest = max(furthest, squared_distance(x, i, listed_at, i))
    values[WANDERED] = np.sqrt(furthest)
    return bool(values[WANDERED] >= most)


@jit_part
def _draw_toward_laid(flat: Flat, room: Room, state: State) -> None:
    """Moves the goal from the thin start to the laid braid, in steps, as far as the ramp has come."""
    step = min(int(state.values[RAMPED] * STEPS) + 1, STEPS)
    if step <= state.counts[DRAWN]:
        return
    share = step / STEPS
    for i in range(len(flat.x)):
        room.length[i] = flat.begin_rest[i] + share * (flat.rest[i] - flat.begin_rest[i])
        for c in range(3):
            room.goal[i, c] = flat.begin[i, c] + share * (flat.laid[i, c] - flat.begin[i, c])
    state.counts[DRAWN] = step


@jit_part
def _give_way(x: Floats, goal: Floats, length: Floats) -> None:
    """Lets the goal creep toward what contact has made of it."""
    for i in range(len(x)):
        after = min(i + 1, len(x) - 1)
        length[i] += CREEP * (np.sqrt(squared_distance(x, i, x, after)) - length[i])
        for c in range(3):
            goal[i, c] += CREEP * (x[i, c] - goal[i, c])


@jit_part
def _overlap(flat: Flat, room: Room, closed: float) -> float:
    """Worst overlap now, away from the model's own cut ends."""
    return worst_overlap(flat.x, room.pairs, flat.thick, room.apart_until, closed, flat.ignore)


@jit_part
def _done(flat: Flat, room: Room, state: State, bound: float) -> bool:
    """Whether no overlap exceeds the bound, looked at once before each sweep; where one does, the goal gives way."""
    counts, values = state.counts, state.values
    if counts[HELD] <= HOLD or counts[LOOKED] == counts[SWEEP]:
        return False
    values[OVERLAP] = _overlap(flat, room, values[CLOSED])
    if values[OVERLAP] < bound:
        return True
    _give_way(flat.x, room.goal, room.length)
    counts[LOOKED] = counts[SWEEP]
    return False


@jit_part
def _grow(thick: Floats, now: Floats, values: Floats, grown: float) -> float:
    """Strands at a thickness of `grown`, and how far gaps close as they grow; returns the thinnest node's thickness."""
    thickest, thinnest = 0.0, np.inf
    for i in range(len(thick)):
        thickest = max(thickest, thick[i])
        now[i] = thick[i] * grown
        thinnest = min(thinnest, now[i])
    values[CLOSED] += max(grown - values[GROWN], 0.0) * thickest
    values[GROWN] = grown
    return thinnest


@jit_part
def _copy(x: Floats, into: Floats) -> None:
    """Node by node: numba takes long to compile one array put into another."""
    for i in range(len(x)):
        for c in range(3):
            into[i, c] = x[i, c]


@jit_part
def _sweep(flat: Flat, room: Room, state: State, aim: SettlingAim, grown: float) -> float:
    """One sweep at a thickness of `grown`, and a step up the ramp; returns the sweep's certificate.

    Pairs not listed are further apart than contact and twice the cap, so they neither touch nor set the guard.
    """
    values, x, now = state.values, flat.x, room.now
    thinnest = _grow(flat.thick, room.now, values, grown)
    _copy(x, room.before)
    cap = min(CAP * aim.thickness, max(2 * values[MOVED], 0.01 * aim.thickness))
    count = near_pairs(x, room.pairs, now, 2 * cap, room.apart_until, values[CLOSED], room.active, room.least)
    least = min(room.least[0], thinnest + 2 * cap)
    relax(x, room.goal, flat.start, room.length, FIRMNESS, HELD_NODES)
    if len(flat.seat):
        keep_out(x, flat.seat, flat.centre, now)
    if len(flat.rods):
        keep_out_of_rods(x, flat.rods, now, grown)
    push_apart(x, room.pairs, room.active, count, now)
    most = most_move(least, aim.thickness * grown, cap) if aim.guarded else 10 * aim.thickness
    values[MOVED] = hold_back(x, room.before, most)
    values[WANDERED] += values[MOVED]
    values[CLOSED] += 2 * values[MOVED] + ROUNDING * aim.thickness
    values[RAMPED] = min(values[RAMPED] + pace(room.least[1]) / aim.ramp, 1.0)
    return float((least - 2 * values[MOVED]) / (aim.thickness * grown))


@jit
def sweeps(flat: Flat, room: Room, state: State, aim: SettlingAim, until: int) -> int:
    """Sweeps until no overlap exceeds the bound, up to sweep `until`; DONE, AGAIN, STALE or FAILED."""
    counts, values = state.counts, state.values
    while counts[SWEEP] < aim.most:
        if counts[SWEEP] >= until:
            return AGAIN
        if _done(flat, room, state, aim.bound):
            return DONE
        grown = FIRST_THICKNESS + (1 - FIRST_THICKNESS) * values[RAMPED]
        if grown > values[LISTED] or _strayed(flat.x, room.listed_at, values, SKIN * aim.thickness / 2):
            return STALE
        _draw_toward_laid(flat, room, state)
        counts[HELD] += values[RAMPED] >= 1
        certificate = _sweep(flat, room, state, aim, grown)
        values[CERTIFICATE] = min(values[CERTIFICATE], certificate)
        if aim.guarded and certificate < LOST:
            return FAILED
        counts[SWEEP] += 1
    values[OVERLAP] = _overlap(flat, room, values[CLOSED])
    return DONE
