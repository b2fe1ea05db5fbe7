"""Drawn sections: flat, clipped so that nothing overlaps, clear of the terminator, each in a plane of its own."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.checking.drawn_overlap import drawn_overlap
from fidpath.geometry.seat import clearance
from fidpath.job.job import Weave
from fidpath.meshing.sections import (
    HALF_HEIGHT,
    HALF_WIDTH,
    INSET,
    SPREAD,
    Sections,
    middle,
    refined,
    refined_station,
    sections_of,
    spread,
)
from shapes import lone, plain, round_a_ring


def _away(sections: Sections) -> np.ndarray:
    return sections.rings - sections.centres[:, :, None, :]


def _line(y: float, n: int = 60, step: float = 1.3) -> np.ndarray:
    x = step * np.arange(n)
    return np.column_stack([x, np.full(n, y), np.zeros(n)])


@pytest.mark.parametrize(("strands", "weave"), [(12, "over-two"), (8, "over-one"), (16, "over-two")])
def test_drawn_strands_of_plain_rope_do_not_overlap(strands: int, weave: Weave) -> None:
    rope = plain(strands, weave)
    worst = drawn_overlap(rope, sections_of(rope))
    assert worst.max == 0.0


def test_the_overlap_check_sees_sections_drawn_too_large() -> None:
    rope = plain()
    made = sections_of(rope)
    swollen = replace(made, rings=made.centres[:, :, None, :] + 1.15 * _away(made))
    assert drawn_overlap(rope, swollen).max > 0.02


def test_every_vertex_is_nearest_to_its_own_centre_line() -> None:
    made = sections_of(plain(length=4.0))
    inner = slice(20, -20)
    vertices = made.rings[0, inner].reshape(-1, 3)
    off = np.linalg.norm(vertices[:, None, None] - made.centres[None, :, :, :], axis=3).min(axis=2)
    assert (off.argmin(axis=1) == 0).all()


def test_sections_lie_in_planes_across_their_strand() -> None:
    made = sections_of(round_a_ring())
    out_of_plane = np.einsum("knrc,knc->knr", _away(made), made.tangents)
    assert np.abs(out_of_plane).max() < 1e-9


def test_a_strand_alone_is_drawn_with_its_free_section() -> None:
    rope = lone([_line(0.0), _line(300.0)])
    made = sections_of(rope)
    high, wide = np.sort(np.abs(_away(made)[0, 30, :, 1:]).max(axis=0)) / rope.braid.thickness
    assert wide == pytest.approx(INSET * HALF_WIDTH, rel=0.005)
    assert high == pytest.approx(INSET * HALF_HEIGHT, rel=0.005)


def test_the_flat_side_faces_the_ropes_axis() -> None:
    rope = plain()
    made = sections_of(rope)
    radial = made.centres * [0.0, 1.0, 1.0]
    radial /= np.linalg.norm(radial, axis=2, keepdims=True)
    across = np.cross(made.tangents, radial)
    inner = slice(20, -20)
    high = np.abs(np.einsum("knrc,knc->knr", _away(made), radial))[:, inner].max(axis=2)
    wide = np.abs(np.einsum("knrc,knc->knr", _away(made), across))[:, inner].max(axis=2)
    assert (wide > 1.05 * high).all()
    assert np.median(wide / high) > 1.5


@pytest.mark.parametrize("apart", [1.0, 0.8])
def test_touching_strands_meet_where_their_thickness_says(apart: float) -> None:
    rope = lone([_line(0.0), _line(10.0)])
    distance = apart * rope.braid.thickness
    rope = lone([_line(0.0), _line(distance)])
    toward = _away(sections_of(rope))[0, 30, :, 1].max()
    assert toward <= INSET * distance / 2 + 1e-9
    assert toward == pytest.approx(INSET * distance / 2, rel=0.05)


def test_a_squeezed_strand_is_drawn_smaller() -> None:
    lines = [_line(0.0), _line(300.0)]
    free, squeezed = (sections_of(lone(lines, np.full(60, share))) for share in (1.0, 0.75))
    assert _away(squeezed)[0, 30] == pytest.approx(0.75 * _away(free)[0, 30], abs=1e-9)


def test_no_vertex_lies_in_the_terminator() -> None:
    rope = round_a_ring()
    assert rope.seat is not None
    off = clearance(rope.seat, sections_of(rope).rings.reshape(-1, 3))
    assert off.min() > -1e-9
    unseated = sections_of(replace(rope, seat=None)).rings.reshape(-1, 3)
    assert clearance(rope.seat, unseated).min() < -0.05


def test_sections_do_not_cross_on_a_bend_tighter_than_the_section() -> None:
    angle = np.linspace(0, np.pi, 40)
    thickness = plain().braid.thickness
    bend = thickness * np.column_stack([np.cos(angle), np.zeros_like(angle), np.sin(angle)])
    aside = np.array([0.0, 300.0, 0.0])
    made = sections_of(lone([bend, bend + aside]), refine=1)
    for i in range(1, 38):
        normal = made.tangents[0, i] + made.tangents[0, i + 1]
        border = (made.centres[0, i] + made.centres[0, i + 1]) / 2
        assert ((made.rings[0, i] - border) @ normal).max() < 1e-9
        assert ((made.rings[0, i + 1] - border) @ normal).min() > -1e-9


def test_refined_lines_keep_their_nodes_and_stay_straight() -> None:
    line = _line(2.0, n=12)
    count = np.array([12, 7])
    fine = refined(np.stack([line, line]), count, 3)
    assert fine.shape == (2, 34, 3)
    assert np.allclose(fine[0, ::3], line)
    assert np.allclose(fine[0, :, 0], refined_station(line[:, 0], 3))
    assert np.allclose(fine[1, 18:], line[6])


def test_a_refined_circle_stays_on_the_circle() -> None:
    angle = np.linspace(0, 2, 30)
    circle = np.column_stack([np.cos(angle), np.sin(angle), np.zeros(30)])[None]
    fine = refined(circle, np.array([30]), 4)[0, 4:-4]
    assert np.abs(np.linalg.norm(fine, axis=1) - 1).max() < 1e-5


def test_strands_spread_only_where_the_rope_is_swollen() -> None:
    station = np.arange(0.0, 400.0, 1.0)
    radius = np.where(station > 200, 6.0, 3.0)
    wide = spread(radius, station, 10.0)
    assert np.allclose(wide[:190], 1.0)
    assert np.allclose(wide[-190:], SPREAD)
    assert (np.diff(wide) >= -1e-12).all()


def test_the_middle_is_the_mean_of_the_live_strands() -> None:
    centres = np.array([[[0.0, 1, 0], [1, 1, 0]], [[0.0, -1, 0], [9, 9, 9]]])
    axis, radius = middle(centres, np.array([2, 1]))
    assert np.allclose(axis, [[0, 0, 0], [1, 1, 0]])
    assert np.allclose(radius, [1, 0])


def test_only_wanted_columns_are_made() -> None:
    rope = plain(length=4.0)
    wanted = rope.station < 20.0
    made = sections_of(rope, wanted=wanted)
    size = np.linalg.norm(_away(made), axis=3).max(axis=2)
    assert (size[:, made.station < 18] > 0).all()
    assert (size[:, made.station > 22] == 0).all()
