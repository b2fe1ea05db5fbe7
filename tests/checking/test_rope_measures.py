"""Split, order, bury, lengths and take-up: each fails, in the right place, on a splice broken on purpose."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from broken_strands import Case, bump, moved_strands, strands_of
from fidpath.checking import rope_measures
from fidpath.geometry.braid import Braid, braid_of, straight
from fidpath.geometry.strands import Bury, Strands
from jobs import a_job


def _reflected(strands: Strands, which: int, at: float) -> Strands:
    """One strand taken to the other side of the eye's plane round a station."""
    points = strands.points.copy()
    points[which, :, 2] *= 1 - 2 * bump(strands.station, at, 18.0) ** 0.2
    return replace(strands, points=points)


@pytest.mark.parametrize("name", ["H1", "H2"])
def test_host_strand_on_the_wrong_side_splits_five_to_seven(case: Case, name: str) -> None:
    hole = next(hole for hole in case.strands.holes if hole.name == name)
    over = int(np.argmax(rope_measures.sides(case.strands, hole).sum(axis=1)))
    failed = case.failed(_reflected(case.strands, over, hole.host))
    assert sorted(failed[f"split at {name}"]["value"]) == [5, 7]
    assert failed[f"split at {name}"]["where_mm"] == pytest.approx(hole.host)


def test_guest_strand_outside_its_hole_is_told(case: Case) -> None:
    hole = case.strands.holes[0]
    outside = bump(case.strands.station, hole.guest, 18.0)[:, None] * np.array([0.0, 0.0, 14.0])
    _, agreed = rope_measures.split(moved_strands(case.strands, 4, outside), hole)
    assert not agreed
    assert "split_agreed" in case.failed(moved_strands(case.strands, 4, outside))
    assert rope_measures.split(case.strands, hole) == ([6, 6], True)


def test_holes_exchanged_are_out_of_order_though_their_split_is_even(case: Case) -> None:
    h1, h2 = case.strands.holes
    exchanged = replace(case.strands, holes=(replace(h1, name="H2"), replace(h2, name="H1")))
    found = case.report(exchanged)
    assert found["order_from_eye"] == ["H2", "H1", "bury"]
    assert found["split"] == {"H1": [6, 6], "H2": [6, 6]}
    assert "order_from_eye" in [failure["check"] for failure in found["failures"]]


def test_tail_outside_its_cover_is_found_where_it_comes_out(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    out = s.bury.guest[0] + 120.0
    loop = bump(s.station, out, 15.0)[:, None] * np.array([0.0, 11.0, 0.0])
    failed = case.failed(moved_strands(s, slice(None), loop))
    assert failed["tail_enclosed"]["where_mm"] == pytest.approx(out, abs=15.0)


def test_single_tail_strand_through_the_cover_is_found(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.guest[0] + 80.0
    column = int(np.searchsorted(s.station, at))
    away = s.points[3, column] * np.array([0.0, 1.0, 1.0])
    away *= 12.0 / np.linalg.norm(away)
    exposed = rope_measures.exposed_tail(moved_strands(s, 3, bump(s.station, at, 6.0)[:, None] * away))
    assert len(exposed) > 0
    assert np.abs(exposed - at).max() < 6.0


def test_cover_gathered_on_one_side_does_not_surround_its_tail(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 120.0
    share = bump(s.station, at, 20.0) ** 0.2
    points = s.points.copy()
    points[..., 1] += share * (np.abs(points[..., 1]) - points[..., 1])
    failed = case.failed(replace(s, points=points))
    assert "tail_enclosed" in failed


def test_cover_parted_by_a_gap_does_not_surround_its_tail(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 120.0
    share = bump(s.station, at, 20.0) ** 0.2
    closed, wide = 1 - share / 3, 1 + share
    radius = wide * np.hypot(s.points[..., 1], s.points[..., 2])
    angle = np.arctan2(s.points[..., 2], s.points[..., 1])
    points = np.stack([s.points[..., 0], radius * np.cos(closed * angle), radius * np.sin(closed * angle)], axis=-1)
    assert len(rope_measures.exposed_tail(replace(s, points=points))) > 3


def test_cover_shrunk_onto_its_tail_overlaps_there(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 100.0
    points = s.points.copy()
    points[..., 1:] *= 1 - 0.15 * bump(s.station, at, 30.0)[:, None]
    failed = case.failed(replace(s, points=points))
    assert failed["overlap_max"]["value"] > 0.1
    assert failed["overlap_p99"]["value"] > 0.01
    assert failed["overlap_max"]["where_mm"] == pytest.approx(at, abs=30.0)


def test_stretched_strand_is_found(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[1] - 35.0
    zigzag = 2.5 * (-1.0) ** np.arange(len(s.station)) * bump(s.station, at, 30.0)
    failed = case.failed(moved_strands(s, 2, zigzag[:, None] * np.array([0.0, 0.6, 0.8])))
    assert failed["strand_length_change_max"]["value"] > 0.02
    assert failed["strand_length_change_max"]["where_mm"] == pytest.approx(at, abs=30.0)


def test_length_change_of_plain_rope_is_none_and_of_a_stretched_one_its_stretch() -> None:
    braid = braid_of(a_job().rope)
    station = np.arange(120) * 1.25
    laid = straight(braid, station + braid.pick)
    assert np.abs(rope_measures.length_changes(strands_of(laid, braid, 1.25))).max() < 1e-12
    assert rope_measures.length_changes(strands_of(1.03 * laid, braid, 1.25)) == pytest.approx(0.03)


@pytest.mark.parametrize("stretch", [1.0, 1.04])
def test_take_up_of_wider_helices(stretch: float) -> None:
    """Helices that keep their length, wound out from R to R', shorten to sqrt(1 + (2 pi/P)^2 (R^2 - R'^2)): here 0.9.

    Scaled up as a whole, every strand has gained length: the rope it would make counts, not the rope there was.
    """
    pitch, radius = 70.0, 3.0
    braid = Braid(12, "over-one", 10.0, pitch, 1.0, radius, 0.0)
    station = np.arange(0, 300, 1.0)
    wide = np.sqrt(radius**2 + (1 - 0.9**2) * (pitch / (2 * np.pi)) ** 2)
    points = straight(replace(braid, radius=wide), station + braid.pick) * np.array([0.9, 1.0, 1.0])
    rope = strands_of(stretch * points, braid, 1.0, bury=Bury(host=(240.0, 60.0), guest=(0.0, 1.0)))
    window = 240.0 + 6.0 - (60.0 - 25.0)
    assert rope_measures.take_up(rope) == pytest.approx(0.1 * stretch * window, rel=2e-3)


def test_plan_with_another_take_up_is_contradicted(case: Case) -> None:
    failed = case.failed(planned_take_up=1.05 * case.plan.take_up)
    assert case.strands.bury is not None
    assert failed["take_up_error"]["where_mm"] == pytest.approx(case.strands.bury.host[0])


def test_without_a_bury_only_the_holes_are_in_order(laid: Strands) -> None:
    order = rope_measures.order_from_eye(laid)
    assert set(order) == {"H1", "H2", "bury"}
    assert rope_measures.order_from_eye(replace(laid, bury=None)) == [name for name in order if name != "bury"]
