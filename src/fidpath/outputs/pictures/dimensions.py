"""Dimension lines, straight beside what they measure or along a way such as a rope's, each with its figure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain, islice

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.geometry import run_along
from fidpath.outputs.pictures.free_places import any_crosses, any_enters
from fidpath.outputs.pictures.labels import Box, FreeSpace, Line, PlacedLabel
from fidpath.outputs.pictures.pen import SMALL, Pen, Tint
from fidpath.scene import Dimension, Panel, project

APART = 9.0
"""Clear space wanted between what is drawn and a dimension line, pixels."""

BESIDE = 6.0
"""Space between a dimension line and its figure, pixels."""

STEP, FARTHEST = 4.0, 420.0
"""Spacing and end of the distances tried for a line, pixels."""

HIDING = 4.0
"""How far away a line rather goes than over so much that is drawn, in its own length."""

OTHER_SIDE = 60.0
"""How far away a line rather goes than to the side that was not asked for, pixels."""

TRIED = 40
"""Courses of a line that a figure is tried at."""

GAP, END = 4.0, 8.0
"""What an extension line keeps off what is measured, and a dimension line's ends that others may touch, pixels."""

UPON = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75)
"""Where along a line a figure is tried that stands on it, in its length."""

BENT = 0.5
"""Least length of a line's piece in that of the piece it measures: inside a tighter bend it would no longer show it."""

LEAST = 6.0
"""A length that comes out shorter isn't drawn, pixels."""

PIECES, SMOOTH = 48, 7
"""Straight pieces of a line along a way, at most, and how many of its places lie in one bend of the way."""


@dataclass(frozen=True)
class _Course:
    """A dimension line `(n, 2)` beside what it measures, `spots` `(n, 2)`, page pixels."""

    line: Floats
    spots: Floats

    @cached_property
    def extensions(self) -> Floats:
        """Lines from just beside what is measured to just beyond the line's ends, `(n, 2, 2)`."""
        ends = (_extension(self.spots[k], self.line[k]) for k in (0, -1))
        return np.array([end for end in ends if end is not None]).reshape(-1, 2, 2)

    @cached_property
    def strokes(self) -> Floats:
        """All that is drawn of it: the line in straight pieces, and extensions, `(n, 2, 2)`."""
        return np.concatenate([_pieces(self.line), self.extensions])

    def is_clear(self, room: FreeSpace) -> bool:
        """Whether it crosses no word, no leader and not itself; extension lines may lie on one another."""
        if not room.are_free(_pieces(self.line)) or not room.are_free(self.extensions, extensions=True):
            return False
        pieces = _pieces(_shortened(self.line))
        return not any(any_crosses(pieces[k : k + 1], pieces[k + 2 :]) for k in range(len(pieces) - 2))


def set_dimension(pen: Pen, room: FreeSpace, panel: Panel, dimension: Dimension) -> PlacedLabel | None:
    """Draws a dimension where it hides least; where it went, None where there is no room for it.

    Its figure stands against the line, or where no line has room for that, near to it with a leader.
    """
    spots, size = _thinned(project(panel, dimension.line)), pen.extent(dimension.text, SMALL)
    courses = _courses(room, panel, dimension, spots)
    beside = ((course, _beside(room, panel, size, course)) for course in courses)
    led = ((course, _led(room, panel, size, course)) for course in courses[:1])
    upon = ((course, _upon(room, panel, size, course)) for course in courses)
    for course, found in chain(beside, led, upon):
        if found is not None:
            _draw(pen, course)
            if found.plated:
                pen.plate((found.box[0] - 4, found.box[1] - 2, found.box[2] + 4, found.box[3] + 4))
            if found.leader[0] != found.leader[1]:
                pen.line(found.leader, 4, Tint.PAPER)
                pen.line(found.leader, 1)
            pen.text(found.box[:2], dimension.text, SMALL)
            room.take(found.box)
            room.leaders += _as_lines(_pieces(_shortened(course.line)))
            room.extensions += _as_lines(course.extensions)
            return replace(found, lines=tuple(_as_lines(course.strokes)))
    return None


