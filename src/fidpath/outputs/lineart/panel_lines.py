"""One panel of a scene in lines: fills by tone, hatches, contours of what stands free, finer lines between strands."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit
from fidpath.outputs.lineart.ink import Area, Ink, Lines, scaled
from fidpath.outputs.lineart.regions import EDGE, Regions, regions, stations
from fidpath.outputs.lineart.tones import TONE_STYLES, Tone
from fidpath.outputs.lineart.trace import Borders, borders, loops
from fidpath.outputs.pictures import View, ghost_bands

CONTOUR, STRAND, HATCH, FAINT = 0.30, 0.15, 0.14, 0.14
"""Widths of lines, mm: round what stands free, between strands, of hatches, of what was there before."""

BEFORE = 0.5
"""Grey of the line round what was there before."""

DASH = (1.0, 0.8)
"""Stroke and gap of the line round what was there before, mm."""

CROWDED = 0.4
"""Strands that come out narrower are not drawn one by one, mm."""

APART = 6.0
"""Rope this many strand thicknesses apart along itself is another leg."""


@dataclass(frozen=True)
class PanelArt:
    """A panel's lines in page pixels; regions: number of regions traced."""

    inks: tuple[Ink, ...]
    regions: int
    tones: frozenset[Tone]


def panel_art(view: View, reach: float, page_mm: float) -> PanelArt:
    """What a panel shows in lines. reach: strand thickness in mm; page_mm: mm of print to a page pixel."""
    found = regions(view, _behind(view))
    traced = borders(found.label, EDGE)
    crowded = 1.25 * reach * view.panel.scale * page_mm < CROWDED
    corner = np.array(view.panel.box[:2], dtype=float)
    inks: tuple[Ink, ...] = (
        *_fills(found, traced),
        *_hatches(found, view.fine / page_mm),
        *_lines(found, traced, _apart(view, traced, reach), crowded),
    )
    present = frozenset(Tone(int(tone)) for tone in np.unique(found.tone))
    return PanelArt(tuple(scaled(ink, 1 / view.fine, corner) for ink in inks), len(found.tone), present)


def _behind(view: View) -> Bools | None:
    """Where the rope lay before, `(h, w) bool` in fine pixels; None where the panel shows nothing of it."""
    from PIL import Image, ImageDraw

    if not view.panel.ghosts:
        return None
    image = Image.new("1", view.face.shape[::-1])
    ghost_bands(ImageDraw.Draw(image), view.panel, view.fine, 0.0, 1)
    return np.asarray(image)


def _tones(found: Regions, traced: Borders) -> tuple[Ints, Ints]:
    """Tones either side of each border, paper beyond the panel's edge."""
    table = np.concatenate([found.tone, [Tone.PAPER]])
    return table[traced.left], table[traced.right]


def _fills(found: Regions, traced: Borders) -> list[Area]:
    """One area for every tone that shows."""
    left, right = _tones(found, traced)
    areas = []
    for tone in (Tone(int(t)) for t in np.unique(found.tone) if t not in (Tone.PAPER, Tone.GHOST)):
        outward, inward = (
            np.flatnonzero((left == tone) & (right != tone)),
            np.flatnonzero((left != tone) & (right == tone)),
        )
        closed = [_loop(traced, loop) for loop in loops(traced, outward.tolist(), inward.tolist())]
        areas.append(Area(tone.name.lower(), tuple(closed), TONE_STYLES[tone].grey))
    return areas


def _loop(traced: Borders, loop: list[tuple[int, bool]]) -> Floats:
    """The points of a closed loop of borders, its first point not repeated."""
    return np.concatenate([(traced.lines[i][::-1] if backward else traced.lines[i])[:-1] for i, backward in loop])


def _hatches(found: Regions, mm: float) -> list[Lines]:
    """The hatch lines of every hatched tone that shows; `mm`: traced pixels to a mm of print."""
    made = []
    for tone, style in TONE_STYLES.items():
        shown = found.tone == tone
        if style.hatch and shown.any():
            runs = [_hatched(found.label, shown, np.radians(angle), gap * mm) for angle, gap in style.hatch]
            made.append(Lines(f"{tone.name.lower()}-hatch", tuple(np.concatenate(runs)), HATCH, 0.0, style.dash))
    return made


@jit
def inside(start: float, way: float, size: float, low: float, high: float) -> tuple[float, float]:
    """The steps from `low` to `high` narrowed to those at which start + step * way lies between 0 and `size`."""
    if abs(way) < 1e-9:
        return (low, high) if 0 < start < size else (0.0, -1.0)
    one, other = -start / way, (size - start) / way
    return max(low, min(one, other)), min(high, max(one, other))


@jit
def _hatched(label: NDArray[np.int32], shown: Bools, angle: float, gap: float) -> Floats:
    """Pieces `(n, 2, 2)` (column, row) of parallel lines, `gap` pixels apart, that lie on regions that are `shown`."""
    height, width = label.shape
    along_x, along_y = np.cos(angle), -np.sin(angle)
    reach = np.sqrt(float(height * height + width * width))
    half = int(reach / gap) + 1
    out = np.empty((label.size // 16 + 16, 2, 2))
    number = 0
    for line in range(-half, half + 1):
        x0, y0 = width / 2 - along_y * gap * line, height / 2 + along_x * gap * line
        low, high = inside(x0, along_x, width, *inside(y0, along_y, height, -reach, reach))
        start = np.nan
        for step in range(int(np.floor(low)), int(np.ceil(high)) + 2):
            x, y = x0 + step * along_x, y0 + step * along_y
            there = 0 <= x < width and 0 <= y < height and shown[label[int(y), int(x)]]
            if there and np.isnan(start):
                start = float(step)
            if not there and not np.isnan(start):
                if step - start > 3 and number < len(out):
                    out[number, 0, 0], out[number, 0, 1] = x0 + start * along_x, y0 + start * along_y
                    out[number, 1, 0], out[number, 1, 1] = x - along_x, y - along_y
                    number += 1
                start = np.nan
    return out[:number]


def _lines(found: Regions, traced: Borders, apart: Bools, crowded: bool) -> list[Lines]:
    """Borders by their weight: faint round what was there before, fine between strands, full round what stands free.

    apart: `(n,) bool`, borders whose sides are rope of different legs.
    """
    tone_left, tone_right = _tones(found, traced)
    table = np.concatenate([found.solid, [-1]])
    left, right = table[traced.left], table[traced.right]
    inside = (traced.left != EDGE) & (traced.right != EDGE)
    before = inside & (left < 0) & (right < 0)
    contour = inside & ~before & ((left != right) | apart)
    inner = inside & ~before & ~contour & (~np.array(crowded) | (tone_left != tone_right))
    return [
        Lines(name, tuple(traced.lines[i] for i in np.flatnonzero(chosen)), width, grey, dash)
        for name, chosen, width, grey, dash in (
            ("before", before, FAINT, BEFORE, DASH),
            ("strands", inner, STRAND, 0.0, ()),
            ("contours", contour, CONTOUR, 0.0, ()),
        )
        if chosen.any()
    ]


def _apart(view: View, traced: Borders, reach: float) -> Bools:
    """Borders `(n,)` between two legs: their sides lie far from one another along the rope."""
    height, width = view.face.shape
    station, sides = stations(view), []
    for rows, columns in np.moveaxis(traced.beside, 2, 1):
        face = view.face[np.clip(rows, 0, height - 1), np.clip(columns, 0, width - 1)]
        sides.append(np.where(face < 0, np.nan, station[view.bodies.faces[face, 0]]))
    return np.asarray(np.abs(sides[0] - sides[1]) > APART * reach)
