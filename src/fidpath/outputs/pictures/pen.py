"""Type and lines on a page of pixels."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto
from functools import lru_cache
from typing import Any

from fidpath.outputs.pictures.labels import Box
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


class Pen:
    """Type and lines on a page, in a palette's colours."""

    def __init__(self, draw: Any, palette: Palette = PALETTE) -> None:
        self.draw = draw
        self.colours: dict[Tint, Colour] = {
            Tint.INK: palette.ink,
            Tint.FAINT: palette.faint,
            Tint.PAPER: palette.paper,
        }

    def _font(self, size: float) -> Any:
        return _pixel_type(size)

    def extent(self, text: str, size: float = TEXT) -> tuple[float, float]:
        """Width and height of a text in pixels."""
        left, top, right, bottom = self.draw.textbbox((0, 0), text, font=self._font(size))
        return float(right - left), float(max(bottom - top, size))

    def text(self, at: tuple[float, float], text: str, size: int = TEXT, tint: Tint = Tint.INK) -> None:
        """A text with its top left corner at a place."""
        left, top, _, _ = self.draw.textbbox((0, 0), text, font=self._font(size))
        self.draw.text(
            (at[0] - left, at[1] - min(top, size * 0.25)), text, font=self._font(size), fill=self.colours[tint]
        )

    def line(self, places: Sequence[tuple[float, float]], width: int = 2, tint: Tint = Tint.INK) -> None:
        """A line through places."""
        self.draw.line([tuple(map(float, p)) for p in places], fill=self.colours[tint], width=width)

    def dot(self, at: tuple[float, float], radius: float = 4, tint: Tint = Tint.INK) -> None:
        """A dot with a rim of paper, so that it shows on any colour."""
        for r, fill in ((radius + 2, self.colours[Tint.PAPER]), (radius, self.colours[tint])):
            self.draw.ellipse((at[0] - r, at[1] - r, at[0] + r, at[1] + r), fill=fill)

    def box(self, box: Box, tint: Tint = Tint.FAINT, width: int = 2) -> None:
        """An empty frame."""
        self.draw.rectangle(tuple(float(edge) for edge in box), outline=self.colours[tint], width=width)

    def wrapped(self, text: str, width: float, size: int) -> list[str]:
        """A text broken between words into lines no wider than `width`, a word alone on a line where it must."""
        lines: list[str] = []
        for word in text.split():
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.draw.textlength(longer, font=self._font(size)) <= width:
                lines[-1] = longer
            else:
                lines.append(word)
        return lines
