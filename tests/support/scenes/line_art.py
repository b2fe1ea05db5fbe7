"""Line drawings of a few scenes of one small splice, and flat solids to draw."""

from __future__ import annotations

from functools import lru_cache
from xml.etree import ElementTree

import numpy as np

from fidpath.meshing.meshes import Mesh
from fidpath.outputs.lineart.ink import LineDrawing
from fidpath.outputs.lineart.line_drawing import line_scene, svg
from fidpath.outputs.lineart.panel_lines import PanelArt, panel_art
from fidpath.outputs.pictures.raster import seen
from fidpath.scene.finished_views import finished_scene
from fidpath.scene.scene import Camera, Panel, Scene, Solid
from fidpath.scene.step_picture import step_scene
from scenes.steps import settled_state, small_plan, worded_step

NAMESPACE = "{http://www.w3.org/2000/svg}"
POINT = 25.4 / 72
NASTY = "</script><img onerror='x'> & \"eye\" \x07"


@lru_cache
def scene_named(name: str) -> Scene:
    if name.startswith("1-") or name.startswith("3-"):
        splice = settled_state("buried")
        return finished_scene(name, small_plan(), splice.settled.strands, splice.sections)
    return step_scene(worded_step(name), settled_state(name), settled_state("locked"), small_plan(), 14)


@lru_cache
def drawing_of(name: str, sheet: bool = True) -> LineDrawing:
    return line_scene(scene_named(name), small_plan().braid.thickness, sheet=sheet)


def art_of(panel: Panel, reach: float, page_mm: float) -> PanelArt:
    return panel_art(seen(panel), reach, page_mm)


def flat_square(size: float, z: float = 0.0, x: float = 0.0) -> Mesh:
    corners = np.array([[-1, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0]]) * size / 2 + [x, 0, z]
    return Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]]))


def flat_bar(wide: float, high: float, z: float) -> Mesh:
    square = flat_square(2.0, z)
    return Mesh(square.points * [wide / 2, high / 2, 1.0], square.faces)


def panel_of(*solids: Solid, **more) -> Panel:  # type: ignore[no-untyped-def]
    return Panel((0, 0, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), solids, **more)


def svg_root(drawing: LineDrawing) -> ElementTree.Element:
    return ElementTree.fromstring(svg(drawing).encode())
