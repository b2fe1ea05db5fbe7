"""Rope gauge: slots at the rope's limits, at its nominal diameter, and at the swollen diameter over the bury."""

from __future__ import annotations

from dataclasses import dataclass

from fidpath.outputs.jigs.lettering import LEADING, EngravedText, block, block_height, width
from fidpath.outputs.jigs.paths import Outline, rounded
from fidpath.outputs.jigs.pieces import Jig, Size
from fidpath.outputs.jigs.plates import piece_of, plate
from fidpath.outputs.jigs.sizes import engraved, foot, with_unit
from fidpath.planning import Plan

WALL = 5.0
"""Least plate left between two slots, mm."""

DEPTH = 1.25
"""Depth of a slot in its own widths: the whole rope goes in, and the walls are straight for most of it."""

MOUTH = 1.0
"""Radius of a slot's mouth, mm: nothing for a strand to catch on."""

MARGIN = 2.0
"""From the plate's edge to the nearest word, mm."""


@dataclass(frozen=True)
class Slot:
    """An open slot with a round bottom: what it is for, its width as asked for, and as drawn; mm."""

    label: str
    size: float
    width: float


def slots_of(plan: Plan) -> tuple[Slot, ...]:
    """The gauge's slots from the least to the greatest."""
    rope, shrink = plan.job.rope, plan.job.printing.slot_shrink_mm
    wanted = (
        ("NO GO", rope.diameter_min_mm),
        ("ROPE", rope.diameter_mm),
        ("GO", rope.diameter_max_mm),
        ("BURY", plan.swollen_diameter),
    )
    return tuple(Slot(label, size, size + shrink) for label, size in wanted)


def outline_of(slots: tuple[Slot, ...], middles: list[float], wide: float, high: float) -> Outline:
    """The plate with its slots open at the top edge, their middles at `middles` mm."""
    corners = [(0.0, 0.0, 2.0), (wide, 0.0, 2.0), (wide, high, 2.0)]
    for slot, x in zip(reversed(slots), reversed(middles), strict=True):
        half, bottom = slot.width / 2, high - DEPTH * slot.width
        sides = [(x + half, high, MOUTH), (x + half, bottom, half), (x - half, bottom, half), (x - half, high, MOUTH)]
        corners += sides
    return rounded([*corners, (0.0, high, 2.0)])


def rope_gauge(plan: Plan) -> Jig:
    """The gauge as a plate, its sizes engraved under the slots."""
    job, slots, t = plan.job, slots_of(plan), plan.job.printing.text_height_mm
    sizes = [engraved(slot.size, job) for slot in slots]
    columns = [
        max(slot.width + WALL, width(slot.label, t) + 1.5 * t, width(size, t) + 1.5 * t)
        for slot, size in zip(slots, sizes, strict=True)
    ]
    wide = sum(columns) + 2 * MARGIN
    said = foot(f"{with_unit(job.rope.diameter_mm, job)} ROPE", t, wide - 4 * MARGIN)
    wide = max(wide, max(width(line, t) for line in said) + 4 * MARGIN)
    start = (wide - sum(columns)) / 2
    middles = [start + sum(columns[:number]) + column / 2 for number, column in enumerate(columns)]
    under = 2 * MARGIN + block_height(len(said), t) + 1.5 * t
    named = under + block_height(2, t)
    high = named + MARGIN + DEPTH * max(slot.width for slot in slots)
    texts = block(said, wide / 2, under - 1.5 * t, t)
    for slot, size, x in zip(slots, sizes, middles, strict=True):
        texts += [EngravedText(size, x, under, t), EngravedText(slot.label, x, under + LEADING * t, t)]
    flat = plate(outline_of(slots, middles, wide, high), job.printing.plate_mm, job.printing.nozzle_mm, texts)
    asked = tuple(Size(f"slot {slot.label}", slot.size) for slot in slots)
    use = (
        "Hold the rope under its reference tension. It goes into GO without force and does not go into NO GO.",
        "BURY is the cover's diameter over the full tail, as planned: a finished splice that doesn't go in is thicker.",
    )
    return Jig("rope-gauge", "Rope gauge", use, (piece_of("rope-gauge", flat, asked),))
