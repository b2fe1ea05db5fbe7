"""A black-and-white drawing as plain data: filled areas, lines, discs and words, in mm from the sheet's top left."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.outputs.lineart.tones import Tone
from fidpath.outputs.pictures import Layout, PlacedLabel

ORIGIN = np.zeros(2)


@dataclass(frozen=True)
class Area:
    """An area by its closed loops `(n, 2)`, inside where an odd number of them lies round; grey: 0 black to 1 paper."""

    name: str
    loops: tuple[Floats, ...]
    grey: float


@dataclass(frozen=True)
class Lines:
    """Lines `(n, 2)` of one width and grey; dash: lengths of stroke and gap in mm, empty for unbroken ones."""

    name: str
    lines: tuple[Floats, ...]
    width: float
    grey: float = 0.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Disc:
    """A filled disc with a black rim `rim` mm wide (0 for none)."""

    at: tuple[float, float]
    radius: float
    grey: float
    rim: float = 0.0


@dataclass(frozen=True)
class TextLine:
    """A line of type, its left end on the base line at `at`; size of type and width of the line in mm."""

    at: tuple[float, float]
    text: str
    size: float
    width: float
    grey: float = 0.0


Ink = Area | Lines | Disc | TextLine


@dataclass(frozen=True)
class LineDrawing:
    """A sheet of line art; `inks` are laid on in their order.

    placed, drawn, layout: for tests, where labels went, where something is drawn `(h, w) bool`, and where all words
    went, in pixels of `pixel` mm.
    regions: how many regions each panel was traced into. in_panels: how many inks, the first, are the
    panels' own; the others stand round them. tones: those that the panels show.
    """

    name: str
    title: str
    size: tuple[float, float]
    inks: tuple[Ink, ...]
    placed: tuple[PlacedLabel, ...] = ()
    drawn: Bools = field(default_factory=lambda: np.zeros((0, 0), dtype=bool))
    pixel: float = 0.1
    regions: tuple[int, ...] = ()
    layout: Layout = field(default_factory=Layout)
    in_panels: int = 0
    tones: frozenset[Tone] = frozenset()


def scaled(ink: Ink, by: float, corner: Floats = ORIGIN) -> Ink:
    """An ink with its places and sizes multiplied, then moved to a corner `(2,)`; widths of lines and rims stay."""
    if isinstance(ink, Area):
        return replace(ink, loops=tuple(corner + by * loop for loop in ink.loops))
    if isinstance(ink, Lines):
        return replace(ink, lines=tuple(corner + by * line for line in ink.lines))
    at = (float(corner[0]) + by * ink.at[0], float(corner[1]) + by * ink.at[1])
    if isinstance(ink, Disc):
        return replace(ink, at=at, radius=by * ink.radius)
    return replace(ink, at=at, size=by * ink.size, width=by * ink.width)
