"""Regions of a panel: what shows, what hides, and the lines between."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.lineart.ink import Lines
from fidpath.outputs.lineart.panel_lines import CONTOUR
from fidpath.outputs.lineart.regions import regions
from fidpath.outputs.pictures.raster import FINE, seen
from fidpath.scene.scene import Ghost, Solid
from scenes.line_art import art_of, flat_bar, flat_square, panel_of, scene_named


def test_regions_are_counted_and_hidden_lines_left_out() -> None:
    across, along = (
        Solid(flat_bar(50.0, 8.0, 0.0), Part.TERMINATOR),
        Solid(flat_bar(8.0, 30.0, 5.0), Part.KNIFE_HANDLE),
    )
    art = art_of(panel_of(across, along), 1.0, 0.1)
    assert art.regions == 4, "the near bar, the far one's two ends, and the paper round them"
    contours = next(ink for ink in art.inks if isinstance(ink, Lines) and ink.name == "contours")
    places = np.concatenate([np.linspace(a, b, 9) for line in contours.lines for a, b in pairwise(line)])
    inside = (np.abs(places[:, 0] - 150) < 18) & (np.abs(places[:, 1] - 100) < 70)
    assert not inside.any()


def test_neighbouring_strands_are_parted_by_a_line_of_their_own_weight() -> None:
    left, right = flat_square(10.0, x=-5.0), flat_square(10.0, x=5.0)
    points = np.concatenate([left.points, right.points])
    mesh = Mesh(points, np.concatenate([left.faces, right.faces + 4]), np.tile([0.0, 0.0, 1.0], (8, 1)))
    rope = Solid(mesh, Part.EYE)
    art = art_of(panel_of(rope), 4.0, 0.1)
    names = {ink.name: ink for ink in art.inks if isinstance(ink, Lines)}
    assert art.regions == 3
    middle = np.concatenate(names["strands"].lines)
    assert np.abs(middle[:, 0] - 150).max() < 1
    assert names["strands"].width < names["contours"].width == CONTOUR
    assert "strands" not in {i.name for i in art_of(panel_of(rope), 0.5, 0.1).inks if isinstance(i, Lines)}, "crowded"


def test_a_step_back_within_one_surface_is_drawn() -> None:
    low, high = flat_square(20.0), flat_square(10.0, 6.0)
    points = np.concatenate([low.points, high.points, [[0.0, 0.0, 3.0]]])
    faces = np.concatenate([low.faces, high.faces + 4, [[0, 1, 8], [4, 5, 8]]])
    solid = Solid(Mesh(points, faces, np.tile([0.0, 0.0, 1.0], (9, 1))), Part.TERMINATOR)
    assert len(regions(seen(panel_of(solid))).tone) == 3


def test_specks_are_given_to_a_neighbour() -> None:
    panel = panel_of(Solid(flat_square(20.0), Part.TERMINATOR), Solid(flat_square(0.2, 3.0), Part.ARROW))
    assert len(regions(seen(panel)).tone) == 2


def test_what_was_before_is_a_faint_broken_line_on_paper_alone() -> None:
    ghost = Ghost(np.array([[-25.0, 0.0, 0.0], [25.0, 0.0, 0.0]]), 4.0)
    art = art_of(panel_of(Solid(flat_square(16.0), Part.TERMINATOR), ghosts=(ghost,)), 1.0, 0.1)
    before = next(ink for ink in art.inks if isinstance(ink, Lines) and ink.name == "before")
    assert before.dash and before.grey > 0.3
    places = np.concatenate(before.lines)
    assert not ((np.abs(places[:, 0] - 150) < 38) & (np.abs(places[:, 1] - 100) < 38)).any()


def test_what_is_turned_away_is_hidden_by_what_is_before_it() -> None:
    for panel in scene_named("on-terminator").panels:
        double = [
            replace(s, mesh=replace(s.mesh, faces=np.concatenate([s.mesh.faces, s.mesh.faces[:, ::-1]])))
            for s in panel.solids
        ]
        once, twice = seen(panel), seen(replace(panel, solids=tuple(double)))
        np.testing.assert_array_equal(once.front, twice.front)


def test_faces_show_where_they_lie_and_nearer_ones_hide_others() -> None:
    near, far = (
        Solid(flat_square(20.0, 5.0), Part.KNIFE_HANDLE),
        Solid(flat_square(40.0, -5.0), Part.TERMINATOR),
    )
    view = seen(panel_of(far, near))
    number = {name: int(np.isin(view.face, faces).sum()) for name, faces in (("far", [0, 1]), ("near", [2, 3]))}
    near, far = (100 * FINE) ** 2, (200 * FINE) ** 2
    assert number == {"near": near, "far": far - near}
    assert view.front[100 * FINE, 150 * FINE] == pytest.approx(5.0)
    assert view.front[100 * FINE, 60 * FINE] == pytest.approx(-5.0)
    assert np.isneginf(view.front[0, 0])
