"""Overlap of centre lines, and nearest places of segments."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broken_strands import plain_rope, straight_line, strands_of
from fidpath.checking.overlap import node_overlaps, overlap
from fidpath.checking.segments import apart, closest, segments_of
from fidpath.geometry.braid import braid_of
from jobs import a_job


def test_overlap_of_two_rods_side_by_side() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0)
    rods = np.stack([straight_line(120), straight_line(120) + np.array([0.1, 1.8, 0.0])])
    worst = overlap(strands_of(rods, braid, 0.5))
    assert worst.max == pytest.approx(0.1)
    assert worst.p99 == pytest.approx(0.1)


def test_overlap_at_the_models_own_cut_ends_is_left_out() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0)
    rods = np.stack([straight_line(120), straight_line(120) + np.array([0.1, 3.0, 0.0])])
    rods[1, :8, 1] = 1.0
    assert node_overlaps(strands_of(rods, braid, 0.5)).max() == pytest.approx(0.5)
    assert overlap(strands_of(rods, braid, 0.5)).max == 0.0


def test_strand_doubled_back_on_itself_overlaps_itself() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0, strands=1)
    turn = np.linspace(-np.pi / 2, np.pi / 2, 20)
    bend = np.column_stack([30 + 0.8 * np.cos(turn), 0.8 + 0.8 * np.sin(turn), np.zeros(20)])
    hairpin = np.concatenate([straight_line(60), bend, straight_line(60)[::-1] + np.array([0.0, 1.6, 0.0])])
    assert overlap(strands_of(hairpin[None], braid, 0.5)).max == pytest.approx(0.2)


def test_overlaps_agree_with_all_pairs_tried() -> None:
    rope = plain_rope(9.0)
    noise = np.random.default_rng(3).normal(size=rope.points.shape)
    rope = replace(rope, points=rope.points + 0.2 * noise)
    pieces = segments_of(rope)
    i, j = np.triu_indices(len(pieces.strand), 1)
    keep = apart(pieces, i, j, 15.0)
    i, j = i[keep], j[keep]
    x, y, distance = closest(pieces.start[i], pieces.end[i], pieces.start[j], pieces.end[j])
    expected = np.zeros(rope.points.shape[:2])
    depth = np.maximum(1 - distance / rope.braid.thickness, 0)
    np.maximum.at(expected, (pieces.strand[i], pieces.column[i] + (x > 0.5)), depth)
    np.maximum.at(expected, (pieces.strand[j], pieces.column[j] + (y > 0.5)), depth)
    assert expected.max() > 0.1
    assert node_overlaps(rope) == pytest.approx(expected, abs=1e-12)


def test_one_long_piece_hides_nothing() -> None:
    x = np.arange(300.0)
    x[150:] += 100.0
    long = np.column_stack([x, np.zeros(300), np.zeros(300)])
    other = np.column_stack([np.full(300, 240.0), np.arange(300.0) - 150.0, np.full(300, 0.5)])
    rods = strands_of(np.stack([long, other]), replace(braid_of(a_job().rope), thickness=2.0), 1.0)
    assert node_overlaps(rods)[1].max() == pytest.approx(0.75)


numbers = st.floats(-3, 3, allow_nan=False).map(lambda x: round(x, 3))


point = st.tuples(numbers, numbers, numbers)


@settings(max_examples=150, deadline=None)
@given(point, point, point, point)
def test_nearest_places_of_two_pieces_against_trying_them_all(p: Any, q: Any, r: Any, s: Any) -> None:
    a, b, c, d = (np.array([x]) for x in (p, q, r, s))
    x, y, distance = closest(a, b, c, d)
    assert 0 <= x[0] <= 1 and 0 <= y[0] <= 1
    there = np.linalg.norm(a + x[:, None] * (b - a) - c - y[:, None] * (d - c))
    assert distance[0] == pytest.approx(there, abs=1e-12)
    grid = np.linspace(0, 1, 201)[:, None]
    one, two = a + grid * (b - a), c + grid * (d - c)
    least = np.linalg.norm(one[:, None] - two[None], axis=2).min()
    assert distance[0] <= least + 1e-9
    assert least - distance[0] < 0.06
