"""The steps' states as rope lies in the hand: settled strands let slide and bend until openings are what holds them.

A settled state's holes are prescribed. Here its strands are free, the rope's ends held; fids, and the legs that go
through, keep the holes open. A state that can't be had so stays as it was settled. The solver's kernels let go of the
interpreter, so states are made in threads, two at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from fidpath.arrays import Floats, Progress
from fidpath.errors import CannotBeMade
from fidpath.geometry import parted_ones
from fidpath.loading.hand_setup import STRAINED, as_loaded, hand_setup, placed, strain, unit_of
from fidpath.loading.hauling import hauled
from fidpath.loading.setup import Schedule, SweepStage
from fidpath.loading.solver import load
from fidpath.planning import Plan
from fidpath.settling import STEP_BOUND, Settled, SettledState, pressed_apart, settled_state
from fidpath.states import RopeState, kind_of

SCHEDULE = Schedule((SweepStage(0.012, 0.97, 300), SweepStage(0.006, 0.97, 200), SweepStage(0.003, 0.95, 200, 6.0)))
"""Enough for holes to become lenses; the rope then still creeps a little, so the count is fixed."""

KEPT_EVERY = 100
"""Sweeps between placings that are kept for the check, which counts passages from each to the next."""


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
    if made.state.haul is not None:
        made = replace(made, settled=hauled(made.settled, made.state, progress))
    elif _is_free(made):
        made = replace(made, settled=shaped_in_hand(made.settled, made.state, progress))
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


def moments_in_hand(state: Callable[[str], SettledState], kinds: Sequence[str]) -> dict[str, SettledState]:
    """The states of those kinds by kind, as `state` makes them; moments of a motion that jams are left out."""
    found = {}
    for kind in kinds:
        try:
            found[kind] = state(kind)
        except CannotBeMade:
            if not kind_of(kind).moving:
                raise
    return found


def _is_free(made: SettledState) -> bool:
    """Whether a state has holes held open, and no terminator or bury that its rope is laid to."""
    return bool(parted_ones(made.state.openings)) and made.state.seat is None and not kind_of(made.kind).finished


def shaped_in_hand(
    settled: Settled,
    state: RopeState,
    progress: Callable[[float], None] | None = None,
    schedule: Schedule = SCHEDULE,
    bound: float = STEP_BOUND,
) -> Settled:
    """The settled strands of a state as they lie in the hand; as they were where that strains or presses them.

    bound: the overlap that they may have.
    """
    setup, unit = hand_setup(settled, state), unit_of(settled.strands)
    kept: list[Floats] = [settled.strands.points]
    sweeps = sum(stage.sweeps for stage in schedule.stages)

    def watch(sweep: int, points: Floats) -> bool:
        if progress is not None and sweep % 10 == 0:
            progress(min(0.99, sweep / sweeps))
        if sweep % KEPT_EVERY == 0:
            kept.append(placed(settled.strands, points * unit))
        return False

    try:
        loaded = load(setup, schedule, watch)
        found = as_loaded(settled, loaded, kept)
        found = pressed_apart(found, bound) if loaded.overlap >= bound else found
    except CannotBeMade:
        return settled
    return settled if found.log.overlap > bound or strain(found) > STRAINED else found
