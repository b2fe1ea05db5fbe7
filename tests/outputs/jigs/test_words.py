"""Engraved words: inside their face, clear of edges and of each other, for every rope from 2 to 24 mm."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.path import Path as Outline

from fidpath.errors import CannotBeMade
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.jigs import plates as flats
from fidpath.outputs.jigs.lettering import LEAST_HEIGHT, EngravedText, strokes, width, wrapped
from fidpath.outputs.jigs.parts import coupon, eye_former, hole_cone, mark_sleeve, rope_gauge, taper_board
from fidpath.outputs.jigs.paths import box, circle, polygon, rounded
from fidpath.outputs.jigs.pieces import Jig, Plate
from fidpath.outputs.jigs.plates import crosses, encloses, faults, piece_of, plate
from fidpath.planning.plan import Plan
from jigs.plans import a_plan
from jobs import a_job

NO_SOLID = Mesh(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int64))


def faces(plan: Plan) -> dict[str, Plate]:
    """Every engraved plate of a plan's jigs; their solids, which take most of the time, are left out."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(flats, "body_of", lambda name, flat: (None, 0.0))
        patch.setattr(flats, "closed", lambda solid, name: NO_SOLID)
        flat_jigs: list[Jig] = [
            rope_gauge.rope_gauge(plan),
            taper_board.taper_board(plan),
            coupon.coupon(plan),
        ]
    found = {piece.name: piece.flat for jig in flat_jigs for piece in jig.pieces if piece.flat is not None}
    found |= {"eye former": eye_former._plate(plan)[0], "cone": hole_cone._plate(plan)[0]}
    try:
        shape = mark_sleeve.shape_of(plan)
    except CannotBeMade:
        return found
    return {**found, "sleeve": mark_sleeve._face(plan, shape, "UNDER")[0]}


def dense(lines: list[np.ndarray]) -> np.ndarray:
    """Points every tenth of a millimetre along lines."""
    found = []
    for line in lines:
        for a, b in pairwise(line):
            steps = max(2, int(np.linalg.norm(b - a) / 0.1) + 1)
            found.append(a + (b - a) * np.linspace(0, 1, steps)[:, None])
    return np.concatenate(found) if found else np.zeros((0, 2))


def nearest(points: np.ndarray, others: np.ndarray) -> float:
    from scipy.spatial import cKDTree

    return float(cKDTree(others).query(points)[0].min()) if len(others) else np.inf


def check_face(name: str, flat: Plate) -> None:
    """Every word is tall enough, inside the face, and its pen clear of edges, ticks and other words."""
    assert not list(faults(flat))
    edge = polygon(flat.outline)
    rim = dense([np.vstack([edge, edge[:1]])])
    words = [dense(list(strokes(text))) for text in flat.texts]
    marks = dense(list(flat.strokes))
    for number, (text, points) in enumerate(zip(flat.texts, words, strict=True)):
        assert text.height >= LEAST_HEIGHT
        assert points[:, 1].max() - points[:, 1].min() >= 0.9 * LEAST_HEIGHT, text.words
        assert Outline(edge).contains_points(points).all(), (name, text.words)
        assert nearest(points, rim) > flat.pen / 2, (name, text.words)
        assert nearest(points, marks) > flat.pen, (name, text.words)
        rest = [other for at, other in enumerate(words) if at != number]
        assert not rest or nearest(points, np.concatenate(rest)) > flat.pen, (name, text.words)


@settings(max_examples=8)
@given(
    d=st.floats(2.0, 24.0),
    pitch=st.floats(6.0, 9.0),
    bearing=st.floats(1.5, 6.0),
    bury=st.floats(10.0, 100.0),
    strands=st.sampled_from([8, 12, 16]),
    height=st.floats(3.5, 6.0),
    bed=st.floats(150.0, 320.0),
    kind=st.sampled_from(["ring", "teardrop", "pin"]),
    inches=st.booleans(),
)
def test_words_are_clear_on_every_face(d, pitch, bearing, bury, strands, height, bed, kind, inches) -> None:  # type: ignore[no-untyped-def]
    try:
        job = a_job(d=d, pitch=pitch, bearing=bearing, bury=bury, strands=strands, kind=kind)
        plan = a_plan(job, inches=inches, text_height_mm=height, bed_mm=(bed, bed, bed))
    except CannotBeMade:
        return
    for name, flat in faces(plan).items():
        check_face(name, flat)


