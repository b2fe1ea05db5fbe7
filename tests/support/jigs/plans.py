"""Plans for jigs: one as good as another, drawn at random within what the trade uses."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.errors import CannotBeMade
from fidpath.job.job import Job, Printing
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job


def a_plan(job: Job | None = None, *, inches: bool = False, **printing: object) -> Plan:
    """The plan of a job, its printer changed."""
    job = job or a_job()
    unit = "in" if inches else "mm"
    return make_plan(replace(job, length_unit=unit, printing=replace(job.printing, **printing)))  # type: ignore[arg-type]


def random_job(chance: np.random.Generator) -> Job:
    """A job with a rope of 2 to 24 mm, a printer and a bench of some kind."""
    job = a_job(
        d=float(round(chance.uniform(2, 24), 2)),
        bearing=float(round(chance.uniform(1.5, 8), 2)),
        strands=int(chance.choice([8, 12, 16])),
        pitch=float(round(chance.uniform(6, 9), 2)),
        kind=str(chance.choice(["ring", "teardrop", "deadeye", "pin"])),
        squeeze=float(round(chance.uniform(0.7, 0.9), 2)),
        throat=float(round(chance.uniform(35, 55), 1)),
        bury=float(round(chance.uniform(12, 90), 1)),
        gap=float(round(chance.uniform(0.7, 1.6), 2)),
    )
    printing = Printing(
        nozzle_mm=float(chance.choice([0.25, 0.4, 0.6])),
        clearance_mm=float(round(chance.uniform(0.02, 0.1), 3)),
        bed_mm=tuple(float(side) for side in chance.choice([120, 180, 220, 300], 3)),  # type: ignore[arg-type]
        text_height_mm=float(round(chance.uniform(3.5, 6), 2)),
        plate_mm=float(chance.choice([3, 4, 5])),
        slot_shrink_mm=float(chance.choice([0.0, 0.1])),
    )
    return replace(job, printing=printing, length_unit=str(chance.choice(["mm", "mm", "in"])))


def random_plans(chance: np.random.Generator, count: int) -> list[Plan]:
    """So many plans; jobs that can't be spliced are passed over."""
    plans: list[Plan] = []
    while len(plans) < count:
        try:
            plans.append(make_plan(random_job(chance)))
        except CannotBeMade:
            continue
    return plans
