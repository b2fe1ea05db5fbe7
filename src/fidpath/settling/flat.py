"""A draft -> its live nodes as one list, as the compiled loops want them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Strands, table
from fidpath.states import Draft

INDEX_GAP = 1.5
"""Rope between two segments of one strand that count as neighbours, at least, in diameters."""


class Flat(NamedTuple):
    """Live nodes `(n, ...)` of a draft, numbered as in `contact_kernels`, mm, and the bodies beside them.

    x: where they are now, from `begin` on. begin_rest, rest: length of the segment after each node, at the start and as
    laid. thick: thickness of that segment. strand: number of the strand, -1 at its last node. gap: see
    `neighbour_kernels.neighbours`. ignore: near the model's own cut ends. seat: crown, nose, reach, groove, lip, half
    width, or empty; its crown's centre is at `centre`. rods: see `geometry.rods.table`.
    """

    x: Floats
    begin: Floats
    begin_rest: Floats
    laid: Floats
    start: Ints
    rest: Floats
    thick: Floats
    strand: Ints
    gap: Ints
    ignore: Bools
    seat: Floats
    centre: Floats
    rods: Floats


def flatten(draft: Draft, begin: Floats) -> Flat:
    """Live nodes of a draft, beginning at `begin` `(strands, columns, 3)`."""
    laid = draft.laid
    alive = laid.alive
    columns = np.array([rope.braid.diameter / rope.step for rope in laid.ropes])[laid.rope][:, None]
    return Flat(
        x=begin[alive],
        begin=begin[alive],
        begin_rest=_lengths(begin[alive]),
        laid=laid.points[alive],
        start=np.concatenate([[0], np.cumsum(laid.count)]).astype(np.int64),
        rest=np.pad(draft.rest, ((0, 0), (0, 1)))[alive],
        thick=laid.by_strand(lambda rope: _thickest(rope.thickness))[alive],
        strand=_strand(laid),
        gap=np.broadcast_to(np.ceil(INDEX_GAP * columns).astype(np.int64), alive.shape)[alive],
        ignore=_near_cut_ends(laid, columns)[alive],
        seat=_seat(laid),
        centre=np.array(laid.seat_centre, dtype=float),
        rods=table(laid.rods),
    )


def _strand(laid: Strands) -> Ints:
    """Number of the strand that each live node's segment belongs to, -1 for the void one after its last node."""
    alive = laid.alive
    last = np.zeros_like(alive)
    last[np.arange(len(laid.count)), laid.count - 1] = True
    strand = np.where(last, -1, np.arange(len(laid.count))[:, None])
    return strand[alive].astype(np.int64)


def _near_cut_ends(laid: Strands, columns: Floats) -> Bools:
    """Nodes within a diameter of the model's ends, `(strands, n)`; `columns`: how many of them a diameter is."""
    column = np.arange(laid.points.shape[1])[None, :]
    longest = np.array([laid.count[laid.members(rope)].max() for rope in range(len(laid.ropes))])[laid.rope][:, None]
    return np.asarray((column < np.ceil(columns)) | (column >= longest - np.ceil(columns)))


def _lengths(x: Floats) -> Floats:
    """Length of the segment after each node, `(m,)`; meaningless after a strand's last."""
    return np.asarray(np.linalg.norm(np.diff(x, axis=0, append=x[-1:]), axis=1))


def _thickest(thickness: Floats) -> Floats:
    """Thickness of the segment after each column, `(n,)`: that of its thicker end."""
    return np.asarray(np.maximum(thickness, np.append(thickness[1:], thickness[-1])))


def _seat(laid: Strands) -> Floats:
    s = laid.seat
    return np.empty(0) if s is None else np.array([s.crown, s.nose, s.reach, s.groove, s.lip, s.half_width])
