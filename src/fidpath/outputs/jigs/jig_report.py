"""The report that goes with the jigs: what each is for, what to check with a caliper, and how it prints."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from fidpath.cautions import BESIDE_GAUGES
from fidpath.outputs.jigs.catalogue import JigOrRefusal
from fidpath.outputs.jigs.lettering import HELD
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Size
from fidpath.outputs.jigs.printable import STEEP, Printability, printability
from fidpath.outputs.jigs.sizes import spoken
from fidpath.outputs.jigs.tolerances import SOURCES, fine_mm, printed_mm
from fidpath.planning import Plan

LIMITS_CLOSE = (
    "The rope's limits lie closer together than a printer holds: cut this gauge, or file its slots by the caliper."
)


@dataclass(frozen=True)
class ReportEntry:
    """A jig, or why there is none, with the printability of its pieces and the files that were written."""

    outcome: JigOrRefusal
    found: tuple[Printability, ...]
    files: tuple[str, ...] = ()


def report_entry(plan: Plan, outcome: JigOrRefusal, files: Iterable[str] = ()) -> ReportEntry:
    """What is to be said about a jig."""
    pieces = outcome.jig.pieces if outcome.jig is not None else ()
    return ReportEntry(outcome, tuple(printability(piece, plan.job.printing) for piece in pieces), tuple(files))


def warnings(plan: Plan, jig: Jig, found: tuple[Printability, ...]) -> list[str]:
    """What stands in the way of a good print, and what a jig can't do."""
    said = list(jig.notes)
    rope = plan.job.rope
    closest = min(rope.diameter_max_mm - rope.diameter_mm, rope.diameter_mm - rope.diameter_min_mm)
    if jig.name == "rope-gauge" and closest < 2 * printed_mm(rope.diameter_mm):
        said.append(LIMITS_CLOSE)
    for piece, print_of in zip(jig.pieces, found, strict=True):
        if not print_of.fits_bed:
            said.append(f"{piece.name} doesn't fit the bed.")
        if print_of.thin_at_z is not None:
            where = f"{print_of.thin_mm2:.1f} mm2 at a height of {print_of.thin_at_z:.1f} mm"
            said.append(f"{piece.name} has walls under {print_of.wall:g} mm: {where}.")
        if print_of.overhang_share > 0.02:
            hangs = f"{print_of.overhang_mm2:.0f} mm2 lean over air by more than {STEEP:g} deg"
            said.append(f"{piece.name}: {hangs}; support it.")
    return said


def as_text(plan: Plan, entries: Iterable[ReportEntry]) -> str:
    """The report as plain text."""
    lines = [f"JIGS  {plan.job.name}", "", BESIDE_GAUGES, SOURCES, ""]
    for entry in entries:
        lines += _block(plan, entry)
    return "\n".join(lines).rstrip() + "\n"


def _block(plan: Plan, entry: ReportEntry) -> list[str]:
    """One jig's lines."""
    jig = entry.outcome.jig
    if jig is None:
        return [f"{entry.outcome.name}: not made. {entry.outcome.refused}", ""]
    lines = [f"{jig.title.upper()}", *(f"  {sentence}" for sentence in jig.use)]
    for piece, found in zip(jig.pieces, entry.found, strict=True):
        x, y, z = found.size
        lines.append(f"  {piece.name:<22} {x:.1f} x {y:.1f} x {z:.1f} mm as it lies")
        lines += [f"    {_checked(plan, size)}" for size in piece.sizes]
    lines += [f"  ! {warning}" for warning in warnings(plan, jig, entry.found)]
    return [*lines, ""]


def _checked(plan: Plan, size: Size) -> str:
    """A size to check with a caliper."""
    return (
        f"{size.label}: {spoken(size.value, plan.job)}, "
        f"printed to about +-{printed_mm(max(size.value, 1.0)):.2f} mm [fine +-{fine_mm(size.value):g} mm]"
    )


def as_json(plan: Plan, entries: Iterable[ReportEntry]) -> str:
    """The report as JSON; units are in the keys."""
    data = {
        "name": plan.job.name,
        "caution": BESIDE_GAUGES,
        "tolerances": SOURCES,
        "jigs": [_data(plan, entry) for entry in entries],
    }
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _data(plan: Plan, entry: ReportEntry) -> dict[str, Any]:
    """One jig's entry."""
    jig = entry.outcome.jig
    if jig is None:
        return {"name": entry.outcome.name, "made": False, "why": entry.outcome.refused}
    pieces = [_piece(piece, found) for piece, found in zip(jig.pieces, entry.found, strict=True)]
    return {
        "name": jig.name,
        "made": True,
        "title": jig.title,
        "use": list(jig.use),
        "warnings": warnings(plan, jig, entry.found),
        "pieces": pieces,
        "files": list(entry.files),
    }


def _piece(piece: JigPiece, found: Printability) -> dict[str, Any]:
    """One piece's figures."""
    return {
        "name": piece.name,
        "engraved": [words.replace(HELD, " ") for words in piece.texts],
        "sizes": [{"label": size.label, "mm": round(size.value, 6)} for size in piece.sizes],
        "volume_by_formula_mm3": None if piece.volume is None else round(piece.volume, 3),
        "size_mm": [round(side, 4) for side in found.size],
        "fits_bed": found.fits_bed,
        "thin_walls_mm2": round(found.thin_mm2, 3),
        "thin_walls_at_height_mm": None if found.thin_at_z is None else round(found.thin_at_z, 3),
        "overhang_mm2": round(found.overhang_mm2, 3),
    }
