"""Settled strands -> drawn sections -> closed meshes, and the terminator's own.

`Strands` come in; `Sections` and `Mesh`es go out. Open `sections` first.
"""

from fidpath.meshing.clearance import clear_of_bodies
from fidpath.meshing.clipping import ROUNDING
from fidpath.meshing.meshes import (
    Cut,
    Mesh,
    cut,
    cut_ways,
    is_closed,
    joined,
    open_edges,
    part_mesh,
    part_strands,
    section_range,
    strand_mesh,
    sweep_faces,
    volume,
)
from fidpath.meshing.sections import INSET, Sections, middle, sections_of, thinned
from fidpath.meshing.terminator_body import terminator_mesh

__all__ = [
    "INSET",
    "ROUNDING",
    "Cut",
    "Mesh",
    "Sections",
    "clear_of_bodies",
    "cut",
    "cut_ways",
    "is_closed",
    "joined",
    "middle",
    "open_edges",
    "part_mesh",
    "part_strands",
    "section_range",
    "sections_of",
    "strand_mesh",
    "sweep_faces",
    "terminator_mesh",
    "thinned",
    "volume",
]
