"""The clearest start: how thin guests begin and how squarely they cross, scanned until no strand is near another."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.settling.contact_kernels import near_pairs
from fidpath.settling.flat import flatten
from fidpath.settling.neighbour_kernels import neighbours
from fidpath.states import Draft, RopeState, Start, draft_of, thinned

ENOUGH, LEAST = 0.1, 0.065
"""A start this clear is taken at once; one less clear than LEAST is refused. Shares of the strand's thickness."""

TIGHT = tuple(
    Start(thin, window=1.6, steep=steep) for steep in (0.3, 0.45, 0.6, 0.0) for thin in (0.15, 0.135, 0.12, 0.1)
)
"""Starts of the finished splice, whose holes are drawn tight: guests may cross more squarely."""

THIN, LIFT, NARROW, WINDOW = (0.15, 0.12, 0.1), (0.0, 0.15, 0.3), (0.75, 0.9), (3.0, 2.0)
"""Those of the steps between, whose holes are held open: share of a guest's radius, how much further groups are apart,
in diameters, the share of its width a turned group keeps, and the rope either side of a pass that may start thin, in
diameters."""


def starts(state: RopeState) -> Iterable[Start]:
    """The starts that are tried for a state, in order."""
    if state.bury is not None:
        return TIGHT
    d = max(path.braid.diameter for path in state.ropes)
    widths = ((window, narrow) for window in WINDOW for narrow in NARROW)
    return (Start(thin, lift * d, narrow, window) for window, narrow in widths for thin in THIN for lift in LIFT)


def clearance(start: Draft) -> float:
    """Least distance between any two strands of the thin start, as a share of their thickness."""
    flat = flatten(start, start.thin)
    pairs = neighbours(flat.x, flat.strand, flat.gap, 0.3 * flat.thick, 0.0)
    if len(pairs) == 0:
        return 0.3
    least = np.zeros(2)
    active = np.empty(len(pairs), np.int64)
    near_pairs(flat.x, pairs, flat.thick, 0.0, np.full(len(pairs), -np.inf), 0.0, active, least)
    return 1.0 - float(least[1])


def clearest(state: RopeState) -> Draft:
    """The state's draft with the clearest thin start. Raises CannotBeMade where none is clear enough."""
    laid = draft_of(state)
    return _clearest(thinned(laid, state, start) for start in starts(state))


def _clearest(starts: Iterable[Draft]) -> Draft:
    """The first start that is clear enough, or the clearest of all."""
    best, best_clear = None, 0.0
    for start in starts:
        clear = clearance(start)
        if clear > best_clear:
            best, best_clear = start, clear
        if clear >= ENOUGH:
            break
    if best is None or best_clear < LEAST:
        raise CannotBeMade(
            f"the guest strands can't be threaded clear of their hosts: {best_clear:.3f} of a thickness is left",
            f"At least {LEAST} is needed: use a longer pitch, fewer strands or a larger hole gap",
            key="rope.pitch",
        )
    return best
