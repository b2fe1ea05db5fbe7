"""How the rope lies: the split at each hole, the order from the eye, the tail inside its cover, lengths and take-up."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Hole, Strands, straight

REACH = 0.9
"""Diameters either side of a hole's centre looked at on host and guest."""

GOING_IN = 1.0
"""Diameters of tail from the entry over which it goes in through the cover (measured: at most 0.86)."""

WIDEST_GAP = np.radians(100.0)
"""Greatest angle between neighbouring strands of a cover that still surrounds its tail."""


def centre_line(strands: Strands) -> Floats:
    """Mean of the only rope's live strands at each column, `(n, 3)` mm."""
    alive = np.arange(strands.points.shape[1])[None, :] < strands.count[:, None]
    weight = alive / np.maximum(alive.sum(axis=0), 1)
    return np.asarray(np.einsum("kn,knc->nc", weight, np.where(alive[..., None], strands.points, 0.0)))


def _window(strands: Strands, station: float) -> Ints:
    """Columns of the only rope near a station."""
    room = REACH * strands.braid.diameter
    return np.nonzero(np.abs(strands.station - station) <= room)[0]


def _tangent(line: Floats, columns: Ints) -> Floats:
    across = line[columns[-1]] - line[columns[0]]
    return np.asarray(across / np.linalg.norm(across))


def sides(strands: Strands, hole: Hole) -> Ints:
    """On which side of each guest strand each host strand passes, `(hosts, guests) int`, +1 or -1.

    The side is taken where the two come nearest when seen along the hole's own normal (host direction x guest
    direction).
    """
    hosts, guests = strands.alone(hole.host_rope), strands.alone(hole.guest_rope)
    at_host, at_guest = _window(hosts, hole.host), _window(guests, hole.guest)
    along_host, along_guest = _tangent(centre_line(hosts), at_host), _tangent(centre_line(guests), at_guest)
    normal = np.cross(along_host, along_guest)
    normal /= np.linalg.norm(normal)
    flat = np.stack([along_host, np.cross(normal, along_host)])
    host, guest = hosts.points[:, at_host], guests.points[:, at_guest]
    found = np.zeros((len(host), len(guest)), dtype=np.int64)
    for h, host_line in enumerate(host):
        seen = host_line @ flat.T
        for g, guest_line in enumerate(guest):
            gap = np.linalg.norm(seen[:, None, :] - (guest_line @ flat.T)[None, :, :], axis=2)
            i, j = np.unravel_index(int(np.argmin(gap)), gap.shape)
            found[h, g] = 1 if (host_line[i] - guest_line[j]) @ normal > 0 else -1
    return found


def split(strands: Strands, hole: Hole) -> tuple[list[int], bool]:
    """Host strands on either side of the guest, and whether every guest strand agrees on it."""
    found = sides(strands, hole)
    over = int((found.sum(axis=1) > 0).sum())
    return [over, len(found) - over], bool(np.all(np.abs(found.sum(axis=1)) == found.shape[1]))


def order_from_eye(strands: Strands) -> list[str]:
    """The holes and the bury as they follow one another from the eye along the load line."""

    def along(rope: int, station: float) -> float:
        return float(np.interp(station, strands.ropes[rope].station, centre_line(strands.alone(rope))[:, 0]))

    places = {hole.name: along(hole.host_rope, hole.host) for hole in strands.holes}
    if strands.bury is not None:
        places["bury"] = along(strands.bury.host_rope, strands.bury.host[0])
    return sorted(places, key=lambda name: -places[name])


def exposed_tail(strands: Strands) -> Floats:
    """Stations of the tail beyond the entry at which its cover doesn't surround it, `(m,)` mm; none if all is well."""
    bury = strands.bury
    assert bury is not None
    hosts, tails = strands.alone(bury.host_rope), strands.alone(bury.guest_rope)
    d, station = hosts.braid.diameter, tails.station
    host_end, tail_start = bury.host[1] - 2 * d, bury.guest[0] + GOING_IN * d
    cover = (hosts.station > host_end) & (hosts.station < bury.host[0] + d)
    inside = np.nonzero((station > tail_start) & (station < bury.guest[1] - 0.05 * d))[0]
    at = centre_line(tails)[inside, 0]
    ring = np.stack([_at_x(line[cover], at) for line in hosts.points])
    middle = ring.mean(axis=0)
    angle = np.sort(np.arctan2(ring[..., 1] - middle[:, 1], ring[..., 0] - middle[:, 0]), axis=0)
    gaps = np.diff(np.concatenate([angle, angle[:1] + 2 * np.pi]), axis=0)
    bad = gaps.max(axis=0) > WIDEST_GAP
    for k, line in enumerate(tails.points):
        live = inside < tails.count[k]
        bad[live] |= ~_within(ring[:, live], middle[live], line[inside[live], 1:])
    return np.asarray(station[inside[bad]])


