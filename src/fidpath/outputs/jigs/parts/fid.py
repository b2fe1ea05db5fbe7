"""A hollow fid of the right size, with a pocket for the tail's end.

It is printed lying down on a flat of its own: layers along a tool don't part when it is pushed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.job import rule
from fidpath.outputs.jigs.lettering import EngravedText, width
from fidpath.outputs.jigs.manifolds import closed, extruded, pen_strokes, revolved
from fidpath.outputs.jigs.paths import box
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Plate, Size
from fidpath.outputs.jigs.plates import faults, lines_of, plate
from fidpath.outputs.jigs.sizes import with_unit
from fidpath.planning import Plan

BED_EDGE = 5.0
WALL = 0.8
"""Least wall round the pocket, mm."""

FLAT = 0.72
"""How far from its axis a tool is cut flat to lie on the bed, as a share of its radius."""

LEAST_POCKET = 0.6
"""A pocket narrower than this, mm, is left out: it would close up."""


@dataclass(frozen=True)
class FidShape:
    """A fid's sizes, mm: its own and its pocket's radius, lengths, and how far from its axis the flat lies."""

    radius: float
    pocket: float
    depth: float
    length: float
    nose: float
    wall: float
    flat: float


def full_length(plan: Plan) -> float:
    """Length in mm that a fid for the rope has by rule."""
    return (rule("fid_length_least").value + rule("fid_length_most").value) / 2 * plan.braid.diameter


def shape_of(plan: Plan) -> FidShape:
    """The fid that opens the rope wide enough to pass, as long as the bed allows; its pocket takes a squeezed tail."""
    printing, d = plan.job.printing, plan.braid.diameter
    radius, wall = plan.openings.second_fid / 2, max(WALL, 2 * printing.nozzle_mm)
    length = min(full_length(plan), max(printing.bed_mm[:2]) - 2 * BED_EDGE)
    pocket = min(plan.job.rope.squeeze * d / 2, radius - wall)
    pocket = pocket if pocket >= LEAST_POCKET / 2 else 0.0
    depth = min(2.5 * d, 0.25 * length) if pocket > 0 else 0.0
    nose = min(8 * radius, 0.45 * length)
    return FidShape(radius, pocket, depth, length, nose, wall, max(FLAT * radius, pocket + wall))


def outside(shape: FidShape) -> Floats:
    """Outer profile from the rear to the tip: distance from the axis and place along it, `(m, 2)` mm."""
    rim = min(shape.pocket + shape.wall, shape.radius) if shape.pocket > 0 else 0.8 * shape.radius
    tip = max(0.24 * shape.radius, min(0.6, 0.8 * shape.radius))
    middle = np.array([0.0, shape.length - tip])
    shoulder = np.array([shape.radius, shape.length - shape.nose])
    away = shoulder - middle
    first = float(np.arctan2(away[1], away[0]) + np.arccos(tip / np.linalg.norm(away)))
    angle = np.linspace(first, np.pi / 2, 17)
    point = middle + tip * np.column_stack([np.cos(angle), np.sin(angle)])
    point[-1, 0] = 0.0
    return np.concatenate([[[rim, 0.0], [shape.radius, 2 * shape.radius], shoulder], point])


def inside(shape: FidShape) -> Floats:
    """The pocket's profile from its pointed end back to the rear, `(m, 2)` mm; the axis where there is none."""
    if shape.pocket == 0:
        return np.zeros((1, 2))
    return np.array([[0.0, shape.depth + shape.pocket], [shape.pocket, shape.depth], [shape.pocket, 0.0]])


def revolved_volume(profile: Floats) -> float:
    """Volume in mm3 of a polygon `(m, 2)` turned round the axis: 2 pi times its first moment (Pappus)."""
    r, z = profile.T
    r1, z1 = np.roll(r, -1), np.roll(z, -1)
    return float(np.pi / 3 * ((r + r1) * (r * z1 - r1 * z)).sum())


