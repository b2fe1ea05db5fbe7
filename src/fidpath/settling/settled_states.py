"""Rope states settled: every step of a method, and the usual mistakes, each with its drawn sections.

Settling, sections and their kernels let go of the interpreter, so states are settled in threads, two at a time.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

from fidpath.arrays import Progress
from fidpath.meshing.sections import Sections, sections_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import Log, Settled, clearest, clearest_state, settle
from fidpath.states.draping import state_draft
from fidpath.states.kinds import STATES, WRONG_WAYS, state_of, stretches
from fidpath.states.rope_state import RopeState

FINISHED = "buried"
"""The state kind of the finished splice."""

PLAIN_FINISHED = "plain-buried"
"""The state kind of the finished plain buried eye."""

PLAIN_TAIL_IN = "plain-tail-in"
"""The state kind of a plain eye with its tail on its way into the standing part."""

OF_THE_BURY = ("bury-too-short", "no-taper")
"""Mistakes that are finished splices made to another plan."""

WRONG = (*WRONG_WAYS, *OF_THE_BURY)
"""Every mistake that is modelled."""

KINDS = (*STATES, FINISHED, PLAIN_FINISHED, *WRONG)
"""Every state that can be asked for by its name."""

BOUND = 0.0009
"""Overlap a state is settled to: in small models the 99th percentile comes close to the worst."""

TAIL_IN = 10.0
"""Tail that is in already where it is shown going in, in rope diameters."""

SHORT_BURY = 0.35
"""Share of its planned length that the too short bury has."""


@dataclass(frozen=True)
class Made:
    """One settled state. `plan` is what it was made to: a mistake's own where that differs from the job's."""

    kind: str
    plan: Plan
    state: RopeState
    settled: Settled
    sections: Sections


def made(plan: Plan, kind: str) -> Made:
    """The state of that kind, settled. Raises CannotBeMade where it can't be laid or settled."""
    if kind == FINISHED or kind in OF_THE_BURY:
        return finished(_with_bury(plan, kind), kind)
    if kind in (PLAIN_FINISHED, PLAIN_TAIL_IN):
        return finished(_with_bury(plan, kind), kind)
    state = state_of(plan, kind)
    settled = settle(clearest_state(plan.braid, state), bound=BOUND)
    return Made(kind, plan, state, settled, sections_of(settled.strands))


def check_state(plan: Plan, kind: str) -> None:
    """Raises CannotBeMade where the plan leaves no room for the state, before anything is settled or drawn."""
    if kind not in (FINISHED, PLAIN_FINISHED, PLAIN_TAIL_IN, *OF_THE_BURY):
        state_of(plan, kind)


def laid(plan: Plan, kind: str) -> Made:
    """The state of that kind, laid but not settled: enough for a ghost behind the state that follows it."""
    if kind in (FINISHED, PLAIN_FINISHED, PLAIN_TAIL_IN, *OF_THE_BURY):
        return made(plan, kind)
    state = state_of(plan, kind)
    draft = state_draft(plan.braid, state)
    return Made(kind, plan, state, Settled(draft.laid, draft, Log(1.0, 0, 0.0, 0.0)), sections_of(draft.laid, 12, 1))


def finished(plan: Plan, kind: str = FINISHED, settled: Settled | None = None) -> Made:
    """The finished splice as a step among the others."""
    settled = settled or settle(clearest(plan))
    state = state_of(plan, "on-terminator" if plan.lock else "plain-wrapped")
    station = settled.strands.station
    state = replace(
        state,
        name=kind,
        first=float(station[0]),
        last=float(station[-1]),
        tip=plan.station_tip,
        stretches=stretches(plan),
        seat_centre=tuple(settled.strands.seat_centre.tolist()),
    )
    return Made(kind, plan, state, settled, sections_of(settled.strands))


def _with_bury(plan: Plan, kind: str) -> Plan:
    """The plan with its bury as the mistake makes it."""
    practice = plan.job.practice
    if kind == "bury-too-short":
        bury = SHORT_BURY * practice.bury_diameters
        return make_plan(replace(plan.job, practice=replace(practice, bury_diameters=bury)))
    if kind == PLAIN_TAIL_IN:
        short = replace(practice, bury_diameters=TAIL_IN, taper_drops=0)
        return make_plan(replace(plan.job, practice=short))
    if kind == "no-taper":
        return make_plan(replace(plan.job, practice=replace(practice, taper_drops=0)))
    return plan


def all_made(plan: Plan, kinds: Sequence[str], tell: Progress | None = None) -> Iterator[Made]:
    """The states of those kinds, settled two at a time, in order."""
    with ThreadPoolExecutor(2) as pool:
        waiting = [pool.submit(made, plan, kind) for kind in kinds]
        for number, one in enumerate(waiting):
            if tell is not None:
                tell(f"settling {kinds[number]}", number / len(kinds))
            yield one.result()
