"""`Plan`: what every splice has, and its lock where it has one. All lengths in mm, angles in radians.

Stations are rope lengths that grow toward the tail's tip. They count from H1's centre on the standing part, and in an
eye without a lock from the entry. What follows from a plan's parts is a property, so that no number is held twice.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, wraps
from typing import Any, TypeVar, cast

from fidpath.errors import CannotBeMade
from fidpath.geometry import (
    Braid,
    Cover,
    CrossingZone,
    Eye,
    MarkingLoop,
    Neck,
    Seat,
    Taper,
    leg_tension_share,
    passed_loop,
    side_by_side,
    wrapped_loop,
)
from fidpath.job import Job
from fidpath.planning.h2_places import Choice, H2Places

ENTRY_TAKE_UP = 0.045
"""Rope that the cover loses besides, where its strands part round the tail at the entry, in rope diameters (measured on
settled models of 8 to 16 strands: 0.01 to 0.1)."""

TRIM = 4.0
"""Rope left beyond the rough bury mark, to be cut off when the bury is measured exactly, in rope diameters."""


T = TypeVar("T")

SLIP = 1e-6
"""What two lengths may differ by and count as the same, mm."""


@dataclass(frozen=True)
class Openings:
    """How wide each hole must be and may be, and the fids that open it, by diameter. All mm.

    h1_across, h2_across, most_across: as a round hole of the same girth. h2_fids: the two that open H2 side by
    side, one from either face, the smaller first; they may be of one size.
    """

    first_fid: float
    second_fid: float
    h1_across: float
    h2_across: float
    most_across: float
    h2_fids: tuple[float, float]

    @property
    def h2_opened(self) -> float:
        """How wide its fids open H2, as a round hole of the same girth."""
        return side_by_side(*self.h2_fids)

    @property
    def h2_fids_pass(self) -> bool:
        """Whether the fids at hand open H2 wide enough for two legs, and no wider than a hole may be."""
        return self.h2_across <= self.h2_opened + SLIP and self.h2_opened <= self.most_across + SLIP


@dataclass(frozen=True)
class Lock:
    """How the legs run through each other: the crossing zone, and where its two holes sit on the braid's lattice.

    neck_host, neck_tail: rope from the entry to H2's place, on the standing part and on the tail.
    """

    zone: CrossingZone
    choice: Choice
    places: H2Places
    diamonds_entry_to_h1: int
    neck_host: float
    neck_tail: float

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The places where H2 could go, shortest first."""
        return self.places.choices

    @property
    def eye_wanted(self) -> float:
        """The eye that would fit exactly."""
        return self.places.wanted.loop

    @property
    def picks_h1_to_h2(self) -> int:
        """Picks from H1 round the eye to H2."""
        return self.choice.picks

    @property
    def station_h2(self) -> float:
        """H2's centre on the tail."""
        return self.choice.rope_h1_to_h2

    @property
    def rope_entry_to_h1(self) -> float:
        """Rope on the standing part from the entry to H1's centre."""
        return self.neck_host + self.zone.rope

    @property
    def bare_neck(self) -> float:
        """Rope on the standing part from the entry to H2's near edge."""
        return self.neck_host - self.zone.hole_length / 2

    @property
    def eye_slack(self) -> float:
        """How much looser (+) or tighter (-) the eye is than one that fits exactly."""
        return self.choice.slack

    @property
    def eye_lost(self) -> float:
        """Rope that the lock takes out of the eye."""
        return self.zone.gap + self.zone.rope

    @property
    def loop_before(self) -> float:
        """The loop from H1 round to H1 before H2 is made."""
        return self.choice.eye.loop + self.eye_lost

    @property
    def stretch_without_allowance(self) -> float:
        """Share by which the eye would have to stretch if the loop had been fitted without the lock's rope."""
        return self.eye_lost / (self.choice.eye.loop - self.eye_lost)