def _thinned(spots: Floats) -> Floats:
    """At most so many places of a way that its pieces are as long as one another."""
    if len(spots) <= PIECES + 1:
        return spots
    run = run_along(spots)
    at = np.linspace(0.0, run[-1], PIECES + 1)
    return np.column_stack([np.interp(at, run, spots[:, k]) for k in (0, 1)])


def _courses(room: FreeSpace, panel: Panel, dimension: Dimension, spots: Floats) -> list[_Course]:
    """Ways the line may run without crossing what is written, those that hide least first."""
    if run_along(spots)[-1] < LEAST:
        return []
    x, y, width, height = panel.box
    low, high = np.array([x, y]) + 4.0, np.array([x + width, y + height]) - 4.0
    away = np.tile(np.arange(0.0, FARTHEST, STEP), 2)
    side = np.repeat([dimension.side, -dimension.side], len(away) // 2)
    lines = spots + (away * side)[:, None, None] * _normals(spots)
    kept = np.flatnonzero(((lines > low) & (lines < high)).all(axis=(1, 2)) & _run_on(lines, spots))
    hidden = np.array([STEP * room.drawn_along(lines[k], STEP, APART) for k in kept])
    cost = away[kept] + HIDING * hidden + np.where(side[kept] != dimension.side, OTHER_SIDE, 0.0)
    best = [_Course(lines[kept[k]], spots) for k in np.argsort(cost, kind="stable")]
    clear = list(islice((course for course in best if course.is_clear(room)), TRIED))
    return clear or list(islice((course for course in best if room.are_off_words(course.strokes)), TRIED))


def _run_on(lines: Floats, spots: Floats) -> Bools:
    """Which of lines `(m, n, 2)` run the way of what they measure, everywhere: inside a tight bend one turns back."""
    moves, own = np.diff(lines, axis=1), np.diff(spots, axis=0)
    return np.asarray(((moves * own).sum(axis=2) > BENT * (own * own).sum(axis=1)).all(axis=1))


def _pieces(line: Floats) -> Floats:
    """A line `(n, 2)` in straight pieces `(n - 1, 2, 2)`."""
    return np.stack([line[:-1], line[1:]], axis=1)


def _as_lines(lines: Floats) -> list[Line]:
    return [((x, y), (u, v)) for (x, y), (u, v) in lines.tolist()]


def _normals(spots: Floats) -> Floats:
    """Unit vectors `(n, 2)` to a line's right as it runs; below a straight one whichever way that runs."""
    from scipy.ndimage import uniform_filter1d

    along = np.gradient(spots, axis=0)
    if len(spots) > 2 * SMOOTH:
        along = np.column_stack([uniform_filter1d(along[:, k], SMOOTH, mode="nearest") for k in (0, 1)])
    along = along / np.maximum(np.linalg.norm(along, axis=1), 1e-9)[:, None]
    right = np.column_stack([-along[:, 1], along[:, 0]])
    turned = len(spots) == 2 and (right[0, 1] < -1e-6 or (abs(right[0, 1]) <= 1e-6 and right[0, 0] < 0))
    return np.asarray(-right if turned else right)


def _beside(room: FreeSpace, panel: Panel, size: tuple[float, float], course: _Course) -> PlacedLabel | None:
    """A free place for a figure of that size, beside the middle of the line or beyond its ends."""
    half, line = np.array(size) / 2, course.line
    middle, along, away = _middle(course)
    off, beyond = float(np.abs(away) @ half) + BESIDE, float(np.abs(along) @ half) + 10
    sides = [middle + off * away, middle - off * away]
    ends = [line[-1] + beyond * along, line[0] - beyond * along]
    first = run_along(line)[-1] < size[0] + 8 and len(line) == 2
    for centre in (*ends, *sides) if first else (*sides, *ends):
        (left, top), (right, low) = centre - half, centre + half
        box = (float(left), float(top), float(right), float(low))
        if _fits(room, panel, box) and not any_enters(course.strokes, np.array([box])):
            return PlacedLabel(box, (box[:2], box[:2]))
    return None


def _led(room: FreeSpace, panel: Panel, size: tuple[float, float], course: _Course) -> PlacedLabel | None:
    """The free place nearest to the middle of the line, with a leader to it."""
    x, y, width, height = panel.box
    middle = _middle(course)[0]
    there = (float(middle[0]), float(middle[1]))
    return room.place(there, size, (x, y, x + width, y + height), off=course.strokes)


def _upon(room: FreeSpace, panel: Panel, size: tuple[float, float], course: _Course) -> PlacedLabel | None:
    """A place for the figure on the line itself, which it breaks, on paper where it hides least of what is drawn."""
    found: list[Box] = []
    half, run = np.array(size) / 2, run_along(course.line)
    for share in UPON:
        centre = np.array([np.interp(share * run[-1], run, course.line[:, k]) for k in (0, 1)])
        (left, top), (right, low) = centre - half, centre + half
        box = (float(left), float(top), float(right), float(low))
        if _inside(panel, box) and room.is_unwritten(box, BESIDE):
            found.append(box)
    best = min(found, key=room.hidden_by, default=None)
    return None if best is None else PlacedLabel(best, (best[:2], best[:2]), plated=True)


def _middle(course: _Course) -> tuple[Floats, Floats, Floats]:
    """The middle of a dimension line, the unit vector along it there, and that away from what it measures."""
    line, run = course.line, run_along(course.line)
    k = min(max(int(np.searchsorted(run, run[-1] / 2)), 1), len(line) - 1)
    at = (run[-1] / 2 - run[k - 1]) / max(run[k] - run[k - 1], 1e-9)
    place = line[k - 1] + at * (line[k] - line[k - 1])
    along = (line[k] - line[k - 1]) / max(float(np.linalg.norm(line[k] - line[k - 1])), 1e-9)
    away = np.array([-along[1], along[0]])
    moved = place - course.spots[k - 1] - at * (course.spots[k] - course.spots[k - 1])
    return place, along, away if moved @ away >= 0 else -away


def _fits(room: FreeSpace, panel: Panel, box: Box) -> bool:
    return _inside(panel, box) and room.is_free(box)


def _inside(panel: Panel, box: Box) -> bool:
    x, y, width, height = panel.box
    return box[0] > x + 3 and box[1] > y + 3 and box[2] < x + width - 3 and box[3] < y + height - 3


def _extension(spot: Floats, end: Floats) -> Line | None:
    """From an end of what is measured to just beyond the dimension line's; None where they are one place."""
    away = end - spot
    far = float(np.linalg.norm(away))
    if far < 1:
        return None
    begin, beyond = spot + min(GAP, far / 2) * away / far, end + 5 * away / far
    return (float(begin[0]), float(begin[1])), (float(beyond[0]), float(beyond[1]))


def _shortened(line: Floats) -> Floats:
    """The line without its very ends, which other extension lines may touch."""
    run = run_along(line)
    cut = min(END, run[-1] / 3)
    at = np.concatenate([[cut], run[(run > cut) & (run < run[-1] - cut)], [run[-1] - cut]])
    return np.column_stack([np.interp(at, run, line[:, k]) for k in (0, 1)])


def _draw(pen: Pen, course: _Course) -> None:
    """Extension lines, and the line with an arrow's head at each end, paper under it so that it shows on rope."""
    line = [(float(x), float(y)) for x, y in course.line]
    for k in (0, -1):
        extension = _extension(course.spots[k], course.line[k])
        if extension is not None:
            pen.line(extension, 1, Tint.FAINT)
    pen.line(line, 4, Tint.PAPER)
    pen.line(line, 2)
    for end, inward in ((course.line[0], course.line[1]), (course.line[-1], course.line[-2])):
        way = (inward - end) / max(float(np.linalg.norm(inward - end)), 1e-9)
        right = np.array([-way[1], way[0]])
        head = [end + 9 * way + 4 * right, end, end + 9 * way - 4 * right]
        pen.line([(float(x), float(y)) for x, y in head], 2)
