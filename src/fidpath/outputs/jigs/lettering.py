"""Words as single strokes, to be engraved with a pen of some width: where they are, and how much room they take."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from fidpath.arrays import Floats

CAP = 21.0
"""Height of a capital in the stroke font's own units (Hershey's Roman simplex)."""

LEADING = 1.55
"""From one line's foot to the next one's, in heights of a capital."""

HELD = "\u00a0"
"""A space that no line breaks at."""

LEAST_HEIGHT = 3.5
"""Height in mm below which engraved text can't be read off a printed face (measured in trials)."""


@dataclass(frozen=True)
class EngravedText:
    """A line of capitals and figures: the middle of its foot at (x, y), mm; `height` of a capital, mm."""

    words: str
    x: float
    y: float
    height: float

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top that the strokes' middles keep within, mm."""
        left, right = _extent(self.words)
        half = (right - left) / 2 * self.height / CAP
        return self.x - half, self.y, self.x + half, self.y + self.height


@lru_cache(maxsize=1)
def _font() -> Any:
    from HersheyFonts import HersheyFonts

    font = HersheyFonts()
    font.load_default_font("rowmans")
    return font


@lru_cache(maxsize=512)
def _glyphs(words: str) -> tuple[Floats, ...]:
    """Strokes `(m, 2)` of a line in the font's units, y upward from the foot; every letter keeps between foot and cap.

    Raises ValueError for letters the font has no strokes for.
    """
    words = words.replace(HELD, " ")
    strange = [letter for letter in words if not " " <= letter <= "~"]
    if strange:
        raise ValueError(f"no strokes for {strange[0]!r}")
    strokes = [np.asarray(stroke, dtype=float) for stroke in _font().strokes_for_text(words)]
    return tuple(np.column_stack([line[:, 0], np.clip(9.0 - line[:, 1], 0.0, CAP)]) for line in strokes)


@lru_cache(maxsize=512)
def _extent(words: str) -> tuple[float, float]:
    """Left and right of a line's strokes in the font's units."""
    glyphs = _glyphs(words)
    across = np.concatenate([line[:, 0] for line in glyphs]) if glyphs else np.zeros(1)
    return float(across.min()), float(across.max())


def width(words: str, height: float) -> float:
    """How wide a line is, mm, from stroke to stroke."""
    left, right = _extent(words)
    return (right - left) * height / CAP


def strokes(text: EngravedText) -> tuple[Floats, ...]:
    """The text's strokes, each `(m, 2) float` mm."""
    left, right = _extent(text.words)
    scale = text.height / CAP
    origin = np.array([text.x - (left + right) / 2 * scale, text.y])
    return tuple(origin + line * scale for line in _glyphs(text.words))


def wrapped(words: str, height: float, room: float) -> list[str]:
    """The words in as few lines as `room` mm allows, broken between words; a word wider than that has its own line."""
    lines: list[str] = []
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, height) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def block(lines: list[str], x: float, top: float, height: float) -> list[EngravedText]:
    """Lines one under the other, centred on x, the first one's capitals reaching up to `top` mm."""
    return [
        EngravedText(line, x, top - height - number * LEADING * height, height) for number, line in enumerate(lines)
    ]


def block_height(lines: int, height: float) -> float:
    """Height in mm of so many lines, from the first one's top to the last one's foot."""
    return height + (lines - 1) * LEADING * height
