"""Tools and arrows as closed meshes, placed by where they are and where they point; all lengths mm.

Everything round is a profile turned about a line; arrows and twine are tubes swept along a line. Sizes beyond what
a step says of its tool follow the rope's diameter, so that a tool looks right beside any rope.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats, Ints, Vector
from fidpath.geometry import Part
from fidpath.meshing import Mesh, joined, sweep_faces
from fidpath.scene.scene import Solid

AROUND = 48
"""Steps round a turned body."""

WALL = 0.22
"""Wall of a hollow fid, as a share of its radius."""

POINT = 5.0
"""Length of a fid's point in radii; its tip is BLUNT radii thick (the settled strands part round the same shape)."""

BLUNT = 0.2

FIGURE = 0.42
"""Height of a tape's figures as a share of its width."""

TICK = 0.22
"""Width of a straight edge's tick in rope diameters at most; ticks are set a tape's ten divisions apart."""


@dataclass(frozen=True)
class ToolPlacement:
    """Where a tool is: its tip, the unit direction it points in, its radius and length, the rope's diameter, mm.

    tip: radius of a tape's far end as a share of its near one. step: mm between a straight edge's ticks.
    """

    place: Vector
    direction: Vector
    radius: float
    length: float
    rope: float
    tip: float = 1.0
    step: float = 0.0


def frame(direction: Floats, up: Floats | None = None) -> Floats:
    """Right-handed axes `(3, 3)` as rows: along `direction`, to its left, and as nearly `up` as can be."""
    along = np.asarray(direction, dtype=float) / np.linalg.norm(direction)
    wanted = np.array([0.0, 0.0, 1.0]) if up is None else np.asarray(up, dtype=float)
    if abs(along @ wanted) > 0.99 * np.linalg.norm(wanted):
        wanted = np.array([1.0, 0.0, 0.0])
    left = np.cross(wanted, along)
    left /= np.linalg.norm(left)
    return np.stack([along, left, np.cross(along, left)])


def turned(profile: Floats, place: Floats, direction: Floats, around: int = AROUND) -> Mesh:
    """A profile `(m, 2)` of (along, radius) turned about the line through `place`; it begins and ends on that line.

    Points on the line are one hub each. Closed; outward where the profile runs along `direction` on its outside.
    """
    along, left, up = frame(direction)
    angle = 2 * np.pi * np.arange(around) / around
    ring = np.cos(angle)[:, None] * left + np.sin(angle)[:, None] * up
    rings = profile[1:-1, 0, None, None] * along + profile[1:-1, 1, None, None] * ring
    hubs = profile[[0, -1], 0, None] * along
    points = np.concatenate([rings.reshape(-1, 3), hubs]) + np.asarray(place)
    return Mesh(points, _closed_faces(len(profile) - 2, around))


def _closed_faces(rings: int, around: int) -> Ints:
    """Faces of so many rings, closed by a hub before the first and one after the last."""
    here, after = np.arange(around), (np.arange(around) + 1) % around
    total = rings * around
    first = np.stack([after, here, np.full(around, total)], axis=1)
    last = np.stack([total - around + here, total - around + after, np.full(around, total + 1)], axis=1)
    return np.concatenate([sweep_faces(rings, around), first, last])


def sleeve(profile: Floats, place: Floats, direction: Floats, around: int = AROUND) -> Mesh:
    """A closed profile `(m, 2)` of (along, radius) carried once round the line: a ring.

    Outward where the profile runs along `direction` on its outer side and back on its inner.
    """
    along, left, up = frame(direction)
    angle = 2 * np.pi * np.arange(around) / around
    ring = np.cos(angle)[:, None] * left + np.sin(angle)[:, None] * up
    points = profile[:, 0, None, None] * along + profile[:, 1, None, None] * ring
    return Mesh(points.reshape(-1, 3) + np.asarray(place), _ring_faces(len(profile), around))


def _ring_faces(rings: int, around: int) -> Ints:
    """Faces of rings in a closed row, the last joined to the first."""
    open_row = sweep_faces(rings + 1, around)
    return np.asarray(open_row % (rings * around), dtype=np.int64)


