"""Draft and settling: a clear start, a certificate, no strand through another, and the control that must fail."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.planning.planner import make_plan
from fidpath.settling import neighbours, settle, worst_overlap
from fidpath.settling.flat import flatten
from fidpath.settling.thin_start import ENOUGH, clearance, clearest
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from jobs import a_job

SHORT = {"bury": 15.0, "bearing": 3.0}


@pytest.fixture(scope="module")
def start():  # type: ignore[no-untyped-def]
    return clearest(state_of(make_plan(a_job(**SHORT)), "buried"))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def settled(start):  # type: ignore[no-untyped-def]
    return settle(start)


def _overlap(strands, start, thick=1.0):  # type: ignore[no-untyped-def]
    flat = flatten(start, strands)
    pairs = neighbours(flat.x, flat.strand, flat.gap, flat.thick * thick, 0.0)
    return worst_overlap(flat.x, pairs, flat.thick * thick, np.full(len(pairs), -np.inf), 0.0, flat.ignore)


def test_columns_are_evenly_spaced_and_hold_h1() -> None:
    station = draft_of(state_of(make_plan(a_job()), "buried")).laid.station
    assert np.ptp(np.diff(station)) < 1e-9
    assert np.diff(station)[0] <= 0.15 * 10.0
    assert np.abs(station).min() < 1e-9


def test_legs_share_an_axis_in_the_bury_and_cross_at_the_holes() -> None:
    laid = draft_of(state_of(make_plan(a_job()), "buried")).laid
    assert laid.bury is not None
    deep = laid.station < laid.bury.host[0] - 20.0
    assert np.abs(laid.axis[deep, 1]).max() < 1e-6
    for hole in laid.holes:
        host, guest = (
            np.array([np.interp(at, laid.station, laid.axis[:, c]) for c in range(3)]) for at in (hole.host, hole.guest)
        )
        assert host == pytest.approx(guest, abs=0.02)


def test_start_is_clear_and_laid_shape_is_not(start) -> None:  # type: ignore[no-untyped-def]
    assert clearance(start) >= ENOUGH
    assert _overlap(start.laid.points, start) > 0.5


def test_settled_strands_touch_without_overlap(settled, start) -> None:  # type: ignore[no-untyped-def]
    assert _overlap(settled.strands.points, start) <= 0.02
    assert _overlap(settled.strands.points, start, thick=1.1) > 0.05


def test_guard_certifies_that_nothing_tunnelled(settled) -> None:  # type: ignore[no-untyped-def]
    assert settled.log.certificate_min >= 0.6


def test_settling_leaves_plain_rope_where_it_was(settled, start) -> None:  # type: ignore[no-untyped-def]
    plain = settled.strands.station < settled.strands.bury.host[1] - 50.0
    moved = settled.strands.points[:, plain] - start.laid.points[:, plain]
    assert np.linalg.norm(moved, axis=2).max() < 0.02 * 10.0


def test_same_job_settles_to_the_same_bits(settled, start) -> None:  # type: ignore[no-untyped-def]
    again = settle(start)
    assert np.array_equal(again.strands.points, settled.strands.points)


def test_without_ramp_and_guard_the_certificate_is_gone(start) -> None:  # type: ignore[no-untyped-def]
    assert settle(start, guarded=False).log.certificate_min < 0


def test_eye_stays_out_of_the_terminator(settled) -> None:  # type: ignore[no-untyped-def]
    from fidpath.geometry.seat import clearance as off

    s = settled.strands
    gap = off(s.seat, s.points[:, : s.count.min()].reshape(-1, 3) - s.seat_centre)
    assert gap.min() >= 0.45 * s.braid.thickness
