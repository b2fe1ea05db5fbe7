"""What passes through what, found from the settled strands alone: where ropes cross, and how.

The ropes lie on the table z = 0 and are seen along z. At a double point of their centre lines either one leg's strands
lie partly above and partly below the other leg's, which is then the guest in the host's hole, or one leg lies wholly
over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement, pairwise
from typing import NamedTuple

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.checking.rope_measures import centre_line
from fidpath.checking.segments import closest
from fidpath.geometry import Braid, Hole, Strands, strand_angles

APART = 1.5
"""Rope between two stations of one double point, at least, in diameters."""

MERGE = 0.5
"""Double points nearer than this on both legs are one place where the legs run across, in diameters."""

WHOLLY = 0.9
"""Share of all strand pairs above which one leg lies wholly over the other."""

BESIDE_HOLE = 0.5
"""How far beyond a declared hole's half length a pass still counts as in it, in diameters."""

GUEST_OFF = 1.0
"""How far a guest's station may be from the declared one, in diameters."""


@dataclass(frozen=True)
class Found:
    """One leg through a hole, as found: stations in mm, and the face it enters by as its station grows.

    `split` counts the host's strands in its (top, bottom) group, `top` names those of the top group, counted in the
    host's own rope: the side on which most of the strands lie that the braid's law puts on top. `hole` is the declared
    hole it lies in, by its letter, None outside all.
    """

    host: float
    guest: float
    face: str
    split: tuple[int, int]
    hole: str | None
    top: tuple[int, ...]
    host_rope: int = 0
    guest_rope: int = 0


class DoublePoint(NamedTuple):
    """Where two centre lines meet, seen along z: stations in mm on the ropes of these numbers."""

    u: float
    v: float
    u_rope: int = 0
    v_rope: int = 0

    @property
    def swapped(self) -> DoublePoint:
        """The same place, the second leg first."""
        return DoublePoint(self.v, self.u, self.v_rope, self.u_rope)


@dataclass(frozen=True)
class Crossings:
    """All double points of the ropes' centre lines: passes through holes, and all others."""

    passes: tuple[Found, ...]
    outside: tuple[DoublePoint, ...]

    @property
    def stations(self) -> tuple[float, ...]:
        """Every station at which another leg crosses the only rope, mm, in order."""
        passed = [(p.host, p.guest) for p in self.passes]
        return tuple(sorted(u for pair in (*passed, *(point[:2] for point in self.outside)) for u in pair))


def crossings_found(strands: Strands) -> Crossings:
    """Every double point of the centre lines seen along z; the tail inside its cover is no crossing."""
    passes, outside = [], []
    for point in double_points(strands):
        found = _pass_at(strands, point)
        if found is None or found.hole is None:
            outside.append(point)
        if found is not None:
            passes.append(found)
    order = sorted(passes, key=lambda p: (p.host_rope, p.host, p.guest_rope, p.guest))
    return Crossings(tuple(order), tuple(outside))


def double_points(strands: Strands) -> list[DoublePoint]:
    """Where centre lines cross themselves and one another, seen along z; the lower rope or station comes first."""
    pairs = combinations_with_replacement(range(len(strands.ropes)), 2)
    return [point for one, two in pairs for point in _double_points(strands, one, two)]


def _double_points(strands: Strands, one: int, two: int) -> list[DoublePoint]:
    """Where one rope crosses another, or itself where both are the same."""
    ropes = strands.ropes[one], strands.ropes[two]
    lines = [centre_line(strands.alone(rope))[:, :2] for rope in (one, two)]
    d = max(rope.braid.diameter for rope in ropes)
    if one == two:
        i, j = np.triu_indices(len(lines[0]) - 1, max(2, int(np.ceil(APART * d / ropes[0].step))))
    else:
        i, j = (index.ravel() for index in np.indices((len(lines[0]) - 1, len(lines[1]) - 1)))
    s, t, met = _meet(lines[0], lines[1], i, j)
    u = ropes[0].station[i[met]] + s[met] * ropes[0].step
    v = ropes[1].station[j[met]] + t[met] * ropes[1].step
    free = ~_in_cover(strands, one, two, u, v)
    found = _merged(list(zip(u[free].tolist(), v[free].tolist(), strict=True)), MERGE * d)
    return [DoublePoint(u, v, one, two) for u, v in found]


