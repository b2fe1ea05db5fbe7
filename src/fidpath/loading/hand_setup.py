"""What the solver is given of a step's state: its strands, the hands that hold and pull them, and the fids.

Lengths in the solver are in rope diameters, forces in a strand's tension where rope is hand-tight.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.geometry import Rod, Strands
from fidpath.loading.setup import FixedBody, Loaded, LoadingSetup, rod_body
from fidpath.settling import Settled, flatten
from fidpath.states import Grip, RopeState

FRICTION = 0.05
"""Between strands, and on fids: the least of the usual band, as rope is worked loose in the hand."""

STRETCH = 200.0
"""The force that would double a strand's length, in hand-tight strand tensions (chosen here)."""

BENDING = 0.02
"""A strand's bending stiffness, in hand-tight tensions times rope diameters squared: groups curve smoothly round a fid,
and the braid away from holes stays as it is (measured in trials: 0.02 to 0.05)."""

HELD = 1.0
"""Rope that is held at either end of the model, in rope diameters."""

STRAINED = 0.02
"""A state in which a strand is lengthened or shortened by more stays as it was settled."""


def unit_of(strands: Strands) -> float:
    """The solver's unit of length: the thickest rope's diameter, mm."""
    return max(rope.braid.diameter for rope in strands.ropes)


def placed(strands: Strands, nodes: Floats) -> Floats:
    """Nodes `(m, 3)` mm as the strands' points `(strands, n, 3)`, those beyond a strand's end as they were."""
    points = strands.points.copy()
    points[strands.alive] = nodes
    return points


def as_loaded(settled: Settled, loaded: Loaded, kept: Sequence[Floats]) -> Settled:
    """The settled strands where the solver has brought them; `kept`: placings on the way, mm."""
    log = replace(
        settled.log,
        certificate_min=min(settled.log.certificate_min, loaded.certificate),
        sweeps=settled.log.sweeps + loaded.sweeps,
        overlap=loaded.overlap,
    )
    strands = replace(settled.strands, points=placed(settled.strands, loaded.points * unit_of(settled.strands)))
    return replace(settled, strands=strands, log=log, between=tuple(kept))


def hand_setup(settled: Settled, state: RopeState) -> LoadingSetup:
    """What the solver is given: the strands at their own lengths, their ends held, the state's fids and pulls."""
    strands, unit = settled.strands, unit_of(settled.strands)
    flat = flatten(settled.draft, strands.points)
    mobility, force = np.ones_like(flat.x), np.zeros_like(flat.x)
    for grip in (*_ends(strands), *state.grips):
        mobility[nodes_between(strands, grip.rope, grip.start, grip.end)] = 0.0
    for pull in state.pulls:
        near = nodes_between(strands, pull.rope, pull.station - pull.reach, pull.station + pull.reach)
        force[near] += pull.force * len(strands.members(pull.rope)) / near.sum() * np.array(pull.direction)
    last = flat.start[1:] - 1
    rest = flat.rest / unit
    rest[last] = rest[last - 1]
    return LoadingSetup(
        points=flat.x / unit,
        start=flat.start,
        rest=rest,
        thick=flat.thick / unit,
        gap=flat.gap,
        mobility=mobility,
        force=force,
        moves=np.zeros_like(flat.x),
        stretch=STRETCH,
        bending=BENDING,
        friction=FRICTION,
        bodies=tuple(_body(rod, unit) for rod in state.rods),
        ignore=flat.ignore,
    )


def _ends(strands: Strands) -> Iterator[Grip]:
    """The ropes' two ends, held as if they ran on."""
    for number, rope in enumerate(strands.ropes):
        reach = HELD * rope.braid.diameter
        yield Grip(float(rope.station[0]), float(rope.station[0]) + reach, number)
        yield Grip(float(rope.station[-1]) - reach, float(rope.station[-1]), number)


def nodes_between(strands: Strands, rope: int, start: float, end: float) -> Bools:
    """Which nodes `(m,)` lie on a rope between two stations."""
    station = strands.by_strand(lambda laid: laid.station)
    return np.asarray(((strands.rope == rope)[:, None] & (station >= start) & (station <= end))[strands.alive])


def _body(rod: Rod, unit: float) -> FixedBody:
    """A fid in the solver's unit of length."""
    x, y, z = (c / unit for c in rod.tip)
    lengths = {name: getattr(rod, name) / unit for name in ("radius", "tip_radius", "taper", "length")}
    return rod_body(replace(rod, tip=(x, y, z), **lengths), FRICTION)


def strain(settled: Settled) -> float:
    """How far the strand that is lengthened or shortened most is off its own length; a share."""
    strands, live = settled.strands, settled.strands.alive[:, 1:]
    now = (np.linalg.norm(np.diff(strands.points, axis=1), axis=2) * live).sum(axis=1)
    return float(np.abs(now / (settled.draft.rest * live).sum(axis=1) - 1).max())
