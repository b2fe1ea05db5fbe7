"""The terminator as a closed mesh: its bearing body (`seat`) with rounded lips and holes, or its bars.

Every planform is star-shaped about the crown's centre, so one profile, carried round the planform and closed
at the round hole (or at a hub on the axis), makes the surface without a fold.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry import Seat, seat_of
from fidpath.job import WALL, Body, Terminator
from fidpath.meshing.bars import bars_mesh, drilled
from fidpath.meshing.meshes import Mesh

ROUND = 180
"""Steps round the planform."""


def terminator_mesh(terminator: Terminator, centre: Floats | None = None) -> Mesh:
    """Closed mesh of the terminator, its crown centre at `centre` `(3,)` mm.

    Raises CannotBeMade where its holes don't leave a wall.
    """
    body, seat = terminator.body, seat_of(terminator)
    _check_walls(terminator.kind, body)
    if body.bars:
        mesh = bars_mesh(body.bars)
    else:
        mesh = drilled(_turned(seat, body) if body.bore > 0 else _blind(seat), body.holes, body.width)
    return mesh if centre is None else Mesh(mesh.points + np.asarray(centre), mesh.faces)


def _check_walls(kind: str, body: Body) -> None:
    """Bore and holes leave a wall inside the bearing, and holes one between them. Raises CannotBeMade."""
    crown = body.bearing_diameter / 2
    if body.bore / 2 > crown * (1 - WALL):
        raise CannotBeMade(
            f"the {kind}'s hole of {body.bore:g} mm leaves no wall in a body bearing on {2 * crown:g} mm",
            "make the hole smaller or the bearing diameter larger",
        )
    least = WALL * crown * (1 - 1e-9)
    pairs = combinations(body.holes, 2)
    apart = all(math.dist((a.x, a.y), (b.x, b.y)) - a.radius - b.radius >= least for a, b in pairs)
    if not apart or any(math.hypot(hole.x, hole.y) + hole.radius > crown - least for hole in body.holes):
        size = 2 * body.holes[0].radius
        raise CannotBeMade(
            f"{len(body.holes)} holes of {size:g} mm don't fit in a {kind} bearing on {2 * crown:g} mm",
            "use fewer or smaller holes",
        )


def profile(seat: Seat, steps: int = 29) -> Floats:
    """Outer profile `(m, 2)` mm from the top face down to the bottom one: distance from the planform, and z."""
    if seat.groove <= 0:
        return _rounded_edges(np.array([0.0]), np.array([0.0]), seat, seat.half_width * 0.08)
    half = min(seat.groove, seat.half_width)
    angle = np.arcsin(half / seat.groove) * np.linspace(1, -1, steps)
    reach, z = seat.groove * (1 - np.cos(angle)), seat.groove * np.sin(angle)
    return _rounded_edges(reach, z, seat, 0.45 * (seat.half_width - half))


def _rounded_edges(reach: Floats, z: Floats, seat: Seat, radius: float) -> Floats:
    """The profile with its two outer edges rounded; sharp where there is no land to round."""
    if radius <= 1e-6:
        return np.column_stack([reach, z])
    radius = min(radius, 0.5 * seat.lip) if seat.lip > 0 else radius
    turn = np.linspace(np.pi / 2, 0, 7)
    edge = seat.lip - radius + radius * np.cos(turn)
    top = np.column_stack([edge, seat.half_width - radius + radius * np.sin(turn)])
    inner = np.column_stack([reach, z])
    return np.concatenate([top, inner, top[::-1] * [1, -1]])


def outline(seat: Seat, steps: int = ROUND) -> tuple[Floats, Floats]:
    """Planform points and outward normals, each `(steps, 2)`, counter-clockwise: crown, flank, nose, flank."""
    if seat.reach <= 0:
        angle = 2 * np.pi * np.arange(steps) / steps
        normal = np.column_stack([np.cos(angle), np.sin(angle)])
        return seat.crown * normal, normal
    turn = np.pi / 2 + seat.flank
    crown = np.linspace(-turn, turn, steps // 2)
    nose = np.linspace(turn, 2 * np.pi - turn, steps // 4)
    flank = np.linspace(0, 1, steps // 8 + 2)[1:-1]
    along = np.concatenate([np.zeros_like(crown), flank, np.ones_like(nose), 1 - flank])
    angle = np.concatenate([crown, np.full_like(flank, turn), nose, np.full_like(flank, -turn)])
    normal = np.column_stack([np.cos(angle), np.sin(angle)])
    radius = seat.crown + (seat.nose - seat.crown) * along
    return radius[:, None] * normal - np.column_stack([seat.reach * along, np.zeros_like(along)]), normal


def _shell(seat: Seat) -> Floats:
    """Outer surface points `(steps, m, 3)`."""
    base, normal = outline(seat)
    section = profile(seat)
    flat = base[:, None, :] + section[None, :, :1] * normal[:, None, :]
    z = np.broadcast_to(section[None, :, 1:], (*flat.shape[:2], 1))
    return np.concatenate([flat, z], axis=2)


def _turned(seat: Seat, body: Body) -> Mesh:
    """Body with a round bore: the profile closed over its faces and the bore's wall, its edges slightly broken."""
    shell, bore = _shell(seat), body.bore / 2
    middle = shell[:, 0, :2]
    angle = np.arctan2(middle[:, 1], middle[:, 0])
    hub = body.faces[-1][1] if body.faces else seat.half_width
    ease = 0.08 * min(seat.crown - bore, hub)
    above = [*body.faces, (bore + ease, hub), (bore, hub - ease)]
    rows = [(r, -z) for r, z in above] + above[::-1]
    wall = [np.column_stack([r * np.cos(angle), r * np.sin(angle), np.full_like(angle, z)]) for r, z in rows]
    grid = np.concatenate([shell, np.stack(wall, axis=1)], axis=1)
    n, m = grid.shape[:2]
    index = np.arange(n * m).reshape(n, m)
    return Mesh(grid.reshape(-1, 3), _quads(index, np.roll(index, -1, axis=1)))


def _blind(seat: Seat) -> Mesh:
    """Body without a hole: both faces closed at a hub on the axis."""
    shell = _shell(seat)
    n, m = shell.shape[:2]
    index = np.arange(n * m).reshape(n, m)
    sides = _quads(index[:, :-1], index[:, 1:])
    hubs = np.array([[0, 0, seat.half_width], [0, 0, -seat.half_width]])
    after = np.roll(index, -1, axis=0)
    top = np.column_stack([index[:, 0], after[:, 0], np.full(n, n * m)])
    bottom = np.column_stack([after[:, -1], index[:, -1], np.full(n, n * m + 1)])
    return Mesh(np.concatenate([shell.reshape(-1, 3), hubs]), np.concatenate([sides, top, bottom]))


def _quads(here: Ints, below: Ints) -> Ints:
    """Triangles between neighbouring profile points, carried once round."""
    next_here, next_below = np.roll(here, -1, axis=0), np.roll(below, -1, axis=0)
    one = np.stack([here, below, next_below], axis=-1)
    two = np.stack([here, next_below, next_here], axis=-1)
    return np.concatenate([one.reshape(-1, 3), two.reshape(-1, 3)])
