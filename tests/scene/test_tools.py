"""Tools, lines and rings as closed bodies where the state has them."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from fidpath.geometry import rods
from fidpath.geometry.braid import Braid
from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh, open_edges, volume
from fidpath.scene.paint import model_of
from fidpath.scene.shapes.hand_tools import TOOLS, ToolPlacement, fid, tool_solids
from fidpath.scene.shapes.mark_sleeve import mark_sleeve, sleeve_length
from fidpath.scene.shapes.solids import (
    arrow,
    ball,
    bent,
    ribbon,
    ring_tube,
    sleeve,
    stitches,
    tube,
    turned,
)
from fidpath.scene.shapes.tape import measuring_tape
from scenes.steps import scene_of_step, settled_state


def _body(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.points, mesh.faces, process=True)


def _is_solid(mesh: Mesh) -> bool:
    body = _body(mesh)
    return bool(open_edges(mesh) == 0 and body.is_watertight and body.is_winding_consistent and volume(mesh) > 0)


@pytest.mark.parametrize("kind", sorted(TOOLS))
@pytest.mark.parametrize("way", [(1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.48, -0.6, 0.64)])
def test_tools_are_closed_bodies(kind: str, way: tuple[float, float, float]) -> None:
    for part in tool_solids(kind, ToolPlacement((1.0, 2.0, 3.0), way, 4.0, 120.0, 10.0, 0.6, 10.0)):
        assert _is_solid(part.mesh), part.part


def test_lines_and_rings_are_closed_bodies() -> None:
    line = bent(np.zeros(3), np.array([50.0, 20.0, 5.0]), 0.2)
    angle = 2 * np.pi * np.arange(40) / 40
    ring = np.column_stack([6 * np.cos(angle), np.zeros(40), 3 * np.sin(angle)])
    bodies = [
        tube(line, 2.0),
        arrow(line, 2.0),
        ribbon(line, 5.0, 0.5),
        ring_tube(ring, 0.5),
        ball(np.ones(3), 2.0),
        stitches(np.linspace([0.0, 0, 0], [40, 0, 0], 20), np.array([0.0, 0, 6]), 0.5, 5, np.array([50.0, 5, 6])),
        measuring_tape(line, 5.0, 10.0)[0].mesh,
    ]
    assert [_is_solid(body) for body in bodies] == [True] * len(bodies)


def test_turned_bodies_have_the_volume_of_cone_and_ring() -> None:
    place, way = np.array([3.0, 1.0, 2.0]), np.array([0.0, 0.6, 0.8])
    cone = turned(np.array([[0.0, 0.0], [0.0, 4.0], [9.0, 0.0]]), place, way, 400)
    assert volume(cone) == pytest.approx(np.pi * 16 * 9 / 3, rel=1e-3)
    ring = sleeve(np.array([[0.0, 6.0], [10.0, 6.0], [10.0, 5.0], [0.0, 5.0]]), place, way, 400)
    assert volume(ring) == pytest.approx(np.pi * 11 * 10, rel=1e-3)


def test_a_fid_is_as_thick_as_the_rod_its_strands_part_round() -> None:
    state = settled_state("h1-second-fid").state
    tool, rod = state.tools[0], state.rods[0]
    (part,) = tool_solids(tool.kind, ToolPlacement(tool.place, tool.direction, tool.radius, tool.length, 10.0))
    behind = -(part.mesh.points - np.array(rod.tip)) @ np.array(rod.direction)
    outer = (behind > 0.3 * rod.radius) & (behind < 0.5 * rod.length)
    off = rods.clearance(rod, part.mesh.points[outer])
    assert off.max() < 1e-9 and off.min() > -0.02 * rod.radius


def test_a_fid_is_hollow_behind() -> None:
    profile = fid(3.0, 90.0)
    bore = profile[(profile[:, 0] < -50) & (profile[:, 1] > 0), 1]
    assert profile[:, 0].max() == pytest.approx(0.0)
    assert bore.min() < 0.8 * 3.0 <= bore.max() <= 3.0


def test_drawn_strands_stay_clear_of_the_fid() -> None:
    found = settled_state("h1-second-fid")
    rings = found.sections.rings.reshape(-1, 3)
    assert rods.clearance(found.state.rods[0], rings).min() > -1e-3


def test_an_arrow_ends_where_its_line_ends_and_is_widest_at_its_head() -> None:
    line = np.linspace([0.0, 0, 0], [60, 0, 0], 30)
    points = arrow(line, 2.0).points
    assert points[:, 0].max() == pytest.approx(60.0, abs=0.1)
    widest = points[np.abs(points[:, 1]).argmax()]
    assert widest[0] == pytest.approx(50.0, abs=1.0) and abs(widest[1]) == pytest.approx(6.4, rel=0.05)
    with pytest.raises(ValueError, match="length"):
        arrow(np.zeros((4, 3)), 1.0)


def test_the_whipping_holds_the_tails_end() -> None:
    found = settled_state("tail-entering")
    (whipping,) = (s for s in scene_of_step("tail-entering").panels[0].solids if s.part is Part.WHIPPING)
    tip = model_of(found).at(found.state.tip or 0.0)
    assert np.linalg.norm(whipping.mesh.points - tip, axis=1).max() < 2.5 * 10
    last = found.settled.strands.points[:, -3]
    spread = np.linalg.norm(whipping.mesh.points.mean(axis=0) - last, axis=1)
    assert spread.max() < 12.0


def _is_covered(mesh: Mesh, x: float) -> bool:
    """Whether a face lies over or under the rope's middle at x, seen from above."""
    corners = mesh.points[mesh.faces][:, :, :2] - np.array([x, 1e-3])
    after = np.roll(corners, -1, axis=1)
    turn = corners[..., 0] * after[..., 1] - corners[..., 1] * after[..., 0]
    return bool(((turn > 0).all(axis=1) | (turn < 0).all(axis=1)).any())


