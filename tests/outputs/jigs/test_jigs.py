"""Gauges, board and former measured on their files, read back by another library than the one that made them."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.geometry.seat import Seat
from fidpath.outputs.jigs.catalogue import JIGS
from fidpath.outputs.jigs.parts import joint
from fidpath.outputs.jigs.parts.coupon import coupon
from fidpath.outputs.jigs.parts.eye_former import eye_former, lines_of, shown_lines, upper_half, volume_of
from fidpath.outputs.jigs.parts.rope_gauge import rope_gauge, slots_of
from fidpath.outputs.jigs.parts.taper_board import EDGE, NOTCH, NOTCH_DEPTH, scale_of, taper_board
from fidpath.outputs.jigs.paths import area, box, circle, moved_out, polygon, rounded
from fidpath.outputs.jigs.pieces import JigPiece
from fidpath.outputs.jigs.turning import between_slots, revolved_volume
from jigs.checks import RADIUS, VOLUME, WIDTH, check_slots
from jigs.plans import a_plan, random_plans
from jigs.readback import at_height, circle_through, crossings, from_stl, gaps, sound
from jobs import a_job

PLANS = random_plans(np.random.default_rng(4), 10)


def named(piece: JigPiece) -> str:
    return piece.name


def test_rope_gauge_slots_are_the_jobs_limits() -> None:
    check_slots(a_plan())
    assert [slot.label for slot in slots_of(a_plan())] == ["NO GO", "ROPE", "GO", "BURY"]
    assert slots_of(a_plan())[0].size == 9.6
    assert slots_of(a_plan())[2].size == 10.5


def test_a_printers_shrinkage_widens_the_slots_and_not_what_is_engraved() -> None:
    plain, wider = (rope_gauge(a_plan(slot_shrink_mm=shrink)).pieces[0] for shrink in (0.0, 0.12))
    check_slots(a_plan(slot_shrink_mm=0.12))
    assert plain.texts == wider.texts
    assert plain.sizes == wider.sizes


@pytest.fixture(scope="module")
def long_board():  # type: ignore[no-untyped-def]
    plan = a_plan()
    return plan, scale_of(plan), [from_stl(piece) for piece in taper_board(plan).pieces]


def shoulders(body) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    """Where a segment's two shoulders are, above the joint."""
    left, right = crossings(at_height(body, 1.0), 1, 2.0)[[0, -1]]
    return float(left), float(right)


def test_the_segments_come_to_the_bury_and_what_the_board_runs_on_beyond_it(long_board) -> None:  # type: ignore[no-untyped-def]
    plan, scale, bodies = long_board
    assert len(bodies) == 4
    lengths = [right - left for left, right in map(shoulders, bodies)]
    assert sum(lengths) == pytest.approx(scale.end - scale.start, abs=WIDTH)
    assert scale.start < -5 and scale.end > plan.bury_length + 5
    bed = max(plan.job.printing.bed_mm[:2])
    assert all(np.ptp(body.vertices[:, 0]) <= bed - 10 for body in bodies)


def test_joints_lie_between_ticks(long_board) -> None:  # type: ignore[no-untyped-def]
    _, scale, _ = long_board
    assert all(abs(joint_at / scale.tick % 1 - 0.5) < 1e-6 for joint_at in scale.joints)
    assert all(abs(at - joint_at) > 1.0 for joint_at in scale.joints for _, at in scale.marks)


def test_ticks_notches_and_drops_stand_where_they_should(long_board) -> None:  # type: ignore[no-untyped-def]
    plan, scale, bodies = long_board
    ticks, drops, notches = [], [], []
    for (start, _), body in zip(scale.segments, bodies, strict=True):
        engraved, whole = at_height(body, plan.job.printing.plate_mm - 0.2), at_height(body, 1.0)
        top = shoulders_high(body)
        for found, lines, y in (
            (ticks, engraved, 1.0),
            (drops, engraved, top - 0.8 * EDGE),
            (notches, whole, top - 0.6 * NOTCH_DEPTH),
        ):
            places = crossings(lines, 1, y)
            found += list((places[1:-1:2] + places[2:-1:2]) / 2 + start)
            if found is notches:
                assert gaps(places) == pytest.approx(NOTCH, abs=WIDTH)
    marks = [0.0, *plan.taper.drops, plan.bury_length]
    assert ticks == pytest.approx(np.arange(0, 144) * 5.0, abs=WIDTH)
    assert drops == pytest.approx(marks, abs=WIDTH)
    assert notches == pytest.approx(marks, abs=WIDTH)


