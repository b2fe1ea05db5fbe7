"""Compiled loops of the check: how deep drawn vertices lie in other drawn strands.

Written for the check alone; nothing here is shared with the solver or the meshes. Plain loops over scalars, so
that they compile quickly.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part


@jit_part
def side(x: float, y: float, z: float, n: Floats, near: Floats, far: Floats, at: float, k: int) -> float:
    """On which side of the ray to the edge's vertex k (x, y, z) lies: positive counter-clockwise about n.

    The edge has vertices near + at (far - near), both `(rays, 3)` from their own centres, counter-clockwise about n.
    """
    qx = near[k, 0] + at * (far[k, 0] - near[k, 0])
    qy = near[k, 1] + at * (far[k, 1] - near[k, 1])
    qz = near[k, 2] + at * (far[k, 2] - near[k, 2])
    return float(n[0] * (qy * z - qz * y) + n[1] * (qz * x - qx * z) + n[2] * (qx * y - qy * x))


@jit_part
def sector(x: float, y: float, z: float, n: Floats, near: Floats, far: Floats, at: float) -> int:
    """The edge's vertex before the sector in which (x, y, z) lies, -1 where it lies in none; arguments as of `side`.

    Every quarter of the edge is tried first, and the one that holds it halved.
    """
    rays = near.shape[0]
    last = 0
    before = side(x, y, z, n, near, far, at, 0)
    for quarter in range(1, 5):
        first, last = last, quarter * rays // 4
        after = side(x, y, z, n, near, far, at, last % rays)
        if before >= 0.0 and after < 0.0:
            while last - first > 1:
                middle = (first + last) // 2
                if side(x, y, z, n, near, far, at, middle) >= 0.0:
                    first = middle
                else:
                    last = middle
            return first
        before = after
    return -1


@jit_part
def inward(x: float, y: float, z: float, n: Floats, near: Floats, far: Floats, at: float) -> float:
    """How deep (x, y, z), seen from a section's centre, lies below the section's edge; 0 outside. As `side`."""
    k = sector(x, y, z, n, near, far, at)
    if k < 0:
        return 0.0
    m = (k + 1) % near.shape[0]
    px = near[k, 0] + at * (far[k, 0] - near[k, 0])
    py = near[k, 1] + at * (far[k, 1] - near[k, 1])
    pz = near[k, 2] + at * (far[k, 2] - near[k, 2])
    qx = near[m, 0] + at * (far[m, 0] - near[m, 0])
    qy = near[m, 1] + at * (far[m, 1] - near[m, 1])
    qz = near[m, 2] + at * (far[m, 2] - near[m, 2])
    before = n[0] * (py * z - pz * y) + n[1] * (pz * x - px * z) + n[2] * (px * y - py * x)
    after = n[0] * (qy * z - qz * y) + n[1] * (qz * x - qx * z) + n[2] * (qx * y - qy * x)
    area = n[0] * (py * qz - pz * qy) + n[1] * (pz * qx - px * qz) + n[2] * (px * qy - py * qx)
    below = area / (before - after) - 1.0
    return float(max(below, 0.0) * (x * x + y * y + z * z) ** 0.5)


@jit_part
def enter(
    found: Floats,
    i: int,
    ring: Floats,
    j: int,
    centres: Floats,
    offsets: Floats,
    normals: Floats,
    rim: float,
    over: Floats,
    left: Floats,
) -> None:
    """Enters in row i of `found` how deep vertices `ring` `(3, rays)` lie in the solid between sections j and j + 1.

    rim: how far the edges of both reach from their centres; what lies further off is outside. over, left: `(rays,)`,
    room for distances from both planes, which are taken for all vertices first because that is faster.
    """
    ax, ay, az = centres[j, 0], centres[j, 1], centres[j, 2]
    bx, by, bz = centres[j + 1, 0], centres[j + 1, 1], centres[j + 1, 2]
    nx, ny, nz = normals[j, 0], normals[j, 1], normals[j, 2]
    fx, fy, fz = normals[j + 1, 0], normals[j + 1, 1], normals[j + 1, 2]
    for k in range(ring.shape[1]):
        over[k] = (ring[0, k] - ax) * nx + (ring[1, k] - ay) * ny + (ring[2, k] - az) * nz
        left[k] = (bx - ring[0, k]) * fx + (by - ring[1, k]) * fy + (bz - ring[2, k]) * fz
    for k in range(ring.shape[1]):
        if over[k] < 0.0 or left[k] <= 0.0:
            continue
        at = over[k] / (over[k] + left[k])
        x, y, z = ring[0, k] - ax - at * (bx - ax), ring[1, k] - ay - at * (by - ay), ring[2, k] - az - at * (bz - az)
        if x * x + y * y + z * z < rim * rim:
            found[i, k] = max(found[i, k], inward(x, y, z, normals[j], offsets[j], offsets[j + 1], at))


@jit_part
def between(x: float, y: float, z: float, reach: float, centres: Floats, normals: Floats, j: int) -> bool:
    """Whether a ball of radius `reach` about (x, y, z) comes between the planes of sections j and j + 1."""
    over = (
        (x - centres[j, 0]) * normals[j, 0] + (y - centres[j, 1]) * normals[j, 1] + (z - centres[j, 2]) * normals[j, 2]
    )
    if over < -reach:
        return False
    k = j + 1
    left = (
        (centres[k, 0] - x) * normals[k, 0] + (centres[k, 1] - y) * normals[k, 1] + (centres[k, 2] - z) * normals[k, 2]
    )
    return bool(left > -reach)


@jit
def depths(
    found: Floats,
    rings: Floats,
    centres: Floats,
    offsets: Floats,
    normals: Floats,
    middle: Floats,
    ball: Floats,
    reach: Floats,
    strand: Ints,
    along: Floats,
    gap: Floats,
    begin: Ints,
    order: Ints,
    cell: Ints,
    shape: Ints,
) -> None:
    """Enters in `found` `(m, rays)` the depth of every vertex in the solids that begin at other strands' sections.

    reach: `(m,)`, how far each section's edge reaches from its centre; middle, ball: middle `(m, 3)` and reach `(m,)`
    of the solid that begins there, below 0 where none does. Cells are wide enough for all that can touch to lie in
    adjacent ones: `order[begin[c]:begin[c + 1]]` lie in cell c of a grid of `shape` `(3,)`; cell: `(m,)`. Own strand
    counts beyond `gap` `(m,)` mm of `along` `(m,)`.
    """
    rays = rings.shape[1]
    ring, over, left = np.empty((3, rays)), np.empty(rays), np.empty(rays)
    for i in range(rings.shape[0]):
        qx, qy, qz, own = centres[i, 0], centres[i, 1], centres[i, 2], reach[i]
        for k in range(rays):
            ring[0, k], ring[1, k], ring[2, k] = rings[i, k, 0], rings[i, k, 1], rings[i, k, 2]
        x, y, z = cell[i] // (shape[1] * shape[2]), cell[i] // shape[2] % shape[1], cell[i] % shape[2]
        for cx in range(max(x - 1, 0), min(x + 2, shape[0])):
            for cy in range(max(y - 1, 0), min(y + 2, shape[1])):
                row = (cx * shape[1] + cy) * shape[2]
                for place in range(begin[row + max(z - 1, 0)], begin[row + min(z + 1, shape[2] - 1) + 1]):
                    j = order[place]
                    dx, dy, dz, far = qx - middle[j, 0], qy - middle[j, 1], qz - middle[j, 2], own + ball[j]
                    if dx * dx + dy * dy + dz * dz >= far * far or ball[j] < 0.0:
                        continue
                    if strand[j] == strand[i] and abs(along[j] - along[i]) <= gap[i]:
                        continue
                    if between(qx, qy, qz, own, centres, normals, j):
                        rim = max(reach[j], reach[j + 1])
                        enter(found, i, ring, j, centres, offsets, normals, rim, over, left)
