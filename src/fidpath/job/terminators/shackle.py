"""A bow shackle: the rope bears on its pin, between the jaws, or on its bow.

The bow lies across the eye's plane. On the pin the rope bends round a plain cylinder whose length is the clear width
between the jaws. On the bow it bends round the bar's section; across the rope the bow's inside is hollow like a saddle,
with the bow's own inside radius, which the body has as its groove.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Literal

from fidpath.arrays import Vector
from fidpath.job.bearing_body import Bar, Body, round_planform
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.terminators.registry import register
from fidpath.job.terminators.shared_keys import NAME_NOTE, mm, refuse

SADDLE = 0.75
"""How far to either side of the rope's middle the bow counts as its bearing, in rope diameters."""

ROOM = 1.12
"""Least clear width round the rope, in rope diameters: so wide is the drawn rope (measured on settled models)."""

STEPS = 64
"""Chords of the bow's round."""

On = Literal["pin", "bow"]


class ShackleTable(Table):
    """[terminator] kind = "shackle"."""

    kind: Literal["shackle"]
    name: Annotated[Name, Key(NAME_NOTE, "bow shackle")] = "bow shackle"
    bears_on: Annotated[On, Key("what the rope bears on: the pin or the bow", "bow", "Rope bears on")]
    pin_diameter: Annotated[Length, Key("diameter of the pin", "22 mm", "Pin diameter", (1.0, 1000.0))]
    bow_diameter: Annotated[Length, Key("diameter of the bow's bar", "20 mm", "Bow's bar, diameter", (1.0, 1000.0))]
    jaw_width: Annotated[Length, Key("clear width between the jaws", "32 mm", "Clear between the jaws", (1.0, 2000.0))]
    bow_width: Annotated[
        Length, Key("clear width of the bow at its widest", "50 mm", "Clear across the bow", (1.0, 5000.0))
    ]
    inside_length: Annotated[
        Length, Key("clear length from the pin to the bow's inside", "76 mm", "Clear from pin to bow", (1.0, 10000.0))
    ]


@dataclass(frozen=True)
class Shackle:
    """Measures of a bow shackle, mm: diameters of pin and bar, clear widths of jaws and bow, clear length inside."""

    pin: float
    bar: float
    jaws: float
    bow: float
    length: float

    @property
    def round(self) -> float:
        """Radius of the bow's round to the middle of its bar."""
        return (self.bow + self.bar) / 2

    @property
    def jaw(self) -> float:
        """From the middle of the pin to the middle of a jaw's thickness."""
        return (self.jaws + self.bar) / 2

    @property
    def crown(self) -> float:
        """From the pin's middle to the middle of the bow's bar at its crown."""
        return (self.pin + self.bar) / 2 + self.length

    @property
    def least_length(self) -> float:
        """The least clear length at which the bow's round runs into its jaws without a corner."""
        reach = math.sqrt(max(self.round**2 - self.jaw**2, 0.0))
        return self.bow / 2 + max(reach - self.pin / 2, 0.0)


@register(ShackleTable, label="bow shackle", note="a bow shackle; the rope bears on its pin or its bow")
def checked(table: ShackleTable, d: float) -> Body:
    """The shackle of a table, for rope `d` mm thick. Raises KeyedError."""
    measures = Shackle(
        mm(table, "pin_diameter"),
        mm(table, "bow_diameter"),
        mm(table, "jaw_width"),
        mm(table, "bow_width"),
        mm(table, "inside_length"),
    )
    if table.bears_on == "pin":
        _check_room("between the jaws", "jaw_width", measures.jaws, d)
    _check_room("across the bow", "bow_width", measures.bow, d)
    _check_room("from the pin to the bow's inside", "inside_length", measures.length, d)
    _check_bow(measures)
    return shackle(measures, table.bears_on, d)


def _check_room(where: str, name: str, room: float, d: float) -> None:
    """The rope has room in the shackle. Raises KeyedError."""
    if room < ROOM * d * (1 - 1e-9):
        what = f"{room:g} mm {where} leave no room for the {d:g} mm rope"
        raise refuse(name, what, f"Choose a shackle that has at least {_up(ROOM * d)} mm there.")


