"""Panels to pixels, off screen. The only importer of pyvista."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats
from fidpath.errors import EnvironmentProblem
from fidpath.meshing import Mesh
from fidpath.outputs.pictures.shading import composed, crevices, outlines
from fidpath.scene import PALETTE, Palette, Panel, Solid, colours_of, material_of

FINE = 2
"""Pixels rendered to one shown, each way."""


@dataclass(frozen=True)
class RenderStyle:
    """How a picture is rendered.

    gloss: how much of its highlights a thing keeps; lift: share of the way to white that colours are lightened by;
    line: half-width of outlines, fine pixels; dpi: pixels to an inch where it is printed, None on a screen;
    palette: the parts' colours.
    """

    gloss: float
    lift: float
    line: int
    dpi: int | None
    palette: Palette = PALETTE


STYLES: Mapping[str, RenderStyle] = MappingProxyType(
    {"screen": RenderStyle(1.0, 0.0, 1, None), "print": RenderStyle(0.0, 0.18, 2, 230)}
)
"""For a screen, and for ink: no highlights, lighter colours, since ink spreads, and heavier lines."""


@dataclass(frozen=True)
class Raster:
    """One panel rendered: colour `(h, w, 3) uint8`, and where there is something `(h, w) bool`.

    front: `(h, w) float32`, how far before the camera's middle plane what shows lies, mm; -inf for paper.
    """

    colour: NDArray[np.uint8]
    solid: Bools
    front: NDArray[np.float32]


def _pyvista() -> Any:
    """pyvista, told to draw without a screen (the setting must stand before its import)."""
    os.environ.setdefault("VTK_DEFAULT_OPENGL_WINDOW", "vtkEGLRenderWindow")
    try:
        import pyvista
    except ImportError as problem:
        raise EnvironmentProblem(
            f"pictures need pyvista, which can't be loaded here ({problem})",
            "install it, or the system's OpenGL library",
        ) from problem
    return pyvista


def render(panel: Panel, reach: float, style: RenderStyle = STYLES["screen"]) -> Raster:
    """The panel, drawn at FINE times its size; `reach` is the strand thickness in mm that crevices are judged by."""
    pyvista = _pyvista()
    width, height = panel.box[2] * FINE, panel.box[3] * FINE
    plotter = pyvista.Plotter(off_screen=True, window_size=(width, height), lighting="none")
    try:
        plotter.disable_anti_aliasing()
        plotter.set_background("white")
        actors = [_add(plotter, pyvista, solid, style) for solid in panel.solids if len(solid.mesh.faces)]
        near, far = _aim(plotter, panel)
        _light(plotter, pyvista)
        plotter.show(auto_close=False)
        colour = _lifted(np.asarray(plotter.screenshot(None)), style.lift)
        depth = _depth(plotter, near, far)
        group = _groups(plotter, panel, actors)
    finally:
        plotter.close()
    pixel = panel.camera.width / width
    openness = crevices(np.ascontiguousarray(depth[::FINE, ::FINE]), reach, pixel * FINE)
    picture = composed(colour, openness, outlines(depth, group, 0.3 * reach, style.line), FINE)
    front = np.float32(_nearest(panel)) - depth[::FINE, ::FINE]
    solid = np.isfinite(depth).reshape(panel.box[3], FINE, panel.box[2], FINE)
    return Raster(picture, np.asarray(solid.any(axis=(1, 3))), front)


def _lifted(colour: NDArray[np.uint8], lift: float) -> NDArray[np.uint8]:
    """Colours lightened by a share of the way to white."""
    return colour if lift == 0 else (colour + lift * (255.0 - colour)).round().astype(np.uint8)


def _offsets(panel: Panel) -> Floats:
    """How far everything in a panel lies before its camera's middle plane, `(v,)` mm."""
    toward, middle = panel.camera.toward, np.asarray(panel.camera.middle)
    return np.concatenate([(s.mesh.points - middle) @ toward for s in panel.solids if len(s.mesh.points)])


