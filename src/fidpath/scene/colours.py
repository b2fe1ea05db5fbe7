"""Colours looked up from parts, last: what a part is never follows from its colour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats, Ints
from fidpath.geometry import Part
from fidpath.scene.scene import Solid

Colour = tuple[int, int, int]
Pair = tuple[Colour, Colour]

PALER = 0.45
"""Paper mixed into the colours of cut faces."""


@dataclass(frozen=True)
class Palette:
    """Colours of the rope's stretches, each as (light hand, dark hand), and of what is not rope.

    Straw, green and plum differ in lightness by steps that survive grey print and every common colour
    blindness; the two hands of one stretch differ by a smaller step. The piece between the holes is chequered: its
    hands differ more than any others, so that it shows in grey too. An opened place's top and bottom group have a
    tone each, and so have a hole's two faces, the dotted one and the plain one.
    """

    standing: Pair = ((240, 219, 164), (206, 174, 104))
    eye: Pair = ((118, 178, 150), (72, 132, 110))
    between: Pair = ((160, 204, 244), (34, 82, 164))
    tail: Pair = ((150, 74, 116), (104, 42, 80))
    top_group: Colour = (252, 250, 244)
    bottom_group: Colour = (226, 104, 18)
    dotted_face: Colour = (24, 26, 32)
    plain_face: Colour = (255, 226, 66)
    tape: Colour = (64, 68, 76)
    wood: Colour = (168, 122, 84)
    twine: Colour = (196, 40, 56)
    followed: Colour = (40, 42, 50)
    wrong: Colour = (196, 32, 40)
    arrow: Colour = (24, 26, 32)
    ghost: Colour = (238, 240, 243)
    ghost_rim: Colour = (206, 210, 216)
    sleeve: Colour = (232, 150, 132)
    metal: Colour = (176, 182, 188)
    ink: Colour = (32, 34, 38)
    faint: Colour = (120, 124, 130)
    paper: Colour = (255, 255, 255)


PALETTE = Palette()


@dataclass(frozen=True)
class Material:
    """How a part looks. colours: of strands of the light hand and of the dark one, the same where there is no hand.

    gloss: strength of the highlight, 0 to 1. flat: shown in its own colour, hardly shaded.
    """

    colours: Pair
    gloss: float = 0.25
    flat: bool = False


@lru_cache(maxsize=8)
def materials(palette: Palette = PALETTE) -> Mapping[Part, Material]:
    """How every part looks in a palette's colours."""
    p = palette
    return {**_rope_materials(p), **_hole_materials(p), **_tool_materials(p)}


def _rope_materials(p: Palette) -> dict[Part, Material]:
    rope = {
        p.standing: (Part.STANDING_PART, Part.COVER, Part.STANDING_NECK, Part.STANDING_LOCK_LEG),
        p.eye: (Part.EYE,),
        p.between: (Part.BETWEEN_THE_HOLES, Part.TAIL_LOCK_LEG),
        p.tail: (Part.TAIL_NECK, Part.TAIL),
    }
    return {part: Material(pair, 0.15) for pair, parts in rope.items() for part in parts}


def _hole_materials(p: Palette) -> dict[Part, Material]:
    return {
        Part.TOP_GROUP: _one(p.top_group, 0.15),
        Part.BOTTOM_GROUP: _one(p.bottom_group, 0.15),
        Part.PEN_MARK: _one(p.ink, 0.15),
        Part.FACE_DOT: _one(p.dotted_face, 0.15),
        Part.FACE_DOT_RIM: _one(p.paper, 0.15),
        Part.DOTTED_FACE: _one(p.dotted_face, 0.1),
        Part.PLAIN_FACE: _one(p.plain_face, 0.1),
        Part.FOLLOWED_STRAND: _one(p.followed, 0.15),
        Part.CROSSED_OUT: Material((p.wrong, p.wrong), 0.0, flat=True),
    }


