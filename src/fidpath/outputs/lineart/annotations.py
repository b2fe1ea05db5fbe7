"""Words, marks, key and scale bars of a line drawing: set as in the coloured picture, in larger type, in black."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part
from fidpath.machine.compiled import as_written
from fidpath.outputs.font import font_file
from fidpath.outputs.lineart.ink import Area, Disc, Ink, Lines, TextLine
from fidpath.outputs.lineart.panel_lines import CONTOUR, HATCH, inside
from fidpath.outputs.lineart.tones import TONE_STYLES, TONES, Tone
from fidpath.outputs.pictures import (
    CHIP,
    SMALL,
    TEXT,
    Box,
    FreeSpace,
    Pen,
    Tint,
    bounds,
    corners,
    length,
)
from fidpath.scene import PART_WORDS, Chip, Panel, project
from fidpath.units import INCH_MM, is_imperial, show_length

LETTERING = 0.2
"""Width of leaders, frames and dimension lines, mm."""

GREYS = {Tint.INK: 0.0, Tint.FAINT: 0.481, Tint.PAPER: 1.0}
"""What a pen's tints are in one ink, 0 black to 1 paper."""

BAR_SHARE = 0.22
"""A scale bar is at most so much of its panel's width."""


class InkPen(Pen):
    """A pen that keeps what it is told to draw, in page pixels; type comes out `larger` times its size.

    `mm`: mm of print to a page pixel.
    """

    def __init__(self, larger: float, mm: float) -> None:
        from PIL import Image, ImageDraw

        super().__init__(ImageDraw.Draw(Image.new("L", (8, 8))), larger=larger)
        self.mm = mm
        self.inks: list[Ink] = []

    def _font(self, size: float) -> Any:
        return font(round(size * self.larger))

    def text(self, at: tuple[float, float], text: str, size: int = TEXT, tint: Tint = Tint.INK) -> None:
        """A text with its top left corner at a place."""
        type_ = self._font(size)
        left, top, _, _ = bounds(text, type_)
        self.words((at[0] - left, at[1] - min(top, type_.size * 0.25) + type_.getmetrics()[0]), text, size, tint)

    def words(self, at: tuple[float, float], text: str, size: float, tint: Tint = Tint.INK) -> None:
        """A text whose base line starts at a place."""
        type_ = self._font(size)
        width = length(text, type_)
        left, top, right, low = self.draw.textbbox(at, text, font=type_, anchor="ls")
        self.note(text, (float(left), float(top), float(right), float(low)))
        self.inks.append(TextLine((float(at[0]), float(at[1])), text, float(type_.size), width, GREYS[tint]))

    def line(self, places: Sequence[tuple[float, float]], width: int = 2, tint: Tint = Tint.INK) -> None:
        """A line through places; a broad one in paper's colour clears the ground under it."""
        self.stroke(places, tint)
        wide = LETTERING * (3 if width > 2 else 1)
        self.inks.append(Lines("lettering", (np.array(places, dtype=float),), wide, GREYS[tint]))

    def dot(self, at: tuple[float, float], radius: float = 4, tint: Tint = Tint.INK) -> None:
        """A dot with a rim of paper, so that it shows on any tone."""
        self.inks.append(Disc((float(at[0]), float(at[1])), radius + 2, 1.0))
        self.inks.append(Disc((float(at[0]), float(at[1])), radius, GREYS[tint]))

    def box(self, box: Box, tint: Tint = Tint.FAINT, width: int = 2) -> None:
        """An empty frame."""
        self.stroke(corners(box))
        self.inks.append(Lines("lettering", (np.array(corners(box), dtype=float),), LETTERING, GREYS[tint]))

    def plate(self, box: Box) -> None:
        """Paper over what is drawn, for words that find no other place."""
        self.plates.append(box)
        self.inks.append(Area("plate", (np.array(corners(box)[:-1], dtype=float),), GREYS[Tint.PAPER]))


@lru_cache(maxsize=16)
def font(size: int) -> Any:
    """The type that drawings are measured in and that goes into a PDF: DejaVu Sans, at so many pixels."""
    from PIL import ImageFont

    return ImageFont.truetype(str(font_file()), size)


def set_chips(panel: Panel, shown: Iterable[Chip], room: FreeSpace, pen: InkPen) -> None:
    """Numbers on strands: black on white for a light group's, white on black for a dark one's; no word lies on them."""
    for chip in shown:
        if chip.to is not None:
            begin, tip = project(panel, np.array([chip.at, chip.to]))
            begin = begin + CHIP * (tip - begin) / max(float(np.hypot(*(tip - begin))), CHIP)
            start, end = ((float(x), float(y)) for x, y in (begin, tip))
            pen.line([start, end], 4, Tint.PAPER)
            pen.line([start, end])
            pen.dot(end, 3)
            room.leaders.append((start, end))
    for chip in shown:
        dark = TONE_STYLES[TONES[chip.part]].reversed
        x, y = (float(v) for v in project(panel, np.array([chip.at]))[0])
        pen.inks.append(Disc((x, y), CHIP + 1, 0.0 if dark else 1.0, LETTERING))
        size = 15 / pen.larger
        ink = Tint.PAPER if dark else Tint.INK
        pen.words((x - pen.extent(chip.text, size)[0] / 2, y + 5.5), chip.text, size, ink)
        room.take((x - CHIP, y - CHIP, x + CHIP, y + CHIP))


