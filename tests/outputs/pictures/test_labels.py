"""Label placement: off the drawing, off one another, leaders that don't cross; nothing where there is no room."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.outputs.pictures.labels import PAD, FreeSpace, PlacedLabel, boxes_meet, line_meets_box, lines_cross
from scenes.label_faults import label_faults

HIGH, WIDE = 300, 500
PAGE = (0.0, 0.0, float(WIDE), float(HIGH))

spot = st.tuples(st.integers(20, WIDE - 20), st.integers(20, HIGH - 20)).map(lambda p: (float(p[0]), float(p[1])))
size = st.tuples(st.integers(10, 120), st.integers(10, 40)).map(lambda p: (float(p[0]), float(p[1])))
block = st.tuples(st.integers(0, WIDE - 60), st.integers(0, HIGH - 40), st.integers(5, 200), st.integers(5, 60))


def _drawing(blocks: list[tuple[int, int, int, int]]) -> np.ndarray:
    drawn = np.zeros((HIGH, WIDE), dtype=bool)
    for x, y, wide, high in blocks:
        drawn[y : y + high, x : x + wide] = True
    return drawn


@settings(max_examples=60, deadline=None)
@given(st.lists(block, max_size=4), st.lists(st.tuples(spot, size), min_size=1, max_size=8))
def test_whatever_is_placed_is_placed_without_fault(blocks, wanted) -> None:  # type: ignore[no-untyped-def]
    drawn = _drawing(blocks)
    room = FreeSpace(drawn)
    tried = [room.place(anchor, extent, PAGE) for anchor, extent in wanted]
    placed = [found for found in tried if found is not None]
    assert label_faults(placed, drawn) == []
    for found in placed:
        assert found.box[0] >= 0 and found.box[1] >= 0 and found.box[2] <= WIDE and found.box[3] <= HIGH
        assert not any(line_meets_box(found.leader, other.box) for other in placed if other is not found)


def test_labels_over_a_rope_all_find_a_place_near_what_they_name() -> None:
    drawn = _drawing([(0, 120, WIDE, 60)])
    room = FreeSpace(drawn)
    for x in (60.0, 160.0, 260.0, 360.0):
        found = room.place((x, 150.0), (80.0, 20.0), PAGE)
        assert found is not None
        assert found.leader[1] == (x, 150.0)
        assert found.box[3] <= 120 - PAD or found.box[1] >= 180 + PAD
        assert abs((found.box[1] + found.box[3]) / 2 - 150) < 90


def test_there_is_no_place_where_everything_is_drawn() -> None:
    room = FreeSpace(np.ones((HIGH, WIDE), dtype=bool))
    assert room.place((100.0, 100.0), (50.0, 20.0), PAGE) is None


def test_a_taken_box_is_no_longer_free() -> None:
    room = FreeSpace(np.zeros((HIGH, WIDE), dtype=bool))
    assert room.is_free((50, 50, 100, 80))
    room.take((90, 60, 150, 100))
    assert not room.is_free((50, 50, 100, 80))
    assert room.is_free((50, 50, 90 - PAD, 80))


def test_a_box_may_not_lie_on_a_leader_or_leave_the_page() -> None:
    room = FreeSpace(np.zeros((HIGH, WIDE), dtype=bool))
    room.take((10, 10, 40, 30), ((40.0, 20.0), (300.0, 20.0)))
    assert not room.is_free((100, 10, 150, 40))
    assert not room.is_free((WIDE - 20, 100, WIDE + 20, 120))


def test_same_wishes_same_places() -> None:
    def once() -> list[PlacedLabel | None]:
        room = FreeSpace(_drawing([(100, 100, 200, 80)]))
        return [room.place((150.0 + 20 * i, 140.0), (60.0, 18.0), PAGE) for i in range(5)]

    assert once() == once()


@pytest.mark.parametrize(
    ("a", "b", "cross"),
    [
        (((0, 0), (10, 10)), ((0, 10), (10, 0)), True),
        (((0, 0), (10, 0)), ((0, 5), (10, 5)), False),
        (((0, 0), (10, 10)), ((11, 11), (20, 12)), False),
        (((0, 0), (10, 0)), ((5, 0), (5, 9)), True),
    ],
)
def test_crossing_leaders(a, b, cross: bool) -> None:  # type: ignore[no-untyped-def]
    assert lines_cross(a, b) == cross
    assert lines_cross(b, a) == cross


@pytest.mark.parametrize(
    ("line", "meets"),
    [
        (((0, 15), (50, 15)), True),
        (((0, 5), (50, 5)), False),
        (((15, 0), (15, 9)), False),
        (((0, 0), (30, 30)), True),
        (((12, 12), (18, 18)), True),
        (((0, 10), (50, 10)), False),
    ],
)
def test_leaders_and_boxes(line, meets: bool) -> None:  # type: ignore[no-untyped-def]
    assert line_meets_box(line, (10.0, 10.0, 20.0, 20.0)) == meets


def test_boxes_meet_within_their_padding() -> None:
    assert boxes_meet((0, 0, 10, 10), (12, 0, 20, 10), 3)
    assert not boxes_meet((0, 0, 10, 10), (12, 0, 20, 10), 1)


def test_faults_are_found() -> None:
    drawn = _drawing([(0, 0, 50, 50)])
    on_rope = PlacedLabel((40.0, 40.0, 80.0, 60.0), ((80.0, 50.0), (90.0, 50.0)))
    over_it = PlacedLabel((70.0, 45.0, 120.0, 70.0), ((85.0, 45.0), (85.0, 60.0)))
    found = label_faults([on_rope, over_it], drawn)
    assert found == ["label 0 lies on the drawing", "labels 0 and 1 overlap", "leaders 0 and 1 cross"]
