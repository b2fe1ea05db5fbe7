"""Cone, mark sleeve and nose cap measured on their files, read back by another library than the one that made them."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.outputs.handout.sleeve import places
from fidpath.outputs.jigs.manifolds import of_mesh
from fidpath.outputs.jigs.parts.hole_cone import LAND, hole_cone, widths_of
from fidpath.outputs.jigs.parts.mark_sleeve import BORE, KNUCKLE, PIN, mark_sleeve, shape_of
from fidpath.outputs.jigs.parts.nose_cap import girth_across, nose_cap, wall_of
from fidpath.outputs.jigs.printable import LEAST_WALL, overhang
from jigs.checks import RADIUS, WIDTH
from jigs.plans import a_plan
from jigs.readback import at_height, crossings, from_stl
from jobs import a_job


def test_the_cones_lands_are_the_widths_a_hole_may_have() -> None:
    plan = a_plan()
    opened = plan.openings
    body = from_stl(hole_cone(plan).pieces[0])
    asked = [opened.h1_across, opened.h2_across, opened.most_across]
    assert [each.across for each in widths_of(plan)] == asked
    thick = plan.job.printing.plate_mm
    levels = np.arange(thick + 0.5, body.bounds[1, 2] - 2.0, 0.25)
    across = np.array([np.ptp(at_height(body, float(z))[:, :, 0]) for z in levels])
    for size in asked:
        on_it = levels[np.abs(across - size) < 2 * RADIUS]
        assert np.ptp(on_it) >= LAND - 1.0, size
    assert across.max() == pytest.approx(opened.most_across, abs=2 * RADIUS)
    assert overhang(hole_cone(plan).pieces[0])[0] < 30.0
    engraved = " ".join(hole_cone(plan).pieces[0].texts)
    assert "H1 7.5" in engraved and "H2 12.27" in engraved and "NEVER BEYOND 15" in engraved


def test_the_cone_of_a_plain_eye_has_its_entry() -> None:
    assert [each.label for each in widths_of(a_plan(a_job(splice="plain")))] == ["E", "NEVER BEYOND"]


def window_heights(body) -> list[float]:  # type: ignore[no-untyped-def]
    """Heights of the windows' middles in a shell's upright middle plane, as read."""
    import trimesh

    lines = trimesh.intersections.mesh_plane(body, [1, 0, 0], [0, 0, 0])[:, :, 1:]
    wall = float(lines[:, :, 0].max()) - 0.5
    edges = crossings(lines, 0, wall)
    return list((edges[1:-1:2] + edges[2:-1:2]) / 2)


@pytest.mark.parametrize("strands", [8, 12, 16])
def test_the_sleeves_windows_are_the_legal_places(strands: int) -> None:
    """Every second pick along the rope, half-way round in the other shell, as on the paper sleeve of the handout."""
    plan = a_plan(a_job(strands=strands))
    shape = shape_of(plan)
    for piece in mark_sleeve(plan).pieces:
        found = window_heights(from_stl(piece))
        picks = (np.array(found) - shape.length / 2) / plan.pick
        assert picks == pytest.approx(np.round(picks / 2) * 2, abs=WIDTH)
        legal = {(place.along, place.round) for place in places(plan.braid, 20)}
        assert all((round(along), half) in legal for along in picks for half in (0, strands // 2))
        assert 0 in np.round(picks)
        if strands == 12:
            assert list(np.round(picks)) == [-4, -2, 0, 2, 4]


def test_the_sleeve_goes_round_the_rope_shuts_and_opens() -> None:
    plan = a_plan()
    shape = shape_of(plan)
    one, other = (of_mesh(piece.mesh) for piece in mark_sleeve(plan).pieces)
    turned = other.rotate((180.0, 0.0, 0.0)).translate((0.0, 0.0, shape.length))
    assert (one ^ turned).volume() < 1e-6
    for angle in (20.0, 60.0, 100.0):
        opened = turned.translate((shape.hinge, 0.0, 0.0)).rotate((0.0, 0.0, -angle))
        assert (one ^ opened.translate((-shape.hinge, 0.0, 0.0))).volume() < 1e-6, angle
    bore = np.ptp(at_height(from_stl(mark_sleeve(plan).pieces[0]), 2.0).reshape(-1, 2), axis=0)
    assert bore[1] > shape.outer
    assert 2 * shape.bore == plan.job.rope.diameter_max_mm
    assert PIN < BORE < KNUCKLE


def test_a_sleeve_needs_no_support_and_a_thin_rope_has_none() -> None:
    for piece in mark_sleeve(a_plan()).pieces:
        assert overhang(piece)[0] < 100.0
        assert {"TOP. 10\u00a0MM ROPE", "UNDER. 10\u00a0MM ROPE"} & set(piece.texts)
    with pytest.raises(CannotBeMade, match="room for a window"):
        mark_sleeve(a_plan(a_job(d=3.0)))


def test_the_cap_takes_two_squeezed_legs_and_opens_no_hole_too_far() -> None:
    plan = a_plan()
    piece = nose_cap(plan).pieces[0]
    section = at_height(from_stl(piece), 2.0)
    leg, wall = plan.job.rope.squeeze * 10.0, LEAST_WALL
    long_way, short_way = crossings(section, 1, 0.0), crossings(section, 0, 0.0)
    assert np.diff(long_way) == pytest.approx([wall, 2 * leg, wall], abs=2 * RADIUS)
    assert np.diff(short_way) == pytest.approx([wall, leg, wall], abs=2 * RADIUS)
    girth = 2 * leg + np.pi * (leg + 2 * wall)
    assert girth_across(plan) == pytest.approx(girth / np.pi)
    assert girth_across(plan) <= plan.openings.most_across
    assert overhang(piece)[0] == pytest.approx(0.0, abs=0.5)
    assert wall_of(plan) == LEAST_WALL


def test_no_cap_where_it_would_force_the_hole_or_there_is_no_bight() -> None:
    with pytest.raises(CannotBeMade, match=r"beyond 4\.5 mm"):
        nose_cap(a_plan(a_job(d=3.0)))
    with pytest.raises(CannotBeMade, match="no bight"):
        nose_cap(a_plan(a_job(splice="plain")))
