"""How deep drawn strands run into one another and into the terminator: every vertex of every drawn section.

A drawn strand is the solid between consecutive rings. Its radius at a place is the edge of the section there,
interpolated between the two rings, in the direction of the place from the strand's centre line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.checking.bar_depths import depths_in_bars
from fidpath.checking.overlap import Worst, counted, worst_of
from fidpath.checking.segments import OWN_GAP, alive
from fidpath.geometry import Strands
from fidpath.job import Bar
from fidpath.meshing import clear_of_bodies

ROUNDING = 1e-9
"""How much further than measured sections reach, as a share: more than rounding can."""


class Drawn(Protocol):
    """Drawn sections: rings `(strands, n, rays, 3)`, centres `(strands, n, 3)`, count and rope `(strands,)`.

    stations: of each rope, `(n,)` mm.
    """

    @property
    def rings(self) -> Floats: ...
    @property
    def centres(self) -> Floats: ...
    @property
    def count(self) -> Ints: ...
    @property
    def rope(self) -> Ints: ...
    @property
    def stations(self) -> tuple[Floats, ...]: ...


def drawn_overlap(strands: Strands, drawn: Drawn) -> Worst:
    """Worst depth of a drawn vertex inside another drawn strand, or its own further on, as a share of thickness."""
    ropes = zip(drawn.stations, strands.ropes, strict=True)
    thickness = _by_strand(drawn, [np.interp(station, rope.station, rope.thickness) for station, rope in ropes])
    depth = vertex_depths(drawn, OWN_GAP * strands.diameters) / thickness[..., None]
    station = _by_strand(drawn, drawn.stations)
    return worst_of(depth, counted(station, drawn.count, strands.diameters), station)


def _by_strand(drawn: Drawn, values: Sequence[Floats]) -> Floats:
    """Values of each rope by section as a table by strand, `(strands, n)`, a shorter rope's last one carried on."""
    n = drawn.rings.shape[1]
    return np.stack([np.pad(row, (0, n - len(row)), mode="edge") for row in values])[drawn.rope]


def terminator_overlap(strands: Strands, drawn: Drawn, bars: Sequence[Bar] = ()) -> Worst:
    """Worst depth of a drawn vertex inside the terminator or a fid, mm; all 0 where there is none.

    bars: what of the terminator is drawn as bars, about its crown's centre.
    """
    live = alive(drawn.count, drawn.rings.shape[1])
    if strands.seat is None and not strands.rods:
        return Worst(0.0, 0.0, 0, float(drawn.stations[0][0]))
    points = drawn.rings.reshape(-1, 3)
    depth = np.maximum(-clear_of_bodies(strands, points), 0.0)
    if strands.seat is not None:
        depth = np.maximum(depth, depths_in_bars(points - strands.seat_centre, bars))
    return worst_of(depth.reshape(drawn.rings.shape[:3]), live, _by_strand(drawn, drawn.stations))


def ring_normals(rings: Floats) -> Floats:
    """Unit normals of rings `(..., rays, 3)`, `(..., 3)`, by the area vector of the polygon."""
    area = np.cross(rings, np.roll(rings, -1, axis=-2)).sum(axis=-2)
    return np.asarray(area / np.maximum(np.linalg.norm(area, axis=-1), 1e-300)[..., None])


@dataclass(frozen=True)
class _Solids:
    """Live sections as one list of `m`, and the solids that begin at them.

    rings: `(m, rays, 3)`, counter-clockwise about `normals` `(m, 3)`; centres: `(m, 3)`.
    strand: `(m,) int`; along: `(m,)` mm along the own strand; ahead: `(m, 3)` to the next centre, 0 at a strand's end.
    """

    rings: Floats
    centres: Floats
    normals: Floats
    strand: Ints
    along: Floats
    ahead: Floats


def _solids(drawn: Drawn) -> tuple[_Solids, bool]:
    """The drawn solids, and whether their rings had to be turned about."""
    live = alive(drawn.count, drawn.rings.shape[1])
    rings, centres = drawn.rings[live], drawn.centres[live]
    strand = np.nonzero(live)[0]
    joined = np.append(strand[1:] == strand[:-1], False)
    ahead = np.where(joined[:, None], np.roll(centres, -1, axis=0) - centres, 0.0)
    along = np.append(0.0, np.cumsum(np.linalg.norm(ahead, axis=1))[:-1])
    normals = ring_normals(rings - centres[:, None, :])
    clockwise = float(np.einsum("ij,ij->", normals, ahead)) < 0
    if clockwise:
        rings, normals = np.ascontiguousarray(rings[:, ::-1]), -normals
    return _Solids(rings, centres, normals, strand, along, ahead), clockwise


def _cells(points: Floats, size: float) -> tuple[Ints, Ints, Ints, Ints]:
    """Cubic cells of `size` mm: first place of each cell, points by cell, cell of each point, cells along each axis."""
    index = np.floor((points - points.min(axis=0)) / size).astype(np.int64)
    shape = index.max(axis=0) + 1
    cell = (index[:, 0] * shape[1] + index[:, 1]) * shape[2] + index[:, 2]
    begin = np.append(0, np.cumsum(np.bincount(cell, minlength=int(shape.prod()))))
    return begin.astype(np.int64), np.argsort(cell, kind="stable"), cell, shape


def vertex_depths(drawn: Drawn, own_gap: Floats | float) -> Floats:
    """Depth of every vertex in another drawn strand, `(strands, n, rays) float` mm; 0 where it lies in none.

    Its own strand counts beyond `own_gap` mm along itself, one for all or `(strands,)`.
    """
    from fidpath.checking.depth_kernels import depths

    s, clockwise = _solids(drawn)
    offsets = s.rings - s.centres[:, None, :]
    reach = np.sqrt(np.einsum("mkc,mkc->mk", offsets, offsets).max(axis=1))
    step = np.linalg.norm(s.ahead, axis=1)
    ball = np.where(step > 0, np.maximum(reach, np.roll(reach, -1)) + step / 2, -reach)
    middle = s.centres + s.ahead / 2
    begin, order, cell, shape = _cells(middle, 2 * float(np.abs(ball).max()) + float(step.max()) / 2)
    found = np.zeros(s.rings.shape[:2])
    depths(
        found,
        s.rings,
        s.centres,
        offsets,
        s.normals,
        middle,
        ball,
        reach * (1 + ROUNDING),
        s.strand,
        s.along,
        np.broadcast_to(np.asarray(own_gap, dtype=float), len(drawn.count))[s.strand],
        begin,
        order,
        cell,
        shape,
    )
    out = np.zeros(drawn.rings.shape[:3])
    out[alive(drawn.count, drawn.rings.shape[1])] = found[:, ::-1] if clockwise else found
    return out
