"""What a jig consists of: pieces with their solids, what was demanded of each, and what is said about it."""

from __future__ import annotations

from dataclasses import dataclass, field

from fidpath.arrays import Floats, Ints
from fidpath.meshing import Mesh
from fidpath.outputs.jigs.lettering import EngravedText
from fidpath.outputs.jigs.paths import Outline


@dataclass(frozen=True)
class Plate:
    """A plate cut along an outline, with marks on its top face. Lengths in mm, x and y from its lower left corner.

    texts and strokes (each `(m, 2) float`) are engraved `depth` deep with a pen `pen` wide. A gauge's open slots
    belong to the outline; `cutouts` lie inside it and run counter-clockwise too.
    """

    outline: Outline
    thickness: float
    texts: tuple[EngravedText, ...] = ()
    strokes: tuple[Floats, ...] = ()
    cutouts: tuple[Outline, ...] = ()
    pen: float = 0.6
    depth: float = 0.6


@dataclass(frozen=True)
class Size:
    """A size to check with a caliper: what it is, and what was asked for, mm."""

    label: str
    value: float


@dataclass(frozen=True)
class FaceColours:
    """Colours of a mesh's faces: what each shows, its red, green and blue, 0 to 255; index: each face's own, `(f,)`."""

    names: tuple[str, ...]
    colours: tuple[tuple[int, int, int], ...]
    index: Ints


@dataclass(frozen=True)
class JigPiece:
    """One body to print, as it lies on the printer's bed (z up from 0), mm.

    volume: mm3 by formula, engraving taken off, or None where no formula is known.
    texts: what is engraved, between the heights `band`. flat: where it can be cut from a plate as well.
    colours: of its faces, for files that know colours.
    """

    name: str
    mesh: Mesh
    volume: float | None = None
    sizes: tuple[Size, ...] = ()
    flat: Plate | None = None
    texts: tuple[str, ...] = ()
    band: tuple[float, float] | None = None
    colours: FaceColours | None = None


@dataclass(frozen=True)
class Jig:
    """One jig: its name, what it is for, how it is used, and what has to be known."""

    name: str
    title: str
    use: tuple[str, ...]
    pieces: tuple[JigPiece, ...]
    notes: tuple[str, ...] = field(default=())
