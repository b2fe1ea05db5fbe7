"""Meshes: closed, outward, cut with flat caps; terminators that fill their seat and never more."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.meshing.meshes import (
    Cut,
    Mesh,
    cut,
    joined,
    open_edges,
    part_mesh,
    part_strands,
    strand_mesh,
    sweep_faces,
    swept,
    volume,
)
from fidpath.meshing.sections import Sections, sections_of
from shapes import plain


@pytest.fixture(scope="module")
def sections() -> Sections:
    return sections_of(plain(length=5.0))


def _tube(radius: float, length: float, rays: int = 200) -> Sections:
    angle = 2 * np.pi * np.arange(rays) / rays
    x = np.linspace(0, length, 11)
    ring = np.column_stack([np.zeros(rays), radius * np.cos(angle), radius * np.sin(angle)])
    centres = np.column_stack([x, 0 * x, 0 * x])
    tangents = np.tile([1.0, 0.0, 0.0], (11, 1))
    rings = centres[:, None] + ring
    return Sections(rings[None], centres[None], tangents[None], np.array([11]), np.array([0]), (x,), (np.ones(11),))


def test_a_straight_tube_has_its_closed_form_volume() -> None:
    mesh = strand_mesh(_tube(2.0, 30.0), 0)
    polygon = 200 / 2 * np.sin(2 * np.pi / 200) * 4.0
    assert open_edges(mesh) == 0
    assert volume(mesh) == pytest.approx(polygon * 30, rel=1e-12)


def test_normals_of_a_tube_point_away_from_its_axis() -> None:
    tube = _tube(2.0, 30.0)
    outward = (tube.rings[0] * [0.0, 1.0, 1.0] / 2.0).reshape(-1, 3)
    for weld in (True, False):
        mesh = strand_mesh(tube, 0, weld=weld)
        assert mesh.normals is not None
        assert np.abs(mesh.normals[: len(outward)] - outward).max() < 1e-9
        caps, ways = mesh.points[len(outward) :], mesh.normals[len(outward) :]
        np.testing.assert_array_equal(ways, np.where(caps[:, :1] < 15, [[-1.0, 0.0, 0.0]], [[1.0, 0.0, 0.0]]))


@pytest.mark.parametrize("many", [1, 10**9])
@pytest.mark.parametrize("weld", [True, False])
def test_many_strands_in_one_are_each_alone_put_together(
    sections: Sections, monkeypatch: pytest.MonkeyPatch, weld: bool, many: int
) -> None:
    monkeypatch.setattr("fidpath.meshing.meshes.MANY", many)
    spans = [(4, 3, 9), (0, 0, 1), (11, 2, 20), (4, 9, 12), (7, 1, 30)]
    found, alone = swept(sections, spans, weld), joined([strand_mesh(sections, *span, weld) for span in spans])
    for name in ("points", "faces", "normals", "station", "strand"):
        np.testing.assert_array_equal(getattr(found, name), getattr(alone, name))
    assert (open_edges(found) == 0) == weld
    with pytest.raises(CannotBeMade, match="strand 5 has no length between sections 8 and 8"):
        swept(sections, [(1, 0, 3), (5, 8, 8)], weld)


@pytest.mark.parametrize("weld", [True, False])
def test_strands_are_closed_and_look_outward(sections: Sections, weld: bool) -> None:
    mesh = strand_mesh(sections, 3, weld=weld)
    assert volume(mesh) > 0
    assert (open_edges(mesh) == 0) == weld
    assert mesh.normals is not None
    assert np.allclose(np.linalg.norm(mesh.normals, axis=1), 1)


def test_the_count_of_open_edges_sees_a_missing_and_a_turned_face(sections: Sections) -> None:
    mesh = strand_mesh(sections, 0)
    assert open_edges(Mesh(mesh.points, mesh.faces[1:])) == 6
    turned = mesh.faces.copy()
    turned[0] = turned[0, ::-1]
    assert open_edges(Mesh(mesh.points, turned)) > 0


def test_sweep_faces_number_two_to_a_field() -> None:
    assert sweep_faces(5, 8).shape == (2 * 4 * 8, 3)


def test_parts_fill_the_rope_exactly(sections: Sections) -> None:
    parts = [part_mesh(sections, part) for part in plain(length=5.0).parts]
    whole = joined([strand_mesh(sections, k) for k in range(12)])
    assert all(open_edges(part) == 0 for part in parts)
    assert sum(volume(part) for part in parts) == pytest.approx(volume(whole), rel=1e-9)


def test_parts_leave_out_strands_that_have_ended(sections: Sections) -> None:
    count = sections.count.copy()
    count[4] = 10
    short = replace(sections, count=count)
    beyond = float(sections.station[20])
    assert len(part_strands(short, beyond, float(sections.station[-1]))) == 11


def test_a_strand_without_length_is_refused(sections: Sections) -> None:
    with pytest.raises(CannotBeMade, match="no length"):
        strand_mesh(sections, 0, 5, 5)


def test_a_cut_keeps_volume_and_closes_with_flat_caps(sections: Sections) -> None:
    mesh = strand_mesh(sections, 1)
    middle = float(mesh.points[:, 0].mean())
    near, near_cap = cut(mesh, Cut((1.0, 0.0, 0.0), middle))
    far, far_cap = cut(mesh, Cut((-1.0, 0.0, 0.0), -middle))
    assert volume(joined([near, near_cap])) + volume(joined([far, far_cap])) == pytest.approx(volume(mesh), rel=1e-4)
    corners = near_cap.points[near_cap.faces]
    assert np.abs(corners[..., 0] - middle).max() < 1e-3
    assert near_cap.normals is not None
    face = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    assert (face[:, 0] <= 1e-6).all()


def test_a_cut_that_misses_changes_nothing_and_one_beyond_leaves_nothing(sections: Sections) -> None:
    mesh = strand_mesh(sections, 1)
    kept, cap = cut(mesh, Cut((1.0, 0.0, 0.0), -1e3))
    assert kept is mesh
    assert len(cap.faces) == 0
    gone, cap = cut(mesh, Cut((1.0, 0.0, 0.0), 1e3))
    assert len(gone.faces) == len(cap.faces) == 0
