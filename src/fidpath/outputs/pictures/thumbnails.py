"""All steps on one sheet: each picture small, in order, with its number and caption: the whole way at a glance."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fidpath.cautions import BESIDE_PICTURES
from fidpath.outputs.pictures.composition import on_paper
from fidpath.outputs.pictures.pen import SMALL, TEXT, TITLE, Pen, Tint
from fidpath.outputs.pictures.png_file import png_bytes
from fidpath.scene import AREA, PALETTE

COLUMNS = 4
"""Pictures side by side."""

THUMB = (560, 520)
"""Size of one small picture, pixels; what it is cut from has the same shape."""

GAP, HEAD, CAPTION, FOOT = 28, 84, 62, 64
"""Space between pictures, for the title, for a caption, and for the notes, pixels."""

SIZES = (TEXT, 20, 18, 16, 14, 12, 10)
"""Sizes of type tried for a caption, pixels."""

SPACED = 1.23
"""From one line of type to the next, in its size."""

TITLES = (TITLE, 27, 24, 21, 18, 15)
"""Sizes of type tried for the sheet's title, pixels."""


@dataclass(frozen=True)
class Thumbnail:
    """One picture of the sheet: its number ("9b"), its caption, and the picture made small."""

    number: str
    caption: str
    small: Any


def thumbnail(png: bytes, area: tuple[int, int, int, int] = AREA) -> Any:
    """What a picture shows in `area` (left, top, width, height), without its words, small enough for the sheet."""
    from PIL import Image

    with Image.open(io.BytesIO(png)) as whole:
        left, top, wide, high = area
        return on_paper(whole).crop((left, top, left + wide, top + high)).resize(THUMB, Image.Resampling.LANCZOS)


def contact_sheet(title: str, entries: Sequence[Thumbnail]) -> bytes:
    """One PNG of all entries in order. Raises ValueError for a sheet without any."""
    from PIL import Image, ImageDraw

    if not entries:
        raise ValueError("a contact sheet needs at least one picture")
    rows = -(-len(entries) // COLUMNS)
    width = GAP + COLUMNS * (THUMB[0] + GAP)
    height = HEAD + rows * (THUMB[1] + CAPTION + GAP) + FOOT
    image = Image.new("RGB", (width, height), PALETTE.paper)
    pen = Pen(ImageDraw.Draw(image))
    _set_title(pen, title, width - 2 * GAP)
    for place, entry in enumerate(entries):
        row, column = divmod(place, COLUMNS)
        _entry(image, pen, entry, (GAP + column * (THUMB[0] + GAP), HEAD + row * (THUMB[1] + CAPTION + GAP)))
    pen.text((GAP, height - FOOT + 14), BESIDE_PICTURES, SMALL)
    return png_bytes(image)


def _set_title(pen: Pen, title: str, width: float) -> None:
    """The sheet's title, in smaller type or in several lines where it is long."""
    size, lines = _fitting(pen, title, width, HEAD - 28, TITLES)
    for line, text in enumerate(lines):
        pen.text((GAP, 24 + SPACED * size * line), text, size)


def _entry(image: Any, pen: Pen, entry: Thumbnail, corner: tuple[int, int]) -> None:
    """One small picture with its caption above it, in the largest type in which all of it fits."""
    x, y = corner
    pen.text((x, y), entry.number, TITLE)
    indent = 24 + pen.extent("10b", TITLE)[0]
    size, lines = _fitting(pen, entry.caption, THUMB[0] - indent, CAPTION - 4, SIZES)
    for line, text in enumerate(lines):
        pen.text((x + indent, y + 2 + SPACED * size * line), text, size)
    image.paste(entry.small, (x, y + CAPTION))
    pen.box((float(x), float(y + CAPTION), float(x + THUMB[0]), float(y + CAPTION + THUMB[1])), Tint.FAINT, 1)


def _fitting(pen: Pen, text: str, width: float, height: float, sizes: Sequence[int]) -> tuple[int, list[str]]:
    """The largest size in which a text's lines fit, else the smallest, and the lines."""
    for size in sizes:
        lines = pen.wrapped(text, width, size)
        wide = max((pen.extent(line, size)[0] for line in lines), default=0.0)
        if wide <= width and SPACED * size * len(lines) <= height:
            break
    return size, lines
