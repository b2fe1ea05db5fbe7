"""Which part of the rope each face of a model shows: an opened hole's two groups, the eye, the tail and so on.

The fused model's faces take the part of the nearest place of the strands as they are drawn, by the scene's own rule.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part
from fidpath.outputs.jigs.pieces import FaceColours

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from fidpath.settling import SettledState

RAYS = 10
"""Rays of the sections that a face's part is looked up on."""


def part_at(made: SettledState, places: Floats) -> NDArray[np.uint8]:
    """The part of the rope nearest to each place `(n, 3)` mm of a step, `(n,) uint8`; see `geometry.Part`."""
    from scipy.spatial import cKDTree

    points, parts = _drawn_parts(made)
    return np.asarray(parts[cKDTree(points).query(places)[1]])


def _drawn_parts(made: SettledState) -> tuple[Floats, NDArray[np.uint8]]:
    """The drawn strands' vertices `(v, 3)` mm and the part that shows at each `(v,)`."""
    from fidpath.meshing import sections_of, strand_mesh
    from fidpath.scene import Model, is_open, lines_of, rope_solid

    strands = made.settled.strands
    sections = sections_of(strands, rays=RAYS, refine=1)
    model = Model(made.state, strands, lines_of(made).lines, sections)
    meshes = [strand_mesh(sections, k, 0, int(count) - 1) for k, count in enumerate(sections.count) if count > 2]
    worked_on = [opening for opening in made.state.openings if is_open(model, opening)][-1:]
    solid = rope_solid(model, meshes, worked_on)
    return solid.mesh.points, solid.parts


def face_colours(made: SettledState, corners: Floats) -> FaceColours:
    """Colours of a model's faces, given their corners `(f, 3, 3)` in mm of the step itself."""
    from fidpath.scene import PART_WORDS, colour_of

    parts = part_at(made, corners.mean(axis=1))
    found = [Part(int(number)) for number in np.unique(parts)]
    colours = [colour_of(part) for part in found]
    unique = list(dict.fromkeys(colours))
    names = tuple(
        "; ".join(PART_WORDS[part] for part, own in zip(found, colours, strict=True) if own == colour)
        for colour in unique
    )
    place = np.zeros(256, dtype=np.int64)
    for part, colour in zip(found, colours, strict=True):
        place[part] = unique.index(colour)
    return FaceColours(names, tuple(unique), place[parts])