@pytest.mark.parametrize("number", range(len(PLANS)))
def test_every_number_of_the_board_stands_over_its_own_tick(number: int) -> None:
    """The zero once stood over the tick of 5 mm."""
    plan = PLANS[number]
    scale = scale_of(plan)
    places = dict(scale.numbers)
    for (start, end), piece in zip(scale.segments, taper_board(plan).pieces, strict=True):
        assert piece.flat is not None
        ticks = [line[0, 0] for line in piece.flat.strokes if line[0, 1] == 0.0]
        for text in piece.flat.texts:
            if text.words in places and text.y < 10.0:
                assert start < places[text.words] < end
                assert text.x == pytest.approx(places[text.words] - start, abs=1e-6)
                assert min(abs(text.x - tick) for tick in ticks) < 1e-6 or text.x + start > plan.bury_length - 0.5


def shoulders_high(body) -> float:  # type: ignore[no-untyped-def]
    return float(body.vertices[:, 1].max())


def test_the_joint_has_play_and_no_more_than_a_tenth(long_board) -> None:  # type: ignore[no-untyped-def]
    plan, _, bodies = long_board
    play = plan.job.printing.clearance_mm
    first, second = at_height(bodies[0], 1.0), at_height(bodies[1], 1.0)
    _, shoulder = shoulders(bodies[0])
    middle = np.mean(crossings(first, 0, shoulder + joint.REACH - 1.0))
    back = crossings(first, 1, middle + 3.8)[-2] - shoulder
    lip = crossings(second, 1, middle + 3.8)[1]
    assert 0 < back - lip <= 0.1
    assert back - lip == pytest.approx(play, abs=WIDTH)
    neck = np.diff(crossings(first, 0, shoulder + 2.0))[0]
    mouth = gaps(crossings(second, 0, 2.0))[0]
    assert mouth - neck == pytest.approx(play, abs=WIDTH)
    tip, end = crossings(first, 1, middle)[-1] - shoulder, crossings(second, 1, middle)[0]
    assert end - tip == pytest.approx(joint.END_ROOM, abs=WIDTH)


def test_two_segments_go_together_and_hold(long_board) -> None:  # type: ignore[no-untyped-def]
    plan, scale, _ = long_board
    from fidpath.outputs.jigs.manifolds import of_mesh

    one, other = (of_mesh(piece.mesh) for piece in taper_board(plan).pieces[:2])
    length = scale.segments[0][1] - scale.segments[0][0]
    assert (one ^ other.translate((length + 1e-3, 0, 0))).volume() < 1e-6
    assert (one ^ other.translate((length + 0.1, 0, 0))).volume() > 0.01
    assert (one ^ other.translate((length - 0.01, 0, 0))).volume() > 0.1


def test_a_short_bury_has_a_board_in_one_piece_with_all_its_marks() -> None:
    plan = a_plan(a_job(d=4.0, bury=12.0))
    pieces = taper_board(plan).pieces
    assert len(pieces) == 1
    assert {"B", "X"} <= set(pieces[0].texts)
    assert {"B", "X", "0"} <= set(pieces[0].texts)


def test_a_board_in_inches_has_quarter_inch_ticks_and_whole_numbers() -> None:
    plan = a_plan(inches=True)
    scale = scale_of(plan)
    assert scale.tick == pytest.approx(6.35)
    words, places = zip(*scale.numbers, strict=True)
    assert places == pytest.approx([25.4 * int(word) for word in words])


def test_the_former_has_the_plans_groove() -> None:
    plan = a_plan()
    cap = from_stl(eye_former(plan).pieces[1])
    seat = plan.seat
    section = np.asarray(at_plane(cap)).reshape(-1, 2)
    groove = section[(section[:, 0] > seat.crown - 0.01) & (section[:, 0] < seat.crown + seat.groove - 0.01)]
    groove = groove[groove[:, 1] > seat.half_width - seat.groove + 0.01]
    centre, radius, miss = circle_through(groove)
    assert radius == pytest.approx(seat.groove, abs=RADIUS)
    assert miss < RADIUS
    assert centre[0] == pytest.approx(seat.crown + seat.groove, abs=RADIUS)
    assert centre[1] == pytest.approx(seat.half_width, abs=RADIUS)


def at_plane(body):  # type: ignore[no-untyped-def]
    """A round body's half section: distance from its axis and height."""
    import trimesh

    middle = body.bounds.mean(axis=0)
    lines = trimesh.intersections.mesh_plane(body, [0, 1, 0], middle)
    kept = lines[(lines[:, :, 0] > middle[0]).all(axis=1)]
    return np.stack([kept[:, :, 0] - middle[0], kept[:, :, 2]], axis=-1)


