"""Drawn sections of strands: flattened, and clipped so that no two drawn strands overlap.

A strand's free section is a superellipse with its flat side toward the rope's own axis, wider where the rope
is swollen. Each of its rays, from the centre line outward, ends at the latest where another centre line is as
near as its own: the tip x = c + r e of a ray of a strand s thick has no more power with respect to a point q of
a strand t thick than to c as long as

    1/r >= 2 e.(q - c)/(|q - c|^2 + s^2/4 - t^2/4),

so a strand stays in its own share of space (its cell of the power diagram; touching round strands meet where
they touch), whatever its neighbours do. The planes midway between consecutive sections, which keep sections from
crossing on a bend, take the same form. Last, rays end at the terminator's surface. Every step only shortens
rays: nothing has to converge.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry.strands import Strands
from fidpath.machine.compiled import jit
from fidpath.meshing.clearance import stop_at_bodies

HALF_WIDTH = 1.25
"""Half-width of the free section in strand thicknesses (measured in trials; reads as rope)."""

HALF_HEIGHT = 0.62
"""Half-height of the free section in strand thicknesses."""

EXPONENT = 4.0
"""Exponent of the free section's superellipse."""

SPREAD = 1.6
"""How much wider the free section becomes, at most, where the rope is swollen."""

ROUNDING = 14.0
"""Exponent by which the free and the clipped radius are joined: a few per cent of clearance, no knife edges."""

SPACING = 0.44
"""Greatest spacing of sections along the rope, in strand thicknesses: wider, and facets cut into neighbours."""

INSET = 0.97
"""Share of the clipped radius that is drawn: room for the flat facets between sections (measured: 2 % is enough for
over-two at two sections a step, 3 % for over-one)."""

BEYOND = 1.2
"""How far beyond the free section's reach neighbours are looked for: the joined radius feels them a little earlier."""

SELF_REACH = 4.0
"""A strand's own rope counts as a neighbour beyond this many thicknesses along itself."""

TURN = 1.0
"""Length in strand thicknesses over which a section's flat side follows the rope's radial direction."""


@dataclass(frozen=True)
class Sections:
    """Drawn sections of every strand.

    rings: `(strands, n, rays, 3) float` mm, counter-clockwise seen against the strand's direction.
    centres, tangents: `(strands, n, 3) float`, the sections' middles and the strand's direction.
    count: `(strands,) int`, live sections of each strand; station: `(n,) float` mm on the rope.
    thickness: `(n,) float` mm, strand thickness at each station.
    """

    rings: Floats
    centres: Floats
    tangents: Floats
    count: Ints
    station: Floats
    thickness: Floats


def sections_of(strands: Strands, rays: int = 24, refine: int | None = None, wanted: Bools | None = None) -> Sections:
    """Sections of all strands, `refine` of them to each of the centre lines' steps; by default as SPACING asks.

    `wanted`: `(n,) bool`, the columns to make sections at; others get rings without size. All by default.
    """
    if refine is None:
        step = float(np.diff(strands.station[:2])[0])
        refine = max(1, int(np.ceil(step / (SPACING * strands.braid.thickness))))
    station = refined_station(strands.station, refine)
    thickness = np.interp(station, strands.station, strands.thickness)
    count = np.asarray((strands.count - 1) * refine + 1, dtype=np.int64)
    centres = refined(np.ascontiguousarray(strands.points), np.asarray(strands.count, dtype=np.int64), refine)
    tangents = _tangents(centres, count)
    axis, radius = middle(centres, count)
    flat = _flat_sides(centres, tangents, axis, count, TURN * strands.braid.thickness)
    width = HALF_WIDTH * thickness * spread(radius, station, strands.braid.diameter)
    free = _Free(width, HALF_HEIGHT * thickness, _ray_angles(rays))
    chosen = np.ones(len(strands.station)) if wanted is None else wanted.astype(float)
    made = np.interp(station, strands.station, chosen) > 0.5
    radii, directions = _clipped(centres, tangents, flat, count, free, thickness, made)
    radii = INSET * _smoothed(radii, count)
    stop_at_bodies(strands, centres, directions, radii, count)
    rings = centres[:, :, None, :] + radii[..., None] * directions
    return Sections(rings, centres, tangents, count, station, thickness)


