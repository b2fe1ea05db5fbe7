"""What passes through what, found from the settled strands alone: where the rope crosses itself, and how.

The rope lies on the table z = 0 and is seen along z. At a double point of its centre line either one leg's strands lie
partly above and partly below the other leg's, which is then the guest in the host's hole, or one leg lies wholly over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.checking.layout import centre_line
from fidpath.checking.segments import closest
from fidpath.geometry.braid import strand_angles
from fidpath.geometry.strands import Hole, Strands

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

    `split` counts the host's strands in its (top, bottom) group, `top` names those of the top group: the side on which
    most of the strands lie that the braid's law puts on top. `hole` is the declared hole it lies in, None outside all.
    """

    host: float
    guest: float
    face: str
    split: tuple[int, int]
    hole: str | None
    top: tuple[int, ...]


@dataclass(frozen=True)
class Crossings:
    """All double points of the rope's centre line: passes through holes, and the stations `(u, v)` of all others."""

    passes: tuple[Found, ...]
    outside: tuple[tuple[float, float], ...]

    @property
    def stations(self) -> tuple[float, ...]:
        """Every station at which another leg crosses the rope, mm, in order."""
        passed = [(p.host, p.guest) for p in self.passes]
        return tuple(sorted(u for pair in (*passed, *self.outside) for u in pair))


def passes_found(strands: Strands) -> tuple[Found, ...]:
    """Every pass of the rope through itself, in the order of the host's and then the guest's station."""
    return crossings_found(strands).passes


def crossings_found(strands: Strands) -> Crossings:
    """Every double point of the centre line seen along z; the tail inside its cover is no crossing."""
    passes, outside = [], []
    for u, v in double_points(strands):
        found = _pass_at(strands, u, v)
        if found is None or found.hole is None:
            outside.append((u, v))
        if found is not None:
            passes.append(found)
    return Crossings(tuple(sorted(passes, key=lambda p: (p.host, p.guest))), tuple(outside))


def double_points(strands: Strands) -> list[tuple[float, float]]:
    """Stations `(u, v)`, u < v, in mm at which the centre line crosses itself, seen along z."""
    line = centre_line(strands)[:, :2]
    d, station = strands.braid.diameter, strands.station
    step = float(station[1] - station[0])
    i, j = np.triu_indices(len(line) - 1, max(2, int(np.ceil(APART * d / step))))
    s, t, met = _meet(line, i, j)
    u, v = station[i[met]] + s[met] * step, station[j[met]] + t[met] * step
    free = ~_in_cover(strands, u, v)
    return _merged(list(zip(u[free].tolist(), v[free].tolist(), strict=True)), MERGE * d)


def _meet(line: Floats, i: Ints, j: Ints) -> tuple[Floats, Floats, Bools]:
    """Where pieces i and j of a plane line `(n, 2)` meet, as shares of either `(m,)`, and whether they do."""
    a, b = line[i], line[j]
    p, q = line[i + 1] - a, line[j + 1] - b
    det = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
    w = b - a
    safe = np.where(det == 0, 1.0, det)
    s = (w[:, 0] * q[:, 1] - w[:, 1] * q[:, 0]) / safe
    t = (w[:, 0] * p[:, 1] - w[:, 1] * p[:, 0]) / safe
    return s, t, (det != 0) & (s >= 0) & (s < 1) & (t >= 0) & (t < 1)


def _in_cover(strands: Strands, u: Floats, v: Floats) -> Bools:
    """Whether v is tail lying in the standing part and u the standing part round it."""
    if strands.bury is None:
        return np.zeros(len(u), dtype=bool)
    d = strands.braid.diameter
    return np.asarray((u < strands.bury.host[0] + d) & (v > strands.bury.guest[0] - d))


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


def direction(strands: Strands, station: float) -> Floats:
    """Unit direction `(2,)` of the rope's centre line on the table at a station."""
    line, d = centre_line(strands)[:, :2], strands.braid.diameter
    ends = np.array([station - 0.5 * d, station + 0.5 * d])
    x, y = (np.diff(np.interp(ends, strands.station, line[:, c]))[0] for c in (0, 1))
    return np.asarray(np.array([x, y]) / np.hypot(x, y))


def above(strands: Strands, u: float, v: float) -> Ints:
    """Whether each strand at station u lies over (+1) or under (-1) each strand at v, `(strands, strands) int`.

    Taken where the two come nearest seen along z; the shallower the legs cross, the further along them.
    """
    one, two = direction(strands, u), direction(strands, v)
    sine = max(abs(float(one[0] * two[1] - one[1] * two[0])), 0.25)
    reach = strands.braid.diameter * (0.4 + 0.5 / sine)
    hosts, guests = (_stretch(strands, at, reach) for at in (u, v))
    return np.stack([[_over(h, g) for g in guests] for h in hosts])


