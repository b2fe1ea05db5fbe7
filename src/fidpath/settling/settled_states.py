"""A kind of rope state -> its own plan -> its lay -> settled strands -> their drawn sections."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from fidpath.meshing import Sections, sections_of
from fidpath.planning import Plan
from fidpath.settling.solver import BOUND, Log, Settled, settle
from fidpath.settling.thin_start import clearest
from fidpath.states import RopeState, draft_of, kind_of, made

STEP_BOUND = 0.0009
"""Overlap a step's state is settled to: in small models the 99th percentile comes close to the worst."""


@dataclass(frozen=True)
class SettledState:
    """One settled state. `plan` is what it was made to: a mistake's own where that differs from the job's.

    rays, refine: of its sections, as `sections_of` takes them; they are made when first asked for, and kept.
    """

    kind: str
    plan: Plan
    state: RopeState
    settled: Settled
    rays: int = 24
    refine: int | None = None

    @cached_property
    def sections(self) -> Sections:
        """The drawn sections of its strands."""
        return sections_of(self.settled.strands, self.rays, self.refine)


def settled_state(
    plan: Plan,
    kind: str,
    progress: Callable[[float], None] | None = None,
    rays: int = 24,
    refine: int | None = None,
) -> SettledState:
    """The state of that kind for the job's plan, settled, with sections of so many rays (`sections_of`).

    progress: told the share done several times a second; what it raises ends the settling.
    Raises CannotBeMade where the state can't be laid or settled.
    """
    own, state = made(plan, kind)
    bound = BOUND if kind_of(kind).finished else STEP_BOUND
    settled = settle(clearest(state), progress=progress, bound=bound)
    return SettledState(kind, own, state, settled, rays, refine)


def laid_state(plan: Plan, kind: str) -> SettledState:
    """The state of that kind, laid but not settled: enough for a ghost, which needs no sections."""
    own, state = made(plan, kind)
    draft = draft_of(state)
    untouched = Settled(draft.laid, draft, Log(1.0, 0, 0.0, 0.0))
    return SettledState(kind, own, state, untouched, rays=12, refine=1)