def transported(line: Floats, start: Floats | None = None) -> tuple[Floats, Floats]:
    """Unit directions `(n, 3)` of a line `(n, 3)` and normals that turn no more than the line does."""
    step = np.gradient(line, axis=0)
    along = step / np.maximum(np.linalg.norm(step, axis=1, keepdims=True), 1e-12)
    normal = frame(along[0], start)[2]
    normals = []
    for t in along:
        normal = normal - (normal @ t) * t
        normal = normal / np.linalg.norm(normal)
        normals.append(normal)
    return along, np.array(normals)


def tube(line: Floats, radius: Floats | float, around: int = 16, flat: float = 1.0) -> Mesh:
    """A closed tube of `radius`, scalar or `(n,)`, along a line `(n, 3)`; `flat` squashes it across the table's up."""
    along, normal = transported(line)
    side = np.cross(normal, along)
    angle = 2 * np.pi * np.arange(around) / around
    wide = np.broadcast_to(np.asarray(radius, dtype=float), len(line))[:, None, None]
    ring = np.cos(angle)[:, None] * side[:, None, :] + flat * np.sin(angle)[:, None] * normal[:, None, :]
    points = np.concatenate([(line[:, None, :] + wide * ring).reshape(-1, 3), line[[0, -1]]])
    return Mesh(points, _closed_faces(len(line), around))


def ring_tube(ring: Floats, radius: float, around: int = 12) -> Mesh:
    """A closed tube along a flat closed line `(n, 3)`, its last point joined to its first."""
    along = np.roll(ring, -1, axis=0) - np.roll(ring, 1, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    normal = np.cross(ring[0] - ring.mean(axis=0), along[0])
    normal /= np.linalg.norm(normal)
    side = np.cross(normal, along)
    angle = 2 * np.pi * np.arange(around) / around
    across = np.cos(angle)[:, None] * side[:, None, :] + np.sin(angle)[:, None] * normal
    return Mesh((ring[:, None, :] + radius * across).reshape(-1, 3), _ring_faces(len(ring), around))


def ball(middle: Floats, radius: float, around: int = 16) -> Mesh:
    """A round body."""
    turn = np.linspace(-np.pi / 2, np.pi / 2, around // 2 + 1)
    profile = radius * np.column_stack([np.sin(turn), np.cos(turn)])
    profile[[0, -1], 1] = 0.0
    return turned(profile, middle, np.array([0.0, 0.0, 1.0]), around)


def arrow(line: Floats, radius: float) -> Mesh:
    """A flat arrow along a line `(n, 3)`, its head 3.2 `radius` wide and 5 `radius` long, shorter on a short line.

    Closed. Raises ValueError for a line without length.
    """
    step = np.linalg.norm(np.diff(line, axis=0), axis=1)
    at = np.concatenate([[0.0], np.cumsum(step)])
    if at[-1] <= 0:
        raise ValueError("an arrow needs a line of some length")
    head = min(5 * radius, 0.6 * at[-1])
    neck = at[-1] - head
    shaft = np.linspace(0, neck, max(int(neck / (0.8 * radius)), 8))
    place = np.concatenate([shaft, neck + np.array([0.02, 0.4, 0.75, 0.999]) * head])
    wide = np.concatenate([np.full(len(shaft), radius), 3.2 * radius * np.array([1.0, 0.61, 0.26, 0.01])])
    path = np.column_stack([np.interp(place, at, line[:, c]) for c in range(3)])
    return tube(path, wide, flat=0.45)


def bent(start: Floats, end: Floats, bow: float, steps: int = 24) -> Floats:
    """A line `(steps, 3)` from start to end that bows out to its left by `bow` of its length, in the table's plane."""
    share = np.linspace(0, 1, steps)[:, None]
    way = end - start
    left = np.array([-way[1], way[0], 0.0])
    return np.asarray(start + share * way + 4 * bow * share * (1 - share) * left)


def box(size: Vector, place: Floats, axes: Floats) -> Mesh:
    """A box with its middle at `place`, its sides along the rows of `axes` `(3, 3)`."""
    corners = np.array([[x, y, z] for z in (-1, 1) for y in (-1, 1) for x in (-1, 1)]) * np.array(size) / 2
    quads = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]]
    faces = np.array([[q[0], q[i], q[i + 1]] for q in quads for i in (1, 2)])
    return Mesh(corners @ axes + np.asarray(place), faces)


def _round_point(radius: float, length: float, at: float = 0.0, steps: int = 5) -> list[tuple[float, float]]:
    """A rounded end that begins on the line at `at` and swells back to `radius` within `length`."""
    turn = np.linspace(0, np.pi / 2, steps)
    return [(at - length * (1 - float(np.cos(t))), radius * float(np.sin(t))) for t in turn]


