"""Plan -> the rope of the finished splice: its axis by station, and its strands before they are settled.

Stations are the rope's own length in mm from H1's centre on the standing part, growing toward the tail's tip.
Strands keep their angle as a function of the station; bends, swelling and squeezing move the rest.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.geometry.braid import hands, straight, strand_offsets
from fidpath.geometry.bury import smooth_step
from fidpath.geometry.curve import Chain, heading, points
from fidpath.geometry.eye import leg_chain
from fidpath.geometry.parts import Part
from fidpath.geometry.strands import Bury, Hole, RopePart, Strands
from fidpath.planning.plan import Plan

NODE_SPACING = 0.15
"""Greatest spacing of nodes along the rope, in rope diameters; wider costs overlap (0.20: 1.9 %, 0.25: 3.5 %)."""

PLAIN = 7.0
"""Plain standing part kept beyond the tail's tip, in rope diameters."""


@dataclass(frozen=True)
class Draft:
    """Strands laid by the braid's law: `laid` at full thickness, `thin` with the guests shrunk; rest lengths in mm.

    `rest` is `(strands, n - 1) float`: each strand's own length between columns, from straight rope.
    """

    laid: Strands
    thin: Floats
    rest: Floats


@dataclass(frozen=True)
class _Run:
    """Axis by station: arc length on the chain, radii, and the places of the crossings along it."""

    line: Chain
    h2: float
    h1: float
    h1_back: float
    h2_back: float
    entry_host: float
    entry_tail: float


def _run(plan: Plan) -> _Run:
    d = plan.braid.diameter
    shared = plan.cover.tip_axial + PLAIN * d
    before = [(shared, 0.0), *plan.neck.pieces]
    line = leg_chain(plan.eye, before, 0.0, (-(shared + plan.neck.shared_reach), 0.0))
    h2 = shared + plan.neck.length
    h1 = h2 + plan.eye.zone.rope
    h1_back = h1 + plan.eye.loop
    h2_back = h1_back + plan.eye.zone.rope
    return _Run(line, h2, h1, h1_back, h2_back, h2 - plan.neck.entry, h2_back + plan.neck.entry)


def stations(plan: Plan) -> Floats:
    """Evenly spaced stations of the node columns, `(n,)` mm, H1's centre among them."""
    step = plan.pick / np.ceil(plan.pick / (NODE_SPACING * plan.braid.diameter))
    first = plan.station_entry_host - plan.cover.host_length - (PLAIN - 0.5) * plan.braid.diameter
    return np.asarray(np.arange(np.ceil(first / step), np.floor(plan.station_tip / step) + 1) * step)


def _arc_lengths(plan: Plan, run: _Run, station: Floats) -> Floats:
    """Arc length along the axis of each station: the cover shortened, the squeezed tail lengthened."""
    into_host = plan.station_entry_host - station
    into_tail = station - plan.station_entry_tail
    free = run.h1 + station
    host = run.entry_host - np.interp(into_host, plan.cover.host, plan.cover.axial)
    tail = run.entry_tail + np.interp(into_tail, plan.cover.tail, plan.cover.axial)
    middle = plan.station_h2 / 2
    room = -plan.cover.host[0] * 0.9
    on_host = (station < middle) & (into_host > -room)
    on_tail = (station >= middle) & (into_tail > plan.cover.tail[0] * 0.9)
    return np.where(on_host, host, np.where(on_tail, tail, free))


def _radii(plan: Plan, station: Floats) -> Floats:
    """Mean radius of the strands by station."""
    middle = plan.station_h2 / 2
    host = np.interp(plan.station_entry_host - station, plan.cover.host, plan.cover.cover_radius)
    tail = np.interp(station - plan.station_entry_tail, plan.cover.tail, plan.cover.tail_radius)
    return np.where(station < middle, host, tail)


def _packing(plan: Plan, station: Floats) -> Floats:
    """Share of its free thickness a strand keeps: 1, and the squeeze where it is buried."""
    return np.interp(station - plan.station_entry_tail, plan.cover.tail, plan.cover.packing)


def _frame(line: Chain, s: Floats) -> tuple[Floats, Floats]:
    """Axis `(n, 3)` and in-plane normal `(n, 3)` at arc lengths `(n,)`."""
    xy = points(line, s)
    at = heading(line, s)
    zero = np.zeros_like(s)
    return np.column_stack([xy, zero]), np.column_stack([-np.sin(at), np.cos(at), zero])


def _lay(plan: Plan, station: Floats, axis: Floats, normal: Floats, radius: Floats, share: Floats) -> Floats:
    """Strand centre lines `(strands, n, 3)`, their distance from the axis scaled by `share` `(n,)`."""
    swollen = np.maximum(radius, plan.braid.radius)
    out, angle = strand_offsets(plan.braid, station + plan.pick, swollen)
    out = out * (share * radius / swollen)
    up = np.array([0.0, 0.0, 1.0])
    across = out[..., None] * (np.cos(angle)[..., None] * normal + np.sin(angle)[..., None] * up)
    return np.asarray(axis + across)


def _smooth(share: Floats, width: int) -> Floats:
    """Running mean, twice, never above the share it smooths."""
    kernel = np.ones(width) / width
    padded = np.pad(share, 2 * width, mode="edge")
    for _ in range(2):
        padded = np.convolve(padded, kernel, mode="same")
    return np.minimum(share, padded[2 * width : -2 * width])


@dataclass(frozen=True)
class Thread:
    """How a guest threads its host at the start: its share of its radius, and how much its path is steepened."""

    thin: float = 0.15
    steep: float = 0.0


