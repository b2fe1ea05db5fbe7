"""Plan -> every figure a rigger reads: its value, its formula, its source and what it is measured from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fidpath.plan import TRIM, Plan
from fidpath.practice_rules import STATUS_WORDS, Rule, rule
from fidpath.units import Rounding

Kind = Literal["mm", "deg", "N", "share", "ratio"]

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
FROM_ENTRY_TAIL = "the bury mark on the tail, toward its end"
ALONG = "along the rope, under the reference tension"


@dataclass(frozen=True)
class Figure:
    """One figure. `fine` ones are read with a caliper, the rest on the tape; a least goes up, a greatest down."""

    name: str
    label: str
    value: float
    formula: str
    source: str
    measured_from: str
    kind: Kind = "mm"
    rounding: Rounding = "nearest"
    fine: bool = False


@dataclass(frozen=True)
class Notice:
    """Something to look at before work begins: the figure, its limit, where the limit comes from."""

    name: str
    text: str
    value: float
    limit: float
    source: str


def rule_source(found: Rule) -> str:
    """A rule's source, with how far it can be trusted where the source doesn't say so itself."""
    words = STATUS_WORDS[found.status]
    said = words in found.source or "no source" in found.source
    return found.source if said else f"{found.source}, {words}"


def practice_source(plan: Plan, key: str) -> str:
    """Where a figure of the practice comes from: the job file or the list of rules."""
    source = rule_source(rule(key))
    if f"practice.{key}" not in plan.job.units:
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


def lengths(plan: Plan) -> tuple[Figure, ...]:
    """Every length of the splice, in the order of the work."""
    return (*_before(plan), *_eye(plan), *_holes(plan), *_bury(plan))


def _before(plan: Plan) -> tuple[Figure, ...]:
    """What is laid out and taken to hand before the first mark."""
    d = plan.braid.diameter
    trim = f"{TRIM:g} d to trim"
    return (
        Figure("rope_diameter", "rope, nominal diameter", d, "d", JOB, "across the rope", fine=True),
        Figure("pick", "pick: spacing of the crossings", plan.pick, "P/N", COUNTING, "along the rope", fine=True),
        Figure(
            "tail_to_lay_out",
            "tail to lay out before starting",
            plan.tail_to_lay_out,
            f"rope from H1 to H2 + tail from H2 to the bury mark + bury + {trim}",
            GEOMETRY,
            f"{TAIL_END}, to H1's middle",
            rounding="up",
        ),
        Figure(
            "rope_consumed",
            "rope the splice consumes",
            plan.rope_consumed,
            "rope from the bury's far end round the eye to the cut tail - its length when made",
            GEOMETRY,
            "the bury's far end, to the crown's bearing",
            rounding="up",
        ),
        _fid("first_fid", "fid for the first pass", plan.openings.first_fid, "fid_opens"),
        _fid("second_fid", "fid for the second pass", plan.openings.second_fid, "fid_passes"),
    )


def _fid(name: str, label: str, value: float, rules: str) -> Figure:
    """A fid, by its diameter, within the practice's bounds."""
    low, high = rule(f"{rules}_least"), rule(f"{rules}_most")
    formula = f"of those at hand, {low.value:g} d to {high.value:g} d"
    return Figure(name, label, value, formula, rule_source(low), "the fid's diameter", fine=True)


def _eye(plan: Plan) -> tuple[Figure, ...]:
    """The eye, and what the lock takes out of it."""
    return (
        Figure(
            "eye_length_along_rope",
            "finished eye: rope from H1 round to H1",
            plan.eye_length,
            "picks from H1 to H2 x P/N - rope between the holes",
            GEOMETRY,
            f"H1's middle round the {plan.job.terminator.kind} to H1's middle",
        ),
        Figure(
            "rope_round_terminator",
            f"rope bent round the {plan.job.terminator.kind}",
            plan.eye.bend_radius * (math.pi + plan.throat_angle),
            "(D + d)/2 x (pi + throat angle)",
            ELEMENTARY,
            "the rope's middle, where it meets and leaves the crown",
        ),
        Figure(
            "eye_length_to_crown",
            "finished eye: throat to crown",
            plan.throat_distance + plan.job.terminator.bearing_diameter_mm / 2,
            "H1 to the crown's centre + D/2",
            GEOMETRY,
            "H1's middle, in a straight line to the crown's bearing",
        ),
        Figure(
            "eye_length_wanted",
            "eye that would fit exactly",
            plan.eye_wanted,
            "eye asked for, before H2 is set on the braid's crossings",
            _wanted_source(plan),
            "H1's middle round to H1's middle",
        ),
        Figure(
            "eye_slack",
            "eye loose (+) or tight (-)",
            plan.eye_slack,
            "finished eye - eye that would fit exactly",
            GEOMETRY,
            ALONG,
            fine=True,
        ),
        *_lost(plan),
    )


