"""A check that failed, in words: what is off, by how much, and the key of the job to change."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

Said = tuple[str, str]
"""How a failure is said, `{value}` and `{bound}` to be filled in, and the keys to change."""

PITCH = "rope.pitch, or the number of strands"
HOLES = "practice.hole_gap, or rope.pitch"
EYE = "a longer line.ends.eye_length, or another terminator.bearing_diameter"
BURY = "practice.bury, or rope.pitch"
OVERLAP = "strands run into one another by {value:.1%} of their thickness, {bound:.1%} is allowed"

WORDS: Mapping[str, Said] = MappingProxyType(
    {
        "overlap_max": (OVERLAP, PITCH),
        "overlap_p99": (OVERLAP, PITCH),
        "drawn_overlap_max": (f"as drawn, {OVERLAP}", PITCH),
        "drawn_overlap_p99": (f"as drawn, {OVERLAP}", PITCH),
        "terminator_overlap_max_mm": ("the rope runs {value:.2f} mm into what sits in the eye", EYE),
        "crossings_changed": ("{value} strands passed through one another while they settled", PITCH),
        "strand_length_change_max": ("a strand's length changed by {value:.1%}, {bound:.1%} is allowed", PITCH),
        "take_up_error": ("the take-up as made is {value:.1%} off the planned, {bound:.0%} is allowed", BURY),
        "throat_angle_error_deg": (
            "the throat as made is {value:.1f} deg off the planned, {bound:g} deg is allowed",
            EYE,
        ),
        "certificate_min": ("it can't be vouched for that no strand passed through another", PITCH),
        "order_from_eye": ("the holes follow one another as {value}, not as {bound}", HOLES),
        "split_agreed": ("it can't be told which strands lie on which side of a hole", HOLES),
        "tail_enclosed": ("the tail shows outside the cover", BURY),
    }
)


def failure_words(failure: Mapping[str, Any]) -> str:
    """One failure of a report as words, with its place and what to change."""
    name, value, bound = failure["check"], failure["value"], failure["bound"]
    place = "" if failure.get("where_mm") is None else f", at {failure['where_mm']:.0f} mm of rope from the throat"
    if name.startswith("split at "):
        hole = name.removeprefix("split at ")
        return f"{hole} has {_both(value)} strands on its two sides, not {_both(bound)}{place} (change {HOLES})"
    if name not in WORDS:
        return f"{name.replace('_', ' ')} is {_short(value)}, not {_short(bound)}{place}"
    said, keys = WORDS[name]
    return f"{said.format(value=value, bound=bound)}{place} (change {keys})"


def _both(counts: Any) -> str:
    return " and ".join(str(count) for count in counts)


def _short(value: object) -> str:
    return f"{value:.4g}" if isinstance(value, float) else str(value)
