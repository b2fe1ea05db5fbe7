"""Compiled loops of the settling: segment contact, the strands' own shape and lengths, bodies, the guard.

Nodes are one flat list `(m, 3)`; strand k owns nodes start[k] to start[k + 1] - 1. Segment i runs from node i to
node i + 1 and is void where i ends a strand.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.machine.compiled import jit, jit_part


@jit_part
def squared_distance(x: Floats, i: int, y: Floats, j: int) -> float:
    """Squared distance of `x[i]` and `y[j]`."""
    squared = 0.0
    for c in range(3):
        squared += (x[i, c] - y[j, c]) ** 2
    return squared


@jit
def closest(x: Floats, i: int, j: int) -> tuple[float, float, float]:
    """Nearest points of segments i and j: their shares along each, and the squared distance.

    Scalars throughout, and the second clamp in one piece: both are measurably faster than the obvious form.
    """
    px, py, pz = x[i, 0], x[i, 1], x[i, 2]
    rx, ry, rz = x[j, 0], x[j, 1], x[j, 2]
    ux, uy, uz = x[i + 1, 0] - px, x[i + 1, 1] - py, x[i + 1, 2] - pz
    vx, vy, vz = x[j + 1, 0] - rx, x[j + 1, 1] - ry, x[j + 1, 2] - rz
    wx, wy, wz = px - rx, py - ry, pz - rz
    a = ux * ux + uy * uy + uz * uz
    b = ux * vx + uy * vy + uz * vz
    c = vx * vx + vy * vy + vz * vz
    d = ux * wx + uy * wy + uz * wz
    e = vx * wx + vy * wy + vz * wz
    det = a * c - b * b
    along = 0.0
    if det > 1e-12 * a * c:
        along = min(max((b * e - c * d) / det, 0.0), 1.0)
    beyond = (b * along + e) / c
    other = min(max(beyond, 0.0), 1.0)
    if other != beyond:
        along = min(max((b * other - d) / a, 0.0), 1.0)
    gx = wx + along * ux - other * vx
    gy = wy + along * uy - other * vy
    gz = wz + along * uz - other * vz
    return along, other, gx * gx + gy * gy + gz * gz


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
        _, _, squared = closest(x, i, j)
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
        a, b, squared = closest(x, i, j)
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


@jit_part
def _smooth(x: Floats, laid: Floats, first: int, last: int, firmness: float) -> None:
    """Draws the displacement from `laid` of nodes `first` to `last` toward the mean of their neighbours', in order."""
    lx, ly, lz = (
        x[first - 1, 0] - laid[first - 1, 0],
        x[first - 1, 1] - laid[first - 1, 1],
        x[first - 1, 2] - laid[first - 1, 2],
    )
    ox, oy, oz = x[first, 0] - laid[first, 0], x[first, 1] - laid[first, 1], x[first, 2] - laid[first, 2]
    for i in range(first, last + 1):
        nx, ny, nz = lx, ly, lz
        if i < last:
            nx, ny, nz = x[i + 1, 0] - laid[i + 1, 0], x[i + 1, 1] - laid[i + 1, 1], x[i + 1, 2] - laid[i + 1, 2]
        lx = ox + firmness * (0.5 * (lx + nx) - ox)
        ly = oy + firmness * (0.5 * (ly + ny) - oy)
        lz = oz + firmness * (0.5 * (lz + nz) - oz)
        x[i, 0], x[i, 1], x[i, 2] = laid[i, 0] + lx, laid[i, 1] + ly, laid[i, 2] + lz
        ox, oy, oz = nx, ny, nz


@jit_part
def _restore_lengths(x: Floats, rest: Floats, first: int, last: int, held: int) -> None:
    """Brings segments `first` to `last - 1` to their rest lengths, one after another; the first `held` nodes stay."""
    ax, ay, az = x[first, 0], x[first, 1], x[first, 2]
    for i in range(first, last):
        bx, by, bz = x[i + 1, 0], x[i + 1, 1], x[i + 1, 2]
        dx, dy, dz = bx - ax, by - ay, bz - az
        share = 1 - rest[i] / np.sqrt(dx * dx + dy * dy + dz * dz)
        low = 0.0 if i < first + held else 0.5 * share
        high = share - low
        x[i, 0], x[i, 1], x[i, 2] = ax + low * dx, ay + low * dy, az + low * dz
        ax, ay, az = bx - high * dx, by - high * dy, bz - high * dz
    x[last, 0], x[last, 1], x[last, 2] = ax, ay, az


@jit
def relax(x: Floats, laid: Floats, start: Ints, rest: Floats, firmness: float, held: int) -> None:
    """Smooths each strand's displacement from `laid` by `firmness`, then restores the strand's own lengths."""
    for k in range(len(start) - 1):
        first, last = start[k], start[k + 1] - 1
        _smooth(x, laid, first + held, last, firmness)
        _restore_lengths(x, rest, first, last, held)


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
        _, _, squared = closest(x, i, j)
        worst = max(worst, 1 - 2 * np.sqrt(squared) / (thick[i] + thick[j]))
    return worst
