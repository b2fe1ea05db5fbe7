"""What is written on panels: frames with captions, callouts, dimensions, labels; each where there is room for it.

Pictures and line art are lettered alike, with pens of their own.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from fidpath.outputs.pictures.anchors import Spot, anchors
from fidpath.outputs.pictures.dimensions import set_dimension
from fidpath.outputs.pictures.labels import Box, FreeSpace, LabelWish, Line, PlacedLabel, arranged
from fidpath.outputs.pictures.layout import LeftOut, Reason
from fidpath.outputs.pictures.pen import SMALL, TEXT, Pen, Tint
from fidpath.outputs.pictures.raster import View
from fidpath.scene import Callout, Label, Panel, project

AnyPen = TypeVar("AnyPen", bound=Pen)

CAPTIONS = (TEXT, 20, 18, 16, 14)
"""Sizes of type tried for a panel's caption, pixels."""

NARROWER, MOST_LINES = (1.0, 0.6, 0.4, 0.3), 3
"""Shares of its panel's width that a caption is wrapped to, and how many lines it may have there."""

EDGE = 12.0
"""What a caption keeps off its panel's edge, pixels."""

LONG = 220.0
"""A leader longer than this is too long, pixels."""

LARGER = (1.0, 0.85, 0.78, 0.7)
"""Smaller type is tried where something finds no room."""


@dataclass(frozen=True)
class Lettered:
    """What was written: labels and dimensions with their leaders, and what was left out.

    shortened: how many labels are set with their letter alone.
    """

    placed: tuple[PlacedLabel, ...]
    left_out: tuple[LeftOut, ...]
    shortened: int = 0

    @property
    def crowded(self) -> int:
        """How many words found no room, or room for their letter alone."""
        return self.shortened + sum(one.why is Reason.NO_ROOM for one in self.left_out)

    @property
    def strained(self) -> int:
        """How many leaders are longer than they should be, and how many words hide a part of the drawing."""
        far = sum(float(np.hypot(u - x, v - y)) > LONG for (x, y), (u, v) in (one.leader for one in self.placed))
        return far + sum(one.plated for one in self.placed)


def largest(attempt: Callable[[float], tuple[AnyPen, Lettered]]) -> tuple[AnyPen, Lettered]:
    """The attempt in the largest type in which everything finds room near by, off the drawing, or least doesn't."""
    tried = []
    for larger in LARGER:
        tried.append(attempt(larger))
        if not tried[-1][1].crowded + tried[-1][1].strained:
            return tried[-1]
    return min(tried, key=lambda one: (one[1].crowded, one[1].strained))


def letter(pen: Pen, room: FreeSpace, views: Sequence[View], panels: Sequence[Panel], reach: float) -> Lettered:
    """Callouts, dimensions and labels of panels; reach: strand thickness, mm."""
    placed: list[PlacedLabel] = []
    left_out: list[LeftOut] = []
    shortened = 0
    for panel in panels:
        for callout in panel.callouts:
            set_callout(pen, room, panel, callout)
        for dimension in panel.dimensions:
            found = set_dimension(pen, room, panel, dimension)
            placed += [] if found is None else [found]
            left_out += [LeftOut(panel.letter, dimension.text, Reason.NO_ROOM)] if found is None else []
    for view, panel in zip(views, panels, strict=True):
        done = set_labels(pen, room, view, panel, reach)
        placed += done.placed
        left_out += done.left_out
        shortened += done.shortened
    return Lettered(tuple(placed), tuple(left_out), shortened)


def area(panel: Panel) -> Box:
    """A panel's box by its edges."""
    x, y, width, height = panel.box
    return float(x), float(y), float(x + width), float(y + height)


def set_frame(pen: Pen, room: FreeSpace, panel: Panel) -> None:
    """A panel's frame, and its caption: in the band kept for it, in a free corner, or on paper laid over a corner."""
    if panel.letter:
        left, top, right, low = area(panel)
        pen.box((left, top - panel.head, right, low), width=1)
    caption = f"{panel.letter}   {panel.caption}" if panel.letter and panel.caption else panel.letter or panel.caption
    if not caption:
        return
    if panel.head:
        _in_band(pen, panel, caption)
        return
    lines, size, box = _in_corner(pen, room, panel, caption)
    if not room.is_free(box):
        pen.plate((box[0] - EDGE + 2, box[1] - EDGE + 4, box[2] + 6, box[3] + 6))
    _set_lines(pen, lines, (box[0], box[1]), size)
    room.take(box)


def _in_band(pen: Pen, panel: Panel, caption: str) -> None:
    """A caption in the band over its panel, in as large a type as it fits."""
    x, y, width, _ = panel.box
    for size in CAPTIONS:
        lines = pen.wrapped(caption, width - EDGE, size)
        wide, tall = _block(pen, lines, size)
        if (wide <= width - EDGE and tall <= panel.head - 4) or size == CAPTIONS[-1]:
            _set_lines(pen, lines, (x + EDGE / 2, y - panel.head + (panel.head - tall) / 2), size)
            return


def _in_corner(pen: Pen, room: FreeSpace, panel: Panel, caption: str) -> tuple[list[str], int, Box]:
    """A caption's lines, its size and its box: in a free corner in the largest type it fits there, else at the top.

    Rather than in smaller type it is set in two or three lines.
    """
    x, y, width, height = panel.box
    every = []
    for size, share in itertools.product(CAPTIONS, NARROWER):
        lines = pen.wrapped(caption, share * (width - 2 * EDGE), size)
        if len(lines) > MOST_LINES:
            continue
        wide, tall = _block(pen, lines, size)
        left, right, top, low = x + EDGE, x + width - wide - EDGE, y + EDGE - 2, y + height - tall - EDGE
        boxes = [(u, v, u + wide, v + tall) for u, v in ((left, top), (left, low), (right, top), (right, low))]
        free = next((box for box in boxes if room.is_free(box)), None)
        if free is not None:
            return lines, size, free
        unwritten = (box for box in boxes if room.is_unwritten(box, 8.0))
        every.append((lines, size, min(unwritten, key=room.drawn_in, default=boxes[0])))
    whole = [one for one in every if len(one[0]) == min(len(each[0]) for each in every)]
    return whole[min(2, len(whole) - 1)]


