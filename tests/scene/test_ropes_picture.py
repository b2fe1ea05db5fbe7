"""Two ropes without a terminator, laid, settled, drawn and made into solids, each by its own stations and parts."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from PIL import Image

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry.parts import Part
from fidpath.geometry.strands import Strands
from fidpath.meshing.sections import Sections, sections_of
from fidpath.outputs import solids
from fidpath.outputs.pictures import png
from fidpath.scene.cameras import Box, cameras, looked_at
from fidpath.scene.captions import Sight
from fidpath.scene.ink_marks import face_dots
from fidpath.scene.paint import Model, chips, hole_axes, key_of, modelled, opened, rope_solid
from fidpath.scene.panels import cut_panel, panel
from fidpath.scene.scene import Label, Scene
from fidpath.scene.stage import Stage, over, showing
from fidpath.states.rope_state import RopeState
from two_ropes import GUEST, HOST, D, settled, state

AREA: Box = (0, 74, 1132, 1052)
"""Where the views go, page pixels."""

CUT: Box = (1156, 92, 424, 424)
"""Where the last opened place is shown cut across its host."""

SIGHTS = (Sight(("all",), (0.0, -0.4, 1.0), (0.0, 1.0, 0.0)),)
"""All ropes, from above."""


def ropes_scene(
    title: str, state: RopeState, strands: Strands, sections: Sections, sights: Sequence[Sight] = SIGHTS
) -> Scene:
    """The state's ropes in at most two views, the groups of opened places shown, the last of them cut across."""
    model = modelled(state, strands, sections)
    labels = tuple(Label("", over(model, o.host, o.rope), o.name, rank=-1) for o in state.openings)
    stage = showing(Stage(model, labels=labels), opened(model))
    placed = zip(sights, cameras([stage] * len(sights), sights, AREA), "AB", strict=False)
    panels = [panel(stage, sight, at, letter, first=letter == "A") for sight, at, letter in placed]
    if stage.toned:
        panels.append(cut_panel(stage, stage.toned[-1], CUT, "ABC"[len(panels)]))
    return Scene(state.name, title, tuple(panels), key_of(model), (BESIDE_PICTURES,))


def parted() -> RopeState:
    """The guest's parts told from the host's, so that a picture shows which is which."""
    host, guest = state().ropes
    return replace(state(), ropes=(host, replace(guest, stretches=((Part.EYE, float("-inf")), (Part.COVER, 0.0)))))


@pytest.fixture(scope="module")
def model() -> Model:
    strands = settled().strands
    return modelled(parted(), strands, sections_of(strands))


@pytest.fixture(scope="module")
def scene(model: Model) -> Scene:
    return ropes_scene("two ropes", model.state, model.strands, model.sections)


def test_places_go_by_rope_and_station(model: Model) -> None:
    assert model.at(30.0, 0)[:2] == pytest.approx([30.0, 0.0], abs=2.0)
    assert model.at(30.0, 1)[:2] == pytest.approx([0.0, -30.0], abs=2.0)
    assert model.along(30.0, 0) == pytest.approx([1.0, 0.0, 0.0], abs=0.05)
    assert model.along(30.0, 1) == pytest.approx([0.0, -1.0, 0.0], abs=0.05)
    assert model.d == D and model.points(1).shape[0] == GUEST.strands
    assert len(model.line) == sum(len(rope.station) for rope in model.strands.ropes)


def test_each_rope_wears_its_own_parts(scene: Scene, model: Model) -> None:
    ropes = scene.panels[0].solids[0]
    assert ropes.group is not None
    rope = model.strands.rope[ropes.group]
    far = np.linalg.norm(ropes.mesh.points[:, :2], axis=1) > 3 * D
    assert set(ropes.parts[(rope == 0) & far].tolist()) == {Part.STANDING_PART, Part.TAIL}
    assert set(ropes.parts[(rope == 1) & far].tolist()) == {Part.EYE, Part.COVER}
    assert set(scene.key) == {Part.STANDING_PART, Part.TAIL, Part.EYE, Part.COVER}


def test_the_hole_shows_its_hosts_groups_alone(model: Model) -> None:
    (hole,) = model.state.openings
    axes = hole_axes(model, hole)
    assert axes.top.shape == (HOST.strands,) and int(axes.top.sum()) == HOST.strands // 2
    assert abs(axes.along[0]) == pytest.approx(1.0, abs=0.01)
    assert len(chips(model, hole)) == HOST.strands
    assert len(face_dots(model, (hole,))) == 1
    shown = rope_solid(model, [], (hole,))
    assert len(shown.mesh.points) == 0


def test_a_view_of_a_hole_holds_both_ropes_at_it_and_one_of_all_holds_all(model: Model) -> None:
    stage = Stage(model)
    near, whole = (looked_at(stage, (name,)) for name in ("A", "all"))
    assert 3 * D < np.ptp(near[:, 0]) < 8 * D and 2 * D < np.ptp(near[:, 1]) < 8 * D
    assert np.ptp(whole[:, 0]) > 150 and np.ptp(whole[:, 1]) > 120
    assert len(whole) == HOST.strands * len(model.stations(0)) + GUEST.strands * len(model.stations(1))


def test_both_ropes_are_in_the_picture(scene: Scene, model: Model) -> None:
    content = png(scene, model.braid.thickness, "screen", False)
    seen = np.asarray(Image.open(io.BytesIO(content)).convert("RGB"), dtype=int)
    box = seen[100:1100, 40:1100]
    ink = box.max(axis=2) - box.min(axis=2) > 30
    rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
    assert np.ptp(rows) > 500 and np.ptp(columns) > 700
    assert scene.panels[1].caption == "A cut across, seen toward the tail"


def test_solids_have_a_body_for_every_part_of_either_rope(model: Model) -> None:
    found = solids.files("two-ropes", None, model.strands)
    assert set(found) == {"two-ropes-mm.stl", "two-ropes.glb"}
    bodies = trimesh.load(io.BytesIO(found["two-ropes.glb"]), file_type="glb").geometry
    assert {name.split(", ")[0] for name in bodies} == {"host", "guest"} and len(bodies) == 4
    assert all(body.volume > 0 for body in bodies.values())
