"""A scene as one picture: its panels rendered, its words and dimensions set round them, written as PNG."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Bools
from fidpath.outputs.pictures.dimensions import set_dimension
from fidpath.outputs.pictures.labels import Box, FreeSpace, Line, PlacedLabel
from fidpath.outputs.pictures.overlays import draw_chips, draw_ghosts, set_words
from fidpath.outputs.pictures.pen import SMALL, TEXT, TITLE, Pen, Tint
from fidpath.outputs.pictures.raster import View, drawn
from fidpath.outputs.pictures.rendering import STYLES, RenderStyle, render
from fidpath.scene import PALETTE, PART_WORDS, Callout, Label, Palette, Panel, Scene, pair_of, project

TITLES = (TITLE, 27, 24, 21, 18)
"""Sizes of type tried for a title, pixels."""

FOOT = 58
"""Height of the band for notes at the foot, pixels."""


@dataclass(frozen=True)
class Page:
    """A finished picture, and where its labels went: for tests. solid: `(h, w) bool`, where something is drawn."""

    image: Any
    placed: tuple[PlacedLabel, ...]
    solid: Bools


def png(
    scene: Scene, reach: float, look: str = "screen", transparent: bool = False, views: Sequence[View] | None = None
) -> bytes:
    """A scene as PNG, the same bytes for the same scene on every machine.

    reach: strand thickness in mm; look: "screen" or "print"; transparent: without the paper behind it. views: what its
    panels show, where that is there already.
    """
    page = compose(scene, reach, STYLES[look], views)
    return png_bytes(_without_paper(page) if transparent else page.image, STYLES[look].dpi)


def png_bytes(image: Any, dpi: int | None = None) -> bytes:
    """An image as PNG, packed lightly: a little larger, in a third of the time."""
    out = io.BytesIO()
    image.save(out, format="PNG", compress_level=2, **({} if dpi is None else {"dpi": (dpi, dpi)}))
    return out.getvalue()


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
    from PIL import Image, ImageDraw

    shown, palette = drawn(scene) if views is None else views, style.palette
    solid = drawn_in(scene, shown)
    image = Image.new("RGB", scene.size, palette.paper)
    for panel, view in zip(scene.panels, shown, strict=True):
        image.paste(Image.fromarray(render(view, reach, style)), panel.box[:2])
    for panel in scene.panels:
        draw_ghosts(image, panel, solid, palette)
    room = FreeSpace(widened(solid, 3))
    for view in shown:
        for box in draw_chips(image, view, reach, palette):
            room.take(box)
    pen = Pen(ImageDraw.Draw(image), palette)
    for panel in scene.panels:
        _frame(pen, room, panel)
    placed = set_measures(pen, room, scene.panels)
    _margins(pen, scene, palette)
    for words in scene.words:
        set_words(pen, words)
    return Page(image, tuple(placed), solid)


def drawn_in(scene: Scene, views: Sequence[View]) -> Bools:
    """Where something is drawn on a scene's page, `(h, w) bool`."""
    solid = np.zeros(scene.size[::-1], dtype=bool)
    for panel, view in zip(scene.panels, views, strict=True):
        x, y, width, height = panel.box
        solid[y : y + height, x : x + width] |= view.solid
    return solid


def set_measures(pen: Pen, room: FreeSpace, panels: Sequence[Panel]) -> list[PlacedLabel]:
    """Callouts, dimensions and labels of panels, each where there is room for it; where those are that were set."""
    placed: list[PlacedLabel] = []
    for panel in panels:
        for callout in panel.callouts:
            placed += set_callout(pen, room, panel, callout)
        for dimension in panel.dimensions:
            found = set_dimension(pen, room, panel, dimension)
            placed += [] if found is None else [found]
        placed += set_labels(pen, room, panel)
    return placed


def widened(solid: Bools, by: int) -> Bools:
    """Where something is drawn, and `by` pixels round it."""
    grown = solid.copy()
    for _ in range(by):
        grown[1:] |= grown[:-1]
        grown[:-1] |= grown[1:]
        grown[:, 1:] |= grown[:, :-1]
        grown[:, :-1] |= grown[:, 1:]
    return grown


def _area(panel: Panel) -> Box:
    x, y, width, height = panel.box
    return float(x), float(y), float(x + width), float(y + height)


def _frame(pen: Pen, room: FreeSpace, panel: Panel) -> None:
    """A panel's caption, set in the free corner that is nearest to its top left."""
    caption = f"{panel.letter}   {panel.caption}" if panel.letter else panel.caption
    if panel.letter:
        pen.box(_area(panel), width=1)
    if not caption:
        return
    x, y, width, height = panel.box
    size = pen.extent(caption, TEXT)
    for left, top in ((x + 12, y + 10), (x + 12, y + height - size[1] - 12), (x + width - size[0] - 12, y + 10)):
        box = (float(left), float(top), float(left) + size[0], float(top) + size[1])
        if room.is_free(box):
            pen.text((box[0], box[1]), caption, TEXT)
            room.take(box)
            return


