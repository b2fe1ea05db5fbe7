"""A picture as plain data: panels on a page, each with solids, a camera, cuts, labels and dimensions. No drawing."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Floats, Ints
from fidpath.meshing.meshes import Mesh

Colour = tuple[int, int, int]


@dataclass(frozen=True)
class Palette:
    """Colours of the rope's stretches, each as (light hand, dark hand), and of what is not rope.

    Straw, green and plum differ in lightness by steps that survive grey print and every common colour
    blindness; the two hands of one stretch differ by a smaller step. The piece between the holes is chequered: its
    hands differ more than any others, so that it shows in grey too. An opened place's top and bottom group have a
    tone each, and so have a hole's two faces, the dotted one and the plain one.
    """

    standing: tuple[Colour, Colour] = ((240, 219, 164), (206, 174, 104))
    eye: tuple[Colour, Colour] = ((118, 178, 150), (72, 132, 110))
    between: tuple[Colour, Colour] = ((160, 204, 244), (34, 82, 164))
    tail: tuple[Colour, Colour] = ((150, 74, 116), (104, 42, 80))
    top_group: Colour = (252, 250, 244)
    bottom_group: Colour = (226, 104, 18)
    dotted_face: Colour = (24, 26, 32)
    plain_face: Colour = (255, 226, 66)
    tape: Colour = (64, 68, 76)
    wood: Colour = (168, 122, 84)
    twine: Colour = (196, 40, 56)
    arrow: Colour = (24, 26, 32)
    ghost: Colour = (238, 240, 243)
    ghost_rim: Colour = (206, 210, 216)
    metal: Colour = (176, 182, 188)
    ink: Colour = (32, 34, 38)
    faint: Colour = (120, 124, 130)
    paper: Colour = (255, 255, 255)


PALETTE = Palette()


@dataclass(frozen=True)
class Solid:
    """A mesh to draw. colours: `(v, 3) uint8` or one colour; strands of one solid are told apart by `group`.

    group: `(v,) int`, drawn with a line between different numbers; None for one thing.
    gloss: strength of the highlight, 0 to 1. flat: shown in its own colour, hardly shaded (cut faces).
    """

    name: str
    mesh: Mesh
    colours: NDArray[np.uint8] | Colour
    group: Ints | None = None
    gloss: float = 0.15
    flat: bool = False


@dataclass(frozen=True)
class Camera:
    """Parallel projection: what point is in the middle, along what the picture's right and up run, how much is seen.

    `width` is the length in mm that fills the panel from left to right. `right` and `up` are unit vectors at right
    angles; the viewer looks along `up x right`.
    """

    middle: tuple[float, float, float]
    width: float
    right: tuple[float, float, float] = (1.0, 0.0, 0.0)
    up: tuple[float, float, float] = (0.0, 1.0, 0.0)

    @property
    def toward(self) -> Floats:
        """Unit vector toward the viewer `(3,)`."""
        return np.cross(np.asarray(self.right), np.asarray(self.up))


def tilted(middle: tuple[float, float, float], width: float, degrees: float) -> Camera:
    """A camera on the eye's plane, leaning over its x axis so that lengths along x stay true."""
    lean = np.radians(degrees)
    return Camera(middle, width, (1.0, 0.0, 0.0), (0.0, float(np.cos(lean)), float(np.sin(lean))))


@dataclass(frozen=True)
class Label:
    """Words at a place: `at` in mm; `mark` is a letter that stands before them.

    near: pixels from the place beyond which the words are rather left out; None puts them wherever there is room.
    rank: labels of a lower one are placed first.
    """

    text: str
    at: tuple[float, float, float]
    mark: str = ""
    near: float | None = None
    rank: int = 0


@dataclass(frozen=True)
class Dimension:
    """A measured length between two places in mm, drawn level, `offset` pixels above (-) or below (+) the rope."""

    text: str
    start: tuple[float, float, float]
    end: tuple[float, float, float]
    side: int = 1


@dataclass(frozen=True)
class Callout:
    """A frame in this panel round what another panel shows larger: its letter, middle in mm, size in mm."""

    letter: str
    middle: tuple[float, float, float]
    size: tuple[float, float]


