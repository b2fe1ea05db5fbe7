"""What a printer or a cutter can hold, and where the numbers come from. A caliper decides, not these."""

from __future__ import annotations

PRINTED_GRADE, CUT_GRADE = 14, 12
"""Grades that a well-set printer and a laser come to: common practice, no source."""

FINE = ((6.0, 0.05), (30.0, 0.1), (120.0, 0.15), (400.0, 0.2), (1000.0, 0.3), (2000.0, 0.5))
"""General tolerances "fine" for lengths up to so many mm, plus or minus mm: from memory of ISO 2768-1."""

SOURCES = (
    f"A well-set printer holds about grade IT{PRINTED_GRADE}, a laser about IT{CUT_GRADE}: common practice, no source. "
    "Grades are calculated by the formula of ISO 286-1, from memory; the finer class in brackets is ISO 2768-1 fine, "
    "from memory. Check every gauge with a caliper before use."
)


def grade_mm(size: float, grade: int) -> float:
    """Width in mm of a tolerance grade from 6 up at a size in mm: multiples of i = 0.45 D^(1/3) + 0.001 D micrometres.

    Source: from memory of ISO 286-1, without its steps of sizes.
    """
    unit = 0.45 * size ** (1 / 3) + 0.001 * size
    tens, step = divmod(grade - 6, 5)
    return float(unit * (10, 16, 25, 40, 64)[step] * 10**tens / 1000)


def printed_mm(size: float) -> float:
    """How far off a printed size may well be, plus or minus mm."""
    return grade_mm(size, PRINTED_GRADE) / 2


def fine_mm(size: float) -> float:
    """ISO 2768-1 fine, plus or minus mm (from memory)."""
    return next((bound for upto, bound in FINE if size <= upto), FINE[-1][1])
