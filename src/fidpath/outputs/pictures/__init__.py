"""A `Scene` -> pixels: panels rendered off screen, words set round them.

A `Scene` comes in; a page of pixels or a PNG goes out. Open `composition` first.
"""

from fidpath.outputs.pictures.composition import FOOT, on_paper, png, set_callout, set_dimension, set_labels, widened
from fidpath.outputs.pictures.labels import Box, FreeSpace, PlacedLabel
from fidpath.outputs.pictures.overlays import CHIP, chip_shows, set_words
from fidpath.outputs.pictures.pen import SMALL, TEXT, Pen, Tint
from fidpath.outputs.pictures.raster import Depths, Faces, Visible, fill, visible
from fidpath.outputs.pictures.thumbnails import Thumbnail, contact_sheet, thumbnail

__all__ = [
    "CHIP",
    "FOOT",
    "SMALL",
    "TEXT",
    "Box",
    "Depths",
    "Faces",
    "FreeSpace",
    "Pen",
    "PlacedLabel",
    "Thumbnail",
    "Tint",
    "Visible",
    "chip_shows",
    "contact_sheet",
    "fill",
    "on_paper",
    "png",
    "set_callout",
    "set_dimension",
    "set_labels",
    "set_words",
    "thumbnail",
    "visible",
    "widened",
]
