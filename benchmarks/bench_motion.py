"""The film of the demo: 240 frames' axes and strands on two cores, and what each stretch comes to.

The compiled cache is filled before the clock starts. Processor time is given besides, as others may use the machine.
Run: python benchmarks/bench_motion.py
"""

from __future__ import annotations

import time
from pathlib import Path

from fidpath.job.reader import read_job
from fidpath.outputs.motion.settled_motion import FRAMES, frames, summary
from fidpath.planning.planner import make_plan
from fidpath.settling import settle
from fidpath.settling.thin_start import clearest
from fidpath.states.kinds import state_of
from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"


def main() -> None:
    """Prints the figures."""
    plan = make_plan(read_job(DEMO))
    settle(clearest(state_of(plan, "buried")))
    began, used = time.perf_counter(), time.process_time()
    film = list(frames(plan, FRAMES))
    wall, processor = time.perf_counter() - began, time.process_time() - used
    figure(f"motion, {len(film)} frames on two cores", wall, "s", 60, beside=f"processor {processor:.0f} s")
    figure(
        "its least gap between strands, of their thickness",
        min(row.least_gap for row in summary(film)),
        "",
        0.99,
        least=True,
    )
    print(f"{'stretch':42} frames  least gap  certificate  thickness  key frames")
    for row in summary(film):
        print(
            f"{row.stretch:42} {row.frames:6d} {row.least_gap:10.3f} {row.certificate:12.2f} {row.thinner:10.2f}"
            f" {row.keys:11d}"
        )


if __name__ == "__main__":
    main()
