"""A `Scene` -> pixels: panels rendered, words set round them.

A `Scene` comes in; a page of pixels or a PNG goes out. Open `composition` first.
"""

from fidpath.outputs.pictures.bodies import Bodies, bodies_of, linked, root
from fidpath.outputs.pictures.composition import (
    FOOT,
    drawn_in,
    free_space,
    margin_boxes,
    on_paper,
    page_of,
    page_png,
    png,
    reworded_png,
    signs_in,
)
from fidpath.outputs.pictures.labels import Box, FreeSpace, PlacedLabel
from fidpath.outputs.pictures.layout import Layout
from fidpath.outputs.pictures.lettering import Lettered, largest, letter, set_frame
from fidpath.outputs.pictures.overlays import CHIP, ghost_bands, set_words, shown_chips
from fidpath.outputs.pictures.pen import SMALL, TEXT, Pen, Tint, bounds, corners, length
from fidpath.outputs.pictures.raster import FINE, View, drawn, seen
from fidpath.outputs.pictures.rendering import render
from fidpath.outputs.pictures.shading import weights
from fidpath.outputs.pictures.thumbnails import Thumbnail, contact_sheet, thumbnail

__all__ = [
    "CHIP",
    "FINE",
    "FOOT",
    "SMALL",
    "TEXT",
    "Bodies",
    "Box",
    "FreeSpace",
    "Layout",
    "Lettered",
    "Pen",
    "PlacedLabel",
    "Thumbnail",
    "Tint",
    "View",
    "bodies_of",
    "bounds",
    "contact_sheet",
    "corners",
    "drawn",
    "drawn_in",
    "free_space",
    "ghost_bands",
    "largest",
    "length",
    "letter",
    "linked",
    "margin_boxes",
    "on_paper",
    "page_of",
    "page_png",
    "png",
    "render",
    "reworded_png",
    "root",
    "seen",
    "set_frame",
    "set_words",
    "shown_chips",
    "signs_in",
    "thumbnail",
    "weights",
]
