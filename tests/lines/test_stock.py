"""Cutting from spools: the least left over, checked by trying everything; and what is said where it isn't proved."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.lines import bin_packing as packing
from fidpath.lines import stock
from fidpath.lines.bin_packing import least_subset
from fidpath.lines.stock import allocate


def brute(pieces: tuple[float, ...], spools: tuple[float, ...]) -> float | None:
    """The least left over on the spools begun, by trying every way; None where not all fit."""
    best = None
    for way in itertools.product(range(len(spools)), repeat=len(pieces)):
        room = list(spools)
        for piece, spool in zip(pieces, way, strict=True):
            room[spool] -= piece
        if min(room) >= -1e-9:
            left = sum(spools[j] for j in set(way)) - sum(pieces)
            best = left if best is None else min(best, left)
    return best


def placed(pieces: tuple[float, ...], spools: tuple[float, ...], spool_of: tuple[int | None, ...]) -> float:
    """Left over on the spools begun, checking that none is cut beyond its length."""
    room = list(spools)
    for piece, spool in zip(pieces, spool_of, strict=True):
        if spool is not None:
            room[spool] -= piece
    assert min(room) >= -1e-6
    return sum(room[spool] for spool in {s for s in spool_of if s is not None})


LENGTHS = st.integers(1000, 20000).map(float)
STOCK = st.integers(8000, 40000).map(float)


@given(st.lists(LENGTHS, min_size=1, max_size=6), st.lists(STOCK, min_size=1, max_size=4))
@settings(max_examples=60, deadline=None)
def test_against_brute_force(pieces: list[float], spools: list[float]) -> None:
    cuts, rolls = tuple(pieces), tuple(spools)
    found, best = allocate(cuts, rolls), brute(cuts, rolls)
    assert placed(cuts, rolls, found.spool_of) == pytest.approx(found.left_over)
    if best is None:
        assert found.unplaced
    else:
        assert not found.unplaced
        assert found.optimal
        assert found.left_over == pytest.approx(best)


@given(st.lists(LENGTHS, min_size=1, max_size=6), st.lists(STOCK, min_size=1, max_size=3))
@settings(max_examples=40, deadline=None)
def test_the_search_alone_against_brute_force(pieces: list[float], spools: list[float]) -> None:
    """HiGHS without the quick start, so that it is tested too."""
    sizes, demand = stock._sizes(tuple(pieces))
    rolls = np.array(sorted(spools, reverse=True))
    needed = float((sizes * demand).sum())
    cuts, _, impossible = stock._solve(sizes, demand, rolls, needed, 10.0)
    best = brute(tuple(pieces), tuple(rolls))
    if best is None:
        assert cuts is None and impossible
    else:
        assert cuts is not None
        assert float(rolls[cuts.sum(axis=0) > 0].sum()) - needed == pytest.approx(best)


def test_where_not_all_fit_the_most_rope_is_placed() -> None:
    found = allocate((9000.0, 8000.0, 7000.0), (15000.0,))
    assert [found.spool_of[i] for i in (0, 1, 2)] == [None, 0, 0]
    assert found.unplaced == (0,)


def test_a_piece_longer_than_any_spool() -> None:
    found = allocate((50000.0, 5000.0), (20000.0, 10000.0))
    assert found.spool_of == (None, 1)
    assert found.left_over == 5000.0


def test_no_spools_or_no_pieces() -> None:
    assert allocate((5.0,), ()).unplaced == (0,)
    assert allocate((), (5.0,)).left_over == 0.0


def test_a_short_search_says_its_gap(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twelve pieces that fill four spools only in one way, and no time to find it."""
    monkeypatch.setattr(packing, "TRIES", 0)
    rng = np.random.default_rng(5)
    parts = rng.multinomial(100000, [0.31, 0.27, 0.23, 0.19], 8)
    pieces = tuple(float(x) for x in parts.ravel())
    spools = (*(100000.0,) * 8, 60000.0)
    found = allocate(pieces, spools, seconds=0.01)
    if found.unplaced:
        pytest.skip("the search was quicker than its time")
    assert placed(pieces, spools, found.spool_of) == pytest.approx(found.left_over)
    assert found.left_over - found.bound == pytest.approx(found.gap * (sum(pieces) + found.left_over))


def test_no_set_of_spools_is_shorter_than_the_bound() -> None:
    rng = np.random.default_rng(9)
    for _ in range(50):
        rolls = rng.integers(5000, 30000, 7).astype(float)
        needed = float(rng.uniform(4000, rolls.sum()))
        sets = [sum(c) for n in range(1, 8) for c in itertools.combinations(rolls, n)]
        least = min(total for total in sets if total >= needed)
        assert least_subset(needed - 0.5 * 7, rolls - 0.5) <= least
        assert least_subset(needed, rolls) <= least <= least_subset(needed, rolls) + 1e-9


@given(st.lists(st.integers(1, 40), min_size=1, max_size=9), st.integers(1, 120))
@settings(max_examples=80, deadline=None)
def test_a_spool_is_filled_as_full_as_its_pieces_can(lengths: list[int], room: int) -> None:
    sums = [sum(c) for n in range(len(lengths) + 1) for c in itertools.combinations(lengths, n)]
    taken = packing._fullest(lengths, room)
    assert len(set(taken)) == len(taken)
    assert sum(lengths[index] for index in taken) == max(total for total in sums if total <= room)


def test_the_quick_start_cuts_every_piece_once_and_no_spool_too_far() -> None:
    rng = np.random.default_rng(11)
    pieces = rng.integers(4000, 20000, 60).astype(float)
    rolls = np.sort(rng.integers(100000, 200000, 12).astype(float))[::-1]
    sizes, demand = stock._sizes(tuple(pieces))
    cuts = packing.packed(sizes, demand, rolls)
    assert cuts is not None
    assert (cuts.sum(axis=1) == demand).all()
    assert (sizes @ cuts <= rolls).all()
    needed = float(pieces.sum())
    assert float(rolls[cuts.sum(axis=0) > 0].sum()) == least_subset(needed, rolls)
