"""Plan -> every mark on the rope, each with its formula, its source and what it is measured from."""

from __future__ import annotations

from fidpath.planning.figure import (
    COUNTING,
    FROM_ENTRY,
    FROM_ENTRY_CAPTIVE,
    FROM_ENTRY_TAIL,
    FROM_H1_CAPTIVE,
    FROM_H1_TAIL,
    GEOMETRY,
    JOB,
    OWN,
    STRANDS_KEPT,
    TAIL_END,
    Figure,
    practice_source,
)
from fidpath.planning.plan import TRIM, Lock, Plan


def marks(plan: Plan) -> tuple[Figure, ...]:
    """Every mark on the rope, in the order they are made."""
    return (*(_lock_marks(plan, plan.lock) if plan.lock else _plain_marks(plan)), *_tail_marks(plan))


def _rough_bury_mark(plan: Plan, label: str) -> Figure:
    """The bury mark as it is made first, with rope to spare."""
    source = f"bury: {practice_source(plan, 'bury')}; trim: {OWN}"
    formula = f"bury + {TRIM:g} d to trim"
    return Figure("rough_bury_mark", label, plan.rough_bury_mark, formula, source, TAIL_END, rounding="up")


def _lock_marks(plan: Plan, lock: Lock) -> tuple[Figure, ...]:
    """H1, H2, and where the tail goes in, on either rope."""
    return (
        _rough_bury_mark(plan, "R, rough bury mark on the tail"),
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
            lock.station_h2,
            f"{lock.picks_h1_to_h2} picks x P/N; set it where strands cross",
            f"{COUNTING}; {plan.braid.strands // 2} strands each side of the fid: common practice, no source",
            FROM_H1_TAIL,
        ),
        Figure(
            "entry",
            "E, entry on the standing part",
            lock.rope_entry_to_h1,
            f"{lock.diamonds_entry_to_h1} diamonds x 2 P/N",
            COUNTING,
            FROM_H1_CAPTIVE,
        ),
        Figure(
            "bury_mark",
            "B, bury mark on the tail",
            plan.station_entry_tail,
            "H2 + rope from H2 to the entry",
            GEOMETRY,
            FROM_H1_TAIL,
        ),
    )


def _plain_marks(plan: Plan) -> tuple[Figure, ...]:
    """Where the tail of an eye without a lock goes in, on either rope."""
    laid_out = f"eye + bury + {TRIM:g} d to trim"
    round_eye = "B, from E round the eye"
    return (
        _rough_bury_mark(plan, "B, bury mark on the tail"),
        Figure(
            "entry", "E, entry on the standing part", plan.tail_to_lay_out, laid_out, GEOMETRY, TAIL_END, rounding="up"
        ),
        Figure("bury_mark", round_eye, plan.station_entry_tail, "decided by the eye and D", GEOMETRY, FROM_ENTRY),
    )


def _tail_marks(plan: Plan) -> tuple[Figure, ...]:
    """The drops of the taper, the cut, and where the tip comes to lie."""
    share = practice_source(plan, "taper_share")
    drops = plan.taper.drops if plan.taper.stagger > 0 else ()
    tail = tuple(
        Figure(
            f"taper_drop_{number}",
            f"T{number}, taper: drop one strand of each hand",
            place,
            f"bury x (1 - taper share x {len(drops) + 1 - number}/{len(drops)}), second strand d/2 further",
            f"{share}; number of drops: {JOB if plan.job.gives('practice.taper_drops') else OWN}",
            FROM_ENTRY_TAIL,
        )
        for number, place in enumerate(drops, 1)
    )
    cut = Figure("tail_cut", "X, cut the tail", plan.bury_length, "bury", GEOMETRY, FROM_ENTRY_TAIL, rounding="up")
    tip = Figure(
        "tip_in_standing_part",
        "where the tip comes to lie",
        plan.cover.host_length - plan.station_entry_host,
        "entry + standing part that swallows the bury" if plan.lock else "standing part that swallows the bury",
        STRANDS_KEPT,
        FROM_H1_CAPTIVE if plan.lock else FROM_ENTRY_CAPTIVE,
    )
    return (*tail, cut, tip)
