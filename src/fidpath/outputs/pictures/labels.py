"""Where words go in a picture: never on the rope, never over one another, leaders never crossing. Pixels only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import dataclass, replace
from itertools import chain, islice

import numpy as np

from fidpath.arrays import Bools, Floats

Box = tuple[float, float, float, float]
Line = tuple[tuple[float, float], tuple[float, float]]

STEP = 10
"""Spacing of the places tried for a label, pixels."""

PAD = 7
"""Clear space kept round a label, pixels."""

KEEP = 28.0
"""How far words on the drawing keep off what they name, pixels."""

OVER = 60
"""How many free places on the drawing are compared; the one that hides least is taken."""

TRIED = 300
"""How many places off the drawing and off other words are tried for a label, the nearest first."""


@dataclass(frozen=True)
class PlacedLabel:
    """A label's box (left, top, right, bottom) and its leader from the box to what it names.

    lines: of a dimension, what is drawn besides its figure. plated: whether it lies on the drawing, on its own paper.
    """

    box: Box
    leader: Line
    lines: tuple[Line, ...] = ()
    plated: bool = False


class FreeSpace:
    """A picture's free space: starts with what is drawn, and fills as words are put in."""

    def __init__(self, drawn: Bools) -> None:
        self.shape = drawn.shape
        self.boxes: list[Box] = []
        self.leaders: list[Line] = []
        self.extensions: list[Line] = []
        self._kept: tuple[tuple[int, int], Floats] | None = None
        self._total = np.zeros((drawn.shape[0] + 1, drawn.shape[1] + 1), dtype=np.int32)
        np.cumsum(drawn, axis=0, dtype=np.int32, out=self._total[1:, 1:])
        np.cumsum(self._total[1:, 1:], axis=1, out=self._total[1:, 1:])

    def copy(self) -> FreeSpace:
        """Another that is filled apart from this one."""
        other = copy(self)
        other.boxes, other.leaders, other.extensions = self.boxes.copy(), self.leaders.copy(), self.extensions.copy()
        return other

    def drawn_in(self, box: Box) -> int:
        """Number of drawn pixels in a box; what lies beyond the picture has none."""
        x0, x1 = (min(max(round(x), 0), self.shape[1]) for x in (box[0], box[2]))
        y0, y1 = (min(max(round(y), 0), self.shape[0]) for y in (box[1], box[3]))
        total = self._total.item
        return int(total(y1, x1) - total(y0, x1) - total(y1, x0) + total(y0, x0))

    def drawn_near(self, places: Floats, reach: float) -> Bools:
        """Which places `(n, 2)` have something drawn within `reach` pixels, `(n,) bool`."""
        low, high = np.round(places - reach).astype(int), np.round(places + reach).astype(int)
        (x0, x1), (y0, y1) = (np.clip([low[:, k], high[:, k]], 0, self.shape[1 - k]) for k in (0, 1))
        total = self._total
        return np.asarray(total[y1, x1] - total[y0, x1] - total[y1, x0] + total[y0, x0] > 0)

    def is_free_line(self, line: Line, extension: bool = False) -> bool:
        """Whether a line crosses no leader and no word so far; an extension line may lie on others."""
        if any(line_meets_box(line, box) for box in self.boxes):
            return False
        lines = self._lines()[: len(self.leaders) if extension else None]
        return not _crosses_any(line, lines)

    def _lines(self) -> Floats:
        """Leaders and then extension lines so far, `(n, 2, 2)`: their ends' places."""
        count = len(self.leaders), len(self.extensions)
        if self._kept is None or self._kept[0] != count:
            self._kept = count, np.array([*self.leaders, *self.extensions], dtype=float).reshape(-1, 2, 2)
        return self._kept[1]

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the picture, off what is drawn and off every word so far."""
        left, top, right, bottom = box
        if left < 2 or top < 2 or right > self.shape[1] - 2 or bottom > self.shape[0] - 2:
            return False
        return self.drawn_in(box) == 0 and self.is_unwritten(box)

    def is_unwritten(self, box: Box) -> bool:
        """Whether a box lies off every word and every leader so far."""
        if any(boxes_meet(box, other, PAD) for other in self.boxes):
            return False
        lines = self._lines()
        low, high = lines.min(axis=1), lines.max(axis=1)
        near = (high > (box[0], box[1])).all(axis=1) & (low < (box[2], box[3])).all(axis=1)
        found = (((float(a), float(b)), (float(c), float(d))) for (a, b), (c, d) in lines[near])
        return not any(line_meets_box(line, box) for line in found)

    def take(self, box: Box, leader: Line | None = None) -> None:
        """Fills a box, and a leader if there is one."""
        self.boxes.append(box)
        if leader is not None:
            self.leaders.append(leader)

    def place(
        self, anchor: tuple[float, float], size: tuple[float, float], within: Box, off: Sequence[Line] = ()
    ) -> PlacedLabel | None:
        """The free box of `size` nearest to `anchor` inside `within`, taken; None where there is none.

        off: lines besides those so far that it may not lie on.
        """
        found = next(self._places(anchor, size, within, off), None)
        if found is not None:
            self.take(found.box, found.leader)
        return found

    def place_over(self, anchor: tuple[float, float], size: tuple[float, float], within: Box) -> PlacedLabel | None:
        """The same where the box may lie on what is drawn, on paper of its own, but not on its anchor."""
        clear = copy(self)
        clear._total = np.zeros_like(self._total)
        round_anchor = (anchor[0] - KEEP, anchor[1] - KEEP, anchor[0] + KEEP, anchor[1] + KEEP)
        places = clear._places(anchor, size, within, ())
        off = (place for place in places if not boxes_meet(place.box, round_anchor))
        least = min(islice(off, OVER), key=lambda place: self.drawn_in(place.box), default=None)
        if least is None:
            return None
        self.take(least.box, least.leader)
        return replace(least, plated=True)

    def _places(
        self, anchor: tuple[float, float], size: tuple[float, float], within: Box, off: Sequence[Line]
    ) -> Iterator[PlacedLabel]:
        for left, top in self._candidates(anchor, size, within)[:TRIED].tolist():
            box = (left, top, left + size[0], top + size[1])
            leader = (_nearest(box, anchor), anchor)
            if any(line_meets_box(line, box) for line in off):
                continue
            if self.is_free(box) and self.is_free_line(leader):
                yield PlacedLabel(box, leader)

    def _candidates(self, anchor: tuple[float, float], size: tuple[float, float], within: Box) -> Floats:
        """Corners `(m, 2)` of boxes off what is drawn and off the words so far, nearest to the anchor first."""
        xs = np.arange(within[0] + PAD, within[2] - size[0] - PAD, STEP)
        ys = np.arange(within[1] + PAD, within[3] - size[1] - PAD, STEP)
        x0, x1 = (np.clip(np.round(x), 0, self.shape[1]).astype(int) for x in (xs - PAD, xs + size[0] + PAD))
        y0, y1 = (np.clip(np.round(y), 0, self.shape[0]).astype(int) for y in (ys - PAD, ys + size[1] + PAD))
        rows = self._total[y1] - self._total[y0]
        taken = rows[:, x1] != rows[:, x0]
        for left, top, right, bottom in self.boxes:
            beside = (xs < right + PAD) & (left < xs + size[0] + PAD)
            taken |= ((ys < bottom + PAD) & (top < ys + size[1] + PAD))[:, None] & beside
        row, column = np.nonzero(~taken)
        x, y = xs[column], ys[row]
        dx = np.maximum(np.maximum(x - anchor[0], anchor[0] - x - size[0]), 0)
        dy = np.maximum(np.maximum(y - anchor[1], anchor[1] - y - size[1]), 0)
        sideways = np.abs(x + size[0] / 2 - anchor[0])
        order = np.argsort(np.hypot(dx, dy) + 0.25 * sideways, kind="stable")
        return np.column_stack([x, y])[order]


@dataclass(frozen=True)
class LabelWish:
    """Words that want a place near a spot: the sizes of their forms, the fullest first, and the box they must lie in.

    rank: how much else comes before them.
    """

    spot: tuple[float, float]
    sizes: tuple[tuple[float, float], ...]
    within: Box
    rank: int = 0


@dataclass(frozen=True)
class Granted:
    """A wish's place: which of its forms, and where; none where there is no room for any."""

    form: int
    place: PlacedLabel