@dataclass(frozen=True)
class _Free:
    """Free section: half-width and half-height `(n,)` mm at each station, ray angles `(rays,)` radians."""

    width: Floats
    height: Floats
    angles: Floats


def _ray_angles(rays: int) -> Floats:
    """Angles in the section's plane, closer together at its narrow sides."""
    place = 2 * np.pi * np.arange(rays) / rays
    return np.arctan2(HALF_HEIGHT * np.sin(place), HALF_WIDTH * np.cos(place))


def refined_station(station: Floats, refine: int) -> Floats:
    """Stations with `refine` steps in place of each one, `((n - 1) refine + 1,) float`."""
    place = np.arange((len(station) - 1) * refine + 1) / refine
    return np.interp(place, np.arange(len(station)), station)


def refined(points: Floats, count: Ints, refine: int) -> Floats:
    """Centre lines `(strands, n, 3)` with each step cut into `refine`, on a cubic through the nodes (Catmull-Rom)."""
    if refine == 1:
        return points
    live = [_cubic(points[k, : count[k]], refine) for k in range(len(points))]
    out = np.zeros((len(points), (points.shape[1] - 1) * refine + 1, 3))
    for k, line in enumerate(live):
        out[k, : len(line)] = line
        out[k, len(line) :] = line[-1]
    return out


def _cubic(line: Floats, refine: int) -> Floats:
    """One line `(n, 3)` refined; its end tangents point at the neighbouring nodes."""
    padded = np.concatenate([[2 * line[0] - line[1]], line, [2 * line[-1] - line[-2]]])
    a, b, c, d = padded[:-3], padded[1:-2], padded[2:-1], padded[3:]
    out = np.empty(((len(line) - 1) * refine + 1, 3))
    out[::refine] = line
    for step in range(1, refine):
        t = step / refine
        weights = (-t + 2 * t**2 - t**3, 2 - 5 * t**2 + 3 * t**3, t + 4 * t**2 - 3 * t**3, t**3 - t**2)
        out[step::refine] = (weights[0] * a + weights[1] * b + weights[2] * c + weights[3] * d) / 2
    return out


def middle(centres: Floats, count: Ints) -> tuple[Floats, Floats]:
    """Mean of the live strands at each station `(n, 3)` and their mean distance from it `(n,)`, mm."""
    live = (np.arange(centres.shape[1])[None, :] < count[:, None])[..., None]
    number = np.maximum(live.sum(axis=0), 1)
    axis = (centres * live).sum(axis=0) / number
    away = np.linalg.norm(centres - axis, axis=2) * live[..., 0]
    return axis, away.sum(axis=0) / number[:, 0]


