"""What a build writes that moves: the motion between the steps, and the finished splice turned round."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from fidpath.arrays import Progress
from fidpath.machine import files as output
from fidpath.outputs.motion import film
from fidpath.outputs.motion.settled_motion import FRAMES, frames, summary
from fidpath.planning.plan import Plan
from fidpath.settling.settled_states import SettledState


def write_motion(plan: Plan, out: Path, tell: Progress, count: int = FRAMES) -> list[Path]:
    """`motion.json`, each stretch with its least gap and where the rope had to be drawn thinner, and `motion.webp`."""
    made = list(frames(plan, count, tell))
    rows = [asdict(row) for row in summary(made)]
    output.write_text(
        out / "motion.json", json.dumps({"name": plan.job.name, "stretches": rows}, indent=2, default=float) + "\n"
    )
    film.film(out / "motion.webp", len(made), film.motion(plan, made), plan.braid.thickness, tell)
    return [out / "motion.json", out / "motion.webp"]


def write_turntable(plan: Plan, made: SettledState, out: Path, tell: Progress) -> list[Path]:
    """`turntable.webp`, the finished splice turned once about the load line."""
    target = out / "turntable.webp"
    film.film(target, film.TURN_FRAMES, film.turntable(plan, made), plan.braid.thickness, tell)
    return [target]