def _stretch(strands: Strands, station: float, reach: float) -> list[Floats]:
    """Live stretches of every strand within `reach` mm of a station, `(m, 3)` each."""
    near = np.abs(strands.station - station) <= reach
    alive = np.arange(len(strands.station))[None, :] < strands.count[:, None]
    stretches = [strands.points[k, near & alive[k]] for k in range(len(strands.count))]
    return [stretch for stretch in stretches if len(stretch) > 1]


def _over(one: Floats, two: Floats) -> int:
    """+1 where line `one` `(m, 3)` lies over `two` where they come nearest seen along z, else -1."""
    flat = np.array([1.0, 1.0, 0.0])
    i, j = (index.ravel() for index in np.indices((len(one) - 1, len(two) - 1)))
    x, y, gap = closest(one[i] * flat, one[i + 1] * flat, two[j] * flat, two[j + 1] * flat)
    k = int(np.argmin(gap))
    upper = one[i[k], 2] * (1 - x[k]) + one[i[k] + 1, 2] * x[k]
    lower = two[j[k], 2] * (1 - y[k]) + two[j[k] + 1, 2] * y[k]
    return 1 if upper > lower else -1


def _pass_at(strands: Strands, u: float, v: float) -> Found | None:
    """The pass at a double point; None where one leg lies wholly over the other."""
    over = above(strands, u, v)
    if abs(over.mean()) > WHOLLY:
        return None
    if np.abs(over.mean(axis=1)).mean() >= np.abs(over.mean(axis=0)).mean():
        return _found(strands, u, v, over.sum(axis=1) > 0)
    return _found(strands, v, u, -over.sum(axis=0) > 0)


def top_by_law(strands: Strands, host: float) -> Bools:
    """Strands that the braid's law puts above a hole at this station, `(strands,) bool`."""
    braid = strands.braid
    angle = strand_angles(braid.strands, braid.pitch, np.array([host + braid.pick]))[:, 0]
    return np.asarray(np.sin(angle) > 0)


def _nearest_hole(strands: Strands, host: float) -> float:
    """The declared hole's own station where the found one lies in it; else the nearest whole diamond."""
    declared = next((hole.host for hole in strands.holes if _inside(strands, hole, host)), None)
    diamond = 2 * strands.braid.pick
    return round(host / diamond) * diamond if declared is None else declared


def _found(strands: Strands, host: float, guest: float, up: Bools) -> Found:
    """The pass whose host has the strands `up` over its guest; a rolled host shows its left face on the right."""
    law = top_by_law(strands, _nearest_hole(strands, host))
    rolled = int((up == law).sum()) * 2 < len(up)
    top = ~up if rolled else up
    one, two = direction(strands, host), direction(strands, guest)
    from_left = bool(one[0] * two[1] - one[1] * two[0] < 0) != rolled
    split = int(top.sum()), int((~top).sum())
    members = tuple(int(k) for k in np.nonzero(top)[0])
    return Found(host, guest, "left" if from_left else "right", split, _named(strands, host, guest), members)


def _inside(strands: Strands, hole: Hole, host: float) -> bool:
    return abs(host - hole.host) <= hole.length / 2 + BESIDE_HOLE * strands.braid.diameter


def _named(strands: Strands, host: float, guest: float) -> str | None:
    """The declared hole a found pass lies in: of several the one whose guest is nearest."""
    near = [hole for hole in strands.holes if _inside(strands, hole, host)]
    return min(near, key=lambda hole: abs(hole.guest - guest)).name if near else None


def fids_found(strands: Strands) -> tuple[tuple[float, tuple[int, int]], ...]:
    """Station at which each fid goes through the rope, mm, and how many strands lie over and under it."""
    found = []
    for rod in strands.rods:
        tip, along = np.array(rod.tip), np.array(rod.direction)
        body = np.stack([tip, tip - along * rod.length])
        station = _where_across(strands, body[:, :2])
        if station is not None:
            near = _stretch(strands, station, 1.5 * strands.braid.diameter + rod.radius)
            over = sum(_over(strand, body) > 0 for strand in near)
            found.append((station, (over, len(near) - over)))
    return tuple(found)


def _where_across(strands: Strands, across: Floats) -> float | None:
    """The station at which a straight line `(2, 2)` on the table crosses the rope's centre line; None if it doesn't."""
    line = np.concatenate([centre_line(strands)[:, :2], across])
    pieces = len(strands.station) - 1
    s, _, met = _meet(line, np.arange(pieces), np.full(pieces, len(line) - 2))
    if not met.any():
        return None
    at = int(np.argmax(met))
    return float(strands.station[at] + s[at] * (strands.station[at + 1] - strands.station[at]))


def passes_equal(found: Sequence[Found], declared: Sequence[Hole], diameter: float) -> bool:
    """Whether found and declared passes match one to one: hole, host, guest (within GUEST_OFF diameters), face."""
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
        and found.face == declared.face
        and abs(found.guest - declared.guest) <= GUEST_OFF * diameter
    )
