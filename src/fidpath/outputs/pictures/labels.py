"""Where words go in a picture: never on the rope, never over one another, leaders never crossing. Pixels only."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass
from itertools import chain

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.outputs.pictures import free_places

Place = tuple[float, float]
Box = tuple[float, float, float, float]
Line = tuple[Place, Place]

NO_LINES = np.empty((0, 2, 2))

STEP = 10
"""Spacing of the places tried for a label, pixels."""

PAD = 7.0
"""Clear space kept round a label, pixels."""

KEEP = 28.0
"""How far words on the drawing keep off what they name, pixels."""

PLAIN = 0.2
"""What hiding something plain counts, beside hiding rope."""

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
    """A picture's free space: starts with what is drawn, and fills as words are put in.

    plain: `(h, w) bool`, what is drawn that words may rather hide than rope.
    """

    def __init__(self, drawn: Bools, plain: Bools | None = None) -> None:
        self.shape = drawn.shape
        self._plain = None if plain is None else free_places.summed(plain)
        self.boxes: list[Box] = []
        self.leaders: list[Line] = []
        self.extensions: list[Line] = []
        self._kept: tuple[tuple[int, int, int], tuple[Floats, Floats]] | None = None
        self._total = free_places.summed(drawn)

    def copy(self) -> FreeSpace:
        """Another that is filled apart from this one."""
        other = copy(self)
        other.boxes, other.leaders, other.extensions = self.boxes.copy(), self.leaders.copy(), self.extensions.copy()
        return other

    def drawn_in(self, box: Box) -> int:
        """Number of drawn pixels in a box; what lies beyond the picture has none."""
        return free_places.drawn_in(self._total, *map(float, box))

    def hidden_by(self, box: Box) -> float:
        """How much a box on the drawing hides, in pixels, of what is plain but a part."""
        plain = 0 if self._plain is None else free_places.drawn_in(self._plain, *map(float, box))
        return self.drawn_in(box) - (1 - PLAIN) * plain

    def drawn_along(self, line: Floats, spacing: float, reach: float) -> int:
        """How many places of a line `(n, 2)`, `spacing` pixels apart, have something drawn within `reach` pixels."""
        return free_places.drawn_along(self._total, line, spacing, reach)

    def are_free(self, lines: Floats, extensions: bool = False) -> bool:
        """Whether none of lines `(n, 2, 2)` crosses a leader or a word so far; extension lines may lie on others."""
        boxes, others = self._taken()
        return not (
            free_places.any_enters(lines, boxes)
            or free_places.any_crosses(lines, others[: len(self.leaders)] if extensions else others)
        )

    def are_off_words(self, lines: Floats) -> bool:
        """Whether none of lines `(n, 2, 2)` crosses a word so far, though they may cross others."""
        return not free_places.any_enters(lines, self._taken()[0])

    def _taken(self) -> tuple[Floats, Floats]:
        """Boxes `(n, 4)` so far; leaders and then extension lines so far, `(n, 2, 2)`: their ends' places."""
        count = len(self.boxes), len(self.leaders), len(self.extensions)
        if self._kept is None or self._kept[0] != count:
            lines = np.array([*self.leaders, *self.extensions], dtype=float).reshape(-1, 2, 2)
            self._kept = count, (np.array(self.boxes, dtype=float).reshape(-1, 4), lines)
        return self._kept[1]

    def is_unwritten(self, box: Box, pad: float) -> bool:
        """Whether a box keeps `pad` off every word so far."""
        return not free_places.any_meets(np.array(box, dtype=float), self._taken()[0], pad)

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the picture, off what is drawn and off every word and every leader so far."""
        left, top, right, bottom = box
        if left < 2 or top < 2 or right > self.shape[1] - 2 or bottom > self.shape[0] - 2 or self.drawn_in(box) > 0:
            return False
        return self.is_unwritten(box, PAD) and not free_places.any_enters(
            self._taken()[1], np.array([box], dtype=float)
        )

    def take(self, box: Box, leader: Line | None = None) -> None:
        """Fills a box, and a leader if there is one."""
        self.boxes.append(box)
        if leader is not None:
            self.leaders.append(leader)

    def place(
        self, anchor: Place, size: tuple[float, float], within: Box, off: Floats = NO_LINES
    ) -> PlacedLabel | None:
        """The free box of `size` nearest to `anchor` inside `within`, taken; None where there is none.

        off: lines `(n, 2, 2)` besides those so far that it may not lie on.
        """
        return self._placed(anchor, size, within, off, plated=False)

    def place_over(self, anchor: Place, size: tuple[float, float], within: Box) -> PlacedLabel | None:
        """The same where the box may lie on what is drawn, on paper of its own, but not on its anchor."""
        return self._placed(anchor, size, within, NO_LINES, plated=True)

    def _placed(
        self, anchor: Place, size: tuple[float, float], within: Box, off: Floats, plated: bool
    ) -> PlacedLabel | None:
        spot, extent, (boxes, lines) = np.array(anchor, dtype=float), np.array(size, dtype=float), self._taken()
        corners = self._corners(spot, extent, within, plated)
        keep, compared = (KEEP, OVER) if plated else (-np.inf, 1)
        best = free_places.chosen(corners, extent, spot, keep, compared, self._total, boxes, lines, off)
        if best < 0:
            return None
        left, top = corners[best].tolist()
        box = (left, top, left + size[0], top + size[1])
        found = PlacedLabel(box, (free_places.nearest(*box, *anchor), anchor), plated=plated)
        self.take(found.box, found.leader)
        return found

    def _corners(self, anchor: Floats, size: Floats, within: Box, over: bool) -> Floats:
        """Corners `(m, 2)` of boxes off the words so far and, if not set `over` it, off what is drawn; of as many as
        are tried, those nearest to the anchor first."""
        xs = np.arange(within[0] + PAD, within[2] - size[0] - PAD, STEP)
        ys = np.arange(within[1] + PAD, within[3] - size[1] - PAD, STEP)
        cost = free_places.costs(self._total, self._taken()[0], xs, ys, size, anchor, PAD, over).ravel()
        free = np.flatnonzero(cost < np.inf)
        if len(free) > TRIED:
            free = free[cost[free] <= np.partition(cost[free], TRIED - 1)[TRIED - 1]]
        best = free[np.argsort(cost[free], kind="stable")[:TRIED]]
        return np.column_stack([xs[best % len(xs)], ys[best // len(xs)]]) if len(best) else np.empty((0, 2))


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


def boxes_meet(a: Box, b: Box, pad: float = 0.0) -> bool:
    """Whether two boxes come nearer than `pad`."""
    return a[0] < b[2] + pad and b[0] < a[2] + pad and a[1] < b[3] + pad and b[1] < a[3] + pad


def lines_cross(a: Line, b: Line) -> bool:
    """Whether two straight leaders cross or touch."""
    return free_places.crosses(*_ends(a), *_ends(b))


def line_meets_box(line: Line, box: Box) -> bool:
    """Whether a straight leader enters a box (touching its edge doesn't count)."""
    left, top, right, bottom = map(float, box)
    return free_places.enters(*_ends(line), left, top, right, bottom)


def _ends(line: Line) -> tuple[float, float, float, float]:
    (x, y), (u, v) = line
    return float(x), float(y), float(u), float(v)
