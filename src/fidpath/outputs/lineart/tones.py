"""What stands for what in black and white: a tone or a hatch for every part, whatever its colour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np

from fidpath.arrays import Ints
from fidpath.geometry import Part
from fidpath.scene import Solid


class Tone(IntEnum):
    """What a region shows."""

    GHOST = -2
    PAPER = -1
    STANDING = 0
    EYE = 1
    BETWEEN = 2
    TAIL = 3
    TOP = 4
    BOTTOM = 5
    CUT = 6
    MARK = 7
    BLACK = 8
    THING = 9
    DOT = 10
    FOLLOWED = 11


@dataclass(frozen=True)
class ToneStyle:
    """How a tone is printed: its grey from 0 (black) to 1 (paper), and what lies over it.

    hatch: `(angle in degrees, spacing in mm)` of each set of parallel lines; dash: their strokes and gaps in mm.
    reversed: whether numbers on it are white on black.
    """

    grey: float
    hatch: tuple[tuple[int, float], ...] = ()
    dash: tuple[float, ...] = ()
    reversed: bool = False


TONE_STYLES: Mapping[Tone, ToneStyle] = {
    Tone.GHOST: ToneStyle(0.965),
    Tone.STANDING: ToneStyle(1.0),
    Tone.EYE: ToneStyle(0.78),
    Tone.BETWEEN: ToneStyle(1.0, ((45, 0.7),)),
    Tone.TAIL: ToneStyle(0.52),
    Tone.TOP: ToneStyle(1.0, ((0, 0.8),), (0.5, 1.1)),
    Tone.BOTTOM: ToneStyle(1.0, ((45, 1.0), (135, 1.0)), reversed=True),
    Tone.CUT: ToneStyle(1.0, ((135, 0.5),)),
    Tone.MARK: ToneStyle(0.3),
    Tone.BLACK: ToneStyle(0.0),
    Tone.DOT: ToneStyle(0.0),
    Tone.FOLLOWED: ToneStyle(0.3, reversed=True),
    Tone.THING: ToneStyle(1.0),
}
"""Standing part white, eye light, tail dark, the piece between the holes hatched. An opened place's top group
has short strokes, its bottom group is cross-hatched (nothing is dotted: a dot marks a face); a pen mark lets the
strands show."""

TONES: Mapping[Part, Tone] = {
    **dict.fromkeys((Part.STANDING_PART, Part.COVER, Part.STANDING_NECK, Part.STANDING_LOCK_LEG), Tone.STANDING),
    Part.EYE: Tone.EYE,
    **dict.fromkeys((Part.BETWEEN_THE_HOLES, Part.TAIL_LOCK_LEG), Tone.BETWEEN),
    **dict.fromkeys((Part.TAIL_NECK, Part.TAIL), Tone.TAIL),
    Part.TOP_GROUP: Tone.TOP,
    Part.BOTTOM_GROUP: Tone.BOTTOM,
    Part.PEN_MARK: Tone.MARK,
    Part.FOLLOWED_STRAND: Tone.FOLLOWED,
    Part.FACE_DOT: Tone.DOT,
    Part.DOTTED_FACE: Tone.BLACK,
    **dict.fromkeys((Part.PLAIN_FACE, Part.TERMINATOR, Part.TERMINATOR_ASIDE), Tone.THING),
    **dict.fromkeys((Part.FID, Part.KNIFE_BLADE, Part.KNIFE_HANDLE, Part.POST, Part.NEEDLE, Part.LONG_FID), Tone.THING),
    **dict.fromkeys((Part.MARKER_BARREL, Part.STRAIGHT_EDGE, Part.MEASURING_TAPE, Part.LOCK_STITCH), Tone.THING),
    **dict.fromkeys((Part.MARK_SLEEVE, Part.BREAK), Tone.THING),
    **dict.fromkeys((Part.WHIPPING, Part.MARKER_NIB, Part.TICKS, Part.ARROW, Part.CROSSED_OUT), Tone.BLACK),
    Part.GHOST: Tone.GHOST,
}
"""The tone of every part but a dot's pale rim: in one ink, several parts of the rope are alike."""

_BY_NUMBER = np.full(max(Part) + 1, Tone.PAPER, dtype=np.int64)
_BY_NUMBER[list(TONES)] = list(TONES.values())


def vertex_tones(solid: Solid) -> Ints:
    """The tone of every vertex of a solid `(v,)`; cut faces have one of their own.

    A dot's pale rim is left out: what lies below it shows.
    """
    if solid.cap:
        return np.full(len(solid.mesh.points), Tone.CUT, dtype=np.int64)
    coats = tuple(coat for coat in solid.coats if coat.part is not Part.FACE_DOT_RIM)
    return np.asarray(_BY_NUMBER[replace(solid, coats=coats).parts])