def beyond_flat(profile: Floats, flat: float) -> float:
    """Volume in mm3 that the flat takes off a body of this outer profile, by quadrature of the circles' segments."""
    place = np.linspace(0.0, float(profile[-1, 1]), 4001)
    radius = np.maximum(np.interp(place, profile[:, 1], profile[:, 0]), flat)
    return float(np.trapezoid(segment_area(radius, flat), place))


def segment_area(radius: Floats | float, height: float) -> Floats:
    """Area in mm2 of a circle beyond a chord `height` mm from its middle (elementary geometry)."""
    share = np.clip(height / np.asarray(radius), -1.0, 1.0)
    return np.asarray(np.asarray(radius) ** 2 * (np.arccos(share) - share * np.sqrt(1 - share**2)))


def lying(solid: Any) -> Any:
    """A body turned round z, laid along x."""
    return solid.rotate((0.0, 90.0, 0.0))


def fid(plan: Plan) -> Jig:
    """The fid, and what the tail has to be tapered to."""
    shape, job = shape_of(plan), plan.job
    outer = outside(shape)
    profile = np.concatenate([outer, inside(shape)])
    body = lying(revolved(profile)).trim_by_plane((0.0, 0.0, 1.0), -shape.flat)
    known = revolved_volume(profile) - beyond_flat(outer, shape.flat)
    words = f"FID {with_unit(2 * shape.radius, job)}"
    face = _face(plan, shape, words)
    if face is not None:
        marks = pen_strokes(lines_of(face), face.pen)
        cutter = extruded(marks, -1.0, face.depth).mirror((0.0, 1.0, 0.0))
        body -= cutter.translate((shape.depth + shape.pocket + 2.0, 0.0, -shape.flat))
        known -= marks.area() * face.depth
    sizes = (Size("fid, across", 2 * shape.radius), Size("pocket, across", 2 * shape.pocket))
    mesh = closed(body, "fid")
    engraved: tuple[str, ...] = () if face is None else (words,)
    piece = JigPiece("fid", mesh, known, sizes, None, engraved, None if face is None else (0.0, face.depth))
    use = (
        "Smooth it with fine paper before it touches a rope: a layer's edge catches strands.",
        "Taper the tail's end, lay it in the pocket and tape it; the fid draws it through.",
    )
    return Jig("fid", "Fid with a pocket for the tail", use, (piece,), _fid_notes(plan, shape, face is not None))


def _fid_notes(plan: Plan, shape: FidShape, worded: bool) -> tuple[str, ...]:
    """What falls short of a full-sized fid."""
    full, d = full_length(plan), plan.braid.diameter
    notes = []
    if shape.length < full:
        notes.append(f"It is {shape.length:.0f} mm long, as the bed allows; by rule it would be {full:.0f} mm.")
    if shape.pocket == 0:
        notes.append("So thin a fid has no room for a pocket: tape the tail to its rear.")
    elif shape.pocket < plan.job.rope.squeeze * d / 2:
        notes.append(f"The pocket is {2 * shape.pocket:.2f} mm across: taper the tail's end to pass it.")
    if not worded:
        notes.append("It is too slender to be engraved: its size stands here only.")
    return tuple(notes)


def _face(plan: Plan, shape: FidShape, words: str) -> Plate | None:
    """The fid's flat between pocket and nose with its words, if they fit; x from 2 mm before the pocket's end."""
    t = plan.job.printing.text_height_mm
    chord = 2 * float(np.sqrt(max(shape.radius**2 - shape.flat**2, 0.0)))
    length = shape.length - shape.nose - shape.depth - shape.pocket - 4.0
    if chord < 0.5 or length < width(words, t):
        return None
    text = EngravedText(words, length / 2, -t / 2, t)
    face = plate(box(0.0, -chord / 2, length, chord / 2), 2.0, plan.job.printing.nozzle_mm, [text])
    return None if any(faults(face)) else face