def _tool_materials(p: Palette) -> dict[Part, Material]:
    return {
        Part.TERMINATOR: _one(p.metal, 0.06),
        Part.TERMINATOR_ASIDE: _one(p.metal, 0.06),
        Part.FID: _one(p.metal, 0.4),
        Part.WHIPPING: _one(p.tape, 0.1),
        Part.MARKER_NIB: _one(p.ink),
        Part.MARKER_BARREL: _one(p.tape),
        Part.KNIFE_BLADE: _one(p.metal, 0.4),
        Part.KNIFE_HANDLE: _one(p.wood, 0.1),
        Part.POST: _one(p.metal, 0.3),
        Part.STRAIGHT_EDGE: _one(p.wood, 0.1),
        Part.MEASURING_TAPE: _one(p.plain_face, 0.1),
        Part.TICKS: _one(p.ink),
        Part.NEEDLE: _one(p.metal, 0.4),
        Part.LONG_FID: _one(p.metal, 0.4),
        Part.LOCK_STITCH: _one(p.twine, 0.05),
        Part.MARK_SLEEVE: _one(p.sleeve, 0.1),
        Part.BREAK: Material((p.paper, p.paper), 0.0, flat=True),
        Part.ARROW: Material((p.arrow, p.arrow), 0.0, flat=True),
        Part.GHOST: Material((p.ghost, p.ghost_rim), 0.0, flat=True),
    }


def _one(colour: Colour, gloss: float = 0.25) -> Material:
    return Material((colour, colour), gloss)


def colour_of(part: Part, palette: Palette = PALETTE) -> Colour:
    """A part's colour, of the light hand where it has two."""
    return materials(palette)[part].colours[0]


def pair_of(part: Part, palette: Palette = PALETTE) -> Pair:
    """A part's colours, of the light hand and of the dark one."""
    return materials(palette)[part].colours


def material_of(solid: Solid, palette: Palette = PALETTE) -> Material:
    """How a solid takes the light; cut faces are flat."""
    found = materials(palette)[solid.part]
    return replace(found, gloss=0.0, flat=True) if solid.cap else found


def colours_of(solid: Solid, palette: Palette = PALETTE) -> NDArray[np.uint8]:
    """The colour of every vertex of a solid `(v, 3)`, cut faces paler."""
    table = _table(palette)
    hand = np.zeros(len(solid.mesh.points), dtype=np.intp) if solid.dark is None else solid.dark.astype(np.intp)
    number, blended = np.full(len(hand), solid.part, dtype=np.uint8), np.zeros(len(hand), dtype=bool)
    for coat in solid.coats:
        np.copyto(number, np.asarray(coat.part, dtype=np.uint8), where=coat.share >= 1)
        blended |= (coat.share > 0) & (coat.share < 1)
    colour = np.take(_whole(table, solid.cap).reshape(-1, 3), 2 * number.astype(np.intp) + hand, axis=0)
    some = np.flatnonzero(blended)
    colour[some] = _whole(_blended(solid, table, hand, some), solid.cap)
    return colour


def _whole(colour: Floats, cap: bool) -> NDArray[np.uint8]:
    """Colours `(..., 3)` in whole numbers, paler for a cut face."""
    return np.asarray((colour + PALER * (255 - colour) if cap else colour).round(), dtype=np.uint8)


def _blended(solid: Solid, table: Floats, hand: Ints, some: Ints) -> Floats:
    """Colours `(n, 3)` of some of a solid's vertices, where coats may cover what lies below in part."""
    hand = hand[some]
    colour: Floats = table[int(solid.part), hand]
    for coat in solid.coats:
        part = coat.part[some] if isinstance(coat.part, np.ndarray) else np.full(len(some), coat.part)
        share = coat.share[some, None].astype(np.float64)
        colour = colour * (1 - share) + table[part, hand] * share
    return colour


@lru_cache(maxsize=8)
def _table(palette: Palette) -> Floats:
    """Colours by part number and hand, `(parts, 2, 3)`; read-only."""
    table = np.zeros((max(Part) + 1, 2, 3))
    for part, material in materials(palette).items():
        table[part] = material.colours
    table.setflags(write=False)
    return table
