"""Keys that several kinds of terminators have, and the checks that go with them."""

from __future__ import annotations

from typing import Annotated

from fidpath.job.keys import Key, Length, Table, key_of
from fidpath.job.limits import length_within
from fidpath.job.locate import KeyedError

NAME_NOTE = "what the sheets call it"

BEARING = Key("diameter across the bottom of the groove", "50 mm", "Bearing diameter", (1.0, 5000.0))
WIDTH = Key("width from side to side, across the rope", "14 mm", "Width", (1.0, 2000.0))

BearingDiameter = Annotated[Length, BEARING]
GrooveRadius = Annotated[Length, Key("radius of the groove, about 0.55 d", "5.5 mm", "Groove radius", (0.5, 1000.0))]
Width = Annotated[Length, WIDTH]
Hole = Annotated[
    Length | None,
    Key(
        "hole through the middle; without it the body is solid",
        "30 mm",
        "Hole through it",
        (0.5, 5000.0),
        "none: a solid disc",
    ),
]


GROOVED = ("bearing_diameter", "width", "groove_radius")


def mm(table: Table, name: str) -> float:
    """A length of the table in mm, 0 where the file leaves it out. Raises KeyedError where it is out of its limits."""
    measure = getattr(table, name)
    if measure is None:
        return 0.0
    limits = key_of(type(table), name).limits
    assert limits is not None, f"{name} has no limits"
    return length_within(("terminator", name), measure, limits)


def refuse(name: str, what: str, remedy: str) -> KeyedError:
    """What is wrong with a key of the terminator."""
    return KeyedError(("terminator", name), what, remedy)


def check_wide_enough(what: str, name: str, width: float, d: float) -> None:
    """The rope has room beside it; `what` says of what the width is. Raises KeyedError."""
    if width < d:
        said = f"{what} {width:g} mm wide, narrower than the {d:g} mm rope"
        raise refuse(name, said, "Choose one at least as wide as the rope.")


def check_groove(kind: str, groove: float, d: float) -> None:
    """The rope lies in the groove. Raises KeyedError."""
    if 2 * groove < d * (1 - 1e-9):
        raise refuse(
            "groove_radius",
            f"the groove is {2 * groove:g} mm across, narrower than the {d:g} mm rope",
            f"The {kind} can't sit in this eye: its groove radius must be at least {d / 2:g} mm.",
        )


def grooved(table: Table, what: str, d: float, *more: str) -> tuple[float, ...]:
    """Bearing diameter, width and groove radius of a grooved body, then the lengths of the keys in `more`, mm.

    The rope, `d` mm thick, has room beside it and lies in its groove. Raises KeyedError.
    """
    bearing, width, groove, *others = (mm(table, name) for name in (*GROOVED, *more))
    check_wide_enough(f"the {what} is", "width", width, d)
    check_groove(what, groove, d)
    return bearing, width, groove, *others


def check_hole(name: str, hole: float, bearing: float) -> None:
    """The hole leaves a bearing. Raises KeyedError."""
    if hole >= bearing:
        what = f"a hole of {hole:g} mm leaves nothing of the bearing of {bearing:g} mm"
        raise refuse(name, what, f"One of the two is wrong: {name} must be smaller than bearing_diameter.")