def fid(radius: float, length: float) -> Floats:
    """Profile of a hollow fid, its tip at 0 pointing along the line: point, shank, open back, bore."""
    bore, depth = radius * (1 - WALL), 0.4 * length
    back = [
        (-POINT * radius, radius),
        (-length + 0.05 * radius, radius),
        (-length, radius * (1 - WALL / 3)),
        (-length, bore),
        (-length + depth, bore),
        (-length + depth + 0.8 * radius, 0.0),
    ]
    return np.array([*_round_point(BLUNT * radius, 0.5 * BLUNT * radius), *back])[::-1]


def _fid(t: ToolPlacement) -> list[Solid]:
    body = turned(fid(t.radius, t.length), np.array(t.place), np.array(t.direction))
    return [Solid(body, Part.FID)]


def _whipping(t: ToolPlacement) -> list[Solid]:
    """A whipping of tape over a rope's end at `place`: `radius` where it begins, `length` back, `tip` of that ahead."""
    turns, nose = 5, 0.25 * t.rope
    along = np.linspace(-t.length, 0.0, 4 * turns + 1)
    ridge = 0.012 * t.rope * np.tile([0.0, 1.0, 1.0, 0.0], turns + 1)[: len(along)]
    outer = t.radius * (1 + (t.tip - 1) * (1 + along / t.length)) + ridge
    inner = t.radius - 0.04 * t.rope
    back = [(-t.length + 0.2 * t.rope, 0.0), (-t.length + 0.05 * t.rope, inner), (-t.length, inner)]
    ahead = [(nose * s, outer[-1] * (1 - s**2)) for s in (0.35, 0.7, 0.9)]
    profile = np.concatenate([back, np.column_stack([along, outer]), ahead, [(nose, 0.0)]])
    return [Solid(turned(profile, np.array(t.place), np.array(t.direction)), Part.WHIPPING)]


def _marker(t: ToolPlacement) -> list[Solid]:
    r, place, way = t.radius, np.array(t.place), np.array(t.direction)
    nib = np.array([(-1.6 * r, 0.0), (-1.6 * r, 0.32 * r), (-0.5 * r, 0.28 * r), (0.0, 0.06 * r), (0.0, 0.0)])
    barrel = [(-t.length, 0.0), (-t.length, 0.8 * r), (-t.length + 0.3 * r, r), (-4.0 * r, r), (-3.4 * r, 0.62 * r)]
    barrel += [(-1.5 * r, 0.5 * r), (-1.5 * r, 0.0)]
    return [
        Solid(turned(nib, place, way), Part.MARKER_NIB),
        Solid(turned(np.array(barrel), place, way), Part.MARKER_BARREL),
    ]


def _knife(t: ToolPlacement) -> list[Solid]:
    """Blade edge down, its point ahead; a wooden handle behind it."""
    along, left, up = frame(np.array(t.direction))
    high, thick, blade = 2.2 * t.radius, 0.35 * t.radius, 0.52 * t.length
    spine = [(0.0, 0.0), (-0.18 * blade, 0.62 * high), (-0.45 * blade, high), (-blade, high), (-blade, 0.12 * high)]
    outline = np.array([*spine, (-0.5 * blade, 0.0), (-0.2 * blade, -0.04 * high)])
    keen = np.array([0.15, 1.0, 1.0, 1.0, 0.3, 0.15, 0.15])[:, None] * thick / 2 * left
    flat = np.array(t.place) + outline[:, :1] * along + outline[:, 1:] * up
    back = np.array(t.place) - blade * along + 0.55 * high * up
    grip = np.array([(0.06, 0.0), (0.06, 0.7), (0.0, 0.95), (-0.25, 1.0), (-0.5, 0.85), (-0.8, 1.05), (-1.0, 0.8)])
    grip = np.concatenate([grip, [[-1.02, 0.0]]]) * [0.48 * t.length, t.radius]
    return [
        Solid(plate(flat + keen, flat - keen), Part.KNIFE_BLADE),
        Solid(turned(grip[::-1], back, along), Part.KNIFE_HANDLE),
    ]


