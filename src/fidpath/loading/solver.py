"""Strands under tension, with contact and friction: swept until they rest, under the settling's guard.

A sweep carries the nodes by force, momentum and the contacts' last multipliers; brings each strand's segments to their
lengths in one solve, which gives the tension; brings bodies and strands in contact to their balance, one after another;
and cuts moves so that no strand can cross another. Everything runs in a fixed order: same set-up, same result.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.loading import body_kernels, friction_kernels, strand_kernels
from fidpath.loading.setup import DEFAULT, Loaded, LoadingSetup, Schedule, SweepStage
from fidpath.settling import neighbours, worst_overlap

SKIN, MARGIN = 0.4, 0.1
"""Neighbours are listed SKIN beyond contact, and of these the ones within MARGIN are looked at in every sweep; both in
thicknesses, and made anew once nodes have moved half of it."""

SHARE = 0.25
"""A node moves at most this share of the least distance in a sweep."""

ROUNDING = 1e-9

RAMP_STEPS = 20
"""Steps in which force and thickness grow."""

LEAST_CERTIFICATE = 0.01

Watch = Callable[[int, Floats], bool]


class _Contacts:
    """Pairs of strand segments that may touch, and their multipliers, kept by pair when the list is made anew.

    Pairs that are both held have nothing to settle and are left out.
    """

    def __init__(self, setup: LoadingSetup) -> None:
        self.strand, self.gap = setup.strand, setup.gap
        held = (setup.mobility == 0).all(axis=1) & (setup.moves == 0).all(axis=1)
        self.free = ~(held & np.append(held[1:], True))
        self.pairs: Ints = np.empty((0, 2), np.int64)
        self.normal, self.tangent = np.empty(0), np.empty((0, 3))
        self.active: Ints = np.empty(0, np.int64)
        self.count, self.least = 0, 0.0
        self.since_list, self.since_look, self.closed = np.inf, np.inf, 0.0
        self.apart_until = np.empty(0)
        self.found = np.zeros(2)

    def update(self, x: Floats, thick: Floats, cap: float) -> None:
        """Lists and looks again where nodes have moved too far for what is known."""
        thickness = float(thick.max())
        if self.since_list > SKIN * thickness / 2:
            self._list(x, thick, thickness, cap)
        if self.since_look > MARGIN * thickness / 2:
            margin = MARGIN * thickness
            self.count = friction_kernels.look(
                x, self.pairs, thick, margin, self.apart_until, self.closed,
                self.active, self.normal, self.tangent, self.found,
            )  # fmt: skip
            self.least = min(float(self.found[0]), float(thick.min()) + margin)
            self.since_look = 0.0

    def _list(self, x: Floats, thick: Floats, thickness: float, cap: float) -> None:
        old, normal, tangent = self.pairs, self.normal, self.tangent
        pairs = neighbours(x, self.strand, self.gap, thick, (SKIN + MARGIN + 2 * cap) * thickness)
        self.pairs = pairs[self.free[pairs].any(axis=1)]
        self.normal, self.tangent = np.zeros(len(self.pairs)), np.zeros((len(self.pairs), 3))
        self.active = np.empty(len(self.pairs), np.int64)
        self.apart_until = np.full(len(self.pairs), -np.inf)
        self.since_list, self.since_look, self.closed = 0.0, np.inf, 0.0
        names, old_names = (pairs[:, 0] * len(x) + pairs[:, 1] for pairs in (self.pairs, old))
        _, now, before = np.intersect1d(names, old_names, assume_unique=True, return_indices=True)
        self.normal[now], self.tangent[now] = normal[before], tangent[before]

    @property
    def apart(self) -> float:
        """Least distance there can be now between centre lines of strands that may touch."""
        return self.least - 2 * self.since_look

    def moved(self, most: float) -> None:
        """Notes the largest move of a sweep."""
        self.since_list += most
        self.since_look += most
        self.closed += 2 * most * (1 + ROUNDING)


class _Loading:
    """A loading under way: nodes, contacts, multipliers and the guard's record."""

    def __init__(self, setup: LoadingSetup) -> None:
        self.setup = setup
        self.x, self.velocity = setup.points.copy(), np.zeros_like(setup.points)
        self.thick, self.force = setup.thick, setup.force
        self.contacts = _Contacts(setup)
        self.body_normal = np.zeros((len(setup.bodies), len(self.x)))
        self.body_tangent = np.zeros((len(setup.bodies), len(self.x), 3))
        self.tension = np.zeros(len(self.x))
        most = int(np.diff(setup.start).max())
        self.along, self.rows = np.empty((most, 3)), np.empty((most, 3))
        self.step, self.certificate, self.sweeps = 0.0, np.inf, 0
        self.moves = np.zeros(2)

    def change_step(self, step: float) -> None:
        """Multipliers are forces times the step: keeps the forces."""
        if self.step:
            share = step / self.step
            self.contacts.normal *= share
            self.contacts.tangent *= share
            self.body_normal *= share
            self.body_tangent *= share
        self.step = step

    def ramp_up(self, schedule: Schedule) -> None:
        """Lets force and thickness grow with the sweeps of the ramp, in steps."""
        every = max(1, schedule.ramp // RAMP_STEPS)
        if self.sweeps > schedule.ramp or self.sweeps % every:
            return
        share = min(1.0, (self.sweeps + every) / schedule.ramp) if schedule.ramp else 1.0
        self.force = share * self.setup.force
        if schedule.growth != 1.0:
            before, self.thick = self.thick, self.setup.thick * (1 + share * (schedule.growth - 1))
            self.contacts.moved(float(np.abs(self.thick - before).max()) / 2)

    def sweep(self, stage: SweepStage) -> None:
        """One sweep; the module's docstring says what it does."""
        setup, x, before = self.setup, self.x, self.x.copy()
        self.contacts.update(x, self.thick, stage.cap)
        thickness = float(self.thick.max())
        apart = self.contacts.apart
        self._carry(stage, before)
        strand_kernels.tighten_strands(
            x, setup.mobility, setup.start, setup.rest, setup.rest / (setup.stretch * stage.step),
            self.tension, self.along, self.rows,
        )  # fmt: skip
        self._press(stage, before)
        strand_kernels.guard(x, before, self.velocity, min(stage.cap * thickness, SHARE * apart), self.moves)
        self.contacts.moved(float(self.moves[0]))
        self.certificate = min(self.certificate, (apart - 2 * float(self.moves[0])) / thickness)
        self.sweeps += 1

    def _carry(self, stage: SweepStage, before: Floats) -> None:
        setup, contacts, force = self.setup, self.contacts, self.force
        if setup.bending > 0:
            force = force.copy()
            strand_kernels.bend(self.x, setup.start, setup.rest, setup.bending, force)
        strand_kernels.carry(self.x, self.velocity, setup.mobility, stage.momentum, stage.step, force)
        if stage.drive:
            strand_kernels.drive(self.x, setup.moves, stage.drive)
        friction_kernels.carry_contacts(
            self.x, before, setup.mobility, contacts.pairs, contacts.active, contacts.count,
            contacts.normal, contacts.tangent,
        )  # fmt: skip
        for body, normal, tangent in zip(setup.bodies, self.body_normal, self.body_tangent, strict=True):
            body_kernels.carry_bodies(
                self.x, before, setup.mobility, self.thick, int(body.kind), body.figures, normal, tangent
            )

    def _press(self, stage: SweepStage, before: Floats) -> None:
        setup, contacts = self.setup, self.contacts
        gives = (1 / stage.press, 1 / stage.grip)
        for body, normal, tangent in zip(setup.bodies, self.body_normal, self.body_tangent, strict=True):
            moved = stage.drive * np.array(body.moves)
            body_kernels.press_bodies(
                self.x, before, setup.mobility, self.thick, int(body.kind), body.figures, moved, body.friction,
                normal, tangent, *gives,
            )  # fmt: skip
        friction_kernels.press(
            self.x, before, setup.mobility, contacts.pairs, contacts.active, contacts.count, self.thick,
            setup.friction, contacts.normal, contacts.tangent, *gives,
        )  # fmt: skip

    def overlap(self) -> float:
        """The worst overlap now, as a share of the thickness."""
        pairs = self.contacts.pairs
        ignore = np.zeros(len(self.x), np.bool_) if self.setup.ignore is None else self.setup.ignore
        return float(worst_overlap(self.x, pairs, self.thick, np.full(len(pairs), -np.inf), 0.0, ignore))


def load(setup: LoadingSetup, schedule: Schedule = DEFAULT, watch: Watch | None = None) -> Loaded:
    """The strands as they lie after the schedule's stages.

    watch: told the number of sweeps and the nodes `(m, 3)` after each; says whether the stage is to end there.

    Raises CannotBeMade where the guard's certificate is lost.
    """
    run = _Loading(setup)
    readings = []
    for stage in schedule.stages:
        run.change_step(stage.step)
        _run_stage(run, stage, schedule, watch or _unseen)
        readings.append(run.tension / stage.step)
    return Loaded(
        points=run.x,
        tension=readings[-1],
        certificate=run.certificate,
        sweeps=run.sweeps,
        rms=float(run.moves[1]),
        overlap=run.overlap(),
        readings=np.array(readings),
    )


def _unseen(_sweeps: int, _points: Floats) -> bool:
    return False


def _run_stage(run: _Loading, stage: SweepStage, schedule: Schedule, watch: Watch) -> None:
    for _ in range(stage.sweeps):
        run.ramp_up(schedule)
        run.sweep(stage)
        if watch(run.sweeps, run.x):
            return
        if run.certificate < LEAST_CERTIFICATE:
            raise CannotBeMade(
                f"the loaded splice can't be found: the guard's certificate fell to {run.certificate:.3f} "
                f"in sweep {run.sweeps}",
                "Use a longer pitch, or leave the loaded state out",
                key="rope.pitch",
            )
        if run.sweeps > schedule.ramp and float(run.moves[1]) < schedule.still:
            return