def scale_bar(panel: Panel, room: FreeSpace, pen: InkPen, unit: str) -> None:
    """A bar of a round length, divided in two, in the free corner nearest to the panel's foot; none where none is."""
    length = round_length(BAR_SHARE * panel.camera.width, unit)
    long, text = length * panel.scale, show_length(length, unit, length / 2)
    words = pen.extent(text, SMALL)
    size = (long + 12 + words[0], max(words[1], 16.0))
    x, y, width, height = panel.box
    for left in (x + width - size[0] - 16, x + 16.0, x + (width - size[0]) / 2):
        for top in (y + height - size[1] - 14, y + 14.0):
            box = (left, top, left + size[0], top + size[1])
            if room.is_free(box):
                _draw_bar(pen, (left, top + size[1] / 2), long)
                pen.text((left + long + 12, top + (size[1] - words[1]) / 2), text, SMALL)
                room.take(box)
                return


def _draw_bar(pen: InkPen, at: tuple[float, float], long: float) -> None:
    x, y = at
    half = np.array([[x, y - 4], [x + long / 2, y - 4], [x + long / 2, y + 4], [x, y + 4]])
    pen.inks.append(Area("scale-bar", (half,), 0.0))
    pen.box((x, y - 4, x + long, y + 4), Tint.INK)


def round_length(most: float, unit: str) -> float:
    """The longest of 1, 2, 5, 10 ... mm, or of an inch's halves and doubles, that is no longer than `most` mm."""
    if is_imperial(unit):
        return float(INCH_MM * 2.0 ** np.floor(np.log2(most / INCH_MM)))
    ten = 10.0 ** np.floor(np.log10(most))
    return float(max(ten * step for step in (1, 2, 5) if ten * step <= most))


def key_row(names: Sequence[tuple[str, Tone]], pen: InkPen, right: float, top: float) -> float:
    """Swatches with their names in a row that ends at `right`; where it starts."""
    x = right
    for name, tone in reversed(names):
        x -= pen.extent(name, SMALL)[0] + 44
        _entry(pen, name, tone, (x, top))
        x -= 20
    return x


def key_column(names: Sequence[tuple[str, Tone]], pen: InkPen, left: float, top: float) -> None:
    """Swatches with their names one under the other."""
    for row, (name, tone) in enumerate(names):
        _entry(pen, name, tone, (left, top + 44 * row))


def _entry(pen: InkPen, name: str, tone: Tone, at: tuple[float, float]) -> None:
    x, y = at
    _swatch(pen, tone, (x, y, x + 36, y + 26))
    pen.words((x + 44, y + 19), name, SMALL)


def _swatch(pen: InkPen, tone: Tone, box: Box) -> None:
    """A tone in a frame; of what is known by its shape, that shape."""
    left, top, right, bottom = box
    middle, half = ((left + right) / 2, (top + bottom) / 2), (bottom - top) / 2
    if tone is Tone.DOT:
        pen.inks.append(Disc(middle, 0.55 * half, TONE_STYLES[tone].grey))
    elif tone is Tone.MARK:
        pen.inks.append(Area("key", (_upright(middle[0] - 2.5, top + 4, middle[0] + 2.5, bottom - 4),), 0.0))
    else:
        pen.inks.append(Area("key", (_upright(*box),), TONE_STYLES[tone].grey))
    for angle, gap in TONE_STYLES[tone].hatch:
        pen.inks.append(Lines("key", tuple(hatch_in(box, angle, gap / pen.mm)), HATCH, 0.0, TONE_STYLES[tone].dash))
    loop = _upright(*box)
    pen.inks.append(Lines("key", (np.concatenate([loop, loop[:1]]),), CONTOUR))


def _upright(left: float, top: float, right: float, bottom: float) -> Floats:
    """The corners of an upright box, `(4, 2)`."""
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]])


def hatch_in(box: Box, angle: float, gap: float) -> list[Floats]:
    """Parallel lines in an upright box, `(2, 2)` each."""
    corner, size = np.array(box[:2]), np.array(box[2:]) - box[:2]
    way = np.array([np.cos(np.radians(angle)), -np.sin(np.radians(angle))])
    reach = float(np.hypot(*size)) / 2
    found, within = [], as_written(inside)
    for number in range(-int(reach / gap), int(reach / gap) + 1):
        x, y = start = size / 2 + number * gap * np.array([-way[1], way[0]])
        low, high = within(x, way[0], size[0], *within(y, way[1], size[1], -np.inf, np.inf))
        if high - low > 1:
            found.append(corner + start + np.outer([low, high], way))
    return found


def key_tones(key: Iterable[Part], present: Iterable[Tone]) -> list[tuple[str, Tone]]:
    """A scene's key in tones, with the two groups of an opened place and cut strands where they show."""
    found = [(PART_WORDS[part], TONES[part]) for part in key]
    groups = {TONES[part]: PART_WORDS[part] for part in (Part.TOP_GROUP, Part.BOTTOM_GROUP)}
    signs = (Part.FOLLOWED_STRAND, Part.PEN_MARK, Part.FACE_DOT, Part.GHOST)
    marks = {TONES[part]: PART_WORDS[part] for part in signs}
    more = {**groups, Tone.CUT: "cut strands", **marks}
    return found + [(name, tone) for tone, name in more.items() if tone in present]
