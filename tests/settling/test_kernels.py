"""Compiled loops on tiny cases with known answers, compiled and as the plain Python they are written in.

`make coverage` runs this file once more without a compiler, so that every line of the loops counts. Answers: exact
mathematics of points, segments and circles; scipy for nearest points.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import minimize

from fidpath.checking import crossings
from fidpath.checking import depth_kernels as checks
from fidpath.errors import CannotBeMade
from fidpath.geometry.seat import clearance, seat_of
from fidpath.job.job import Terminator
from fidpath.machine.compiled import as_written
from fidpath.planning.planner import make_plan
from fidpath.settling import contact_kernels as kernels
from fidpath.settling import neighbour_kernels as listing
from fidpath.settling import thin_start as start
from jobs import a_job
from shapes import push_out
from terminators import a_shackle, a_terminator

RING = a_terminator("ring", 40.0, 12.0, 5.0)
PIN = a_terminator("pin", 40.0, 12.0)
TEARDROP = a_terminator("teardrop", 40.0, 12.0, 5.0, length=70.0, nose=4.0)
BOW = a_shackle("bow")

coordinate = some.floats(-5, 5, allow_subnormal=False)
point = some.tuples(coordinate, coordinate, coordinate).map(np.array)


def both(kernel: Callable[..., Any]) -> list[Callable[..., Any]]:
    """A kernel compiled, and as plain Python."""
    return [kernel, getattr(kernel, "py_func", kernel)]


@given(p=point, q=point, r=point, s=point)
def test_nearest_points_of_segments_are_scipys(p: Any, q: Any, r: Any, s: Any) -> None:
    if min(np.linalg.norm(q - p), np.linalg.norm(s - r)) < 0.1:
        return
    square = lambda t: float(((p + t[0] * (q - p) - r - t[1] * (s - r)) ** 2).sum())  # noqa: E731
    starts = [(0, 0), (0, 1), (1, 0), (1, 1), (0.5, 0.5)]
    best = min(minimize(square, begin, bounds=[(0, 1), (0, 1)]).fun for begin in starts)
    for kernel in both(kernels.closest):
        x, y, squared = kernel(np.array([p, q, r, s]), 0, 2)
        assert 0 <= x <= 1 and 0 <= y <= 1
        assert squared == pytest.approx(square((x, y)), abs=1e-9)
        assert squared == pytest.approx(best, abs=1e-5)


@pytest.mark.parametrize("begin", [(0.0, 2.0), (3.0, 4.0), (-4.0, -3.0)])
def test_parallel_segments_are_as_far_apart_as_their_lines_or_their_ends(begin: tuple[float, float]) -> None:
    low, high = begin
    p, q, r, s = np.array([0.0, 0, 0]), np.array([2.0, 0, 0]), np.array([low, 1.0, 0]), np.array([high, 1.0, 0])
    gap = max(low - 2, 0 - high, 0)
    for kernel in both(kernels.closest):
        assert kernel(np.array([p, q, r, s]), 0, 2)[2] == pytest.approx(1 + gap**2)


def crossed(height: float) -> tuple[Any, Any, Any]:
    """Two straight strands of five nodes that cross at right angles, `height` apart: nodes, strand, column."""
    along = np.linspace(-2.5, 1.5, 5)
    zero = np.zeros(5)
    x = np.concatenate([np.column_stack([along, zero, zero]), np.column_stack([zero, along, zero + height])])
    strand = np.array([0, 0, 0, 0, -1, 1, 1, 1, 1, -1])
    return x, strand, np.tile(np.arange(5), 2)


def unseen(pairs: int) -> Any:
    """What near_pairs knows of so many pairs that it hasn't looked at."""
    return np.full(pairs, -np.inf)


