"""Compiled loops of contact between strands and fixed bodies: rods, the terminator's seat, and a flat table."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats
from fidpath.loading.friction_kernels import Triple, across, rubbed
from fidpath.machine.compiled import jit, jit_part

ROD, SEAT, TABLE = 0, 1, 2
FAR: tuple[float, float, float, float] = (-1e9, 1.0, 0.0, 0.0)


@jit_part
def _rod(p: Triple, margin: float, body: Floats) -> tuple[float, float, float, float]:
    """How far a node at p is inside a rod (a row of `geometry.table`) or nearer than `margin`, and the way out."""
    tx, ty, tz = p[0] - body[0], p[1] - body[1], p[2] - body[2]
    behind = -(tx * body[3] + ty * body[4] + tz * body[5])
    if behind < 0 or behind > body[9]:
        return FAR
    ox, oy, oz = tx + behind * body[3], ty + behind * body[4], tz + behind * body[5]
    out = np.sqrt(ox * ox + oy * oy + oz * oz) + 1e-12
    radius = min(body[6], body[7] + (body[6] - body[7]) * behind / body[8])
    return radius + margin - out, ox / out, oy / out, oz / out


@jit_part
def _seat(p: Triple, margin: float, body: Floats) -> tuple[float, float, float, float]:
    """The same for a terminator: crown, nose, reach, groove, lip, half width, and its centre."""
    crown, nose, reach, groove, lip = body[0], body[1], body[2], body[3], body[4]
    px, py, pz = p[0] - body[6], p[1] - body[7], p[2] - body[8]
    far = crown + reach + nose + lip + groove + margin
    if abs(pz) > body[5] + margin or abs(px) > far or abs(py) > far:
        return FAR
    sin = (crown - nose) / reach if reach > 0 else 0.0
    place = min(max(-px - abs(py) * sin / np.sqrt(1 - sin * sin), 0.0), reach)
    tx, ty = px + place, py
    length = max(np.sqrt(tx * tx + ty * ty), 1e-12)
    tx, ty = tx / length, ty / length
    distance = length - (crown - place * sin)
    over, beside = distance - lip, abs(pz) - body[5]
    clear = np.sqrt(max(over, 0.0) ** 2 + max(beside, 0.0) ** 2) + min(max(over, beside), 0.0)
    radial, up = 1.0, 0.0
    if groove > 0:
        across_groove = np.sqrt((distance - groove) ** 2 + pz * pz)
        clear = max(clear, groove - across_groove)
        if distance < groove and across_groove > 1e-9:
            radial, up = (groove - distance) / across_groove, -pz / across_groove
    return margin - clear, radial * tx, radial * ty, up


@jit_part
def _table(p: Triple, margin: float, body: Floats) -> tuple[float, float, float, float]:
    """The same for a table: a point of its top and the way up."""
    up = (p[0] - body[0]) * body[3] + (p[1] - body[1]) * body[4] + (p[2] - body[2]) * body[5]
    return margin - up, body[3], body[4], body[5]


@jit_part
def depth(kind: int, p: Triple, margin: float, body: Floats) -> tuple[float, float, float, float]:
    """How deep a node of half thickness `margin` at p is in a body, negative outside, and the way out."""
    if kind == ROD:
        return _rod(p, margin, body)
    if kind == SEAT:
        return _seat(p, margin, body)
    return _table(p, margin, body)


@jit
def carry_bodies(
    x: Floats, before: Floats, mobility: Floats, thick: Floats, kind: int, body: Floats, normal: Floats, tangent: Floats
) -> None:
    """Pushes nodes by the last sweep's multipliers against a body, turned to how they lie now."""
    for i in range(len(x)):
        if normal[i] <= 0.0:
            continue
        _, nx, ny, nz = depth(kind, (before[i, 0], before[i, 1], before[i, 2]), 0.5 * thick[i], body)
        n = (nx, ny, nz)
        t = across((tangent[i, 0], tangent[i, 1], tangent[i, 2]), n)
        for c in range(3):
            tangent[i, c] = t[c]
            x[i, c] += mobility[i, c] * (normal[i] * n[c] + t[c])


@jit
def press_bodies(
    x: Floats,
    before: Floats,
    mobility: Floats,
    thick: Floats,
    kind: int,
    body: Floats,
    moved: Floats,
    friction: float,
    normal: Floats,
    tangent: Floats,
    give: float,
    slip_give: float,
) -> None:
    """One pass over the nodes against one body, which has moved by `moved` `(3,)` in this sweep."""
    for i in range(len(x)):
        deep, nx, ny, nz = depth(kind, (x[i, 0], x[i, 1], x[i, 2]), 0.5 * thick[i], body)
        if deep <= 0.0 and normal[i] <= 0.0:
            continue
        n = (nx, ny, nz)
        weight = mobility[i, 0] * nx * nx + mobility[i, 1] * ny * ny + mobility[i, 2] * nz * nz
        if weight < 1e-9:
            continue
        new = max(0.0, normal[i] + (deep - give * normal[i]) / (weight + give))
        p = new - normal[i]
        normal[i] = new
        f = (p * nx, p * ny, p * nz)
        if friction > 0:
            held = (tangent[i, 0], tangent[i, 1], tangent[i, 2])
            slip = (
                x[i, 0] - before[i, 0] - moved[0],
                x[i, 1] - before[i, 1] - moved[1],
                x[i, 2] - before[i, 2] - moved[2],
            )
            t = rubbed(held, slip, n, weight + slip_give, friction * new)
            for c in range(3):
                tangent[i, c] = t[c]
            f = (f[0] + t[0] - held[0], f[1] + t[1] - held[1], f[2] + t[2] - held[2])
        for c in range(3):
            x[i, c] += mobility[i, c] * f[c]
