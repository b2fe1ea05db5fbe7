"""The desktop window's drawing: pyvista actors of every state seen so far, switched on and off."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.meshing import Mesh
from fidpath.outputs import font_file
from fidpath.scene import PALETTE, Camera, Chip, Label, Solid, colour_of, colours_of, material_of
from fidpath.viewing.window.step_scene import SIZE
from fidpath.viewing.window.strand_numbers import Numbers

COLUMN = 0.27
"""Share of the window's width that the words take."""

LIGHTS = (((-0.55, 0.75, 1.0), 0.92), ((0.9, -0.25, 0.7), 0.40))
"""Where the lights stand about the viewer, and how strong they are, as in the pictures."""

ASIDE = (244, 245, 247)
"""Ground of the words' half."""

TITLE, TEXT, MARK, NUMBER = 17, 13, 15, 11
"""Sizes of type, pixels."""

LETTERS_A_LINE, TITLE_LETTERS = 42, 30

FROM_FILE = 4
"""VTK's number for a font that comes from a file (VTK_FONT_FILE, which has no name in Python)."""

CLEAR_OF_ROPE, APART = 12.0, 26.0
"""How far letters stand off the rope's edge, and their places from one another, pixels."""

LENGTHS, WAYS = (36, 60, 90, 130, 180), 16
"""Lengths of lines to marks that are tried, pixels, and directions."""


def shares(colour: tuple[int, int, int]) -> tuple[float, float, float]:
    """A colour as VTK has it, 0 to 1."""
    r, g, b = (value / 255 for value in colour)
    return r, g, b


def typed(style: Any, size: int, bold: bool = False) -> None:
    """Gives a text's style its font, size and colour."""
    style.SetFontFamily(FROM_FILE)
    style.SetFontFile(str(font_file(bold)))
    style.SetFontSize(size)
    style.SetColor(*shares(PALETTE.ink))


def numbered(style: Any, chip: Chip) -> None:
    """Gives a strand's number its type on its group's colour."""
    typed(style, NUMBER, bold=True)
    colour = colour_of(chip.part)
    style.SetColor(*shares(PALETTE.ink if min(colour) > 127 else PALETTE.paper))
    style.SetBackgroundColor(*shares(colour))
    style.SetFrame(True)
    style.SetFrameColor(*shares(PALETTE.ink))
    style.SetBackgroundOpacity(1.0)
    style.SetJustificationToCentered()
    style.SetVerticalJustificationToCentered()


@dataclass(frozen=True)
class WindowBody:
    """A surface with its colours, and how it takes the light."""

    data: Any
    gloss: float
    flat: bool


