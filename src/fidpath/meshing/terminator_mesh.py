"""The terminator as a closed mesh: its bearing body (`seat`) with rounded lips, and the holes through it.

Every planform is star-shaped about the crown's centre, so one profile, carried round the planform and closed
at the round hole (or at a hub on the axis), makes the surface without a fold.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry.seat import Seat, seat_of
from fidpath.job.job import Terminator
from fidpath.meshing.meshes import Mesh

ROUND = 180
"""Steps round the planform."""

WALL = 0.12
"""Least wall left beside a hole, as a share of the crown's radius."""


def terminator_mesh(terminator: Terminator, centre: Floats | None = None) -> Mesh:
    """Closed mesh of the terminator, its crown centre at `centre` `(3,)` mm.

    Raises CannotBeMade where its holes don't leave a wall.
    """
    seat = seat_of(terminator)
    bore = (terminator.hole_mm or 0.0) / 2
    if bore > seat.crown * (1 - WALL):
        raise CannotBeMade(
            f"the {terminator.kind}'s hole of {2 * bore:g} mm leaves no wall in a body bearing on "
            f"{2 * seat.crown:g} mm",
            "make the hole smaller or the bearing diameter larger",
        )
    body = _turned(seat, bore) if bore > 0 else _blind(seat)
    if terminator.lashing_holes > 0:
        body = _drilled(body, seat, terminator)
    return body if centre is None else Mesh(body.points + np.asarray(centre), body.faces)


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


def _turned(seat: Seat, bore: float) -> Mesh:
    """Body with a round hole: the profile closed at the hole's wall, its two edges slightly broken."""
    shell = _shell(seat)
    middle = shell[:, 0, :2]
    angle = np.arctan2(middle[:, 1], middle[:, 0])
    ease = 0.08 * min(seat.crown - bore, seat.half_width)
    rows = [(bore, -seat.half_width + ease), (bore, seat.half_width - ease), (bore + ease, seat.half_width)]
    rows.insert(0, (bore + ease, -seat.half_width))
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


def lashing_centres(seat: Seat, number: int, hole: float) -> Floats:
    """Centres `(number, 2)` mm of a deadeye's lashing holes, evenly round its axis, the first toward the nose.

    Raises CannotBeMade where no circle leaves a wall between the holes and round them.
    """
    if number == 1:
        return np.zeros((1, 2))
    wall = WALL * seat.crown
    outer = seat.crown - wall - hole / 2
    inner = (hole + wall) / (2 * float(np.sin(np.pi / number)))
    if inner > outer:
        raise CannotBeMade(
            f"{number} lashing holes of {hole:g} mm don't fit in a deadeye bearing on {2 * seat.crown:g} mm",
            "use fewer or smaller holes",
        )
    angle = np.pi + 2 * np.pi * np.arange(number) / number
    radius = (inner + outer) / 2
    return radius * np.column_stack([np.cos(angle), np.sin(angle)])


def _drilled(body: Mesh, seat: Seat, terminator: Terminator) -> Mesh:
    """The body with its lashing holes. Boolean kernel: manifold3d."""
    from manifold3d import Manifold
    from manifold3d import Mesh as Body

    hole = terminator.lashing_hole_mm or 0.2 * seat.crown
    solid = Manifold(Body(body.points.astype(np.float32), body.faces.astype(np.uint32)))
    for x, y in lashing_centres(seat, terminator.lashing_holes, hole):
        drill = Manifold.cylinder(4 * seat.half_width, hole / 2, hole / 2, 48, True)
        solid -= drill.translate((x, y, 0.0))
    kept = solid.to_mesh()
    return Mesh(np.asarray(kept.vert_properties[:, :3], float), np.asarray(kept.tri_verts, dtype=np.int64))