def _up(mm: float) -> str:
    """A length rounded up to a tenth of a millimetre."""
    return f"{math.ceil(mm * 10 - 1e-9) / 10:g}"


def _check_bow(measures: Shackle) -> None:
    """The bow is no narrower than the jaws, and its round runs into them without a corner. Raises KeyedError."""
    if measures.bow < measures.jaws:
        what = f"the bow is {measures.bow:g} mm wide inside, narrower than the {measures.jaws:g} mm between the jaws"
        raise refuse("bow_width", what, "Measure it at its widest: a bow is at least as wide as its jaws.")
    if measures.length < measures.least_length:
        what = (
            f"{measures.length:g} mm from the pin to the bow's inside is too short for a bow {measures.bow:g} mm wide"
        )
        raise refuse("inside_length", what, f"It must be at least {_up(measures.least_length)} mm.")


def shackle(measures: Shackle, on: On, d: float) -> Body:
    """The shackle as its pin or its bow sits in an eye of rope `d` mm thick; the other of the two lies toward +x."""
    if on == "pin":
        return Body(round_planform(measures.pin), measures.jaws, bars=_drawn(measures), bearing_key="pin_diameter")
    width = min(2 * SADDLE * d, measures.bow)
    turned = tuple(
        Bar(tuple((measures.crown - x, y, z) for x, y, z in bar.line), bar.radii) for bar in _drawn(measures)
    )
    return Body(round_planform(measures.bar), width, measures.bow / 2, bars=turned, bearing_key="bow_diameter")


def _drawn(measures: Shackle) -> tuple[Bar, ...]:
    """The shackle, its pin's middle at the origin, its bow toward +x, the pin's head toward +z."""
    inside, outside = measures.jaws / 2, measures.jaws / 2 + measures.bar
    middle = _bow(measures)
    bow = Bar(middle, (measures.bar / 2,) * len(middle))
    lug = 1.02 * measures.pin
    jaws = [_disc(lug, way * inside, way * outside, 0.12 * measures.bar) for way in (1, -1)]
    end = outside + 0.12 * measures.pin
    pin = _disc(measures.pin / 2, -end, outside + 0.7 * measures.pin, 0.08 * measures.pin)
    collar = _disc(0.72 * measures.pin, outside, outside + 0.3 * measures.pin, 0.06 * measures.pin)
    return (bow, *jaws, pin, collar, _head(measures.pin, outside + 0.3 * measures.pin))


def _bow(measures: Shackle) -> tuple[Vector, ...]:
    """Middle line of the bow's bar: from one jaw straight to its round, round it, and back to the other jaw."""
    centre = measures.crown - measures.round
    away = math.hypot(centre, measures.jaw)
    turn = math.atan2(measures.jaw, -centre) - math.acos(min(measures.round / away, 1.0))
    angles = [turn * (1 - 2 * k / STEPS) for k in range(STEPS + 1)]
    arc = [(centre + measures.round * math.cos(a), 0.0, measures.round * math.sin(a)) for a in angles]
    return ((0.0, 0.0, measures.jaw), *arc, (0.0, 0.0, -measures.jaw))


def _disc(radius: float, low: float, high: float, ease: float) -> Bar:
    """A disc or pin along z, its edges broken by `ease` mm."""
    step = math.copysign(ease, high - low)
    places = (low, low + step, high - step, high)
    radii = (radius - ease, radius, radius, radius - ease)
    return Bar(tuple((0.0, 0.0, z) for z in places), radii)


def _head(pin: float, foot: float) -> Bar:
    """The eye of a screw pin's head, which stands on its collar."""
    radius, bar = 0.62 * pin, 0.24 * pin
    turns = [2 * math.pi * k / STEPS for k in range(STEPS + 1)]
    line = tuple((radius * math.sin(a), 0.0, foot + radius - radius * math.cos(a)) for a in turns)
    return Bar(line, (bar,) * len(line))