def _nearest(panel: Panel) -> float:
    """Where the near plane lies before the camera's middle plane, mm."""
    return float(_offsets(panel).max()) + 1.0


def _data(pyvista: Any, mesh: Mesh) -> Any:
    faces = np.column_stack([np.full(len(mesh.faces), 3), mesh.faces]).ravel()
    return pyvista.PolyData(mesh.points.astype(np.float32), faces)


def _add(plotter: Any, pyvista: Any, solid: Solid, style: RenderStyle) -> tuple[Any, Solid, Any]:
    data = _data(pyvista, solid.mesh)
    if solid.mesh.normals is not None:
        data.point_data.active_normals = solid.mesh.normals.astype(np.float32)
    else:
        data["place"] = np.arange(len(solid.mesh.points))
        data = data.compute_normals(split_vertices=True, feature_angle=25, cell_normals=False)
    colours, material = colours_of(solid, style.palette), material_of(solid, style.palette)
    data["colour"] = colours[data["place"]] if "place" in data.point_data else colours
    actor = plotter.add_mesh(
        data,
        scalars="colour",
        rgb=True,
        smooth_shading=True,
        lighting=True,
        interpolation="phong",
        ambient=0.8 if material.flat else 0.32,
        diffuse=0.25 if material.flat else 0.72,
        specular=style.gloss * material.gloss,
        specular_power=18,
        show_scalar_bar=False,
    )
    return actor, solid, data


def _aim(plotter: Any, panel: Panel) -> tuple[float, float]:
    """Points the camera; the near and far planes hug what is seen, so that depths are fine."""
    camera = panel.camera
    toward = camera.toward
    middle = np.asarray(camera.middle)
    nearest, farthest = _nearest(panel), float(_offsets(panel).min()) - 1.0
    away = nearest + 1.0
    view = plotter.camera
    view.parallel_projection = True
    view.position = tuple(middle + toward * away)
    view.focal_point = tuple(middle)
    view.up = camera.up
    view.parallel_scale = camera.width * panel.box[3] / panel.box[2] / 2
    view.clipping_range = (1.0, away - farthest)
    plotter.renderer.reset_camera_clipping_range = lambda: None
    return 1.0, away - farthest


def _light(plotter: Any, pyvista: Any) -> None:
    for place, strength in (((-0.55, 0.75, 1.0), 0.92), ((0.9, -0.25, 0.7), 0.40)):
        light = pyvista.Light(position=place, focal_point=(0, 0, 0), light_type="camera light", intensity=strength)
        plotter.add_light(light)


def _depth(plotter: Any, near: float, far: float) -> NDArray[np.float32]:
    """Depth behind the near plane `(h, w)` mm, infinite where there is nothing."""
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkCommonCore import vtkFloatArray

    width, height = plotter.window_size
    values = vtkFloatArray()
    plotter.render_window.GetZbufferData(0, 0, width - 1, height - 1, values)
    share = vtk_to_numpy(values).reshape(height, width)[::-1]
    return np.where(share < 1.0, share * np.float32(far - near), np.float32(np.inf))


def _groups(plotter: Any, panel: Panel, actors: list[tuple[Any, Solid, Any]]) -> NDArray[np.int32]:
    """Which group each pixel shows `(h, w) int`, 0 for none: the same view again, unlit, coloured by number."""
    first = 1
    for actor, solid, data in actors:
        group = np.zeros(len(solid.mesh.points), dtype=np.int64) if solid.group is None else solid.group
        if "place" in data.point_data:
            group = group[data["place"]]
        number = group + first
        first = int(number.max()) + 1
        data["colour"] = np.column_stack([number % 256, number // 256 % 256, np.full_like(number, 7)]).astype(np.uint8)
        actor.prop.lighting = False
        actor.prop.interpolation = "flat"
    plotter.set_background("black")
    plotter.render()
    image = np.asarray(plotter.screenshot(None))
    return np.where(image[..., 2] > 0, image[..., 0] + image[..., 1].astype(np.int32) * 256, 0).astype(np.int32)
