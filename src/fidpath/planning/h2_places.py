"""The places where H2 could go, whole picks from H1, each with the eye that comes of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.geometry import Braid, Eye, Seat, eye_of_loop

PASSING_ROOM = 0.3
"""Least clear distance from the terminator's rim to the middle of H1, in rope diameters, beyond half the rope."""


@dataclass(frozen=True)
class Choice:
    """One place where H2 could go, whole picks from H1, and the eye that comes of it.

    slack: rope more (+) or less (-) than the eye that would fit exactly; rolled: whether the rope has to be rolled by
    one strand to reach the place; fits: whether the terminator goes in.
    """

    picks: int
    rope_h1_to_h2: float
    eye: Eye
    slack: float
    rolled: bool
    fits: bool


@dataclass(frozen=True)
class H2Places:
    """The places for H2 round the one that would fit exactly. Each place's eye is worked out when it is asked for."""

    wanted: Eye
    braid: Braid
    bearing: float
    seat: Seat

    @property
    def choices(self) -> tuple[Choice, ...]:
        """All of them, shortest first."""
        return tuple(choice for picks in self._picks if (choice := self._choice(picks)) is not None)

    def nearest_first(self) -> Iterator[Choice]:
        """Those that can be reached without rolling the rope, least slack first."""
        unrolled = [picks for picks in self._picks if not _rolled(picks)]
        for picks in sorted(unrolled, key=lambda picks: abs(self._loop(picks) - self.wanted.loop)):
            choice = self._choice(picks)
            if choice is not None:
                yield choice

    @property
    def _picks(self) -> range:
        ideal = (self.wanted.loop + self.wanted.zone.rope) / self.braid.pick
        return range(int(np.floor(ideal)) - 3, int(np.ceil(ideal)) + 5)

    def _loop(self, picks: int) -> float:
        """Rope of the eye so many picks leave, mm."""
        return picks * self.braid.pick - self.wanted.zone.rope

    @cached_property
    def _found(self) -> dict[int, Choice | None]:
        return {}

    def _choice(self, picks: int) -> Choice | None:
        """The place so many picks from H1, the same object each time; None where its loop is too short to close."""
        if picks not in self._found:
            self._found[picks] = self._worked_out(picks)
        return self._found[picks]

    def _worked_out(self, picks: int) -> Choice | None:
        try:
            eye = eye_of_loop(self.wanted.zone, self.braid.diameter, self.bearing, self._loop(picks))
        except CannotBeMade:
            return None
        slack = eye.loop - self.wanted.loop
        return Choice(picks, picks * self.braid.pick, eye, slack, _rolled(picks), fits(eye, self.seat))


def _rolled(picks: int) -> bool:
    """A hole's centre lies half a diamond off the crossings, so holes of one direction are whole diamonds apart."""
    return bool(picks % 2)


def fits(eye: Eye, seat: Seat) -> bool:
    """Whether the body lies clear of H1, and its flanks between the legs."""
    room = eye.distance - (seat.reach + seat.nose + seat.lip) >= (0.5 + PASSING_ROOM) * eye.diameter
    return bool(room and (seat.flank == 0 or eye.throat / 2 <= seat.flank + np.radians(1.0)))