@pytest.mark.parametrize("d", [2.0, 3.0, 5.0, 8.0, 12.0, 16.0, 20.0, 24.0])
def test_words_are_clear_at_every_size_of_rope(d: float) -> None:
    for name, flat in faces(a_plan(a_job(d=d))).items():
        check_face(name, flat)


@pytest.mark.parametrize("inches", [False, True])
@pytest.mark.parametrize("height", [3.5, 6.0, 10.0])
def test_the_coupon_has_room_for_letters_of_any_height(height: float, inches: bool) -> None:
    flat = coupon.coupon(a_plan(inches=inches, text_height_mm=height)).pieces[0].flat
    assert flat is not None
    check_face("coupon", flat)


def a_plate(*texts: EngravedText, slot: bool = False, strokes_on_it: list[np.ndarray] | None = None) -> Plate:
    outline = box(0, 0, 60, 30)
    if slot:
        corners = [(0, 0, 0), (60, 0, 0), (60, 30, 0), (30, 30, 0), (30, 5, 0), (29.9, 5, 0), (29.9, 30, 0), (0, 30, 0)]
        outline = rounded([(float(x), float(y), float(r)) for x, y, r in corners])
    return plate(outline, 4.0, 0.4, list(texts), strokes_on_it)


def test_words_that_are_not_clear_are_refused() -> None:
    assert not list(faults(a_plate(EngravedText("GO 10", 30, 12, 5))))
    bad = {
        "runs over an edge": a_plate(EngravedText("GO 10", 5, 12, 5)),
        "over an edge": a_plate(EngravedText("GO 10", 30, 12, 5), slot=True),
        "touches another word": a_plate(EngravedText("GO 10", 30, 12, 5), EngravedText("NO GO", 30, 15, 5)),
        "touches another mark": a_plate(
            EngravedText("GO 10", 30, 12, 5), strokes_on_it=[np.array([[0.0, 14.0], [60.0, 14.0]])]
        ),
        "can't be read": a_plate(EngravedText("GO 10", 30, 12, 3.4)),
    }
    for words, flat in bad.items():
        with pytest.raises(CannotBeMade, match=words):
            piece_of("plate", flat)


def test_a_word_over_a_hole_is_refused() -> None:
    flat = Plate(box(0, 0, 60, 30), 4.0, (EngravedText("GO", 30, 12, 4),), (), (circle(30, 14, 12),))
    assert any("over an edge" in fault for fault in faults(flat))


def test_lines_are_broken_between_words_only_and_units_stay_with_their_numbers() -> None:
    lines = wrapped("EYE FORMER 50\u00a0MM FOR A RING", 4.0, 40.0)
    assert " ".join(lines) == "EYE FORMER 50\u00a0MM FOR A RING"
    assert all(width(line, 4.0) <= 40.0 for line in lines)
    assert any("50\u00a0MM" in line for line in lines)


def test_strokes_are_as_high_as_asked_and_centred() -> None:
    text = EngravedText("HM", 10.0, 5.0, 4.2)
    points = np.concatenate(strokes(text))
    assert points[:, 1].min() == pytest.approx(5.0) and points[:, 1].max() == pytest.approx(9.2)
    assert points[:, 0].min() + points[:, 0].max() == pytest.approx(20.0)
    assert np.ptp(points[:, 0]) == pytest.approx(width("HM", 4.2))
    with pytest.raises(ValueError, match="no strokes"):
        strokes(EngravedText("Ø", 0, 0, 4))


def test_a_line_through_a_box_is_seen_even_without_a_corner_in_it() -> None:
    through = np.array([[[-5.0, 0.0], [5.0, 0.0]]])
    beside = np.array([[[-5.0, 2.0], [5.0, 2.0]]])
    assert crosses(through, (-1, -1, 1, 1))
    assert not crosses(beside, (-1, -1, 1, 1))
    assert encloses(np.array([[0, 0], [4, 0], [4, 4], [0, 4]], dtype=float), np.array([1.0, 1.0]))
    assert not encloses(np.array([[0, 0], [4, 0], [4, 4], [0, 4]], dtype=float), np.array([5.0, 1.0]))
