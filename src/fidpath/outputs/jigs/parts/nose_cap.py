"""Nose cap: a pointed cap that is taped over the apex of the bight, so that it goes into a hole leg beside leg.

Its pocket takes two squeezed legs side by side, its wall is as thick as a printer needs. It is printed on its mouth;
the pocket's roof closes steeply and needs no support.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.manifolds import closed, steps_round
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Size
from fidpath.outputs.jigs.printable import LEAST_WALL
from fidpath.outputs.jigs.turning import between_slots
from fidpath.planning import Plan

POCKET, NOSE = 0.9, 1.8
"""Depth of the pocket's straight part, and length of the nose beyond it, in rope diameters (own choice, no source)."""

ROOF = 1.2
"""Height of the pocket's roof to each mm that it closes by: steeper than half a right angle."""

TIP = 0.12
"""Radius of the nose's tip in rope diameters; at least LEAST_TIP mm."""

LEAST_TIP = 0.8

Slot = tuple[float, float, float]
"""A level slot with round ends: half the distance of their middles, their radius, its height; mm."""


def wall_of(plan: Plan) -> float:
    """The cap's wall, mm."""
    return max(LEAST_WALL, 2 * plan.job.printing.nozzle_mm)


def girth_across(plan: Plan) -> float:
    """Across a round hole that has just the cap's girth, mm."""
    leg = plan.openings.h1_across
    return float(leg + 2 * wall_of(plan) + 2 * leg / np.pi)


def outside(plan: Plan) -> tuple[Slot, ...]:
    """The cap's outer outlines from its mouth to its tip."""
    leg, d, wall = plan.openings.h1_across, plan.braid.diameter, wall_of(plan)
    tip, shoulder = max(TIP * d, LEAST_TIP), POCKET * d
    end = shoulder + NOSE * d
    mouth = (leg / 2, leg / 2 + wall)
    return ((*mouth, 0.0), (*mouth, shoulder), (0.0, tip, end), (0.0, tip / 2, end + tip / 2))


def inside(plan: Plan) -> tuple[Slot, ...]:
    """The pocket's outlines from its mouth to its roof's ridge."""
    leg, shoulder = plan.openings.h1_across, POCKET * plan.braid.diameter
    return ((leg / 2, leg / 2, 0.0), (leg / 2, leg / 2, shoulder), (leg / 2, 0.0, shoulder + ROOF * leg / 2))


def nose_cap(plan: Plan) -> Jig:
    """The cap. Raises CannotBeMade where no bight goes through a hole, or with the cap on it would force the hole."""
    if not plan.lock:
        raise CannotBeMade("no bight goes through a hole in a plain eye", "Leave it out", key="line.ends.splice")
    across, most = girth_across(plan), plan.openings.most_across
    if across > most:
        raise CannotBeMade(
            f"with the cap over it the bight would open H2 to {across:.1f} mm, beyond {most:.1f} mm",
            "Tape the bight to a point instead",
            key="rope.diameter",
        )
    outer, pocket = outside(plan), inside(plan)
    body = _through(outer) - _through(((*pocket[0][:2], -1.0), *pocket[1:]))
    known = _volume(outer) - _volume(pocket)
    leg, wall = plan.openings.h1_across, wall_of(plan)
    sizes = (Size("pocket, long way", 2 * leg), Size("pocket, short way", leg), Size("wall", wall))
    use = (
        "Fold the bight tight, press its legs together, slip the cap over the apex and tape it on.",
        "Ease it into the hole by the dot and take it off when the apex is through. Don't pull on it.",
        f"Over it the hole is as wide as a round one of {across:.1f} mm; never open a hole beyond {most:.1f} mm.",
        "Smooth it with fine paper before it touches a rope.",
    )
    piece = JigPiece("nose-cap", closed(body, "nose-cap"), known, sizes)
    return Jig("nose-cap", "Nose cap for the bight", use, (piece,))


def _ring(slot: Slot) -> Floats:
    """Points `(n, 3)` round a slot; its two ends alone where it has no width."""
    half, radius, height = slot
    if radius == 0:
        return np.array([[-half, 0.0, height], [half, 0.0, height]])
    angle = 2 * np.pi * np.arange(steps := 2 * steps_round(radius)) / steps
    x, y = radius * np.cos(angle), radius * np.sin(angle)
    points = np.concatenate([np.column_stack([x + side * half, y]) for side in (-1.0, 1.0)])
    return np.column_stack([points, np.full(len(points), height)])


def _through(slots: tuple[Slot, ...]) -> Any:
    """The body through these slots, each two joined straight."""
    from manifold3d import Manifold

    body = Manifold()
    for low, high in pairwise(slots):
        body += Manifold.hull_points(np.concatenate([_ring(low), _ring(high)]))
    return body


def _volume(slots: tuple[Slot, ...]) -> float:
    return sum(between_slots(low[:2], high[:2], high[2] - low[2]) for low, high in pairwise(slots))
