"""A rope state -> its strands before settling, laid at full thickness (`thinning` has the starts)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Hole, Opening, Strands, of_one_rope, of_ropes, padded, straight
from fidpath.states.draping import laid_rope, strand_counts, strand_points
from fidpath.states.rope_state import Pass, RopePath, RopeState


@dataclass(frozen=True)
class Draft:
    """Strands laid by the braid's law: `laid` at full thickness, `thin` with the guests shrunk; rest lengths in mm.

    `rest` is `(strands, n - 1) float`: each strand's own length between columns, from straight rope.
    """

    laid: Strands
    thin: Floats
    rest: Floats


def draft_of(state: RopeState) -> Draft:
    """The state's strands as laid, nothing shrunk yet."""
    holes = tuple(hole_of(state, passing) for passing in state.passes)
    openings = [state.openings_of(rope) for rope in range(len(state.ropes))]
    ropes, rest = zip(*map(_laid, state.ropes, openings), strict=True)
    bodies = {"seat": state.seat, "seat_centre": np.array(state.seat_centre), "rods": state.rods}
    laid = of_ropes(ropes, holes=holes, bury=state.bury, **bodies)
    n = laid.points.shape[1]
    return Draft(laid, laid.points, np.concatenate([padded(one, n - 1) for one in rest]))


def strained(state: RopeState) -> float:
    """How far the strand that its rope's bends lengthen or shorten most is off its own length, as laid; a share."""
    draft = draft_of(state)
    live = np.arange(draft.rest.shape[1])[None, :] < (draft.laid.count - 1)[:, None]
    now = (np.linalg.norm(np.diff(draft.laid.points, axis=1), axis=2) * live).sum(axis=1)
    return float(np.abs(now / (draft.rest * live).sum(axis=1) - 1).max())


def hole_of(state: RopeState, passing: Pass) -> Hole:
    """A pass as the strands list it."""
    opening = state.opening(passing.hole)
    length = 2 * opening.half
    return Hole(passing.hole, opening.host, passing.guest, length, passing.face, opening.rope, passing.rope)


def _laid(path: RopePath, openings: tuple[Opening, ...]) -> tuple[Strands, Floats]:
    """One rope, with its openings, by itself, and its strands' rest lengths `(strands, n - 1)` mm."""
    laid = laid_rope(path, openings)
    points, count = strand_points(path, openings, laid), strand_counts(path, laid.station)
    plain = straight(path.braid, laid.station + path.braid.pick)
    return of_one_rope(laid, points, count), np.linalg.norm(np.diff(plain, axis=1), axis=2)
