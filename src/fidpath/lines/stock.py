"""Cutting pieces from the spools in stock so that the least rope is left over on the spools begun (scipy's HiGHS)."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.lines.bin_packing import greedy, least_subset, packed

Counts = Ints

METRE = 1000.0
SECONDS = 20.0
"""Longest search for the best allocation of one rope; what is not proved by then is said with its gap."""


@dataclass(frozen=True)
class Allocation:
    """Which spool each piece is cut from (None where no spool has room), mm.

    left_over: rope that stays on the spools begun. bound: what it can't be less than. gap: their difference as a
    share of the spools begun; 0 where the allocation is proved best.
    """

    spool_of: tuple[int | None, ...]
    left_over: float
    bound: float
    gap: float

    @property
    def optimal(self) -> bool:
        """Whether nothing better can be."""
        return self.gap <= 1e-9

    @property
    def unplaced(self) -> tuple[int, ...]:
        """Pieces that no spool has room for."""
        return tuple(index for index, spool in enumerate(self.spool_of) if spool is None)


def allocate(pieces: tuple[float, ...], spools: tuple[float, ...], seconds: float = SECONDS) -> Allocation:
    """The allocation of pieces to spools, lengths in mm. Where not all fit, the most rope by length is placed."""
    order = sorted(range(len(spools)), key=lambda index: -spools[index])
    stock = np.array([spools[index] for index in order])
    sizes, demand = _sizes(pieces)
    if not len(stock) or not len(sizes):
        return Allocation((None,) * len(pieces), 0.0, 0.0, 0.0)
    cuts, bound = _least(sizes, demand, stock, seconds)
    if cuts is None:
        placed = _most(sizes, demand, stock, seconds / 2)
        cuts, bound = _least(sizes, placed.sum(axis=1), stock, seconds / 2)
        cuts = placed if cuts is None else cuts
    begun = _begun(cuts, stock)
    used = float((cuts.sum(axis=1) * sizes).sum())
    gap = max(0.0, begun - bound) / begun if begun else 0.0
    gap = gap if gap > 1e-9 else 0.0
    return Allocation(_handed_out(pieces, sizes, cuts, order), begun - used, min(bound, begun) - used, gap)


def _sizes(pieces: tuple[float, ...]) -> tuple[Floats, Counts]:
    """The different lengths, longest first, and how many of each."""
    counted = sorted(Counter(pieces).items(), reverse=True)
    return np.array([size for size, _ in counted], dtype=float), np.array([n for _, n in counted], dtype=np.int64)


def _handed_out(pieces: tuple[float, ...], sizes: Floats, cuts: Counts, order: list[int]) -> tuple[int | None, ...]:
    """Counts per size and spool as a spool for every piece."""
    places = {
        float(size): [order[j] for j in range(cuts.shape[1]) for _ in range(cuts[row, j])]
        for row, size in enumerate(sizes)
    }
    return tuple(places[piece].pop(0) if places[piece] else None for piece in pieces)


def _least(sizes: Floats, demand: Counts, stock: Floats, seconds: float) -> tuple[Counts | None, float]:
    """Counts (sizes, spools) that begin the least spools by length, and the bound; None where all can't be placed."""
    needed = float((sizes * demand).sum())
    floor = least_subset(needed, stock)
    guess = packed(sizes, demand, stock)
    if guess is not None and _begun(guess, stock) <= floor + 1e-6:
        return guess, floor
    if floor > float(stock.sum()):
        return None, floor
    cuts, bound, impossible = _solve(sizes, demand, stock, floor, seconds)
    if cuts is None:
        return (None, floor) if impossible else (guess, floor)
    better = guess is None or _begun(cuts, stock) < _begun(guess, stock)
    return cuts if better else guess, max(bound, floor)


def _begun(cuts: Counts, stock: Floats) -> float:
    """Length of the spools that something is cut from."""
    return float(stock[cuts.sum(axis=0) > 0].sum())