def plain_neighbours(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every loop of the listing as it was written."""
    for name in ("_side", "_lay_grid", "_middle", "_place", "_fill_cells", "_sort", "_list_pairs", "list_neighbours"):
        monkeypatch.setattr(listing, name, as_written(getattr(listing, name)))
    for name in ("closest", "squared_distance"):
        monkeypatch.setattr(listing, name, as_written(getattr(kernels, name)))


@pytest.mark.parametrize("plain", [False, True])
def test_neighbours_are_all_pairs_within_reach(plain: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    if plain:
        plain_neighbours(monkeypatch)
    x, strand, column = crossed(0.5)
    thick = np.ones(10)
    found = {tuple(pair) for pair in listing.neighbours(x, strand, np.ones(10, int), thick, 0.3).tolist()}
    wanted = set()
    for i in range(9):
        for j in range(i + 1, 9):
            if strand[i] < 0 or strand[j] < 0 or (strand[i] == strand[j] and abs(column[i] - column[j]) <= 1):
                continue
            if both(kernels.closest)[1](x, i, j)[2] <= 1.3**2:
                wanted.add((i, j))
    assert found == wanted and len(wanted) > 4


def test_touching_segments_are_pushed_apart_and_only_they() -> None:
    for near, push in zip(both(kernels.near_pairs), both(kernels.push_apart), strict=True):
        x, _, _ = crossed(0.4)
        pairs = np.array([[2, 7], [1, 6], [0, 5]])
        active, out = np.empty(3, np.int64), np.zeros(2)
        count = near(x, pairs, np.ones(10), 0.1, unseen(3), 0.0, active, out)
        assert set(active[:count]) == {0, 1}
        assert out == pytest.approx([0.4, 0.6])
        middle = x.mean(axis=0)
        push(x, pairs, active, 1, np.ones(10))
        assert both(kernels.closest)[1](x, 2, 7)[2] == pytest.approx(1)
        assert x.mean(axis=0) == pytest.approx(middle)
        same = x.copy()
        push(x, pairs, active, 1, np.ones(10))
        assert x == pytest.approx(same)
    for near in both(kernels.near_pairs):
        x, _, _ = crossed(9.0)
        assert near(x, pairs, np.ones(10), 0.1, unseen(3), 0.0, np.empty(3, np.int64), out) == 0
        assert out[0] > 1e100


def test_pairs_that_are_skipped_could_not_have_touched() -> None:
    rng = np.random.default_rng(11)
    x = rng.uniform(0, 4, (60, 3))
    pairs = np.array([(i, j) for i in range(0, 59, 2) for j in range(i + 2, 59, 2)])
    thick, margin = np.full(60, 0.3), 0.1
    for near, worst in zip(both(kernels.near_pairs), both(kernels.worst_overlap), strict=True):
        apart_until, closed, skipped = unseen(len(pairs)), 0.0, 0
        for _ in range(40):
            (active, out), (active_of_all, out_of_all) = ((np.empty(len(pairs), np.int64), np.zeros(2)) for _ in "ab")
            skipped += int((apart_until > margin + closed).sum())
            count = near(x, pairs, thick, margin, apart_until, closed, active, out)
            count_of_all = near(x, pairs, thick, margin, unseen(len(pairs)), 0.0, active_of_all, out_of_all)
            assert active[:count].tolist() == active_of_all[:count_of_all].tolist()
            assert out.tolist() == out_of_all.tolist()
            ignore = np.zeros(60, bool)
            of_all = worst(x, pairs, thick, unseen(len(pairs)), 0.0, ignore)
            assert worst(x, pairs, thick, apart_until, closed, ignore) == of_all
            move, grown = rng.uniform(-0.03, 0.03, x.shape), 1.004
            closed += 2 * np.linalg.norm(move, axis=1).max() + (grown - 1) * thick.max() + 1e-9
            x, thick = x + move, thick * grown
        assert skipped > 20 * len(pairs)


def test_worst_overlap_leaves_out_what_it_is_told_to() -> None:
    x, _, _ = crossed(0.4)
    pairs = np.array([[2, 7]])
    for kernel in both(kernels.worst_overlap):
        assert kernel(x, pairs, np.ones(10), unseen(1), 0.0, np.zeros(10, bool)) == pytest.approx(0.6)
        assert kernel(x, pairs, np.ones(10), unseen(1), 0.0, np.arange(10) == 7) == 0.0


def test_relaxing_smooths_displacement_and_brings_lengths_back() -> None:
    for kernel in both(kernels.relax):
        laid = np.column_stack([np.arange(9.0), np.zeros(9), np.zeros(9)])
        x = laid.copy()
        x[4, 1] = 0.8
        rest = np.ones(9)
        for _ in range(200):
            kernel(x, laid, np.array([0, 9]), rest, 0.5, 2)
        assert np.abs(x[:, 1]).max() < 0.02
        assert np.linalg.norm(np.diff(x, axis=0), axis=1) == pytest.approx(1, abs=1e-3)
        assert x[:2] == pytest.approx(laid[:2])


def test_a_move_is_cut_to_the_most_allowed() -> None:
    for kernel in both(kernels.hold_back):
        before = np.zeros((2, 3))
        x = np.array([[3.0, 4.0, 0.0], [0.0, 0.1, 0.0]])
        assert kernel(x, before, 1.0) == pytest.approx(1.0)
        assert x == pytest.approx(np.array([[0.6, 0.8, 0.0], [0.0, 0.1, 0.0]]))


@pytest.mark.parametrize("terminator", [RING, PIN, TEARDROP, BOW], ids=lambda t: t.kind)
def test_nodes_are_moved_out_of_the_terminator_and_no_further(terminator: Terminator) -> None:
    seat = seat_of(terminator)
    row = np.array([seat.crown, seat.nose, seat.reach, seat.groove, seat.lip, seat.half_width])
    rng = np.random.default_rng(4)
    points = rng.uniform([-70, -28, -9], [28, 28, 9], (300, 3))
    points[0] = [seat.crown + seat.groove, 0.0, 0.0]
    shallow = clearance(seat, points) > -1.0
    for kernel in both(kernels.keep_out):
        moved = points.copy()
        kernel(moved, row, np.zeros(3), np.full(300, 2.0))
        clear, was = clearance(seat, moved), clearance(seat, points)
        assert moved[was >= 1.0] == pytest.approx(points[was >= 1.0])
        assert (clear[shallow & (np.abs(points[:, 2]) < 2)] > 0.99).all()
        assert np.linalg.norm(moved - points, axis=1) == pytest.approx(np.maximum(1.0 - was, 0))
    aside = push_out(seat, points, 1.0)
    assert aside == pytest.approx(moved, abs=1e-9)
    assert push_out(seat, points + 1000.0, 1.0) == pytest.approx(points + 1000.0)


def test_nodes_are_moved_out_of_a_rod_with_a_point() -> None:
    rod = np.array([[0.0, 0, 0, 0, 0, 1, 2.0, 0.2, 6.0, 20.0]])
    x = np.array([[0.5, 0, -10.0], [0.1, 0, -1.0], [0.5, 0, 1.0], [0.5, 0, -30.0], [5.0, 0, -10.0], [0, 0, -10.0]])
    for kernel in both(kernels.keep_out_of_rods):
        moved = x.copy()
        kernel(moved, rod, np.ones(6), 1.0)
        assert moved[0] == pytest.approx([2.5, 0, -10.0])
        assert moved[1] == pytest.approx([0.2 + 1.8 / 6 + 0.5, 0, -1.0])
        assert moved[2:] == pytest.approx(x[2:])


def square(size: float) -> Any:
    return size * np.array([[1.0, 1, 0], [-1.0, 1, 0], [-1.0, -1, 0], [1.0, -1, 0]])


def test_depth_below_a_sections_edge_is_measured_along_the_ray() -> None:
    up = np.array([0.0, 0.0, 1.0])
    for kernel in both(checks.inward):
        assert kernel(0.5, 0.0, 0.0, up, square(1), square(1), 0.0) == pytest.approx(0.5)
        assert kernel(1.2, 0.0, 0.0, up, square(1), square(1), 0.0) == 0.0
        assert kernel(1.2, 0.0, 0.0, up, square(1), square(2), 0.5) == pytest.approx(0.3)
        assert kernel(0.0, 0.0, 0.0, up, square(1), square(1), 0.0) == 0.0


@pytest.mark.parametrize("plain", [False, True])
def test_vertices_of_one_strand_inside_another_are_found_with_their_depth(
    plain: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    if plain:
        for name in ("depths", "between", "enter", "inward", "sector", "side"):
            monkeypatch.setattr(checks, name, both(getattr(checks, name))[1])
    centres = np.array([[0.0, 0, 0], [0, 0, 2.0], [1.5, 0, 1.0], [9.0, 9, 1.0]])
    up = np.tile([0.0, 0.0, 1.0], (4, 1))
    offsets = np.stack([square(1.0)] * 4)
    rings = centres[:, None] + offsets
    found = np.zeros((4, 4))
    middle = np.tile([0.0, 0.0, 1.0], (4, 1))
    ball = np.array([3.0, -2.0, -2.0, -2.0])
    reach = np.full(4, 2.0)
    strand = np.array([0, 0, 1, 2])
    grid = (np.array([0, 4]), np.arange(4), np.zeros(4, np.int64), np.ones(3, np.int64))
    checks.depths(found, rings, centres, offsets, up, middle, ball, reach, strand, np.zeros(4), np.ones(4), *grid)
    assert found[2] == pytest.approx([0.0, np.hypot(0.5, 1) * (1 / 1 - 1), 0.0, 0.0], abs=1e-12)
    assert found[[0, 1, 3]] == pytest.approx(0.0)
    rings[2, :, 1] *= 0.5
    checks.depths(found, rings, centres, offsets, up, middle, ball, reach, strand, np.zeros(4), np.ones(4), *grid)
    assert found[2] == pytest.approx([0.0, np.hypot(0.5, 0.5), np.hypot(0.5, 0.5), 0.0])


@pytest.mark.parametrize("plain", [False, True])
def test_signs_of_crossings_turn_with_the_one_on_top(plain: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    if plain:
        monkeypatch.setattr(crossings, "_find", both(crossings._find)[1])
    along = np.linspace(-2.2, 2, 6)
    zero = np.zeros(6)
    for height, sign in ((1.0, -1), (-1.0, 1)):
        points = np.stack([np.column_stack([along, zero, zero]), np.column_stack([zero, along, zero + height])])
        block = np.zeros(5, np.int64)
        found = crossings.signed_crossings(points, np.array([6, 6]), (0.0, 0.0, 1.0), block)
        assert found.tolist() == [[0, 1, sign]]
        assert len(crossings.signed_crossings(points, np.array([6, 6]), (0.0, 1.0, 0.01), block)) <= 1
    rng = np.random.default_rng(8)
    tangle = rng.uniform(-1, 1, (3, 40, 3))
    found = crossings.signed_crossings(tangle, np.array([40, 40, 30]), (0.1, 0.2, 1.0), np.zeros(39, np.int64))
    assert len(found) > 4 * (39 + 39 + 29)


def test_a_start_that_is_not_clear_is_refused() -> None:
    with pytest.raises(CannotBeMade, match="threaded clear") as refused:
        start._clearest([])
    assert refused.value.key == "rope.pitch"


def test_plans_that_cannot_be_made_say_why() -> None:
    with pytest.raises(CannotBeMade, match="throat angle of 150 degrees leaves no leg"):
        make_plan(a_job(throat=150.0))
    with pytest.raises(CannotBeMade, match="too short for the terminator"):
        make_plan(a_job(eye_length=20.0))


def test_many_neighbours_are_all_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    """All of 90 short segments in one small box are neighbours: more pairs than there was room for at first."""
    x = np.random.default_rng(3).uniform(0, 0.2, (180, 3))
    x[1::2] = x[::2] + 0.01
    strand = np.where(np.arange(180) % 2 == 0, np.arange(180), -1)
    assert 16 * len(x) < 90 * 89 // 2
    for plain in (False, True):
        if plain:
            plain_neighbours(monkeypatch)
        pairs = listing.neighbours(x, strand, np.zeros(180, int), np.ones(180), 1.0)
        assert len({tuple(pair) for pair in pairs.tolist()}) == len(pairs) == 90 * 89 // 2


def test_a_node_at_the_very_middle_of_a_groove_goes_straight_out() -> None:
    row = np.array([20.0, 20.0, 0.0, 5.0, 5.0, 6.0])
    for kernel in both(kernels.keep_out):
        x = np.array([[25.0 - 1e-11, 0.0, 0.0]])
        kernel(x, row, np.zeros(3), np.full(1, 12.0))
        assert x[0] == pytest.approx([26.0, 0.0, 0.0])
