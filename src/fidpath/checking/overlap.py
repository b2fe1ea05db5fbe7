"""How deep strands run into one another: for every node, its worst overlap as a share of strand thickness."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.checking.segments import OWN_GAP, Segments, alive, apart, closest, near_pairs, segments_of
from fidpath.geometry import Strands

CHUNK = 200_000


@dataclass(frozen=True)
class Worst:
    """The worst and the 99th percentile of a measure, and where the worst lies: strand, rope station in mm."""

    max: float
    p99: float
    strand: int
    station: float


def overlap(strands: Strands) -> Worst:
    """Worst overlap of strands at full thickness, as a share of it, away from the model's own two cut ends."""
    station = strands.by_strand(lambda rope: rope.station)
    live = counted(station, strands.count, strands.diameters)
    return worst_of(node_overlaps(strands), live, station)


def worst_of(values: Floats, live: Bools, station: Floats) -> Worst:
    """Worst and 99th percentile of `values` `(strands, n, ...)` over the live columns `(strands, n)`.

    station: `(strands, n)` mm.
    """
    per_node = values.reshape(*live.shape, -1)
    masked = np.where(live, per_node.max(axis=2), -1.0)
    strand, column = np.unravel_index(int(np.argmax(masked)), masked.shape)
    return Worst(
        float(max(masked[strand, column], 0.0)),
        float(np.quantile(per_node[live], 0.99)) if live.any() else 0.0,
        int(strand),
        float(station[strand, column]),
    )


def counted(station: Floats, count: Ints, margin: Floats) -> Bools:
    """Live columns further than `margin` `(strands,)` mm from their rope's first and last station, `(strands, n) bool`.

    station: `(strands, n)` mm, a shorter rope's last one carried on.
    """
    inner = (station > station[:, :1] + margin[:, None]) & (station < station[:, -1:] - margin[:, None])
    return np.asarray(alive(count, station.shape[1]) & inner)


def node_overlaps(strands: Strands) -> Floats:
    """Every node's worst overlap `(strands, n) float`, as a share of the two strands' mean thickness; 0 where none."""
    pieces = segments_of(strands)
    i, j = near_pairs(pieces, float(max(rope.thickness.max() for rope in strands.ropes)))
    keep = apart(pieces, i, j, OWN_GAP * strands.diameters[pieces.strand[i]])
    i, j = i[keep], j[keep]
    worst = np.zeros(strands.points.shape[:2])
    for at in range(0, len(i), CHUNK):
        _deepen(worst, pieces, i[at : at + CHUNK], j[at : at + CHUNK])
    return worst


def _deepen(worst: Floats, pieces: Segments, i: Ints, j: Ints) -> None:
    """Enters the overlaps of pairs i, j at the nodes nearest to where they are deepest."""
    x, y, distance = closest(pieces.start[i], pieces.end[i], pieces.start[j], pieces.end[j])
    share = 1 - distance / ((pieces.thickness[i] + pieces.thickness[j]) / 2)
    for piece, place in ((i, x), (j, y)):
        column = pieces.column[piece] + (place > 0.5)
        np.maximum.at(worst, (pieces.strand[piece], column), np.maximum(share, 0.0))