@dataclass(frozen=True)
class Plan:
    """Every number of one splice. The geometry that the model is built from rides along.

    neck: from the axis that both legs share to where they part; lock: None where the tail simply goes in at the throat.
    """

    job: Job
    braid: Braid
    seat: Seat
    openings: Openings
    eye: Eye
    neck: Neck
    cover: Cover
    taper: Taper
    lock: Lock | None = None

    @cached_property
    def kept(self) -> dict[str, Any]:
        """What laws decorated with `once` have given of this plan."""
        return {}

    def needed_lock(self) -> Lock:
        """The lock. Raises CannotBeMade where the splice has none."""
        if self.lock is None:
            raise CannotBeMade("a plain buried eye has no lock", "Ask for a locked splice", key="line.ends.splice")
        return self.lock

    @property
    def pick(self) -> float:
        """Spacing of the crossings."""
        return self.braid.pick

    @property
    def D_over_d(self) -> float:
        """Bearing diameter over rope diameter."""
        return self.job.terminator.bearing_diameter_mm / self.braid.diameter

    @property
    def throat_angle(self) -> float:
        """Angle between the two legs."""
        return self.eye.throat

    @property
    def leg_tension_share(self) -> float:
        """Tension in each leg as a share of the line's."""
        return leg_tension_share(self.eye.throat)

    @property
    def eye_length(self) -> float:
        """Rope of the finished eye: from H1 round to H1, or from the entry round to the entry."""
        return self.eye.loop

    @property
    def throat_to_crown(self) -> float:
        """Straight to the crown's bearing from H1, or from where the straight legs of a plain eye would meet."""
        bearing = self.job.terminator.bearing_diameter_mm / 2
        if self.lock:
            return self.eye.distance + bearing
        return self.eye.bend_radius / math.sin(self.eye.throat / 2) + bearing

    @property
    def bury_length(self) -> float:
        """The tail in the standing part, from the entry to its tip."""
        return self.taper.tip

    @property
    def swollen_diameter(self) -> float:
        """The cover's diameter over the full tail."""
        return self.cover.swollen_diameter

    @property
    def take_up(self) -> float:
        """What the standing part loses in length over the bury."""
        return self.cover.take_up + ENTRY_TAKE_UP * self.braid.diameter

    @property
    def rope_between_holes(self) -> float:
        """Rope of one leg between the holes; none without a lock."""
        return self.lock.zone.rope if self.lock else 0.0

    @property
    def holes(self) -> tuple[tuple[str, float], ...]:
        """The lock's holes by letter and station on their host, in order from the eye; none without a lock."""
        return (("H1", 0.0), ("H2", self.lock.station_h2)) if self.lock else ()

    @property
    def letters(self) -> tuple[str, ...]:
        """The letters of the lock's holes, in order from the eye."""
        return tuple(letter for letter, _ in self.holes)

    @property
    def opened(self) -> tuple[str, ...]:
        """The letters of the marks at which the rope is opened: the lock's holes, or the entry where there is none."""
        return self.letters or (self.origin,)

    @property
    def origin(self) -> str:
        """The letter of the mark at station 0: H1, or the entry E where there is no lock."""
        return "H1" if self.lock else "E"

    @property
    def origin_to_centre(self) -> float:
        """From the mark at station 0 straight to the crown's centre."""
        return self.eye.distance if self.lock else self.eye.distance + self.neck.reach

    @property
    def loop_fitted(self) -> float:
        """The loop that is fitted round the terminator at first: with the rope that the lock will take out of it."""
        return self.lock.loop_before if self.lock else self.eye.loop

    @property
    def wrapped_loop(self) -> MarkingLoop:
        """That loop round the terminator with the tail beside the standing part. Raises CannotBeMade."""
        return self._held(wrapped_loop)

    @property
    def marking_loop(self) -> MarkingLoop:
        """That loop with the tail through H1. Raises CannotBeMade."""
        return self._held(passed_loop)

    def _held(self, law: Callable[[Braid, float, float], MarkingLoop], more: float = 0.0) -> MarkingLoop:
        """A marking loop by its law, `more` mm longer than planned. Raises CannotBeMade where it doesn't close."""
        bearing, rope = self.job.terminator.bearing_diameter_mm, self.loop_fitted + more
        try:
            return law(self.braid, bearing, rope)
        except ArithmeticError:
            raise CannotBeMade(
                f"a loop of {rope:.0f} mm can't be held round the terminator while the lock is marked",
                "Make the eye longer or the terminator smaller",
                key="line.ends.eye_length",
            ) from None

    @property
    def loop_to_throat(self) -> float:
        """How much longer the marking loop is for each mm that it is held longer from H1's middle to the crown."""
        longer, shorter = (self._held(wrapped_loop, 0.5 * side).throat_to_crown for side in (1, -1))
        return 1 / (longer - shorter)

    @property
    def station_h2(self) -> float:
        """Where the tail begins: at H2's centre, or at the entry where there is no lock."""
        return self.lock.station_h2 if self.lock else self.eye.loop

    @property
    def station_entry_tail(self) -> float:
        """The tail's station at the entry."""
        return self.station_h2 + (self.lock.neck_tail if self.lock else 0.0)

    @property
    def station_entry_host(self) -> float:
        """The standing part's station at the entry."""
        return -self.lock.rope_entry_to_h1 if self.lock else 0.0

    @property
    def station_tip(self) -> float:
        """The tail's tip, once cut."""
        return self.station_entry_tail + self.bury_length

    @property
    def tail_to_lay_out(self) -> float:
        """Tail from the first mark to its end, before it is cut."""
        return self.station_tip + TRIM * self.braid.diameter

    @property
    def rough_bury_mark(self) -> float:
        """From the tail's end to the rough bury mark."""
        return self.bury_length + TRIM * self.braid.diameter

    @property
    def span(self) -> float:
        """The finished splice along the line: from the crown's bearing point to where the tail's tip lies."""
        bearing = self.eye.distance + self.eye.bend_radius - self.eye.diameter / 2
        return self.cover.tip_axial + self.neck.reach + self.eye.zone.spacing + bearing

    @property
    def rope_in_splice(self) -> float:
        """Rope from where the tip comes to lie, round the eye, to the cut tail's end."""
        return self.cover.host_length - self.station_entry_host + self.station_tip

    @property
    def rope_consumed(self) -> float:
        """Rope in the splice, less what it spans when made."""
        return self.rope_in_splice - self.span

    @property
    def line_past_h1(self) -> float:
        """How far the finished line's bearing at the crown lies beyond where the rope's zero is marked on it."""
        return self.station_tip - self.rope_consumed


def once(law: Callable[[Plan], T]) -> Callable[[Plan], T]:
    """A law that is worked out once for each plan: a plan never changes."""

    @wraps(law)
    def given(plan: Plan) -> T:
        if law.__qualname__ not in plan.kept:
            plan.kept[law.__qualname__] = law(plan)
        return cast(T, plan.kept[law.__qualname__])

    return given