def _wanted_source(plan: Plan) -> str:
    """What decided the eye's length."""
    if plan.job.line.ends[0].eye_length_mm is not None:
        return f"{JOB}: eye_length"
    return f"throat angle: {practice_source(plan, 'throat_angle')}"


def _lost(plan: Plan) -> tuple[Figure, ...]:
    """The rope that the lock takes out of the eye, which the H1 mark allows for."""
    return (
        Figure(
            "eye_lost_to_lock",
            "rope the lock takes out of the eye",
            plan.eye_lost_to_lock,
            "hole gap + rope between the holes",
            GEOMETRY,
            "loop from H1 round to H1, snug before H2 is made, less the same when locked",
            fine=True,
        ),
        Figure(
            "loop_before_lock",
            "loop to fit snug before H2 is marked",
            plan.loop_before_lock,
            "finished eye + rope the lock takes out",
            GEOMETRY,
            "H1's middle round to where the tail leaves H1",
        ),
        Figure(
            "eye_too_tight_without_allowance",
            "too tight by, if the loop were fitted without it",
            plan.eye_lost_to_lock,
            "rope the lock takes out of the eye",
            GEOMETRY,
            ALONG,
            fine=True,
        ),
    )


def _holes(plan: Plan) -> tuple[Figure, ...]:
    """The two holes: how far apart, and how far each is opened."""
    return (
        Figure(
            "hole_gap",
            "hole gap: clear rope between the holes",
            plan.hole_gap,
            "rope between the holes - rope a hole takes up",
            practice_source(plan, "hole_gap"),
            "near edge to near edge, along a leg",
            fine=True,
        ),
        Figure(
            "hole_spacing",
            "hole spacing",
            plan.hole_spacing,
            "distance of the holes' middles that leaves the hole gap",
            GEOMETRY,
            "H1's middle to H2's middle, in a straight line",
            fine=True,
        ),
        Figure(
            "rope_between_holes",
            "rope between the holes",
            plan.rope_between_holes,
            "length of one leg of the crossing",
            GEOMETRY,
            "H1's middle to H2's middle, along a leg",
            fine=True,
        ),
        *_openings(plan),
    )


def _openings(plan: Plan) -> tuple[Figure, ...]:
    """How far each hole is opened across, and no more."""
    opened = plan.openings
    return (
        Figure("h1_across", "open H1 to", opened.h1_across, "squeeze x d", ELEMENTARY, "across the hole", fine=True),
        Figure(
            "h2_across",
            "open H2 to",
            opened.h2_across,
            "squeeze x d x (pi + 2)/pi: two legs side by side",
            ELEMENTARY,
            "across the hole",
            fine=True,
        ),
        Figure(
            "most_across",
            "open neither hole beyond",
            opened.most_across,
            f"{rule('fid_passes_most').value:g} d",
            rule_source(rule("fid_passes_most")),
            "across the hole",
            rounding="down",
            fine=True,
        ),
    )


def _bury(plan: Plan) -> tuple[Figure, ...]:
    """The neck and the bury."""
    swallowed = plan.cover
    return (
        Figure(
            "bare_neck",
            "bare neck",
            plan.bare_neck,
            "rope from the entry to H2 - half a hole, on a whole number of diamonds",
            practice_source(plan, "neck"),
            "the entry, to H2's near edge",
            fine=True,
        ),
        Figure(
            "bury_length",
            "bury",
            plan.bury_length,
            f"{plan.job.practice.bury_diameters:g} d",
            practice_source(plan, "bury"),
            "the entry, along the tail to its tip",
            rounding="up",
        ),
        Figure(
            "bury_in_standing_part",
            "standing part that swallows the bury",
            swallowed.host_length,
            "rope of the cover over the buried tail, before it swells",
            STRANDS_KEPT,
            "the entry, along the standing part as it lay before",
        ),
        Figure(
            "taper_length",
            "taper",
            plan.bury_length - plan.taper.start,
            f"{plan.job.practice.taper_share:.3g} x bury",
            practice_source(plan, "taper_share"),
            "the first drop, to the tail's tip",
        ),
        Figure(
            "swollen_diameter",
            "cover's diameter over the full tail",
            plan.swollen_diameter,
            "2 x (mean radius of the swollen cover + half its wall)",
            f"{GEOMETRY}; squeeze {plan.job.rope.squeeze:g}: calibrate against your own splices",
            "across the bury, beyond the entry",
            fine=True,
        ),
        Figure(
            "take_up",
            "take-up of the cover",
            plan.take_up,
            "sum of 1 - cos a/cos a0 along the cover, over and under counted",
            STRANDS_KEPT,
            "the standing part over the bury, plain less swollen",
        ),
    )