def plate(one: Floats, other: Floats) -> Mesh:
    """A closed plate between two outlines `(m, 3)`, clockwise seen from the first, star-shaped about their middles."""
    m = len(one)
    here, after = np.arange(m), (np.arange(m) + 1) % m
    rim = np.concatenate([np.stack([here, after, after + m], 1), np.stack([here, after + m, here + m], 1)])
    front = np.stack([after, here, np.full(m, 2 * m)], axis=1)
    back = np.stack([here + m, after + m, np.full(m, 2 * m + 1)], axis=1)
    points = np.concatenate([one, other, one.mean(axis=0)[None], other.mean(axis=0)[None]])
    return Mesh(points, np.concatenate([rim, front, back]))


def _post(t: ToolPlacement) -> list[Solid]:
    """A round post, upright by its direction, its top at `place`."""
    r, rounded = t.radius, 0.18 * t.radius
    top = [(0.0, 0.0), (0.0, r - rounded), (-0.3 * rounded, r - 0.3 * rounded), (-rounded, r), (-t.length, r)]
    profile = np.array([*top, (-t.length, 0.0)])[::-1]
    return [Solid(turned(profile, np.array(t.place), np.array(t.direction)), Part.POST)]


def _straight_edge(t: ToolPlacement) -> list[Solid]:
    """A flat bar with a tick every `step` mm along its near edge; `place` is its far end, on its lower side."""
    along, left, up = frame(np.array(t.direction))
    wide, thick = 2 * t.radius, 0.16 * t.rope
    axes = np.stack([along, left, up])
    middle = np.array(t.place) - t.length / 2 * along + thick / 2 * up
    step = t.step or t.rope
    tick = (min(0.1 * step, TICK * t.rope), 0.3 * wide, 0.04 * t.rope)
    start = np.array(t.place) - t.length * along + (thick + tick[2]) * up + (wide / 2 - tick[1] / 2) * left
    count = int(t.length / step)
    ticks = []
    for i in range(1, count):
        long = (1.6 if i % 5 == 0 else 1.0) * tick[1]
        shift = (tick[1] - long) / 2
        ticks.append(box((tick[0], long, tick[2]), start + i * step * along + shift * left, axes))
    bar = Solid(box((t.length, wide, thick), middle, axes), Part.STRAIGHT_EDGE)
    return [bar, Solid(joined(ticks), Part.TICKS)]


def measuring_tape(line: Floats, wide: float, step: float, every: int = 5, counts: float = 1.0) -> list[Solid]:
    """A tape lying flat along a line `(n, 3)` mm, a tick across it every `step` mm, one in `every` longer and numbered.

    counts: by how much the figures on it rise from one to the next.
    """
    length = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    thick = 0.12 * wide
    along, _ = transported(line)
    left = np.cross([0.0, 0.0, 1.0], along)
    ticks, up = [], np.array([0.0, 0.0, 1.0])
    for count, at in enumerate(np.arange(step, length[-1], step), start=1):
        place, way, side = (np.array([np.interp(at, length, v[:, c]) for c in range(3)]) for v in (line, along, left))
        long = wide * (0.3 if count % every == 0 else 0.2)
        middle = place + (wide - long) / 2 * side / np.linalg.norm(side) + 0.75 * thick * up
        ticks.append(box((min(0.12 * step, 0.16 * wide), long, 0.5 * thick), middle, frame(way)))
        if count % every == 0:
            ahead = way if way[0] >= 0 else -way
            clear = place - 0.12 * wide * side / np.linalg.norm(side) + 0.75 * thick * up
            ticks += figures(f"{count // every * counts:g}", clear, frame(ahead), FIGURE * wide, 0.5 * thick)
    ahead = along[0] if along[0][0] >= 0 else -along[0]
    ticks += figures("0", line[0] + 0.3 * wide * along[0] + 0.75 * thick * up, frame(ahead), FIGURE * wide, 0.5 * thick)
    return [Solid(ribbon(line, wide, thick), Part.MEASURING_TAPE), Solid(joined(ticks), Part.TICKS)]


STROKES = {
    "0": "abcdef", "1": "bc", "2": "abged", "3": "abgcd", "4": "fgbc", "5": "afgcd", "6": "afgedc", "7": "abc",
    "8": "abcdefg", "9": "abcdfg", ".": "p",
}  # fmt: skip
"""The strokes of each figure on a tape: a to f clockwise from the top, g across the middle, p a point."""

