"""Drawings at true size: straight lines, filled shapes and words, placed in mm from the top left corner."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

Point = tuple[float, float]
Anchor = Literal["left", "centre", "right"]

POINT_MM = 25.4 / 72
"""A point of type, mm."""

WIDE = 0.64
"""Mean width of a character of the type, in its size: generous, so that words never meet."""

THIN, FINE, BOLD = 0.15, 0.25, 0.6
"""Widths of lines, mm."""


@dataclass(frozen=True)
class Stroke:
    """A straight line from `a` to `b`; `dash` is the length of strokes and gaps, 0 for none. All mm."""

    a: Point
    b: Point
    width: float = FINE
    dash: float = 0.0


@dataclass(frozen=True)
class Polygon:
    """A closed shape with these corners, mm, filled with `grey` (0 black to 1 white), or empty where it is None."""

    corners: tuple[Point, ...]
    grey: float | None = 0.0
    width: float = 0.0


@dataclass(frozen=True)
class Dot:
    """A round dot, mm; filled black, or white with a rim."""

    at: Point
    radius: float
    filled: bool = True


@dataclass(frozen=True)
class Word:
    """A word on one line, its middle at the height of `at`; size in points, `white` on something black."""

    at: Point
    text: str
    size: float = 7.0
    anchor: Anchor = "left"
    bold: bool = False
    white: bool = False

    @property
    def reach(self) -> float:
        """How wide it may be, mm."""
        return WIDE * len(self.text) * self.size * POINT_MM


@dataclass(frozen=True)
class Drawing:
    """What is drawn, on `(width, height)` mm, and what it shows, in words for those who can't see it."""

    size: Point
    alt: str
    strokes: tuple[Stroke, ...] = ()
    shapes: tuple[Polygon, ...] = ()
    dots: tuple[Dot, ...] = ()
    labels: tuple[Word, ...] = ()


def merged(size: Point, alt: str, placed: Iterable[tuple[Point, Drawing]]) -> Drawing:
    """Drawings side by side on one, each with its top left corner at a place."""
    parts = [_moved(drawing, at) for at, drawing in placed]
    return Drawing(
        size,
        alt,
        tuple(s for part in parts for s in part.strokes),
        tuple(s for part in parts for s in part.shapes),
        tuple(s for part in parts for s in part.dots),
        tuple(s for part in parts for s in part.labels),
    )


def _moved(drawing: Drawing, by: Point) -> Drawing:
    def to(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    return Drawing(
        drawing.size,
        drawing.alt,
        tuple(Stroke(to(s.a), to(s.b), s.width, s.dash) for s in drawing.strokes),
        tuple(Polygon(tuple(to(c) for c in s.corners), s.grey, s.width) for s in drawing.shapes),
        tuple(Dot(to(s.at), s.radius, s.filled) for s in drawing.dots),
        tuple(Word(to(s.at), s.text, s.size, s.anchor, s.bold, s.white) for s in drawing.labels),
    )


def box(left: float, top: float, width: float, height: float, stroke: float = FINE) -> Polygon:
    """An empty frame, mm."""
    corners = ((left, top), (left + width, top), (left + width, top + height), (left, top + height))
    return Polygon(corners, None, stroke)


def as_data(drawing: Drawing) -> dict[str, Any]:
    """The drawing as plain data for the typesetter."""
    return {
        "size": drawing.size,
        "alt": drawing.alt,
        "strokes": [[*s.a, *s.b, s.width, s.dash] for s in drawing.strokes],
        "shapes": [{"corners": s.corners, "grey": s.grey, "width": s.width} for s in drawing.shapes],
        "dots": [[*s.at, s.radius, s.filled] for s in drawing.dots],
        "labels": [{"at": s.at, "text": s.text, "size": s.size, "anchor": s.anchor, "bold": s.bold, "white": s.white}
                   for s in drawing.labels],
    }  # fmt: skip
