"""A settled rope state -> what a page needs to draw it: packed strands, their parts and colours, bodies beside them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Opening, Strands, table
from fidpath.meshing import clipping, joined, sections
from fidpath.outputs.page.encoding import MESH_QUANTUM_MM, packed, packed_mesh, packing_knots
from fidpath.scene import (
    BLEND,
    DOT,
    FADE,
    INK,
    PART_WORDS,
    RIM,
    TICK,
    Model,
    Solid,
    across_at,
    colour_of,
    followed_strands,
    group_of,
    hole_axes,
    material_of,
    pair_of,
    toned_over,
)

Record = dict[str, Any]


def law() -> Record:
    """The figures of the drawn sections' law, which the page's script follows."""
    return {
        "halfWidth": sections.HALF_WIDTH,
        "halfHeight": sections.HALF_HEIGHT,
        "exponent": clipping.EXPONENT,
        "spread": sections.SPREAD,
        "rounding": clipping.ROUNDING,
        "spacing": sections.SPACING,
        "inset": sections.INSET,
        "beyond": clipping.BEYOND,
        "selfReach": clipping.SELF_REACH,
        "turn": sections.TURN,
    }


def strands_record(strands: Strands) -> Record:
    """Centre lines as text, and what their sections are made with. Lengths in mm."""
    found = packed(strands)
    station = strands.station
    return {
        "strands": len(strands.points),
        "columns": len(station),
        "count": strands.count.tolist(),
        "first": found.first.reshape(-1, 3).tolist(),
        "quantum": found.quantum,
        "planes": found.planes,
        "station": [_short(station[0]), float((station[-1] - station[0]) / (len(station) - 1))],
        "packing": packing_knots(strands.packing),
        "thickness": strands.braid.thickness,
        "diameter": strands.braid.diameter,
        "seat": _seat(strands),
        "rods": [[_short(x) for x in row] for row in table(strands.rods)],
        "text": found.text,
    }


def _short(value: float) -> float:
    """A number to a millionth."""
    return round(float(value), 6)


def place(point: Sequence[float] | Floats) -> list[float]:
    """A place in mm, to a hundredth."""
    return [round(float(x), 2) for x in point]


def _seat(strands: Strands) -> Record | None:
    """The terminator's body, where there is one."""
    seat = strands.seat
    if seat is None:
        return None
    return {
        "crown": seat.crown,
        "nose": seat.nose,
        "reach": seat.reach,
        "groove": seat.groove,
        "lip": seat.lip,
        "halfWidth": seat.half_width,
        "centre": [_short(x) for x in strands.seat_centre],
    }


def paint_record(
    model: Model, toned: Sequence[Opening], inked: Sequence[float], dots: Sequence[tuple[float, float, float]]
) -> Record:
    """How a state's rope is coloured: where stretches begin, whose groups are shown, pen marks, dots on faces."""
    state, d = model.state, model.d
    found = [(part, start) for part, start in state.stretches if start < state.last]
    starts = [round(float(start), 4) for _, start in found[1:]]
    return {
        "pairs": [pair_of(part) for part, _ in found],
        "parts": [part.key for part, _ in found],
        "names": [PART_WORDS[part] for part, _ in found],
        "starts": starts,
        "blend": BLEND * d,
        "toned": [_toned(model, opening) for opening in toned],
        "fade": FADE * d,
        "inked": [_inked(model, float(u)) for u in inked],
        "inkHalf": [INK * d, TICK * d],
        "dots": [place(dot) for dot in dots],
        "dotRadius": [DOT * d, RIM * d],
    }


def _toned(model: Model, opening: Opening) -> Record:
    """An opened place: its middle and half length on the host; its top group and the strands that are followed.

    `shown`: how far to either side the groups are coloured, and the strands that are followed.

    Strands are the bits of a whole number.
    """
    top = sum(1 << k for k in np.flatnonzero(group_of(model, opening)).tolist())
    followed = sum(1 << k for k in followed_strands(model, opening).tolist())
    shown = [round(far, 4) for far in toned_over(opening, model.state.ropes[opening.rope].braid.diameter)]
    sizes = {"host": round(opening.host, 4), "half": round(opening.half, 4), "shown": shown}
    return {**sizes, "top": top, "followed": followed}


def hole_record(model: Model, opening: Opening) -> Record:
    """A hole to look into: its place and axes, and what of the rope may lie before it. Lengths in mm.

    `high`: how far its groups' strands reach from its middle plane; strands of the top group are bits of `top`.
    """
    axes = hole_axes(model, opening)
    here = model.points(opening.rope)[:, model.column(opening.host, opening.rope)]
    high = float(np.abs((here - axes.middle) @ axes.up).max()) + 0.6 * model.strands.ropes[opening.rope].braid.thickness
    return {
        "letter": opening.name,
        "station": round(opening.host, 4),
        "half": round(opening.half, 4),
        "at": place(axes.middle),
        "up": [_short(x) for x in axes.up],
        "left": [_short(x) for x in axes.left],
        "high": round(high, 2),
        "top": sum(1 << k for k in np.flatnonzero(axes.top).tolist()),
        "strands": sum(1 << k for k in range(len(axes.top))),
    }


def _inked(model: Model, station: float) -> Record:
    """A pen's tick: its station, the rope's middle there in mm, and the unit direction across the rope."""
    across = across_at(model, station)
    return {"station": round(station, 4), "place": place(model.at(station)), "across": [_short(x) for x in across]}


def bodies_record(solids: Sequence[Solid]) -> Record | None:
    """Hard bodies as one packed mesh, and how its faces are shared between them; None where there are none."""
    drawn = [solid for solid in solids if len(solid.mesh.faces)]
    if not drawn:
        return None
    found = packed_mesh(joined([solid.mesh for solid in drawn]))
    return {
        "parts": [_part(solid) for solid in drawn],
        "quantum": MESH_QUANTUM_MM,
        "pointPlanes": found.point_planes,
        "facePlanes": found.face_planes,
        "points": found.points,
        "faces": found.faces,
    }


def _part(solid: Solid) -> Record:
    material = material_of(solid)
    return {
        "part": solid.part.key,
        "faces": len(solid.mesh.faces),
        "colour": list(colour_of(solid.part)),
        "gloss": material.gloss,
        "flat": material.flat,
    }
