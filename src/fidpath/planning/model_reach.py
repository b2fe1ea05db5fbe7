"""How far the strand model reaches: where random jobs were found to miss a bound of the check, or not to settle.

The lengths of the plan don't come from the model and hold beyond its reach.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from fidpath.job import Rule, rule
from fidpath.planning.plan import Plan


@dataclass(frozen=True)
class Reach:
    """One border of the model: the figure it is about, the job it holds for, and what to change in the job's file.

    most: whether the rule's value is the greatest, not the least.
    """

    name: str
    most: bool
    figure: Callable[[Plan], float]
    holds_for: Callable[[Plan], bool]
    subject: str
    change: str

    @property
    def limit(self) -> Rule:
        """The border, as a rule with its source."""
        return rule(f"model_{self.name}")

    def beyond(self, value: float) -> bool:
        """Whether a figure lies beyond the border."""
        off = value - self.limit.value
        return (off if self.most else -off) > 1e-6

    def words(self, value: float) -> str:
        """What is said of a figure beyond the border."""
        unit = f" {self.limit.unit}" if self.limit.unit in ("d", "deg") and self.subject != "D/d" else ""
        side = "above" if self.most else "below"
        return (
            f"{self.subject} is {value:.3g}{unit}; {side} {self.limit.value:g}{unit} the strand model may fail its own "
            f"check, and `build` then draws nothing. To have it drawn: {self.change}. The lengths here hold without it"
        )


def _many(plan: Plan) -> bool:
    return plan.braid.strands > 8


def _any(_plan: Plan) -> bool:
    return True


REACHES = (
    Reach(
        "bearing_least",
        False,
        lambda plan: plan.D_over_d,
        _any,
        "D/d",
        "a larger terminator.bearing_diameter, or a longer line.ends.eye_length",
    ),
    Reach(
        "throat_most",
        True,
        lambda plan: math.degrees(plan.throat_angle),
        _any,
        "the throat angle",
        "a smaller practice.throat_angle, or a longer line.ends.eye_length",
    ),
    Reach(
        "bury_least",
        False,
        lambda plan: plan.bury_length / plan.braid.diameter,
        _any,
        "the bury",
        "a longer practice.bury",
    ),
    Reach(
        "pitch_most",
        True,
        lambda plan: plan.braid.pitch / plan.braid.diameter,
        lambda plan: plan.braid.weave == "over-one" and _many(plan),
        "in an over-one weave the pitch",
        "count the crossings again, for rope.pitch, and look whether rope.weave is right",
    ),
    Reach(
        "pitch_least",
        False,
        lambda plan: plan.braid.pitch / plan.braid.diameter,
        lambda plan: plan.braid.strands > 12,
        "with more than 12 strands the pitch",
        "count the crossings again, for rope.pitch, and check rope.strands",
    ),
    Reach(
        "gap_most",
        True,
        lambda plan: plan.lock.zone.gap / plan.braid.diameter if plan.lock else 0.0,
        _many,
        "the hole gap",
        "a smaller practice.hole_gap",
    ),
    Reach(
        "strands_most",
        True,
        lambda plan: float(plan.braid.strands),
        lambda plan: plan.braid.weave == "over-one",
        "in an over-one weave the number of strands",
        "look whether rope.strands and rope.weave are right; `build --no-steps` draws the finished splice",
    ),
    Reach(
        "strands_most_of_all",
        True,
        lambda plan: float(plan.braid.strands),
        _any,
        "the number of strands",
        "count again, for rope.strands",
    ),
)
"""Every border, found by settling jobs over the ranges that a job file may hold, one figure at a time."""


def beyond_reach(plan: Plan) -> tuple[tuple[Reach, float], ...]:
    """The borders that a plan lies beyond, each with its own figure."""
    found = ((reach, reach.figure(plan)) for reach in REACHES if reach.holds_for(plan))
    return tuple((reach, value) for reach, value in found if reach.beyond(value))
