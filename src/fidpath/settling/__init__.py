"""Settling: from a thin start to strands that touch and nowhere run through one another.

A `Draft` comes in; settled strands with their certificate go out. Open `solver` first, then `settled_states`.
"""

from fidpath.settling.solver import Effort, Log, Settled, settle
from fidpath.settling.thin_start import clearest

__all__ = ["Effort", "Log", "Settled", "clearest", "settle"]
