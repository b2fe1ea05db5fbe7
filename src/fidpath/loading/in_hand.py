"""The steps' states as rope lies in the hand: settled strands let slide and bend until openings are what holds them.

A settled state's holes are prescribed. Here its strands are free, the rope's ends held; fids, and the legs that go
through, keep the holes open. A state that can't be had so stays as it was settled. Lengths in the solver are in rope
diameters. The solver's kernels let go of the interpreter, so states are made in threads, two at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import numpy as np

from fidpath.arrays import Bools, Floats, Progress
from fidpath.errors import CannotBeMade
from fidpath.geometry import Rod, Strands, parted_ones
from fidpath.loading.setup import FixedBody, LoadingSetup, Schedule, SweepStage, rod_body
from fidpath.loading.solver import load
from fidpath.planning import Plan
from fidpath.settling import STEP_BOUND, Settled, SettledState, flatten, pressed_apart, settled_state
from fidpath.states import RopeState, kind_of

FRICTION = 0.05
"""Between strands, and on fids: the least of the usual band, as rope is worked loose in the hand."""

STRETCH = 200.0
"""The force that would double a strand's length, in hand-tight strand tensions (chosen here)."""

BENDING = 0.02
"""A strand's bending stiffness, in hand-tight tensions times rope diameters squared: groups curve smoothly round a fid,
and the braid away from holes stays as it is (measured in trials: 0.02 to 0.05)."""

SCHEDULE = Schedule((SweepStage(0.012, 0.97, 300), SweepStage(0.006, 0.97, 200), SweepStage(0.003, 0.95, 200, 6.0)))
"""Enough for holes to become lenses; the rope then still creeps a little, so the count is fixed."""

KEPT_EVERY = 100
"""Sweeps between placings that are kept for the check, which counts passages from each to the next."""

STRAINED = 0.02
"""A state in which a strand is lengthened or shortened by more stays as it was settled."""


def state_in_hand(
    plan: Plan,
    kind: str,
    progress: Callable[[float], None] | None = None,
    rays: int = 24,
    refine: int | None = None,
) -> SettledState:
    """The state of that kind for the job's plan as it lies in the hand, with sections of so many rays.

    progress: as in `settled_state`. Raises CannotBeMade where the state can't be laid or settled.
    """
    made = settled_state(plan, kind, progress, rays, refine)
    if _is_free(made):
        made = replace(made, settled=in_hand(made.settled, made.state, progress))
    made.sections  # noqa: B018  (made here, so that who receives or unpickles the state finds them)
    return made


def all_in_hand(plan: Plan, kinds: Sequence[str], tell: Progress | None = None) -> Iterator[SettledState]:
    """The states of those kinds, two at a time, in order."""
    with ThreadPoolExecutor(2) as pool:
        waiting = [pool.submit(state_in_hand, plan, kind) for kind in kinds]
        for number, one in enumerate(waiting):
            if tell is not None:
                tell(f"settling {kinds[number]}", number / len(kinds))
            yield one.result()


def _is_free(made: SettledState) -> bool:
    """Whether a state has holes held open, and no terminator or bury that its rope is laid to."""
    return bool(parted_ones(made.state.openings)) and made.state.seat is None and not kind_of(made.kind).finished


def in_hand(
    settled: Settled, state: RopeState, progress: Callable[[float], None] | None = None, schedule: Schedule = SCHEDULE
) -> Settled:
    """The settled strands of a state as they lie in the hand; as they were where that strains or presses them."""
    setup, unit = hand_setup(settled, state), _unit(settled.strands)
    kept: list[Floats] = [settled.strands.points]
    sweeps = sum(stage.sweeps for stage in schedule.stages)

    def watch(sweep: int, points: Floats) -> None:
        if progress is not None and sweep % 10 == 0:
            progress(min(0.99, sweep / sweeps))
        if sweep % KEPT_EVERY == 0:
            kept.append(placed(settled.strands, points * unit))

    try:
        loaded = load(setup, schedule, watch)
    except CannotBeMade:
        return settled
    log = replace(
        settled.log,
        certificate_min=min(settled.log.certificate_min, loaded.certificate),
        sweeps=settled.log.sweeps + loaded.sweeps,
        overlap=loaded.overlap,
    )
    strands = replace(settled.strands, points=placed(settled.strands, loaded.points * unit))
    found = replace(settled, strands=strands, log=log, between=tuple(kept))
    if loaded.overlap >= STEP_BOUND:
        found = pressed_apart(found, STEP_BOUND)
    return settled if found.log.overlap > STEP_BOUND or strain(found) > STRAINED else found


def _unit(strands: Strands) -> float:
    """The solver's unit of length: the thickest rope's diameter, mm."""
    return max(rope.braid.diameter for rope in strands.ropes)


def placed(strands: Strands, nodes: Floats) -> Floats:
    """Nodes `(m, 3)` mm as the strands' points `(strands, n, 3)`, those beyond a strand's end as they were."""
    points = strands.points.copy()
    points[strands.alive] = nodes
    return points


def hand_setup(settled: Settled, state: RopeState) -> LoadingSetup:
    """What the solver is given: the strands at their own lengths, their ends held, the state's fids and pulls."""
    strands, unit = settled.strands, _unit(settled.strands)
    flat = flatten(settled.draft, strands.points)
    mobility, force = np.ones_like(flat.x), np.zeros_like(flat.x)
    mobility[flat.start[:-1]] = mobility[flat.start[1:] - 1] = 0.0
    for grip in state.grips:
        mobility[_between(strands, grip.rope, grip.start, grip.end)] = 0.0
    for pull in state.pulls:
        near = _between(strands, pull.rope, pull.station - pull.reach, pull.station + pull.reach)
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


def _between(strands: Strands, rope: int, start: float, end: float) -> Bools:
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