def _meet(one: Floats, two: Floats, i: Ints, j: Ints) -> tuple[Floats, Floats, Bools]:
    """Where pieces i and j of two plane lines `(n, 2)` meet, as shares of either `(m,)`, and whether they do."""
    a, b = one[i], two[j]
    p, q = one[i + 1] - a, two[j + 1] - b
    det = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
    w = b - a
    safe = np.where(det == 0, 1.0, det)
    s = (w[:, 0] * q[:, 1] - w[:, 1] * q[:, 0]) / safe
    t = (w[:, 0] * p[:, 1] - w[:, 1] * p[:, 0]) / safe
    return s, t, (det != 0) & (s >= 0) & (s < 1) & (t >= 0) & (t < 1)


def _in_cover(strands: Strands, one: int, two: int, u: Floats, v: Floats) -> Bools:
    """Whether v, on rope `two`, is tail lying in the standing part and u, on rope `one`, the standing part round it."""
    bury = strands.bury
    if bury is not None and (bury.host_rope, bury.guest_rope) == (two, one) and one != two:
        return _in_cover(strands, two, one, v, u)
    if bury is None or (bury.host_rope, bury.guest_rope) != (one, two):
        return np.zeros(len(u), dtype=bool)
    d = strands.ropes[one].braid.diameter
    return np.asarray((u < bury.host[0] + d) & (v > bury.guest[0] - d))


def _merged(pairs: list[tuple[float, float]], near: float) -> list[tuple[float, float]]:
    """Double points closer than `near` on both legs made one, or none where the legs only touch (an even number)."""
    groups: list[list[tuple[float, float]]] = []
    for pair in sorted(pairs):
        last = next((g for g in groups if max(abs(pair[0] - g[-1][0]), abs(pair[1] - g[-1][1])) < near), None)
        if last is None:
            groups.append([pair])
        else:
            last.append(pair)
    odd = [np.mean(group, axis=0) for group in groups if len(group) % 2]
    return [(float(u), float(v)) for u, v in odd]


def direction(strands: Strands, station: float, rope: int = 0) -> Floats:
    """Unit direction `(2,)` of a rope's centre line on the table at a station."""
    alone = strands.alone(rope)
    line, d = centre_line(alone)[:, :2], alone.braid.diameter
    ends = np.array([station - 0.5 * d, station + 0.5 * d])
    x, y = (np.diff(np.interp(ends, alone.station, line[:, c]))[0] for c in (0, 1))
    return np.asarray(np.array([x, y]) / np.hypot(x, y))


def above(strands: Strands, point: DoublePoint) -> Ints:
    """Whether each strand at u lies over (+1) or under (-1) each strand at v, `(strands, strands) int`.

    Taken where the two come nearest seen along z; the shallower the legs cross, the further along them.
    """
    places = (point.u, point.u_rope), (point.v, point.v_rope)
    one, two = (direction(strands, *place) for place in places)
    sine = max(abs(float(one[0] * two[1] - one[1] * two[0])), 0.25)
    reach = max(strands.ropes[rope].braid.diameter for _, rope in places) * (0.4 + 0.5 / sine)
    hosts, guests = (_stretch(strands.alone(rope), at, reach) for at, rope in places)
    return np.stack([_over(host, guests) for host in hosts])


def _stretch(strands: Strands, station: float, reach: float) -> list[Floats]:
    """Live stretches of every strand of the only rope within `reach` mm of a station, `(m, 3)` each."""
    near, alive = np.abs(strands.station - station) <= reach, strands.alive
    stretches = [strands.points[k, near & alive[k]] for k in range(len(strands.count))]
    return [stretch for stretch in stretches if len(stretch) > 1]


def _over(one: Floats, others: Sequence[Floats]) -> Ints:
    """+1 where line `one` `(m, 3)` lies over each of the others where they come nearest seen along z, else -1."""
    flat, size = np.array([1.0, 1.0, 0.0]), len(one) - 1
    begin, end = (np.concatenate([line[part] for line in others]) for part in (np.s_[:-1], np.s_[1:]))
    j, i = (index.ravel() for index in np.indices((len(begin), size)))
    x, y, gap = closest(one[i] * flat, one[i + 1] * flat, begin[j] * flat, end[j] * flat)
    first = size * np.cumsum([0, *(len(line) - 1 for line in others)])
    k = np.array([start + np.argmin(gap[start:stop]) for start, stop in pairwise(first.tolist())])
    upper = one[i[k], 2] * (1 - x[k]) + one[i[k] + 1, 2] * x[k]
    lower = begin[j[k], 2] * (1 - y[k]) + end[j[k], 2] * y[k]
    return np.where(upper > lower, 1, -1)


