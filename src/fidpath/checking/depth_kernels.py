"""Compiled loops of the check: how deep drawn vertices lie in other drawn strands.

Written for the check alone; nothing here is shared with the solver or the meshes. Plain loops over scalars, so
that they compile quickly.
"""

from __future__ import annotations

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit


@jit
def inward(x: float, y: float, z: float, n: Floats, near: Floats, far: Floats, at: float) -> float:
    """How deep (x, y, z), seen from a section's centre, lies below the section's edge; 0 outside.

    The edge has vertices near + at (far - near), both `(rays, 3)` from their own centres, counter-clockwise about n.
    """
    rays = near.shape[0]
    px, py, pz, before = 0.0, 0.0, 0.0, -1.0
    for k in range(rays + 1):
        m = k % rays
        qx = near[m, 0] + at * (far[m, 0] - near[m, 0])
        qy = near[m, 1] + at * (far[m, 1] - near[m, 1])
        qz = near[m, 2] + at * (far[m, 2] - near[m, 2])
        side = n[0] * (qy * z - qz * y) + n[1] * (qz * x - qx * z) + n[2] * (qx * y - qy * x)
        if before >= 0.0 and side < 0.0:
            area = n[0] * (py * qz - pz * qy) + n[1] * (pz * qx - px * qz) + n[2] * (px * qy - py * qx)
            below = area / (before - side) - 1.0
            return float(max(below, 0.0) * (x * x + y * y + z * z) ** 0.5)
        px, py, pz, before = qx, qy, qz, side
    return 0.0


@jit
def enter(
    found: Floats, i: int, ring: Floats, j: int, centres: Floats, offsets: Floats, normals: Floats, reach: float
) -> None:
    """Enters in row i of `found` how deep section i's vertices lie in the solid between sections j and j + 1."""
    ax, ay, az = centres[j, 0], centres[j, 1], centres[j, 2]
    bx, by, bz = centres[j + 1, 0], centres[j + 1, 1], centres[j + 1, 2]
    far = normals[j + 1]
    for k in range(ring.shape[0]):
        x, y, z = ring[k, 0], ring[k, 1], ring[k, 2]
        over = (x - ax) * normals[j, 0] + (y - ay) * normals[j, 1] + (z - az) * normals[j, 2]
        left = (bx - x) * far[0] + (by - y) * far[1] + (bz - z) * far[2]
        if over < 0.0 or left <= 0.0:
            continue
        at = over / (over + left)
        x, y, z = x - ax - at * (bx - ax), y - ay - at * (by - ay), z - az - at * (bz - az)
        if x * x + y * y + z * z < reach * reach:
            depth = inward(x, y, z, normals[j], offsets[j], offsets[j + 1], at)
            found[i, k] = max(found[i, k], depth)


@jit
def depths(
    found: Floats,
    rings: Floats,
    centres: Floats,
    offsets: Floats,
    normals: Floats,
    middle: Floats,
    ball: Floats,
    strand: Ints,
    along: Floats,
    gap: Floats,
    begin: Ints,
    order: Ints,
    cell: Ints,
    shape: Ints,
) -> None:
    """Enters in `found` `(m, rays)` the depth of every vertex in the solids that begin at other strands' sections.

    middle, ball: middle `(m, 3)` and reach `(m,)` of the solid that begins at each section, -1 where none does.
    Cells are wide enough for all that can touch to lie in adjacent ones: `order[begin[c]:begin[c + 1]]` lie in
    cell c of a grid of `shape` `(3,)`; cell: `(m,)`. Own strand counts beyond `gap` `(m,)` mm of `along` `(m,)`.
    """
    for i in range(rings.shape[0]):
        x = cell[i] // (shape[1] * shape[2])
        y = cell[i] // shape[2] % shape[1]
        z = cell[i] % shape[2]
        for column in range(9):
            cx, cy = x + column // 3 - 1, y + column % 3 - 1
            if cx < 0 or cx >= shape[0] or cy < 0 or cy >= shape[1]:
                continue
            row = (cx * shape[1] + cy) * shape[2]
            for place in range(begin[row + max(z - 1, 0)], begin[row + min(z + 1, shape[2] - 1) + 1]):
                j = order[place]
                if ball[j] < 0.0 or (strand[j] == strand[i] and abs(along[j] - along[i]) <= gap[i]):
                    continue
                dx, dy, dz = centres[i, 0] - middle[j, 0], centres[i, 1] - middle[j, 1], centres[i, 2] - middle[j, 2]
                if dx * dx + dy * dy + dz * dz < (abs(ball[i]) + ball[j]) ** 2:
                    enter(found, i, rings[i], j, centres, offsets, normals, ball[j])
