"""Corners of axis, settling and check that whole splices seldom reach: what closes nowhere, what lies beside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from fidpath.checking import crossings, passes
from fidpath.checking import depth_kernels as checks
from fidpath.checking import layout as lay
from fidpath.geometry.bury import taper
from fidpath.geometry.rods import Rod
from fidpath.geometry.seat import seat_of
from fidpath.geometry.strands import Strands
from fidpath.job.job import Terminator
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import contact_kernels as kernels
from fidpath.settling import thin_start as start
from fidpath.states.closing import nearest
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from jobs import a_job


def both(kernel: Callable[..., Any]) -> list[Callable[..., Any]]:
    """A kernel compiled, and as plain Python."""
    return [kernel, getattr(kernel, "py_func", kernel)]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(a_job(d=8.0, bury=12.0))


@pytest.fixture(scope="module")
def laid(plan: Plan) -> Strands:
    return draft_of(state_of(plan, "buried")).laid


def test_a_shape_whose_lengths_would_all_be_too_short_closes_nowhere() -> None:
    with pytest.raises(ArithmeticError, match="no length within its bounds"):
        nearest(lambda x: np.array([x.sum() - 1.0]), np.array([3.0]), np.ones(1), np.array([2.0]))
    with pytest.raises(ArithmeticError):
        nearest(lambda x: np.array([x.sum() - 1.0]), np.array([3.0, 3.0]), np.ones(2), np.array([2.0, 2.0]))


def test_lengths_at_their_least_are_held_one_after_another() -> None:
    """x + y + z = 6 nearest to (9, -9, 2), y and z at least 1: y falls first, then z; by hand (4, 1, 1)."""
    least = np.array([-9.0, 1.0, 1.0])
    x = nearest(lambda x: np.array([x.sum() - 6.0]), np.array([9.0, -9.0, 2.0]), np.ones(3), least)
    assert x == pytest.approx([4.0, 1.0, 1.0], abs=1e-8)


def test_a_shallow_groove_wider_than_the_body_has_a_lip_of_its_own_depth() -> None:
    seat = seat_of(Terminator("ring", "ring", 40.0, 12.0, 10.0))
    assert (seat.crown, seat.lip) == pytest.approx((20.0, 10.0 - 8.0))
    assert seat_of(Terminator("ring", "ring", 40.0, 12.0, 5.0)).lip == 5.0


def test_a_taper_drops_two_strands_at_a_time_evenly_to_the_tip() -> None:
    cut = taper(12, 720.0, 1 / 3, 5, 10.0)
    assert cut.drops == pytest.approx((480.0, 528.0, 576.0, 624.0, 672.0))
    assert (cut.start, cut.tip, cut.stagger) == pytest.approx((480.0, 720.0, 5.0))
    blunt = taper(12, 720.0, 1 / 3, 0, 10.0)
    assert (blunt.drops, blunt.stagger) == ((720.0,), 0.0)


def test_only_vertices_between_the_sections_and_within_reach_are_measured() -> None:
    near = np.array([[1.0, 1, 0], [-1.0, 1, 0], [-1.0, -1, 0], [1.0, -1, 0]])
    centres = np.array([[0.0, 0, 0], [0, 0, 2.0]])
    offsets, normals = np.stack([near, near]), np.tile([0.0, 0.0, 1.0], (2, 1))
    ring = np.array([[0.5, 0, 1.0], [0.5, 0, -0.1], [0.5, 0, 2.1], [0.5, 0, 2.0], [0.0, 0.75, 0.0], [0.9, 0.9, 1.0]])
    for kernel in both(checks.enter):
        found = np.zeros((3, 6))
        kernel(found, 1, ring, 0, centres, offsets, normals, 1.2)
        assert found[1] == pytest.approx([0.5, 0, 0, 0, 0.25, 0])
        assert not found[[0, 2]].any()


def test_parallel_strands_do_not_cross(monkeypatch: pytest.MonkeyPatch) -> None:
    slope = np.column_stack([np.arange(3.0), np.arange(3.0), np.zeros(3)])
    points = np.stack([slope, slope + [0.5, 0.5, 1.0]])
    for kernel in both(crossings._find):
        monkeypatch.setattr(crossings, "_find", kernel)
        found = crossings.signed_crossings(points, np.array([3, 3]), (0.0, 0.0, 1.0), np.zeros(2, np.int64))
        assert len(found) == 0


def test_many_neighbours_are_all_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    """All of 90 short segments in one small box are neighbours: more pairs than there was room for at first."""
    x = np.random.default_rng(3).uniform(0, 0.2, (180, 3))
    x[1::2] = x[::2] + 0.01
    strand = np.where(np.arange(180) % 2 == 0, np.arange(180), -1)
    assert 16 * len(x) < 90 * 89 // 2
    for plain in (False, True):
        if plain:
            for name in ("_fill_cells", "_list_pairs", "closest"):
                monkeypatch.setattr(kernels, name, both(getattr(kernels, name))[1])
        pairs = kernels.neighbours(x, strand, np.zeros(180, int), np.zeros(180, int), np.ones(180), 1.0)
        assert len({tuple(pair) for pair in pairs.tolist()}) == len(pairs) == 90 * 89 // 2


def test_a_node_at_the_very_middle_of_a_groove_goes_straight_out() -> None:
    row = np.array([20.0, 20.0, 0.0, 5.0, 5.0, 6.0])
    for kernel in both(kernels.keep_out):
        x = np.array([[25.0 - 1e-11, 0.0, 0.0]])
        kernel(x, row, np.zeros(3), np.full(1, 12.0))
        assert x[0] == pytest.approx([26.0, 0.0, 0.0])


def test_the_clearest_of_poor_starts_is_taken_and_the_first_good_one_ends_the_search(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(start, "clearance", lambda draft: draft)
    low, high = start.LEAST * 1.2, start.LEAST * 1.4
    assert high < start.ENOUGH
    assert start._clearest([low, high, low]) == high  # type: ignore[list-item,comparison-overlap]
    asked: list[float] = []
    one_by_one = (asked.append(clear) or clear for clear in (low, start.ENOUGH, 9.0))  # type: ignore[func-returns-value]
    assert start._clearest(one_by_one) == start.ENOUGH  # type: ignore[arg-type,comparison-overlap]
    assert asked == [low, start.ENOUGH]


def test_without_a_bury_only_the_holes_are_in_order(laid: Strands) -> None:
    order = lay.order_from_eye(laid)
    assert set(order) == {"H1", "H2", "bury"}
    assert lay.order_from_eye(replace(laid, bury=None)) == [name for name in order if name != "bury"]


def test_a_fid_beside_the_rope_goes_through_nothing(laid: Strands) -> None:
    middle = np.interp(laid.bury.host[1], laid.station, lay.centre_line(laid)[:, 0]) if laid.bury else 0.0
    through = Rod((float(middle), 40.0, 0.0), (0.0, 1.0, 0.0), 3.0, 1.0, 10.0, 80.0)
    beside = replace(through, tip=(float(middle), 900.0, 0.0))
    found = passes.fids_found(replace(laid, rods=(beside, through)))
    assert len(found) == 1 and found == passes.fids_found(replace(laid, rods=(through,)))
    assert passes.fids_found(replace(laid, rods=(beside,))) == ()
