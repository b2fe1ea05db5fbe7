"""Settling: from a thin start to strands that touch and nowhere run through one another."""

from fidpath.settle.solver import Log, Settled, settle

__all__ = ["Log", "Settled", "settle"]
