"""Line art for print: a scene's own panels, cameras and labels in black and white, hidden lines removed.

`line_scene` draws, `svg` and `pdf` write, `reworded_sheet` changes the words round the panels. Legs differ by tone or
hatch: standing part white, eye light, tail dark, the piece between the holes hatched, the groups of an opened place in
short strokes and cross-hatched.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from fidpath.arrays import Bools
from fidpath.outputs.lineart.annotations import (
    InkPen,
    key_column,
    key_row,
    key_tones,
    scale_bar,
    set_chips,
)
from fidpath.outputs.lineart.ink import LineDrawing, scaled
from fidpath.outputs.lineart.panel_lines import panel_art
from fidpath.outputs.lineart.pdf import pdf
from fidpath.outputs.lineart.svg import elements, svg
from fidpath.outputs.lineart.tones import Tone
from fidpath.outputs.pictures import (
    FOOT,
    SMALL,
    Layout,
    Lettered,
    View,
    drawn,
    drawn_in,
    free_space,
    largest,
    letter,
    set_frame,
    set_words,
    shown_chips,
)
from fidpath.scene import PART_WORDS, Scene

__all__ = ["FIGURE_MM", "SHEET_MM", "LineDrawing", "line_scene", "pdf", "reworded_sheet", "svg"]

SHEET_MM = 248.0
"""Width of a whole sheet: it fits A4 and letter paper lying down."""

FIGURE_MM = 160.0
"""Width of a figure among text."""

KEY_ROW, GAP = 46, 16
"""Height of a figure's key, and what lies between its panels and one moved below them, page pixels."""

EDGE = 2
"""What a figure has beyond its panels on the right and below, so that their frames aren't cut there, page pixels."""

TITLES = (30, 27, 24, 21)
"""Sizes of type tried for the title, pixels; the last in two lines."""

LEAST_TYPE = 2.4
"""Height of labels' type that is aimed at, mm (about 7 points)."""


def line_scene(
    scene: Scene, reach: float, unit: str = "mm", sheet: bool = True, views: Sequence[View] | None = None
) -> LineDrawing:
    """A scene in line art; `reach`: strand thickness in mm, `unit`: the user's unit of length.

    A sheet has the scene's title, words and notes, as the coloured picture; a figure has its panels and key alone, for
    a page that says the rest. views: what the scene's panels show, where that is there already.
    """
    shown, width = (scene, SHEET_MM) if sheet else (as_figure(scene), FIGURE_MM)
    there = drawn(scene) if views is None else views
    seen = [view if sheet else replace(view, panel=panel) for view, panel in zip(there, shown.panels, strict=True)]
    mm, solid = width / shown.size[0], drawn_in(shown, seen)
    arts = [panel_art(view, reach, mm) for view in seen]
    pen, done = _lettering(shown, seen, solid, reach, unit, mm)
    tones = frozenset[Tone]().union(*(art.tones for art in arts))
    margins = _margins(shown, tones, mm)
    inks = (*(ink for art in arts for ink in art.inks), *pen.inks, *margins.inks)
    layout = Layout(
        (*pen.written, *margins.written), (*pen.strokes, *margins.strokes), done.left_out, tuple(pen.plates)
    )
    size, scale = (width, shown.size[1] * mm), tuple(scaled(ink, mm) for ink in inks)
    counts = tuple(art.regions for art in arts)
    about = (done.placed, solid, mm, counts, layout, len(inks) - len(margins.inks), tones)
    return LineDrawing(scene.name, scene.title, size, scale, *about)


def reworded_sheet(drawing: str, scene: Scene, in_panels: int, tones: Collection[str]) -> tuple[LineDrawing, str]:
    """A sheet, SVG, with other words round its panels: those words as a drawing, and the whole sheet.

    scene: its words, without panels; in_panels, tones by name: of the drawing that it was.
    """
    mm = SHEET_MM / scene.size[0]
    inks = tuple(scaled(ink, mm) for ink in _margins(scene, {Tone[name] for name in tones}, mm).inks)
    words = LineDrawing(scene.name, scene.title, (SHEET_MM, scene.size[1] * mm), inks)
    return words, svg(words, elements(drawing)[:in_panels])


