"""A plain pin or post."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Literal

from fidpath.job.bearing_body import Body, round_planform
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import BEARING, NAME_NOTE, WIDTH, check_wide_enough, mm


class PinTable(Table):
    """[terminator] kind = "pin"."""

    kind: Literal["pin"]
    name: Annotated[Name, Key(NAME_NOTE, "pin")] = "pin"
    bearing_diameter: Annotated[Length, replace(BEARING, note="diameter of the pin")]
    width: Annotated[Length, replace(WIDTH, note="clear length along the pin for the rope")]


@register(PinTable, label="pin or post", note="a plain pin or post")
def checked(table: PinTable, d: float) -> Body:
    """The pin of a table, for rope `d` mm thick. Raises KeyedError."""
    bearing, width = mm(table, "bearing_diameter"), mm(table, "width")
    check_wide_enough("the pin is", "width", width, d)
    return pin(bearing, width)


def pin(bearing: float, width: float) -> Body:
    """A plain cylinder; lengths in mm."""
    return Body(round_planform(bearing), width)
