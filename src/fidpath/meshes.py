"""Closed meshes: strands swept through their sections, parts of the rope, and cuts with flat caps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fidpath.compiled import jit
from fidpath.errors import CannotBeMade
from fidpath.sections import Sections
from fidpath.strands import Part

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Mesh:
    """Triangles: points `(v, 3) float` mm, faces `(f, 3) int` counter-clockwise seen from outside.

    normals: `(v, 3) float` for smooth shading, or None where each face is to be shaded flat.
    station: `(v,) float` mm on the rope and strand: `(v,) int`; None for what is not rope.
    """

    points: Floats
    faces: Ints
    normals: Floats | None = None
    station: Floats | None = None
    strand: Ints | None = None


def joined(meshes: Iterable[Mesh]) -> Mesh:
    """Several meshes as one, in their order; normals and rope places are kept where all have them."""
    parts = list(meshes)
    if not parts:
        return Mesh(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int64))
    start = np.cumsum([0] + [len(part.points) for part in parts[:-1]])
    faces = np.empty((sum(len(part.faces) for part in parts), 3), dtype=np.int64)
    row = 0
    for part, first in zip(parts, start, strict=True):
        np.add(part.faces, first, out=faces[row : row + len(part.faces)])
        row += len(part.faces)
    points = np.concatenate([part.points for part in parts])
    normals = [part.normals for part in parts if part.normals is not None]
    station = [part.station for part in parts if part.station is not None]
    strand = [part.strand for part in parts if part.strand is not None]
    return Mesh(
        points,
        faces,
        np.concatenate(normals) if len(normals) == len(parts) else None,
        np.concatenate(station) if len(station) == len(parts) else None,
        np.concatenate(strand) if len(strand) == len(parts) else None,
    )


@lru_cache(maxsize=8)
def sweep_faces(count: int, rays: int) -> Ints:
    """Triangles `(2 (count - 1) rays, 3)` between `count` consecutive rings of `rays` points each; read-only."""
    ring = np.arange(rays)
    after = (ring + 1) % rays
    lower = np.stack([ring, after, after + rays], axis=-1)
    upper = np.stack([ring, after + rays, ring + rays], axis=-1)
    between = np.stack([lower, upper], axis=-2).reshape(-1, 3)
    faces = (between[None] + (np.arange(count - 1) * rays)[:, None, None]).reshape(-1, 3)
    faces.setflags(write=False)
    return faces


@jit
def ring_normals(rings: Floats) -> Floats:
    """Outward unit normals `(n, rays, 3)` of a swept surface `(n, rays, 3)`."""
    n, rays = rings.shape[:2]
    out = np.empty_like(rings)
    for i in range(n):
        before, after = max(i - 1, 0), min(i + 1, n - 1)
        for ray in range(rays):
            one, other = (ray + 1) % rays, (ray - 1) % rays
            ax, ay, az = (
                rings[i, one, 0] - rings[i, other, 0],
                rings[i, one, 1] - rings[i, other, 1],
                rings[i, one, 2] - rings[i, other, 2],
            )
            bx, by, bz = (
                rings[after, ray, 0] - rings[before, ray, 0],
                rings[after, ray, 1] - rings[before, ray, 1],
                rings[after, ray, 2] - rings[before, ray, 2],
            )
            x, y, z = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
            length = max(np.sqrt(x * x + y * y + z * z), 1e-12)
            out[i, ray, 0], out[i, ray, 1], out[i, ray, 2] = x / length, y / length, z / length
    return out


def strand_mesh(sections: Sections, k: int, first: int = 0, last: int | None = None, weld: bool = True) -> Mesh:
    """Closed mesh of strand k from section `first` to `last`, flat caps at both ends.

    Welded, every edge has two faces (for solids); otherwise the caps have points of their own, with the cap's
    normal (for shading). Raises CannotBeMade for fewer than two sections.
    """
    last = int(sections.count[k]) - 1 if last is None else min(last, int(sections.count[k]) - 1)
    if last - first < 1:
        raise CannotBeMade(f"strand {k} has no length between sections {first} and {last}")
    rings = sections.rings[k, first : last + 1]
    ends = (sections.centres[k, first], sections.centres[k, last])
    ways = (-sections.tangents[k, first], sections.tangents[k, last])
    n, rays = rings.shape[:2]
    station = np.repeat(sections.station[first : last + 1], rays)
    side = Mesh(rings.reshape(-1, 3), sweep_faces(n, rays), ring_normals(rings).reshape(-1, 3), station)
    mesh = _welded(side, ends, ways, rays) if weld else _capped(side, ends, ways, rays)
    return Mesh(mesh.points, mesh.faces, mesh.normals, mesh.station, np.full(len(mesh.points), k, dtype=np.int64))


def _fans(rays: int, rim: tuple[int, int], hub: tuple[int, int]) -> Ints:
    """Triangles of both caps, from the first point of each rim ring and each hub's index."""
    ring, after = np.arange(rays), (np.arange(rays) + 1) % rays
    start = np.stack([rim[0] + after, rim[0] + ring, np.full(rays, hub[0])], axis=1)
    end = np.stack([rim[1] + ring, rim[1] + after, np.full(rays, hub[1])], axis=1)
    return np.concatenate([start, end])


