"""A line drawing as SVG 1.1: paths, circles and text, no script, no colour, the same bytes for the same drawing."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import pairwise

import numpy as np

from fidpath.arrays import Floats
from fidpath.machine import in_xml
from fidpath.outputs.lineart.ink import Area, Disc, Ink, LineDrawing, Lines, TextLine

UNIT = 0.01
"""Coordinates are whole numbers of so many mm: finer than any press, and short."""

HEAD = 4
"""Lines before the first element."""

TYPE = "'DejaVu Sans', Verdana, Arial, Helvetica, sans-serif"


def svg(drawing: LineDrawing, before: Sequence[str] = ()) -> str:
    """The drawing as SVG. The viewBox is in mm; what is drawn is in hundredths of them.

    before: elements of another drawing that are laid on first.
    """
    width, height = drawing.size
    name = escape(in_xml(drawing.title))
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
            f'viewBox="0 0 {width:g} {height:g}" role="img" aria-label="{name}">',
            f"<title>{name}</title>",
            f'<g transform="scale({UNIT:g})" font-family="{TYPE}" stroke-linecap="round" stroke-linejoin="round">',
            *before,
            *(_element(ink) for ink in drawing.inks),
            "</g>",
            "</svg>",
            "",
        )
    )


def elements(drawing: str) -> list[str]:
    """What a drawing's SVG lays on, in order, an element each."""
    lines = drawing.split("\n")
    return lines[HEAD : lines.index("</g>")]


def _element(ink: Ink) -> str:
    if isinstance(ink, Area):
        path = _path(ink.loops, "z")
        return f'<path class="{ink.name}" fill="{_grey(ink.grey)}" fill-rule="evenodd" d="{path}"/>'
    if isinstance(ink, Lines):
        path = _path(ink.lines)
        dash = f' stroke-dasharray="{" ".join(str(_whole(part)) for part in ink.dash)}"' if ink.dash else ""
        return (
            f'<path class="{ink.name}" fill="none" stroke="{_grey(ink.grey)}" '
            f'stroke-width="{_whole(ink.width)}"{dash} d="{path}"/>'
        )
    if isinstance(ink, Disc):
        x, y, radius = (_whole(v) for v in (*ink.at, ink.radius))
        rim = f' stroke="#000" stroke-width="{_whole(ink.rim)}"' if ink.rim else ""
        return f'<circle cx="{x}" cy="{y}" r="{radius}" fill="{_grey(ink.grey)}"{rim}/>'
    return _text(ink)


def _text(ink: TextLine) -> str:
    """Text as text, held to the width it was measured at whatever type the viewer has."""
    x, y, size, width = (_whole(v) for v in (*ink.at, ink.size, ink.width))
    return (
        f'<text x="{x}" y="{y}" font-size="{size}" fill="{_grey(ink.grey)}" textLength="{width}" '
        f'lengthAdjust="spacingAndGlyphs" xml:space="preserve">{escape(in_xml(ink.text))}</text>'
    )


def _path(lines: Sequence[Floats], end: str = "") -> str:
    """Lines `(n, 2)` mm, each as a move and relative steps in whole units, and `end`; steps of nothing left out.

    Numbers have a space between them only where no sign parts them.
    """
    if not lines:
        return ""
    first = np.cumsum([0, *(len(line) for line in lines)])
    places = np.rint(np.concatenate(lines) / UNIT).astype(np.int64)
    steps = np.diff(places, axis=0, prepend=0)
    steps[first[:-1]] = 0
    kept = np.flatnonzero(steps.any(axis=1))
    numbers = [str(v) for v in steps[kept].ravel().tolist()]
    cut = (2 * np.searchsorted(kept, first)).tolist()
    starts = [f"M{x} {y}" for x, y in places[first[:-1]].tolist()]
    runs = (" ".join(numbers[a:b]).replace(" -", "-") for a, b in pairwise(cut))
    return "".join(f"{start}l{run}{end}" if run else start + end for start, run in zip(starts, runs, strict=True))


def _whole(mm: float) -> int:
    return round(mm / UNIT)


def _grey(grey: float) -> str:
    level = round(255 * grey)
    return f"#{level:02x}{level:02x}{level:02x}"
