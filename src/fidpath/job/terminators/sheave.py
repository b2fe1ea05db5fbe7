"""A grooved wheel with a bore for its axle: a rim, a thinner web, a hub."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from fidpath.job.bearing_body import Body, Circle, round_planform
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import (
    NAME_NOTE,
    BearingDiameter,
    GrooveRadius,
    Width,
    check_hole,
    grooved,
)

RIM, HUB, WEB = 0.16, 0.18, 0.45
"""Thickness of rim and hub as shares of the bearing radius, half thickness of the web as a share of half the width:
our own choice, no source. The rope bears on none of them."""

OPENINGS = 6
"""Round openings in the web."""

BORE = Key("diameter of the bore for the axle", "16 mm", "Bore for the axle", (0.5, 5000.0))


class SheaveTable(Table):
    """[terminator] kind = "sheave"."""

    kind: Literal["sheave"]
    name: Annotated[Name, Key(NAME_NOTE, "sheave")] = "sheave"
    bearing_diameter: BearingDiameter
    groove_radius: GrooveRadius
    width: Width
    bore: Annotated[Length, BORE]


@register(SheaveTable, label="sheave", note="a grooved wheel with a bore for its axle")
def checked(table: SheaveTable, d: float) -> Body:
    """The sheave of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width, groove, bore = grooved(table, "sheave", d, "bore")
    check_hole("bore", bore, bearing)
    return sheave(bearing, width, groove, bore)


def sheave(bearing: float, width: float, groove: float, bore: float) -> Body:
    """The wheel; a small one, whose rim and hub would meet, has flat faces. Lengths in mm."""
    crown, half = bearing / 2, width / 2
    rim, hub = crown * (1 - RIM), bore / 2 + HUB * crown
    if rim - hub < 0.1 * crown:
        return Body(round_planform(bearing), width, groove, bore=bore)
    web = WEB * half
    faces = ((rim, half), (rim, web), (hub, web), (hub, half))
    return Body(round_planform(bearing), width, groove, bore=bore, holes=_openings(hub, rim), faces=faces)


def _openings(hub: float, rim: float) -> tuple[Circle, ...]:
    """Openings evenly round the web, clear of one another and of rim and hub."""
    middle = (hub + rim) / 2
    radius = min(0.3 * (rim - hub), 0.6 * middle * math.sin(math.pi / OPENINGS))
    turns = (2 * math.pi * (k + 0.5) / OPENINGS for k in range(OPENINGS))
    return tuple(Circle(middle * math.cos(turn), middle * math.sin(turn), radius) for turn in turns)
