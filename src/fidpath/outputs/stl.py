"""Binary STL. The format knows no unit: ours are millimetres, and the file's name says so."""

from __future__ import annotations

import numpy as np

from fidpath.meshing import Mesh

TRIANGLE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def stl(mesh: Mesh, title: str) -> bytes:
    """The mesh as the bytes of a file."""
    rows = np.zeros(len(mesh.faces), dtype=TRIANGLE)
    corners = mesh.points[mesh.faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    rows["corners"] = corners
    rows["normal"] = normal / np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-12)
    told = "".join(letter if letter.isprintable() else "?" for letter in title)
    header = f"fidpath {told}, millimetres".encode("ascii", "replace")[:80].ljust(80, b" ")
    return header + np.uint32(len(rows)).tobytes() + rows.tobytes()
