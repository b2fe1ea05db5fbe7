"""A scene as one picture: its panels rendered, its words and dimensions set round them, written as PNG."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

import numpy as np

from fidpath.arrays import Bools
from fidpath.geometry import Part
from fidpath.outputs.pictures.labels import FreeSpace, PlacedLabel
from fidpath.outputs.pictures.layout import Layout
from fidpath.outputs.pictures.lettering import Lettered, largest, letter, set_frame
from fidpath.outputs.pictures.overlays import draw_chips, draw_ghosts, ghost_edges, set_words, widened
from fidpath.outputs.pictures.pen import SMALL, TITLE, Pen
from fidpath.outputs.pictures.png_file import png_bytes
from fidpath.outputs.pictures.raster import View, drawn
from fidpath.outputs.pictures.rendering import STYLES, RenderStyle, render
from fidpath.scene import PALETTE, PART_WORDS, SIGN_WORDS, Colour, Palette, Scene, pair_of

TITLES = (TITLE, 27, 24, 21, 18)
"""Sizes of type tried for a title, pixels."""

SHAPED = (Part.PEN_MARK, Part.FACE_DOT, Part.CROSSED_OUT, Part.ARROW)
"""What a key shows by its shape and not by its colour."""

RIM = 2
"""What the frame of a section may take up round the box of its words, pixels."""

FOOT = 58
"""Height of the band for notes at the foot, pixels."""


@dataclass(frozen=True)
class Page:
    """A finished picture, and for tests where its labels and all its words went.

    bare: the picture before its margins were written. solid: `(h, w) bool`, where something is drawn.
    """

    image: Any
    bare: Any
    placed: tuple[PlacedLabel, ...]
    solid: Bools
    layout: Layout


def png(
    scene: Scene, reach: float, look: str = "screen", transparent: bool = False, views: Sequence[View] | None = None
) -> bytes:
    """A scene as PNG, the same pixels for the same scene on every machine, and with the same zlib the same bytes.

    reach: strand thickness in mm; look: "screen" or "print"; transparent: without the paper behind it. views: what its
    panels show, where that is there already.
    """
    return page_png(page_of(scene, reach, look, views), look, transparent)


def page_of(scene: Scene, reach: float, look: str, views: Sequence[View] | None = None) -> Page:
    """A scene as a page, as `png` has it."""
    return compose(scene, reach, STYLES[look], views)


def page_png(page: Page, look: str, transparent: bool = False) -> bytes:
    """A page as PNG."""
    return png_bytes(_without_paper(page) if transparent else page.image, STYLES[look].dpi)


def reworded_png(
    picture: bytes, scene: Scene, signs: Sequence[Part], blank: Sequence[tuple[int, int, int, int]], look: str
) -> bytes:
    """A picture on paper, PNG, with other words in its margins.

    scene: its words, without panels; signs: what the key explains besides stretches of rope; blank: boxes that held
    the words before, and nothing else.
    """
    from PIL import Image

    image = on_paper(Image.open(io.BytesIO(picture)))
    _wipe(image, blank, STYLES[look].palette)
    _write_margins(image, scene, signs, STYLES[look].palette)
    return png_bytes(image, STYLES[look].dpi)


def margin_boxes(scene: Scene, page: Page, look: str) -> Sequence[tuple[int, int, int, int]]:
    """Boxes (left, top, width, height) that hold the words round a page's panels; none where they hold more as well."""
    from PIL import ImageChops

    width, height = scene.size
    top = min(panel.box[1] - panel.head for panel in scene.panels) - 1
    columns = [(x - RIM, y - RIM, wide + 2 * RIM, high + 2 * RIM) for x, y, wide, high in (w.box for w in scene.words)]
    boxes = ((0, 0, width, top), (0, height - FOOT, width, FOOT), *columns)
    wiped = page.image.copy()
    _wipe(wiped, boxes, STYLES[look].palette)
    return boxes if ImageChops.difference(wiped, page.bare).getbbox() is None else ()


def _wipe(image: Any, boxes: Sequence[tuple[int, int, int, int]], palette: Palette) -> None:
    """Leaves bare paper in boxes of an image."""
    for left, top, width, height in boxes:
        image.paste(palette.paper, (left, top, left + width, top + height))


