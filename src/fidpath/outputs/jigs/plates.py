"""Plates with engraved marks as solids, and whether their words lie inside the face and clear of all else."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.lettering import LEAST_HEIGHT, EngravedText, strokes
from fidpath.outputs.jigs.manifolds import closed, extruded, pen_strokes, region
from fidpath.outputs.jigs.paths import Outline, area, polygon
from fidpath.outputs.jigs.pieces import JigPiece, Plate, Size

Box = tuple[float, float, float, float]

CLEAR = 0.4
"""Least distance in mm from an engraved word to an edge or to another mark, beyond the pen's own width."""


def piece_of(name: str, flat: Plate, sizes: tuple[Size, ...] = ()) -> JigPiece:
    """The plate as a body to print. Raises CannotBeMade where a word doesn't lie clear on the face."""
    body, known = body_of(name, flat)
    return JigPiece(name, closed(body, name), known, sizes, flat, words_of(flat), band_of(flat))


def body_of(name: str, flat: Plate) -> tuple[Any, float]:
    """The engraved plate as a solid of manifold3d, and its volume in mm3. Raises CannotBeMade as `piece_of`."""
    for fault in faults(flat):
        raise CannotBeMade(f"{name}: {fault}", "Write a smaller print.text_height", key="print.text_height")
    sheet, marks = region([flat.outline], flat.cutouts), engraving(flat)
    body = extruded(sheet, 0.0, flat.thickness)
    body -= extruded(marks, flat.thickness - flat.depth, flat.thickness + 1.0)
    whole = (area(flat.outline) - sum(area(hole) for hole in flat.cutouts)) * flat.thickness
    return body, whole - (sheet ^ marks).area() * flat.depth


def words_of(flat: Plate) -> tuple[str, ...]:
    """What is engraved on a plate, line by line."""
    return tuple(text.words for text in flat.texts)


def band_of(flat: Plate) -> tuple[float, float]:
    """Heights between which a plate is engraved, mm."""
    return flat.thickness - flat.depth, flat.thickness


def engraving(flat: Plate) -> Any:
    """The plane region that the plate's texts and strokes take up (a manifold3d CrossSection)."""
    return pen_strokes(lines_of(flat), flat.pen)


def lines_of(flat: Plate) -> list[Floats]:
    """Every engraved line of a plate, each `(m, 2)` mm."""
    return [*flat.strokes, *(line for text in flat.texts for line in strokes(text))]


def faults(flat: Plate) -> Iterator[str]:
    """What is wrong with where a plate's words are, in words; nothing where all is well."""
    outline = polygon(flat.outline)
    edges = np.concatenate([_edges(outline), *(_edges(polygon(hole)) for hole in flat.cutouts)])
    ticks = np.concatenate([np.zeros((0, 2, 2)), *(_steps(line) for line in flat.strokes)])
    room = flat.pen / 2 + CLEAR
    for number, text in enumerate(flat.texts):
        box = _grown(text.box, room)
        middle = np.array([(box[0] + box[2]) / 2, (box[1] + box[3]) / 2])
        if text.height < LEAST_HEIGHT:
            yield f'"{text.words}" is {text.height:g} mm high, and under {LEAST_HEIGHT:g} mm it can\'t be read'
        if crosses(edges, box) or not _on_face(flat, outline, middle):
            yield f'"{text.words}" runs over an edge'
        if crosses(ticks, _grown(box, flat.pen / 2)):
            yield f'"{text.words}" touches another mark'
        if any(_meet(box, _grown(other.box, flat.pen / 2)) for other in flat.texts[:number]):
            yield f'"{text.words}" touches another word'


def _on_face(flat: Plate, outline: Floats, point: Floats) -> bool:
    """Whether a point `(2,)` lies on the plate."""
    holes = (polygon(hole) for hole in flat.cutouts)
    return encloses(outline, point) and not any(encloses(hole, point) for hole in holes)


def _edges(corners: Floats) -> Floats:
    """Sides `(m, 2, 2)` of a closed polygon."""
    return np.stack([corners, np.roll(corners, -1, axis=0)], axis=1)


def _steps(line: Floats) -> Floats:
    """Parts `(m - 1, 2, 2)` of an open line."""
    return np.stack([line[:-1], line[1:]], axis=1)


def _grown(box: Box, by: float) -> Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def _meet(one: Box, other: Box) -> bool:
    """Whether two boxes overlap."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def crosses(parts: Floats, box: Box) -> bool:
    """Whether any of the straight parts `(m, 2, 2)` has a point inside the box."""
    low, high = np.array(box[:2]), np.array(box[2:])
    start, way = parts[:, 0], parts[:, 1] - parts[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - start) / way, (high - start) / way
    level = way == 0
    within = (start > low) & (start < high)
    enters = np.where(level, np.where(within, -np.inf, np.inf), np.minimum(one, other)).max(axis=1)
    leaves = np.where(level, np.where(within, np.inf, -np.inf), np.maximum(one, other)).min(axis=1)
    return bool((np.maximum(enters, 0) < np.minimum(leaves, 1)).any())


def encloses(corners: Floats, point: Floats) -> bool:
    """Whether a closed polygon `(m, 2)` encloses a point `(2,)`."""
    after = np.roll(corners, -1, axis=0)
    spans = (corners[:, 1] > point[1]) != (after[:, 1] > point[1])
    rise = np.where(spans, after[:, 1] - corners[:, 1], 1.0)
    at = corners[:, 0] + (point[1] - corners[:, 1]) / rise * (after[:, 0] - corners[:, 0])
    return bool((spans & (at > point[0])).sum() % 2)


def plate(
    outline: Outline,
    thickness: float,
    nozzle: float,
    texts: list[EngravedText],
    strokes_on_it: list[Floats] | None = None,
    cutouts: tuple[Outline, ...] = (),
) -> Plate:
    """A plate engraved with a pen that suits nozzle and letters, at most a third of the plate deep."""
    depth = min(0.6, thickness / 3)
    pen = min([pen_width(nozzle), *(text.height / 4 for text in texts)])
    return Plate(outline, thickness, tuple(texts), tuple(strokes_on_it or ()), cutouts, pen, depth)


def pen_width(nozzle: float) -> float:
    """Width of an engraved stroke, mm: what a nozzle can leave open and an eye can see."""
    return max(1.5 * nozzle, 0.5)
