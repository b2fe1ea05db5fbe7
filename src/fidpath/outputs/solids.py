"""A settled state as solids: one STL in millimetres, one GLB in metres with every part by its name."""

from __future__ import annotations

from collections.abc import Mapping

from fidpath.errors import CannotBeMade
from fidpath.geometry import Part, Strands
from fidpath.job import Terminator
from fidpath.meshing import (
    Mesh,
    Sections,
    joined,
    open_edges,
    part_mesh,
    sections_of,
    strand_mesh,
    terminator_mesh,
    volume,
)
from fidpath.outputs.stl import stl
from fidpath.scene import PART_WORDS, Colour, Solid, colour_of

RAYS = 16
"""Rays of a section in solids: coarser than in pictures, for files of a size that can be sent."""

METRE = 0.001

NO_TOOLS: Mapping[str, Solid] = {}


def files(
    name: str, terminator: Terminator | None, strands: Strands, tools: Mapping[str, Solid] = NO_TOOLS, rays: int = RAYS
) -> dict[str, bytes]:
    """File names and contents; the terminator's body where the strands bear on it, tools by their names.

    Of several ropes the parts go by their rope's name too.

    Raises CannotBeMade where a body isn't closed or has no volume.
    """
    sections = sections_of(strands, rays=rays, refine=1)
    bodies = dict(tools)
    if terminator is not None and strands.seat is not None:
        body = terminator_mesh(terminator, strands.seat_centre)
        bodies[PART_WORDS[Part.TERMINATOR]] = Solid(body, Part.TERMINATOR)
    whole = [strand_mesh(sections, k) for k in range(len(strands.points))]
    strands_named = ((f"strand {k}", mesh) for k, mesh in enumerate(whole))
    for body_name, mesh in (*strands_named, *((n, solid.mesh) for n, solid in bodies.items())):
        check(body_name, mesh)
    parts: dict[str, Solid] = {}
    for rope, laid in enumerate(strands.ropes):
        of_rope = f"{laid.name}, " if len(strands.ropes) > 1 else ""
        parts |= {f"{of_rope}{words}": solid for words, solid in _named(rope_parts(strands, sections, rope)).items()}
    return {
        f"{name}-mm.stl": stl(joined([*whole, *(solid.mesh for solid in bodies.values())]), name),
        f"{name}.glb": _glb({**parts, **bodies}),
    }


def rope_parts(strands: Strands, sections: Sections, rope: int = 0) -> dict[Part, Mesh]:
    """Closed meshes of a rope's parts, all strands of a part in one. Raises CannotBeMade as `check`."""
    parts = {}
    for found in strands.ropes[rope].parts:
        mesh = part_mesh(sections, found, rope=rope)
        if len(mesh.faces):
            check(PART_WORDS[found.part], mesh)
            parts[found.part] = mesh
    return parts


def _named(parts: Mapping[Part, Mesh]) -> dict[str, Solid]:
    return {PART_WORDS[part]: Solid(mesh, part) for part, mesh in parts.items()}


def check(name: str, mesh: Mesh) -> None:
    """Refuses a body that isn't closed or encloses no volume."""
    if open_edges(mesh) or volume(mesh) <= 0:
        raise CannotBeMade(
            f"the solid of {name} isn't a closed body of positive volume",
            "This is a fault in fidpath: please report this job",
        )


def _coloured(mesh: Mesh, colour: Colour):  # type: ignore[no-untyped-def]
    import trimesh

    body = trimesh.Trimesh(mesh.points * METRE, mesh.faces, process=False)
    material = trimesh.visual.material.PBRMaterial(
        baseColorFactor=[*colour, 255], metallicFactor=0.0, roughnessFactor=0.75
    )
    body.visual = trimesh.visual.TextureVisuals(material=material)
    return body


def _glb(parts: Mapping[str, Solid]) -> bytes:
    import trimesh

    scene = trimesh.Scene()
    for name, solid in parts.items():
        scene.add_geometry(_coloured(solid.mesh, colour_of(solid.part)), node_name=name, geom_name=name)
    content: bytes = scene.export(file_type="glb")
    return content
