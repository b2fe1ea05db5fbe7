"""Compiled loops of the settling: neighbours by cell grid, segment contact, the sweep and its guard.

Nodes are one flat list `(m, 3)`; strand k owns nodes start[k] to start[k + 1] - 1. Segment i runs from node i to
node i + 1 and is void where i ends a strand.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit


@jit
def closest(p: Floats, q: Floats, r: Floats, s: Floats) -> tuple[float, float, float]:
    """Nearest points of segments pq and rs: their shares along each, and the squared distance."""
    ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    vx, vy, vz = s[0] - r[0], s[1] - r[1], s[2] - r[2]
    wx, wy, wz = p[0] - r[0], p[1] - r[1], p[2] - r[2]
    a = ux * ux + uy * uy + uz * uz
    b = ux * vx + uy * vy + uz * vz
    c = vx * vx + vy * vy + vz * vz
    d = ux * wx + uy * wy + uz * wz
    e = vx * wx + vy * wy + vz * wz
    det = a * c - b * b
    x = 0.0
    if det > 1e-12 * a * c:
        x = min(max((b * e - c * d) / det, 0.0), 1.0)
    y = (b * x + e) / c
    if y < 0.0:
        y = 0.0
        x = min(max(-d / a, 0.0), 1.0)
    elif y > 1.0:
        y = 1.0
        x = min(max((b - d) / a, 0.0), 1.0)
    gx = wx + x * ux - y * vx
    gy = wy + x * uy - y * vy
    gz = wz + x * uz - y * vz
    return x, y, gx * gx + gy * gy + gz * gz


@jit
def _fill_cells(where: Ints, strand: Ints, first: Ints, filled: Ints, order: Ints) -> None:
    """Counting sort of live segments by cell: `order[first[c]:first[c + 1]]` are those of cell c."""
    for i in range(len(where)):
        if strand[i] >= 0:
            first[where[i] + 1] += 1
    for c in range(len(first) - 1):
        first[c + 1] += first[c]
        filled[c] = first[c]
    for i in range(len(where)):
        if strand[i] >= 0:
            order[filled[where[i]]] = i
            filled[where[i]] += 1


@jit
def _list_pairs(
    x: Floats,
    strand: Ints,
    column: Ints,
    gap: Ints,
    thick: Floats,
    room: float,
    where: Ints,
    middle: Floats,
    half: Floats,
    first: Ints,
    order: Ints,
    across: int,
    deep: int,
    pairs: Ints,
) -> int:
    """Writes near pairs into `pairs` as far as it goes; returns how many there are."""
    count = 0
    for i in range(len(where)):
        if strand[i] < 0:
            continue
        for da in range(-1, 2):
            for db in range(-1, 2):
                row = where[i] + (da * across + db) * deep
                for k in range(first[row - 1], first[row + 2]):
                    j = order[k]
                    if j <= i or (strand[j] == strand[i] and abs(column[j] - column[i]) <= gap[i]):
                        continue
                    reach = 0.5 * (thick[i] + thick[j]) + room
                    far = reach + half[i] + half[j]
                    dx, dy = middle[i, 0] - middle[j, 0], middle[i, 1] - middle[j, 1]
                    dz = middle[i, 2] - middle[j, 2]
                    if dx * dx + dy * dy + dz * dz > far * far:
                        continue
                    _, _, squared = closest(x[i], x[i + 1], x[j], x[j + 1])
                    if squared > reach * reach:
                        continue
                    if count < len(pairs):
                        pairs[count, 0] = i
                        pairs[count, 1] = j
                    count += 1
    return count


def neighbours(x: Floats, strand: Ints, column: Ints, gap: Ints, thick: Floats, room: float) -> Ints:
    """Pairs of segments nearer than their mean thickness plus `room`: `(pairs, 2) int`.

    `strand` and `column` are per node; strand is -1 for the void segment after a strand's last node. Segments of one
    strand are neighbours only where they are more than `gap` `(m,)` columns apart.
    """
    live = strand[:-1] >= 0
    middle = (x[1:] + x[:-1]) / 2
    half = np.where(live, np.linalg.norm(x[1:] - x[:-1], axis=1) / 2, 0.0)
    cell = float(thick.max()) + room + 2 * float(half.max())
    low = x.min(axis=0) - 1.5 * cell
    size = ((x.max(axis=0) + 1.5 * cell - low) / cell).astype(np.int64) + 1
    place = ((middle - low) / cell).astype(np.int64)
    where = (place[:, 0] * size[1] + place[:, 1]) * size[2] + place[:, 2]
    first = np.zeros(int(size.prod()) + 1, np.int64)
    order = np.empty(int(live.sum()), np.int64)
    _fill_cells(where, strand, first, first.copy(), order)
    pairs = np.empty((16 * len(x), 2), np.int64)
    grid = (where, middle, half, first, order, int(size[1]), int(size[2]))
    count = _list_pairs(x, strand, column, gap, thick, room, *grid, pairs)
    if count > len(pairs):
        pairs = np.empty((count, 2), np.int64)
        _list_pairs(x, strand, column, gap, thick, room, *grid, pairs)
    return pairs[:count]


@jit
def near_pairs(
    x: Floats, pairs: Ints, thick: Floats, margin: float, apart_until: Floats, closed: float, active: Ints, out: Floats
) -> int:
    """Lists in `active` the pairs that could touch in this sweep and returns their number.

    `closed` is the most by which any gap can have closed since the pairs were listed. A pair is looked at only where
    its gap can be below `margin`: where `apart_until` `(pairs,)`, its gap when last looked at plus `closed` then, says
    so. -inf there stands for a pair not yet looked at.
    `out[0]` takes the least distance of any such pair (1e300 if there is none), `out[1]` the worst overlap as a
    share of the pair's mean thickness.
    """
    least = 1e300
    share = 1e300
    count = 0
    near = margin + closed
    for k in range(len(pairs)):
        if apart_until[k] > near:
            continue
        i, j = pairs[k, 0], pairs[k, 1]
        _, _, squared = closest(x[i], x[i + 1], x[j], x[j + 1])
        own = 0.5 * (thick[i] + thick[j])
        apart_until[k] = np.sqrt(squared) - own + closed
        if squared < (own + margin) ** 2:
            active[count] = k
            count += 1
            least = min(least, squared)
            share = min(share, squared / (own * own))
    out[0] = np.sqrt(least)
    out[1] = 1.0 - np.sqrt(share)
    return count


@jit
def push_apart(x: Floats, pairs: Ints, active: Ints, count: int, thick: Floats) -> None:
    """Moves touching segments apart to their mean thickness, one pair after another."""
    for m in range(count):
        i, j = pairs[active[m], 0], pairs[active[m], 1]
        a, b, squared = closest(x[i], x[i + 1], x[j], x[j + 1])
        thickness = 0.5 * (thick[i] + thick[j])
        if squared >= thickness * thickness or squared < 1e-18:
            continue
        distance = np.sqrt(squared)
        weight = (1 - a) ** 2 + a**2 + (1 - b) ** 2 + b**2
        push = (thickness - distance) / (distance * weight)
        for c in range(3):
            g = push * (x[i, c] + a * (x[i + 1, c] - x[i, c]) - x[j, c] - b * (x[j + 1, c] - x[j, c]))
            x[i, c] += (1 - a) * g
            x[i + 1, c] += a * g
            x[j, c] -= (1 - b) * g
            x[j + 1, c] -= b * g


@jit
def relax(x: Floats, laid: Floats, start: Ints, rest: Floats, firmness: float, held: int) -> None:
    """Smooths each strand's displacement from `laid` by `firmness`, then restores the strand's own lengths."""
    for k in range(len(start) - 1):
        first, last = start[k], start[k + 1] - 1
        for i in range(first + held, last + 1):
            up = i + 1 if i < last else i - 1
            for c in range(3):
                side = 0.5 * (x[i - 1, c] - laid[i - 1, c] + x[up, c] - laid[up, c])
                x[i, c] += firmness * (side - x[i, c] + laid[i, c])
        for i in range(first, last):
            dx, dy, dz = x[i + 1, 0] - x[i, 0], x[i + 1, 1] - x[i, 1], x[i + 1, 2] - x[i, 2]
            length = np.sqrt(dx * dx + dy * dy + dz * dz)
            low = 0.0 if i < first + held else 0.5
            share = (length - rest[i]) / length
            x[i, 0] += low * share * dx
            x[i, 1] += low * share * dy
            x[i, 2] += low * share * dz
            x[i + 1, 0] -= (1 - low) * share * dx
            x[i + 1, 1] -= (1 - low) * share * dy
            x[i + 1, 2] -= (1 - low) * share * dz


@jit
def keep_out(x: Floats, seat: Floats, centre: Floats, thick: Floats) -> None:
    """Moves nodes out of the terminator, to half their thickness from its surface.

    `seat`: crown, nose, reach, groove, lip, half width.
    """
    crown, nose, reach, groove, lip, half_width = seat[0], seat[1], seat[2], seat[3], seat[4], seat[5]
    sin = (crown - nose) / reach if reach > 0 else 0.0
    tan = sin / np.sqrt(1 - sin * sin)
    for i in range(len(x)):
        margin = 0.5 * thick[i]
        far = crown + reach + nose + lip + groove + margin
        px, py, pz = x[i, 0] - centre[0], x[i, 1] - centre[1], x[i, 2] - centre[2]
        if abs(pz) > half_width + margin or abs(px) > far or abs(py) > far:
            continue
        place = min(max(-px - abs(py) * tan, 0.0), reach)
        tx, ty = px + place, py
        length = max(np.sqrt(tx * tx + ty * ty), 1e-12)
        tx, ty = tx / length, ty / length
        distance = length - (crown - place * sin)
        over, beside = distance - lip, abs(pz) - half_width
        outside = np.sqrt(max(over, 0.0) ** 2 + max(beside, 0.0) ** 2) + min(max(over, beside), 0.0)
        clear = outside
        if groove > 0:
            clear = max(outside, groove - np.sqrt((distance - groove) ** 2 + pz * pz))
        short = margin - clear
        if short <= 0:
            continue
        radial, up = 1.0, 0.0
        if groove > 0 and distance < groove:
            norm = np.sqrt((groove - distance) ** 2 + pz * pz)
            if norm > 1e-9:
                radial, up = (groove - distance) / norm, -pz / norm
        x[i, 0] += short * radial * tx
        x[i, 1] += short * radial * ty
        x[i, 2] += short * up


@jit
def keep_out_of_rods(x: Floats, rods: Floats, thick: Floats, grown: float) -> None:
    """Moves nodes out of round rods (see `rods.table`), their radii at `grown` of their own, by half a thickness."""
    for m in range(len(rods)):
        ax, ay, az = rods[m, 3], rods[m, 4], rods[m, 5]
        for i in range(len(x)):
            tx, ty, tz = x[i, 0] - rods[m, 0], x[i, 1] - rods[m, 1], x[i, 2] - rods[m, 2]
            behind = -(tx * ax + ty * ay + tz * az)
            if behind < 0 or behind > rods[m, 9]:
                continue
            ox, oy, oz = tx + behind * ax, ty + behind * ay, tz + behind * az
            out = np.sqrt(ox * ox + oy * oy + oz * oz)
            radius = min(rods[m, 6], rods[m, 7] + (rods[m, 6] - rods[m, 7]) * behind / rods[m, 8])
            short = grown * radius + 0.5 * thick[i] - out
            if short <= 0 or out < 1e-9:
                continue
            x[i, 0] += short * ox / out
            x[i, 1] += short * oy / out
            x[i, 2] += short * oz / out


@jit
def hold_back(x: Floats, before: Floats, most: float) -> float:
    """Cuts every node's move since `before` to `most`; returns the largest move made."""
    largest = 0.0
    for i in range(len(x)):
        dx, dy, dz = x[i, 0] - before[i, 0], x[i, 1] - before[i, 1], x[i, 2] - before[i, 2]
        length = np.sqrt(dx * dx + dy * dy + dz * dz)
        if length > most:
            for c in range(3):
                x[i, c] = before[i, c] + (x[i, c] - before[i, c]) * most / length
            length = most
        largest = max(largest, length)
    return largest


@jit
def worst_overlap(x: Floats, pairs: Ints, thick: Floats, apart_until: Floats, closed: float, ignore: Bools) -> float:
    """Largest overlap as a share of the pair's thickness, segments flagged in `ignore` left out.

    `apart_until` and `closed` as in `near_pairs`: pairs that can't overlap aren't looked at.
    """
    worst = 0.0
    for k in range(len(pairs)):
        i, j = pairs[k, 0], pairs[k, 1]
        if apart_until[k] > closed or ignore[i] or ignore[j]:
            continue
        _, _, squared = closest(x[i], x[i + 1], x[j], x[j + 1])
        worst = max(worst, 1 - 2 * np.sqrt(squared) / (thick[i] + thick[j]))
    return worst
