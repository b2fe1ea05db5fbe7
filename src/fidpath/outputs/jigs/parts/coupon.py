"""Calibration coupon: three slots, a length and the taper board's joint, to learn what the printer makes of them."""

from __future__ import annotations

from fidpath.outputs.jigs.lettering import EngravedText, width
from fidpath.outputs.jigs.parts import joint
from fidpath.outputs.jigs.paths import rounded
from fidpath.outputs.jigs.pieces import Jig, Size
from fidpath.outputs.jigs.plates import piece_of, plate
from fidpath.outputs.jigs.sizes import engraved, in_inches, with_unit
from fidpath.planning import Plan
from fidpath.units import INCH_MM

SLOTS_MM, SLOTS_IN = (4.0, 8.0, 12.0), (INCH_MM / 8, INCH_MM / 4, INCH_MM / 2)
LENGTHS_MM = (60.0, 80.0, 100.0, 120.0, 150.0, 200.0)
LENGTHS_IN = tuple(INCH_MM * inches for inches in (2.5, 3.0, 4.0, 5.0, 6.0, 8.0))
"""Lengths from shoulder to shoulder: the least that has room for its words, letters up to 10 mm high."""

MARGIN = 2.0
WALL = 5.0
"""Least plate left between two slots, mm."""


def coupon(plan: Plan) -> Jig:
    """The coupon as a plate. Its slots are drawn as they are named: no allowance, so that the shrinkage shows."""
    job, t = plan.job, plan.job.printing.text_height_mm
    slots, lengths = (SLOTS_IN, LENGTHS_IN) if in_inches(job) else (SLOTS_MM, LENGTHS_MM)
    taken = joint.REACH + joint.END_ROOM + 3 * MARGIN
    columns = [max(slot + WALL, width(engraved(slot, job), t) + 1.5 * t) for slot in slots]
    length = next(
        each for each in lengths if max(width(f"LENGTH {with_unit(each, job)}", t) + taken, sum(columns)) < each
    )
    band = max(joint.HEAD, t) + 2 * MARGIN
    under = band + t
    high = under + MARGIN + 1.25 * max(slots)
    spare = (length - sum(columns)) / len(columns)
    middles = [sum(columns[:n]) + n * spare + (column + spare) / 2 for n, column in enumerate(columns)]
    corners = [(0.0, 0.0, 0.5), (length, 0.0, 0.5), *joint.tongue(length, band / 2, job.printing.clearance_mm)]
    corners.append((length, high, 0.5))
    for slot, x in reversed(list(zip(slots, middles, strict=True))):
        half, foot = slot / 2, high - 1.25 * slot
        corners += [(x + half, high, 0.5), (x + half, foot, half), (x - half, foot, half), (x - half, high, 0.5)]
    corners += [(0.0, high, 0.5), *joint.pocket(0.0, band / 2)]
    texts = [EngravedText(engraved(slot, job), x, band, t) for slot, x in zip(slots, middles, strict=True)]
    inner = (length + joint.REACH + joint.END_ROOM) / 2
    texts.append(EngravedText(f"LENGTH {with_unit(length, job)}", inner, (band - t) / 2, t))
    flat = plate(rounded(corners), job.printing.plate_mm, job.printing.nozzle_mm, texts)
    asked = (*(Size(f"slot {engraved(slot, job)}", slot) for slot in slots), Size("shoulder to shoulder", length))
    use = (
        "Print it first, let it cool, and measure the slots with a caliper: how much narrower than named they are, on "
        "the average, is print.slot_shrink in the job file.",
        "Print it twice and join the two: if tongue and pocket won't go together by hand, raise print.clearance.",
        "The length tells the printer's scale: set that in the printer, not here.",
    )
    return Jig("coupon", "Calibration coupon", use, (piece_of("coupon", flat, asked),))
