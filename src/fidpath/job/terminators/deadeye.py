"""A round block with a groove and lashing holes."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from fidpath.job.bearing_body import WALL, Body, Circle, round_planform
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import (
    NAME_NOTE,
    BearingDiameter,
    GrooveRadius,
    Width,
    grooved,
    refuse,
)

MOST_HOLES = 12


class DeadeyeTable(Table):
    """[terminator] kind = "deadeye"."""

    kind: Literal["deadeye"]
    name: Annotated[Name, Key(NAME_NOTE, "three-hole deadeye")] = "deadeye"
    bearing_diameter: BearingDiameter
    groove_radius: GrooveRadius
    width: Width
    lashing_holes: Annotated[int, Key("number of lashing holes", 3, "Lashing holes", (1, MOST_HOLES))]
    lashing_hole: Annotated[Length, Key("diameter of the lashing holes", "12 mm", "Lashing hole", (0.5, 1000.0))]


@register(DeadeyeTable, label="deadeye", note="a round block with a groove and lashing holes")
def checked(table: DeadeyeTable, d: float) -> Body:
    """The deadeye of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width, groove, hole = grooved(table, "deadeye", d, "lashing_hole")
    _check_lashing(bearing, table.lashing_holes, hole)
    return deadeye(bearing, width, groove, table.lashing_holes, hole)


def _check_lashing(bearing: float, holes: int, hole: float) -> None:
    """The holes fit inside the bearing circle: equal circles inside a ring, r/R = s/(1 + s), s = sin(pi/n)."""
    if not 1 <= holes <= MOST_HOLES:
        raise refuse(
            "lashing_holes", f"{holes} lashing holes aren't possible", f"Give a number from 1 to {MOST_HOLES}."
        )
    sine = math.sin(math.pi / holes)
    most = bearing * (1.0 if holes == 1 else sine / (1 + sine))
    if hole >= most:
        what = f"{holes} holes of {hole:g} mm don't fit inside a bearing of {bearing:g} mm"
        raise refuse("lashing_hole", what, f"Make them less than {most:.4g} mm.")


def deadeye(bearing: float, width: float, groove: float, holes: int = 0, hole: float = 0.0) -> Body:
    """A solid round body with so many lashing holes of a diameter evenly round its axis, the first toward the nose."""
    return Body(round_planform(bearing), width, groove, holes=_lashing(bearing / 2, holes, hole))


def _lashing(crown: float, number: int, hole: float) -> tuple[Circle, ...]:
    """The holes midway between where they'd touch one another and where they'd touch the rim."""
    if number <= 1:
        return (Circle(0.0, 0.0, hole / 2),) * number
    wall = WALL * crown
    outer, inner = crown - wall - hole / 2, (hole + wall) / (2 * math.sin(math.pi / number))
    radius = (inner + outer) / 2
    turns = (math.pi + 2 * math.pi * k / number for k in range(number))
    return tuple(Circle(radius * math.cos(turn), radius * math.sin(turn), hole / 2) for turn in turns)
