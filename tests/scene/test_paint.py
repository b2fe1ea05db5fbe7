"""Parts and colours along the rope, faces on their side, numbers of strands."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.scene.colours import PALETTE, colours_of, pair_of
from fidpath.scene.paint import chips, face_dots, face_rings, fanned, hole_axes, key_of, model_of, opened, rope_coats
from fidpath.scene.scene import Solid
from scenes.steps import settled_state, small_plan


def _strand(kind: str, places: list[float], k: int, toned=(), inked=()) -> Solid:  # type: ignore[no-untyped-def]
    """Vertices of one strand at some stations."""
    model = model_of(settled_state(kind))
    mesh = Mesh(np.zeros((len(places), 3)), np.zeros((0, 3), int), None, np.array(places), np.full(len(places), k))
    dark = np.full(len(places), model.strands.hand[k] <= 0)
    return Solid(mesh, Part.STANDING_PART, rope_coats(model, mesh, toned, inked), None, dark)


def _hands(kind: str) -> list[int]:
    """A strand of the light hand, and one of the dark."""
    return [int(np.flatnonzero(model_of(settled_state(kind)).strands.hand == hand)[0]) for hand in (1, -1)]


def _colours(solid: Solid) -> list[tuple[int, ...]]:
    return [tuple(int(c) for c in colour) for colour in colours_of(solid)]


@pytest.mark.parametrize("kind", ["laid-out", "bight-in-h2", "locked", "buried"])
def test_stretches_keep_their_colours_through_all_steps(kind: str) -> None:
    plan = small_plan()
    places = [-50.0, 60.0, plan.station_h2 - 0.5 * plan.rope_between_holes, plan.station_h2 + 60.0]
    parts = [Part.STANDING_PART, Part.EYE, Part.BETWEEN_THE_HOLES, Part.TAIL]
    for shade, k in enumerate(_hands(kind)):
        solid = _strand(kind, places, k)
        assert solid.parts.tolist() == parts
        assert _colours(solid) == [pair_of(part)[shade] for part in parts]
    assert list(key_of(model_of(settled_state(kind)))) == parts
    assert [pair_of(part) for part in parts] == [PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail]


def test_groups_are_toned_at_the_opened_place_alone() -> None:
    model = model_of(settled_state("h1-second-fid"))
    toned = opened(model)
    assert [o.name for o in toned] == ["H1"]
    top = hole_axes(model, toned[0]).top
    for k in range(12):
        solid = _strand("h1-second-fid", [0.0, -80.0], k, toned)
        assert solid.parts.tolist() == [Part.TOP_GROUP if top[k] else Part.BOTTOM_GROUP, Part.STANDING_PART]
        there, beyond = _colours(solid)
        assert there == (PALETTE.top_group if top[k] else PALETTE.bottom_group)
        assert beyond in PALETTE.standing


def test_a_pen_mark_is_black_and_narrow() -> None:
    solid = _strand("laid-out", [30.0, 33.0], _hands("laid-out")[0], inked=(30.0,))
    assert solid.parts.tolist() == [Part.PEN_MARK, Part.EYE]
    assert _colours(solid) == [PALETTE.ink, PALETTE.eye[0]]


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2"), ("bight-in-h2", "H2")])
def test_the_guest_goes_in_at_the_dotted_ring(kind: str, hole: str) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening(hole)
    rings = {solid.part: solid.mesh.points.mean(axis=0) for solid in face_rings(model, opening)}
    guest = next(p.guest for p in model.state.passes if p.hole == hole)
    before, after = model.at(guest - 12.0), model.at(guest + 12.0)
    dotted, plain = rings[Part.DOTTED_FACE], rings[Part.PLAIN_FACE]
    assert np.linalg.norm(before - dotted) < np.linalg.norm(before - plain)
    assert np.linalg.norm(after - plain) < np.linalg.norm(after - dotted)


def test_dots_lie_on_the_dotted_ring_alone() -> None:
    model = model_of(settled_state("tail-entering"))
    rings = {solid.part: solid.mesh.points.mean(axis=0) for solid in face_rings(model, model.state.opening("H1"))}
    assert np.linalg.norm(rings[Part.RING_DOTS] - rings[Part.DOTTED_FACE]) < 1.0
    assert np.linalg.norm(rings[Part.RING_DOTS] - rings[Part.PLAIN_FACE]) > 8.0


def test_the_face_turns_with_a_rope_that_is_rolled() -> None:
    right, rolled = (model_of(settled_state(kind)) for kind in ("locked", "both-other-face"))
    left = [hole_axes(m, m.state.opening("H2")).left for m in (right, rolled)]
    assert float(left[0] @ left[1]) < -0.9


def test_a_drawn_up_hole_has_its_dot_on_the_hosts_left() -> None:
    model = model_of(settled_state("locked"))
    for opening, dot in zip(model.state.openings, face_dots(model, model.state.openings), strict=True):
        axes = hole_axes(model, opening)
        assert 3.0 < float((np.array(dot) - axes.middle) @ axes.left) < 12.0


@pytest.mark.parametrize(("kind", "counts"), [("marking", (6, 6)), ("split-5-7", (5, 7))])
def test_strands_are_numbered_from_the_dotted_face_in_each_group(kind: str, counts: tuple[int, int]) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening("H1")
    left = hole_axes(model, opening).left
    for numbers in (chips(model, opening), fanned(model, opening)):
        for part, count in zip((Part.TOP_GROUP, Part.BOTTOM_GROUP), counts, strict=True):
            group = [chip for chip in numbers if chip.part is part]
            assert [chip.text for chip in group] == [str(i + 1) for i in range(count)]
            ends = [float(np.array(chip.to or chip.at) @ left) for chip in group]
            assert ends[0] == max(ends) and ends[-1] == min(ends)
