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

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Strands, padded
from fidpath.machine.compiled import jit, jit_part
from fidpath.meshing.clearance import stop_at_bodies
from fidpath.meshing.clipping import FreeSections, clipped, evened

HALF_WIDTH = 1.25
"""Half-width of the free section in strand thicknesses (measured in trials; reads as rope)."""

HALF_HEIGHT = 0.62
"""Half-height of the free section in strand thicknesses."""

SPREAD = 1.6
"""How much wider the free section becomes, at most, where the rope is swollen."""

SPACING = 0.44
"""Greatest spacing of sections along the rope, in strand thicknesses: wider, and facets cut into neighbours."""

INSET = 0.97
"""Share of the clipped radius that is drawn: room for the flat facets between sections (measured: 2 % is enough for
over-two at two sections a step, 3 % for over-one)."""

TURN = 1.0
"""Length in strand thicknesses over which a section's flat side follows the rope's radial direction."""


@dataclass(frozen=True)
class Sections:
    """Drawn sections of every strand.

    rings: `(strands, n, rays, 3) float` mm, counter-clockwise seen against the strand's direction.
    centres, tangents: `(strands, n, 3) float`, the sections' middles and the strand's direction.
    count, rope: `(strands,) int`, live sections of each strand, and which rope it belongs to.
    stations: of each rope, `(n,) float` mm on it, as many as it has sections.
    thicknesses: of each rope, `(n,) float` mm, its strands' thickness at each station.
    """

    rings: Floats
    centres: Floats
    tangents: Floats
    count: Ints
    rope: Ints
    stations: tuple[Floats, ...]
    thicknesses: tuple[Floats, ...]

    @property
    def station(self) -> Floats:
        """The only rope's stations, `(n,) float` mm. Raises ValueError where there are several ropes."""
        (station,) = self.stations
        return station

    @property
    def thickness(self) -> Floats:
        """Thickness of the only rope's strands at each station, `(n,) float` mm."""
        (thickness,) = self.thicknesses
        return thickness

    def members(self, rope: int) -> Ints:
        """Numbers of a rope's strands, `(strands,) int`."""
        return np.flatnonzero(self.rope == rope)


def sections_of(strands: Strands, rays: int = 24, refine: int | None = None, wanted: Bools | None = None) -> Sections:
    """Sections of all strands, `refine` of them to each of the centre lines' steps; by default as SPACING asks.

    `wanted`: `(n,) bool`, the columns to make sections at; others get rings without size. All by default.
    """
    if refine is None:
        refine = max(1, *(int(np.ceil(rope.step / (SPACING * rope.braid.thickness))) for rope in strands.ropes))
    ropes = [_rope_sections(strands.alone(rope), refine) for rope in range(len(strands.ropes))]
    n = (strands.points.shape[1] - 1) * refine + 1
    centres = _joined([rope.centres for rope in ropes], n)
    tangents, flat = _joined([rope.tangents for rope in ropes], n), _joined([rope.flat for rope in ropes], n)
    count = np.concatenate([rope.count for rope in ropes])
    free = FreeSections(
        width=_joined([rope.width[None] for rope in ropes], n),
        height=_joined([rope.height[None] for rope in ropes], n),
        thickness=_joined([rope.thickness[None] for rope in ropes], n),
        angles=_ray_angles(rays),
        rope=strands.rope,
    )
    radii, directions = clipped(centres, tangents, flat, count, free, _made(n, wanted, refine))
    radii = INSET * evened(radii, count)
    stop_at_bodies(strands, centres, directions, radii, count)
    rings = centres[:, :, None, :] + radii[..., None] * directions
    stations, thicknesses = tuple(rope.station for rope in ropes), tuple(rope.thickness for rope in ropes)
    return Sections(rings, centres, tangents, count, strands.rope, stations, thicknesses)


def thinned(sections: Sections, step: int, ray: int) -> Sections:
    """Every `step`th of the sections and of each every `ray`th ray; `step` divides the number of steps between them."""
    return Sections(
        rings=np.ascontiguousarray(sections.rings[:, ::step, ::ray]),
        centres=np.ascontiguousarray(sections.centres[:, ::step]),
        tangents=np.ascontiguousarray(sections.tangents[:, ::step]),
        count=(sections.count - 1) // step + 1,
        rope=sections.rope,
        stations=tuple(station[::step] for station in sections.stations),
        thicknesses=tuple(thickness[::step] for thickness in sections.thicknesses),
    )


def _joined(ropes: Sequence[Floats], n: int) -> Floats:
    """Values by section of all ropes, `(rows, m, ...)` each, as one table of n columns."""
    return np.concatenate([padded(rows, n) for rows in ropes])


