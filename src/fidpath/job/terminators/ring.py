"""A grooved ring."""

from __future__ import annotations

from typing import Annotated, Literal

from fidpath.job.bearing_body import Body, round_planform
from fidpath.job.keys import Key, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import (
    NAME_NOTE,
    BearingDiameter,
    GrooveRadius,
    Hole,
    Width,
    check_hole,
    grooved,
)


class RingTable(Table):
    """[terminator] kind = "ring"."""

    kind: Literal["ring"]
    name: Annotated[Name, Key(NAME_NOTE, "grooved ring")] = "ring"
    bearing_diameter: BearingDiameter
    groove_radius: GrooveRadius
    width: Width
    hole: Hole = None


@register(RingTable, label="ring, round thimble", note="a grooved ring or round thimble")
def checked(table: RingTable, d: float) -> Body:
    """The ring of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width, groove, hole = grooved(table, "ring", d, "hole")
    check_hole("hole", hole, bearing)
    return ring(bearing, width, groove, hole)


def ring(bearing: float, width: float, groove: float, hole: float = 0.0) -> Body:
    """A round body with a groove and a hole; lengths in mm."""
    return Body(round_planform(bearing), width, groove, bore=hole)
