"""Quick ways to fill spools, and the least they can be: a start for the search, and often its end.

Sums of lengths are kept as the bits of one whole number, a bit a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fidpath.arrays import Floats, Ints

Counts = Ints

TRIES = 40
"""Sets of spools tried, shortest first, before the search takes over."""


def least_subset(needed: float, stock: Floats) -> float:
    """A length that no set of spools holding `needed` mm together can be shorter than.

    Broken millimetres of a spool are left out of its sums, so the bound is looser by one for each such spool.
    """
    whole = [int(length) for length in stock]
    broken = int(np.count_nonzero(stock != np.array(whole)))
    least = max(0, int(np.ceil(needed - 1e-6)) - broken)
    above = _sums(whole)[-1] >> least
    return needed if above == 0 else max(needed, float(least + (above & -above).bit_length() - 1))


def packed(sizes: Floats, demand: Counts, stock: Floats) -> Counts | None:
    """Counts (sizes, spools) in a short set of spools, or None where none of those tried holds every piece."""
    for chosen in _subsets(float((sizes * demand).sum()), stock):
        cuts = np.zeros((len(sizes), len(stock)), dtype=np.int64)
        cuts[:, chosen] = _filled(sizes, demand, stock[chosen])
        if cuts.sum() == demand.sum():
            return cuts
    cuts = greedy(sizes, demand, stock)
    return cuts if cuts.sum() == demand.sum() else None


def greedy(sizes: Floats, demand: Counts, stock: Floats) -> Counts:
    """Longest pieces first, each into the first spool with room, leaving out what fits nowhere."""
    room, cuts = stock.copy(), np.zeros((len(sizes), len(stock)), dtype=np.int64)
    for row, size in enumerate(sizes):
        for _ in range(demand[row]):
            fits = np.flatnonzero(room >= size - 1e-9)
            if len(fits):
                cuts[row, fits[0]] += 1
                room[fits[0]] -= size
    return cuts


def _filled(sizes: Floats, demand: Counts, stock: Floats) -> Counts:
    """Each spool in turn, the shortest first, filled as full as what is left of the pieces can fill it."""
    left, cuts = demand.copy(), np.zeros((len(sizes), len(stock)), dtype=np.int64)
    for spool in np.argsort(stock, kind="stable"):
        rows = np.repeat(np.arange(len(sizes)), left)
        for taken in _fullest([int(np.ceil(sizes[row])) for row in rows], int(stock[spool])):
            cuts[rows[taken], spool] += 1
            left[rows[taken]] -= 1
    return cuts


def _sums(lengths: list[int], most: int | None = None) -> list[int]:
    """Sums that can be made of the first 0, 1, 2... lengths, as bits, up to `most`."""
    mask = -1 if most is None else (1 << (most + 1)) - 1
    sums = [1]
    for length in lengths:
        sums.append((sums[-1] | sums[-1] << length) & mask)
    return sums


def _fullest(lengths: list[int], room: int) -> list[int]:
    """Which of the lengths together fill the room best."""
    sums = _sums(lengths, room)
    return _made_of(lengths, sums, sums[-1].bit_length() - 1)


def _made_of(lengths: list[int], sums: list[int], total: int) -> list[int]:
    """Which of the lengths make a sum, the later ones left out where they can be."""
    taken = []
    for index in range(len(lengths) - 1, -1, -1):
        if not sums[index] >> total & 1:
            taken.append(index)
            total -= lengths[index]
    return taken


def _subsets(needed: float, stock: Floats) -> Iterator[list[int]]:
    """Sets of spools that hold `needed` mm, shortest first, one for each length."""
    lengths = [int(length) for length in stock]
    sums = _sums(lengths)
    at = int(np.ceil(needed))
    for _ in range(TRIES):
        above = sums[-1] >> at
        if not above:
            return
        at += (above & -above).bit_length() - 1
        yield sorted(_made_of(lengths, sums, at))
        at += 1