def _without_paper(page: Page) -> Any:
    """The picture with what shows of the paper made transparent: as much of it as there is white in a pixel's ink."""
    from PIL import Image

    colour = np.asarray(page.image, dtype=np.float32)
    alpha = np.where(page.solid, np.float32(255), 255 - colour.min(axis=2))
    ink = 255 - (255 - colour) * (255 / np.maximum(alpha, 1))[..., None]
    return Image.fromarray(np.dstack([ink, alpha]).round().clip(0, 255).astype(np.uint8), "RGBA")


def on_paper(picture: Any) -> Any:
    """A picture as RGB, white where it is transparent."""
    from PIL import Image

    if picture.mode != "RGBA":
        return picture.convert("RGB")
    paper = Image.new("RGBA", picture.size, (*PALETTE.paper, 255))
    return Image.alpha_composite(paper, picture).convert("RGB")


def compose(
    scene: Scene, reach: float, style: RenderStyle = STYLES["screen"], views: Sequence[View] | None = None
) -> Page:
    """Renders a scene's panels and sets its words, in the style's colours."""
    from PIL import Image

    shown, palette = drawn(scene) if views is None else views, style.palette
    solid = drawn_in(scene, shown)
    image = Image.new("RGB", scene.size, palette.paper)
    for panel, view in zip(scene.panels, shown, strict=True):
        image.paste(Image.fromarray(render(view, reach, style)), panel.box[:2])
    for panel in scene.panels:
        draw_ghosts(image, panel, solid, palette)
    done, layout, bare, image = _written(scene, reach, shown, solid, palette, image)
    return Page(image, bare, done.placed, solid, layout)


def layout_of(scene: Scene, reach: float, views: Sequence[View]) -> Layout:
    """Where a picture's words go, without drawing it."""
    return _written(scene, reach, views, drawn_in(scene, views), PALETTE, None)[1]


def _written(
    scene: Scene, reach: float, views: Sequence[View], solid: Bools, palette: Palette, blank: Any
) -> tuple[Lettered, Layout, Any, Any]:
    """All of a scene's words on a copy of a blank image, or only their places where that is None.

    Gives the image without its margins, and with them.
    """
    from PIL import Image, ImageDraw

    free = free_space(scene, solid, views)

    def lettered(larger: float) -> tuple[Pen, Lettered]:
        """The words in type so many times as large, and the pen that wrote them."""
        image = None if blank is None else blank.copy()
        pen, room = Pen(ImageDraw.Draw(image or Image.new("RGB", (8, 8))), palette, larger), free.copy()
        for view in views:
            draw_chips(image, view, reach, pen, room)
        for panel in scene.panels:
            set_frame(pen, room, panel)
        images[pen] = image
        return pen, letter(pen, room, views, scene.panels, reach)

    images: dict[Pen, Any] = {}
    pen, done = largest(lettered)
    bare, image = images[pen], Image.new("RGB", (8, 8)) if blank is None else images[pen].copy()
    margins = _write_margins(image, scene, signs_in(scene, views), palette)
    written, strokes = (*pen.written, *margins.written), (*pen.strokes, *margins.strokes)
    return done, Layout(written, strokes, done.left_out, tuple(pen.plates)), bare, image


def free_space(scene: Scene, solid: Bools, views: Sequence[View]) -> FreeSpace:
    """A page's free space before anything is written: off what is drawn `(h, w) bool`, and off edges of ghosts."""
    taken, plain = widened(solid, 3), np.zeros_like(solid)
    for panel, view in zip(scene.panels, views, strict=True):
        x, y, width, height = panel.box
        window = slice(y, y + height), slice(x, x + width)
        taken[window] |= ghost_edges(panel)
        plain[window] |= view.coarse_part == Part.TERMINATOR
    return FreeSpace(taken, plain)


def drawn_in(scene: Scene, views: Sequence[View]) -> Bools:
    """Where something is drawn on a scene's page, `(h, w) bool`."""
    solid = np.zeros(scene.size[::-1], dtype=bool)
    for panel, view in zip(scene.panels, views, strict=True):
        x, y, width, height = panel.box
        solid[y : y + height, x : x + width] |= view.solid
    return solid