def _at_x(line: Floats, at: Floats) -> Floats:
    """Where a strand crosses the planes x = at: y and z, `(m, 2)`."""
    order = np.argsort(line[:, 0])
    return np.column_stack([np.interp(at, line[order, 0], line[order, c]) for c in (1, 2)])


def _within(ring: Floats, middle: Floats, point: Floats) -> Bools:
    """Whether points `(m, 2)` lie inside the star-shaped polygon of the cover's strands `(strands, m, 2)`."""
    spoke = ring - middle
    angle = np.arctan2(spoke[..., 1], spoke[..., 0])
    order = np.argsort(angle, axis=0)
    spoke = np.take_along_axis(spoke, order[..., None], axis=0)
    following = np.roll(spoke, -1, axis=0)
    p = (point - middle)[None]
    edge = following - spoke
    out = edge[..., 1] * (p[..., 0] - spoke[..., 0]) - edge[..., 0] * (p[..., 1] - spoke[..., 1])
    a = spoke[..., 0] * p[..., 1] - spoke[..., 1] * p[..., 0]
    b = p[..., 0] * following[..., 1] - p[..., 1] * following[..., 0]
    in_wedge = (a >= 0) & (b >= 0)
    return np.asarray(~np.any(in_wedge & (out > 0), axis=0))


def length_changes(strands: Strands) -> Floats:
    """Each strand's whole length against the same strand in straight rope of the same rope length, `(strands,)`."""
    lengths = [_step_lengths(strands.alone(rope)) for rope in range(len(strands.ropes))]
    return np.concatenate([now.sum(axis=1) / plain.sum(axis=1) - 1 for now, plain in lengths])


def most_changed(strands: Strands) -> float:
    """Station on its rope, mm, about which the strand whose length changed most gains or loses most of it."""
    most = int(np.argmax(np.abs(length_changes(strands))))
    alone, rope = strands.alone(int(strands.rope[most])), strands.rope_of(most)
    now, plain = _step_lengths(alone)
    excess = (now - plain)[int((strands.rope[:most] == strands.rope[most]).sum())]
    wide = max(1, round(rope.braid.diameter / rope.step))
    local = np.convolve(excess, np.ones(wide), mode="same")
    return float(rope.station[int(np.argmax(local * np.sign(excess.sum())))])


def _step_lengths(strands: Strands) -> tuple[Floats, Floats]:
    """Length of every live step of the only rope's strands, now and in straight rope, `(strands, n - 1)` mm each.

    0 beyond a strand's end.
    """
    laid = straight(strands.braid, strands.station + strands.braid.pick)
    live = np.arange(laid.shape[1] - 1)[None, :] < (strands.count - 1)[:, None]
    now, plain = (np.linalg.norm(np.diff(points, axis=1), axis=2) * live for points in (strands.points, laid))
    return now, plain


def take_up(strands: Strands) -> float:
    """Rope the cover loses in length, mm: what its strands' length would make as plain rope, less what it spans.

    Measured from 0.6 d on the eye's side of the entry to 2.5 d beyond the tail's tip, along the rope's centre line.
    """
    bury = strands.bury
    assert bury is not None
    hosts = strands.alone(bury.host_rope)
    d, station = hosts.braid.diameter, hosts.station
    first = int(np.searchsorted(station, bury.host[1] - 2.5 * d))
    last = int(np.searchsorted(station, bury.host[0] + 0.6 * d))
    part = hosts.points[:, first : last + 1]
    plain = straight(hosts.braid, station[first : last + 1] + hosts.braid.pick)
    own = np.linalg.norm(np.diff(part, axis=1), axis=2).sum(axis=1)
    alike = np.linalg.norm(np.diff(plain, axis=1), axis=2).sum(axis=1)
    span = np.linalg.norm(np.diff(part.mean(axis=0), axis=0), axis=1).sum()
    return float((own / alike).mean() * (station[last] - station[first]) - span)
