"""Plan -> every mark on the rope, each with its formula, its source and what it is measured from."""

from __future__ import annotations

from fidpath.planning.base_figures import (
    bury,
    bury_mark,
    entry,
    h2,
    plain_eye_mark,
    rough_bury_mark,
    swallowed,
)
from fidpath.planning.figure import (
    FROM_BURY_MARK,
    FROM_ENTRY_CAPTIVE,
    FROM_H1_CAPTIVE,
    GEOMETRY,
    JOB,
    OWN,
    STRANDS_KEPT,
    TAIL_END,
    Figure,
    practice_source,
)
from fidpath.planning.plan import Lock, Plan, once


@once
def marks(plan: Plan) -> tuple[Figure, ...]:
    """Every mark on the rope, in the order they are made."""
    return (*(_lock_marks(plan, plan.lock) if plan.lock else _plain_marks(plan)), *_tail_marks(plan))


def _lock_marks(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """The rough bury mark, H1, H2, and where the tail goes in, on either rope."""
    rough = rough_bury_mark(plan, "R, rough bury mark on the tail")
    h1 = Figure(
        "H1",
        "H1, on the standing part",
        plan.tail_to_lay_out,
        "R + B",
        GEOMETRY,
        TAIL_END,
        parts=((1, rough), (1, bury_mark(plan, lock))),
    )
    return rough, h1, h2(plan, lock), entry(plan, lock), bury_mark(plan, lock)


def _plain_marks(plan: Plan) -> tuple[Figure, ...]:
    """Where the tail of an eye without a lock goes in, on either rope."""
    rough, round_eye = rough_bury_mark(plan, "B, bury mark on the tail"), plain_eye_mark(plan)
    label, formula, parts = "E, entry on the standing part", "B + eye", ((1, rough), (1, round_eye))
    place = Figure("entry", label, plan.tail_to_lay_out, formula, GEOMETRY, TAIL_END, parts=parts)
    return rough, place, round_eye


def _tail_marks(plan: Plan) -> tuple[Figure, ...]:
    """The drops of the taper, the cut, and where the tip comes to lie."""
    buried = ((1, bury(plan)),)
    cut = Figure("tail_cut", "X, cut the tail", plan.bury_length, "bury", GEOMETRY, FROM_BURY_MARK, parts=buried)
    tip = Figure(
        "tip_in_standing_part",
        "where the tip comes to lie",
        plan.cover.host_length - plan.station_entry_host,
        "E + standing part that swallows the bury" if plan.lock else "standing part that swallows the bury",
        STRANDS_KEPT,
        FROM_H1_CAPTIVE if plan.lock else FROM_ENTRY_CAPTIVE,
        parts=((1, swallowed(plan)), *(((1, entry(plan, plan.lock)),) if plan.lock else ())),
    )
    return (*taper_drops(plan), cut, tip)


def taper_drops(plan: Plan) -> tuple[Figure, ...]:
    """Where strands are dropped, from the bury mark."""
    share = practice_source(plan, "taper_share")
    drops = plan.taper.drops if plan.taper.stagger > 0 else ()
    return tuple(
        Figure(
            f"taper_drop_{number}",
            f"T{number}, taper: drop one strand of each hand",
            place,
            f"bury x (1 - taper share x {len(drops) + 1 - number}/{len(drops)}), second strand d/2 further",
            f"{share}; number of drops: {JOB if plan.job.gives('practice.taper_drops') else OWN}",
            FROM_BURY_MARK,
        )
        for number, place in enumerate(drops, 1)
    )