def _thin(plan: Plan, run: _Run, arc: Floats, axis: Floats, radius: Floats, thread: Thread) -> Floats:
    """Share of its radius each column starts with: guests shrunk where they thread their hosts."""
    d = plan.braid.diameter
    crest = plan.braid.undulation * (np.sqrt(2.0) if plan.braid.weave == "over-two" else 1.0)
    outer = plan.braid.radius + crest
    apart = 2 * np.abs(axis[:, 1])
    outside = apart / (1.03 * outer) - 1.02
    share = np.ones_like(arc)
    for centre in (run.h2, run.h1_back) if plan.lock else ():
        near = np.abs(arc - centre) < 1.6 * d
        share = np.where(near, np.minimum(share, np.clip(outside, thread.thin, 1.0)), share)
    into = arc - run.entry_tail
    host_inner = np.interp(into, plan.cover.axial, plan.cover.cover_radius) - crest
    inside = (host_inner - apart) / (radius + crest) - 0.05
    beyond_lock = run.h2_back + 0.5 * d if plan.lock else run.h1 + 2 * d
    near = (np.abs(into) < 4 * d) & (arc > beyond_lock)
    share = np.where(near, np.minimum(share, np.clip(np.maximum(outside, inside), thread.thin, 1.0)), share)
    return _smooth(share, 3)


def _steepened(plan: Plan, run: _Run, arc: Floats, axis: Floats, thread: Thread) -> Floats:
    """The axis with guests drawn toward a square crossing of their hosts, near H1 and H2 only."""
    d = plan.braid.diameter
    moved = axis.copy()
    if not plan.lock:
        return moved
    half = plan.eye.zone.half_angle
    window = 1 - smooth_step(2 * np.abs(axis[:, 1]) / d - 0.35)
    for centre, x, side in ((run.h2, 0.0, 1.0), (run.h1_back, plan.eye.zone.spacing, 1.0)):
        host = np.array([np.cos(half), -side * np.sin(half), 0.0])
        near = np.where(np.abs(arc - centre) < 1.6 * d, window, 0.0)
        along = (axis - np.array([x, 0.0, 0.0])) @ host
        moved -= thread.steep * (near * along)[:, None] * host
    return moved


def strand_ends(plan: Plan) -> Floats:
    """Station at which each strand of the tail ends, `(strands,)` mm: dropped in pairs, opposite ones first."""
    strands = plan.braid.strands
    half = strands // 2
    order = [*range(0, half, 2), *range(1, half, 2)]
    ends = np.full(strands, plan.taper.tip)
    for place, which in zip(plan.taper.drops, order, strict=False):
        ends[2 * which] = place
        ends[2 * ((which + half // 2) % half) + 1] = min(place + plan.taper.stagger, plan.taper.tip)
    return np.asarray(plan.station_entry_tail + ends)


def _counts(plan: Plan, station: Floats) -> Ints:
    """Columns each strand lives in."""
    return np.searchsorted(station, strand_ends(plan), side="right").astype(np.int64)


def _parts(plan: Plan, station: Floats) -> tuple[RopePart, ...]:
    """The rope's parts from the captive side to the tail's tip."""
    tip = plan.station_entry_host - plan.cover.host_length
    places = [
        (Part.STANDING_PART, float(station[0])),
        (Part.COVER, tip),
        (Part.STANDING_NECK, plan.station_entry_host),
        (Part.STANDING_LOCK_LEG, -plan.rope_between_holes),
        (Part.EYE, 0.0),
        (Part.TAIL_LOCK_LEG, plan.eye_length),
        (Part.TAIL_NECK, plan.station_h2),
        (Part.TAIL, plan.station_entry_tail),
    ]
    ends = [start for _, start in places[1:]] + [float(station[-1])]
    return tuple(RopePart(part, start, stop) for (part, start), stop in zip(places, ends, strict=True))


def _passes(plan: Plan) -> tuple[Hole, ...]:
    """The lock's holes, each with the leg that goes through it."""
    if not plan.lock:
        return ()
    return (
        Hole("H1", 0.0, plan.eye_length, plan.eye.zone.hole_length),
        Hole("H2", plan.station_h2, -plan.rope_between_holes, plan.eye.zone.hole_length),
    )


def draft(plan: Plan, thread: Thread | None = None) -> Draft:
    """The finished splice's strands before settling, and the thin start that threads every hole."""
    thread = thread or Thread()
    station = stations(plan)
    run = _run(plan)
    arc = _arc_lengths(plan, run, station)
    axis, normal = _frame(run.line, arc)
    radius = _radii(plan, station)
    crown = points(run.line, np.array([run.h1 + plan.eye.loop / 2]))[0, 0]
    laid = Strands(
        braid=plan.braid,
        points=_lay(plan, station, axis, normal, radius, np.ones_like(station)),
        count=_counts(plan, station),
        station=station,
        hand=hands(plan.braid.strands),
        axis=axis,
        normal=normal,
        packing=_packing(plan, station),
        holes=_passes(plan),
        bury=Bury(
            (plan.station_entry_host, plan.station_entry_host - plan.cover.host_length),
            (plan.station_entry_tail, plan.station_tip),
        ),
        parts=_parts(plan, station),
        seat=plan.seat,
        seat_centre=np.array([crown - plan.eye.bend_radius, 0.0, 0.0]),
    )
    share = _thin(plan, run, arc, axis, radius, thread)
    thin = _lay(plan, station, _steepened(plan, run, arc, axis, thread), normal, radius, share)
    rest = np.linalg.norm(np.diff(straight(plan.braid, station + plan.pick), axis=1), axis=2)
    return Draft(laid, thin, rest)


def with_points(laid: Strands, moved: Floats) -> Strands:
    """The same strands at other places."""
    return replace(laid, points=moved)