def _block(pen: Pen, lines: Sequence[str], size: int) -> tuple[float, float]:
    """Width and height of lines of type."""
    extents = [pen.extent(line, size) for line in lines]
    return max(wide for wide, _ in extents), sum(tall for _, tall in extents) + 4.0 * (len(lines) - 1)


def _set_lines(pen: Pen, lines: Sequence[str], at: tuple[float, float], size: int) -> None:
    left, top = at
    for line in lines:
        pen.text((left, top), line, size)
        top += pen.extent(line, size)[1] + 4


def set_callout(pen: Pen, room: FreeSpace, panel: Panel, callout: Callout) -> None:
    """A frame round what another panel shows larger, with that panel's letter beside it, or on paper within it."""
    x, y = project(panel, np.array([callout.middle]))[0]
    half = np.array(callout.size) * panel.scale / 2
    left, top, right, bottom = x - half[0], y - half[1], x + half[0], y + half[1]
    pen.box((left, top, right, bottom), Tint.INK, 2)
    for edge in (top, bottom):
        room.take((left - 2, edge - 2, right + 2, edge + 2))
    room.extensions += [((side, top), (side, bottom)) for side in (left, right)]
    wide, tall = pen.extent(callout.letter)
    starts, levels = (x - wide / 2, left + 4, right - wide - 4), (top - tall - 12, bottom + 12)
    boxes = [(float(u), float(v), float(u + wide), float(v + tall)) for u in starts for v in levels]
    box = next((box for box in boxes if room.is_free(box)), None)
    if box is None:
        box = (float(left + 5), float(top + 5), float(left + 5 + wide), float(top + 5 + tall))
        pen.plate((box[0] - 2, box[1] - 2, box[2] + 2, box[3] + 2))
    pen.text((box[0], box[1]), callout.letter)
    room.take(box)


@dataclass(frozen=True)
class _Setting:
    """One way to set a label: with its words, or with its letter alone."""

    mark: str
    lines: tuple[str, ...]


def set_labels(pen: Pen, room: FreeSpace, view: View, panel: Panel, reach: float) -> Lettered:
    """A panel's labels with their leaders in free places; those of what is hidden are left out."""
    spots = anchors(view, panel.labels, reach)
    seen = [(label, spot) for label, spot in zip(panel.labels, spots, strict=True) if spot is not None]
    forms = [_forms(label) for label, _ in seen]
    wishes = [_wish(pen, panel, label, spot, of) for (label, spot), of in zip(seen, forms, strict=True)]
    placed: list[PlacedLabel] = []
    left_out = [
        LeftOut(panel.letter, _words(label), Reason.HIDDEN)
        for label, spot in zip(panel.labels, spots, strict=True)
        if spot is None
    ]
    arrangement = arranged(room, wishes)
    for granted, (label, _), of in zip(arrangement, seen, forms, strict=True):
        if granted is None:
            left_out.append(LeftOut(panel.letter, _words(label), Reason.NO_ROOM))
            continue
        _draw(pen, of[granted.form], granted.place)
        placed.append(granted.place)
    return Lettered(tuple(placed), tuple(left_out), sum(one is not None and one.form > 0 for one in arrangement))


def _words(label: Label) -> str:
    return f"{label.mark} {label.text}".strip()


def _forms(label: Label) -> tuple[_Setting, ...]:
    whole = _Setting(label.mark, tuple(label.text.split("\n")) if label.text else ())
    return (whole, _Setting(label.mark, ())) if label.mark and label.text else (whole,)


def _wish(pen: Pen, panel: Panel, label: Label, spot: Spot, forms: Sequence[_Setting]) -> LabelWish:
    sizes = tuple(_extent(pen, form) for form in forms)
    return LabelWish(spot, sizes, area(panel), label.rank)


def _extent(pen: Pen, form: _Setting) -> tuple[float, float]:
    lines = [pen.extent(line, SMALL) for line in form.lines]
    mark = pen.extent(form.mark, TEXT) if form.mark else (0.0, 0.0)
    wide = max((wide for wide, _ in lines), default=0.0) + (_inset(pen, form) if lines else mark[0])
    return wide, max(sum(tall + 4 for _, tall in lines), mark[1])


def _inset(pen: Pen, form: _Setting) -> float:
    return pen.extent(form.mark, TEXT)[0] + 12 if form.mark else 0.0


def _draw(pen: Pen, form: _Setting, place: PlacedLabel) -> None:
    """A label's words with its leader, which ends in a dot."""
    _draw_leader(pen, place.leader)
    left, top, right, low = place.box
    if place.plated:
        pen.plate((left - 4, top - 2, right + 4, low + 4))
    if form.mark:
        pen.text((left, top), form.mark, TEXT)
    for line in form.lines:
        pen.text((left + _inset(pen, form), top + 2), line, SMALL)
        top += pen.extent(line, SMALL)[1] + 4


def _draw_leader(pen: Pen, leader: Line) -> None:
    pen.line(leader, 4, Tint.PAPER)
    pen.line(leader, 2)
    pen.dot(leader[1])
