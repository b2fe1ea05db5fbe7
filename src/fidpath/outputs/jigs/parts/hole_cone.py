"""Hole cone: pushed into a hole by hand, it shows how wide the hole is, and stops where no hole may be wider.

A round body of the hole's own girth: a land for each width, easy slopes between them, a ring round the middle of each
land, and a plate to hold it by that carries the sizes. It is printed as it stands, the plate on the bed.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fidpath.arrays import Floats
from fidpath.outputs.jigs.lettering import block, block_height, width
from fidpath.outputs.jigs.manifolds import closed, revolved
from fidpath.outputs.jigs.paths import box
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Plate, Size
from fidpath.outputs.jigs.plates import band_of, body_of, plate, words_of
from fidpath.outputs.jigs.sizes import engraved, foot, with_unit
from fidpath.outputs.jigs.turning import revolved_volume
from fidpath.planning import Plan

SLOPE = 6.0
"""Height to each mm of radius: half an angle of 9.5 degrees, that strands slide up (own choice, no source)."""

LAND = 4.0
"""Height of a land, mm: a caliper's jaws have room on it."""

RING = 0.25
"""Depth of a ring, mm; it is twice as wide, and no strand catches on it."""

MARGIN = 3.0
SUNK = 1.0
"""How far the cone runs into its plate, mm."""

TIP = 0.15
"""Radius of the cone's tip in rope diameters; at least LEAST_TIP mm."""

LEAST_TIP = 0.6


@dataclass(frozen=True)
class HoleWidth:
    """A width that a hole is opened to: what it is called, and mm across."""

    label: str
    across: float


def widths_of(plan: Plan) -> tuple[HoleWidth, ...]:
    """The widths the cone shows, the least first; the last is the one beyond which no hole is opened."""
    opened, most = plan.openings, plan.openings.most_across
    across = (opened.h1_across, opened.h2_across)
    named = [HoleWidth(*each) for each in zip(plan.opened, across, strict=False) if each[1] < most - 0.2]
    return (*named, HoleWidth("NEVER BEYOND", most))


def outside(plan: Plan) -> Floats:
    """The cone's outer profile from its foot to its tip: distance from the axis and height, `(m, 2)` mm.

    The lands end on whole heights of their own: the widest stands lowest.
    """
    widths = [each.across / 2 for each in widths_of(plan)][::-1]
    tip = min(max(TIP * plan.braid.diameter, LEAST_TIP), 0.8 * widths[-1])
    rows, foot_at = [], 0.0
    for radius, after in pairwise([*widths, tip]):
        middle = foot_at + LAND / 2
        ring = [(radius, middle - RING), (radius - RING, middle), (radius, middle + RING)]
        rows += [(radius, foot_at), *ring, (radius, foot_at + LAND)]
        foot_at += LAND + SLOPE * (radius - after)
    angle = np.linspace(0.0, np.pi / 2, 13)
    dome = np.column_stack([tip * np.cos(angle), foot_at + tip * np.sin(angle)])
    dome[-1, 0] = 0.0
    return np.concatenate([np.array(rows), dome])


def hole_cone(plan: Plan) -> Jig:
    """The cone on its plate."""
    flat, (x, y) = _plate(plan)
    outer, thick = outside(plan), flat.thickness
    profile = np.concatenate([[[0.0, 0.0]], outer])
    body, known = body_of("hole-cone", flat)
    sunk = np.concatenate([[[0.0, -SUNK], [outer[0, 0], -SUNK]], outer])
    body += revolved(sunk).translate((x, y, thick))
    known += revolved_volume(profile)
    widths = widths_of(plan)
    sizes = tuple(Size(f"land {each.label}", each.across) for each in widths)
    mesh = closed(body, "hole-cone")
    piece = JigPiece("hole-cone", mesh, known, sizes, None, words_of(flat), band_of(flat))
    use = (
        "Push it into the hole by hand, no further than the ring of that hole, counted from the tip: "
        f"{', '.join(each.label for each in widths[:-1])}. Where the strands lie on the ring, the hole is wide enough.",
        "The last land is the widest that a hole may ever be: it is a stop, not an aim.",
        "Ink the rings, and smooth the cone with fine paper before it touches a rope: a layer's edge catches strands.",
    )
    return Jig("hole-cone", "Hole cone", use, (piece,))


def _plate(plan: Plan) -> tuple[Plate, tuple[float, float]]:
    """The plate it is held by, and where the cone's axis stands on it."""
    job, t = plan.job, plan.job.printing.text_height_mm
    radius = plan.openings.most_across / 2
    rows = [f"{each.label} {engraved(each.across, job)}" for each in widths_of(plan)]
    wide = max(2 * radius, 34.0, *(width(row, t) for row in rows)) + 2 * MARGIN
    lines = [*rows, *foot(f"{with_unit(job.rope.diameter_mm, job)} ROPE", t, wide - 2 * MARGIN)]
    wide = max(wide, max(width(line, t) for line in lines) + 2 * MARGIN)
    high = block_height(len(lines), t)
    axis = high + 2 * MARGIN + radius
    texts = block(lines, wide / 2, MARGIN + high, t)
    outline = box(0, 0, wide, axis + radius + MARGIN, 3.0)
    return plate(outline, job.printing.plate_mm, job.printing.nozzle_mm, texts), (wide / 2, axis)
