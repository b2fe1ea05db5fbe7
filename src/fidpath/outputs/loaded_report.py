"""The report on a splice under load: its figures as ranges over what isn't known of friction and strand thickness."""

from __future__ import annotations

from typing import Any

from fidpath.cautions import GEOMETRY_ONLY
from fidpath.checking import measure_loaded
from fidpath.loading import LoadBand, LoadedLock

FIGURES = ("throat_angle_deg", "hole_spacing_mm", "throat_to_crown_mm", "lengthening", "loaded_diameter_mm")


def loaded_report(band: LoadBand) -> dict[str, Any]:
    """Every figure hand-snug and under load, there as least, middle and most over the band; units in the keys."""
    middle, coarse = _measured(band.middle), _measured(band.coarse)
    corners = [_measured(lock) for lock in band.corners]
    snug = measure_loaded(band.middle.before, band.middle.before, 1.0)
    return {
        **{name: _spread(name, middle, coarse, corners) for name in FIGURES},
        "hand_snug": {name: snug[name] for name in FIGURES if name != "lengthening"},
        "friction": _ends(band.friction),
        "strand_thickness": _ends(band.thickness),
        "certificate_min": band.certificate,
        "overlap_max": band.overlap,
        "split": middle["split"],
        "split_agreed": all(one["split"] == middle["split"] for one in corners),
        "limits": list(LIMITS),
    }


LIMITS = (
    GEOMETRY_ONLY,
    "Strands are modelled round, with no flattening and no bending stiffness.",
    "Slack left in the rope by hand, and milking, aren't known.",
    "One pull that only grows; nothing here tells of working, shock or a slack rope.",
    "Friction and strand thickness are bands; the thickness decides most. Measure the rope's diameter under load and "
    "give it as rope.loaded_diameter.",
)
"""What the loaded figures leave out."""


def _measured(lock: LoadedLock) -> dict[str, Any]:
    return measure_loaded(lock.before, lock.strands, lock.loaded.certificate)


def _spread(name: str, middle: dict[str, Any], coarse: dict[str, Any], corners: list[dict[str, Any]]) -> Any:
    """A figure's least, middle and most; the corners' differences come from models with fewer nodes."""
    if middle[name] is None:
        return None
    off = [0.0, *(corner[name] - coarse[name] for corner in corners)]
    return {"least": middle[name] + min(off), "middle": middle[name], "most": middle[name] + max(off)}


def _ends(band: tuple[float, float]) -> dict[str, float]:
    return {"least": band[0], "middle": sum(band) / 2, "most": band[1]}