def former_read_back(plan, side: float) -> tuple[list[float], float]:  # type: ignore[no-untyped-def]
    """Distances of the lines above (1) or below (-1) the rope from the crown's bearing, as read; the post's width."""
    body = from_stl(eye_former(plan).pieces[0])
    post = at_height(body, 4.0 + plan.seat.half_width - 0.001)
    crown = (post[:, :, 0].min() + post[:, :, 0].max()) / 2
    middle = (post[:, :, 1].min() + post[:, :, 1].max()) / 2
    edges = crossings(at_height(body, 4.0 - 0.2), 1, middle + side * 0.55 * plan.braid.diameter)
    lines = (edges[1:-1:2] + edges[2:-1:2]) / 2
    return [float(crown - line + plan.seat.crown) for line in lines if line < crown - plan.seat.crown], np.ptp(
        post[:, :, 0]
    )


def test_the_former_has_the_plans_marks_in_both_stations() -> None:
    plan = a_plan()
    assert plan.lock is not None
    finished, wide = former_read_back(plan, -1.0)
    assert wide == pytest.approx(2 * plan.seat.crown, abs=2 * RADIUS)
    to_h1 = plan.throat_to_crown
    assert finished == pytest.approx([to_h1 + plan.lock.zone.spacing, to_h1], abs=RADIUS)
    marking, _ = former_read_back(plan, 1.0)
    first, second = lines_of(plan)[:2]
    assert marking == pytest.approx([first.to_crown(plan), second.to_crown(plan)], abs=RADIUS)
    assert marking[0] == pytest.approx(plan.marking_loop.throat_to_crown, abs=RADIUS)
    assert 0.6 * plan.lock.zone.gap < marking[0] - marking[1] < plan.lock.zone.gap
    assert {"MARKING", "FINISHED", "H1", "H2", "SIZING ONLY"} <= set(eye_former(plan).pieces[0].texts)
    assert "STRETCH UNDER LOAD" in " ".join(eye_former(plan).pieces[0].texts)


def test_a_plain_eye_has_one_station_with_its_entry() -> None:
    plan = a_plan(a_job(splice="plain"))
    (line,), _ = former_read_back(plan, 1.0)
    assert line == pytest.approx(plan.origin_to_centre + plan.seat.crown, abs=RADIUS)
    texts = eye_former(plan).pieces[0].texts
    assert "E" in texts and "MARKING" not in texts


def test_the_cap_goes_on_the_peg() -> None:
    plan = a_plan()
    base, cap = (from_stl(piece) for piece in eye_former(plan).pieces)
    peg = np.ptp(at_height(base, 4.0 + plan.seat.half_width + 2.0)[:, :, 0])
    bore = gaps(crossings(at_height(cap, 2.0), 1, float(cap.bounds[:, 1].mean())))[0]
    assert 0 < bore - peg <= 0.1
    assert bore - peg == pytest.approx(plan.job.printing.clearance_mm, abs=2 * RADIUS)


def test_a_base_too_long_for_the_bed_has_no_line_and_says_where_it_would_be() -> None:
    jig = eye_former(a_plan(bed_mm=(100.0, 90.0, 200.0)))
    assert np.ptp(jig.pieces[0].mesh.points[:, 0]) <= 100.0
    assert "H1" not in jig.pieces[0].texts
    assert shown_lines(a_plan(bed_mm=(100.0, 90.0, 200.0))) == ()
    assert "H1, finished: 98.31 mm" in jig.notes[0] or "H1, finished" in jig.notes[0]


def test_a_line_the_bed_has_no_room_for_is_left_out_alone() -> None:
    plan = a_plan(bed_mm=(130.0, 100.0, 200.0))
    shown = {(line.mark, line.station) for line in shown_lines(plan)}
    assert 0 < len(shown) < 4
    assert ("H1", "FINISHED") in shown and ("H2", "FINISHED") not in shown
    notes = eye_former(plan).notes
    assert any("H2, finished" in note and "H1, finished" not in note for note in notes)


def test_the_coupon_says_what_it_is() -> None:
    piece = coupon(a_plan(slot_shrink_mm=0.2)).pieces[0]
    section = at_height(from_stl(piece), 1.0)
    top = section[:, :, 1].max()
    assert gaps(crossings(section, 1, top - 2.5)) == pytest.approx([4.0, 8.0, 12.0], abs=WIDTH)
    assert {"4", "8", "12"} <= set(piece.texts)
    inches = coupon(a_plan(inches=True)).pieces[0]
    assert {"0.125", "0.250", "0.500"} <= set(inches.texts)


