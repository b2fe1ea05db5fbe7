"""Mark sleeve: two half shells hinged round the rope, with windows where a mark may sit on top of it.

A window's middle lies where strands cross (12 strands) or in the middle of a diamond (8, 16): every second pick along
the rope, and half-way round in the other shell. A fid goes in a quarter round from there, at the sleeve's seam. Both
shells are printed upright and need no support: each has its knuckle at its foot, and one is turned over to meet the
other. A length of filament is the hinge's pin.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.lettering import EngravedText, width
from fidpath.outputs.jigs.manifolds import closed, extruded, pen_strokes, region, section, steps_round
from fidpath.outputs.jigs.paths import box, circle
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Plate, Size
from fidpath.outputs.jigs.plates import faults, lines_of, plate
from fidpath.outputs.jigs.sizes import with_unit
from fidpath.planning import Plan

WALL = 2.0
"""Thickness of a shell, mm."""

EAR = 2.5
"""Thickness of the ears that the sleeve is held shut by, mm."""

PIN, BORE, KNUCKLE = 1.75, 2.0, 5.6
"""Diameters of the hinge's pin, of its bore and of a knuckle, mm: the pin is printer's filament."""

SUNK = 1.0
"""How far a knuckle runs into its shell, mm."""

SHARE = 0.62
"""A window's size as a share of a diamond's: the strands that frame its middle show in it."""

LEAST_WINDOW = 1.2
"""A window narrower than this, mm, would close up."""

MARGIN = 1.5


@dataclass(frozen=True)
class SleeveShape:
    """A sleeve's measures, mm. windows: heights of their middles; wide, tall: half a window's, round and along."""

    bore: float
    length: float
    ear: float
    play: float
    windows: tuple[float, ...]
    wide: float
    tall: float

    @property
    def outer(self) -> float:
        """Radius of a shell's outside."""
        return self.bore + WALL

    @property
    def hinge(self) -> float:
        """From the rope's axis to the hinge's."""
        return self.outer + KNUCKLE / 2 - SUNK


