"""Centre lines as loose straight pieces: what overlaps and crossings are counted on.

A piece knows its strand, the column it starts at, its rope station and its place along its own strand.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Strands

OWN_GAP = 1.5
"""A strand's own rope counts as a neighbour beyond this length along itself, in rope diameters (measured in trials)."""


@dataclass(frozen=True)
class Segments:
    """Straight pieces of strands, `m` of them.

    start, end: `(m, 3) float` mm.  strand, column: `(m,) int`; the piece runs from that column to the next.
    along: `(m,) float` mm, the middle's place along its own strand.
    station: `(m,) float` mm, the middle's rope station.  thickness: `(m,) float` mm, the strand's there.
    """

    start: Floats
    end: Floats
    strand: Ints
    column: Ints
    along: Floats
    station: Floats
    thickness: Floats

    @property
    def middle(self) -> Floats:
        """Middles, `(m, 3) float` mm."""
        return (self.start + self.end) / 2

    @property
    def length(self) -> Floats:
        """Lengths, `(m,) float` mm."""
        return np.asarray(np.linalg.norm(self.end - self.start, axis=1))


def alive(count: Ints, columns: int) -> Bools:
    """Which columns each strand lives in, `(strands, columns) bool`."""
    return np.arange(columns)[None, :] < count[:, None]


def segments_of(strands: Strands) -> Segments:
    """All live pieces of all strands, strand by strand."""
    points = strands.points
    step = np.linalg.norm(np.diff(points, axis=1), axis=2)
    along = np.cumsum(step, axis=1) - step / 2
    live = alive(strands.count - 1, points.shape[1] - 1)
    strand, column = np.nonzero(live)
    return Segments(
        start=points[:, :-1][live],
        end=points[:, 1:][live],
        strand=strand.astype(np.int64),
        column=column.astype(np.int64),
        along=along[live],
        station=_halfway(strands.by_strand(lambda rope: rope.station))[live],
        thickness=_halfway(strands.by_strand(lambda rope: rope.thickness))[live],
    )


def _halfway(table: Floats) -> Floats:
    """Values between columns, `(strands, n) -> (strands, n - 1)`."""
    return np.asarray((table[:, 1:] + table[:, :-1]) / 2)


def closest(p: Floats, q: Floats, r: Floats, s: Floats) -> tuple[Floats, Floats, Floats]:
    """Nearest points of pieces pq and rs, all `(m, 3)`: their shares along each and their distance, `(m,)` each.

    Elementary: the interior solution where it lies in both pieces, else the best of the four ends.
    """
    u, v, w = q - p, s - r, p - r
    a, b, c = _dot(u, u), _dot(u, v), _dot(v, v)
    d, e = _dot(u, w), _dot(v, w)
    det = a * c - b * b
    x = np.clip(np.divide(b * e - c * d, det, out=np.zeros_like(det), where=det > 1e-12 * a * c), 0.0, 1.0)
    y = np.clip(np.divide(b * x + e, c, out=np.zeros_like(c), where=c > 0), 0.0, 1.0)
    x = np.clip(np.divide(b * y - d, a, out=np.zeros_like(a), where=a > 0), 0.0, 1.0)
    return x, y, np.linalg.norm(w + x[:, None] * u - y[:, None] * v, axis=1)


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))


def near_pairs(pieces: Segments, reach: float) -> tuple[Ints, Ints]:
    """Pairs of pieces that may come nearer than `reach` mm and aren't neighbours on one strand, `(pairs,) int` each.

    Pieces longer than most are looked for further out, so that none is missed.
    """
    from scipy.spatial import cKDTree

    middle, half = pieces.middle, pieces.length / 2
    usual = float(np.quantile(half, 0.99)) if len(half) else 0.0
    tree = cKDTree(middle)
    found = [tree.query_pairs(reach + 3 * usual, output_type="ndarray")]
    for k in np.nonzero(half > 1.5 * usual)[0]:
        others = tree.query_ball_point(middle[k], reach + half[k] + float(half.max()))
        found.append(np.array([(k, other) for other in others]))
    i, j = np.concatenate(found).astype(np.int64).T
    return i[i != j], j[i != j]


def apart(pieces: Segments, i: Ints, j: Ints, gap: Floats | float) -> Bools:
    """Whether pieces i and j are of different strands, or more than `gap` mm (one for each pair) apart on their own."""
    same = pieces.strand[i] == pieces.strand[j]
    return np.asarray(~same | (np.abs(pieces.along[i] - pieces.along[j]) > gap))
