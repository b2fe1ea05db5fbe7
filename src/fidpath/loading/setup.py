"""What the solver is given: strands, what holds and pulls them, the bodies they bear on, and the stages of a loading.

Lengths and forces are in units of the caller's own. What `DEFAULT` says holds where lengths are in rope diameters and a
strand's tension is about 1.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum

import numpy as np

from fidpath.arrays import Bools, Floats, Ints, Vector
from fidpath.geometry import Rod, Seat, table


class BodyKind(IntEnum):
    """Kinds of fixed bodies, as the kernels number them."""

    ROD = 0
    SEAT = 1
    TABLE = 2


@dataclass(frozen=True)
class FixedBody:
    """A body that strands bear on: its kind, the kernel's figures for it `(10,)`, its friction, and its motion.

    `moves`: how far it goes in a sweep of a stage whose drive is 1.
    """

    kind: BodyKind
    figures: Floats
    friction: float = 0.0
    moves: Vector = (0.0, 0.0, 0.0)


def rod_body(rod: Rod, friction: float = 0.0, moves: Vector = (0.0, 0.0, 0.0)) -> FixedBody:
    """A fid, a post, a pin, or a core on which a braid is gripped."""
    return FixedBody(BodyKind.ROD, table((rod,))[0], friction, moves)


def seat_body(seat: Seat, centre: Floats, scale: float, friction: float = 0.0) -> FixedBody:
    """A terminator whose crown's centre is at `centre` `(3,)` mm; `scale` is the solver's unit of length, mm."""
    lengths = (seat.crown, seat.nose, seat.reach, seat.groove, seat.lip, seat.half_width, *centre, 0.0)
    return FixedBody(BodyKind.SEAT, np.array(lengths) / scale, friction)


def table_body(top: Vector, up: Vector, friction: float = 0.0) -> FixedBody:
    """A flat table through the place `top`, with `up` the unit direction out of it."""
    return FixedBody(BodyKind.TABLE, np.array([*top, *up, 0.0, 0.0, 0.0, 0.0]), friction)


@dataclass(frozen=True)
class LoadingSetup:
    """Strands as one flat list of nodes `(m, 3)`; strand k owns nodes start[k] to start[k + 1] - 1.

    rest, thick: length and thickness of the segment after each node, `(m,)`.
    gap: segments of one strand nearer than this along it don't touch each other, `(m,) int`.
    mobility: 1 where a node may move along an axis, 0 where it is held (a hand's grip, a vice), `(m, 3)`.
    force: on each node, `(m, 3)`. moves: how far held nodes go in a sweep of a stage whose drive is 1, `(m, 3)`.
    stretch: the force that would double a strand's length. bending: a strand's bending stiffness, force x length^2.
    friction: between strands. ignore: segments left out where the overlap is measured, `(m,)`: near a model's cut ends.
    """

    points: Floats
    start: Ints
    rest: Floats
    thick: Floats
    gap: Ints
    mobility: Floats
    force: Floats
    moves: Floats
    stretch: float = 400.0
    bending: float = 0.0
    friction: float = 0.0
    bodies: tuple[FixedBody, ...] = ()
    ignore: Bools | None = None

    @property
    def strand(self) -> Ints:
        """Number of each node's strand `(m,)`, -1 for the void segment after its last node."""
        number = np.repeat(np.arange(len(self.start) - 1), np.diff(self.start))
        number[self.start[1:] - 1] = -1
        return number


CAP = 0.02
"""Share of the thickness that a node moves at most in a sweep, where a stage doesn't say otherwise."""


@dataclass(frozen=True)
class SweepStage:
    """A number of sweeps of one kind.

    step: displacement that a unit of force makes in a sweep. momentum: share of a node's last move that goes on.
    press, grip: stiffness of contact across and along the surface, times the step.
    drive: share of the set-up's and the bodies' `moves` made in each sweep.
    cap: share of the thickness that a node moves at most in a sweep.
    """

    step: float
    momentum: float
    sweeps: int
    press: float = 2.0
    grip: float = 0.6
    drive: float = 0.0
    cap: float = CAP


@dataclass(frozen=True)
class Schedule:
    """The stages of a loading.

    ramp: sweeps at the beginning over which force and thickness grow to their own. growth: thickness at the ramp's end
    as a share of what it begins with. still: root mean square move of a sweep at which a stage has come to rest and is
    left early.
    """

    stages: tuple[SweepStage, ...]
    ramp: int = 0
    growth: float = 1.0
    still: float = 0.0


DEFAULT = Schedule(
    (SweepStage(0.012, 0.97, 1000), SweepStage(0.004, 0.97, 600), SweepStage(0.002, 0.95, 500)), ramp=200, still=1e-5
)
"""Stages that bring a splice to rest under load (measured in trials)."""


@dataclass(frozen=True)
class Loaded:
    """What came of it.

    points: `(m, 3)`. tension: of the segment after each node, `(m,)`; meaningless after a strand's last.
    certificate: least of all sweeps of (least distance - 2 x largest move) / thickness: above 0, no strand crossed
    another. readings: tension at the end of each stage, `(stages, m)`. rms: root mean square move of the last sweep.
    overlap: the worst at the end, as a share of the thickness.
    """

    points: Floats
    tension: Floats
    certificate: float
    sweeps: int
    rms: float
    overlap: float
    readings: Floats = field(repr=False)