Arrangement = tuple[Granted | None, ...]

SHORTER, OVER_DRAWING, WITHOUT = 300.0, 600.0, 1500.0
"""Pixels from its spot that a label in a shorter form is as bad as, one on the drawing, and one that finds no room."""

CLOSE = 40.0
"""Pixels from their spots, on the average, beyond which other orders are tried."""


def arranged(room: FreeSpace, wishes: Sequence[LabelWish]) -> Arrangement:
    """Places for all wishes in the order of setting them that lets them lie nearest to their spots; fills the room."""
    best: Arrangement | None = None
    for order in _orders(wishes):
        found = _tried(room.copy(), wishes, order)
        if best is None or _cost(wishes, found) < _cost(wishes, best):
            best = found
        if _cost(wishes, best) < CLOSE * len(wishes):
            break
    poor = [i for i, one in enumerate(best or ()) if one is None or one.form > 0 or one.place.plated]
    if best is not None and poor:
        for order in _orders(wishes):
            found = _tried(room.copy(), wishes, [*poor, *(i for i in order if i not in poor)])
            best = min(best, found, key=lambda tried: _cost(wishes, tried))
    for one in best or ():
        if one is not None:
            room.take(one.place.box, one.place.leader)
    return best or ()


def _orders(wishes: Sequence[LabelWish]) -> list[list[int]]:
    """Orders by rank, and within that from the left, from the right, from the middle outward."""
    across = sorted(range(len(wishes)), key=lambda i: wishes[i].spot)
    middle = (len(across) - 1) / 2
    outward = sorted(across, key=lambda i: abs(across.index(i) - middle))
    return [sorted(order, key=lambda i: wishes[i].rank) for order in (across, across[::-1], outward)]