def spread(radius: Floats, station: Floats, diameter: float) -> Floats:
    """How much wider than in plain rope the free section is, `(n,) float` from 1 to SPREAD.

    A swollen rope's strands stand further apart and lie flatter; they take what room they get.
    """
    plain = float(np.median(radius[: max(3, len(radius) // 50)]))
    ratio = np.clip(radius / plain, 1.0, SPREAD)
    step = (station[-1] - station[0]) / max(len(station) - 1, 1)
    half = min(max(int(diameter / 2 / step), 1), (len(ratio) - 1) // 2)
    padded = np.pad(ratio, half, mode="edge")
    return np.convolve(padded, np.full(2 * half + 1, 1 / (2 * half + 1)), mode="valid")


def _tangents(centres: Floats, count: Ints) -> Floats:
    """Unit directions of the centre lines, `(strands, n, 3)`, by central differences; 0 where there is no strand."""
    step = np.zeros_like(centres)
    step[:, 1:-1] = centres[:, 2:] - centres[:, :-2]
    step[:, 0] = centres[:, 1] - centres[:, 0]
    each, last = np.arange(len(centres)), count - 1
    step[each, last] = centres[each, last] - centres[each, last - 1]
    live = np.arange(centres.shape[1])[None, :] < count[:, None]
    size = np.maximum(np.linalg.norm(step, axis=2), 1e-12)
    return np.where(live[..., None], step / size[..., None], 0.0)


@jit
def _flat_sides(centres: Floats, tangents: Floats, axis: Floats, count: Ints, turn: float) -> Floats:
    """Direction across the flat side of every section `(strands, n, 3)`: the rope's radial one, evened out.

    Run along each strand both ways, carrying the last direction on: where the radial one is short (a strand
    on the axis of a thinned tail) the carried one rules.
    """
    out = np.zeros_like(centres)
    for k in range(centres.shape[0]):
        for way in (1, -1):
            first = 0 if way == 1 else count[k] - 1
            held = np.zeros(3)
            for m in range(count[k]):
                i = first + way * m
                t = tangents[k, i]
                away = centres[k, i] - axis[i]
                away = away - (away * t).sum() * t
                step = centres[k, i] - centres[k, max(min(i - way, count[k] - 1), 0)]
                share = min(np.sqrt((step * step).sum()) / turn, 1.0)
                held = held - (held * t).sum() * t
                held = held * (1 - share) / max(np.sqrt((held * held).sum()), 1e-9) + away * share / turn
                out[k, i] += held
        for i in range(count[k]):
            t = tangents[k, i]
            v = out[k, i] - (out[k, i] * t).sum() * t
            length = np.sqrt((v * v).sum())
            if length < 1e-9:
                v = np.array([-t[1], t[0], 0.0]) if abs(t[2]) < 0.9 else np.array([0.0, -t[2], t[1]])
                length = np.sqrt((v * v).sum())
            out[k, i] = v / length
    return out


def _clipped(
    centres: Floats,
    tangents: Floats,
    flat: Floats,
    count: Ints,
    free: _Free,
    thickness: Floats,
    made: Bools,
) -> tuple[Floats, Floats]:
    """Ray lengths `(strands, n, rays)` mm after clipping at neighbours, and ray directions `(.., 3)`."""
    across = np.cross(flat, tangents)
    cos, sin = np.cos(free.angles), np.sin(free.angles)
    directions = cos[:, None] * across[:, :, None, :] + sin[:, None] * flat[:, :, None, :]
    longest = 1 / ((np.abs(cos) / free.width[:, None]) ** EXPONENT + (np.abs(sin) / free.height[:, None]) ** EXPONENT)
    longest = longest ** (1 / EXPONENT)
    reach = 2 * float(free.width.max())
    grid = _grid(centres, count, reach)
    slack = int(np.ceil(SELF_REACH * float(thickness.max()) / _least_step(centres, count)))
    radii = _clip(centres, tangents, directions, longest, count, thickness**2 / 4, made, *grid, slack)
    return radii, directions


def _least_step(centres: Floats, count: Ints) -> float:
    steps = np.linalg.norm(np.diff(centres, axis=1), axis=2)
    live = np.arange(steps.shape[1])[None, :] < (count - 1)[:, None]
    return float(np.median(steps[live]))


def _grid(centres: Floats, count: Ints, reach: float) -> tuple[Floats, float, Ints, Ints, Ints]:
    """Cells for finding segments near a point: `(low, cell, shape, starts, order)`; segments by their middles."""
    strands, n = centres.shape[:2]
    live = (np.arange(n - 1)[None, :] < (count - 1)[:, None]).ravel()
    middles = ((centres[:, 1:] + centres[:, :-1]) / 2).reshape(-1, 3)[live]
    names = (np.arange(strands)[:, None] * n + np.arange(n - 1)[None, :]).ravel()[live]
    low = middles.min(axis=0)
    cell = max(reach * 1.15, float((np.ptp(middles, axis=0) + reach).prod() / 4e6) ** (1 / 3))
    place = ((middles - low) / cell).astype(np.int64)
    shape = place.max(axis=0) + 1
    key = (place[:, 0] * shape[1] + place[:, 1]) * shape[2] + place[:, 2]
    order = np.argsort(key, kind="stable")
    starts = np.searchsorted(key[order], np.arange(int(shape.prod()) + 1))
    return low, cell, shape, starts.astype(np.int64), names[order].astype(np.int64)


@jit
def _near(
    centres: Floats,
    weight: Floats,
    k: int,
    i: int,
    low: Floats,
    cell: float,
    shape: Ints,
    starts: Ints,
    order: Ints,
    reach: float,
    slack: int,
    found: Floats,
) -> int:
    """Fill `found` with inverted points 2 (q - c)/power of neighbouring lines; their number."""
    n = centres.shape[1]
    c = centres[k, i]
    number = 0
    at = ((c - low) / cell).astype(np.int64)
    for x in range(max(at[0] - 1, 0), min(at[0] + 2, shape[0])):
        for y in range(max(at[1] - 1, 0), min(at[1] + 2, shape[1])):
            row = (x * shape[1] + y) * shape[2]
            first, last = max(at[2] - 1, 0), min(at[2] + 2, shape[2])
            for m in range(starts[row + first], starts[row + last]):
                other, j = order[m] // n, order[m] % n
                if other == k and abs(j - i) < slack:
                    continue
                number = _invert(centres, other, j, k, i, weight[i] - weight[j], reach, found, number)
    return number


@jit
def _invert(
    centres: Floats, other: int, j: int, k: int, i: int, lead: float, reach: float, found: Floats, number: int
) -> int:
    """Inverted images of a segment's ends, of its middle and, where that lies between, of its nearest point."""
    ax, dx = centres[other, j, 0] - centres[k, i, 0], centres[other, j + 1, 0] - centres[other, j, 0]
    ay, dy = centres[other, j, 1] - centres[k, i, 1], centres[other, j + 1, 1] - centres[other, j, 1]
    az, dz = centres[other, j, 2] - centres[k, i, 2], centres[other, j + 1, 2] - centres[other, j, 2]
    length = dx * dx + dy * dy + dz * dz
    if ax * ax + ay * ay + az * az > (reach + np.sqrt(length)) ** 2:
        return number
    nearest = -(ax * dx + ay * dy + az * dz) / max(length, 1e-12)
    for place in (0.0, 0.5, 1.0, nearest):
        if not 0.0 <= place <= 1.0:
            continue
        x, y, z = ax + place * dx, ay + place * dy, az + place * dz
        square = x * x + y * y + z * z
        if square < reach * reach and number < len(found):
            power = max(square + lead, 0.1 * square, 1e-9)
            found[number, 0], found[number, 1], found[number, 2] = 2 * x / power, 2 * y / power, 2 * z / power
            number += 1
    return number


@jit
def _clip(
    centres: Floats,
    tangents: Floats,
    directions: Floats,
    longest: Floats,
    count: Ints,
    weight: Floats,
    made: Bools,
    low: Floats,
    cell: float,
    shape: Ints,
    starts: Ints,
    order: Ints,
    slack: int,
) -> Floats:
    """Ray lengths: the free section's joined with the nearest bisector's, `(strands, n, rays)` mm."""
    strands, n, rays = directions.shape[:3]
    radii = np.zeros((strands, n, rays))
    found, most = np.zeros((4096, 3)), np.zeros(rays)
    heaviest = weight.max()
    for k in range(strands):
        for i in range(count[k]):
            if not made[i]:
                continue
            size = longest[i].max()
            reach = BEYOND * (size + np.sqrt(size * size + heaviest - weight[i]))
            number = _near(centres, weight, k, i, low, cell, shape, starts, order, reach, slack, found)
            for j in (i - 1, i + 1):
                if 0 <= j < count[k]:
                    normal = tangents[k, i] + tangents[k, j]
                    ahead = ((centres[k, j] - centres[k, i]) * normal).sum() / 2
                    found[number] = normal / ahead
                    number += 1
            most[:] = 0.0
            x, y, z = directions[k, i, :, 0].copy(), directions[k, i, :, 1].copy(), directions[k, i, :, 2].copy()
            for m in range(number):
                fx, fy, fz = found[m]
                for ray in range(rays):
                    ahead = x[ray] * fx + y[ray] * fy + z[ray] * fz
                    most[ray] = ahead if ahead > most[ray] else most[ray]
            for ray in range(rays):
                free = longest[i, ray]
                radii[k, i, ray] = free / (1.0 + (free * most[ray]) ** ROUNDING) ** (1.0 / ROUNDING)
    return radii


@jit
def _smoothed(radii: Floats, count: Ints) -> Floats:
    """Ray lengths evened out along the strand, inward only: no ray grows, so nothing can come to overlap."""
    out = radii.copy()
    for k in range(radii.shape[0]):
        for i in range(1, count[k] - 1):
            for ray in range(radii.shape[2]):
                even = (radii[k, i - 1, ray] + 2 * radii[k, i, ray] + radii[k, i + 1, ray]) / 4
                out[k, i, ray] = min(radii[k, i, ray], even)
    return out
