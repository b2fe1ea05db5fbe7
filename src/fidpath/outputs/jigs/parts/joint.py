"""The joint of the taper board's segments: a T-shaped tongue that drops into its pocket, shoulders butting.

With the shoulders together the tongue's head keeps `play` mm from the pocket's lips, so drawn apart the segments part
by that much and no more; across, the whole play is the same. The tongue's tip never reaches the pocket's end.
"""

from __future__ import annotations

NECK, HEAD = 5.0, 11.0
"""Widths of the pocket's neck and head, mm."""

LIP, REACH = 4.0, 8.0
"""How far from the shoulder the pocket's head begins, and how far the tongue reaches, mm."""

END_ROOM = 0.4
"""Least distance of the tongue's tip from the pocket's end, mm."""

Corner = tuple[float, float, float]


def tongue(x: float, y: float, play: float) -> list[Corner]:
    """Corners (x, y, radius) of the tongue on a shoulder that faces +x, from its lower root to its upper one."""
    neck, head, back = (NECK - play) / 2, (HEAD - play) / 2, LIP + play
    lower = [
        (x, y - neck, 0.3),
        (x + back, y - neck, 0.3),
        (x + back, y - head, 0.8),
        (x + REACH, y - head, 0.8),
    ]
    return [*lower, *((a, 2 * y - b, r) for a, b, r in reversed(lower))]


def pocket(x: float, y: float) -> list[Corner]:
    """Corners of the pocket in a shoulder that faces -x, from its upper mouth to its lower one."""
    upper = [
        (x, y + NECK / 2, 0.6),
        (x + LIP, y + NECK / 2, 0.6),
        (x + LIP, y + HEAD / 2, 0.4),
        (x + REACH + END_ROOM, y + HEAD / 2, 0.4),
    ]
    return [*upper, *((a, 2 * y - b, r) for a, b, r in reversed(upper))]
