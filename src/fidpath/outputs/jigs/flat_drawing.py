"""Flat gauges as drawings for a laser or a mill: SVG and DXF, 1:1 in millimetres, half the kerf outside the outline.

Arcs stay arcs in both. What is to be cut and what is to be engraved are groups (SVG) or layers (DXF) of their own.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from xml.sax.saxutils import escape

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.machine import in_xml
from fidpath.outputs.jigs.paths import Outline, bounds, moved_out
from fidpath.outputs.jigs.pieces import Plate
from fidpath.outputs.jigs.plates import lines_of

EDGE = 2.0
"""Paper round the drawing, mm."""

CUT, ENGRAVE = "CUT", "ENGRAVE"


def cuts(flat: Plate, kerf: float) -> tuple[Outline, ...]:
    """Where the cutter's middle runs: outside the outline and inside the cutouts by half the kerf, mm.

    Raises CannotBeMade where it is too wide for an inner corner.
    """
    hollow = flat.outline.radius[flat.outline.turn < 0]
    inner = float(hollow.min()) if len(hollow) else np.inf
    if inner <= kerf / 2:
        what = f"a kerf of {kerf:g} mm can't cut an inside corner of {inner:g} mm radius"
        raise CannotBeMade(what, f"Use a kerf under {2 * inner:g} mm", key="print.kerf")
    return (moved_out(flat.outline, kerf / 2), *(moved_out(hole, -kerf / 2) for hole in flat.cutouts))


def svg(flat: Plate, kerf: float, title: str, notes: str) -> bytes:
    """The drawing as the bytes of an SVG file; its width and height are in millimetres."""
    paths = cuts(flat, kerf)
    left, bottom, right, top = bounds(paths[0])
    wide, high = right - left + 2 * EDGE, top - bottom + 2 * EDGE
    origin = np.array([EDGE - left, top + EDGE])
    outlines = "".join(f'<path d="{_path_data(path, origin)}"/>' for path in paths)
    marks = "".join(f'<polyline points="{_places(line, origin)}"/>' for line in lines_of(flat))
    text = (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.4f}mm" '
        f'height="{high:.4f}mm" viewBox="0 0 {wide:.4f} {high:.4f}">\n'
        f"<title>{escape(in_xml(title))}</title>\n<desc>{escape(in_xml(notes))}</desc>\n"
        f'<g id="{CUT}" fill="none" stroke="#c00000" stroke-width="0.1">{outlines}</g>\n'
        f'<g id="{ENGRAVE}" fill="none" stroke="#0030a0" stroke-width="{flat.pen:.2f}" stroke-linecap="round" '
        f'stroke-linejoin="round">{marks}</g>\n</svg>\n'
    )
    return text.encode("utf-8")


def _path_data(path: Outline, origin: Floats) -> str:
    """The path's data; downward is y's way in SVG, so an arc to the left is drawn with the sweep flag 0."""
    place = origin + path.points * [1, -1]
    words = [f"M{place[0, 0]:.5f} {place[0, 1]:.5f}"]
    for (x, y), turn, radius in zip(np.roll(place, -1, axis=0), path.turn, path.radius, strict=True):
        large, sweep = int(abs(turn) > np.pi + 1e-9), int(turn < 0)
        arc = f"A{radius:.5f} {radius:.5f} 0 {large} {sweep} "
        words.append(f"{arc if turn else 'L'}{x:.5f} {y:.5f}")
    return " ".join(words) + " Z"


def _places(line: Floats, origin: Floats) -> str:
    return " ".join(f"{x:.4f},{y:.4f}" for x, y in origin + line * [1, -1])


def dxf(flat: Plate, kerf: float) -> bytes:
    """The drawing as the bytes of a DXF file (release 2010), units millimetres."""
    import ezdxf
    from ezdxf import units

    stream = io.StringIO()
    with _without_clock():
        doc = ezdxf.new("R2010", units=units.MM)  # type: ignore[attr-defined]
        doc.layers.add(CUT, color=1)
        doc.layers.add(ENGRAVE, color=5)
        space = doc.modelspace()
        for path in cuts(flat, kerf):
            rows = np.column_stack([path.points, path.bulge]).tolist()
            space.add_lwpolyline(rows, format="xyb", close=True, dxfattribs={"layer": CUT})
        for line in lines_of(flat):
            space.add_lwpolyline(line.tolist(), dxfattribs={"layer": ENGRAVE})
        for kind in sorted(doc.entitydb.dxf_types_in_use()):  # left to itself the library lists them as a set has them
            doc.classes.add_class(kind)
        doc.write(stream)
    return stream.getvalue().encode("utf-8")


@contextmanager
def _without_clock() -> Iterator[None]:
    """Documents made and written in here bear neither the time nor random numbers: the same bytes each time."""
    from ezdxf import options  # type: ignore[attr-defined]

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
