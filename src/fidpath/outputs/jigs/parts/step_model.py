"""Scale model of a step: its settled strands, enlarged and run a little into one another, so that they print as one.

What doesn't fit on the bed at that scale is left off: of each leg through a hole so much rope is kept, either side of
the hole, as does. Every section holds a circle of the least wall, so no strand is thinner than that anywhere.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry import Strands
from fidpath.job import LEAST_SCALE, Printing
from fidpath.meshing import INSET, ROUNDING, Sections, middle, sections_of, strand_mesh
from fidpath.outputs.jigs.manifolds import NotClosed, closed, of_mesh
from fidpath.outputs.jigs.parts.model_colours import face_colours
from fidpath.outputs.jigs.parts.pins import halves_of
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Size
from fidpath.settling import SettledState

Span = tuple[float, float]

RAYS, REFINE = 14, 2
"""Rays of a section in a model, and sections to each step of the strands' lines."""

STUB, OVERRUN = 1.0, 0.6
"""A cut end's last part, and how far its strands run on before they are cut off flat, in rope diameters."""

WALL = 0.8
"""Least thickness of a strand in the model, mm."""

CLOSED_GAP = 2 ** (1 / ROUNDING) / INSET
"""What a drawn ray is lengthened by to reach the plane midway to a neighbour that it was kept short of."""

CLEAR = 0.98
"""Share of the way to the plane midway between two sections of a strand that a ray may take."""

FUSED_MORE = (0.0, 0.01, 0.02, 0.03, 0.05)
"""Where surfaces come to touch along an edge, strands run this share further into one another."""

BED_EDGE = 5.0
LEAST_KEPT = 2.0
"""Rope kept either side of a hole, at least, in rope diameters."""

BIGHT = 15.0
"""Rope between two legs through a hole that is a bight, at most, in rope diameters."""

LEAST_SHARE = 0.02
"""A body smaller than this share of the model is a crumb, and left out."""


@dataclass(frozen=True)
class Scaled:
    """A fused model: its solid (manifold3d), the rope it shows, and what had to be left out."""

    solid: Any
    spans: tuple[Span, ...]
    whole: bool
    crumbs: int


def model(made: SettledState, scale: float, halves: bool, printing: Printing, close_up: bool = False) -> Jig:
    """The model of a step in one piece, or in two halves parted along the table's plane, with pins.

    close_up: of the place worked on alone, with the whole of a bight that goes through it.

    Raises CannotBeMade where it doesn't fit the bed, falls apart, or has no room for pins.
    """
    *tries, last = (replace(printing, fuse_mm=printing.fuse_mm * (1 + more)) for more in FUSED_MORE)
    for printed in tries:
        with suppress(NotClosed):
            return _model(made, scale, halves, printed, close_up)
    return _model(made, scale, halves, last, close_up)


def _model(made: SettledState, scale: float, halves: bool, printing: Printing, close_up: bool) -> Jig:
    """The model with the strands run into one another by just that much. Raises as `model`, and NotClosed."""
    fused, name = fused_model(made, scale, printing, close_up), f"model-{made.kind}"
    d = made.plan.braid.diameter
    pieces = _halves(made, fused, name, scale, printing) if halves else (_whole(made, fused, name, scale),)
    use = (
        f"{scale:g} times as large as the rope; strands run {printing.fuse_mm:.3g} mm into one another.",
        "It shows which strand goes where. It is not rope: never load it.",
        f"Colours are in the 3MF file: {', '.join(pieces[0].colours.names) if pieces[0].colours else 'none'}.",
    )
    return Jig(name, f"Scale model: {made.kind}", use, pieces, _notes(fused, d))


def _whole(made: SettledState, fused: Scaled, name: str, scale: float) -> JigPiece:
    """The model in one piece, its faces coloured."""
    mesh, low = closed(fused.solid, name), float(fused.solid.bounding_box()[2])
    corners = (mesh.points[mesh.faces] + [0.0, 0.0, low]) / scale
    size = Size("rope, across", scale * made.plan.braid.diameter)
    return JigPiece(name, mesh, sizes=(size,), colours=face_colours(made, corners, fused.spans))


