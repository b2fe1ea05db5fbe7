"""Films: a turntable of the finished splice, and the method's motion from step to step, painted by two threads.

Painting, sections and picture codecs let go of the interpreter, so threads are enough and nothing is copied about.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

import numpy as np

from fidpath.arrays import Bools, Floats, Progress
from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry import Strands
from fidpath.machine.compiled import jit
from fidpath.meshing import middle as rope_middle
from fidpath.meshing import part_strands, sections_of
from fidpath.outputs.motion.film_files import Picture, Still, write_film
from fidpath.outputs.pictures import Bodies, Pen, Tint, bodies_of, render, seen
from fidpath.planning import Plan
from fidpath.scene import (
    KEY_PARTS,
    PALETTE,
    PART_WORDS,
    Camera,
    Model,
    Panel,
    face_dots,
    opened,
    pair_of,
    rope_solid,
    terminator,
    tools,
    vector,
)
from fidpath.settling import SettledState
from fidpath.states import RopeState

SIZE = (960, 720)
"""Pixels of a film's picture."""

HEAD, FOOT = 72, 34
"""Bands of a picture kept for words, pixels."""

LIMIT = 2_000_000
"""Bytes that a film keeps within."""

TURN_FRAMES, TURN_SHOWN = 120, 70
"""Pictures in a turn of the turntable, and how long each is shown, ms."""

MOVE_SHOWN, HELD = 60, 900
"""How long a picture between steps is shown, and one that ends a stretch or stands beside a jump, ms."""

FINE = 2
"""Fine pixels to one of a film's, each way: fewer than in a still picture, since what moves is softened."""

AHEAD = 6
"""Pictures painted ahead of the one being written."""

COVER_SHOWN = 9.0
"""Rope diameters of cover that the turntable shows below the entry."""

BESIDE = 7.0
"""Rope diameters beyond either hole that the motion's camera holds."""

LEAN, MARGIN, EVENED = 22.0, 0.05, 9
"""Degrees the motion's camera leans, the share of its picture left free, and how many neighbours even out its edges."""

THINNER, KEY = "rope drawn thinner here", "key frame: what lies between isn't shown"

RAYS = 8
"""Points round a strand's section in films."""


@dataclass(frozen=True)
class Shot:
    """One picture of a film before it is painted; words: the heading and what stands under it."""

    bodies: Bodies
    camera: Camera
    words: tuple[str, str]
    shown: int


class Moment(Protocol):
    """A moment of the motion: `share` of the way along a stretch between two steps, and the rope draped there.

    thinner: the rope's thickness as drawn, a share of its own. key: whether it stands beside a change that isn't shown.
    """

    @property
    def stretch(self) -> str: ...
    @property
    def share(self) -> float: ...
    @property
    def state(self) -> RopeState: ...
    @property
    def strands(self) -> Strands: ...
    @property
    def thinner(self) -> float: ...
    @property
    def key(self) -> bool: ...


def film(target: Path, count: int, shot: Callable[[int], Shot], reach: float, tell: Progress | None = None) -> None:
    """Paints shots 0 to count - 1 and writes them to `target`: .webp, .gif, or .mp4 (an optional extra).

    reach: strand thickness, mm. Shots are asked for by two threads at once. Raises OutputError, EnvironmentProblem.
    """
    write_film(target, _stills(count, shot, reach, tell or _silent), LIMIT)


def _silent(_what: str, _share: float) -> None:
    return None


def _stills(count: int, shot: Callable[[int], Shot], reach: float, tell: Progress) -> Iterator[Still]:
    """The painted pictures in order, a few ahead of the one that is taken."""
    with ThreadPoolExecutor(2) as pool:
        waiting: deque[Future[Still]] = deque()
        for number in range(count):
            waiting.append(pool.submit(lambda n: still(shot(n), reach), number))
            if len(waiting) > AHEAD:
                tell("painting the film", (number - AHEAD) / count)
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()