def _made(n: int, wanted: Bools | None, refine: int) -> Bools:
    """At which of n sections along a strand rings are made, `(n,)`."""
    if wanted is None:
        return np.ones(n, dtype=bool)
    share = np.interp(np.arange(n) / refine, np.arange(len(wanted)), wanted.astype(float))
    return np.asarray(share > 0.5)


@dataclass(frozen=True)
class _RopeSections:
    """One rope's sections before they are drawn.

    centres, tangents, flat: `(strands, n, 3)`, the last across the flat side; count: `(strands,)`.
    station, thickness, width, height: `(n,)` mm; the last two are the free section's half sizes.
    """

    centres: Floats
    tangents: Floats
    flat: Floats
    count: Ints
    station: Floats
    thickness: Floats
    width: Floats
    height: Floats


def _rope_sections(strands: Strands, refine: int) -> _RopeSections:
    """The sections of a model's only rope, `refine` to each of its steps."""
    station = refined_station(strands.station, refine)
    thickness = np.interp(station, strands.station, strands.thickness)
    count = np.asarray((strands.count - 1) * refine + 1, dtype=np.int64)
    centres = refined(np.ascontiguousarray(strands.points), np.asarray(strands.count, dtype=np.int64), refine)
    tangents = _tangents(centres, count)
    axis, radius = middle(centres, count)
    flat = np.zeros_like(centres)
    _flat_sides(centres, tangents, axis, count, TURN * strands.braid.thickness, flat)
    width = HALF_WIDTH * thickness * spread(radius, station, strands.braid.diameter)
    return _RopeSections(centres, tangents, flat, count, station, thickness, width, HALF_HEIGHT * thickness)


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


@jit_part
def _carry_flat_sides(
    centres: Floats, tangents: Floats, axis: Floats, k: int, count: int, way: int, turn: float, out: Floats
) -> None:
    """Adds to `out` the direction of strand k's flat side, carried along it one way (1) or the other (-1)."""
    first = 0 if way == 1 else count - 1
    hx, hy, hz = 0.0, 0.0, 0.0
    for m in range(count):
        i = first + way * m
        before = max(min(i - way, count - 1), 0)
        tx, ty, tz = tangents[k, i, 0], tangents[k, i, 1], tangents[k, i, 2]
        cx, cy, cz = centres[k, i, 0], centres[k, i, 1], centres[k, i, 2]
        ax, ay, az = cx - axis[i, 0], cy - axis[i, 1], cz - axis[i, 2]
        along = ax * tx + ay * ty + az * tz
        ax, ay, az = ax - along * tx, ay - along * ty, az - along * tz
        sx, sy, sz = cx - centres[k, before, 0], cy - centres[k, before, 1], cz - centres[k, before, 2]
        share = min(np.sqrt(sx * sx + sy * sy + sz * sz) / turn, 1.0)
        along = hx * tx + hy * ty + hz * tz
        hx, hy, hz = hx - along * tx, hy - along * ty, hz - along * tz
        size = max(np.sqrt(hx * hx + hy * hy + hz * hz), 1e-9)
        hx = hx * (1 - share) / size + ax * share / turn
        hy = hy * (1 - share) / size + ay * share / turn
        hz = hz * (1 - share) / size + az * share / turn
        out[k, i, 0] += hx
        out[k, i, 1] += hy
        out[k, i, 2] += hz


@jit
def _flat_sides(centres: Floats, tangents: Floats, axis: Floats, count: Ints, turn: float, out: Floats) -> None:
    """Enters the direction across the flat side of every section `(strands, n, 3)`: the rope's radial one, evened out.

    Run along each strand both ways, carrying the last direction on: where the radial one is short (a strand
    on the axis of a thinned tail) the carried one rules. Scalars throughout: array operations take seconds to compile.
    """
    for k in range(centres.shape[0]):
        _carry_flat_sides(centres, tangents, axis, k, count[k], 1, turn, out)
        _carry_flat_sides(centres, tangents, axis, k, count[k], -1, turn, out)
        for i in range(count[k]):
            tx, ty, tz = tangents[k, i, 0], tangents[k, i, 1], tangents[k, i, 2]
            along = out[k, i, 0] * tx + out[k, i, 1] * ty + out[k, i, 2] * tz
            x, y, z = out[k, i, 0] - along * tx, out[k, i, 1] - along * ty, out[k, i, 2] - along * tz
            length = np.sqrt(x * x + y * y + z * z)
            if length < 1e-9:
                x, y, z = (-ty, tx, 0.0) if abs(tz) < 0.9 else (0.0, -tz, ty)
                length = np.sqrt(x * x + y * y + z * z)
            out[k, i, 0], out[k, i, 1], out[k, i, 2] = x / length, y / length, z / length
