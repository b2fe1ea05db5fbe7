"""A rope state -> its strands before settling: the plain braid draped on the state's axis, parted at its openings.

Near an opening the rope's phase dwells at the diamond's centre, so that top and bottom group lie apart over its whole
length, and makes up for it on both sides; the groups are lifted, and turned about themselves where they hold turns.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry.braid import Braid, hands, straight, strand_angles, strand_offsets
from fidpath.geometry.bury import smooth_step
from fidpath.geometry.curve import heading, points
from fidpath.geometry.strands import Hole, RopePart, Strands
from fidpath.states.finished_rope import NODE_SPACING, Draft
from fidpath.states.rope_state import Opening, RopeState

DWELL = 0.7
"""Picks of phase either side of the centre that an opening's whole length holds."""

CATCH_UP = 1.6
"""How much faster than the station the phase runs beside an opening, until it has caught up."""

RISE = 1.2
"""Rope over which the groups part and close again at an opening's ends, in rope diameters."""

NARROWED = 0.75
"""Share of its width a group keeps where it turns about itself."""

SQUEEZED = 0.45
"""Share of its thickness that an end taped for passing gives up at its very tip."""


@dataclass(frozen=True)
class Start:
    """How a state begins: the guests' share of their radius, how much further than `lift` groups are apart, mm, the
    share of its width a turned group keeps, and the least rope either side of a pass that may be thin, in diameters.
    """

    thin: float = 0.15
    lift: float = 0.0
    narrowed: float = NARROWED
    window: float = 3.0


AS_LAID = Start(1.0)


def stations(braid: Braid, first: float, last: float) -> Floats:
    """Evenly spaced stations of the node columns, `(n,)` mm, H1's centre among them."""
    step = _step(braid)
    return np.asarray(np.arange(np.ceil(first / step - 1e-9), np.floor(last / step + 1e-9) + 1) * step)


def _step(braid: Braid) -> float:
    return float(braid.pick / np.ceil(braid.pick / (NODE_SPACING * braid.diameter)))


def _held(braid: Braid, opening: Opening, station: Floats) -> Floats:
    """How far the phase is ahead of the station near an opening, `(n,)` mm."""
    hold = DWELL * braid.pick
    free = (CATCH_UP * opening.half - hold) / (CATCH_UP - 1)
    knots = np.array([-free, -opening.half, opening.half, free])
    ahead = np.array([-free, -hold, hold, free]) - knots
    blend = np.linspace(-0.3, 0.3, 13) * braid.diameter
    off = station - opening.host
    return np.asarray(np.mean([np.interp(off + b, knots, ahead, 0.0, 0.0) for b in blend], axis=0))


def _wide(openings: tuple[Opening, ...]) -> list[Opening]:
    return [opening for opening in openings if opening.half > 0]


def top_group(braid: Braid, opening: Opening, phase: float = 0.0) -> Bools:
    """Which strands the braid's law puts in an opening's top group, `(strands,) bool`."""
    at = np.array([opening.host + braid.pick + phase])
    return np.asarray(np.sin(strand_angles(braid.strands, braid.pitch, at)[:, 0]) > 0)


def _turned(across: Floats, members: Bools, angle: Floats, narrowed: Floats) -> Floats:
    """Offsets `(strands, n, 2)` with the members turned about their own middle by `angle` and narrowed, `(n,)` each."""
    middle = across[members].mean(axis=0)
    y, z = np.moveaxis((across[members] - middle) * narrowed[:, None], -1, 0)
    cos, sin = np.cos(angle), np.sin(angle)
    moved = across.copy()
    moved[members] = np.stack([y * cos - z * sin, y * sin + z * cos], axis=-1) + middle
    return moved


