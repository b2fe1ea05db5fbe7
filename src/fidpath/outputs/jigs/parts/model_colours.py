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

Spans = tuple[tuple[float, float], ...]

RAYS, REFINE = 28, 3
"""Rays of the sections that a face's part is looked up on, and sections to each step: so fine that strands part."""


def part_at(made: SettledState, places: Floats, spans: Spans = ()) -> NDArray[np.uint8]:
    """The part of the rope nearest to each place `(n, 3)` mm of a step, `(n,) uint8`; see `geometry.Part`.

    spans: stretches of rope that the places lie on, mm; the whole rope without any.
    """
    from scipy.spatial import cKDTree

    points, parts = _drawn_parts(made, spans)
    return np.asarray(parts[cKDTree(points).query(places)[1]])


def _drawn_parts(made: SettledState, spans: Spans) -> tuple[Floats, NDArray[np.uint8]]:
    """The drawn strands' vertices `(v, 3)` mm and the part that shows at each `(v,)`."""
    from fidpath.meshing import sections_of, strand_mesh
    from fidpath.scene import Model, is_open, lines_of, rope_solid

    strands = made.settled.strands
    near, wanted = strands.braid.diameter, np.full(len(strands.station), not spans)
    for start, end in spans:
        wanted |= (strands.station >= start - near) & (strands.station <= end + near)
    sections = sections_of(strands, rays=RAYS, refine=REFINE, wanted=wanted)
    model = Model(made.state, strands, lines_of(made).lines, sections)
    meshes = [strand_mesh(sections, k, 0, int(count) - 1) for k, count in enumerate(sections.count) if count > 2]
    worked_on = [opening for opening in made.state.openings if is_open(model, opening)][-1:]
    solid = rope_solid(model, meshes, worked_on)
    return solid.mesh.points, solid.parts


def face_colours(made: SettledState, corners: Floats, spans: Spans = ()) -> FaceColours:
    """Colours of a model's faces, given their corners `(f, 3, 3)` in mm of the step itself; spans as in `part_at`."""
    from fidpath.scene import PART_WORDS, colour_of

    parts = part_at(made, corners.mean(axis=1), spans)
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
