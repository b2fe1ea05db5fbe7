"""Free sections clipped at their neighbours: how long each ray may be, in compiled loops (the law is in `sections`)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit

EXPONENT = 4.0
"""Exponent of the free section's superellipse."""

ROUNDING = 14.0
"""Exponent by which the free and the clipped radius are joined: a few per cent of clearance, no knife edges."""

BEYOND = 1.2
"""How far beyond the free section's reach neighbours are looked for: the joined radius feels them a little earlier."""

SELF_REACH = 4.0
"""A strand's own rope counts as a neighbour beyond this many thicknesses along itself."""


@dataclass(frozen=True)
class FreeSections:
    """Free sections: half-width, half-height and strand thickness `(ropes, n)` mm, ray angles `(rays,)` radians.

    rope: `(strands,) int`, which rope each strand belongs to.
    """

    width: Floats
    height: Floats
    thickness: Floats
    angles: Floats
    rope: Ints


def clipped(
    centres: Floats, tangents: Floats, flat: Floats, count: Ints, free: FreeSections, made: Bools
) -> tuple[Floats, Floats]:
    """Ray lengths `(strands, n, rays)` mm after clipping at neighbours, and ray directions `(.., 3)`."""
    across = np.cross(flat, tangents)
    cos, sin = np.cos(free.angles), np.sin(free.angles)
    directions = cos[:, None] * across[:, :, None, :] + sin[:, None] * flat[:, :, None, :]
    wide, high = free.width[..., None], free.height[..., None]
    longest = 1 / ((np.abs(cos) / wide) ** EXPONENT + (np.abs(sin) / high) ** EXPONENT)
    longest = longest ** (1 / EXPONENT)
    reach = 2 * float(free.width.max())
    grid = _grid(centres, count, reach)
    slack = int(np.ceil(SELF_REACH * float(free.thickness.max()) / _least_step(centres, count)))
    weight = free.thickness**2 / 4
    shared = longest, count, np.asarray(free.rope, dtype=np.int64), weight, made
    radii = np.zeros(directions.shape[:3])
    _clip(centres, tangents, directions, *shared, *grid, slack, float(weight.max()), radii)
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
    rope: Ints,
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
    planes: Floats,
) -> int:
    """Fill `planes` `(3, m)` with inverted points 2 (q - c)/power of neighbouring lines; their number.

    Of a segment near enough these are its ends, its middle and, where that lies between, its nearest point.
    """
    n = centres.shape[1]
    cx, cy, cz = centres[k, i, 0], centres[k, i, 1], centres[k, i, 2]
    number, most = 0, planes.shape[1] - 2
    square_of_reach = reach * reach
    left, front, down = int((cx - low[0]) / cell), int((cy - low[1]) / cell), int((cz - low[2]) / cell)
    for x in range(max(left - 1, 0), min(left + 2, shape[0])):
        for y in range(max(front - 1, 0), min(front + 2, shape[1])):
            row = (x * shape[1] + y) * shape[2]
            for m in range(starts[row + max(down - 1, 0)], starts[row + min(down + 2, shape[2])]):
                other, j = order[m] // n, order[m] % n
                if other == k and abs(j - i) < slack:
                    continue
                ax, ay, az = centres[other, j, 0] - cx, centres[other, j, 1] - cy, centres[other, j, 2] - cz
                dx = centres[other, j + 1, 0] - centres[other, j, 0]
                dy = centres[other, j + 1, 1] - centres[other, j, 1]
                dz = centres[other, j + 1, 2] - centres[other, j, 2]
                length = dx * dx + dy * dy + dz * dz
                if ax * ax + ay * ay + az * az > (reach + np.sqrt(length)) ** 2:
                    continue
                lead = weight[rope[k], i] - weight[rope[other], j]
                nearest = -(ax * dx + ay * dy + az * dz) / max(length, 1e-12)
                for which in range(4 if 0.0 <= nearest <= 1.0 else 3):
                    place = nearest if which == 3 else 0.5 * which
                    px, py, pz = ax + place * dx, ay + place * dy, az + place * dz
                    square = px * px + py * py + pz * pz
                    if square < square_of_reach and number < most:
                        power = max(square + lead, 0.1 * square, 1e-9)
                        planes[0, number], planes[1, number], planes[2, number] = 2 * px / power, 2 * py / power, 2 * pz / power
                        number += 1
    return number


