"""A scene as a build writes it: its picture, its line art, and its figure for the handout, all drawn from one view."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fidpath.outputs.registry import Request
from fidpath.scene import Scene
from fidpath.units import is_imperial

if TYPE_CHECKING:
    from fidpath.outputs.pictures import View

LIBRARIES = ("matplotlib", "pillow", "typst")
"""Packages that decide the bytes of a picture or a line drawing; the type comes with matplotlib."""


def scene_files(request: Request, scene: Scene, views: Sequence[View], picture: str, drawing: str) -> dict[str, bytes]:
    """The picture by its path and the line drawing, whose name is given, by the paths of its two forms.

    views: what the scene's panels show, as `drawn` makes it.
    """
    return {**_line_art(request, scene, views, drawing), picture: _png(request, scene, views)}


def _png(request: Request, scene: Scene, views: Sequence[View]) -> bytes:
    from fidpath.outputs.pictures import png

    style = request.style
    return png(scene, request.plan.braid.thickness, style.look, style.transparent, views)


def _line_art(request: Request, scene: Scene, views: Sequence[View], name: str) -> dict[str, bytes]:
    from fidpath.outputs.lineart import line_drawing

    sheet = line_drawing.line_scene(scene, request.plan.braid.thickness, _unit(request), views=views)
    shown = line_drawing.svg(sheet)
    return {f"lineart/{name}.svg": shown.encode("utf-8"), f"lineart/{name}.pdf": line_drawing.pdf(sheet, shown)}


def figure(request: Request, scene: Scene, views: Sequence[View]) -> str:
    """The scene's line art as the handout has it, SVG: the same bodies in smaller panels."""
    from fidpath.outputs.handout import compact
    from fidpath.outputs.lineart import line_drawing
    from fidpath.outputs.pictures import seen

    small = compact(scene)
    again = [seen(panel, bodies=view.bodies) for panel, view in zip(small.panels, views, strict=True)]
    reach = request.plan.braid.thickness
    return line_drawing.svg(line_drawing.line_scene(small, reach, _unit(request), sheet=False, views=again))


def _unit(request: Request) -> str:
    return "in" if is_imperial(request.plan.job.length_unit) else "mm"
