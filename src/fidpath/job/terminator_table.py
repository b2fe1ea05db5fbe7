"""What sits in the eye, from a file's table, checked as far as the file alone can tell."""

from __future__ import annotations

import math

from fidpath.job.job import Terminator
from fidpath.job.key_path import key_path
from fidpath.job.limits import optional
from fidpath.job.locate import KeyedError
from fidpath.job.schema import DeadeyeTable, TeardropTable, TerminatorTable
from fidpath.units import Measure

MOST_LASHING_HOLES = 12


def terminator_of(table: TerminatorTable, d: float) -> Terminator:
    """What sits in the eye, checked as far as the file alone can tell."""
    bearing = _terminator_length(table, "bearing_diameter") or 0.0
    width = _terminator_length(table, "width") or 0.0
    made = Terminator(
        kind=table.kind,
        name=table.name,
        bearing_diameter_mm=bearing,
        width_mm=width,
        groove_radius_mm=_terminator_length(table, "groove_radius"),
        hole_mm=_terminator_length(table, "hole"),
        length_mm=_terminator_length(table, "length"),
        nose_radius_mm=_terminator_length(table, "nose_radius"),
        lashing_holes=table.lashing_holes if isinstance(table, DeadeyeTable) else 0,
        lashing_hole_mm=_terminator_length(table, "lashing_hole"),
    )
    _check_groove(made, d)
    if isinstance(table, TeardropTable):
        _check_teardrop(made)
    if isinstance(table, DeadeyeTable):
        _check_lashing(made)
    return made


def _terminator_length(table: TerminatorTable, name: str) -> float | None:
    """One length of the terminator in mm, or None where its kind has none or the file gives none."""
    measure: Measure | None = getattr(table, name, None)
    return optional(key_path("terminator") / name, measure)


def _check_groove(made: Terminator, d: float) -> None:
    """The rope lies in the groove, and the hole leaves a bearing."""
    if made.width_mm < d:
        what = f"the {made.kind} is {made.width_mm:g} mm wide, narrower than the {d:g} mm rope"
        raise KeyedError(key_path("terminator.width"), what, "Choose one at least as wide as the rope.")
    if made.groove_radius_mm is not None and 2 * made.groove_radius_mm < d * (1 - 1e-9):
        raise KeyedError(
            key_path("terminator.groove_radius"),
            f"the groove is {2 * made.groove_radius_mm:g} mm across, narrower than the {d:g} mm rope",
            f"The {made.kind} can't sit in this eye: its groove radius must be at least {d / 2:g} mm.",
        )
    if made.hole_mm is not None and made.hole_mm >= made.bearing_diameter_mm:
        what = f"a hole of {made.hole_mm:g} mm leaves nothing of a bearing of {made.bearing_diameter_mm:g} mm"
        raise KeyedError(
            key_path("terminator.hole"), what, "One of the two is wrong: hole must be smaller than bearing_diameter."
        )


def _check_teardrop(made: Terminator) -> None:
    """A teardrop is longer than its crown circle and comes to a nose."""
    length, nose = made.length_mm or 0.0, made.nose_radius_mm or 0.0
    if length <= made.bearing_diameter_mm:
        raise KeyedError(
            key_path("terminator.length"),
            f"a teardrop of {length:g} mm is shorter than its own circle of {made.bearing_diameter_mm:g} mm",
            "Measure from the crown's bearing to the nose's; for a round thimble write kind = \"ring\".",
        )
    if nose >= made.bearing_diameter_mm / 2:
        what = f"a nose of radius {nose:g} mm is no narrower than the crown"
        raise KeyedError(
            key_path("terminator.nose_radius"), what, f"Make it less than {made.bearing_diameter_mm / 2:g} mm."
        )


def _check_lashing(made: Terminator) -> None:
    """The lashing holes fit inside the bearing circle: equal circles inside a ring, r/R = s/(1 + s), s = sin(pi/n)."""
    holes, hole = made.lashing_holes, made.lashing_hole_mm or 0.0
    if not 1 <= holes <= MOST_LASHING_HOLES:
        raise KeyedError(
            key_path("terminator.lashing_holes"), f"{holes} lashing holes can't be", "Give a number from 1 to 12."
        )
    sine = math.sin(math.pi / holes)
    most = made.bearing_diameter_mm * (1.0 if holes == 1 else sine / (1 + sine))
    if hole >= most:
        what = f"{holes} holes of {hole:g} mm don't fit inside a bearing of {made.bearing_diameter_mm:g} mm"
        raise KeyedError(key_path("terminator.lashing_hole"), what, f"Make them less than {most:.4g} mm.")
