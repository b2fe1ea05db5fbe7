"""Jigs of the demo: seconds a jig with its files, seconds a scale model whole and in halves, least of three runs.

Settling of the model's step is not counted. Run: python benchmarks/bench_jigs.py
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from fidpath.jigs.catalogue import JIGS, USUAL, Outcome, files
from fidpath.jigs.model import model
from fidpath.jigs.report import as_text, entry_of
from fidpath.planning import Plan, make_plan
from fidpath.reading import read_job
from fidpath.steps import made

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
STEPS = ("locked", "bight-in-h2", "h1-in-h2")


def least(work: Callable[[], object], rounds: int = 3) -> float:
    """Least seconds of some runs."""
    seconds = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - began)
    return min(seconds)


def one(plan: Plan, name: str) -> Callable[[], object]:
    """The work of one jig: its solids, and every file of it."""
    return lambda: dict(files(plan, JIGS[name](plan), USUAL))


def main() -> None:
    """Prints the figures."""
    plan = make_plan(read_job(DEMO))
    for name in JIGS:
        solid = least(lambda name=name: JIGS[name](plan))  # type: ignore[misc]
        jig = JIGS[name](plan)
        told = least(lambda jig=jig: as_text(plan, [entry_of(plan, Outcome(jig.name, jig))]))  # type: ignore[misc]
        print(f"{name:<12} {solid:5.2f} s, with its files {least(one(plan, name)):5.2f} s, report {told:5.2f} s")
    print("(bound 0.5 s a jig)")
    printing = plan.job.printing
    for step in STEPS:
        settled = made(plan, step)
        for halves in (False, True):
            began = time.perf_counter()
            jig = model(settled, printing.scale, halves, printing)
            faces = sum(len(piece.mesh.faces) for piece in jig.pieces)
            print(
                f"model of {step}, {'halves' if halves else 'whole':<6} {time.perf_counter() - began:5.2f} s, {faces}"
            )
    print("(bound 30 s a scale model)")


if __name__ == "__main__":
    main()
