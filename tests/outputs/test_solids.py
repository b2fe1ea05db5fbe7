"""Solids: closed, positive, in the units their names say, parts by name, the same bytes each time."""

from __future__ import annotations

import io

import numpy as np
import pytest
import trimesh

from fidpath.errors import CannotBeMade
from fidpath.meshing.meshes import Mesh, open_edges, strand_mesh, volume
from fidpath.meshing.sections import sections_of
from fidpath.meshing.terminator_body import terminator_mesh
from fidpath.outputs.solids import RAYS, check, files, rope_parts
from fidpath.planning.planner import make_plan
from fidpath.scene.part_words import PART_WORDS
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from jobs import a_job


@pytest.fixture(scope="module")
def splice():  # type: ignore[no-untyped-def]
    plan = make_plan(a_job(bury=15.0, bearing=3.0))
    return plan, draft_of(state_of(plan, "buried")).laid


@pytest.fixture(scope="module")
def written(splice) -> dict[str, bytes]:  # type: ignore[no-untyped-def]
    return files("splice", splice[0].job.terminator, splice[1])


def _bodies(splice) -> list[Mesh]:  # type: ignore[no-untyped-def]
    plan, strands = splice
    sections = sections_of(strands, rays=RAYS, refine=1)
    rope = [strand_mesh(sections, k) for k in range(len(strands.points))]
    return [*rope, terminator_mesh(plan.job.terminator, strands.seat_centre)]


def test_the_stl_reads_back_closed_with_the_bodies_volume(splice, written) -> None:  # type: ignore[no-untyped-def]
    read = trimesh.load(io.BytesIO(written["splice-mm.stl"]), file_type="stl")
    bodies = _bodies(splice)
    assert read.is_watertight
    assert read.is_winding_consistent
    assert read.volume == pytest.approx(sum(volume(body) for body in bodies), rel=1e-4)
    assert len(read.faces) == sum(len(body.faces) for body in bodies)


def test_the_stl_is_binary_and_in_millimetres(splice, written) -> None:  # type: ignore[no-untyped-def]
    content = written["splice-mm.stl"]
    number = int(np.frombuffer(content[80:84], dtype="<u4")[0])
    assert len(content) == 84 + 50 * number
    read = trimesh.load(io.BytesIO(content), file_type="stl")
    points = np.concatenate([body.points for body in _bodies(splice)])
    assert read.bounds == pytest.approx(np.stack([points.min(axis=0), points.max(axis=0)]), abs=1e-3)


def test_the_glb_names_its_parts_and_is_in_metres(splice, written) -> None:  # type: ignore[no-untyped-def]
    plan, strands = splice
    scene = trimesh.load(io.BytesIO(written["splice.glb"]), file_type="glb")
    assert set(scene.geometry) == {PART_WORDS[part.part] for part in strands.parts} | {"terminator"}
    terminator = scene.geometry["terminator"]
    want = terminator_mesh(plan.job.terminator)
    assert np.ptp(terminator.vertices, axis=0) == pytest.approx(np.ptp(want.points, axis=0) / 1000, rel=1e-4)


def test_every_part_is_closed_and_together_they_are_the_rope(splice) -> None:  # type: ignore[no-untyped-def]
    _, strands = splice
    sections = sections_of(strands, rays=RAYS, refine=1)
    parts = rope_parts(strands, sections)
    assert list(parts) == [part.part for part in strands.parts]
    assert all(open_edges(mesh) == 0 and volume(mesh) > 0 for mesh in parts.values())
    whole = sum(volume(strand_mesh(sections, k)) for k in range(len(strands.points)))
    assert sum(volume(mesh) for mesh in parts.values()) == pytest.approx(whole, rel=1e-3)


def test_same_splice_same_bytes(splice, written) -> None:  # type: ignore[no-untyped-def]
    assert files("splice", splice[0].job.terminator, splice[1]) == written


def test_open_and_inside_out_bodies_are_refused(splice) -> None:  # type: ignore[no-untyped-def]
    body = _bodies(splice)[0]
    check("strand 0", body)
    with pytest.raises(CannotBeMade, match="strand 0"):
        check("strand 0", Mesh(body.points, body.faces[1:]))
    with pytest.raises(CannotBeMade, match="positive volume"):
        check("strand 0", Mesh(body.points, body.faces[:, ::-1]))