def still(shot: Shot, reach: float) -> Still:
    """A shot painted, with its words."""
    from PIL import Image, ImageDraw

    width, height = SIZE
    sheet = Image.new("RGB", SIZE, PALETTE.paper)
    frame = Panel((0, 0, width, height - HEAD - FOOT), shot.camera, shot.bodies.solids)
    picture = render(seen(frame, FINE, shot.bodies), reach)
    sheet.paste(Image.fromarray(softened(picture)), (0, HEAD))
    pen = Pen(ImageDraw.Draw(sheet))
    heading, note = shot.words
    pen.text((16, 12), heading, 24)
    pen.text((16, 44), note, 16)
    pen.text((16, height - FOOT + 9), BESIDE_PICTURES, 14, Tint.FAINT)
    x = width - 16.0
    for part in reversed(KEY_PARTS):
        x -= pen.extent(PART_WORDS[part], 14)[0]
        pen.text((x, 46), PART_WORDS[part], 14)
        for colour in reversed(pair_of(part)):
            x -= 15
            pen.draw.rectangle((x, 46, x + 12, 58), fill=colour, outline=PALETTE.ink)
        x -= 16
    return Still(np.asarray(sheet), shot.shown)


@jit
def softened(picture: Picture) -> Picture:
    """Every pixel mixed a little with its neighbours: edges don't crawl as they move, and a quarter fewer bytes."""
    height, width = picture.shape[:2]
    across, out = picture.copy(), picture.copy()
    for row in range(height):
        for column in range(1, width - 1):
            for k in range(3):
                beside = int(picture[row, column - 1, k]) + int(picture[row, column + 1, k])
                across[row, column, k] = (beside + 4 * int(picture[row, column, k]) + 3) // 6
    for row in range(1, height - 1):
        for column in range(width):
            for k in range(3):
                beside = int(across[row - 1, column, k]) + int(across[row + 1, column, k])
                out[row, column, k] = (beside + 4 * int(across[row, column, k]) + 3) // 6
    return out


def turntable(plan: Plan, made: SettledState) -> Callable[[int], Shot]:
    """Shots of the finished splice, its eye and throat, turned once about the load line in TURN_FRAMES pictures."""
    strands, d = made.settled.strands, plan.braid.diameter
    model = _model(made.state, strands)
    hidden = plan.station_entry_tail + 2 * d
    meshes = part_strands(model.sections, plan.station_entry_host - COVER_SHOWN * d, hidden, weld=False)
    shown = bodies_of([rope_solid(model, meshes), *terminator(model, plan)])
    camera = _turned(shown.points, d)
    words = (f"{plan.job.name}: the finished splice", "turned once about the load line; the bury runs on to the left")

    def shot(number: int) -> Shot:
        """The shot of that moment."""
        return Shot(shown, camera(2 * np.pi * number / TURN_FRAMES), words, TURN_SHOWN)

    return shot


def _turned(points: Floats, d: float) -> Callable[[float], Camera]:
    """Cameras round the x axis, by their angle in radians, that hold points `(n, 3)` all the way round."""
    low, high = float(points[:, 0].min()), float(points[:, 0].max())
    across = 2 * float(np.hypot(points[:, 1], points[:, 2]).max())
    width = max(high - low - d, across * SIZE[0] / (SIZE[1] - HEAD - FOOT)) * 1.03
    middle = ((low + d + high) / 2, 0.0, 0.0)

    def camera(angle: float) -> Camera:
        return Camera(middle, width, (1.0, 0.0, 0.0), (0.0, float(np.cos(angle)), float(np.sin(angle))))

    return camera


def motion(plan: Plan, moments: Sequence[Moment]) -> Callable[[int], Shot]:
    """Shots of the method's motion, one for each moment; the camera follows the eye and both holes without a jerk."""
    cameras = _followed(plan, moments)

    def shot(number: int) -> Shot:
        """The shot of that moment."""
        moment = moments[number]
        seen = _seen(moment.strands, cameras[number])
        model = _model(moment.state, moment.strands, seen)
        toned = opened(model, moment.state)
        meshes = [m for a, b in _runs(seen, model) for m in part_strands(model.sections, a, b, weld=False)]
        dots = face_dots(model, model.state.openings)
        solids = [rope_solid(model, meshes, toned, dots=dots), *terminator(model, plan), *tools(model, plan, ())]
        note = "; ".join(text for text, holds in ((KEY, moment.key), (THINNER, moment.thinner < 1)) if holds)
        held = moment.key or moment.share >= 1
        return Shot(bodies_of(solids), cameras[number], (moment.stretch, note), HELD if held else MOVE_SHOWN)

    return shot