def _halves(made: SettledState, fused: Scaled, name: str, scale: float, printing: Printing) -> tuple[JigPiece, ...]:
    """The model in two halves, coloured, and a pin; the lower half lies turned over about x."""
    upper, lower, pin = halves_of(fused.solid, name, printing, WALL)
    found = []
    for half, turn in ((upper, [1.0, 1.0, 1.0]), (lower, [1.0, -1.0, -1.0])):
        corners = half.mesh.points[half.mesh.faces] * turn / scale
        found.append(replace(half, colours=face_colours(made, corners, fused.spans)))
    return (*found, pin)


def _notes(fused: Scaled, d: float) -> tuple[str, ...]:
    """What the model leaves out."""
    notes = []
    if not fused.whole:
        spans = ", ".join(f"{start / d:.1f} to {end / d:.1f}" for start, end in fused.spans)
        notes.append(f"Of the rope it shows, in rope diameters from H1: {spans}; the rest doesn't fit the bed.")
    if fused.crumbs:
        notes.append(f"{fused.crumbs} crumbs of strands, cut off from the rest, are left out.")
    return tuple(notes)


def fused_model(made: SettledState, scale: float, printing: Printing, close_up: bool = False) -> Scaled:
    """The strands of a step, enlarged and fused to one body, round all its holes or else round the one worked on."""
    ends = (float(made.settled.strands.station[0]), float(made.settled.strands.station[-1]))
    if _fits(made.settled.strands, (ends,), scale, printing):
        return _fused(made, (ends,), scale, printing)
    all_of_them, worked_on = places_of_interest(made), _places_of_last(made)
    if close_up:
        return _fused(made, _spans(made, worked_on or all_of_them, scale, printing, bights(made)), scale, printing)
    try:
        return _fused(made, _spans(made, all_of_them, scale, printing), scale, printing)
    except CannotBeMade:
        if not worked_on:
            raise
        return _fused(made, _spans(made, worked_on, scale, printing), scale, printing)


def _fused(made: SettledState, spans: tuple[Span, ...], scale: float, printing: Printing) -> Scaled:
    """The strands between those stations as one body."""
    strands = made.settled.strands
    sections = enlarged(_sections(strands, spans), scale, printing.fuse_mm)
    solid, crumbs = _one_body(_united(sections, _parts(made, spans), spans, OVERRUN * strands.braid.diameter))
    whole = spans == ((float(strands.station[0]), float(strands.station[-1])),)
    return Scaled(solid, spans, whole, crumbs)


def _sections(strands: Strands, spans: tuple[Span, ...]) -> Sections:
    """Drawn sections where the model has rope, and a little beyond."""
    beyond = (OVERRUN + 0.3) * strands.braid.diameter
    wanted = np.zeros(len(strands.station), dtype=bool)
    for start, end in spans:
        wanted |= (strands.station >= start - beyond) & (strands.station <= end + beyond)
    return sections_of(strands, rays=RAYS, refine=REFINE, wanted=wanted)


def enlarged(sections: Sections, scale: float, fuse: float) -> Sections:
    """Sections `scale` times as large, each ray long enough to run `fuse`/2 mm beyond the plane midway to a neighbour.

    No ray is shorter than a section needs to hold a circle of the least wall between any two of its rays.
    """
    ray = (sections.rings - sections.centres[:, :, None, :]) * scale
    length = np.linalg.norm(ray, axis=3)
    unit = ray[length.min(axis=2) > 1e-9]
    unit = unit / np.linalg.norm(unit, axis=2, keepdims=True)
    between = float((unit * np.roll(unit, -1, axis=1)).sum(axis=2).min())
    least = WALL / 2 / np.sqrt((1 + between) / 2)
    wanted = np.maximum(length * CLOSED_GAP + fuse / 2, least)
    centres = sections.centres * scale
    share = wanted / np.maximum(length, 1e-9)
    rings = centres[:, :, None, :] + ray * np.minimum(share, _before_next(centres, ray, sections.count))[..., None]
    thicknesses = tuple(thickness * scale for thickness in sections.thicknesses)
    return replace(sections, rings=rings, centres=centres, thicknesses=thicknesses)