class Canvas:
    """The window's two halves, words at the left and the splice at the right, and what has been put into them."""

    def __init__(self, title: str) -> None:
        import pyvista

        self.pyvista: Any = pyvista
        self.plotter: Any = self.pyvista.Plotter(
            shape=(1, 2), col_weights=[COLUMN, 1 - COLUMN], border=False, window_size=SIZE, lighting="none", title=title
        )
        self.plotter.disable_anti_aliasing()
        self._words: dict[str, Any] = {}
        self._marks: list[Any] = []
        self._rope: tuple[Floats, Floats, float] = (np.zeros((0, 3)), np.zeros((0, 3)), 0.0)
        self.plotter.subplot(0, 0)
        self.plotter.set_background(shares(ASIDE), all_renderers=False)
        self.plotter.subplot(0, 1)
        self.plotter.set_background(shares(PALETTE.paper), all_renderers=False)
        for place, strength in LIGHTS:
            light = self.pyvista.Light(
                position=place, focal_point=(0, 0, 0), light_type="camera light", intensity=strength
            )
            self.plotter.add_light(light)
        self.numbers = Numbers(self.plotter.renderers[1], numbered)

    def open(self) -> None:
        """Opens the window; keys of VTK's own are left out."""
        self.plotter.show(interactive_update=True, auto_close=False)
        self.plotter.iren.style.AddObserver("CharEvent", lambda *_: None)
        self.plotter.iren.style.AddObserver("EndInteractionEvent", lambda *_: self._turned())

    def _turned(self) -> None:
        self.set_off()
        self.render()

    def slider(self, last: int, moved: Callable[[float], None]) -> Any:
        """A slider over the steps 1 to `last` along the foot of the splice's half."""
        self.plotter.subplot(0, 1)
        widget = self.plotter.add_slider_widget(
            moved,
            (1, last),
            value=1,
            pointa=(0.06, 0.06),
            pointb=(0.94, 0.06),
            interaction_event="always",
            style="modern",
            color=shares(PALETTE.ink),
            slider_width=0.02,
            tube_width=0.004,
        )
        widget.GetRepresentation().SetLabelHeight(0.02)
        return widget

    def body(self, solid: Solid) -> WindowBody:
        """A solid as VTK's surface, its colours at its points; made in any thread."""
        data, material = surface(self.pyvista, solid.mesh), material_of(solid)
        data["colour"] = colours_of(solid)
        if solid.mesh.normals is None:
            data = data.compute_normals(split_vertices=True, feature_angle=25, cell_normals=False)
        return WindowBody(data, material.gloss, material.flat)

    def add(self, body: WindowBody) -> Any:
        """A body as an actor, drawn from now on."""
        self.plotter.subplot(0, 1)
        return self.plotter.add_mesh(
            body.data,
            scalars="colour",
            rgb=True,
            smooth_shading=True,
            interpolation="phong",
            ambient=0.8 if body.flat else 0.32,
            diffuse=0.25 if body.flat else 0.72,
            specular=body.gloss,
            specular_power=18,
            show_scalar_bar=False,
            reset_camera=False,
            render=False,
        )

    def drop(self, actors: Iterable[Any]) -> None:
        """Takes actors out for good."""
        self.plotter.subplot(0, 1)
        for actor in actors:
            self.plotter.remove_actor(actor, reset_camera=False, render=False)

    def look(self, camera: Camera) -> None:
        """Points the camera as a picture of the step does."""
        self.plotter.subplot(0, 1)
        width, height = self.plotter.window_size
        view, middle = self.plotter.camera, np.asarray(camera.middle)
        view.parallel_projection = True
        view.position = tuple(middle + camera.toward * 4 * camera.width)
        view.focal_point = tuple(middle)
        view.up = camera.up
        view.parallel_scale = camera.width * height / (width * (1 - COLUMN)) / 2
        self.plotter.renderer.ResetCameraClippingRange()

    def turn(self, across: float, over: float) -> None:
        """Turns the splice by degrees about the picture's upright and its level."""
        camera = self.plotter.renderers[1].GetActiveCamera()
        camera.Azimuth(across)
        camera.Elevation(over)
        camera.OrthogonalizeViewUp()
        self.plotter.renderers[1].ResetCameraClippingRange()
        self.set_off()

    def zoom(self, by: float) -> None:
        """Brings the splice nearer by a factor."""
        self.plotter.renderers[1].GetActiveCamera().Zoom(by)

    def page(self, title: str, words: Iterable[str], said: Iterable[str], foot: str) -> None:
        """The left half: a title, paragraphs under it, what is to be said now at its foot."""
        heading = textwrap.fill(title, TITLE_LETTERS)
        self.write("title", heading, (0.05, 0.98), TITLE, bold=True)
        height = self.plotter.window_size[1]
        top = 0.98 - (1.3 * TITLE * (heading.count("\n") + 1) + 12) / height
        self.write("words", "\n\n".join(textwrap.fill(text, LETTERS_A_LINE) for text in words), (0.05, top))
        last = "\n\n".join(textwrap.fill(text, LETTERS_A_LINE) for text in (*said, foot))
        self.write("said", last, (0.05, 0.02 + 1.3 * TEXT * (last.count("\n") + 1) / height))

    def write(self, name: str, text: str, place: tuple[float, float], size: int = TEXT, bold: bool = False) -> None:
        """Words in the left half in place of those of that name; `place`: their upper left corner, shares of it."""
        from vtkmodules.vtkRenderingCore import vtkTextActor

        actor = self._words.get(name)
        if actor is None:
            actor = self._words[name] = vtkTextActor()
            actor.GetPositionCoordinate().SetCoordinateSystemToNormalizedViewport()
            style = actor.GetTextProperty()
            typed(style, size, bold)
            style.SetVerticalJustificationToTop()
            style.SetLineSpacing(1.15)
            self.plotter.renderers[0].AddViewProp(actor)
        actor.SetPosition(*place)
        actor.SetInput(text)

    def mark(self, labels: Iterable[Label], line: Floats, width: float) -> None:
        """Letters of marks, each off the rope with a line to its place; they replace those before.

        line: the rope's middle `(n, 3)` mm; width: how wide the rope is, mm.
        """
        for actor in self._marks:
            self.plotter.renderers[1].RemoveViewProp(actor)
        lettered = [label for label in labels if label.mark]
        self._marks = [letter_at(label) for label in lettered]
        self._rope = (np.array([label.at for label in lettered]).reshape(-1, 3), line, width)
        for actor in self._marks:
            self.plotter.renderers[1].AddViewProp(actor)
        self.set_off()

    def set_off(self) -> None:
        """Puts every letter where it lies off the rope as the camera sees it now."""
        places, line, width = self._rope
        spots, rope = self._pixels(places), self._pixels(line)
        camera = self.plotter.renderers[1].GetActiveCamera()
        height = self.plotter.renderers[1].GetSize()[1]
        room = 0.5 * width * height / (2 * camera.GetParallelScale()) + CLEAR_OF_ROPE
        offsets = leaders(spots, rope, room)
        for actor, offset in zip(self._marks, offsets, strict=True):
            actor.SetPosition(*offset)
        self.numbers.look()

    def _pixels(self, points: Floats) -> Floats:
        """Where points `(n, 3)` mm lie in the right half, `(n, 2)` pixels from its lower left corner."""
        renderer = self.plotter.renderers[1]
        width, height = renderer.GetSize()
        found = renderer.GetActiveCamera().GetCompositeProjectionTransformMatrix(width / height, -1, 1)
        matrix = np.array([[found.GetElement(i, j) for j in range(4)] for i in range(4)])
        seen = np.column_stack([points, np.ones(len(points))]) @ matrix.T
        return np.asarray((seen[:, :2] / seen[:, 3:] + 1) / 2 * [width, height])

    def render(self) -> None:
        """Draws everything anew."""
        self.plotter.render()

    def picture(self) -> bytes:
        """What the window shows, as PNG."""
        import io

        from PIL import Image

        out = io.BytesIO()
        Image.fromarray(self.plotter.screenshot(None, return_img=True)).save(out, format="PNG")
        return out.getvalue()