@pytest.mark.parametrize("strands", [8, 12, 16])
def test_the_mark_sleeve_is_closed_round_the_rope_with_a_window_over_the_mark(strands: int) -> None:
    braid = Braid(strands, "over-two", 10.0, 70.0, 2.0, 3.5, 0.5)
    (solid,) = mark_sleeve(braid, np.zeros(3), np.eye(3))
    body = _body(solid.mesh)
    assert open_edges(solid.mesh) == 0 and body.is_winding_consistent and solid.part is Part.MARK_SLEEVE
    assert [_is_covered(solid.mesh, along * braid.pick) for along in (0.0, 1.0, 2.0)] == [False, True, False]
    assert np.ptp(solid.mesh.points[:, 0]) == pytest.approx(sleeve_length(braid))
    assert np.linalg.norm(solid.mesh.points[:, 1:], axis=1).min() > 0.5 * braid.diameter


def test_a_tape_that_begins_further_on_reads_on() -> None:
    line = np.column_stack([np.linspace(0, 100, 60), np.zeros(60), np.zeros(60)])
    whole, rest = (measuring_tape(line, 8.0, 10.0, counts=50.0, begins=begins)[1].mesh for begins in (0.0, 35.0))
    nearest = [mesh.points[mesh.points[:, 1] > 3.9][:, 0].min() for mesh in (whole, rest)]
    assert nearest == pytest.approx([10.0, 5.0], abs=0.7)
    figures = [mesh.points[mesh.points[:, 1] < 1.5] for mesh in (whole, rest)]
    assert figures[0][:, 0].min() < 4.0 and abs(figures[1][:, 0] - 15.0).min() < 1.5 < figures[1][:, 0].min()


def test_a_tapes_figures_stand_upright_in_the_pictures_of_either_hand() -> None:
    """50 turned half round its own middle is what it is seen as from the other side."""
    line = np.column_stack([np.linspace(0, 70, 60), np.zeros(60), np.zeros(60)])
    meshes = [measuring_tape(line, 8.0, 10.0, counts=50.0, begins=10.0, rightward=way)[1].mesh for way in (1.0, -1.0)]
    usual, other = (mesh.points[mesh.points[:, 1] < 1.0][:, :2] for mesh in meshes)
    middle = (usual.min(axis=0) + usual.max(axis=0)) / 2
    turned = 2 * middle - usual
    near = np.linalg.norm(turned[:, None] - other[None], axis=2).min(axis=1)
    assert near.max() < 0.01 < np.linalg.norm(usual[:, None] - other[None], axis=2).min(axis=1).max()
