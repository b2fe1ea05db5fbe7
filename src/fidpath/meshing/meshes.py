"""Closed meshes: strands swept through their sections, parts of the rope, and cuts with flat caps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry import RopePart, padded
from fidpath.machine.compiled import jit, jit_part
from fidpath.meshing.sections import Sections

Faces = NDArray[np.signedinteger[Any]]

MANY = 100_000
"""Triangles from which two threads write them."""


@dataclass(frozen=True)
class Mesh:
    """Triangles: points `(v, 3) float` mm, faces `(f, 3) int` counter-clockwise seen from outside.

    normals: `(v, 3) float` for smooth shading, or None where each face is to be shaded flat.
    station: `(v,) float` mm on the rope and strand: `(v,) int`; None for what is not rope.
    """

    points: Floats
    faces: Faces
    normals: Floats | None = None
    station: Floats | None = None
    strand: Ints | None = None


def joined(meshes: Iterable[Mesh]) -> Mesh:
    """Several meshes as one, in their order; normals and rope places are kept where all have them."""
    parts = list(meshes)
    if not parts:
        return Mesh(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int32))
    start = np.cumsum([0] + [len(part.points) for part in parts[:-1]])
    faces = np.empty((sum(len(part.faces) for part in parts), 3), dtype=np.int32)
    row = 0
    for part, first in zip(parts, start, strict=True):
        np.add(part.faces, first, out=faces[row : row + len(part.faces)], casting="same_kind")
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


@jit_part
def _sides(rings: Floats, point: int, face: int, points: Floats, normals: Floats, faces: NDArray[np.int32]) -> None:
    """Writes the surface between rings `(n, rays, 3)`, its own points and faces from `point` and `face` on."""
    n, rays = rings.shape[:2]
    for i in range(n):
        before, after = max(i - 1, 0), min(i + 1, n - 1)
        for ray in range(rays):
            one = ray + 1 if ray + 1 < rays else 0
            other = ray - 1 if ray > 0 else rays - 1
            ax = rings[i, one, 0] - rings[i, other, 0]
            ay = rings[i, one, 1] - rings[i, other, 1]
            az = rings[i, one, 2] - rings[i, other, 2]
            bx = rings[after, ray, 0] - rings[before, ray, 0]
            by = rings[after, ray, 1] - rings[before, ray, 1]
            bz = rings[after, ray, 2] - rings[before, ray, 2]
            x, y, z = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
            length = max(np.sqrt(x * x + y * y + z * z), 1e-12)
            p = point + i * rays + ray
            points[p, 0], points[p, 1], points[p, 2] = rings[i, ray, 0], rings[i, ray, 1], rings[i, ray, 2]
            normals[p, 0], normals[p, 1], normals[p, 2] = x / length, y / length, z / length
            if i + 1 < n:
                q, over = face + 2 * (i * rays + ray), p - ray + one + rays
                faces[q, 0], faces[q, 1], faces[q, 2] = p, over - rays, over
                faces[q + 1, 0], faces[q + 1, 1], faces[q + 1, 2] = p, over, p + rays


@jit_part
def _cap(rays: int, rim: int, hub: int, face: int, ahead: int, faces: NDArray[np.int32]) -> None:
    """Writes a flat cap's faces, between the ring from `rim` on and its hub; `ahead`: at the far end."""
    for ray in range(rays):
        one = ray + 1 if ray + 1 < rays else 0
        faces[face + ray, 0] = rim + (ray if ahead else one)
        faces[face + ray, 1] = rim + (one if ahead else ray)
        faces[face + ray, 2] = hub


