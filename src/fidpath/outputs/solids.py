"""A settled state as solids: one STL in millimetres, one GLB in metres with every part by its name."""

from __future__ import annotations

from collections.abc import Mapping

from fidpath.errors import CannotBeMade
from fidpath.geometry.strands import Strands
from fidpath.job.job import Terminator
from fidpath.meshing.meshes import Mesh, joined, open_edges, part_mesh, strand_mesh, volume
from fidpath.meshing.sections import Sections, sections_of
from fidpath.meshing.terminator_mesh import terminator_mesh
from fidpath.outputs.stl import stl
from fidpath.scene.scene import PALETTE, Colour

RAYS = 16
"""Rays of a section in solids: coarser than in pictures, for files of a size that can be sent."""

METRE = 0.001

NO_TOOLS: Mapping[str, Mesh] = {}


def files(
    name: str, terminator: Terminator, strands: Strands, tools: Mapping[str, Mesh] = NO_TOOLS, rays: int = RAYS
) -> dict[str, bytes]:
    """File names and contents; the terminator's body where the strands bear on it, tools by their names.

    Raises CannotBeMade where a body isn't closed or has no volume.
    """
    sections = sections_of(strands, rays=rays, refine=1)
    bodies = dict(tools)
    if strands.seat is not None:
        bodies["terminator"] = terminator_mesh(terminator, strands.seat_centre)
    whole = [strand_mesh(sections, k) for k in range(len(strands.points))]
    for body_name, body in [*((f"strand {k}", mesh) for k, mesh in enumerate(whole)), *bodies.items()]:
        check(body_name, body)
    return {
        f"{name}-mm.stl": stl(joined([*whole, *bodies.values()]), name),
        f"{name}.glb": _glb({**named_parts(strands, sections), **bodies}),
    }


def named_parts(strands: Strands, sections: Sections) -> dict[str, Mesh]:
    """Closed meshes of the rope's parts by name, all strands of a part in one. Raises CannotBeMade as `check`."""
    parts = {}
    for part in strands.parts:
        mesh = part_mesh(sections, part)
        if len(mesh.faces):
            check(part.name, mesh)
            parts[part.name] = mesh
    return parts


def check(name: str, mesh: Mesh) -> None:
    """Refuses a body that isn't closed or encloses no volume."""
    if open_edges(mesh) or volume(mesh) <= 0:
        raise CannotBeMade(
            f"the solid of {name} isn't a closed body of positive volume", "Report this job: it is a fault of ours"
        )


def _glb(parts: dict[str, Mesh]) -> bytes:
    import trimesh

    scene = trimesh.Scene()
    for name, mesh in parts.items():
        scene.add_geometry(_body(mesh, _colour(name)), node_name=name, geom_name=name)
    content: bytes = scene.export(file_type="glb")
    return content


def _body(mesh: Mesh, colour: Colour):  # type: ignore[no-untyped-def]
    import trimesh

    body = trimesh.Trimesh(mesh.points * METRE, mesh.faces, process=False)
    material = trimesh.visual.material.PBRMaterial(
        baseColorFactor=[*colour, 255], metallicFactor=0.0, roughnessFactor=0.75
    )
    body.visual = trimesh.visual.TextureVisuals(material=material)
    return body


def _colour(part: str) -> Colour:
    if part == "terminator" or "fid" in part:
        return PALETTE.metal
    if part in ("eye", "between the holes"):
        return PALETTE.eye[0] if part == "eye" else PALETTE.between[0]
    return PALETTE.tail[0] if part == "tail" or part.endswith(", tail") else PALETTE.standing[0]
