"""What step pictures have besides labels: the ghost of the step before, numbers on strands, columns of text."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools
from fidpath.geometry import Part
from fidpath.outputs.pictures.labels import FreeSpace
from fidpath.outputs.pictures.pen import TEXT, Pen, Tint
from fidpath.outputs.pictures.raster import View
from fidpath.scene import PALETTE, Chip, Colour, Palette, Panel, Section, Words, colour_of, pair_of, project

SMOOTH = 2
"""Pixels drawn to one shown, each way, in ghosts and chips."""

CHIP = 12
"""Radius of a chip, pixels."""

SIZES = (22, 21, 20, 19, 18, 17, 16, 15, 14)
"""Sizes of type tried for a column of text, pixels."""

INDENT = 44.0
"""What stands before a paragraph has this much room, pixels."""


def draw_ghosts(image: Any, panel: Panel, solid: Bools, palette: Palette = PALETTE) -> None:
    """A panel's ghosts on the paper round what is drawn; `solid` `(h, w) bool` is the whole page's."""
    from PIL import Image, ImageChops, ImageDraw

    if not panel.ghosts:
        return
    x, y, width, height = panel.box
    inside, rim = pair_of(Part.GHOST, palette)
    band = Image.new("RGB", (width * SMOOTH, height * SMOOTH), palette.paper)
    draw = ImageDraw.Draw(band)
    ghost_bands(draw, panel, SMOOTH, 0.0, rim)
    ghost_bands(draw, panel, SMOOTH, 1.5, inside)
    area, free = (x, y, x + width, y + height), ~solid[y : y + height, x : x + width]
    shown = ImageChops.darker(image.crop(area), band.resize((width, height), Image.Resampling.BOX))
    image.paste(shown, area, Image.fromarray(free))


def ghost_bands(draw: Any, panel: Panel, fine: int, inset: float, colour: Colour | int) -> None:
    """A panel's ghosts as bands, narrower by `inset` page pixels on either side, in a picture of the panel alone that
    has `fine` pixels to one of the page's."""
    for ghost in panel.ghosts:
        spots = (project(panel, ghost.line) - np.array(panel.box[:2])) * fine
        radius = max((ghost.width * panel.scale / 2 - inset) * fine, 1.0)
        draw.line([(float(u), float(v)) for u, v in spots], fill=colour, width=max(round(2 * radius), 1))
        for u, v in spots:
            draw.ellipse((u - radius, v - radius, u + radius, v + radius), fill=colour)


def ghost_edges(panel: Panel) -> Bools:
    """Where a panel's ghosts end, `(h, w) bool`: no words are set across that."""
    from PIL import Image, ImageDraw

    if not panel.ghosts:
        return np.zeros(panel.box[:1:-1], dtype=bool)
    image = Image.new("L", panel.box[2:])
    ghost_bands(ImageDraw.Draw(image), panel, 1, 0.0, 1)
    inside = np.asarray(image) > 0
    return widened(inside, 2) & widened(~inside, 2)


def widened(solid: Bools, by: int) -> Bools:
    """Where something is drawn, and `by` pixels round it."""
    grown = solid.copy()
    for _ in range(by):
        grown[1:] |= grown[:-1]
        grown[:-1] |= grown[1:]
        grown[:, 1:] |= grown[:, :-1]
        grown[:, :-1] |= grown[:, 1:]
    return grown


def draw_chips(image: Any, view: View, reach: float, pen: Pen, room: FreeSpace) -> None:
    """A panel's numbers that are shown, on an image or for the layout alone; they and their leaders take their room."""
    panel = view.panel
    for chip in panel.chips:
        if chip.to is not None:
            start, end = project(panel, np.array([chip.at, chip.to]))
            start = start + CHIP * (end - start) / max(float(np.hypot(*(end - start))), CHIP)
            pen.line([start, end], 4, Tint.PAPER)
            pen.line([start, end], 2)
            pen.dot((float(end[0]), float(end[1])), 3)
            room.leaders.append(((float(start[0]), float(start[1])), (float(end[0]), float(end[1]))))
    for chip in shown_chips(view, reach):
        u, v = (float(c) for c in project(panel, np.array([chip.at]))[0])
        if image is not None:
            _draw_chip(image, chip, (u, v), pen.palette)
        pen.note(chip.text, (u - CHIP / 2, v - CHIP / 2, u + CHIP / 2, v + CHIP / 2))
        room.take((u - CHIP, v - CHIP, u + CHIP, v + CHIP))


