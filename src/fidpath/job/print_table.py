"""The printer and the cutter that jigs are made on, from a file's table; what it leaves out keeps its default."""

from __future__ import annotations

from typing import Any

from fidpath.job.job import Printing
from fidpath.job.key_paths import KeyPath, key_path
from fidpath.job.limits import length, within
from fidpath.job.locate import KeyedError
from fidpath.job.schema import PrintTable
from fidpath.units import Measure

LEAST_SCALE, MOST_SCALE = 2.0, 5.0
"""Between these a scale model of a step is printed."""


def printing_of(table: PrintTable) -> Printing:
    """The printer and the cutter, every length within its limits. Raises KeyedError."""
    keys = ("nozzle", "clearance", "text_height", "plate", "slot_shrink", "kerf", "fuse")
    written = {key: getattr(table, key) for key in keys if getattr(table, key) is not None}
    given: dict[str, Any] = {f"{key}_mm": length(key_path("print") / key, measure) for key, measure in written.items()}
    if table.bed is not None:
        given["bed_mm"] = _bed(table.bed)
    if table.scale is not None:
        given["scale"] = scale_within(table.scale, key_path("print.scale"))
    return Printing(**given)


def scale_within(scale: float, path: KeyPath) -> float:
    """How many times as large as the rope a model is, within its limits. Raises KeyedError."""
    bounds = f"{LEAST_SCALE:g} to {MOST_SCALE:g} times the rope"
    return within(path, scale, (LEAST_SCALE, MOST_SCALE), f"a model {scale:g} times as large as the rope", bounds)


def _bed(sizes: list[Measure]) -> tuple[float, float, float]:
    """How wide, deep and high the printer can print."""
    path = key_path("print.bed")
    if len(sizes) != 3:
        what = f"{len(sizes)} lengths don't describe a printer's bed"
        raise KeyedError(path, what, 'Write its width, depth and height: ["220 mm", "220 mm", "220 mm"].')
    wide, deep, high = (length(path / index, size) for index, size in enumerate(sizes))
    return wide, deep, high
