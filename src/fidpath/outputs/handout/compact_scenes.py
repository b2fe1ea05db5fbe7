"""A step's or a mistake's scene with its panels in one row, low enough that several share a page, type unshrunk.

What was fitted to tall panels is fitted anew to what each panel shows, seen from where it was seen before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fidpath.scene import Panel, Scene, project, short_words

WIDTH, GAP = 1050, 5
"""Width of a row, and the space between its panels, page pixels: type is as large as the row is narrow, and labels
find less room in it."""

STEP_SHARE, WRONG_SHARE = 0.32, 0.26
"""A row's height in its width: for steps, and for mistakes, whose panels come in pairs."""

MOST, MANY = 3, ((2, 0.29), (1, 0.5))
"""Panels of a step in one row, and ways to set more than that: rows, and a row's height in its width. The handout lets
a figure run across the page up to 0.6 in all."""

NARROW, BROAD, CUT, MEASURED = 0.8, 2.4, 0.95, 1.6
"""Least and most width of a panel in its height that the row is divided by, that of one cut across, and how much wider
one with dimensions is."""

AIR = 0.05
"""Share of a panel left free round what it shows."""

ROUND_NUMBERS = 22
"""Room kept beside the numbers of a cut, page pixels: so much reaches beyond their middles."""

HEAD = 42
"""Height of the band over each panel that holds its caption, page pixels."""


def compact(scene: Scene) -> Scene:
    """The scene for a small figure: the same panels, views and labels, without words, notes and key.

    Labels say no more than they must: what a letter stands for was said where its mark was made. Panels stand in one
    row, a step's in two where there are many; line art of a row (as a figure, not a sheet) is three to four times as
    wide as high.
    """
    panels = scene.panels
    if len(scene.words) > 1:
        found = _laid(panels, 1, WRONG_SHARE)
    elif len(panels) <= MOST:
        found = _laid(panels, 1, STEP_SHARE)
    else:
        found = max((_laid(panels, *way) for way in MANY), key=lambda laid: sum(np.log([p.scale for p in laid])))
    tall = max(panel.box[1] + panel.box[3] for panel in found)
    return replace(scene, panels=tuple(found), key=(), words=(), notes=(), size=(WIDTH, tall))


def _laid(panels: Sequence[Panel], rows: int, share: float) -> list[Panel]:
    """Panels in one row or two, each so high in its width."""
    high, each = round(WIDTH * share), -(-len(panels) // rows)
    starts = range(0, len(panels), each)
    found = [_row(panels[k : k + each], row * (high + GAP), high) for row, k in enumerate(starts)]
    return _in_one_scale(panels, [panel for row in found for panel in row])


def _row(panels: Sequence[Panel], top: int, high: int) -> list[Panel]:
    """Panels side by side, each as wide as what it shows wants."""
    shown = [_shown(panel) for panel in panels]
    weights = [_weight(panel, box) for panel, box in zip(panels, shown, strict=True)]
    free = WIDTH - GAP * (len(shown) - 1)
    found, left = [], 0.0
    for panel, box, weight in zip(panels, shown, weights, strict=True):
        wide = free * weight / sum(weights)
        place = (round(left), top + HEAD, round(left + wide) - round(left), high - HEAD)
        found.append(_fitted(panel, box, place))
        left += wide + GAP
    return found


def _in_one_scale(before: Sequence[Panel], after: Sequence[Panel]) -> list[Panel]:
    """Panels that were shown from one side in one scale, in one scale again: the smallest that one of them has."""

    def look(panel: Panel) -> tuple[object, ...]:
        return panel.across, panel.camera.right, panel.camera.up, round(panel.scale, 6)

    least = [
        min(other.scale for was, other in zip(before, after, strict=True) if look(was) == look(panel))
        for panel in before
    ]
    return [
        replace(panel, camera=replace(panel.camera, width=panel.box[2] / scale))
        for panel, scale in zip(after, least, strict=True)
    ]


def _weight(panel: Panel, shown: tuple[float, float, float, float]) -> float:
    """How wide a panel wants to be, in its height."""
    left, top, right, bottom = shown
    if panel.across:
        return CUT
    own = min(max((right - left) / max(bottom - top, 1.0), NARROW), BROAD)
    return own * MEASURED if panel.dimensions else own


def _shown(panel: Panel) -> tuple[float, float, float, float]:
    """What a panel shows: left, top, right, bottom of all that is drawn in it, page pixels; of a cut, its numbers."""
    x, y, width, height = panel.box
    if panel.across and panel.chips:
        rows = project(panel, np.array([chip.at for chip in panel.chips]))
        (left, top), (right, bottom) = rows.min(axis=0), rows.max(axis=0)
        return float(left), float(top), float(right), float(bottom)
    places = [solid.mesh.points for solid in panel.solids if len(solid.mesh.points)]
    places += [np.array([chip.at for chip in panel.chips]).reshape(-1, 3)]
    spots = project(panel, np.concatenate(places))
    inside = (spots[:, 0] > x) & (spots[:, 0] < x + width) & (spots[:, 1] > y) & (spots[:, 1] < y + height)
    seen = spots[inside] if inside.any() else np.array([[x, y], [x + width, y + height]], dtype=float)
    (left, top), (right, bottom) = seen.min(axis=0), seen.max(axis=0)
    return float(left), float(top), float(right), float(bottom)


def _fitted(panel: Panel, shown: tuple[float, float, float, float], box: tuple[int, int, int, int]) -> Panel:
    """The panel in another box, its camera moved and drawn back so that all it showed is still seen."""
    left, top, right, bottom = shown
    x, y, width, height = panel.box
    mm = panel.camera.width / width
    numbers = ROUND_NUMBERS if panel.across and panel.chips else 0
    wide = (right - left) * mm * (1 + 2 * AIR) * box[2] / (box[2] - 2 * numbers)
    tall = (bottom - top) * mm * (1 + 2 * AIR) * box[3] / (box[3] - 2 * numbers)
    camera = panel.camera
    across, down = (left + right) / 2 - x - width / 2, (top + bottom) / 2 - y - height / 2
    middle = np.array(camera.middle) + mm * (across * np.array(camera.right) - down * np.array(camera.up))
    seen = max(wide, tall * box[2] / box[3])
    aimed = replace(camera, middle=(float(middle[0]), float(middle[1]), float(middle[2])), width=seen)
    caption = panel.caption.split(",")[0] if panel.across else panel.caption
    labels = tuple(replace(label, text=short_words(label.text)) for label in panel.labels)
    return replace(panel, box=box, camera=aimed, head=HEAD, caption=caption, labels=labels)
