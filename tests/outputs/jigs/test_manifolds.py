"""Solids on a file's grid, read by trimesh, which merges points as any reader does."""

from __future__ import annotations

import pytest
import trimesh
from manifold3d import Manifold

from fidpath.outputs.jigs.manifolds import GRID, closed


@pytest.mark.parametrize("gap", [0.0, GRID / 8, -GRID / 8])
def test_blocks_that_touch_along_an_edge_are_closed_to_a_reader(gap: float) -> None:
    block = Manifold.cube((10.0, 10.0, 10.0))
    beside = block.translate((10.0 + gap, 10.0 + gap, 0.0))
    bridge = Manifold.cube((20.0, 20.0, 5.0)).translate((0.0, 0.0, 9.0))
    mesh = closed(block + beside + bridge, "blocks")
    read = trimesh.Trimesh(mesh.points, mesh.faces)
    assert read.is_volume
    assert read.volume == pytest.approx(2 * 900 + 2000, rel=1e-4)
