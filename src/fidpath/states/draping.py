"""The plain braid draped on a state's axis, parted at its openings: where each strand runs across its rope, and along.

`geometry.parting` has the law of a parted braid; here it is laid along a rope's line, squeezed, rolled and buried.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry import (
    NARROWED,
    LaidRope,
    Opening,
    RopePart,
    across,
    arc_lengths,
    heading,
    points,
    smooth_step,
    stations,
)
from fidpath.states.rope_state import RopePath, RopeState

SQUEEZED = 0.45
"""Share of its thickness that an end taped for passing gives up at its very tip."""


UP = np.array([0.0, 0.0, 1.0])


def arc_along(path: RopePath, openings: tuple[Opening, ...], station: Floats) -> Floats:
    """Arc length on its own line of stations `(n,)` of a rope with these openings, mm."""
    arc = arc_lengths(path.braid, openings, station, path.phase) + path.arc_zero
    if path.profile is not None:
        arc = arc + (np.interp(station, path.profile.station, path.profile.arc) - station)
    return arc


def axis_along(path: RopePath, openings: tuple[Opening, ...], station: Floats) -> tuple[Floats, Floats]:
    """Axis `(n, 3)` and in-plane normal `(n, 3)` at stations `(n,)` of a rope with these openings."""
    arc = arc_along(path, openings, station)
    xy, at = points(path.chain, arc), heading(path.chain, arc)
    zero = np.zeros_like(arc)
    return np.column_stack([xy, zero]), np.column_stack([-np.sin(at), np.cos(at), zero])


def arc_of(state: RopeState, station: Floats, rope: int = 0) -> Floats:
    """Arc length on its own line of stations `(n,)` of one of the state's ropes, mm."""
    return arc_along(state.ropes[rope], state.openings_of(rope), station)


def axis_of(state: RopeState, station: Floats, rope: int = 0) -> tuple[Floats, Floats]:
    """Axis `(n, 3)` and in-plane normal `(n, 3)` at stations `(n,)` of one of the state's ropes."""
    return axis_along(state.ropes[rope], state.openings_of(rope), station)


def radius_of(path: RopePath, station: Floats) -> Floats:
    """Mean distance of the strands from the axis, `(n,)` mm: the braid's own, or as a bury swells or squeezes it."""
    if path.profile is None:
        return np.full_like(station, path.braid.radius)
    return np.interp(station, path.profile.station, path.profile.radius)


def squeezed(path: RopePath, station: Floats) -> Floats:
    """Share of its free thickness a strand keeps, `(n,)`: less toward an end tapered for passing."""
    share = np.ones_like(station)
    if path.taper <= 0:
        return share
    for end, sign in ((path.tip, 1.0), (path.head, -1.0)):
        if end is not None:
            share = share - SQUEEZED * smooth_step(1 - sign * (end - station) / path.taper)
    return share


def roll(path: RopePath, station: Floats) -> Floats:
    """Angle by which the rope is rolled about its axis, `(n,)` radians."""
    if path.rolled is None:
        return np.zeros_like(station)
    start, end = path.rolled
    return np.asarray(path.rolled_by * smooth_step((station - start) / (end - start)))


def laid_rope(path: RopePath, openings: tuple[Opening, ...]) -> LaidRope:
    """A rope with these openings by its columns: stations, axis and frame, packing, parts."""
    station = stations(path.braid, path.first, path.last)
    packing = squeezed(path, station)
    if path.profile is not None:
        packing = packing * np.interp(station, path.profile.station, path.profile.packing)
    return LaidRope(path.braid, station, *axis_along(path, openings, station), packing, _parts(path), path.name)


def strand_points(
    path: RopePath,
    openings: tuple[Opening, ...],
    laid: LaidRope,
    share: Floats | float = 1.0,
    axis: Floats | None = None,
    lift: float = 0.0,
    narrowed: float = NARROWED,
) -> Floats:
    """Centre lines of the strands of a rope with these openings, `(strands, n, 3)` mm.

    share: by which strands are drawn toward the axis, `(n,)`; axis: `(n, 3)` mm, the laid one if it isn't given; lift,
    narrowed: as in `across`.
    """
    station = laid.station
    lie = across(path.braid, openings, path.phase, station, radius_of(path, station), lift, narrowed)
    y, z = np.moveaxis(lie, -1, 0)
    turn = roll(path, station)
    y, z = y * np.cos(turn) - z * np.sin(turn), y * np.sin(turn) + z * np.cos(turn)
    out = y[..., None] * laid.normal + z[..., None] * UP
    return np.asarray((laid.axis if axis is None else axis) + (squeezed(path, station) * share)[:, None] * out)


def _parts(path: RopePath) -> tuple[RopePart, ...]:
    """The rope's parts from the captive side to the end of the model."""
    places = [(part, max(start, path.first)) for part, start in path.parts or path.stretches if start < path.last]
    ends = [*(start for _, start in places[1:]), path.last][: len(places)]
    return tuple(RopePart(part, start, end) for (part, start), end in zip(places, ends, strict=True))


def strand_counts(path: RopePath, station: Floats) -> Ints:
    """Columns each strand lives in."""
    ends = np.array(path.ends) if path.ends else np.full(path.braid.strands, path.last)
    return np.searchsorted(station, ends + 1e-6, side="right").astype(np.int64)