def set_callout(pen: Pen, room: FreeSpace, panel: Panel, callout: Callout) -> list[PlacedLabel]:
    """A frame round what another panel shows larger, with that panel's letter beside it."""
    x, y = project(panel, np.array([callout.middle]))[0]
    half = np.array(callout.size) * panel.scale / 2
    left, top, right, bottom = x - half[0], y - half[1], x + half[0], y + half[1]
    pen.box((left, top, right, bottom), Tint.INK, 2)
    for edge in (top, bottom):
        room.take((left - 2, edge - 2, right + 2, edge + 2))
    wide, tall = pen.extent(callout.letter)
    for start in (x - wide / 2, left + 4, right - wide - 4):
        for level in (top - tall - 12, bottom + 12):
            box = (float(start), float(level), float(start + wide), float(level + tall))
            if room.is_free(box):
                pen.text((box[0], box[1]), callout.letter)
                room.take(box)
                return [PlacedLabel(box, ((box[0], box[1]), (box[0], box[1])))]
    return []


def set_labels(pen: Pen, room: FreeSpace, panel: Panel) -> list[PlacedLabel]:
    """A panel's labels with their leaders, in free places; those that find none are left out."""
    placed = []
    spots = project(panel, np.array([label.at for label in panel.labels]).reshape(-1, 3))
    order = np.lexsort((spots[:, 0], np.array([label.rank for label in panel.labels], dtype=int)))
    for i in order:
        label, spot = panel.labels[i], (float(spots[i, 0]), float(spots[i, 1]))
        found = _set(pen, room, panel, label, spot)
        if found is not None:
            placed.append(found)
    return placed


def _set(pen: Pen, room: FreeSpace, panel: Panel, label: Label, spot: tuple[float, float]) -> PlacedLabel | None:
    lines = label.text.split("\n")
    sizes = [pen.extent(line, SMALL) for line in lines]
    mark = pen.extent(label.mark, TEXT) if label.mark else (0.0, 0.0)
    inset = mark[0] + 12 if label.mark else 0.0
    size = (max(w for w, _ in sizes) + inset, max(sum(h + 4 for _, h in sizes), mark[1]))
    found = room.place(spot, size, _within(panel, label, spot, size))
    if found is None:
        return None
    _draw_leader(pen, found.leader)
    left, top = found.box[0], found.box[1]
    if label.mark:
        pen.text((left, top), label.mark, TEXT)
    for line, (_, tall) in zip(lines, sizes, strict=True):
        pen.text((left + inset, top + 2), line, SMALL)
        top += tall + 4
    return found


def _within(panel: Panel, label: Label, spot: tuple[float, float], size: tuple[float, float]) -> Box:
    """Where a label may go: in its panel, and no farther from its place than it says."""
    area = _area(panel)
    if label.near is None:
        return area
    (x, y), (wide, tall) = spot, (size[0] + label.near, size[1] + label.near)
    return max(area[0], x - wide), max(area[1], y - tall), min(area[2], x + wide), min(area[3], y + tall)


def _draw_leader(pen: Pen, leader: Line) -> None:
    pen.line(leader, 4, Tint.PAPER)
    pen.line(leader, 2)
    pen.dot(leader[1])


def _title(pen: Pen, title: str, width: float) -> None:
    """A picture's title, in smaller type where it would run into the key, in two lines where that isn't enough."""
    size = next((size for size in TITLES if pen.extent(title, size)[0] <= width), TITLES[-1])
    for row, line in enumerate(pen.wrapped(title, width, size)[:2]):
        pen.text((24, 18 + 1.2 * size * row), line, size)


def _margins(pen: Pen, scene: Scene, palette: Palette) -> None:
    """Title, key of colours, notes."""
    width, height = scene.size
    x = width - 24.0
    for part in reversed(scene.key):
        x -= pen.extent(PART_WORDS[part], SMALL)[0]
        pen.text((x, 24), PART_WORDS[part], SMALL)
        for colour in reversed(pair_of(part, palette)):
            x -= 22
            pen.draw.rectangle((x, 24, x + 18, 42), fill=colour, outline=palette.ink)
        x -= 26
    _title(pen, scene.title, x - 24)
    for row, note in enumerate(scene.notes):
        pen.text((24, height - FOOT + 8 + 24 * row), note, SMALL)
