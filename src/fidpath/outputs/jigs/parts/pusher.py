"""Tail pusher: a rod with a forked end that sends the tail after the fid, and a flat handle that carries its words."""

from __future__ import annotations

from typing import Any

import numpy as np

from fidpath.outputs.jigs.lettering import block, block_height, width
from fidpath.outputs.jigs.manifolds import closed, revolved
from fidpath.outputs.jigs.parts.fid import BED_EDGE, WALL, full_length, lying, segment_area
from fidpath.outputs.jigs.paths import box
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Plate, Size
from fidpath.outputs.jigs.plates import band_of, body_of, plate, words_of
from fidpath.outputs.jigs.sizes import with_unit
from fidpath.planning import Plan

RADIUS = 0.225
"""Radius of the rod in rope diameters: it follows a squeezed tail through the cover (own choice, no source)."""

LEAST_RADIUS = 1.0
RISE = 0.7
"""How far the rod's axis lies above the bed, as a share of its radius: no steeper overhang than half a right angle."""

SUNK = 2.0
"""How far the rod runs into the handle, mm."""

MARGIN = 3.0


def tail_pusher(plan: Plan) -> Jig:
    """The rod on its handle, as long as a fid or as the bed allows."""
    printing, radius = plan.job.printing, max(RADIUS * plan.braid.diameter, LEAST_RADIUS)
    flat, (wide, high) = _handle(plan)
    length = min(full_length(plan), max(printing.bed_mm[:2]) - 2 * BED_EDGE - wide)
    body, known = body_of("tail-pusher", flat)
    body += _rod(radius, length + SUNK).translate((wide - SUNK, high / 2, RISE * radius))
    section = np.pi * radius**2 - float(segment_area(radius, RISE * radius))
    hidden = section - float(segment_area(radius, min(flat.thickness - RISE * radius, radius)))
    known += section * (length + SUNK) - hidden * SUNK
    slot = 0.5 * radius
    notes: tuple[str, ...] = ()
    if 0.75 * radius >= WALL:
        body -= _slot(slot, radius).translate((wide + length, high / 2, RISE * radius))
        known -= _slot_area(slot / 2, radius) * 1.2 * radius
    else:
        notes = ("The rod is too thin for a fork: its end is plain.",)
    sizes = (Size("rod, across", 2 * radius), Size("rod, from the handle", length))
    mesh = closed(body, "tail-pusher")
    piece = JigPiece("tail-pusher", mesh, known, sizes, None, words_of(flat), band_of(flat))
    use = (
        "Set the tail's end in the fork and push it along behind the fid; push along the rod, not across it.",
        "Smooth it with fine paper before it touches a rope.",
    )
    return Jig("tail-pusher", "Tail pusher", use, (piece,), notes)


def _handle(plan: Plan) -> tuple[Plate, tuple[float, float]]:
    """The handle as a plate, and its size."""
    printing, t = plan.job.printing, plan.job.printing.text_height_mm
    lines = ["PUSHER", f"{with_unit(plan.braid.diameter, plan.job)} ROPE"]
    wide, high = max(width(line, t) for line in lines) + 2 * MARGIN, block_height(2, t) + 2 * MARGIN
    high = max(high, 2.5 * RADIUS * plan.braid.diameter)
    texts = block(lines, wide / 2, (high + block_height(2, t)) / 2, t)
    return plate(box(0, 0, wide, high, 3.0), printing.plate_mm, printing.nozzle_mm, texts), (wide, high)


def _rod(radius: float, length: float) -> Any:
    """A round rod along x, cut flat below."""
    rod = lying(revolved([(0.0, 0.0), (radius, 0.0), (radius, length), (0.0, length)]))
    return rod.trim_by_plane((0.0, 0.0, 1.0), -RISE * radius)


def _slot(across: float, radius: float) -> Any:
    """What makes the fork, to be taken off the rod's end."""
    from manifold3d import Manifold

    return Manifold.cube((2.4 * radius, across, 4 * radius), True)


def _slot_area(half: float, radius: float) -> float:
    """Area in mm2 of the rod's section within `half` mm of its middle plane (elementary geometry)."""
    top = radius**2 * np.arcsin(half / radius) + half * np.sqrt(radius**2 - half**2)
    return float(top + 2 * half * RISE * radius)
