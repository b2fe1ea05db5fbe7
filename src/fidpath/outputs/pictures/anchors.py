"""Which pixel a label points at: one where what it names is seen, and that no other label points at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.outputs.pictures.overlays import CHIP, shown_chips
from fidpath.outputs.pictures.raster import View
from fidpath.scene import Label, project

Spot = tuple[float, float]

DEEP, WIDE = 3.0, 1.6
"""How far before or behind its place, and how far beside it, what a label names may be seen, in strand thicknesses."""

LEAST = 8.0
"""The same beside it at least, pixels."""

APART = 9.0
"""Places that labels point at keep so far from one another, pixels."""


def anchors(view: View, labels: Sequence[Label], reach: float) -> tuple[Spot | None, ...]:
    """Page pixels that a panel's labels point at, in the labels' order; None for what is hidden.

    reach: strand thickness, mm. A label that names a part points at a pixel of it; a mark that is too small to be seen
    is pointed at where it lies.
    """
    panel, taken = view.panel, np.zeros((0, 2))
    numbers = _numbers(view, reach)
    places = np.array([label.at for label in labels]).reshape(-1, 3)
    spots = project(panel, places) - np.array(panel.box[:2])
    depths = (places - np.array(panel.camera.middle)) @ panel.camera.toward
    found: list[Spot | None] = [None] * len(labels)
    for i in sorted(range(len(labels)), key=lambda i: labels[i].rank):
        spot = _seen(view, labels[i], spots[i], float(depths[i]), reach, taken, numbers)
        if spot is not None:
            taken = np.concatenate([taken, spot[None]])
            found[i] = (float(spot[0]) + panel.box[0], float(spot[1]) + panel.box[1])
    return tuple(found)


def _numbers(view: View, reach: float) -> Floats:
    """Where numbers stand in a panel, `(n, 2)` of its pixels."""
    places = np.array([chip.at for chip in shown_chips(view, reach)]).reshape(-1, 3)
    return np.asarray(project(view.panel, places) - np.array(view.panel.box[:2]))


def _seen(
    view: View, label: Label, spot: Floats, depth: float, reach: float, taken: Floats, numbers: Floats
) -> Floats | None:
    """The panel's pixel nearest to a label's place where what it names is seen."""
    height, width = view.coarse_front.shape
    radius = max(WIDE * reach * view.panel.scale, LEAST)
    (x0, y0), (x1, y1) = (np.clip(spot + side * radius, 0, [width, height]).astype(int) for side in (-1, 1))
    if x0 >= x1 or y0 >= y1:
        return None
    middles = np.stack(np.meshgrid(np.arange(x0, x1), np.arange(y0, y1)), axis=-1) + 0.5
    away = np.hypot(*(middles - spot).T).T
    clear = away <= radius
    for others, apart in ((taken, APART), (numbers, 1.5 * CHIP + APART)):
        for other in others:
            clear &= apart <= np.hypot(*(middles - other).T).T
    window = slice(y0, y1), slice(x0, x1)
    near = np.abs(view.coarse_front[window] - depth) < DEEP * reach
    for kind in _kinds(view, label, near, window):
        if (kind & clear).any():
            best = np.unravel_index(np.where(kind & clear, away, np.inf).argmin(), away.shape)
            return spot if away[best] < 1 else np.asarray(middles[best])
    return None


def _kinds(view: View, label: Label, near: Bools, window: tuple[slice, slice]) -> Iterator[Bools]:
    """Pixels of a window that a label may point at, those it points at rather first; near: at about its depth."""
    if label.part is not None:
        yield view.coarse_part[window] == label.part
    if label.part is None or label.mark:
        yield near