def shown_chips(view: View, reach: float) -> list[Chip]:
    """A panel's numbers whose strands show there, that lie within it, and not on an earlier one."""
    panel = view.panel
    x, y, width, height = panel.box
    spots = project(panel, np.array([chip.at for chip in panel.chips]).reshape(-1, 3))
    shown: list[int] = []
    for i, chip in enumerate(panel.chips):
        there = chip.to is not None or chip_shows(panel, chip, view.coarse_front, reach)
        within = (np.abs(spots[i] - [x + width / 2, y + height / 2]) <= [width / 2 - CHIP, height / 2 - CHIP]).all()
        if there and within and (np.abs(spots[shown] - spots[i]).max(axis=1) >= 2 * CHIP).all():
            shown.append(i)
    return [panel.chips[i] for i in shown]


def chip_shows(panel: Panel, chip: Chip, front: NDArray[np.float32], reach: float) -> bool:
    """Whether what shows at a chip's place is the strand it belongs to: its surface, about `reach`/2 mm before it."""
    u, v = project(panel, np.array([chip.at]))[0] - np.array(panel.box[:2])
    if not (0 <= u < front.shape[1] and 0 <= v < front.shape[0]):
        return False
    depth = (np.array(chip.at) - np.array(panel.camera.middle)) @ panel.camera.toward
    return bool(0.2 * reach < float(front[int(v), int(u)]) - depth < 0.85 * reach)


def _draw_chip(image: Any, chip: Chip, spot: tuple[float, float], palette: Palette) -> None:
    from PIL import Image, ImageDraw

    size = (CHIP + 2) * 2 * SMOOTH
    disc, mask = Image.new("RGB", (size, size), palette.ink), Image.new("L", (size, size), 0)
    edge, colour = size - SMOOTH, colour_of(chip.part, palette)
    ImageDraw.Draw(mask).ellipse((SMOOTH, SMOOTH, edge, edge), fill=255)
    draw = ImageDraw.Draw(disc)
    draw.ellipse((3 * SMOOTH, 3 * SMOOTH, edge - 2 * SMOOTH, edge - 2 * SMOOTH), fill=colour)
    pen = Pen(draw, palette)
    wide, tall = pen.extent(chip.text, 17 * SMOOTH)
    pen.text((size / 2 - wide / 2, size / 2 - tall * 0.36), chip.text, 17 * SMOOTH, contrasting(colour))
    small = (size // SMOOTH, size // SMOOTH)
    corner = (round(spot[0]) - small[0] // 2, round(spot[1]) - small[1] // 2)
    image.paste(disc.resize(small, Image.Resampling.BOX), corner, mask.resize(small, Image.Resampling.BOX))


def contrasting(colour: Colour) -> Tint:
    """Ink on light colours, paper on dark ones."""
    return Tint.INK if float(np.array(colour) @ [0.2126, 0.7152, 0.0722]) > 118 else Tint.PAPER


def set_words(pen: Pen, words: Words) -> None:
    """A column of text, in the largest type in which all of it fits its box."""
    size = next((size for size in SIZES if _set(pen, words, size, dry=True) <= words.box[3]), SIZES[-1])
    _set(pen, words, size, dry=False)


def _set(pen: Pen, words: Words, size: int, dry: bool) -> float:
    """Sets the sections one under the other, or only measures them; their height in pixels."""
    x, y, width, _ = words.box
    top = float(y)
    for section in words.sections:
        inset = 12.0 if section.framed else 0.0
        start = top
        top = _section(pen, section, (x + inset, top + inset, width - 2 * inset), size, dry) + inset
        if section.framed and not dry:
            pen.box((float(x), start, float(x + width), top), Tint.INK, 2)
        top += 0.9 * size
    return top - 0.9 * size - y


def _section(pen: Pen, section: Section, place: tuple[float, float, float], size: int, dry: bool) -> float:
    """One section from its left, top and width; the row below it."""
    x, top, width = place
    if section.heading:
        if not dry:
            pen.text((x, top), section.heading, size + 2)
        top += 1.55 * size
    for before, text in section.paragraphs:
        indent = INDENT * size / TEXT * (0.62 if len(before) < 2 else 1.0) if before else 0.0
        if before and not dry:
            pen.text((x, top), before, size)
        for line in pen.wrapped(text, width - indent, size):
            if not dry:
                pen.text((x + indent, top), line, size)
            top += 1.22 * size
        top += 0.4 * size
    return top - 0.4 * size