def _tried(room: FreeSpace, wishes: Sequence[LabelWish], order: Sequence[int]) -> Arrangement:
    found: list[Granted | None] = [None] * len(wishes)
    for i in order:
        wish = wishes[i]
        places = ((form, room.place(wish.spot, size, wish.within)) for form, size in enumerate(wish.sizes))
        over = ((form, room.place_over(wish.spot, size, wish.within)) for form, size in enumerate(wish.sizes))
        found[i] = next((Granted(form, place) for form, place in chain(places, over) if place is not None), None)
    return tuple(found)


def _cost(wishes: Sequence[LabelWish], found: Arrangement) -> float:
    """How bad an arrangement is: its leaders' lengths, its words cut down and left out."""
    cost = 0.0
    for wish, one in zip(wishes, found, strict=True):
        if one is None:
            cost += WITHOUT / (1 + max(wish.rank, 0))
        else:
            (x, y), (u, v) = one.place.leader
            cost += float(np.hypot(u - x, v - y)) + SHORTER * one.form + (OVER_DRAWING if one.place.plated else 0.0)
    return cost


def _nearest(box: Box, point: tuple[float, float]) -> tuple[float, float]:
    """The point of a box's edge nearest to a point outside it, from the middle of its sides where that is near."""
    middle = (box[0] + box[2]) / 2
    x = min(max(point[0], box[0]), box[2]) if abs(point[0] - middle) > 1 else middle
    return x, min(max(point[1], box[1]), box[3])


def boxes_meet(a: Box, b: Box, pad: float = 0.0) -> bool:
    """Whether two boxes come nearer than `pad`."""
    return a[0] < b[2] + pad and b[0] < a[2] + pad and a[1] < b[3] + pad and b[1] < a[3] + pad


def lines_cross(a: Line, b: Line) -> bool:
    """Whether two straight leaders cross or touch."""
    return bool(_turn(a[0], a[1], b[0]) * _turn(a[0], a[1], b[1]) <= 0 and _turn(*b, a[0]) * _turn(*b, a[1]) <= 0)


def _crosses_any(line: Line, lines: Floats) -> bool:
    """Whether a straight leader crosses or touches any of lines `(n, 2, 2)`."""
    (x, y), (u, v) = line
    starts, ends = lines[:, 0], lines[:, 1]
    first, last = ((u - x) * (spots[:, 1] - y) - (v - y) * (spots[:, 0] - x) for spots in (starts, ends))
    along = ends - starts
    before, after = (along[:, 0] * (b - starts[:, 1]) - along[:, 1] * (a - starts[:, 0]) for a, b in line)
    return bool(((first * last <= 0) & (before * after <= 0)).any())


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def line_meets_box(line: Line, box: Box) -> bool:
    """Whether a straight leader enters a box (touching its edge doesn't count)."""
    left, top, right, bottom = box[0] + 0.5, box[1] + 0.5, box[2] - 0.5, box[3] - 0.5
    (x, y), (u, v) = line
    if max(x, u) <= left or min(x, u) >= right or max(y, v) <= top or min(y, v) >= bottom:
        return False
    low, high = 0.0, 1.0
    for start, move, least, most in ((x, u - x, left, right), (y, v - y, top, bottom)):
        if abs(move) < 1e-12:
            if not least < start < most:
                return False
            continue
        first, last = sorted(((least - start) / move, (most - start) / move))
        low, high = max(low, first), min(high, last)
    return low < high