def shape_of(plan: Plan) -> SleeveShape:
    """The sleeve for the plan's rope. Raises CannotBeMade where its diamonds are too small for windows."""
    braid, printing, rope = plan.braid, plan.job.printing, plan.job.rope
    wide = float(braid.diameter / 2 * np.sin(SHARE * 2 * np.pi / braid.strands))
    if 2 * wide < LEAST_WINDOW:
        raise CannotBeMade(
            f"a diamond of this rope has room for a window of {2 * wide:.1f} mm only",
            "Use the paper sleeve in the handout",
            key="rope.diameter",
        )
    fit = int(printing.bed_mm[2] / 2 / braid.pick)
    picks = max(min(braid.strands // 2, fit) // 2 * 2, 2)
    length = 2 * picks * braid.pick
    windows = tuple(length / 2 + n * braid.pick for n in range(2 - picks, picks, 2))
    ear, tall = printing.text_height_mm + 2 * MARGIN, SHARE * braid.pick
    return SleeveShape(rope.diameter_max_mm / 2, length, ear, printing.clearance_mm, windows, wide, tall)


def mark_sleeve(plan: Plan) -> Jig:
    """Both shells. Raises CannotBeMade as `shape_of`."""
    shape = shape_of(plan)
    pieces = tuple(_shell(plan, shape, word) for word in ("TOP", "UNDER"))
    place = "where strands cross" if plan.braid.strands == 12 else "in the middle of a diamond"
    use = (
        f"Turn one shell over, bring the knuckles together and push {PIN:g} mm of filament or wire through them. Close "
        "the sleeve round the rope under its reference tension and hold the ears together with a peg.",
        "Put the middle window of the shell TOP over the mark's place, and turn the sleeve until every window shows "
        f"{place}.",
        "Ink a tick through that window, open the sleeve and take it off. The fid goes in a quarter of the way round "
        "from the tick, level with the sleeve's seam, and comes out opposite. The other windows show where the next "
        "marks may lie, two picks apart.",
    )
    return Jig("mark-sleeve", "Mark sleeve", use, pieces)


def _shell(plan: Plan, shape: SleeveShape, word: str) -> JigPiece:
    """One shell, upright, its knuckle on the bed; the opening of the sleeve lies along x."""
    name, half = f"mark-sleeve-{word.lower()}", shape.length / 2
    low, high = _profiles(shape)
    body = extruded(low, 0.0, half - shape.play) + extruded(high, half - shape.play, shape.length)
    known = low.area() * (half - shape.play) + high.area() * (half + shape.play)
    for middle in shape.windows:
        body -= _window(shape, middle)
        known -= window_volume(shape)
    face, engraved = _face(plan, shape, word)
    marks = pen_strokes(lines_of(face), face.pen)
    body -= _on_ear(extruded(marks, -face.depth, 1.0), shape)
    known -= marks.area() * face.depth
    steps = np.diff(shape.windows)
    sizes = [Size("bore", 2 * shape.bore), Size("window, along the rope", 2 * shape.tall)]
    sizes += [Size("from window to window", float(steps[0]))] if len(steps) else []
    return JigPiece(name, closed(body, name), float(known), tuple(sizes), None, engraved)


def _profiles(shape: SleeveShape) -> tuple[Any, Any]:
    """A shell's section with its knuckle, and above it, clear of the other one's (manifold3d CrossSections)."""
    from manifold3d import CrossSection

    rim = CrossSection.circle(shape.outer, steps_round(shape.outer))
    far = shape.hinge + KNUCKLE + shape.ear + shape.outer
    upper = region([box(-far, shape.play / 2, far, far)])
    reach = shape.bore + WALL / 2
    ear = region([box(reach, 0.0, shape.outer + shape.ear, EAR)])
    web = region([box(-shape.hinge, 0.0, -reach, EAR)])
    shell = (rim + ear + web - CrossSection.circle(shape.bore, steps_round(shape.bore))) ^ upper
    knuckle = region([circle(-shape.hinge, 0.0, KNUCKLE / 2)])
    low = shell + knuckle - region([circle(-shape.hinge, 0.0, BORE / 2)])
    return low, shell - region([circle(-shape.hinge, 0.0, KNUCKLE / 2 + shape.play)])


def _window(shape: SleeveShape, middle: float) -> Any:
    """What a window takes away: a prism through the shell, its diamond upright so that it needs no support."""
    corners = np.array([[0.0, -shape.tall], [shape.wide, 0.0], [0.0, shape.tall], [-shape.wide, 0.0]])
    prism = extruded(section([corners]), 0.0, shape.outer + 1.0)  # x, z of the shell, drawn out along -y
    return prism.rotate((90.0, 0.0, 0.0)).mirror((0.0, 1.0, 0.0)).translate((0.0, 0.0, middle))


def window_volume(shape: SleeveShape, steps: int = 2001) -> float:
    """What a window takes off the shell, mm3: the wall's thickness across the rope, summed over the diamond."""
    x = np.linspace(0.0, shape.wide, steps)
    thick = np.sqrt(shape.outer**2 - x**2) - np.sqrt(shape.bore**2 - x**2)
    return float(4 * np.trapezoid(thick * shape.tall * (1 - x / shape.wide), x))


def _face(plan: Plan, shape: SleeveShape, word: str) -> tuple[Plate, tuple[str, ...]]:
    """The ear's outer face with its words, as many as fit; x along the rope, y away from it."""
    t, nozzle = plan.job.printing.text_height_mm, plan.job.printing.nozzle_mm
    rope = f"{word}. {with_unit(plan.job.rope.diameter_mm, plan.job)} ROPE"
    for words in (rope, word):
        text = EngravedText(words, shape.length / 2, (shape.ear - t) / 2, t)
        face = plate(box(0.0, 0.0, shape.length, shape.ear), EAR, nozzle, [text])
        if width(words, t) < shape.length and not any(faults(face)):
            return face, (words,)
    return plate(box(0.0, 0.0, shape.length, shape.ear), EAR, nozzle, []), ()


def _on_ear(marks: Any, shape: SleeveShape) -> Any:
    """Marks on the plane z = 0, brought onto the ear's outer face: their x upright, their y away from the rope."""
    turn = np.array([[0.0, 1.0, 0.0, shape.outer], [0.0, 0.0, 1.0, EAR], [1.0, 0.0, 0.0, 0.0]])
    return marks.transform(turn)
