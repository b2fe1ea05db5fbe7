"""Jigs of the demo: seconds a jig with its files, seconds a scale model whole and in halves, least of three runs.

Settling of the model's step is not counted. Run: python benchmarks/bench_jigs.py
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from fidpath.job.reader import read_job
from fidpath.loading.in_hand import state_in_hand
from fidpath.outputs.jigs.catalogue import JIGS, USUAL, JigOrRefusal, files
from fidpath.outputs.jigs.jig_report import as_text, report_entry
from fidpath.outputs.jigs.parts.step_model import model
from fidpath.outputs.jigs.parts.teaching_models import close_up, states_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from figures import figure, least

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
STEPS = ("locked", "bight-in-h2", "h1-in-h2")


def one(plan: Plan, name: str) -> Callable[[], object]:
    """The work of one jig: its solids, and every file of it."""
    return lambda: dict(files(plan, JIGS[name](plan), USUAL))


def main() -> None:
    """Prints the figures."""
    plan = make_plan(read_job(DEMO))
    for name in JIGS:
        solid = least(lambda name=name: JIGS[name](plan))  # type: ignore[misc]
        jig = JIGS[name](plan)
        told = least(lambda jig=jig: as_text(plan, [report_entry(plan, JigOrRefusal(jig.name, jig))]))  # type: ignore[misc]
        whole = least(one(plan, name)) + told
        figure(f"jig {name}, its files and its report", whole, "s", 0.5, beside=f"the solid alone {solid:.2f}")
    printing = plan.job.printing
    for step in STEPS:
        settled = state_in_hand(plan, step)
        for halves in (False, True):
            began = time.perf_counter()
            jig = model(settled, printing.scale, halves, printing)
            faces = sum(len(piece.mesh.faces) for piece in jig.pieces)
            how = "halves" if halves else "whole"
            took = time.perf_counter() - began
            figure(f"scale model of {step}, {how}", took, "s", 30, beside=f"{faces} triangles")
    for state in states_of(plan):
        settled = state_in_hand(plan, state)
        began = time.perf_counter()
        jig = close_up(settled, printing.scale, printing)
        faces = sum(len(piece.mesh.faces) for piece in jig.pieces)
        figure(f"teaching model of {state}", time.perf_counter() - began, "s", 10, beside=f"{faces} triangles")


if __name__ == "__main__":
    main()
