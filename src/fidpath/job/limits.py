"""Lengths, shares and forces of a file held to their limits; KeyedError where one is out of them."""

from __future__ import annotations

from fidpath.job.key_paths import KeyPath, Parts
from fidpath.job.locate import KeyedError
from fidpath.units import Measure

LIMITS_MM: dict[str, tuple[float, float]] = {
    "rope.diameter": (1.0, 200.0),
    "rope.diameter_min": (0.5, 250.0),
    "rope.diameter_max": (0.5, 250.0),
    "rope.over": (10.0, 100000.0),
    "line.ends.eye_length": (5.0, 100000.0),
    "line.ends.fitting_length": (1.0, 100000.0),
    "line.finished_length": (50.0, 1e7),
    "line.adjuster.shorten": (0.5, 10000.0),
    "line.adjuster.lengthen": (0.5, 10000.0),
    "tools.fids": (0.5, 300.0),
    "tools.tape_division": (0.1, 25.4),
    "print.nozzle": (0.1, 1.2),
    "print.clearance": (0.02, 0.1),
    "print.bed": (80.0, 2000.0),
    "print.text_height": (3.5, 10.0),
    "print.plate": (2.0, 20.0),
    "print.slot_shrink": (0.005, 1.0),
    "print.kerf": (0.01, 0.55),
    "print.fuse": (0.1, 2.0),
}
"""Least and greatest length of each key, mm: outside them a figure is taken for a slip of the pen."""

LIMITS_D: dict[str, tuple[float, float]] = {
    "rope.pitch": (3.0, 20.0),
    "rope.loaded_diameter": (0.7, 1.05),
    "practice.lock_stitch.spacing": (0.2, 20.0),
    "practice.bury": (6.0, 1000.0),
    "practice.hole_gap": (0.1, 10.0),
    "practice.neck": (0.1, 10.0),
}
"""The same for keys that are reckoned in rope diameters."""


def length(path: KeyPath, measure: Measure, like: KeyPath | None = None) -> float:
    """A length in mm that may not be written in rope diameters, within the key's limits, or those of a key like it."""
    return length_within(path, measure, LIMITS_MM[(like or path).in_schema])


def length_within(path: Parts, measure: Measure, limits: tuple[float, float]) -> float:
    """A length in mm that may not be written in rope diameters, within limits in mm. Raises KeyedError."""
    if measure.unit == "d":
        raise KeyedError(
            path,
            f"{measure.value:g} d: this length can't be given in rope diameters",
            "Write it in mm, cm, m, in or ft.",
        )
    low, high = limits
    positive(path, measure)
    if not low <= measure.value <= high:
        size = "small" if measure.value < low else "large"
        raise KeyedError(path, f"{measure.value:g} mm is too {size}", f"It can be {low:g} mm to {high:g} mm.")
    return measure.value


def in_diameters(path: KeyPath, measure: Measure, diameter_mm: float) -> float:
    """A length in rope diameters, within the key's limits."""
    low, high = LIMITS_D[path.in_schema]
    positive(path, measure)
    value = measure.diameters(diameter_mm)
    if not low <= value <= high:
        size = "small" if value < low else "large"
        shown = f"{value:.4g} rope diameters is too {size}"
        if measure.unit != "d":
            shown += f": {value * diameter_mm:.4g} mm in {diameter_mm:g} mm rope"
        raise KeyedError(path, shown, f"It can be {low:g} d to {high:g} d.")
    return value


def positive(path: Parts, measure: Measure) -> None:
    """Refuse a length of nothing or less."""
    if measure.value <= 0:
        raise KeyedError(path, "a length must be greater than zero", "Write a positive length.")


def within(path: Parts, value: float, limits: tuple[float, float], shown: str, bounds: str) -> float:
    """The value, if it lies within its limits."""
    if not limits[0] <= value <= limits[1]:
        raise KeyedError(path, f"{shown} can't be", f"It can be {bounds}.")
    return value


def optional(path: KeyPath, measure: Measure | None) -> float | None:
    """A length in mm, or None where it isn't given."""
    return None if measure is None else length(path, measure)


def value_of(path: Parts, measure: Measure | None, limits: tuple[float, float], bounds: str) -> float | None:
    """A force, share, density or temperature within its limits, or None where it isn't given."""
    if measure is None:
        return None
    return within(path, measure.value, limits, f"{measure.value:g}", bounds)