def _parted(braid: Braid, opening: Opening, station: Floats, across: Floats, phase: float, start: Start) -> Floats:
    """Offsets `(strands, n, 2)` with one opening's groups lifted apart and turned."""
    off = np.abs(station - opening.host)
    ramp = min(RISE * braid.diameter, opening.half - opening.flat)
    raised = 1 - smooth_step((off - (opening.half - ramp)) / ramp)
    end = opening.half - 0.5 * ramp
    share = smooth_step((off - opening.flat) / (end - opening.flat))
    along = share * np.sign(station - opening.host)
    law = top_group(braid, opening, phase)
    moved = across.copy()
    for members, turns in ((law, opening.turns[0]), (~law, opening.turns[1])):
        if turns:
            narrowed = 1 - (1 - start.narrowed) * np.sin(np.pi * share) ** 2
            moved = _turned(moved, members, np.pi * turns * (1 + along), narrowed)
    sides = law.copy()
    sides[list(opening.moved)] ^= True
    moved[..., 1] += np.where(sides, 1.0, -1.0)[:, None] * raised * (opening.lift + start.lift)
    return moved


def _across(
    braid: Braid, openings: tuple[Opening, ...], phase: float, station: Floats, start: Start = AS_LAID
) -> Floats:
    """Where each strand runs across the rope, `(strands, n, 2)` mm: along the in-plane normal, and up."""
    wide = _wide(openings)
    ahead = sum((_held(braid, opening, station) for opening in wide), np.zeros_like(station))
    out, angle = strand_offsets(braid, station + braid.pick + phase + ahead)
    across = np.stack([out * np.cos(angle), out * np.sin(angle)], axis=-1)
    for opening in wide:
        across = _parted(braid, opening, station, across, phase, start)
    return across


@lru_cache(maxsize=256)
def _taken(braid: Braid, opening: Opening, phase: float) -> tuple[Floats, Floats]:
    """Stations from an opening's centre `(n,)` and the axis it has taken up to there `(n,)`, mm; 0 at the centre.

    The groups' way round what goes between them is made of the strands' own length, so the axis shortens.
    """
    reach = 4 * opening.half + 2 * braid.diameter
    local = replace(opening, host=0.0)
    step = _step(braid)
    off = np.arange(-np.ceil(reach / step), np.ceil(reach / step) + 1) * step
    shift = opening.host + phase
    sideways = np.linalg.norm(np.diff(_across(braid, (local,), shift, off), axis=1), axis=2)
    own = np.linalg.norm(np.diff(straight(braid, off + braid.pick + shift), axis=1), axis=2)
    along = np.sqrt(np.maximum(own**2 - sideways**2, (0.2 * step) ** 2)).mean(axis=0)
    taken = np.concatenate([[0.0], np.cumsum(step - along)])
    return off, taken - np.interp(0.0, off, taken)


def arc_lengths(braid: Braid, openings: tuple[Opening, ...], station: Floats, phase: float = 0.0) -> Floats:
    """Arc length of stations `(n,)` along the axis, mm, 0 at H1's centre: openings shorten it."""
    arc = np.asarray(station, dtype=float)
    for opening in _wide(openings):
        off, taken = _taken(braid, opening, phase)
        at = np.interp(np.array([0.0]) - opening.host, off, taken)
        arc = arc - (np.interp(station - opening.host, off, taken) - at)
    return arc


def _roll(state: RopeState, station: Floats) -> Floats:
    """Angle by which the rope is rolled about its axis, `(n,)` radians."""
    if state.rolled is None:
        return np.zeros_like(station)
    start, end = state.rolled
    return np.asarray(np.pi * smooth_step((station - start) / (end - start)))


def axis_of(braid: Braid, state: RopeState, station: Floats) -> tuple[Floats, Floats]:
    """Axis `(n, 3)` and in-plane normal `(n, 3)` at stations `(n,)`."""
    arc = arc_lengths(braid, state.openings, station, state.phase) + state.arc_h1
    xy, at = points(state.chain, arc), heading(state.chain, arc)
    zero = np.zeros_like(arc)
    return np.column_stack([xy, zero]), np.column_stack([-np.sin(at), np.cos(at), zero])