@jit
def _write(
    rings: Floats,
    centres: Floats,
    tangents: Floats,
    rope: Ints,
    along: Floats,
    spans: Ints,
    starts: Ints,
    weld: bool,
    points: Floats,
    normals: Floats,
    station: Floats,
    strand: Ints,
    faces: NDArray[np.int32],
) -> None:
    """Writes swept spans `(m, 3)` (strand, first and last section), each from its own point and face `(m, 2)` on.

    along: `(ropes, n)` mm, each rope's stations; rope: `(strands,)`, which each strand belongs to.
    """
    rays = rings.shape[2]
    for m in range(len(spans)):
        k, first, last = spans[m, 0], spans[m, 1], spans[m, 2]
        point, face = starts[m, 0], starts[m, 1]
        _sides(rings[k, first : last + 1], point, face, points, normals, faces)
        for i in range((last + 1 - first) * rays):
            station[point + i], strand[point + i] = along[rope[k], first + i // rays], k
        own = 1 if weld else rays + 1
        for ahead in range(2):
            end, way = (last, 1.0) if ahead else (first, -1.0)
            rim = point + (last - first) * rays if ahead else point
            new = point + (last + 1 - first) * rays + ahead * own
            hub = new + own - 1
            for i in range(own):
                station[new + i], strand[new + i] = along[rope[k], end], k
                for c in range(3):  # one by one: numba takes long to compile one array put into another
                    points[new + i, c] = points[rim + i, c] if new + i < hub else centres[k, end, c]
                    normals[new + i, c] = way * tangents[k, end, c]
            _cap(rays, rim if weld else new, hub, face + (2 * (last - first) + ahead) * rays, ahead, faces)


def swept(sections: Sections, spans: Sequence[tuple[int, int, int]], weld: bool = True) -> Mesh:
    """Closed meshes of strands, each from one section to another, as one; flat caps at both ends of each.

    spans: (strand, first section, last section). Welded, every edge has two faces (for solids); otherwise the caps have
    points of their own, with the cap's normal (for shading). Raises CannotBeMade for fewer than two sections.
    """
    rays = sections.rings.shape[2]
    table = np.array(spans, dtype=np.int64).reshape(-1, 3)
    steps = table[:, 2] - table[:, 1]
    if (steps < 1).any():
        k, first, last = table[steps < 1][0]
        raise CannotBeMade(f"strand {k} has no length between sections {first} and {last}")
    points, faces = (steps + 1) * rays + (2 if weld else 2 * rays + 2), 2 * (steps + 1) * rays
    starts = np.column_stack([np.cumsum(points) - points, np.cumsum(faces) - faces])
    total, made = int(points.sum()), int(faces.sum())
    place, normal = np.empty((total, 3)), np.empty((total, 3))
    station, strand = np.empty(total), np.empty(total, dtype=np.int64)
    face = np.empty((made, 3), dtype=np.int32)
    along = np.concatenate([padded(of_rope[None], sections.rings.shape[1]) for of_rope in sections.stations])

    def write(some: slice) -> None:
        given = sections.rings, sections.centres, sections.tangents, sections.rope, along, table[some], starts[some]
        _write(*given, weld, place, normal, station, strand, face)

    if made < MANY:
        write(slice(None))
    else:
        middle = len(table) // 2
        with ThreadPoolExecutor(2) as hands:  # the compiled loop lets go of the interpreter
            list(hands.map(write, (slice(0, middle), slice(middle, None))))
    return Mesh(place, face, normal, station, strand)


def strand_mesh(sections: Sections, k: int, first: int = 0, last: int | None = None, weld: bool = True) -> Mesh:
    """Closed mesh of strand k from section `first` to `last`, as `swept` makes it."""
    end = int(sections.count[k]) - 1
    return swept(sections, [(k, first, end if last is None else min(last, end))], weld)


def section_range(sections: Sections, k: int, start: float, end: float) -> tuple[int, int]:
    """First and last section of strand k nearest to stations `start` and `end` mm, within its own length."""
    station = sections.stations[sections.rope[k]]
    first, last = (int(np.abs(station - u).argmin()) for u in (start, end))
    return first, min(last, int(sections.count[k]) - 1)


def part_strands(sections: Sections, start: float, end: float, weld: bool = True, rope: int = 0) -> list[Mesh]:
    """Closed meshes of every strand of a rope that lives between two of its stations in mm."""
    return [swept(sections, [span], weld) for span in _spans(sections, start, end, rope)]


def part_mesh(sections: Sections, part: RopePart, weld: bool = True, rope: int = 0) -> Mesh:
    """One part of a rope: all its strands, each a closed surface with flat caps at the part's ends."""
    return swept(sections, _spans(sections, part.start, part.end, rope), weld)


def _spans(sections: Sections, start: float, end: float, rope: int) -> list[tuple[int, int, int]]:
    """Every strand of a rope that lives between two stations in mm, with its first and last section there."""
    spans = ((k, *section_range(sections, k, start, end)) for k in sections.members(rope).tolist())
    return [span for span in spans if span[2] - span[1] >= 1]


def volume(mesh: Mesh) -> float:
    """Enclosed volume, mm3, positive when faces look outward (divergence theorem)."""
    a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def open_edges(mesh: Mesh) -> int:
    """Number of directed edges without their opposite; 0 for a closed surface."""
    there, back = _edges(mesh)
    doubled = int((np.diff(there) == 0).sum())
    if doubled == 0 and np.array_equal(there, back):
        return 0
    return int(np.setxor1d(there, back).size) + doubled


def is_closed(mesh: Mesh) -> bool:
    """Whether every directed edge has its opposite, once; `open_edges` counts those that don't, which takes longer."""
    there, back = _edges(mesh)
    return bool(np.array_equal(there, back) and (np.diff(there) != 0).all())


def _edges(mesh: Mesh) -> tuple[Ints, Ints]:
    """All directed edges and their opposites, sorted, each pair of points as one number."""
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]]).astype(np.int64)
    size = len(mesh.points)
    return np.sort(edges[:, 0] * size + edges[:, 1]), np.sort(edges[:, 1] * size + edges[:, 0])


