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
    weight = free.thickness**2 / 4
    grid = _grid(centres, count, weight[free.rope], float(free.width.max()))
    slack = int(np.ceil(SELF_REACH * float(free.thickness.max()) / _least_step(centres, count)))
    radii = np.zeros(directions.shape[:3])
    rope, heaviest = np.asarray(free.rope, dtype=np.int64), float(weight.max())
    _clip(centres, tangents, directions, longest, count, rope, weight, heaviest, made, *grid, slack, radii)
    return radii, directions


def _least_step(centres: Floats, count: Ints) -> float:
    steps = np.linalg.norm(np.diff(centres, axis=1), axis=2)
    live = np.arange(steps.shape[1])[None, :] < (count - 1)[:, None]
    return float(np.median(steps[live]))


def _grid(
    centres: Floats, count: Ints, weight: Floats, size: float
) -> tuple[Floats, float, Ints, Ints, Ints, Floats, float]:
    """Segments sorted into cells of about `size` mm by their middles: low, cell, shape, starts, names, segments, half.

    names `(m,)`: strand times n plus section, and -1 - that for a segment whose end the next one has as its beginning.
    segments `(m, 8)`: beginning, step, length and weight; half: half the longest one's length.
    """
    strands, n = centres.shape[:2]
    live = np.zeros((strands, n), dtype=bool)
    live[:, :-1] = np.arange(n - 1)[None, :] < (count - 1)[:, None]
    name = np.flatnonzero(live)
    begin, step = centres[live], (np.roll(centres, -1, axis=1) - centres)[live]
    square = step[:, 0] * step[:, 0] + step[:, 1] * step[:, 1] + step[:, 2] * step[:, 2]
    segments = np.column_stack([begin, step, square, weight[live]])
    middles = begin + step / 2
    low = middles.min(axis=0)
    cell = max(size, float((np.ptp(middles, axis=0) + size).prod() / 4e6) ** (1 / 3))
    place = ((middles - low) / cell).astype(np.int64)
    shape = place.max(axis=0) + 1
    key = (place[:, 0] * shape[1] + place[:, 1]) * shape[2] + place[:, 2]
    order = np.argsort(key, kind="stable")
    starts = np.searchsorted(key[order], np.arange(int(shape.prod()) + 1)).astype(np.int64)
    followed = np.append((name[1:] == name[:-1] + 1) & (segments[1:, 7] == segments[:-1, 7]), False)
    name = np.where(followed, -1 - name, name)[order].astype(np.int64)
    return low, cell, shape, starts, name, segments[order], float(np.sqrt(square.max())) / 2


@jit
def _near(
    centres: Floats,
    here: int,
    lead: float,
    low: Floats,
    cell: float,
    shape: Ints,
    starts: Ints,
    names: Ints,
    segments: Floats,
    half: float,
    reach: float,
    slack: int,
    planes: Floats,
) -> int:
    """Fill `planes` `(3, m)` with inverted points 2 (q - c)/power of lines near a section; their number.

    `here` is the section's strand times n plus its number there; `lead` its own weight.
    """
    n = centres.shape[1]
    k, i = here // n, here % n
    cx, cy, cz = centres[k, i, 0], centres[k, i, 1], centres[k, i, 2]
    far, number = reach + half, 0
    up = min(int((cz + far - low[2]) / cell) + 1, shape[2])
    down = min(max(int((cz - far - low[2]) / cell), 0), up)
    for x in range(max(int((cx - far - low[0]) / cell), 0), min(int((cx + far - low[0]) / cell) + 1, shape[0])):
        for y in range(max(int((cy - far - low[1]) / cell), 0), min(int((cy + far - low[1]) / cell) + 1, shape[1])):
            row = (x * shape[1] + y) * shape[2]
            for m in range(starts[row + down], starts[row + up]):
                ax, ay, az = segments[m, 0] - cx, segments[m, 1] - cy, segments[m, 2] - cz
                if ax * ax + ay * ay + az * az > (reach + np.sqrt(segments[m, 6])) ** 2:
                    continue
                followed = names[m] < 0
                name = -1 - names[m] if followed else names[m]
                if name // n == k:
                    if abs(name - here) < slack:
                        continue
                    followed = followed and name - here != -slack
                number = _invert(ax, ay, az, segments, m, lead, reach, followed, planes, number)
    return number


@jit
def _invert(
    ax: float,
    ay: float,
    az: float,
    segments: Floats,
    m: int,
    lead: float,
    reach: float,
    followed: bool,
    planes: Floats,
    number: int,
) -> int:
    """Add inverted images of a segment's ends, its middle and, where that lies between, its nearest point.

    (ax, ay, az): its beginning, seen from the section. The end of one that is `followed` is left to the next one, whose
    beginning it is, at the same weight.
    """
    dx, dy, dz = segments[m, 3], segments[m, 4], segments[m, 5]
    nearest = -(ax * dx + ay * dy + az * dz) / max(segments[m, 6], 1e-12)
    for which in range(4 if 0.0 <= nearest <= 1.0 else 3):
        if which == 2 and followed:
            continue
        place = nearest if which == 3 else 0.5 * which
        x, y, z = ax + place * dx, ay + place * dy, az + place * dz
        square = x * x + y * y + z * z
        if square < reach * reach and number < planes.shape[1] - 2:
            power = max(square + (lead - segments[m, 7]), 0.1 * square, 1e-9)
            planes[0, number], planes[1, number], planes[2, number] = 2 * x / power, 2 * y / power, 2 * z / power
            number += 1
    return number


@jit
def _bisectors(centres: Floats, tangents: Floats, k: int, i: int, last: int, planes: Floats, number: int) -> int:
    """Add to `planes` those midway to the sections before and after; the number of planes now."""
    for j in (i - 1, i + 1):
        if 0 <= j <= last:
            ahead = 0.0
            for c in range(3):
                planes[c, number] = tangents[k, i, c] + tangents[k, j, c]
                ahead += (centres[k, j, c] - centres[k, i, c]) * planes[c, number]
            for c in range(3):
                planes[c, number] /= ahead / 2
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
    heaviest: float,
    made: Bools,
    low: Floats,
    cell: float,
    shape: Ints,
    starts: Ints,
    names: Ints,
    segments: Floats,
    half: float,
    slack: int,
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
            grid = low, cell, shape, starts, names, segments, half
            number = _near(centres, k * n + i, weight[own, i], *grid, reach, slack, planes)
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
