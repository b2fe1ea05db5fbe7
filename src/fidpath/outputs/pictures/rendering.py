"""A view's picture: its faces lit and shaded, in the colours of a palette."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from fidpath.outputs.pictures.raster import View, axes, turned
from fidpath.outputs.pictures.shading import INKED, Bytes, Lit, crevices, shaded
from fidpath.scene import PALETTE, Palette, Solid, colours_of, material_of


@dataclass(frozen=True)
class RenderStyle:
    """How a picture is rendered.

    gloss: how much of its highlights a thing keeps; lift: share of the way to white that colours are lightened by;
    line: half-width of outlines, page pixels; dpi: pixels to an inch where it is printed, None on a screen;
    palette: the parts' colours.
    """

    gloss: float
    lift: float
    line: float
    dpi: int | None
    palette: Palette = PALETTE


STYLES: Mapping[str, RenderStyle] = MappingProxyType(
    {"screen": RenderStyle(1.0, 0.0, 0.5, None), "print": RenderStyle(0.0, 0.18, 1.0, 230)}
)
"""For a screen, and for ink: no highlights, lighter colours, since ink spreads, and heavier lines."""


def render(view: View, reach: float, style: RenderStyle = STYLES["screen"]) -> Bytes:
    """The picture `(h, w, 3)` of a view; `reach` is the strand thickness in mm that crevices are judged by."""
    bodies = view.bodies
    normals = turned(bodies.normals, np.zeros(3), axes(view.panel.camera), np.zeros(3))
    colours = bodies.spread([colours_of(solid, style.palette) for solid in bodies.solids])
    looks = np.array([_look(solid, style) for solid in bodies.solids], dtype=np.float32)[bodies.solid]
    openness = crevices(view.coarse_front, reach, view.pixel * view.fine)
    wide = max(round(style.line * view.fine), 1)
    pen = wide, 0.3 * reach, INKED * style.line * view.fine / wide
    body = Lit(view.points, normals, colours, bodies.faces, bodies.group, looks)
    return shaded(view.face, view.front, body, openness, style.palette.paper, pen)


def _look(solid: Solid, style: RenderStyle) -> tuple[float, float, float, float]:
    """What a solid gives back of the light, as `shaded` has it."""
    material = material_of(solid, style.palette)
    ambient, diffuse = (0.8, 0.25) if material.flat else (0.32, 0.72)
    return ambient, diffuse, style.gloss * material.gloss, style.lift
