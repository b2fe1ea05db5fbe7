"""Settling: from a thin start to strands that touch and nowhere run through one another."""

from fidpath.settling.solver import Effort, Log, Settled, settle
from fidpath.settling.thin_start import clearest

__all__ = ["Effort", "Log", "Settled", "clearest", "settle"]
