"""States settled while somebody waits in front of them: stopped at once when they are wanted no more."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable
from dataclasses import replace

from fidpath.meshing.sections import sections_of
from fidpath.planning.plan import Plan
from fidpath.settling import clearest, clearest_state, settle, settled_states
from fidpath.settling.settled_states import FINISHED, Made
from fidpath.states.kinds import STATES, WRONG_WAYS, state_of

Checkpoint = Callable[[float], None]
"""Called with the share done, again and again; what it raises ends the work."""

WHOLE = (settled_states.PLAIN_FINISHED, settled_states.PLAIN_TAIL_IN, *settled_states.OF_THE_BURY)
"""Kinds that `settled_states.made` settles as whole splices of their own plan, without a checkpoint between."""

COURTESY = 5
"""How far this machine's own order puts settling behind what a person waits for (added to the `nice` of a thread)."""

LAST = 19
"""The last place in that order."""


class Overtaken(Exception):
    """What is being settled is wanted no more."""


def stand_back() -> None:
    """Puts the calling thread, and those it starts, behind the ones that answer a person, where the system can."""
    if sys.platform == "linux":
        own = threading.get_native_id()
        os.setpriority(os.PRIO_PROCESS, own, min(os.getpriority(os.PRIO_PROCESS, own) + COURTESY, LAST))


def stoppable(plan: Plan, kind: str, checkpoint: Checkpoint, rays: int = 24, refine: int | None = None) -> Made:
    """The state of that kind, settled as `settled_states.made` does it, with sections of so many rays (`sections_of`).

    `checkpoint` is called several times a second with the share done; what it raises ends the settling.
    Raises CannotBeMade where the state can't be laid or settled.
    """
    if kind not in WHOLE and (kind in STATES or kind in WRONG_WAYS):
        state = state_of(plan, kind)
        settled = settle(clearest_state(plan.braid, state), progress=checkpoint, bound=settled_states.BOUND)
        return Made(kind, plan, state, settled, sections_of(settled.strands, rays, refine))
    if kind == FINISHED:
        whole = settled_states.finished(plan, settled=settle(clearest(plan), progress=checkpoint))
    else:
        whole = settled_states.made(plan, kind)
    checkpoint(1.0)
    if rays == whole.sections.rings.shape[2] and refine is None:
        return whole
    return replace(whole, sections=sections_of(whole.settled.strands, rays, refine))