def marks(plan: Plan) -> tuple[Figure, ...]:
    """Every mark on the rope, in the order they are made."""
    tail_entry = plan.station_entry_tail
    return (
        Figure(
            "rough_bury_mark",
            "rough bury mark, on the tail",
            plan.rough_bury_mark,
            f"bury + {TRIM:g} d to trim",
            f"bury: {practice_source(plan, 'bury')}; trim: {OWN}",
            TAIL_END,
            rounding="up",
        ),
        Figure(
            "H1",
            "H1, on the standing part",
            plan.tail_to_lay_out,
            "tail to lay out, the lock's share of the eye allowed for",
            GEOMETRY,
            TAIL_END,
            rounding="up",
        ),
        Figure(
            "H2",
            "H2, on the tail",
            plan.station_h2,
            f"{plan.picks_h1_to_h2} picks x P/N; set it where strands cross",
            f"{COUNTING}; {plan.braid.strands // 2} strands each side of the fid: common practice, no source",
            FROM_H1_TAIL,
        ),
        Figure(
            "entry",
            "entry, on the standing part",
            plan.rope_entry_to_h1,
            f"{plan.diamonds_entry_to_h1} diamonds x 2 P/N",
            COUNTING,
            FROM_H1_CAPTIVE,
        ),
        Figure(
            "bury_mark",
            "bury mark, on the tail",
            tail_entry,
            "H2 + rope from H2 to the entry",
            GEOMETRY,
            FROM_H1_TAIL,
        ),
        *_tail_marks(plan),
    )


def _tail_marks(plan: Plan) -> tuple[Figure, ...]:
    """The drops of the taper, the cut, and where the tip comes to lie."""
    share = practice_source(plan, "taper_share")
    drops = plan.taper.drops if plan.taper.stagger > 0 else ()
    tail = tuple(
        Figure(
            f"taper_drop_{number}",
            f"taper, drop {number}: one strand of each hand",
            place,
            f"bury x (1 - taper share + taper share x {number - 1}/{len(drops)}); the second strand d/2 further on",
            f"{share}; number of drops: {JOB if 'practice.taper_drops' in plan.job.units else OWN}",
            FROM_ENTRY_TAIL,
        )
        for number, place in enumerate(drops, 1)
    )
    cut = Figure("tail_cut", "cut the tail", plan.bury_length, "bury", GEOMETRY, FROM_ENTRY_TAIL, rounding="up")
    tip = Figure(
        "tip_in_standing_part",
        "where the tip comes to lie",
        plan.rope_entry_to_h1 + plan.cover.host_length,
        "entry + standing part that swallows the bury",
        STRANDS_KEPT,
        FROM_H1_CAPTIVE,
    )
    return (*tail, cut, tip)


def figures(plan: Plan) -> tuple[Figure, ...]:
    """Angles, ratios and tensions."""
    practice = plan.job.practice
    given = "practice.reference_tension" in plan.job.units
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
        Figure(
            "stretch_without_allowance",
            "stretch needed over a post without it",
            plan.stretch_needed_without_allowance,
            f"rope lost/(finished eye - rope lost); allowed {practice.post_stretch_share:.1%}",
            JOB if "practice.post_stretch" in plan.job.units else rule_source(rule("post_stretch_share")),
            "the eye",
            "share",
        ),
        Figure(
            "reference_tension",
            "tension to measure lengths under",
            practice.reference_tension_n,
            JOB if given else "d^2/8 daN",
            JOB if given else rule_source(rule("reference_tension")),
            "the line",
            "N",
        ),
    )


def warnings(plan: Plan) -> tuple[Notice, ...]:
    """What is out of the usual, each with its limit and source; nothing here stops the work."""
    angle, bearing, neck, bury = (rule(name) for name in ("throat_angle_most", "bearing_least", "neck_most", "bury"))
    throat, bare = math.degrees(plan.throat_angle), plan.bare_neck / plan.braid.diameter
    buried = plan.bury_length / plan.braid.diameter
    slip = 1e-6
    found = (
        (throat > angle.value + slip, "throat_angle", f"the throat angle is {throat:.1f} deg", throat, angle),
        (plan.D_over_d < bearing.value - slip, "D_over_d", f"D/d is {plan.D_over_d:.2f}", plan.D_over_d, bearing),
        (buried < bury.value - slip, "bury", f"the bury is {buried:.3g} d", buried, bury),
        (bare > neck.value + slip, "bare_neck", f"the bare neck is {bare:.2f} d", bare, neck),
    )
    return tuple(
        Notice(name, f"{text}; {_bound(name)} {limit.value:g} {limit.unit}", value, limit.value, rule_source(limit))
        for true, name, text, value, limit in found
        if true
    )


def _bound(name: str) -> str:
    """How a limit is spoken of."""
    return "the rule asks for at least" if name in ("bury", "D_over_d") else "the rule asks for no more than"