@dataclass(frozen=True)
class Chip:
    """A number in a small disc of one colour on a strand whose middle is at `at` mm; left out where that is hidden.

    With `to`, the disc stands off the strand and a line runs to the strand's middle there.
    """

    text: str
    at: tuple[float, float, float]
    colour: Colour
    to: tuple[float, float, float] | None = None


@dataclass(frozen=True)
class Ghost:
    """Where the rope lay before: its middle line `(n, 3)` mm and its width in mm, drawn faintly on the paper alone."""

    line: Floats
    width: float


@dataclass(frozen=True)
class Section:
    """A heading, and paragraphs each with what stands before it ("1", "H1", "")."""

    heading: str
    paragraphs: tuple[tuple[str, str], ...]
    framed: bool = False


@dataclass(frozen=True)
class Words:
    """Sections of text set one under the other in a box of page pixels, as large as all of them fit."""

    box: tuple[int, int, int, int]
    sections: tuple[Section, ...]


@dataclass(frozen=True)
class Panel:
    """One view on the page. box: x, y, width, height in page pixels from the top left corner."""

    box: tuple[int, int, int, int]
    camera: Camera
    solids: tuple[Solid, ...]
    caption: str = ""
    letter: str = ""
    labels: tuple[Label, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    callouts: tuple[Callout, ...] = ()
    ghosts: tuple[Ghost, ...] = ()
    chips: tuple[Chip, ...] = ()

    @property
    def scale(self) -> float:
        """Pixels to a millimetre."""
        return self.box[2] / self.camera.width


@dataclass(frozen=True)
class Scene:
    """A page of panels, with a title, a key of colours, and what must be said under it."""

    name: str
    title: str
    panels: tuple[Panel, ...]
    key: tuple[tuple[str, Colour, Colour], ...] = ()
    notes: tuple[str, ...] = ()
    size: tuple[int, int] = (1600, 1200)
    words: tuple[Words, ...] = ()


def project(panel: Panel, points: Floats) -> Floats:
    """Page pixels `(n, 2)` of points `(n, 3)` mm as the panel's camera sees them."""
    camera = panel.camera
    away = np.atleast_2d(np.asarray(points, dtype=float)) - np.asarray(camera.middle)
    x, y, width, height = panel.box
    across, upward = away @ np.asarray(camera.right), away @ np.asarray(camera.up)
    return np.column_stack([x + width / 2 + across * panel.scale, y + height / 2 - upward * panel.scale])


def fitted(box: tuple[int, int, int, int], points: Floats, degrees: float, margin: float = 0.05) -> Camera:
    """The tilted camera that just holds points `(n, 3)` in a panel's box, with a margin as a share of it."""
    camera = tilted((0.0, 0.0, 0.0), 1.0, degrees)
    across, upward = points @ np.asarray(camera.right), points @ np.asarray(camera.up)
    middle = np.asarray(camera.right) * (across.max() + across.min()) / 2
    middle = middle + np.asarray(camera.up) * (upward.max() + upward.min()) / 2
    width = max(float(np.ptp(across)), float(np.ptp(upward)) * box[2] / box[3]) / (1 - 2 * margin)
    return tilted((float(middle[0]), float(middle[1]), float(middle[2])), width, degrees)


def aimed(
    box: tuple[int, int, int, int], points: Floats, toward: Floats, up: Floats, margin: float = 0.06, least: float = 0.0
) -> Camera:
    """The camera that just holds points `(n, 3)` in a panel's box, the viewer along `toward`, `up` upward `(3,)`.

    margin: a share of the box left free on every side; least: mm that the box is wide at least.
    """
    ahead = toward / np.linalg.norm(toward)
    right = np.cross(up, ahead)
    right = right / np.linalg.norm(right)
    above = np.cross(ahead, right)
    across, upward, depth = points @ right, points @ above, points @ ahead
    middle = sum(
        axis * (place.max() + place.min()) / 2 for axis, place in ((right, across), (above, upward), (ahead, depth))
    )
    width = max(float(np.ptp(across)), float(np.ptp(upward)) * box[2] / box[3]) / (1 - 2 * margin)
    x, y, z = (float(v) for v in np.asarray(middle))
    return Camera((x, y, z), max(width, least), _vector(right), _vector(above))


def _vector(v: Floats) -> tuple[float, float, float]:
    return float(v[0]), float(v[1]), float(v[2])
