"""What a figure of the plan is, where each comes from, and the angles, ratios and warnings among them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fidpath.job import STATUS_WORDS, Job, Rule, rule
from fidpath.planning.plan import Lock, Plan, once
from fidpath.units import Rounding

Kind = Literal["mm", "deg", "N", "share", "ratio", "count"]

GEOMETRY = "geometry of this plan"
COUNTING = "counting"
ELEMENTARY = "elementary geometry"
STRANDS_KEPT = (
    "strands keep their length: form of Chou & Hannaford, IEEE Trans. Robot. Autom. 12(1) (1996) 90, from memory"
)
OWN = "fidpath's own choice, no source"
JOB = "job file"

TAIL_END = "the tail's end, not yet cut"
FROM_H1_TAIL = "H1's middle, toward the tail's end"
FROM_H1_CAPTIVE = "H1's middle, away from the eye"
FROM_ENTRY = "E, round the eye"
FROM_ENTRY_CAPTIVE = "E, away from the eye"
FROM_BURY_MARK = "B, toward the tail's end"
ALONG = "along the rope, under the reference tension"


@dataclass(frozen=True)
class Figure:
    """One figure. `fine` ones are read with a caliper, the rest on the tape; a least goes up, a greatest down.

    parts: the figures it is the sum of, each with its sign. Such a figure is the sum of them as they are printed; its
    value is exact all the same. note: what to know when it is measured.
    """

    name: str
    label: str
    value: float
    formula: str
    source: str
    measured_from: str
    kind: Kind = "mm"
    rounding: Rounding = "nearest"
    fine: bool = False
    note: str = ""
    parts: tuple[tuple[int, Figure], ...] = ()


def rule_source(found: Rule) -> str:
    """A rule's source, with how far it can be trusted where the source doesn't say so itself."""
    words = STATUS_WORDS[found.status]
    said = words in found.source or "no source" in found.source
    return found.source if said else f"{found.source}, {words}"


def practice_source(plan: Plan, key: str) -> str:
    """Where a figure of the practice comes from: as the job says, the job file, or the list of rules."""
    own = plan.job.practice.source(key)
    if own is not None:
        return own
    source = rule_source(rule(key))
    if not plan.job.gives(f"practice.{key}"):
        return source
    same = math.isclose(_practice_value(plan, key), rule(key).value)
    return f"{JOB}; {source}" if same else f"{JOB}; the rule is {rule(key).value:g} {rule(key).unit} ({source})"


def _practice_value(plan: Plan, key: str) -> float:
    """A practice's figure in its rule's unit."""
    practice = plan.job.practice
    values = {
        "bury": practice.bury_diameters,
        "hole_gap": practice.hole_gap_diameters,
        "neck": practice.neck_diameters,
        "taper_share": practice.taper_share,
        "throat_angle": math.degrees(practice.throat_angle),
    }
    return values[key]


@once
def figures(plan: Plan) -> tuple[Figure, ...]:
    """Angles, ratios, counts and tensions."""
    return (
        Figure(
            "throat_angle", "throat angle", plan.throat_angle, "decided by the eye and D", GEOMETRY, "leg to leg", "deg"
        ),
        Figure(
            "leg_tension_share",
            "tension in each leg, of the line's",
            plan.leg_tension_share,
            "1/(2 cos(throat angle/2))",
            "statics",
            "the line's tension",
            "share",
        ),
        Figure("D_over_d", "D/d", plan.D_over_d, "D/d", JOB, "bearing diameter over rope diameter", "ratio"),
        *((*_counts(plan, plan.lock), _stretch(plan.job, plan.lock)) if plan.lock else ()),
        _reference_tension(plan.job),
    )


def _counts(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """H2 and E as counts of crossings met along one line on top of the rope, where they lie two picks apart."""
    formula, line = "picks / 2: along one line crossings lie 2P/N apart", "along one line on top of the rope"
    places = (
        ("crossings_to_h2", "H2 as a count of crossings", lock.picks_h1_to_h2 / 2, FROM_H1_TAIL),
        ("crossings_to_entry", "E as a count of crossings", float(lock.diamonds_entry_to_h1), FROM_H1_CAPTIVE),
    )
    return tuple(
        Figure(name, label, count, formula, COUNTING, f"{measured}, {line}", "count")
        for name, label, count, measured in places
    )


def _stretch(job: Job, lock: Lock) -> Figure:
    """How far the eye would have to be stretched, had the lock's rope not been allowed for."""
    return Figure(
        "stretch_without_allowance",
        "stretch over a post, if H1 is marked without it",
        lock.stretch_without_allowance,
        f"rope lost/(finished eye - rope lost); allowed {job.practice.post_stretch_share:.1%}",
        JOB if job.gives("practice.post_stretch") else rule_source(rule("post_stretch_share")),
        "the eye",
        "share",
    )


def _reference_tension(job: Job) -> Figure:
    """The pull under which rope is measured."""
    given = job.gives("practice.reference_tension")
    return Figure(
        "reference_tension",
        "tension to measure lengths under",
        job.practice.reference_tension_n,
        JOB if given else "d^2/8 daN",
        JOB if given else rule_source(rule("reference_tension")),
        "the line",
        "N",
    )
