"""A thimble whose flanks run to a nose."""

from __future__ import annotations

from typing import Annotated, Literal

from fidpath.job.bearing_body import Body, Circle
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import (
    NAME_NOTE,
    BearingDiameter,
    GrooveRadius,
    Hole,
    Width,
    check_hole,
    grooved,
    refuse,
)

NOSE = 0.15
"""Radius of a nose whose radius isn't given, as a share of the crown's: our own choice, no source."""

LENGTH = Key("length from the crown's bearing to the nose's", "80 mm", "Length, crown to nose", (1.0, 10000.0))
NOSE_RADIUS = Key("radius of the narrow end", "4 mm", "Nose radius", (0.1, 2000.0), f"{NOSE:g} of the bearing radius")


class TeardropTable(Table):
    """[terminator] kind = "teardrop"."""

    kind: Literal["teardrop"]
    name: Annotated[Name, Key(NAME_NOTE, "teardrop thimble")] = "teardrop thimble"
    bearing_diameter: BearingDiameter
    groove_radius: GrooveRadius
    width: Width
    length: Annotated[Length, LENGTH]
    nose_radius: Annotated[Length | None, NOSE_RADIUS] = None
    hole: Hole = None


@register(TeardropTable, label="teardrop thimble", note="a thimble whose flanks run to a nose")
def checked(table: TeardropTable, d: float) -> Body:
    """The thimble of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width, groove, hole, length, nose = grooved(table, "teardrop", d, "hole", "length", "nose_radius")
    check_hole("hole", hole, bearing)
    check_nose(bearing, length, nose, 'kind = "ring"')
    return teardrop(bearing, width, groove, length, nose, hole)


def check_nose(bearing: float, length: float, nose: float, written: str) -> None:
    """It is longer than its crown circle and comes to a nose; a round one is `written` so. Raises KeyedError."""
    if length <= bearing:
        raise refuse(
            "length",
            f"a teardrop of {length:g} mm is shorter than its own circle of {bearing:g} mm",
            f"Measure from the crown's bearing to the nose's; for a round thimble write {written}.",
        )
    if nose >= bearing / 2:
        what = f"a nose of radius {nose:g} mm isn't narrower than the crown"
        raise refuse("nose_radius", what, f"Make it less than {bearing / 2:g} mm.")


def teardrop(bearing: float, width: float, groove: float, length: float, nose: float = 0.0, hole: float = 0.0) -> Body:
    """The hull of crown and nose with a groove run round it, `length` mm from bearing point to bearing point."""
    crown = bearing / 2
    narrow = nose or NOSE * crown
    planform = (Circle(0.0, 0.0, crown), Circle(-(length - crown - narrow), 0.0, narrow))
    return Body(planform, width, groove, bore=hole)