@dataclass(frozen=True)
class Cut:
    """What is kept: points x with `normal . x >= offset` mm; the normal a unit vector."""

    normal: tuple[float, float, float]
    offset: float


def cut(mesh: Mesh, *keeps: Cut) -> tuple[Mesh, Mesh]:
    """What all cuts leave of one closed, welded mesh, and the flat caps that close it, as two meshes.

    Together they are closed. A mesh all on the other side gives two empty ones. Boolean kernel: manifold3d.
    """
    return next(cut_ways(mesh, keeps))


def cut_ways(mesh: Mesh, *ways: Sequence[Cut]) -> Iterator[tuple[Mesh, Mesh]]:
    """What each way of cutting a mesh leaves of it, as `cut` has it."""
    body = None
    for keeps in ways:
        sides = [mesh.points @ np.asarray(keep.normal) - keep.offset for keep in keeps]
        needed = [keep for keep, side in zip(keeps, sides, strict=True) if side.min() < 0]
        if any(side.max() <= 0 for side in sides):
            yield joined([]), joined([])
        elif not needed:
            yield mesh, joined([])
        else:
            body = _body(mesh) if body is None else body
            yield _capped(mesh, body, needed)


def _capped(mesh: Mesh, body: Any, keeps: Sequence[Cut]) -> tuple[Mesh, Mesh]:
    """What cuts leave of a mesh, given as a body of manifold3d, and its caps."""
    for keep in keeps:
        body = body.trim_by_plane(keep.normal, keep.offset)
    kept = body.to_mesh()
    table, faces = np.asarray(kept.vert_properties, dtype=np.float64), np.asarray(kept.tri_verts, dtype=np.int64)
    points, station = table[:, :3], table[:, 6]
    strand = None if mesh.strand is None else np.full(len(points), mesh.strand[0], dtype=np.int64)
    normals = table[:, 3:6] / np.maximum(np.linalg.norm(table[:, 3:6], axis=1, keepdims=True), 1e-12)
    flat = normals.copy()
    cap = np.zeros(len(faces), dtype=bool)
    for keep in keeps:
        on_plane = np.abs(points @ np.asarray(keep.normal) - keep.offset) < 1e-3
        flat[on_plane] = -np.asarray(keep.normal)
        cap |= on_plane[faces].all(axis=1)
    known = float(np.mean(mesh.station)) if mesh.station is not None else 0.0
    rest = Mesh(points, faces[~cap], normals, station, strand)
    return rest, Mesh(points, faces[cap], flat, np.full(len(points), known), strand)


def _body(mesh: Mesh) -> Any:
    """A mesh as a body of manifold3d, its normals and stations with it, to be interpolated at cuts."""
    from manifold3d import Manifold
    from manifold3d import Mesh as Body

    assert mesh.normals is not None
    station = np.zeros(len(mesh.points)) if mesh.station is None else mesh.station
    rows = np.column_stack([mesh.points, mesh.normals, station]).astype(np.float32)
    return Manifold(Body(vert_properties=rows, tri_verts=mesh.faces.astype(np.uint32)))
