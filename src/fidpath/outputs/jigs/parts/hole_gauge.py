"""Hole gauge: the hole gap as the width of a tongue, the hole spacing along the rope as the distance of two notches."""

from __future__ import annotations

from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.lettering import block, block_height, width
from fidpath.outputs.jigs.paths import Outline, rounded
from fidpath.outputs.jigs.pieces import Jig, Size
from fidpath.outputs.jigs.plates import piece_of, plate
from fidpath.outputs.jigs.sizes import engraved, foot, with_unit
from fidpath.planning import Plan

NOTCH = 1.6
"""Width of a marking notch, mm: a pen's tip or a pin goes in."""

NOTCH_DEPTH = 5.0
MARGIN = 2.0
CORNER = 0.5
"""Radius of the tongue's corners and the notches' mouths, mm."""


def outline_of(wide: float, high: float, gap: float, tongue: float, spacing: float, notch: float) -> Outline:
    """A plate `high` mm high, the tongue on its top edge and the notches in its bottom edge, all about its middle."""
    middle, half = wide / 2, gap / 2
    corner = min(CORNER, 0.4 * half)
    edge: list[tuple[float, float, float]] = [(0.0, 0.0, 2.0)]
    for x in (middle - spacing / 2, middle + spacing / 2):
        left, right = x - notch / 2, x + notch / 2
        edge += [(left, 0.0, CORNER), (left, NOTCH_DEPTH, notch / 2)]
        edge += [(right, NOTCH_DEPTH, notch / 2), (right, 0.0, CORNER)]
    edge += [(wide, 0.0, 2.0), (wide, high, 2.0), (middle + half, high, CORNER)]
    edge += [(middle + half, high + tongue, corner), (middle - half, high + tongue, corner)]
    return rounded([*edge, (middle - half, high, CORNER), (0.0, high, 2.0)])


def hole_gauge(plan: Plan) -> Jig:
    """The gauge as a plate. Raises CannotBeMade where the plan has no lock, and so no second hole."""
    if not plan.lock:
        raise CannotBeMade("a plain buried eye has one hole", "Leave the hole gauge out", key="line.ends.splice")
    job, t = plan.job, plan.job.printing.text_height_mm
    gap, spacing = plan.eye.zone.gap, plan.rope_between_holes
    rows = [f"GAP {engraved(gap, job)}", f"ALONG LEG {engraved(spacing, job)}"]
    wide = max(spacing + 14.0, gap + 10.0, max(width(row, t) for row in rows) + 6 * MARGIN)
    said = foot(f"{with_unit(job.rope.diameter_mm, job)} ROPE", t, wide - 4 * MARGIN)
    wide = max(wide, max(width(line, t) for line in said) + 4 * MARGIN)
    tall = 4 * MARGIN + NOTCH_DEPTH + block_height(2 + len(said), t) + 2 * t
    tongue = max(8.0, 1.2 * plan.braid.diameter)
    high_row = tall - 2 * MARGIN
    texts = block(rows[:1], wide / 2, high_row, t)
    texts += block(said, wide / 2, high_row - 2.55 * t, t)
    texts += block(rows[1:], wide / 2, NOTCH_DEPTH + 2 * MARGIN + t, t)
    outline = outline_of(wide, tall, gap, tongue, spacing, NOTCH + job.printing.slot_shrink_mm)
    flat = plate(outline, job.printing.plate_mm, job.printing.nozzle_mm, texts)
    asked = (Size("tongue GAP", gap), Size("notches ALONG LEG, middle to middle", spacing))
    use = (
        "GAP, the tongue's width: H2's mark lies this far from where the tail goes into H1, on the eye's side, where "
        "strands cross. Once locked it is the clear rope between the holes' near edges.",
        "ALONG LEG, notch to notch: once locked, rope from H1's middle to H2's middle along either leg; straight "
        "across it is the sheet's hole spacing, which is less.",
    )
    return Jig("hole-gauge", "Hole gauge", use, (piece_of("hole-gauge", flat, asked),))
