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
    shared = longest, count, np.asarray(free.rope, dtype=np.int64), free.thickness**2 / 4, made
    radii = _clip(centres, tangents, directions, *shared, *grid, slack)
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
                lead = weight[rope[k], i] - weight[rope[other], j]
                number = _invert(centres, other, j, k, i, lead, reach, found, number)
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
def _ahead(directions: Floats, planes: Floats, number: int, most: Floats) -> None:
    """Enters one over the way to the nearest of the planes along each ray, `(rays,)`; 0 where none lies ahead."""
    most[:] = 0.0
    x, y, z = directions[:, 0].copy(), directions[:, 1].copy(), directions[:, 2].copy()
    for m in range(number):
        fx, fy, fz = planes[m]
        for ray in range(len(most)):
            ahead = x[ray] * fx + y[ray] * fy + z[ray] * fz
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
) -> Floats:
    """Ray lengths: the free section's joined with the nearest bisector's, `(strands, n, rays)` mm.

    longest: `(ropes, n, rays)` mm; rope: `(strands,)`; weight: `(ropes, n)` mm2; made: `(n,)`.
    """
    strands, n, rays = directions.shape[:3]
    radii = np.zeros((strands, n, rays))
    found, most = np.zeros((4096, 3)), np.zeros(rays)
    heaviest = weight.max()
    for k in range(strands):
        for i in range(count[k]):
            if not made[i]:
                continue
            own = longest[rope[k], i]
            size = own.max()
            reach = BEYOND * (size + np.sqrt(size * size + heaviest - weight[rope[k], i]))
            number = _near(centres, rope, weight, k, i, low, cell, shape, starts, order, reach, slack, found)
            for j in (i - 1, i + 1):
                if 0 <= j < count[k]:
                    normal = tangents[k, i] + tangents[k, j]
                    ahead = ((centres[k, j] - centres[k, i]) * normal).sum() / 2
                    found[number] = normal / ahead
                    number += 1
            _ahead(directions[k, i], found, number, most)
            for ray in range(rays):
                free = own[ray]
                radii[k, i, ray] = free / (1.0 + (free * most[ray]) ** ROUNDING) ** (1.0 / ROUNDING)
    return radii


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
