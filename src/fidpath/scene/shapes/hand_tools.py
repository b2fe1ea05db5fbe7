"""Tools as closed bodies, placed by where they are and where they point; all lengths mm.

Sizes beyond what a step says of its tool follow the rope's diameter, so that a tool looks right beside any rope.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Part
from fidpath.meshing import joined
from fidpath.scene.scene import Solid
from fidpath.scene.shapes.solids import box, frame, plate, turned

WALL = 0.22
"""Wall of a hollow fid, as a share of its radius."""

POINT = 5.0
"""Length of a fid's point in radii; its tip is BLUNT radii thick (the settled strands part round the same shape)."""

BLUNT = 0.2

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


def _needle(t: ToolPlacement) -> list[Solid]:
    r = t.radius
    shaft = [(0.0, 0.0), (-3 * r, 0.45 * r), (-8 * r, r), (-t.length + r, r), (-t.length, 0.55 * r), (-t.length, 0.0)]
    body = turned(np.array(shaft)[::-1], np.array(t.place), np.array(t.direction), 24)
    return [Solid(body, Part.NEEDLE)]


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
