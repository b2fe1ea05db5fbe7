"""The loaded splice in words: what changes under load, as ranges, what they hang on, and what they leave out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

ROWS = (
    ("throat_angle_deg", "throat angle", " deg", 1.0, 1),
    ("hole_spacing_mm", "hole to hole, middles", " mm", 1.0, 1),
    ("throat_to_crown_mm", "throat to crown", " mm", 1.0, 1),
    ("loaded_diameter_mm", "diameter of plain rope", " mm", 1.0, 1),
    ("lengthening", "lengthening of plain rope", " %", 100.0, 1),
)
"""Name in the report, what it is, its unit, the factor to that unit, and its decimals."""


def loaded_lines(loaded: Mapping[str, Any]) -> list[str]:
    """Lines of a report's `loaded`: hand-snug, then least, middle and most over the band."""
    lines = ["under load", f"  {'':<30} {'hand-snug':>12} {'least':>12} {'middle':>12} {'most':>12}"]
    for name, what, unit, factor, digits in ROWS:
        if loaded[name] is None:
            continue
        snug = loaded["hand_snug"].get(name)
        values = [snug, *(loaded[name][end] for end in ("least", "middle", "most"))]
        cells = ["" if value is None else f"{factor * value:.{digits}f}{unit}" for value in values]
        lines.append(f"  {what:<30} " + " ".join(f"{cell:>12}" for cell in cells))
    splits = ", ".join(f"{hole} {' and '.join(map(str, counts))}" for hole, counts in loaded["split"].items())
    return [
        *lines,
        f"  Ranges are over friction {_band(loaded['friction'])} and strands {_band(loaded['strand_thickness'])} times",
        "  as thick as hand-snug. Plain rope is measured on the legs, over round strands.",
        f"  Solver's certificate: {loaded['certificate_min']:.2f} or more. Deepest overlap: "
        f"{100 * loaded['overlap_max']:.1f} % of a strand." + (f" Strands on each side: {splits}." if splits else ""),
        *(f"  {limit}" for limit in loaded["limits"]),
    ]


def _band(band: Mapping[str, float]) -> str:
    if band["least"] == band["most"]:
        return f"{band['least']:.3g}"
    return f"{band['least']:.3g} to {band['most']:.3g}"
