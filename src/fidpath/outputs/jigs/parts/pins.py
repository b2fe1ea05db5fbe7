"""A model in two halves, parted along the table's plane so that each lies flat on the bed, and the pins for them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.job import Printing
from fidpath.outputs.jigs.manifolds import closed, revolved
from fidpath.outputs.jigs.pieces import JigPiece, Size

RADII = (2.0, 1.5, 1.0, 0.75)
"""Radii of pins that are tried, mm, the stoutest first."""

DEPTH = 2.0
"""How deep a pin goes into either half, in its own diameters."""

LEVELS = (0.02, 0.4, 0.7, 1.0)
"""Heights, as shares of the depth, at which there must be a wall round a pin."""

APART = 4.0
"""Least distance of two pins in their own diameters."""

CRUMB = 0.02
"""A body smaller than this share of a half is left out."""


@dataclass(frozen=True)
class Pins:
    """Where two pins go, `(2, 2) float` mm in the plane of the cut, and their radius in mm."""

    places: Floats
    radius: float

    @property
    def depth(self) -> float:
        """How deep they go into either half, mm."""
        return 2 * DEPTH * self.radius


def halves_of(solid: Any, name: str, printing: Printing, wall: float) -> tuple[JigPiece, ...]:
    """Lower and upper half, each with its cut on the bed, and the pin (two are needed).

    Raises CannotBeMade where no two pins have a wall round them in both halves, or a half falls apart.
    """
    pins = pins_for(solid, printing.clearance_mm, wall)
    bore = _pin(pins.radius + printing.clearance_mm, pins.depth + 0.5)
    for x, y in pins.places:
        solid -= bore.translate((float(x), float(y), 0.0))
    upper, lower = solid.split_by_plane((0.0, 0.0, 1.0), 0.0)
    pieces = [_half(upper, f"{name}-upper"), _half(lower.rotate((180.0, 0.0, 0.0)), f"{name}-lower")]
    pin = _pin(pins.radius, pins.depth).rotate((0.0, 90.0, 0.0)).trim_by_plane((0.0, 0.0, 1.0), -0.8 * pins.radius)
    size = Size("pin, across", 2 * pins.radius)
    return (*pieces, JigPiece(f"{name}-pin", closed(pin, f"{name}-pin"), sizes=(size,)))


def _half(solid: Any, name: str) -> JigPiece:
    """One half without crumbs. Raises CannotBeMade where it is in more than one piece."""
    found = sorted(solid.decompose(), key=lambda body: -body.volume())
    if any(body.volume() > CRUMB * found[0].volume() for body in found[1:]):
        raise CannotBeMade(
            f"{name} falls into pieces: parts of the step touch only in the other half", "Print this step in one piece"
        )
    return JigPiece(name, closed(found[0], name))


def _pin(radius: float, half: float) -> Any:
    """A pin upright about the plane of the cut, its ends slightly broken."""
    ease = 0.2 * radius
    side = [(radius - ease, -half), (radius, ease - half), (radius, half - ease), (radius - ease, half)]
    return revolved([(0.0, -half), *side, (0.0, half)])


def pins_for(solid: Any, play: float, wall: float) -> Pins:
    """The two stoutest pins furthest apart that have a wall all round, above and below the cut.

    Raises CannotBeMade where there is no room for any.
    """
    for radius in RADII:
        places = _room(solid, radius + play + wall, 2 * DEPTH * radius)
        if len(places) > 1:
            away = np.linalg.norm(places[:, None] - places[None], axis=2)
            i, j = np.unravel_index(int(away.argmax()), away.shape)
            if away[i, j] >= 2 * APART * radius:
                return Pins(places[[i, j]], radius)
    raise CannotBeMade(
        "the halves have no room for pins", "Print it in one piece, or at a larger scale", key="print.scale"
    )


def _room(solid: Any, needed: float, depth: float) -> Floats:
    """Places `(n, 2)` in the plane of the cut round which `needed` mm are solid at every level."""
    from manifold3d import JoinType

    free = None
    for level in (sign * share * depth for share in LEVELS for sign in (1, -1)):
        inner = solid.slice(level).offset(-needed, JoinType.Round, 2.0, 24)
        free = inner if free is None else free ^ inner
    corners = [] if free is None else [np.asarray(ring) for ring in free.to_polygons()]
    return np.concatenate([np.zeros((0, 2)), *corners])
