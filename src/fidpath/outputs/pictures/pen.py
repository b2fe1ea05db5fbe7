"""Type and lines on a page of pixels."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto
from functools import lru_cache
from itertools import pairwise
from typing import Any

from fidpath.outputs.pictures.labels import Box, Line
from fidpath.outputs.pictures.layout import Written
from fidpath.scene import PALETTE, Colour, Palette

TEXT, SMALL, TITLE = 22, 18, 30
"""Sizes of type, pixels."""


class Tint(Enum):
    """What type and lines are set in."""

    INK = auto()
    FAINT = auto()
    PAPER = auto()


@lru_cache(maxsize=64)
def _pixel_type(size: float) -> Any:
    """The type of pictures, at so many pixels: it is unpacked once for each size."""
    from PIL import ImageFont

    return ImageFont.load_default(size)


@lru_cache(maxsize=1)
def _scratch() -> Any:
    """What type is measured on."""
    from PIL import Image, ImageDraw

    return ImageDraw.Draw(Image.new("L", (8, 8)))


@lru_cache(maxsize=4096)
def bounds(text: str, font: Any) -> Box:
    """A text's box where it stands at the origin, pixels; each is measured once, however often a place is sought."""
    left, top, right, bottom = _scratch().textbbox((0, 0), text, font=font)
    return left, top, right, bottom


@lru_cache(maxsize=4096)
def length(text: str, font: Any) -> float:
    """How far a text runs, pixels."""
    return float(_scratch().textlength(text, font=font))


class Pen:
    """Type and lines on a page, in a palette's colours; type comes out `larger` times its size.

    written, strokes, plates: the layout of all that it has drawn so far.
    """

    def __init__(self, draw: Any, palette: Palette = PALETTE, larger: float = 1.0) -> None:
        self.draw, self.palette, self.larger = draw, palette, larger
        self.written: list[Written] = []
        self.strokes: list[Line] = []
        self.plates: list[Box] = []
        self.colours: dict[Tint, Colour] = {
            Tint.INK: palette.ink,
            Tint.FAINT: palette.faint,
            Tint.PAPER: palette.paper,
        }

    def _font(self, size: float) -> Any:
        return _pixel_type(size * self.larger)

    def extent(self, text: str, size: float = TEXT) -> tuple[float, float]:
        """Width and height of a text in pixels."""
        left, top, right, bottom = bounds(text, self._font(size))
        return float(right - left), float(max(bottom - top, size))

    def text(self, at: tuple[float, float], text: str, size: int = TEXT, tint: Tint = Tint.INK) -> None:
        """A text with its top left corner at a place."""
        font = self._font(size)
        left, top, _, _ = bounds(text, font)
        place = (at[0] - left, at[1] - min(top, size * 0.25))
        self.draw.text(place, text, font=font, fill=self.colours[tint])
        left, top, right, low = self.draw.textbbox(place, text, font=font)
        self.note(text, (float(left), float(top), float(right), float(low)))

    def note(self, text: str, box: Box) -> None:
        """Puts a line of type into the layout."""
        self.written.append(Written(text, box))

    def line(self, places: Sequence[tuple[float, float]], width: int = 2, tint: Tint = Tint.INK) -> None:
        """A line through places."""
        self.stroke(places, tint)
        self.draw.line([tuple(map(float, p)) for p in places], fill=self.colours[tint], width=width)

    def stroke(self, places: Sequence[tuple[float, float]], tint: Tint = Tint.INK) -> None:
        """Puts a line into the layout; one in paper's colour only clears the ground."""
        if tint is not Tint.PAPER:
            self.strokes += pairwise((float(x), float(y)) for x, y in places)

    def dot(self, at: tuple[float, float], radius: float = 4, tint: Tint = Tint.INK) -> None:
        """A dot with a rim of paper, so that it shows on any colour."""
        for r, fill in ((radius + 2, self.colours[Tint.PAPER]), (radius, self.colours[tint])):
            self.draw.ellipse((at[0] - r, at[1] - r, at[0] + r, at[1] + r), fill=fill)

    def box(self, box: Box, tint: Tint = Tint.FAINT, width: int = 2) -> None:
        """An empty frame."""
        self.stroke(corners(box))
        self.draw.rectangle(tuple(float(edge) for edge in box), outline=self.colours[tint], width=width)

    def plate(self, box: Box) -> None:
        """Paper over what is drawn, for words that find no other place."""
        self.plates.append(box)
        self.draw.rectangle(tuple(float(edge) for edge in box), fill=self.colours[Tint.PAPER])

    def wrapped(self, text: str, width: float, size: int) -> list[str]:
        """A text broken between words into lines no wider than `width`, a word alone on a line where it must."""
        lines: list[str] = []
        for word in text.split(" "):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and length(longer, self._font(size)) <= width:
                lines[-1] = longer
            else:
                lines.append(word)
        return lines


def corners(box: Box) -> list[tuple[float, float]]:
    """A box's corners in their order, the first one again at the end."""
    left, top, right, low = box
    return [(left, top), (right, top), (right, low), (left, low), (left, top)]
