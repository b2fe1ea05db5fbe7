"""Settling of every step and mistake of the demo: each on one core, and all of them on two.

Run: python benchmarks/bench_steps.py
"""

from __future__ import annotations

import time
from pathlib import Path

from fidpath.job.reader import read_job
from fidpath.loading.in_hand import all_in_hand, state_in_hand
from fidpath.planning.planner import make_plan
from fidpath.states.kinds import KINDS
from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"


def main() -> None:
    """Prints seconds a state, warm, and for all of them two at a time."""
    plan = make_plan(read_job(DEMO))
    kinds = [kind for kind in KINDS if not kind.startswith(("plain-", "free-"))]
    state_in_hand(plan, kinds[0])
    worst = 0.0
    for kind in kinds:
        began = time.perf_counter()
        one = state_in_hand(plan, kind)
        took = time.perf_counter() - began
        worst = max(worst, took)
        print(f"{kind:<20} {one.settled.strands.nodes:>6} nodes {took:6.2f} s")
    began = time.perf_counter()
    together = sum(1 for _ in all_in_hand(plan, kinds))
    figure("settling a step or a mistake, the slowest", worst, "s", 6)
    figure(f"all {together} of them, two at a time", time.perf_counter() - began, "s", 60)


if __name__ == "__main__":
    main()
