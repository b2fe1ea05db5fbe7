"""Meshing of strands against general tools on the same centre lines, all in one run; ratios are what counts.

Compared: our sections (frames, clipping at neighbours) and sweep, our sweep alone, PyVista's tube filter made into
triangles, trimesh's sweep of a polygon (both without any clipping), and a plain copy of the same bytes in memory. The
process keeps the memory it was given (glibc's settings for that), so that no row waits for the system's fresh pages.
Run: python benchmarks/bench_meshing.py
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from unittest.mock import patch

import numpy as np
from numpy.typing import NDArray

from fidpath.geometry.braid import Braid, braid_of, straight
from fidpath.geometry.strands import LaidRope, Strands, of_one_rope
from fidpath.job.job import Rope
from fidpath.meshing import meshes
from fidpath.meshing.meshes import Mesh, swept
from fidpath.meshing.sections import Sections, sections_of
from figures import figure, least

RAYS = 24
ROUNDS = 9
Floats = NDArray[np.float64]


def plain_rope(length: float = 180.0, d: float = 10.0) -> Strands:
    """Straight rope of so many diameters, noded as the settled splice is."""
    braid: Braid = braid_of(Rope("rope", d, d, d, 12, "over-two", 7 * d, 0.75))
    station = np.arange(0.0, length * d, 0.15 * d)
    n = len(station)
    axis = np.column_stack([station, np.zeros(n), np.zeros(n)])
    normal = np.tile([0.0, 1.0, 0.0], (n, 1))
    return of_one_rope(LaidRope(braid, station, axis, normal, np.ones(n)), straight(braid, station))


def best_of(work: Callable[[], int]) -> tuple[float, int]:
    """Least seconds over ROUNDS runs, after one that is not counted, and the number of triangles made."""
    made = work()
    return least(work, ROUNDS), made


def whole(sections: Sections) -> Mesh:
    """All strands as one mesh."""
    return swept(sections, [(k, 0, int(count) - 1) for k, count in enumerate(sections.count)])


def alone(sections: Sections) -> Mesh:
    """The same, written by one thread."""
    with patch.object(meshes, "MANY", 10**9):
        return whole(sections)


def tubes(lines: Floats, radius: float) -> int:
    """The same centre lines through PyVista's tube filter, triangulated; number of triangles."""
    import pyvista

    cells = [np.concatenate([[len(lines[0])], np.arange(len(lines[0])) + k * len(lines[0])]) for k in range(len(lines))]
    data = pyvista.PolyData(lines.reshape(-1, 3), lines=np.concatenate(cells))
    return int(data.tube(radius=radius, n_sides=RAYS, capping=True).triangulate().n_cells)


def polygons(lines: Floats, radius: float) -> int:
    """The same centre lines through trimesh's sweep of a round polygon; number of triangles."""
    import trimesh

    angle = 2 * np.pi * np.arange(RAYS) / RAYS
    corners = radius * np.column_stack([np.cos(angle), np.sin(angle)])
    fan = np.column_stack([np.zeros(RAYS - 2, int), np.arange(1, RAYS - 1), np.arange(2, RAYS)])
    # the polygon is handed over triangulated, so that no package for planar shapes is needed
    with patch.object(trimesh.creation, "triangulate_polygon", lambda *_a, **_k: (corners, fan)):
        return sum(len(trimesh.creation.sweep_polygon(None, line).faces) for line in lines)


def copied(mesh: Mesh) -> int:
    """A copy of all that a mesh holds; number of triangles."""
    parts = (mesh.points, mesh.faces, mesh.normals, mesh.station, mesh.strand)
    return len([part.copy() for part in parts if part is not None][1])


def copy_of(sections: Sections) -> Callable[[], int]:
    """Copies the whole mesh, which is made for that and lives no longer."""
    mesh = whole(sections)
    return lambda: copied(mesh)


def main() -> None:
    """Prints seconds, triangles a second, and the ratio to our sections and sweep.

    Only one row's mesh is alive at a time, so that each finds the memory as the others do.
    """
    rope = plain_rope()
    sections = sections_of(rope, RAYS)
    radius = rope.braid.thickness / 2
    rows: dict[str, Callable[[], Callable[[], int]]] = {
        "sections and sweep": lambda: lambda: len(whole(sections_of(rope, RAYS)).faces),
        "sections alone": lambda: lambda: sections_of(rope, RAYS).rings.shape[1] * 12 * 2 * RAYS,
        "sweep alone": lambda: lambda: len(whole(sections).faces),
        "sweep alone, one thread": lambda: lambda: len(alone(sections).faces),
        "PyVista tube filter": lambda: lambda: tubes(sections.centres, radius),
        "trimesh sweep": lambda: lambda: polygons(sections.centres, radius),
        "memory copy": lambda: copy_of(sections),
    }
    print(f"{rope.nodes} nodes, {sections.rings.shape[1] * 12} sections of {RAYS} rays")
    rate = {}
    for name, work in rows.items():
        seconds, made = best_of(work())
        rate[name] = made / seconds / 1e6
        print(f"{name:<24} {seconds:7.3f} s {rate[name]:8.1f} Mtri/s")
    mine = rate["sweep alone"]
    for name, wanted in (("PyVista tube filter", 10.0), ("trimesh sweep", 10.0), ("memory copy", 0.25)):
        beside = f"{mine:.1f} against {rate[name]:.1f} million triangles a second"
        figure(
            f"strand meshing against {name}, times as fast", mine / rate[name], "x", wanted, least=True, beside=beside
        )
    one = rate["sweep alone, one thread"]
    figure("by one thread, million triangles", one, "/s")
    clipped = rate["sections and sweep"]
    figure("the same with sections clipped at neighbours, million triangles", clipped, "/s")


KEEPING = {"MALLOC_TRIM_THRESHOLD_": "4000000000", "MALLOC_MMAP_THRESHOLD_": "4000000000"}
"""glibc's settings by which a process gives no memory back."""

if __name__ == "__main__":
    if "MALLOC_TRIM_THRESHOLD_" not in os.environ:
        os.execve(sys.executable, [sys.executable, __file__], {**os.environ, **KEEPING})
    main()