def _before_next(centres: Floats, ray: Floats, count: Ints) -> Floats:
    """How many times as long each ray may be, `(strands, n, rays)`, before it meets the plane midway to a next section.

    Where a strand bends sharply, longer rays of consecutive sections would cross and crumple its surface.
    """
    most = np.full(ray.shape[:3], np.inf)
    step = np.diff(centres, axis=1)
    room = (step * step).sum(axis=2)[..., None] / 2
    live = (np.arange(step.shape[1]) < (count - 1)[:, None])[..., None]
    for side, toward in ((np.s_[:, :-1], 1.0), (np.s_[:, 1:], -1.0)):
        reach = toward * (ray[side] * step[:, :, None, :]).sum(axis=3)
        bound = np.where((reach > 0) & live, CLEAR * room / np.maximum(reach, 1e-12), np.inf)
        most[side] = np.minimum(most[side], bound)
    return most


def places_of_interest(made: SettledState) -> list[float]:
    """Stations of every opened place and of every leg through one, mm; else where the tail goes in; else H1."""
    strands = made.settled.strands
    found = [opening.host for opening in made.state.openings]
    found += [station for hole in strands.holes for station in (hole.host, hole.guest)]
    if not found and strands.bury is not None:
        found = [strands.bury.host[0], strands.bury.guest[0]]
    return sorted({float(station) for station in found}) or [0.0]


def _places_of_last(made: SettledState) -> list[float]:
    """The same of the place opened last alone; none where no more than one is open."""
    if len(made.state.openings) < 2:
        return []
    last = made.state.openings[-1]
    guests = [hole.guest for hole in made.settled.strands.holes if hole.name == last.name]
    return sorted({float(station) for station in (last.host, *guests)})


def bights(made: SettledState) -> tuple[Span, ...]:
    """Stretches of rope between two legs through the place opened last that are near enough to be one bight."""
    if not made.state.openings:
        return ()
    last, longest = made.state.openings[-1].name, BIGHT * made.plan.braid.diameter
    guests = sorted(float(hole.guest) for hole in made.settled.strands.holes if hole.name == last)
    return tuple((a, b) for a, b in pairwise(guests) if b - a <= longest)


def _spans(
    made: SettledState, places: list[float], scale: float, printing: Printing, kept: tuple[Span, ...] = ()
) -> tuple[Span, ...]:
    """As much rope either side of those places as fits the bed, with all of the stretches `kept`.

    Raises CannotBeMade where hardly any does.
    """
    strands, d = made.settled.strands, made.plan.braid.diameter
    ends = (float(strands.station[0]), float(strands.station[-1]))
    low, high = LEAST_KEPT * d, ends[1] - ends[0]
    if not _fits(strands, _round(places, low, ends, kept), scale, printing):
        raise CannotBeMade(
            f"a model {scale:g} times as large as the rope has no room on the bed",
            _what_would_do(_extent(strands, _round(places, low, ends, kept)), printing),
            key="print.scale",
        )
    for _ in range(12):
        half = (low + high) / 2
        low, high = (half, high) if _fits(strands, _round(places, half, ends, kept), scale, printing) else (low, half)
    return _round(places, low, ends, kept)


def _round(places: list[float], half: float, ends: Span, kept: tuple[Span, ...] = ()) -> tuple[Span, ...]:
    """Stretches of `half` mm either side of each place, and those `kept`; those that meet as one."""
    wanted = sorted([*kept, *((max(place - half, ends[0]), min(place + half, ends[1])) for place in places)])
    spans: list[Span] = []
    for start, end in wanted:
        if spans and start <= spans[-1][1]:
            spans[-1] = (spans[-1][0], max(end, spans[-1][1]))
        else:
            spans.append((start, end))
    return tuple(spans)


def _extent(strands: Strands, spans: tuple[Span, ...]) -> Floats:
    """How long, wide and high the rope between those stations lies on the table, `(3,)` mm, the longer side first."""
    kept = np.zeros(len(strands.station), dtype=bool)
    for start, end in spans:
        kept |= (strands.station >= start) & (strands.station <= end)
    x, y, z = np.ptp(strands.axis[kept], axis=0) + 1.15 * strands.braid.diameter
    return np.array([max(x, y), min(x, y), z])


