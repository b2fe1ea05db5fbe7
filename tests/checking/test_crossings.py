"""Strands passed through one another are counted, where it happened."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from broken_strands import Case, Floats, bump, moved_strands, plain_rope
from fidpath.checking import SolverLog
from fidpath.checking.crossings import VIEWS, blocks_of, crossings_changed, passages, signed_crossings
from fidpath.checking.overlap import overlap
from fidpath.geometry.strands import Strands
from fidpath.settling import settle


def _exchanged(strands: Strands, crossing: int) -> Floats:
    """Strands 0 and 1 of plain rope passed through each other at one of their crossings, half a pitch apart."""
    braid, points = strands.braid, strands.points.copy()
    share = bump(strands.station, crossing * braid.pitch / 2, 1.4 * braid.pick)
    for k in (0, 1):
        radius = np.linalg.norm(points[k, :, 1:], axis=1)
        points[k, :, 1:] *= (1 + 2 * share * (braid.radius - radius) / radius)[:, None]
    return points


def test_control_without_ramp_and_guard_tunnels_and_is_caught(case: Case) -> None:
    wild = settle(case.draft, guarded=False)
    failed = case.failed(wild.strands, log=SolverLog(wild.log.certificate_min, 1.0))
    assert overlap(wild.strands).max <= 0.02, "it looks settled"
    assert failed["crossings_changed"]["value"] > 10
    assert "certificate_min" in failed


def test_strands_passed_through_each_other_are_counted_where_it_happened(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    # where a pair meets on the border of two short lengths the place isn't known: here it lies well within one
    pair, column = _nearest_pair(s, int(np.searchsorted(s.station, s.bury.host[0] - 90.0)))
    through = 2.0 * (s.points[pair[1], column] - s.points[pair[0], column])
    broken = moved_strands(s, pair[0], bump(s.station, s.station[column], 8.0)[:, None] * through)
    failed = case.failed(broken)
    assert failed["crossings_changed"]["value"] >= 1
    assert failed["crossings_changed"]["where_mm"] == pytest.approx(s.station[column], abs=20.0)


def _nearest_pair(strands: Strands, column: int) -> tuple[tuple[int, int], int]:
    """The two strands that come nearest within half a diameter of a column, and the column where they do."""
    best = (np.inf, (0, 0), column)
    for at in range(column - 4, column + 5):
        gaps = np.linalg.norm(strands.points[:, None, at] - strands.points[None, :, at], axis=2)
        np.fill_diagonal(gaps, np.inf)
        a, b = np.unravel_index(int(np.argmin(gaps)), gaps.shape)
        best = min(best, (float(gaps[a, b]), (int(a), int(b)), at))
    return best[1], best[2]


def test_one_exchange_in_plain_rope_counts_once() -> None:
    rope = plain_rope()
    assert crossings_changed(rope.points, rope) == 0
    assert crossings_changed(rope.points, replace(rope, points=_exchanged(rope, 1))) == 1


def test_two_exchanges_that_cancel_in_the_pair_are_found_all_the_same() -> None:
    rope = plain_rope()
    once = replace(rope, points=_exchanged(rope, 1))
    broken = replace(rope, points=_exchanged(once, 2))
    assert _signed(broken)[0, 1] == _signed(rope)[0, 1], "the pair's own count can't tell"
    number, station = passages(rope.points, broken)
    assert number == 2
    assert station is not None and 20.0 < station < 85.0


def _signed(strands: Strands, view: tuple[float, float, float] = VIEWS[0]) -> NDArray[np.int64]:
    """Signed crossings of whole strands in one view, `(strands, strands) int`."""
    block = np.zeros_like(blocks_of(strands))
    found = np.zeros((len(strands.count),) * 2, dtype=np.int64)
    a, b, sign = signed_crossings(strands.points, strands.count, view, block).T
    np.add.at(found, (a, b), sign)
    return found


def test_free_end_moved_over_a_neighbour_is_no_passage() -> None:
    rope = plain_rope()
    end = 70.0
    count = rope.count.copy()
    count[0] = int(np.searchsorted(rope.station, end))
    cut = replace(rope, count=count)
    over = np.clip((rope.station - end + 12.0) / 12.0, 0, 1)[:, None] * np.array([0.0, 5.0, 3.0])
    moved = moved_strands(cut, 0, over)
    assert any((_signed(cut, view) != _signed(moved, view)).any() for view in VIEWS), "it does pass over in some view"
    assert crossings_changed(cut.points, moved) == 0
