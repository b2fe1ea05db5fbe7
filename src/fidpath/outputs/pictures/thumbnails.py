"""All steps on one sheet: each picture small, in order, with its number and caption: the whole way at a glance."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fidpath.cautions import BESIDE_PICTURES
from fidpath.outputs.pictures.composition import on_paper, png_bytes
from fidpath.outputs.pictures.pen import SMALL, TEXT, TITLE, Pen, Tint
from fidpath.scene import AREA, PALETTE

COLUMNS = 4
"""Pictures side by side."""

THUMB = (560, 520)
"""Size of one small picture, pixels; what it is cut from has the same shape."""

GAP, HEAD, CAPTION, FOOT = 28, 84, 62, 64
"""Space between pictures, for the title, for a caption of two lines, and for the notes, pixels."""


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
    pen.text((GAP, 24), title, TITLE)
    for place, entry in enumerate(entries):
        row, column = divmod(place, COLUMNS)
        _entry(image, pen, entry, (GAP + column * (THUMB[0] + GAP), HEAD + row * (THUMB[1] + CAPTION + GAP)))
    pen.text((GAP, height - FOOT + 14), BESIDE_PICTURES, SMALL)
    return png_bytes(image)


def _entry(image: Any, pen: Pen, entry: Thumbnail, corner: tuple[int, int]) -> None:
    """One small picture with its caption above it."""
    x, y = corner
    pen.text((x, y), entry.number, TITLE)
    indent = 24 + pen.extent("10b", TITLE)[0]
    for line, text in enumerate(pen.wrapped(entry.caption, THUMB[0] - indent, TEXT)[:2]):
        pen.text((x + indent, y + 2 + 27 * line), text, TEXT)
    image.paste(entry.small, (x, y + CAPTION))
    pen.box((float(x), float(y + CAPTION), float(x + THUMB[0]), float(y + CAPTION + THUMB[1])), Tint.FAINT, 1)
