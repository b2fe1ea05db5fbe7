"""Overlap of drawn sections with one another and with the terminator."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from broken_strands import Case, Floats, straight_line
from fidpath.checking.drawn_overlap import drawn_overlap, terminator_overlap, vertex_depths
from fidpath.meshing.sections import Sections


def test_fatter_sections_overlap(case: Case) -> None:
    fat = _scaled(case.sections, 1.15)
    failed = case.failed(sections=fat)
    assert failed["drawn_overlap_max"]["value"] > 0.06
    assert failed["drawn_overlap_p99"]["value"] > 0.0


def _scaled(sections: Sections, share: float) -> Sections:
    middle = sections.centres[:, :, None, :]
    return replace(sections, rings=middle + share * (sections.rings - middle))


def test_one_section_dragged_into_its_neighbour_is_found_there(case: Case) -> None:
    at = int(np.searchsorted(case.sections.station, case.strands.station[0] + 40.0))
    rings, centres = case.sections.rings.copy(), case.sections.centres
    near = np.argsort(np.linalg.norm(centres[:, at] - centres[0, at], axis=1))[1]
    rings[0, at] += 0.5 * (centres[near, at] - centres[0, at])
    worst = drawn_overlap(case.strands, replace(case.sections, rings=rings))
    assert worst.max > 0.06
    assert worst.station == pytest.approx(case.sections.station[at], abs=1.0)


def test_vertex_inside_the_terminator_is_found(case: Case, good: dict[str, Any]) -> None:
    s, drawn = case.strands, case.sections
    assert good["terminator_overlap_max_mm"] <= 0.05
    crown = int(np.argmin(np.abs(drawn.station - (s.holes[0].guest + s.holes[0].host) / 2)))
    rings = drawn.rings.copy()
    inner = int(np.argmin(rings[0, crown, :, 0]))
    assert s.seat is not None
    rings[0, crown, inner] = s.seat_centre + np.array([s.seat.crown - 0.3, 0.0, 0.0])
    worst = terminator_overlap(s, replace(drawn, rings=rings))
    assert worst.max == pytest.approx(0.3, abs=1e-6)
    assert "terminator_overlap_max_mm" in case.failed(sections=replace(drawn, rings=rings))


@dataclass(frozen=True)
class Tubes:
    """Round tubes as drawn sections."""

    rings: Floats
    centres: Floats
    count: NDArray[np.int64]
    rope: NDArray[np.int64]
    stations: tuple[Floats, ...]


def _tubes(*lines: Floats, radius: float = 1.0) -> Tubes:
    rings = []
    for line in lines:
        ahead = (line[-1] - line[0]) / np.linalg.norm(line[-1] - line[0])
        across = np.cross(ahead, [0.3, 0.5, 0.8])
        across /= np.linalg.norm(across)
        place = np.linspace(0, 2 * np.pi, 180, endpoint=False)[:, None]
        ring = radius * (np.cos(place) * across + np.sin(place) * np.cross(ahead, across))
        rings.append(line[:, None, :] + ring)
    n = len(lines[0])
    one_rope = np.zeros(len(lines), dtype=np.int64)
    return Tubes(np.stack(rings), np.stack(lines), np.full(len(lines), n), one_rope, (np.arange(n) * 0.5,))


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("distance", [1.7, 1.9, 2.1])
def test_depth_of_round_tubes_side_by_side(distance: float, turned: bool) -> None:
    beside = straight_line() + np.array([0.2, distance, 0.0])
    tubes = _tubes(straight_line(), beside[::-1] if turned else beside)
    assert vertex_depths(tubes, 15.0).max() == pytest.approx(max(2 - distance, 0.0), abs=0.002)


def test_depth_of_round_tubes_crossing() -> None:
    across = np.column_stack([np.full(60, 15.0), np.arange(60) * 0.5 - 15.0, np.full(60, 1.9)])
    assert vertex_depths(_tubes(straight_line(), across), 15.0).max() == pytest.approx(0.1, abs=0.01)


def test_every_tube_of_a_wide_raft_overlaps_on_both_sides() -> None:
    raft = [straight_line() + k * np.array([0.03, 1.2, 1.2]) for k in range(9)]
    depth = vertex_depths(_tubes(*raft), 15.0)
    ahead = np.einsum("knrc,c->knr", _tubes(*raft).rings - np.stack(raft)[:, :, None], [0.0, 1.0, 1.0])
    on_both = [np.where(side, depth, 0.0).max(axis=(1, 2)) for side in (ahead > 0.5, ahead < -0.5)]
    expected = 2 - 1.2 * np.sqrt(2)
    assert on_both[0][:-1] == pytest.approx(np.full(8, expected), abs=0.01)
    assert on_both[1][1:] == pytest.approx(np.full(8, expected), abs=0.01)
    assert on_both[0][-1] == on_both[1][0] == 0.0


def test_depth_does_not_depend_on_the_way_rings_run() -> None:
    tubes = _tubes(straight_line(), straight_line() + np.array([0.2, 1.8, 0.0]))
    back = replace(tubes, rings=tubes.rings[:, :, ::-1])
    assert vertex_depths(back, 15.0)[:, :, ::-1] == pytest.approx(vertex_depths(tubes, 15.0))