@pytest.mark.parametrize("number", range(len(PLANS)))
def test_every_jig_of_a_random_job_is_one_sound_body_of_its_volume(number: int) -> None:
    plan = PLANS[number]
    check_slots(plan)
    for name, maker in JIGS.items():
        try:
            pieces = maker(plan).pieces
        except CannotBeMade as refused:
            assert name in ("mark-sleeve", "nose-cap") and refused.key == "rope.diameter", (name, plan.job)
            continue
        for piece in pieces:
            body = from_stl(piece)
            assert sound(body), (name, piece.name, plan.job)
            assert piece.volume is not None
            assert body.volume == pytest.approx(piece.volume, rel=VOLUME), (name, piece.name)


def test_strokes_of_letters_that_just_touch_leave_no_solid_open() -> None:
    """A pen of 0.9 mm is five units of the font at a height of 3.78 mm: strokes five units apart were tangent."""
    plan = a_plan(a_job(d=18.76), nozzle_mm=0.6, text_height_mm=3.78, plate_mm=3.0)
    assert sound(from_stl(coupon(plan).pieces[0]))
    assert sound(from_stl(rope_gauge(plan).pieces[0]))


def test_areas_of_outlines_are_exact() -> None:
    assert area(circle(3.0, 4.0, 2.5)) == pytest.approx(np.pi * 6.25, rel=1e-12)
    assert area(box(0, 0, 10, 20, 3.0)) == pytest.approx(200 - (4 - np.pi) * 9, rel=1e-12)
    slot = rounded([(0, 0, 0), (10, 0, 0), (10, 10, 0), (7, 10, 0), (7, 4, 2), (3, 4, 2), (3, 10, 0), (0, 10, 0)])
    assert area(slot) == pytest.approx(100 - (4 * 4 + np.pi * 2), rel=1e-12)
    corners = polygon(slot)
    x, y = corners.T
    shoelace = (x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2
    assert shoelace == pytest.approx(area(slot), rel=2e-4)


def test_an_outline_moved_out_is_larger_all_round_and_its_slots_narrower() -> None:
    plan = a_plan()
    flat = rope_gauge(plan).pieces[0].flat
    assert flat is not None
    moved = moved_out(flat.outline, 0.1)
    before, after = (polygon(path) for path in (flat.outline, moved))
    assert after.min(axis=0) == pytest.approx(before.min(axis=0) - 0.1, abs=1e-9)
    assert after.max(axis=0) == pytest.approx(before.max(axis=0) + 0.1, abs=1e-9)
    around = np.linalg.norm(np.diff(np.vstack([before, before[:1]]), axis=0), axis=1).sum()
    assert area(moved) - area(flat.outline) == pytest.approx(around * 0.1 + np.pi * 0.01, rel=1e-3)


def test_volumes_by_formula() -> None:
    cylinder = np.array([[3.0, 0.0], [3.0, 10.0], [0.0, 10.0], [0.0, 0.0]])
    assert revolved_volume(cylinder) == pytest.approx(np.pi * 90, rel=1e-12)
    assert between_slots((0.0, 3.0), (0.0, 0.0), 10.0) == pytest.approx(np.pi * 30, rel=1e-12)
    assert between_slots((2.0, 1.0), (2.0, 1.0), 5.0) == pytest.approx(5 * (8 + np.pi), rel=1e-12)
    ring = Seat(crown=20.0, nose=20.0, reach=0.0, groove=5.0, lip=5.0, half_width=5.0)
    pappus = np.pi * 25**2 * 5 - 2 * np.pi * (25 - 4 * 5 / (3 * np.pi)) * np.pi * 25 / 4
    assert volume_of(ring, upper_half(ring, 1e-7)) == pytest.approx(pappus, rel=1e-6)
    teardrop = Seat(crown=10.0, nose=4.0, reach=20.0, groove=0.0, lip=0.0, half_width=3.0)
    assert volume_of(teardrop, upper_half(teardrop)) == pytest.approx(3 * hull_area(10.0, 4.0, 20.0), rel=1e-9)


def hull_area(large: float, small: float, distance: float) -> float:
    """Area of the hull of two circles, from its polygon of very many corners."""
    lean = np.arcsin((large - small) / distance)
    turn = np.pi / 2 + lean
    one = np.linspace(-turn, turn, 200001)
    other = np.linspace(turn, 2 * np.pi - turn, 200001)
    x = np.concatenate([large * np.cos(one), small * np.cos(other) - distance])
    y = np.concatenate([large * np.sin(one), small * np.sin(other)])
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2)
