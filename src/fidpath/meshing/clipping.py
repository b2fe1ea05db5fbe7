"""Free sections clipped at their neighbours: how long each ray may be, in compiled loops (the law is in `sections`)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit, jit_largest, jit_part

EXPONENT = 4.0
"""Exponent of the free section's superellipse."""

ROUNDING = 14
"""Exponent by which the free and the clipped radius are joined: a few per cent of clearance, no knife edges."""

NOTHING = 1e-16
"""What makes no difference beside 1."""

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
    axes, rays = np.stack([across, flat], axis=2), np.stack([cos, sin])
    wide, high = free.width[..., None], free.height[..., None]
    longest = 1 / ((np.abs(cos) / wide) ** EXPONENT + (np.abs(sin) / high) ** EXPONENT)
    longest = longest ** (1 / EXPONENT)
    weight = free.thickness**2 / 4
    grid = _grid(centres, count, weight[free.rope], float(free.width.max()))
    slack = int(np.ceil(SELF_REACH * float(free.thickness.max()) / _least_step(centres, count)))
    radii = np.zeros(directions.shape[:3])
    rope, heaviest = np.asarray(free.rope, dtype=np.int64), float(weight.max())
    _clip(centres, tangents, axes, rays, longest, count, rope, weight, heaviest, made, *grid, slack, radii)
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


@jit_part
def _cells(off: float, far: float, cell: float, count: int) -> tuple[int, int]:
    """The first cell along an axis within `far` of a place `off` from the grid's edge, and the one after the last."""
    after = min(int((off + far) / cell) + 1, count)
    return min(max(int((off - far) / cell), 0), after), after


@jit_part
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
    axes: Floats,
    planes: Floats,
) -> int:
    """Fill `planes` `(2, m)` with inverted points 2 (q - c)/power of lines near a section, along its `axes` `(2, 3)`.

    Gives their number. `here` is the section's strand times n plus its number there; `lead` its own weight. What is
    called in here takes no arrays: they cost more than sums.
    """
    n = centres.shape[1]
    cx, cy, cz = centres[here // n, here % n, 0], centres[here // n, here % n, 1], centres[here // n, here % n, 2]
    ux, uy, uz, vx, vy, vz = axes[0, 0], axes[0, 1], axes[0, 2], axes[1, 0], axes[1, 1], axes[1, 2]
    far, number = reach + half, 0
    down, up = _cells(cz - low[2], far, cell, shape[2])
    for x in range(*_cells(cx - low[0], far, cell, shape[0])):
        for y in range(*_cells(cy - low[1], far, cell, shape[1])):
            row = (x * shape[1] + y) * shape[2]
            for m in range(starts[row + down], starts[row + up]):
                ax, ay, az = segments[m, 0] - cx, segments[m, 1] - cy, segments[m, 2] - cz
                if ax * ax + ay * ay + az * az > (reach + np.sqrt(segments[m, 6])) ** 2:
                    continue
                dx, dy, dz, bias = segments[m, 3], segments[m, 4], segments[m, 5], lead - segments[m, 7]
                nearest = -(ax * dx + ay * dy + az * dz) / max(segments[m, 6], 1e-12)
                for which in range(_many(names[m], here, n, slack)):
                    place = _place(which, nearest)
                    px, py, pz = ax + place * dx, ay + place * dy, az + place * dz
                    square = px * px + py * py + pz * pz
                    if place >= 0.0 and square < reach * reach and number < planes.shape[1] - 2:
                        inverse = 2 / max(square + bias, 0.1 * square, 1e-9)
                        planes[0, number] = inverse * (px * ux + py * uy + pz * uz)
                        planes[1, number] = inverse * (px * vx + py * vy + pz * vz)
                        number += 1
    return number


@jit_part
def _many(name: int, here: int, n: int, slack: int) -> int:
    """How many of a segment's places a section looks at; none of what is its own rope near by.

    name: as in `_grid`: the end of a segment may be left to the next one, whose beginning it is, at the same weight.
    """
    left = name < 0
    own = -1 - name if left else name
    if own // n != here // n:
        return 3 if left else 4
    if abs(own - here) < slack:
        return 0
    return 3 if left and own - here != -slack else 4


@jit_part
def _place(which: int, nearest: float) -> float:
    """A place along a segment that is looked at: its beginning, its middle, its nearest point and its end, -1 for none.

    The nearest point may lie beyond an end; then there is none between.
    """
    if which == 2:
        return nearest if nearest <= 1.0 else -1.0
    return 1.0 if which == 3 else 0.5 * which


@jit_part
def _bisectors(
    centres: Floats, tangents: Floats, k: int, i: int, last: int, axes: Floats, planes: Floats, number: int
) -> int:
    """Add to `planes` those midway to the sections before and after; the number of planes now."""
    for j in (i - 1, i + 1):
        if 0 <= j <= last:
            ahead, across, up = 0.0, 0.0, 0.0
            for c in range(3):
                normal = tangents[k, i, c] + tangents[k, j, c]
                ahead += (centres[k, j, c] - centres[k, i, c]) * normal
                across += normal * axes[0, c]
                up += normal * axes[1, c]
            planes[0, number], planes[1, number] = 2 * across / ahead, 2 * up / ahead
            number += 1
    return number


@jit_largest
def _ahead(rays: Floats, planes: Floats, number: int, most: Floats) -> None:
    """Enters one over the way to the nearest of the planes along each ray `(2, rays)`; 0 where none lies ahead.

    None of them is NaN.
    """
    for ray in range(len(most)):
        across, up, largest = rays[0, ray], rays[1, ray], 0.0
        for m in range(number):
            ahead = across * planes[0, m] + up * planes[1, m]
            largest = ahead if ahead > largest else largest
        most[ray] = largest


@jit
def _clip(
    centres: Floats,
    tangents: Floats,
    axes: Floats,
    rays: Floats,
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

    axes: across each section and along its flat side's normal, `(strands, n, 2, 3)`; rays: along these, `(2, rays)`.
    longest: `(ropes, n, rays)` mm; rope: `(strands,)`; weight: `(ropes, n)` mm2, at most `heaviest`; made: `(n,)`.
    """
    strands, n, many = radii.shape
    planes, most = np.empty((2, 4098)), np.empty(many)
    for k in range(strands):
        for i in range(count[k]):
            if not made[i]:
                continue
            own, size = rope[k], 0.0
            for ray in range(many):
                size = max(size, longest[own, i, ray])
            reach = BEYOND * (size + np.sqrt(size * size + heaviest - weight[own, i]))
            grid = low, cell, shape, starts, names, segments, half
            number = _near(centres, k * n + i, weight[own, i], *grid, reach, slack, axes[k, i], planes)
            number = _bisectors(centres, tangents, k, i, count[k] - 1, axes[k, i], planes, number)
            _ahead(rays, planes, number, most)
            for ray in range(many):
                radii[k, i, ray] = _joined(longest[own, i, ray], most[ray])


@jit_part
def _joined(free: float, most: float) -> float:
    """A free radius joined with that up to a plane, given one over it, both to the power ROUNDING."""
    more = (free * most) ** ROUNDING
    return float(free / (1.0 + more) ** (1.0 / ROUNDING)) if more > NOTHING else free


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
