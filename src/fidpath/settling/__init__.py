"""Settling: from a thin start to strands that touch but never run through one another.

A `Draft` comes in; settled strands with their certificate go out. Open `solver` first, then `sweep_kernels`
and `settled_states`.
"""

from fidpath.settling.contact_kernels import closest, worst_overlap
from fidpath.settling.flat import flatten
from fidpath.settling.neighbour_kernels import neighbours
from fidpath.settling.settled_states import STEP_BOUND, SettledState, laid_state, settled_state
from fidpath.settling.solver import Effort, Log, Settled, pressed_apart, settle
from fidpath.settling.thin_start import ENOUGH, LEAST, clearance

__all__ = [
    "ENOUGH",
    "LEAST",
    "STEP_BOUND",
    "Effort",
    "Log",
    "Settled",
    "SettledState",
    "clearance",
    "closest",
    "flatten",
    "laid_state",
    "neighbours",
    "pressed_apart",
    "settle",
    "settled_state",
    "worst_overlap",
]
