"""Colours along the rope, faces on their side, numbers of strands."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.meshing.meshes import Mesh
from fidpath.scene.paint import chips, face_dots, face_rings, fanned, hole_axes, key_of, model_of, opened, rope_colours
from fidpath.scene.scene import PALETTE
from scenes.steps import settled_state, small_plan


def _colours_at(kind: str, places: list[float], **options) -> dict[int, list[tuple[int, ...]]]:  # type: ignore[no-untyped-def]
    """Colours of a strand of either hand at some stations."""
    model = model_of(settled_state(kind))
    found = {}
    for hand in (1, -1):
        k = int(np.flatnonzero(model.strands.hand == hand)[0])
        mesh = Mesh(np.zeros((len(places), 3)), np.zeros((0, 3), int), None, np.array(places), np.full(len(places), k))
        found[hand] = [tuple(int(c) for c in colour) for colour in rope_colours(model, mesh, **options)]
    return found


@pytest.mark.parametrize("kind", ["laid-out", "bight-in-h2", "locked", "buried"])
def test_stretches_keep_their_colours_through_all_steps(kind: str) -> None:
    plan = small_plan()
    places = [-50.0, 60.0, plan.station_h2 - 0.5 * plan.rope_between_holes, plan.station_h2 + 60.0]
    found = _colours_at(kind, places)
    expected = (PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail)
    assert found[1] == [pair[0] for pair in expected]
    assert found[-1] == [pair[1] for pair in expected]
    assert [colours for _, *colours in key_of(model_of(settled_state(kind)))] == [list(pair) for pair in expected]


def test_groups_are_toned_at_the_opened_place_alone() -> None:
    model = model_of(settled_state("h1-second-fid"))
    toned = opened(model)
    assert [o.name for o in toned] == ["H1"]
    top = hole_axes(model, toned[0]).top
    for k in range(12):
        mesh = Mesh(np.zeros((2, 3)), np.zeros((0, 3), int), None, np.array([0.0, -80.0]), np.full(2, k))
        there, beyond = (tuple(int(c) for c in row) for row in rope_colours(model, mesh, toned))
        assert there == (PALETTE.top_group if top[k] else PALETTE.bottom_group)
        assert beyond in PALETTE.standing


def test_a_pen_mark_is_black_and_narrow() -> None:
    found = _colours_at("laid-out", [30.0, 33.0], inked=(30.0,))
    assert found[1] == [PALETTE.ink, PALETTE.eye[0]]


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2"), ("bight-in-h2", "H2")])
def test_the_guest_goes_in_at_the_dotted_ring(kind: str, hole: str) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening(hole)
    rings = {solid.name: solid.mesh.points.mean(axis=0) for solid in face_rings(model, opening)}
    guest = next(p.guest for p in model.state.passes if p.hole == hole)
    before, after = model.at(guest - 12.0), model.at(guest + 12.0)
    dotted, plain = rings["dotted face"], rings["plain face"]
    assert np.linalg.norm(before - dotted) < np.linalg.norm(before - plain)
    assert np.linalg.norm(after - plain) < np.linalg.norm(after - dotted)


def test_dots_lie_on_the_dotted_ring_alone() -> None:
    model = model_of(settled_state("tail-entering"))
    rings = {solid.name: solid.mesh.points.mean(axis=0) for solid in face_rings(model, model.state.opening("H1"))}
    assert np.linalg.norm(rings["dots"] - rings["dotted face"]) < 1.0
    assert np.linalg.norm(rings["dots"] - rings["plain face"]) > 8.0


def test_the_face_turns_with_a_rope_that_is_rolled() -> None:
    right, rolled = (model_of(settled_state(kind)) for kind in ("locked", "both-other-face"))
    left = [hole_axes(m, m.state.opening("H2")).left for m in (right, rolled)]
    assert float(left[0] @ left[1]) < -0.9


def test_a_drawn_up_hole_has_its_dot_on_the_hosts_left() -> None:
    model = model_of(settled_state("locked"))
    for opening, dot in zip(model.state.openings, face_dots(model, model.state.openings), strict=True):
        axes = hole_axes(model, opening)
        assert 3.0 < float((np.array(dot) - axes.middle) @ axes.left) < 12.0


@pytest.mark.parametrize(("kind", "counts"), [("snug", (6, 6)), ("split-5-7", (5, 7))])
def test_strands_are_numbered_from_the_dotted_face_in_each_group(kind: str, counts: tuple[int, int]) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening("H1")
    left = hole_axes(model, opening).left
    for numbers in (chips(model, opening), fanned(model, opening)):
        for colour, count in zip((PALETTE.top_group, PALETTE.bottom_group), counts, strict=True):
            group = [chip for chip in numbers if chip.colour == colour]
            assert [chip.text for chip in group] == [str(i + 1) for i in range(count)]
            ends = [float(np.array(chip.to or chip.at) @ left) for chip in group]
            assert ends[0] == max(ends) and ends[-1] == min(ends)
