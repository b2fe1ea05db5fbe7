"""What a surface belongs to, as small numbers: parts of the rope, faces of a hole, tools, marks.

A number says what something is. Colours, tones, hatches and words are looked up from it last, where something is drawn
or read.
"""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

PartNumbers = NDArray[np.uint8]
"""Part numbers, one a vertex or face."""


class Part(IntEnum):
    """A part; the numbers fit a byte and are stored in no file."""

    STANDING_PART = 0
    COVER = 1
    STANDING_NECK = 2
    STANDING_LOCK_LEG = 3
    EYE = 4
    BETWEEN_THE_HOLES = 5
    TAIL_LOCK_LEG = 6
    TAIL_NECK = 7
    TAIL = 8

    TOP_GROUP = 20
    BOTTOM_GROUP = 21
    PEN_MARK = 22
    FACE_DOT = 23
    FACE_DOT_RIM = 24

    DOTTED_FACE = 30
    PLAIN_FACE = 31
    FOLLOWED_STRAND = 32
    CROSSED_OUT = 33

    TERMINATOR = 40
    TERMINATOR_ASIDE = 41

    FID = 50
    WHIPPING = 51
    MARKER_NIB = 52
    MARKER_BARREL = 53
    KNIFE_BLADE = 54
    KNIFE_HANDLE = 55
    POST = 56
    STRAIGHT_EDGE = 57
    MEASURING_TAPE = 58
    TICKS = 59
    NEEDLE = 60
    LOCK_STITCH = 61
    LONG_FID = 62
    MARK_SLEEVE = 63

    ARROW = 70
    GHOST = 71
    BREAK = 72

    @property
    def key(self) -> str:
        """The part as other programs know it, such as `between-the-holes`."""
        return self.name.lower().replace("_", "-")
