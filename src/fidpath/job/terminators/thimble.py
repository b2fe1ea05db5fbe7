"""A thimble, round or teardrop by a key of its own."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Literal

from fidpath.job.bearing_body import Body
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.ring import ring
from fidpath.job.terminators.shared_keys import (
    NAME_NOTE,
    BearingDiameter,
    GrooveRadius,
    Hole,
    Width,
    check_hole,
    grooved,
    mm,
    refuse,
)
from fidpath.job.terminators.teardrop import LENGTH, NOSE_RADIUS, check_nose, teardrop

Shape = Literal["round", "teardrop"]

OF_A_TEARDROP = "needed where it is a teardrop"


class ThimbleTable(Table):
    """[terminator] kind = "thimble"."""

    kind: Literal["thimble"]
    name: Annotated[Name, Key(NAME_NOTE, "thimble")] = "thimble"
    shape: Annotated[Shape, Key("round, or a teardrop whose flanks run to a nose", "teardrop", "Thimble's shape")]
    bearing_diameter: BearingDiameter
    groove_radius: GrooveRadius
    width: Width
    length: Annotated[Length | None, replace(LENGTH, left_out=OF_A_TEARDROP)] = None
    nose_radius: Annotated[Length | None, NOSE_RADIUS] = None
    hole: Hole = None


@register(ThimbleTable, label="thimble", note="a thimble, round or teardrop")
def checked(table: ThimbleTable, d: float) -> Body:
    """The thimble of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width, groove, hole = grooved(table, "thimble", d, "hole")
    check_hole("hole", hole, bearing)
    if table.shape == "round":
        _check_round(table)
        return ring(bearing, width, groove, hole)
    if table.length is None:
        raise refuse("length", "this key is missing", f"Add length = {LENGTH.written}.")
    length, nose = mm(table, "length"), mm(table, "nose_radius")
    check_nose(bearing, length, nose, 'shape = "round"')
    return teardrop(bearing, width, groove, length, nose, hole)


def _check_round(table: ThimbleTable) -> None:
    """A round one has none of a teardrop's measures. Raises KeyedError."""
    for name in ("length", "nose_radius"):
        if getattr(table, name) is not None:
            raise refuse(name, "a round thimble has no such key", 'Leave it out, or write shape = "teardrop".')
