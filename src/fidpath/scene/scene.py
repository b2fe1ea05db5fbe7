"""A picture as plain data: panels on a page, each with solids, a camera, cuts, labels and dimensions. No drawing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Part, PartNumbers
from fidpath.meshing import Mesh


@dataclass(frozen=True)
class Coat:
    """A part that shows over what lies below it. part: one, or one a vertex `(v,)`.

    share: `(v,) float32` from 0 to 1, how much of it shows at each vertex.
    """

    part: Part | PartNumbers
    share: NDArray[np.float32]


@dataclass(frozen=True)
class Solid:
    """A mesh to draw and what it is, without any colour. part: what shows where no coat covers it.

    coats: what covers it, the later ones over the earlier. group: `(v,) int`, drawn with a line between different
    numbers; None for one thing. dark: `(v,) bool`, vertices of strands of the darker hand; None for what is not rope.
    cap: whether its faces are cuts through what it belongs to.
    """

    mesh: Mesh
    part: Part
    coats: tuple[Coat, ...] = ()
    group: Ints | None = None
    dark: Bools | None = None
    cap: bool = False

    @property
    def parts(self) -> PartNumbers:
        """The part that shows most at every vertex, `(v,) uint8`."""
        numbers = np.full(len(self.mesh.points), self.part, dtype=np.uint8)
        for coat in self.coats:
            np.copyto(numbers, np.asarray(coat.part, dtype=np.uint8), where=coat.share > 0.5)
        return numbers


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

    @cached_property
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

    near: pixels from the place that the words rather keep within; None puts them wherever there is room.
    rank: labels of a lower one are placed first. part: what they name, where it is one part: they point at a place near
    by where that is seen. A label whose place is hidden is left out.
    """

    text: str
    at: tuple[float, float, float]
    mark: str = ""
    near: float | None = None
    rank: int = 0
    part: Part | None = None


@dataclass(frozen=True)
class Dimension:
    """A measured length between two places in mm, drawn beside what is measured, its text beside it.

    way: places in mm that it is measured along, from `start` to `end`, such as a rope's middle line; empty for a
    straight line. side: where the line goes rather: below (1) or above (-1) a straight one, on a vertical one's right
    or left; on the right (1) or left (-1) of a way as it runs in the picture.
    """

    text: str
    start: tuple[float, float, float]
    end: tuple[float, float, float]
    side: int = 1
    way: tuple[tuple[float, float, float], ...] = ()

    @property
    def line(self) -> Floats:
        """The places it is measured along `(n, 3)` mm."""
        return np.array(self.way if len(self.way) > 1 else (self.start, self.end), dtype=float)


@dataclass(frozen=True)
class Callout:
    """A frame in this panel round what another panel shows larger: its letter, middle in mm, size in mm."""

    letter: str
    middle: tuple[float, float, float]
    size: tuple[float, float]


@dataclass(frozen=True)
class Chip:
    """A number in a small disc on a strand whose middle is at `at` mm; left out where that is hidden. part: its group.

    With `to`, the disc stands off the strand and a line runs to the strand's middle there.
    """

    text: str
    at: tuple[float, float, float]
    part: Part
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
    """One view on the page. box: x, y, width, height in page pixels from the top left corner.

    across: whether it shows a hole cut across its host, its numbers in rows off the strands. head: height of a band
    above the box that is kept for its caption, page pixels; without one the caption lies in the box.
    """

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
    across: bool = False
    head: int = 0

    @property
    def scale(self) -> float:
        """Pixels to a millimetre."""
        return self.box[2] / self.camera.width


@dataclass(frozen=True)
class Scene:
    """A page of panels, with a title, the parts its key explains, and what must be said under it.

    called: parts that have another name in it than they have everywhere.
    """

    name: str
    title: str
    panels: tuple[Panel, ...]
    key: tuple[Part, ...] = ()
    notes: tuple[str, ...] = ()
    size: tuple[int, int] = (1600, 1200)
    words: tuple[Words, ...] = ()
    called: tuple[tuple[Part, str], ...] = ()


def project(panel: Panel, points: Floats) -> Floats:
    """Page pixels `(n, 2)` of points `(n, 3)` mm as the panel's camera sees them."""
    camera = panel.camera
    away = np.atleast_2d(np.asarray(points, dtype=float)) - np.asarray(camera.middle)
    x, y, width, height = panel.box
    across, upward = away @ np.asarray(camera.right), away @ np.asarray(camera.up)
    return np.column_stack([x + width / 2 + across * panel.scale, y + height / 2 - upward * panel.scale])


@dataclass(frozen=True)
class Aim:
    """What a camera looks at, seen from one side: its middle, and how far it reaches across and upward, mm."""

    middle: tuple[float, float, float]
    right: tuple[float, float, float]
    up: tuple[float, float, float]
    across: float
    upward: float

    def camera(self, box: tuple[int, int, int, int], margin: float, least: float) -> Camera:
        """The camera that just holds it in a panel's box.

        margin: a share of the box left free on every side; least: mm that the box is wide at least.
        """
        width = max(self.across, self.upward * box[2] / box[3]) / (1 - 2 * margin)
        return Camera(self.middle, max(width, least), self.right, self.up)


def aimed(points: Floats, toward: Floats, up: Floats) -> Aim:
    """Points `(n, 3)` mm as they are looked at with the viewer along `toward`, `up` upward `(3,)`."""
    ahead = toward / np.linalg.norm(toward)
    right = np.cross(up, ahead)
    right = right / np.linalg.norm(right)
    above = np.cross(ahead, right)
    across, upward, depth = points @ right, points @ above, points @ ahead
    middle = sum(
        axis * (place.max() + place.min()) / 2 for axis, place in ((right, across), (above, upward), (ahead, depth))
    )
    x, y, z = (float(v) for v in np.asarray(middle))
    return Aim((x, y, z), _vector(right), _vector(above), float(np.ptp(across)), float(np.ptp(upward)))


def _vector(v: Floats) -> tuple[float, float, float]:
    return float(v[0]), float(v[1]), float(v[2])
