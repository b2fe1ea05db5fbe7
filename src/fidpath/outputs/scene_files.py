"""A scene as a build writes it: its picture, its line art, and its figure for the handout."""

from __future__ import annotations

from fidpath.outputs.registry import Request
from fidpath.scene import Scene
from fidpath.units import is_imperial

LIBRARIES = ("matplotlib", "pillow", "pyvista", "typst", "vtk")
"""Packages that decide the bytes of a picture or a line drawing; the type comes with matplotlib."""


def scene_files(request: Request, scene: Scene, picture: str, drawing: str) -> dict[str, bytes]:
    """The picture by its path and the line drawing, whose name is given, by the paths of its two forms."""
    return {**_line_art(request, scene, drawing), picture: _png(request, scene)}


def figure(request: Request, scene: Scene) -> str:
    """The scene's line art as the handout has it, SVG."""
    from fidpath.outputs.handout import compact
    from fidpath.outputs.lineart import line_drawing

    reach = request.plan.braid.thickness
    return line_drawing.svg(line_drawing.line_scene(compact(scene), reach, _unit(request), sheet=False))


def _png(request: Request, scene: Scene) -> bytes:
    from fidpath.outputs.pictures import png

    return png(scene, request.plan.braid.thickness, request.style.look, request.style.transparent)


def _line_art(request: Request, scene: Scene, name: str) -> dict[str, bytes]:
    from fidpath.outputs.lineart import line_drawing

    sheet = line_drawing.line_scene(scene, request.plan.braid.thickness, _unit(request))
    return {
        f"lineart/{name}.svg": line_drawing.svg(sheet).encode("utf-8"),
        f"lineart/{name}.pdf": line_drawing.pdf(sheet),
    }


def _unit(request: Request) -> str:
    return "in" if is_imperial(request.plan.job.length_unit) else "mm"