def _model(state: RopeState, strands: Strands, seen: Bools | None = None) -> Model:
    """What films draw from: sections with few rays, one to each step of the centre lines, at columns seen `(n,)`."""
    line, _ = rope_middle(strands.points, strands.count)
    return Model(state, strands, (line,), sections_of(strands, RAYS, 1, seen))


def _seen(strands: Strands, camera: Camera) -> Bools:
    """Columns `(n,)` of the rope that lie in a picture or within a rope's width of its edges."""
    off = strands.points.mean(axis=0) - np.asarray(camera.middle)
    high = camera.width * (SIZE[1] - HEAD - FOOT) / SIZE[0]
    edges = (camera.width / 2, high / 2)
    ways = (np.asarray(camera.right), np.asarray(camera.up))
    inside = [np.abs(off @ way) < edge + 1.5 * strands.braid.diameter for way, edge in zip(ways, edges, strict=True)]
    return np.asarray(inside[0] & inside[1])


def _runs(seen: Bools, model: Model) -> list[tuple[float, float]]:
    """Stretches of rope, as stations, whose columns are seen."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], seen, [False]]).astype(int)))
    station = model.strands.station
    return [(float(station[a]), float(station[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _followed(plan: Plan, moments: Sequence[Moment]) -> list[Camera]:
    """A camera for each moment, from above and a little from the standing part's right, its frame's edges evened out
    over neighbouring moments."""
    views = [_axes(moment.state.heading) for moment in moments]
    edges = np.array([_edges(plan, moment, *view) for moment, view in zip(moments, views, strict=True)])
    low, high = _smoothed(edges[:, :2], -1), _smoothed(edges[:, 2:], 1)
    shape = SIZE[0] / (SIZE[1] - HEAD - FOOT)
    cameras = []
    for (right, up), a, b in zip(views, low, high, strict=True):
        x, y, z = (float(v) for v in right * (a[0] + b[0]) / 2 + up * (a[1] + b[1]) / 2)
        width = max(float(b[0] - a[0]), float(b[1] - a[1]) * shape) / (1 - 2 * MARGIN)
        cameras.append(Camera((x, y, z), width, vector(right), vector(up)))
    return cameras


def _axes(heading: float) -> tuple[Floats, Floats]:
    """A picture's right and up for a standing part that heads so, radians."""
    along = np.array([np.cos(heading), np.sin(heading), 0.0])
    left = np.array([-along[1], along[0], 0.0])
    lean = np.radians(LEAN)
    return along, np.cos(lean) * left + np.sin(lean) * np.array([0.0, 0.0, 1.0])


def _edges(plan: Plan, moment: Moment, right: Floats, up: Floats) -> Floats:
    """Least and greatest place across and up `(4,)` mm of the eye and of what lies by the holes."""
    d, strands = plan.braid.diameter, moment.strands
    seen = (strands.station > -BESIDE * d) & (strands.station < plan.station_h2 + BESIDE * d)
    points = strands.points[:, seen].reshape(-1, 3)
    across, upward = points @ right, points @ up
    return np.array([across.min(), upward.min(), across.max(), upward.max()])


def _smoothed(edge: Floats, side: int) -> Floats:
    """Edges `(n, 2)` pushed out (side -1: down, 1: up) to the farthest of their neighbours' and then evened out."""
    reach = min(EVENED, (len(edge) - 1) // 2)
    if reach < 1:
        return edge
    padded = np.pad(edge, ((2 * reach, 2 * reach), (0, 0)), mode="edge")
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1, axis=0)
    far = windows.max(axis=2) if side > 0 else windows.min(axis=2)
    return np.asarray(np.lib.stride_tricks.sliding_window_view(far, 2 * reach + 1, axis=0).mean(axis=2))