def lay(braid: Braid, state: RopeState, station: Floats, share: Floats, start: Start) -> Floats:
    """Strand centre lines `(strands, n, 3)` mm.

    share: `(n,)`, by which strands are drawn toward the axis; start: how far groups are parted and narrowed.
    """
    axis, normal = axis_of(braid, state, station)
    roll = _roll(state, station)
    y, z = np.moveaxis(_across(braid, state.openings, state.phase, station, start), -1, 0)
    y, z = y * np.cos(roll) - z * np.sin(roll), y * np.sin(roll) + z * np.cos(roll)
    return np.asarray(axis + share[:, None] * (y[..., None] * normal + z[..., None] * np.array([0.0, 0.0, 1.0])))


def squeezed(state: RopeState, station: Floats) -> Floats:
    """Share of its free thickness a strand keeps, `(n,)`: less toward an end tapered for passing."""
    share = np.ones_like(station)
    if state.taper <= 0:
        return share
    for end, sign in ((state.tip, 1.0), (state.head, -1.0)):
        if end is not None:
            share = share - SQUEEZED * smooth_step(1 - sign * (end - station) / state.taper)
    return share


def _thin(braid: Braid, state: RopeState, station: Floats, axis: Floats, start: Start) -> Floats:
    """Share of its radius each column starts with: guests shrunk where they go through their hosts."""
    d = braid.diameter
    share = np.ones_like(station)
    reach = max(start.window * d, *(opening.half + 0.3 * d for opening in state.openings), 0.0)
    for passing in state.passes:
        host = state.opening(passing.hole).host
        place, left = (found[0, :2] for found in axis_of(braid, state, np.array([host])))
        apart = np.abs((axis[:, :2] - place) @ left)
        room = np.clip(apart / (0.55 * d) - 1.02, start.thin, 1.0)
        near = np.abs(station - passing.guest) < min(reach, 0.45 * abs(passing.guest - host))
        share = np.where(near, np.minimum(share, room), share)
    return share


def _parts(state: RopeState) -> tuple[RopePart, ...]:
    """The rope's parts from the captive side to the end of the model."""
    places = [(part, max(start, state.first)) for part, start in state.stretches if start < state.last]
    ends = [*(start for _, start in places[1:]), state.last][: len(places)]
    return tuple(RopePart(part, start, end) for (part, start), end in zip(places, ends, strict=True))


def _counts(braid: Braid, state: RopeState, station: Floats) -> Ints:
    """Columns each strand lives in."""
    ends = np.array(state.ends) if state.ends else np.full(braid.strands, state.last)
    return np.searchsorted(station, ends + 1e-6, side="right").astype(np.int64)


def state_draft(braid: Braid, state: RopeState, start: Start | None = None) -> Draft:
    """The state's strands before settling, and the start in which nothing touches."""
    start = start or Start()
    station = stations(braid, state.first, state.last)
    packing = squeezed(state, station)
    axis, normal = axis_of(braid, state, station)
    share = packing * _thin(braid, state, station, axis, start)
    laid, thin = lay(braid, state, station, packing, AS_LAID), lay(braid, state, station, share, start)
    strands = Strands(
        braid=braid,
        points=laid,
        count=_counts(braid, state, station),
        station=station,
        hand=hands(braid.strands),
        axis=axis,
        normal=normal,
        packing=packing,
        holes=tuple(
            Hole(p.hole, state.opening(p.hole).host, p.guest, 2 * state.opening(p.hole).half, p.face)
            for p in state.passes
        ),
        parts=_parts(state),
        seat=state.seat,
        seat_centre=np.array(state.seat_centre),
        rods=state.rods,
    )
    rest = np.linalg.norm(np.diff(straight(braid, station + braid.pick), axis=1), axis=2)
    return Draft(strands, thin, rest)
