"""The splice under load as it lies: throat, holes, crown, lengthening and splits, found anew on the moved strands."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.checking.found_passes import Found, crossings_found
from fidpath.checking.rope_measures import centre_line, split
from fidpath.checking.throat import throat_angle, throat_to_crown
from fidpath.geometry import Hole, Strands

SLID = 3.0
"""How far a leg may have slid in its hole, in diameters; a pass farther off isn't taken for the same."""

LEG = (2.0, 4.0)
"""Where the legs are plain rope, in diameters beyond the throat."""


def measure_loaded(before: Strands, after: Strands, certificate: float) -> dict[str, Any]:
    """The figures of one loaded state, units in the keys; `hole_spacing_mm` is None without two holes."""
    moved = with_holes_found(after)
    throat = moved.holes[0].host if moved.holes else _ends(moved)[0]
    return {
        "throat_angle_deg": float(np.degrees(throat_angle(moved))),
        "hole_spacing_mm": hole_spacing(moved),
        "throat_to_crown_mm": throat_to_crown(moved, throat),
        "lengthening": lengthening(before, after),
        "loaded_diameter_mm": plain_diameter(after),
        "certificate_min": certificate,
        "split": {hole.name: split(moved, hole)[0] for hole in moved.holes},
    }


def with_holes_found(strands: Strands) -> Strands:
    """The strands with each hole where its leg now goes through: strands slide, and rope with them."""
    passes = crossings_found(replace(strands, holes=())).passes
    return replace(strands, holes=tuple(_moved(hole, passes, strands.braid.diameter) for hole in strands.holes))


def _moved(hole: Hole, passes: tuple[Found, ...], diameter: float) -> Hole:
    def off(found: Found) -> float:
        return abs(found.host - hole.host) + abs(found.guest - hole.guest)

    nearest = min(passes, key=off, default=None)
    if nearest is None or off(nearest) > SLID * diameter:
        return hole
    return replace(hole, host=nearest.host, guest=nearest.guest)


def hole_spacing(strands: Strands) -> float | None:
    """Straight distance between the places where the legs cross in the first two holes, mm; None without them."""
    if len(strands.holes) < 2:
        return None
    line, station = centre_line(strands), strands.station
    places = []
    for hole in strands.holes[:2]:
        at = [[np.interp(u, station, line[:, c]) for c in range(3)] for u in (hole.host, hole.guest)]
        places.append(np.mean(at, axis=0))
    return float(np.linalg.norm(places[1] - places[0]))


def _ends(strands: Strands) -> tuple[float, float]:
    """Stations at which the legs part, the standing part's first."""
    if strands.holes:
        first = strands.holes[0]
        return min(first.host, first.guest), max(first.host, first.guest)
    assert strands.bury is not None
    return strands.bury.host[0], strands.bury.guest[0]


def _plain(strands: Strands) -> Bools:
    """Columns of the legs where they are plain rope, `(n,)`."""
    low, high = _ends(strands)
    off = np.minimum(strands.station - low, high - strands.station) / strands.braid.diameter
    return np.asarray((off > LEG[0]) & (off < LEG[1]))


def plain_diameter(strands: Strands) -> float:
    """Outer diameter of the plain rope in the legs, mean along them, mm."""
    here = _plain(strands)
    off: Floats = np.linalg.norm(strands.points[:, here] - centre_line(strands)[here], axis=2).max(axis=0)
    return float((2 * off + strands.thickness[here]).mean())


def lengthening(before: Strands, after: Strands) -> float:
    """By what share plain rope in the legs is longer than hand-snug."""
    here = _plain(before)
    inside = here[:-1] & here[1:]
    now, then = (np.linalg.norm(np.diff(centre_line(s), axis=0), axis=1)[inside].sum() for s in (after, before))
    return float(now / then - 1)
