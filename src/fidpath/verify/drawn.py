"""How deep drawn strands run into one another and into the terminator: every vertex of every drawn section.

A drawn strand is the solid between consecutive rings. Its radius at a place is the edge of the section there,
interpolated between the two rings, in the direction of the place from the strand's centre line.
"""

from __future__ import annotations

from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from fidpath.seat import clearance
from fidpath.strands import Strands
from fidpath.verify.overlap import Worst, counted, worst_of
from fidpath.verify.segments import OWN_GAP, alive

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Drawn(Protocol):
    """Drawn sections: rings `(strands, n, rays, 3)`, centres `(strands, n, 3)`, count `(strands,)`, station `(n,)`."""

    @property
    def rings(self) -> Floats: ...
    @property
    def centres(self) -> Floats: ...
    @property
    def count(self) -> Ints: ...
    @property
    def station(self) -> Floats: ...


def drawn_overlap(strands: Strands, drawn: Drawn) -> Worst:
    """Worst depth of a drawn vertex inside another drawn strand, or its own further on, as a share of thickness."""
    thickness = np.interp(drawn.station, strands.station, strands.thickness)
    depth = vertex_depths(drawn, OWN_GAP * strands.braid.diameter) / thickness[None, :, None]
    live = counted(drawn.station, drawn.count, strands.braid.diameter)
    return worst_of(depth, live, drawn.station)


def terminator_overlap(strands: Strands, drawn: Drawn) -> Worst:
    """Worst depth of a drawn vertex inside the terminator, mm; all 0 where there is none."""
    live = alive(drawn.count, len(drawn.station))
    if strands.seat is None:
        return Worst(0.0, 0.0, 0, float(drawn.station[0]))
    off = clearance(strands.seat, drawn.rings.reshape(-1, 3) - strands.seat_centre)
    return worst_of(np.maximum(-off, 0.0).reshape(drawn.rings.shape[:3]), live, drawn.station)


def ring_normals(rings: Floats) -> Floats:
    """Unit normals of rings `(..., rays, 3)`, `(..., 3)`, by the area vector of the polygon."""
    area = np.cross(rings, np.roll(rings, -1, axis=-2)).sum(axis=-2)
    return np.asarray(area / np.maximum(np.linalg.norm(area, axis=-1), 1e-300)[..., None])


def vertex_depths(drawn: Drawn, own_gap: float) -> Floats:
    """Depth of every vertex in another drawn strand, or its own beyond `own_gap` mm, `(strands, n, rays) float` mm."""
    from fidpath.verify.kernels import depths

    live = alive(drawn.count, len(drawn.station))
    rings, centres = drawn.rings[live], drawn.centres[live]
    strand, column = np.nonzero(live)
    normals = ring_normals(rings - centres[:, None, :])
    ahead = np.append(centres[1:], centres[-1:], axis=0) - centres
    joined = np.append(strand[1:] == strand[:-1], False)
    normals *= np.where(np.einsum("ij,ij->i", normals, ahead) < 0, -1.0, 1.0)[:, None] if _turned(normals, ahead) else 1.0
    along = np.cumsum(np.where(joined, np.linalg.norm(ahead, axis=1), 0.0))
    found = depths(rings, centres, normals, strand, joined, np.append(0.0, along[:-1]), own_gap)
    out = np.zeros(drawn.rings.shape[:3])
    out[strand, column] = found
    return out
