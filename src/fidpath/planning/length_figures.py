"""Plan -> every length of the splice, each with its formula, its source and what it is measured from."""

from __future__ import annotations

import math

from fidpath.job import rule
from fidpath.planning.base_figures import (
    any_bury_mark,
    around_terminator,
    bury,
    bury_mark,
    eye_wanted,
    finished_eye,
    h2,
    hole_gap,
    neck_on_standing_part,
    neck_on_tail,
    rope_between_holes,
    rough_bury_mark,
    swallowed,
    take_up,
    trim,
)
from fidpath.planning.figure import (
    ALONG,
    COUNTING,
    ELEMENTARY,
    GEOMETRY,
    JOB,
    TAIL_END,
    Figure,
    practice_source,
    rule_source,
)
from fidpath.planning.mark_figures import taper_drops
from fidpath.planning.plan import Lock, Openings, Plan, once

STRAIGHT = "H1's middle, in a straight line to the crown's bearing"
ROUND = "across a round hole of the same girth"


@once
def lengths(plan: Plan) -> tuple[Figure, ...]:
    """Every length of the splice, in the order of the work."""
    return (*_before(plan), *_eye(plan), *_holes(plan), *_bury(plan))


def _before(plan: Plan) -> tuple[Figure, ...]:
    """What is laid out and taken to hand before the first mark."""
    d = plan.braid.diameter
    consumed = Figure(
        "rope_consumed",
        "rope the splice consumes",
        plan.rope_consumed,
        "rope from the bury's far end round the eye to the cut tail - its length when made",
        GEOMETRY,
        "the bury's far end, to the crown's bearing",
        rounding="up",
    )
    return (
        Figure("rope_diameter", "rope, nominal diameter", d, "d", JOB, "across the rope", fine=True),
        Figure("pick", "pick: half the spacing of crossings", plan.pick, "P/N", COUNTING, "along the rope", fine=True),
        _tail_to_lay_out(plan),
        consumed,
        *(_line_past_h1(plan, plan.lock, consumed) if plan.lock else ()),
        _fid("first_fid", "fid for the first pass", plan.openings.first_fid, "fid_opens"),
        _fid("second_fid", "fid for the second pass", plan.openings.second_fid, "fid_passes"),
        *(_h2_fids(plan.openings) if plan.lock else ()),
    )


def _line_past_h1(plan: Plan, lock: Lock, consumed: Figure) -> tuple[Figure, ...]:
    """How much longer the finished line is than from its other end to H1: what H1 decides."""
    parts = ((1, bury_mark(plan, lock)), (1, bury(plan)), (-1, consumed))
    label, formula = "finished line, beyond H1's place", "B + bury - rope the splice consumes"
    measured = "where H1 is marked, to the crown's bearing of the finished line"
    return (Figure("line_past_h1", label, plan.line_past_h1, formula, GEOMETRY, measured, parts=parts),)


def _tail_to_lay_out(plan: Plan) -> Figure:
    """Tail from the first mark on the standing part to its uncut end."""
    rough, mark, place = ("R", "B", "H1's middle") if plan.lock else ("B", "eye", "E")
    parts = ((1, rough_bury_mark(plan, "")), (1, any_bury_mark(plan)))
    label, measured = "tail to lay out before starting", f"{TAIL_END}, to {place}"
    formula = f"{rough} + {mark}"
    return Figure("tail_to_lay_out", label, plan.tail_to_lay_out, formula, GEOMETRY, measured, parts=parts)


def _fid(name: str, label: str, value: float, rules: str) -> Figure:
    """A fid, by its diameter, within the practice's bounds."""
    low, high = rule(f"{rules}_least"), rule(f"{rules}_most")
    formula = f"of those at hand, {low.value:g} d to {high.value:g} d"
    return Figure(name, label, value, formula, rule_source(low), "the fid's diameter", fine=True)


def _h2_fids(opened: Openings) -> tuple[Figure, ...]:
    """The two fids that open H2 for two legs."""
    formula = "of those at hand, the two that open H2 the least of those that open it wide enough"
    names = (("h2_first_fid", "fid for H2, in at one face"), ("h2_second_fid", "fid for H2, in at the other face"))
    return tuple(
        Figure(name, label, fid, formula, ELEMENTARY, "the fid's diameter", fine=True)
        for (name, label), fid in zip(names, opened.h2_fids, strict=True)
    )


def _eye(plan: Plan) -> tuple[Figure, ...]:
    """The eye, and with a lock how it fits and what the lock takes out of it."""
    around = around_terminator(plan)
    throat = STRAIGHT if plan.lock else "where the legs' straight parts would meet, straight to the crown's bearing"
    return (
        _loop(plan, around),
        Figure(
            "rope_round_terminator",
            f"rope bent round {around}",
            plan.eye.bend_radius * (math.pi + plan.throat_angle),
            "(D + d)/2 x (pi + throat angle)",
            ELEMENTARY,
            "the rope's middle, where it meets and leaves the crown",
        ),
        Figure(
            "eye_length_to_crown",
            "finished eye: throat to crown",
            plan.throat_to_crown,
            "H1 to the crown's centre + D/2" if plan.lock else "(D + d)/2 / sin(throat angle/2) + D/2",
            GEOMETRY,
            throat,
        ),
        *(_fit(plan, plan.lock) if plan.lock else ()),
    )


def _loop(plan: Plan, around: str) -> Figure:
    """The finished eye along the rope."""
    if plan.lock:
        return finished_eye(plan, plan.lock)
    label, formula = "finished eye: rope from E round to B", "decided by the eye and D"
    return Figure("eye_length_along_rope", label, plan.eye_length, formula, GEOMETRY, f"E round {around} to B")