def _welded(side: Mesh, ends: tuple[Floats, Floats], ways: tuple[Floats, Floats], rays: int) -> Mesh:
    assert side.normals is not None and side.station is not None
    total = len(side.points)
    points = np.concatenate([side.points, np.stack(ends)])
    faces = np.concatenate([side.faces, _fans(rays, (0, total - rays), (total, total + 1))])
    normals = np.concatenate([side.normals, np.stack(ways)])
    return Mesh(points, faces, normals, np.concatenate([side.station, side.station[[0, -1]]]))


def _capped(side: Mesh, ends: tuple[Floats, Floats], ways: tuple[Floats, Floats], rays: int) -> Mesh:
    assert side.normals is not None and side.station is not None
    total = len(side.points)
    rims = (side.points[:rays], side.points[-rays:])
    points = np.concatenate([side.points, rims[0], ends[0][None], rims[1], ends[1][None]])
    fans = _fans(rays, (total, total + rays + 1), (total + rays, total + 2 * rays + 1))
    normals = np.concatenate([side.normals, np.tile(ways[0], (rays + 1, 1)), np.tile(ways[1], (rays + 1, 1))])
    station = np.concatenate([side.station, np.repeat(side.station[[0, -1]], rays + 1)])
    return Mesh(points, np.concatenate([side.faces, fans]), normals, station)


def section_range(sections: Sections, k: int, start: float, end: float) -> tuple[int, int]:
    """First and last section of strand k nearest to stations `start` and `end` mm, within its own length."""
    first, last = (int(np.abs(sections.station - u).argmin()) for u in (start, end))
    return first, min(last, int(sections.count[k]) - 1)


def part_strands(sections: Sections, start: float, end: float, weld: bool = True) -> list[Mesh]:
    """Closed meshes of every strand that lives between two stations in mm."""
    spans = ((k, *section_range(sections, k, start, end)) for k in range(len(sections.count)))
    return [strand_mesh(sections, k, first, last, weld) for k, first, last in spans if last - first >= 1]


def part_mesh(sections: Sections, part: Part, weld: bool = True) -> Mesh:
    """One part of the rope: all its strands, each a closed surface with flat caps at the part's ends."""
    return joined(part_strands(sections, part.start, part.end, weld))


def volume(mesh: Mesh) -> float:
    """Enclosed volume, mm3, positive when faces look outward (divergence theorem)."""
    a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def open_edges(mesh: Mesh) -> int:
    """Number of directed edges without their opposite; 0 for a closed surface."""
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]])
    size = len(mesh.points)
    there = np.sort(edges[:, 0].astype(np.int64) * size + edges[:, 1])
    back = np.sort(edges[:, 1].astype(np.int64) * size + edges[:, 0])
    doubled = int((np.diff(there) == 0).sum())
    if doubled == 0 and np.array_equal(there, back):
        return 0
    return int(np.setxor1d(there, back).size) + doubled


@dataclass(frozen=True)
class Cut:
    """What is kept: points x with `normal . x >= offset` mm; the normal a unit vector."""

    normal: tuple[float, float, float]
    offset: float


def cut(mesh: Mesh, *keeps: Cut) -> tuple[Mesh, Mesh]:
    """What all cuts leave of one closed, welded mesh, and the flat caps that close it, as two meshes.

    Together they are closed. A mesh all on the other side gives two empty ones. Boolean kernel: manifold3d.
    """
    sides = [mesh.points @ np.asarray(keep.normal) - keep.offset for keep in keeps]
    if any(side.max() <= 0 for side in sides):
        return joined([]), joined([])
    needed = [keep for keep, side in zip(keeps, sides, strict=True) if side.min() < 0]
    if not needed:
        return mesh, joined([])
    points, faces, extra = _trimmed(mesh, needed)
    strand = None if mesh.strand is None else np.full(len(points), mesh.strand[0], dtype=np.int64)
    normals = extra[:, :3] / np.maximum(np.linalg.norm(extra[:, :3], axis=1, keepdims=True), 1e-12)
    flat = normals.copy()
    cap = np.zeros(len(faces), dtype=bool)
    for keep in needed:
        on_plane = np.abs(points @ np.asarray(keep.normal) - keep.offset) < 1e-3
        flat[on_plane] = -np.asarray(keep.normal)
        cap |= on_plane[faces].all(axis=1)
    station = extra[:, 3]
    known = float(np.mean(mesh.station)) if mesh.station is not None else 0.0
    body = Mesh(points, faces[~cap], normals, station, strand)
    return body, Mesh(points, faces[cap], flat, np.full(len(points), known), strand)


def _trimmed(mesh: Mesh, keeps: list[Cut]) -> tuple[Floats, Ints, Floats]:
    """Points, faces and interpolated (normal, station) of a mesh cut by planes."""
    from manifold3d import Manifold
    from manifold3d import Mesh as Body

    assert mesh.normals is not None
    station = np.zeros(len(mesh.points)) if mesh.station is None else mesh.station
    rows = np.column_stack([mesh.points, mesh.normals, station]).astype(np.float32)
    body = Manifold(Body(vert_properties=rows, tri_verts=mesh.faces.astype(np.uint32)))
    for keep in keeps:
        body = body.trim_by_plane(keep.normal, keep.offset)
    kept = body.to_mesh()
    table = np.asarray(kept.vert_properties, dtype=np.float64)
    return table[:, :3], np.asarray(kept.tri_verts, dtype=np.int64), table[:, 3:]