def _most(sizes: Floats, demand: Counts, stock: Floats, seconds: float) -> Counts:
    """Counts (sizes, spools) that place the most rope by length, where not all of it fits."""
    from scipy.optimize import LinearConstraint

    each, room = _rows(sizes, stock)
    limits = [LinearConstraint(each, 0, demand), LinearConstraint(room, -np.inf, stock / METRE)]
    cost = -np.repeat(sizes / METRE, len(stock))
    solution, _, _ = _search(cost, limits, _ceilings(sizes, demand, stock), seconds)
    cuts = None if solution is None else solution.reshape(len(sizes), len(stock))
    return greedy(sizes, demand, stock) if cuts is None or not _holds(sizes, cuts, stock) else cuts


def _solve(
    sizes: Floats, demand: Counts, stock: Floats, floor: float, seconds: float
) -> tuple[Counts | None, float, bool]:
    """Counts that begin the least spools by length, or None; the bound; whether it was proved impossible."""
    from scipy.optimize import LinearConstraint
    from scipy.sparse import csr_array, diags_array, hstack

    n, m = len(sizes), len(stock)
    each, room = _rows(sizes, stock)
    cost = np.concatenate([np.zeros(n * m), stock / METRE])
    alike = np.flatnonzero(stock[:-1] == stock[1:])
    turn = np.zeros((len(alike), n * m + m))
    rows = np.arange(len(alike))
    turn[rows, n * m + alike], turn[rows, n * m + alike + 1] = -1, 1
    limits = [
        LinearConstraint(hstack([each, csr_array((n, m))]), demand, demand),
        LinearConstraint(hstack([room, diags_array(-stock / METRE)]), -np.inf, 0),
        LinearConstraint(cost[None, :], (floor - 1e-3) / METRE, np.inf),
    ]
    if len(alike):
        limits.append(LinearConstraint(turn, -np.inf, 0))
    most = np.concatenate([_ceilings(sizes, demand, stock), np.ones(m)])
    solution, bound, impossible = _search(cost, limits, most, seconds)
    if solution is None:
        return None, floor, impossible
    cuts = solution[: n * m].reshape(n, m)
    return (cuts, bound * METRE, False) if _holds(sizes, cuts, stock) else (None, floor, False)


def _rows(sizes: Floats, stock: Floats) -> tuple[Any, Any]:
    """Rows of the two constraints in counts, sparse: how many of each size, and how much of each spool in metres."""
    from scipy.sparse import csr_array, eye_array, kron

    n, m = len(sizes), len(stock)
    return kron(eye_array(n), csr_array(np.ones((1, m)))), kron(csr_array(sizes[None, :] / METRE), eye_array(m))


def _ceilings(sizes: Floats, demand: Counts, stock: Floats) -> Floats:
    """The most of each size that each spool can give, `(sizes * spools,)`."""
    return np.asarray(np.minimum(demand[:, None], (stock[None, :] + 1e-6) // sizes[:, None]).ravel(), dtype=float)


def _search(cost: Floats, limits: list[Any], most: Floats, seconds: float) -> tuple[Counts | None, float, bool]:
    """HiGHS: whole numbers or None, the bound on the cost, whether it was proved impossible."""
    from scipy.optimize import Bounds, milp

    options = {"time_limit": seconds, "mip_rel_gap": 0.0}
    done = milp(cost, constraints=limits, integrality=np.ones(len(cost)), bounds=Bounds(0, most), options=options)
    bound = -np.inf if done.mip_dual_bound is None else float(done.mip_dual_bound)
    return None if done.x is None else np.round(done.x).astype(np.int64), bound, done.status == 2


def _holds(sizes: Floats, cuts: Counts, stock: Floats) -> bool:
    """Whether whole-number counts keep to the spools, to a hundredth of a millimetre."""
    return bool(np.all(sizes @ cuts <= stock + 0.01))
