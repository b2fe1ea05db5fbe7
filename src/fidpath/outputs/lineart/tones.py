"""What stands for what in black and white: a tone or a hatch for every stretch of rope, told from a scene's colours."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.scene.scene import PALETTE, Colour, Solid


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


@dataclass(frozen=True)
class Look:
    """How a tone is printed: its grey from 0 (black) to 1 (paper), and what lies over it.

    hatch: `(angle in degrees, spacing in mm)` of each set of parallel lines; dash: their strokes and gaps in mm.
    """

    grey: float
    hatch: tuple[tuple[int, float], ...] = ()
    dash: tuple[float, ...] = ()


LOOKS: dict[Tone, Look] = {
    Tone.GHOST: Look(0.965),
    Tone.STANDING: Look(1.0),
    Tone.EYE: Look(0.78),
    Tone.BETWEEN: Look(1.0, ((45, 0.7),)),
    Tone.TAIL: Look(0.52),
    Tone.TOP: Look(1.0, ((0, 0.8),), (0.5, 1.1)),
    Tone.BOTTOM: Look(1.0, ((45, 1.0), (135, 1.0))),
    Tone.CUT: Look(1.0, ((135, 0.5),)),
    Tone.MARK: Look(0.3),
    Tone.BLACK: Look(0.0),
    Tone.THING: Look(1.0),
}
"""Standing part white, eye light, tail dark, the piece between the holes hatched. An opened place's top group
has short strokes, its bottom group is cross-hatched (nothing is dotted: a dot marks a face); a pen mark lets the
strands show."""

_ROPE: tuple[tuple[Colour, Tone], ...] = (
    *((colour, Tone.STANDING) for colour in PALETTE.standing),
    *((colour, Tone.EYE) for colour in PALETTE.eye),
    *((colour, Tone.BETWEEN) for colour in PALETTE.between),
    *((colour, Tone.TAIL) for colour in PALETTE.tail),
    (PALETTE.top_group, Tone.TOP),
    (PALETTE.bottom_group, Tone.BOTTOM),
    (PALETTE.ink, Tone.MARK),
    (PALETTE.dotted_face, Tone.BLACK),
)

DARK = 0.12
"""Things of a lower luminance are printed black."""

PURE = 3
"""A vertex whose colour is off the palette's by no more than this has its stretch's colour unmixed."""


def luminance(colour: Colour) -> float:
    """Relative luminance of an sRGB colour, 0 to 1 (IEC 61966-2-1, from memory)."""
    share = np.asarray(colour, dtype=float) / 255
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return float(linear @ [0.2126, 0.7152, 0.0722])


def rope_tone(colour: Colour) -> Tone:
    """The tone that stands for a colour of the rope."""
    tones, _ = _nearest(np.array([colour], dtype=float))
    return Tone(int(tones[0]))


def vertex_tones(solid: Solid) -> Ints:
    """The tone of every vertex of a solid `(v,)`; a flat one of the rope is a cut through it."""
    count = len(solid.mesh.points)
    colours = np.asarray(solid.colours, dtype=float)
    if colours.ndim == 1:
        dark = luminance((int(colours[0]), int(colours[1]), int(colours[2]))) < DARK
        return np.full(count, Tone.BLACK if dark else Tone.THING, dtype=np.int64)
    if solid.flat:
        return np.full(count, Tone.CUT, dtype=np.int64)
    tone, away = _nearest(colours)
    if solid.mesh.strand is None or solid.mesh.station is None:
        return tone
    return _settled(tone, away <= PURE, solid.mesh.strand, solid.mesh.station)


def _nearest(colours: Floats) -> tuple[Ints, Floats]:
    """The rope's tone nearest to each colour `(v, 3)`, and how far it is off `(v,)`."""
    mixed = colours.astype(np.int64) @ np.array([65536, 256, 1], dtype=np.int64)
    packed, place = np.unique(mixed, return_inverse=True)
    given = np.column_stack([packed >> 16, packed >> 8 & 255, packed & 255]).astype(float)
    table = np.array([colour for colour, _ in _ROPE], dtype=float)
    tones = np.array([tone for _, tone in _ROPE], dtype=np.int64)
    away = np.abs(given[:, None] - table[None]).max(axis=2)
    best = away.argmin(axis=1)
    return tones[best][place], away[np.arange(len(given)), best][place]


def _settled(tone: Ints, pure: Bools, strand: Ints, station: Floats) -> Ints:
    """Tones with each mixed vertex given that of the nearest unmixed one along its strand."""
    span = float(np.ptp(station)) + 1.0
    along = station - station.min() + 3 * span * strand
    key, first = np.unique(along[pure], return_index=True)
    if len(key) == 0:
        return tone
    own = tone[pure][first]
    after = np.clip(np.searchsorted(key, along), 0, len(key) - 1)
    before = np.maximum(after - 1, 0)
    nearer = np.where(np.abs(along - key[before]) <= np.abs(key[after] - along), before, after)
    return np.where(pure, tone, own[nearer])