def letter_at(label: Label) -> Any:
    """A mark's letter at the end of a line to its place."""
    from vtkmodules.vtkRenderingAnnotation import vtkCaptionActor2D

    actor = vtkCaptionActor2D()
    actor.SetCaption(label.mark)
    actor.SetAttachmentPoint(*label.at)
    actor.GetPositionCoordinate().SetCoordinateSystemToDisplay()
    actor.GetPositionCoordinate().SetReferenceCoordinate(actor.GetAttachmentPointCoordinate())
    actor.SetWidth(0.001)
    actor.SetHeight(0.001)
    actor.BorderOff()
    actor.ThreeDimensionalLeaderOff()
    actor.GetTextActor().SetTextScaleModeToNone()
    actor.GetProperty().SetColor(*shares(PALETTE.ink))
    style = actor.GetCaptionTextProperty()
    typed(style, MARK, bold=True)
    style.SetItalic(False)
    style.SetShadow(False)
    style.SetJustificationToCentered()
    style.SetVerticalJustificationToCentered()
    style.SetBackgroundColor(*shares(PALETTE.paper))
    style.SetBackgroundOpacity(0.85)
    return actor


def leaders(spots: Floats, rope: Floats, room: float) -> list[tuple[float, float]]:
    """How far each mark's letter stands from its spot, pixels: as near as is clear of the rope and of other letters.

    spots `(m, 2)`, rope: its middle line `(n, 2)`, pixels; room: how far off that line a letter has to stand.
    """
    turns = np.pi / 2 - 2 * np.pi * (np.arange(WAYS) + 0.5) / WAYS
    ways = np.column_stack([np.cos(turns), np.sin(turns)])
    tried = np.concatenate([length * ways for length in LENGTHS])
    taken: list[Floats] = []
    found = []
    for spot in spots:
        clear = np.linalg.norm((spot + tried)[:, None] - rope[None], axis=2).min(axis=1) - room
        if taken:
            apart = np.linalg.norm((spot + tried)[:, None] - np.array(taken)[None], axis=2).min(axis=1)
            clear = np.minimum(clear, apart - APART)
        good = np.flatnonzero(clear >= 0)
        chosen = tried[good[0] if len(good) else int(clear.argmax())]
        taken.append(spot + chosen)
        found.append((float(chosen[0]), float(chosen[1])))
    return found


def surface(pyvista: Any, mesh: Mesh) -> Any:
    """A mesh as VTK's surface."""
    data = pyvista.PolyData.from_regular_faces(mesh.points.astype(np.float32), mesh.faces.astype(np.int32))
    if mesh.normals is not None:
        data.point_data.active_normals = mesh.normals.astype(np.float32)
    return data