def _room(printing: Printing) -> Floats:
    """How long, wide and high a model may be, `(3,)` mm."""
    wide, deep, high = printing.bed_mm
    return np.array([max(wide, deep) - 2 * BED_EDGE, min(wide, deep) - 2 * BED_EDGE, high])


def _fits(strands: Strands, spans: tuple[Span, ...], scale: float, printing: Printing) -> bool:
    """Whether the rope between those stations fits the bed, lying as on the table, lengthwise either way."""
    return bool((_extent(strands, spans) * scale <= _room(printing)).all())


def _what_would_do(extent: Floats, printing: Printing) -> str:
    """The scale or the bed that would have room for so much rope."""
    scale = float((_room(printing) / extent).min())
    if scale >= LEAST_SCALE:
        return f"Use a scale of at most {np.floor(scale * 100) / 100:g}"
    side = LEAST_SCALE * extent[0] + 2 * BED_EDGE
    return f"Use a bed of {np.ceil(side):.0f} mm and a scale of {LEAST_SCALE:g}"


def _parts(made: SettledState, spans: tuple[Span, ...]) -> list[Span]:
    """The stretches cut midway between places of interest: no part runs through itself, so that all can be united.

    Either end of a stretch is a part of its own.
    """
    places, stub = places_of_interest(made), STUB * made.plan.braid.diameter
    cuts = [(a + b) / 2 for a, b in pairwise(places)]
    parts = []
    for start, end in spans:
        inner = [start + stub, *(cut for cut in cuts if start + stub < cut < end - stub), end - stub]
        whole = [start, *inner, end] if end - start > 3 * stub else [start, end]
        parts += list(pairwise(whole))
    return parts


def _united(sections: Sections, parts: list[Span], spans: tuple[Span, ...], beyond: float) -> Any:
    """All strands of all parts as one solid; its cut ends are flat across the rope."""
    from manifold3d import Manifold, OpType

    starts, ends = {start for start, _ in spans}, {end for _, end in spans}
    axis, _ = middle(sections.centres, sections.count)
    solids = []
    for start, end in parts:
        first = start - beyond if start in starts else start
        last = end + beyond if end in ends else end
        part = Manifold.batch_boolean(_strands_between(sections, first, last), OpType.Add)
        for at, way in ((start, 1.0),) * (start in starts) + ((end, -1.0),) * (end in ends):
            part = _cut_flat(part, sections, axis, at, way)
        solids.append(part)
    return Manifold.batch_boolean(solids, OpType.Add)


def _strands_between(sections: Sections, start: float, end: float) -> list[Any]:
    """Every strand between two stations and one section more, as solids."""
    first, last = (int(np.abs(sections.station - at).argmin()) for at in (start, end))
    spans = [(k, min(last + 1, int(sections.count[k]) - 1)) for k in range(len(sections.count))]
    return [of_mesh(strand_mesh(sections, k, first, stop)) for k, stop in spans if stop - first >= 2]


def _cut_flat(part: Any, sections: Sections, axis: Floats, at: float, way: float) -> Any:
    """A part cut across the rope at a station, what lies along `way` kept; whole where the rope itself ends there."""
    index = int(np.abs(sections.station - at).argmin())
    if index < 2 or index > len(axis) - 3:
        return part
    tangent = axis[index + 2] - axis[index - 2]
    normal = way * tangent / np.linalg.norm(tangent)
    return part.trim_by_plane(tuple(normal.tolist()), float(axis[index] @ normal))


def _one_body(solid: Any) -> tuple[Any, int]:
    """The solid without its crumbs and hidden hollows, and how many crumbs; raises CannotBeMade where it falls apart.

    A hollow that nothing leads into comes as a body of its own, of negative volume.
    """
    found = sorted((body for body in solid.decompose() if body.volume() > 0), key=lambda body: -body.volume())
    large = [body for body in found if body.volume() >= LEAST_SHARE * found[0].volume()]
    if len(large) > 1:
        raise CannotBeMade(
            f"the model falls into {len(large)} bodies: its legs don't touch at this size",
            "Use a smaller scale, or a larger bed, so that more of the rope is shown",
            key="print.scale",
        )
    return found[0], len(found) - 1