def as_figure(scene: Scene) -> Scene:
    """The scene without title, words and notes: its panels, those beside the words moved below the others."""
    first = scene.panels[0].box
    edge = min((c.box[0] for c in scene.words if c.box[1] < first[1] + first[3]), default=scene.size[0])
    main = [panel.box for panel in scene.panels if panel.box[0] < edge]
    beside = [panel.box for panel in scene.panels if panel.box[0] >= edge]
    top = min(panel.box[1] - panel.head for panel in scene.panels if panel.box[0] < edge)
    down = (0 if beside or not scene.key else KEY_ROW) - top
    width, foot = max(x + w for x, _, w, _ in main), max(y + h for _, y, _, h in main) + down
    panels = []
    for panel in scene.panels:
        x, y, wide, high = panel.box
        box = (x, y + down, wide, high) if x < edge else (0, foot + GAP, wide, high)
        panels.append(replace(panel, box=box))
    high = foot + (GAP + max(h for *_, h in beside) if beside else 0)
    return replace(scene, panels=tuple(panels), words=(), notes=(), title="", size=(width + EDGE, high + EDGE))


def _lettering(
    scene: Scene, views: Sequence[View], drawn: Bools, reach: float, unit: str, mm: float
) -> tuple[InkPen, Lettered]:
    """Everything that is written on the panels, in the largest type in which all of it finds its place."""
    full = max(LEAST_TYPE / (SMALL * mm), 1.0)
    shown, free = [shown_chips(view, reach) for view in views], free_space(scene, drawn, views)

    def attempt(larger: float) -> tuple[InkPen, Lettered]:
        """The words in type so many times as large, and the pen that wrote them."""
        pen, room = InkPen(full * larger, mm), free.copy()
        for panel, chips in zip(scene.panels, shown, strict=True):
            set_chips(panel, chips, room, pen)
        for panel in scene.panels:
            set_frame(pen, room, panel)
            scale_bar(panel, room, pen, unit)
        return pen, letter(pen, room, views, scene.panels, reach)

    return largest(attempt)


def _margins(scene: Scene, present: Collection[Tone], mm: float) -> InkPen:
    """Title, words, notes and key."""
    pen = InkPen(1.0, mm)
    width, height = scene.size
    names = [(name, tone) for name, tone in key_tones(scene.key, present) if tone in present]
    left = width - 24.0
    if scene.title:
        rope = {PART_WORDS[part] for part in scene.key}
        rows = ([one for one in names if one[0] in rope], [one for one in names if one[0] not in rope])
        left = min(key_row(row, pen, left, top) for row, top in zip(rows, (8.0, 42.0), strict=True))
        size = next((s for s in TITLES if pen.extent(scene.title, s)[0] < left - 60), TITLES[-1])
        for row, line in enumerate(pen.wrapped(scene.title, left - 60, size)[:2]):
            pen.text((24, 16 + 26 * row), line, size)
    else:
        _figure_key(scene, names, pen)
    for column in scene.words:
        set_words(pen, column)
    for row, note in enumerate(scene.notes):
        pen.text((24, height - FOOT + 8 + 24 * row), note, SMALL)
    return pen


def _figure_key(scene: Scene, names: list[tuple[str, Tone]], pen: InkPen) -> None:
    """A figure's key, if it has one: beside the panel moved below the others, or in a row above them all."""
    if not scene.key:
        return
    moved = scene.panels[-1].box
    if scene.panels[0].box[1] > 0:
        key_row(names, pen, scene.size[0] - 4.0, 8.0)
    else:
        key_column(names, pen, moved[0] + moved[2] + 40.0, moved[1] + 30.0)