@jit
def _bisectors(centres: Floats, tangents: Floats, k: int, i: int, last: int, planes: Floats, number: int) -> int:
    """Add to `planes` those midway to the sections before and after; the number of planes now."""
    for j in (i - 1, i + 1):
        if 0 <= j <= last:
            x, y, z = tangents[k, i, 0] + tangents[k, j, 0], tangents[k, i, 1] + tangents[k, j, 1], tangents[k, i, 2] + tangents[k, j, 2]
            ax, ay, az = centres[k, j, 0] - centres[k, i, 0], centres[k, j, 1] - centres[k, i, 1], centres[k, j, 2] - centres[k, i, 2]
            ahead = (ax * x + ay * y + az * z) / 2
            planes[0, number], planes[1, number], planes[2, number] = x / ahead, y / ahead, z / ahead
            number += 1
    return number


@jit
def _ahead(directions: Floats, planes: Floats, number: int, most: Floats) -> None:
    """Enters one over the way to the nearest of the planes along each ray `(3, rays)`; 0 where none lies ahead."""
    for ray in range(len(most)):
        most[ray] = 0.0
    for m in range(number):
        x, y, z = planes[0, m], planes[1, m], planes[2, m]
        for ray in range(len(most)):
            ahead = directions[0, ray] * x + directions[1, ray] * y + directions[2, ray] * z
            most[ray] = ahead if ahead > most[ray] else most[ray]


@jit
def _clip(
    centres: Floats,
    tangents: Floats,
    directions: Floats,
    longest: Floats,
    count: Ints,
    rope: Ints,
    weight: Floats,
    made: Bools,
    low: Floats,
    cell: float,
    shape: Ints,
    starts: Ints,
    order: Ints,
    slack: int,
    heaviest: float,
    radii: Floats,
) -> None:
    """Enter ray lengths: the free section's joined with the nearest bisector's, `(strands, n, rays)` mm.

    longest: `(ropes, n, rays)` mm; rope: `(strands,)`; weight: `(ropes, n)` mm2, at most `heaviest`; made: `(n,)`.
    """
    strands, n, rays = radii.shape
    planes, most, towards = np.empty((3, 4098)), np.empty(rays), np.empty((3, rays))
    for k in range(strands):
        for i in range(count[k]):
            if not made[i]:
                continue
            own, size = rope[k], 0.0
            for ray in range(rays):
                size = max(size, longest[own, i, ray])
                for c in range(3):
                    towards[c, ray] = directions[k, i, ray, c]
            reach = BEYOND * (size + np.sqrt(size * size + heaviest - weight[own, i]))
            number = _near(centres, rope, weight, k, i, low, cell, shape, starts, order, reach, slack, planes)
            number = _bisectors(centres, tangents, k, i, count[k] - 1, planes, number)
            _ahead(towards, planes, number, most)
            for ray in range(rays):
                free = longest[own, i, ray]
                radii[k, i, ray] = free / (1.0 + (free * most[ray]) ** ROUNDING) ** (1.0 / ROUNDING)


@jit
def evened(radii: Floats, count: Ints) -> Floats:
    """Ray lengths evened out along the strand, inward only: no ray grows, so nothing can come to overlap."""
    out = radii.copy()
    for k in range(radii.shape[0]):
        for i in range(1, count[k] - 1):
            for ray in range(radii.shape[2]):
                even = (radii[k, i - 1, ray] + 2 * radii[k, i, ray] + radii[k, i + 1, ray]) / 4
                out[k, i, ray] = min(radii[k, i, ray], even)
    return out