def _fit(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """How the eye fits, and what decided it."""
    around = around_terminator(plan)
    wanted = eye_wanted(plan, lock)
    slack = Figure(
        "eye_slack",
        "eye loose (+) or tight (-)",
        lock.eye_slack,
        "finished eye - eye that would fit exactly",
        GEOMETRY,
        ALONG,
        parts=((1, finished_eye(plan, lock)), (-1, wanted)),
    )
    return wanted, slack, *_lost(plan, lock, around), *_held(plan, around)


def _lost(plan: Plan, lock: Lock, around: str) -> tuple[Figure, ...]:
    """The rope that the lock takes out of the eye, which the H1 mark allows for."""
    gap, between = hole_gap(plan, lock), rope_between_holes(lock)
    lost = ((1, gap), (1, between))
    formula = "hole gap + rope between the holes"
    return (
        Figure(
            "eye_lost_to_lock",
            "rope the lock takes out of the eye",
            lock.eye_lost,
            formula,
            GEOMETRY,
            "the loop, less the finished eye",
            parts=lost,
        ),
        Figure(
            "loop_before_lock",
            "loop until the lock is made",
            lock.loop_before,
            "H2 + hole gap",
            GEOMETRY,
            f"H1's middle, round {around} to the point of the tail that lies in it or beside it",
            note="the loop stays so long until the lock is made",
            parts=((1, h2(plan, lock)), (1, gap)),
        ),
        Figure(
            "eye_too_tight_without_allowance",
            "eye too tight by, if H1 is marked without it",
            lock.eye_lost,
            "rope the lock takes out of the eye",
            GEOMETRY,
            ALONG,
            parts=lost,
        ),
    )


def _held(plan: Plan, around: str) -> tuple[Figure, ...]:
    """How far the loop is held round the terminator, before and after the tail has gone through H1."""
    note = f"only tells how far to hold {around}: the loop changes {plan.loop_to_throat:.1f} times as much"
    places = (
        ("wrapped_throat_to_crown", "loop with the tail beside it: throat to crown", plan.wrapped_loop),
        ("marking_throat_to_crown", "loop with the tail in H1: throat to crown", plan.marking_loop),
    )
    return tuple(
        Figure(
            name,
            label,
            loop.throat_to_crown,
            f"H1 to the crown's centre + D/2, with the loop laid round {around}",
            GEOMETRY,
            STRAIGHT,
            note=f"{note}; the tape checks the loop, and the count of crossings rules",
        )
        for name, label, loop in places
    )


def _holes(plan: Plan) -> tuple[Figure, ...]:
    """The holes: how far apart, and how far each is opened."""
    if plan.lock is None:
        return (_most_across(plan.openings, "open no hole beyond"),)
    zone = plan.lock.zone
    return (
        hole_gap(plan, plan.lock),
        Figure(
            "hole_spacing",
            "hole spacing",
            zone.spacing,
            "distance of the holes' middles that leaves the hole gap",
            GEOMETRY,
            "H1's middle to H2's middle, in a straight line",
        ),
        rope_between_holes(plan.lock),
        *_openings(plan.openings),
    )


def _openings(opened: Openings) -> tuple[Figure, ...]:
    """How wide each hole must be, how wide the fids open H2, and how wide no hole may be."""
    return (
        Figure(
            "h1_across", "H1: least that the tail needs", opened.h1_across, "squeeze x d", ELEMENTARY, ROUND, fine=True
        ),
        Figure(
            "h2_across",
            "H2: least that two legs need",
            opened.h2_across,
            "squeeze x d x (pi + 2)/pi: girth of two legs side by side",
            ELEMENTARY,
            ROUND,
            fine=True,
        ),
        Figure(
            "h2_opened",
            "H2: what its fids open",
            opened.h2_opened,
            "girth of its two fids side by side/pi",
            ELEMENTARY,
            ROUND,
            fine=True,
        ),
        _most_across(opened, "open neither hole beyond"),
    )


def _most_across(opened: Openings, label: str) -> Figure:
    """How far no hole is opened."""
    return Figure(
        "most_across",
        label,
        opened.most_across,
        f"{rule('fid_passes_most').value:g} d",
        rule_source(rule("fid_passes_most")),
        ROUND,
        rounding="down",
        fine=True,
    )


def _bury(plan: Plan) -> tuple[Figure, ...]:
    """The neck and the bury."""
    inside = Figure(
        "bury_along_cover",
        "bury, as it lies squeezed in the cover",
        plan.cover.host_length - plan.take_up,
        "standing part that swallows it - take-up: a squeezed tail is longer than its rope",
        GEOMETRY,
        "E, along the finished splice to the tip",
        parts=((1, swallowed(plan)), (-1, take_up(plan))),
    )
    return (
        *(_necks(plan, plan.lock) if plan.lock else ()),
        bury(plan),
        trim(plan),
        swallowed(plan),
        inside,
        *_taper(plan),
    )


def _necks(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """Either rope from the lock to the entry."""
    bare = Figure(
        "bare_neck",
        "bare neck",
        lock.bare_neck,
        "rope from the entry to H2 - half a hole, on a whole number of crossings",
        practice_source(plan, "neck"),
        "E, to H2's near edge",
    )
    return neck_on_tail(lock), neck_on_standing_part(plan, lock), bare


def _taper(plan: Plan) -> tuple[Figure, ...]:
    """The taper, and the cover over the tail."""
    drops = taper_drops(plan)
    return (
        Figure(
            "taper_length",
            "taper",
            plan.bury_length - plan.taper.start,
            f"{plan.job.practice.taper_share:.3g} x bury",
            practice_source(plan, "taper_share"),
            "the first drop, to the tail's tip",
            parts=((1, bury(plan)), (-1, drops[0])) if drops else (),
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
        take_up(plan),
    )