STROKE_PLACES = {
    "a": (0.5, 1.0, 1), "b": (1.0, 0.75, 0), "c": (1.0, 0.25, 0), "d": (0.5, 0.0, 1),
    "e": (0.0, 0.25, 0), "f": (0.0, 0.75, 0), "g": (0.5, 0.5, 1),
}  # fmt: skip
"""A stroke's middle as shares of a figure's width and height, and whether it lies across."""


def figures(text: str, middle: Floats, axes: Floats, high: float, thick: float) -> list[Mesh]:
    """Figures of plain strokes, `high` mm tall, their middle at a place, along the first of `axes` `(3, 3)`."""
    wide, pen = 0.5 * high, 0.14 * high
    pitch = wide + 0.28 * high
    found = []
    for i, sign in enumerate(text):
        left = (i - (len(text) - 1) / 2) * pitch - wide / 2
        for stroke in STROKES.get(sign, ""):
            u, v, across = STROKE_PLACES.get(stroke, (0.5, 0.05, 1))
            size = (wide + pen if across else pen, pen if across else high / 2 + pen, thick)
            size = (1.4 * pen, 1.4 * pen, thick) if stroke == "p" else size
            at = middle + (left + u * wide) * axes[0] + (v - 0.5) * high * axes[1]
            found.append(box(size, at, axes))
    return found


def ribbon(line: Floats, wide: float, thick: float) -> Mesh:
    """A closed flat band along a line `(n, 3)` on the table."""
    along, _ = transported(line)
    up = np.array([0.0, 0.0, 1.0])
    left = np.cross(up, along)
    left /= np.linalg.norm(left, axis=1, keepdims=True)
    corners = [(1, -1), (1, 1), (-1, 1), (-1, -1)]
    rings = np.stack([line + side * wide / 2 * left + high * thick / 2 * up for side, high in corners], axis=1)
    points = np.concatenate([rings.reshape(-1, 3), line[[0, -1]]])
    return Mesh(points, _closed_faces(len(line), 4))


def _needle(t: ToolPlacement) -> list[Solid]:
    r = t.radius
    shaft = [(0.0, 0.0), (-3 * r, 0.45 * r), (-8 * r, r), (-t.length + r, r), (-t.length, 0.55 * r), (-t.length, 0.0)]
    body = turned(np.array(shaft)[::-1], np.array(t.place), np.array(t.direction), 24)
    return [Solid(body, Part.NEEDLE)]


def stitches(line: Floats, out: Floats, radius: float, crossings: int = 5) -> Mesh:
    """Twine through a rope's middle line `(n, 3)`, crossing it again and again from `out` `(3,)` mm on one side."""
    at = np.linspace(0, 1, len(line))
    share = np.repeat(np.linspace(0, 1, crossings), 2)
    middle = np.column_stack([np.interp(share, at, line[:, c]) for c in range(3)])
    sign = np.tile([1.0, -1.0, -1.0, 1.0], crossings)[: len(share), None]
    return tube(rounded(middle + sign * out, 0.35 * float(np.linalg.norm(out))), radius, 10)


def rounded(corners: Floats, radius: float, steps: int = 7) -> Floats:
    """A line through `corners` `(m, 3)` with its bends eased over `radius` mm to either side, `(n, 3)`."""
    line = [corners[0]]
    for before, at, after in zip(corners[:-2], corners[1:-1], corners[2:], strict=True):
        into, out = before - at, after - at
        ease = min(radius, 0.45 * float(np.linalg.norm(into)), 0.45 * float(np.linalg.norm(out)))
        start = at + ease * into / np.linalg.norm(into)
        end = at + ease * out / np.linalg.norm(out)
        t = np.linspace(0, 1, steps)[:, None]
        line += list((1 - t) ** 2 * start + 2 * t * (1 - t) * at + t**2 * end)
    return np.array([*line, corners[-1]])


TOOLS: dict[str, Callable[[ToolPlacement], list[Solid]]] = {
    "small fid": _fid,
    "large fid": _fid,
    "whipping": _whipping,
    "marker": _marker,
    "knife": _knife,
    "post": _post,
    "straight edge": _straight_edge,
    "needle": _needle,
}
"""Every tool that can be drawn, by its kind."""


def tool_solids(kind: str, placed: ToolPlacement) -> list[Solid]:
    """The closed bodies of a tool. Raises KeyError for a kind that isn't drawn."""
    return TOOLS[kind](placed)