def _pass_at(strands: Strands, point: DoublePoint) -> Found | None:
    """The pass at a double point; None where one leg lies wholly over the other."""
    over = above(strands, point)
    if abs(over.mean()) > WHOLLY:
        return None
    if np.abs(over.mean(axis=1)).mean() >= np.abs(over.mean(axis=0)).mean():
        return _found(strands, point, over.sum(axis=1) > 0)
    return _found(strands, point.swapped, -over.sum(axis=0) > 0)


def top_by_law(braid: Braid, host: float) -> Bools:
    """Strands that the braid's law puts above a hole at this station, `(strands,) bool`."""
    angle = strand_angles(braid.strands, braid.pitch, np.array([host + braid.pick]))[:, 0]
    return np.asarray(np.sin(angle) > 0)


def _nearest_hole(strands: Strands, host: float, rope: int) -> float:
    """The declared hole's own station where the found one lies in it; else the nearest whole diamond."""
    declared = next((hole.host for hole in strands.holes if _inside(strands, hole, host, rope)), None)
    diamond = 2 * strands.ropes[rope].braid.pick
    return round(host / diamond) * diamond if declared is None else declared


def _found(strands: Strands, point: DoublePoint, up: Bools) -> Found:
    """The pass at u of the leg at v; the host's strands `up` lie over it.

    A rolled host shows its left face on the right.
    """
    host, guest, host_rope, guest_rope = point
    law = top_by_law(strands.ropes[host_rope].braid, _nearest_hole(strands, host, host_rope))
    rolled = int((up == law).sum()) * 2 < len(up)
    top = ~up if rolled else up
    one, two = direction(strands, host, host_rope), direction(strands, guest, guest_rope)
    from_left = bool(one[0] * two[1] - one[1] * two[0] < 0) != rolled
    split = int(top.sum()), int((~top).sum())
    members = tuple(int(k) for k in np.nonzero(top)[0])
    face, name = "left" if from_left else "right", _named(strands, point)
    return Found(host, guest, face, split, name, members, host_rope, guest_rope)


def _inside(strands: Strands, hole: Hole, host: float, rope: int) -> bool:
    beside = BESIDE_HOLE * strands.ropes[rope].braid.diameter
    return hole.host_rope == rope and abs(host - hole.host) <= hole.length / 2 + beside


def _named(strands: Strands, point: DoublePoint) -> str | None:
    """The declared hole at u that the leg at v goes through: of several the one whose guest is nearest."""
    near = [hole for hole in strands.holes if _inside(strands, hole, point.u, point.u_rope)]
    off = [(hole.guest_rope != point.v_rope, abs(hole.guest - point.v)) for hole in near]
    return near[off.index(min(off))].name if near else None


class FoundFid(NamedTuple):
    """A fid through a rope: the station of its middle, mm, the host's strands over and under it, and the host."""

    host: float
    split: tuple[int, int]
    host_rope: int = 0


def fids_found(strands: Strands) -> tuple[FoundFid, ...]:
    """Every fid that goes through a rope, in the order of the fids."""
    found = []
    for rod in strands.rods:
        tip, along = np.array(rod.tip), np.array(rod.direction)
        body = np.stack([tip, tip - along * rod.length])
        for rope, alone in enumerate(map(strands.alone, range(len(strands.ropes)))):
            station = _where_across(alone, body[:, :2])
            if station is not None:
                near = _stretch(alone, station, 1.5 * alone.braid.diameter + rod.radius)
                over = sum(bool(_over(strand, [body])[0] > 0) for strand in near)
                found.append(FoundFid(station, (over, len(near) - over), rope))
    return tuple(found)


def _where_across(strands: Strands, across: Floats) -> float | None:
    """The station at which a straight line `(2, 2)` on the table crosses the rope's centre line; None if it doesn't."""
    line = centre_line(strands)[:, :2]
    pieces = len(strands.station) - 1
    s, _, met = _meet(line, across, np.arange(pieces), np.zeros(pieces, dtype=np.int64))
    if not met.any():
        return None
    at = int(np.argmax(met))
    return float(strands.station[at] + s[at] * (strands.station[at + 1] - strands.station[at]))


def passes_equal(found: Sequence[Found], declared: Sequence[Hole], diameter: float) -> bool:
    """Whether found and declared passes match one to one: hole, ropes, guest (within GUEST_OFF diameters), face."""
    left = list(declared)
    for one in found:
        match = next((hole for hole in left if _same(one, hole, diameter)), None)
        if match is None:
            return False
        left.remove(match)
    return not left


def _same(found: Found, declared: Hole, diameter: float) -> bool:
    return (
        found.hole == declared.name
        and (found.host_rope, found.guest_rope) == (declared.host_rope, declared.guest_rope)
        and found.face == declared.face
        and abs(found.guest - declared.guest) <= GUEST_OFF * diameter
    )
