"""States settled while somebody waits in front of them: stopped at once when they are wanted no more."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable
from dataclasses import replace

from fidpath.meshing.sections import sections_of
from fidpath.planning.plan import Plan
from fidpath.settling import clearest, clearest_state, settle
from fidpath.settling import settled_states as steps
from fidpath.settling.settled_states import FINISHED, Made
from fidpath.states.kinds import STATES, WRONG_WAYS, state_of

Look = Callable[[float], None]

WHOLE = (steps.PLAIN_FINISHED, steps.PLAIN_TAIL_IN, *steps.OF_THE_BURY)
"""Kinds that `steps.made` settles as whole splices of their own plan, without a look between."""

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


def stoppable(plan: Plan, kind: str, look: Look, rays: int = 24, refine: int | None = None) -> Made:
    """The state of that kind, settled as `steps.made` does it, with sections of so many rays (`sections_of`).

    `look` is called several times a second with the share done; what it raises ends the settling.
    Raises CannotBeMade where the state can't be laid or settled.
    """
    if kind not in WHOLE and (kind in STATES or kind in WRONG_WAYS):
        state = state_of(plan, kind)
        settled = settle(clearest_state(plan.braid, state), progress=look, bound=steps.BOUND)
        return Made(kind, plan, state, settled, sections_of(settled.strands, rays, refine))
    if kind == FINISHED:
        made = steps.finished(plan, settled=settle(clearest(plan), progress=look))
    else:
        made = steps.made(plan, kind)
    look(1.0)
    if rays == made.sections.rings.shape[2] and refine is None:
        return made
    return replace(made, sections=sections_of(made.settled.strands, rays, refine))