def _title(pen: Pen, title: str, width: float) -> None:
    """A picture's title, in smaller type where it would run into the key, in two lines where that isn't enough."""
    single = (size for size in TITLES[:-1] if pen.extent(title, size)[0] <= width)
    double = (size for size in TITLES[-2:] if len(pen.wrapped(title, width, size)) <= 2)
    size = next(chain(single, double), TITLES[-1])
    for row, line in enumerate(pen.wrapped(title, width, size)[:2]):
        pen.text((24, 18 + 1.2 * size * row), line, size)


def _write_margins(image: Any, scene: Scene, signs: Sequence[Part], palette: Palette) -> Pen:
    """All that stands round a picture's panels."""
    from PIL import ImageDraw

    pen = Pen(ImageDraw.Draw(image), palette)
    _margins(pen, scene, signs, palette)
    for words in scene.words:
        set_words(pen, words)
    return pen


def _margins(pen: Pen, scene: Scene, signs: Sequence[Part], palette: Palette) -> None:
    """Title, key of colours, notes; signs: what is seen besides stretches of rope."""
    height = scene.size[1]
    rope = [(PART_WORDS[part], pair_of(part, palette), part) for part in scene.key]
    names = {**SIGN_WORDS, **dict(scene.called)}
    other = [(names[part], (_sign_colour(part, palette),), part) for part in signs]
    left = min(_key_row(pen, rope, scene.size[0] - 24.0, 16.0), _key_row(pen, other, scene.size[0] - 24.0, 46.0))
    _title(pen, scene.title, left - 24)
    for row, note in enumerate(scene.notes):
        pen.text((24, height - FOOT + 8 + 24 * row), note, SMALL)


def _sign_colour(part: Part, palette: Palette) -> Colour:
    """The colour that a sign is known by: a ghost's band is too pale for a swatch, its edge isn't."""
    return pair_of(part, palette)[1 if part is Part.GHOST else 0]


def _key_row(pen: Pen, entries: Sequence[tuple[str, Sequence[Colour], Part]], right: float, top: float) -> float:
    """Swatches with their names in a row that ends at `right`; where it starts."""
    x = right
    for words, colours, part in reversed(entries):
        x -= pen.extent(words, SMALL)[0]
        pen.text((x, top), words, SMALL)
        for colour in reversed(colours):
            x -= 22
            _swatch(pen, (x, top, x + 18, top + 18), part, colour)
        x -= 26
    return x


def _swatch(pen: Pen, box: tuple[float, float, float, float], part: Part, colour: Colour) -> None:
    """A part's colour in a frame; of what is known by its shape, that shape."""
    left, top, right, low = box
    shaped = part in SHAPED
    pen.draw.rectangle(box, fill=pen.palette.paper if shaped else colour, outline=pen.palette.ink)
    if part is Part.PEN_MARK:
        pen.draw.rectangle((left + 8, top + 3, right - 8, low - 3), fill=colour)
    if part is Part.FACE_DOT:
        pen.draw.ellipse((left + 4, top + 4, right - 4, low - 4), fill=colour)
    if part is Part.CROSSED_OUT:
        for ends in ((left, top, right, low), (left, low, right, top)):
            pen.draw.line(ends, fill=colour, width=3)
    if part is Part.ARROW:
        pen.draw.line((left + 3, top + 9, right - 8, top + 9), fill=colour, width=4)
        pen.draw.polygon([(right - 9, top + 3), (right - 3, top + 9), (right - 9, low - 3)], fill=colour)


def signs_in(scene: Scene, views: Sequence[View]) -> tuple[Part, ...]:
    """What a scene's panels show besides stretches of rope, of what a key explains."""
    there = {int(number) for view in views for number in np.flatnonzero(np.bincount(view.coarse_part.ravel() + 1)) - 1}
    there |= {int(Part.GHOST)} if any(panel.ghosts for panel in scene.panels) else set()
    return tuple(part for part in SIGN_WORDS if part in there)
