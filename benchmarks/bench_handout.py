"""Handouts of the demo on both papers, with figures as large as the real ones: seconds, pages, same bytes.

Run: python benchmarks/bench_handout.py [FOLDER OF SVG FIGURES, named as the handout names them]
"""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Mapping
from pathlib import Path

import numpy as np
import pikepdf

from fidpath.job.reader import read_job
from fidpath.methods.method import Method
from fidpath.methods.registry import method_of
from fidpath.outputs.handout import PAPERS, handout, step_key, wrong_key
from fidpath.planning.planner import make_plan
from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"

LINES = 100_000
"""Bytes of a stand-in figure: what a step's line art weighs."""

HIGH, LOW = 47.2, 36.8
"""Heights of compact figures 160 mm wide, of steps and of mistakes, mm."""


def stand_in(seed: int, high: float) -> bytes:
    """A figure of random short lines, as heavy as a step's and `high` mm high."""
    drawn = np.random.default_rng(seed)
    count = LINES // 22
    starts = drawn.integers(0, [15000, round(95 * high)], (count, 2))
    steps = drawn.integers(-90, 90, (count, 2))
    paths = "".join(f"M{x} {y}l{dx} {dy}" for (x, y), (dx, dy) in zip(starts.tolist(), steps.tolist(), strict=True))
    head = f'<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="{high}mm" viewBox="0 0 160 {high}">'
    return f'{head}<g transform="scale(0.01)"><path fill="none" stroke="#000" d="{paths}"/></g></svg>'.encode()


def figures(way: Method, folder: Path | None) -> Mapping[str, bytes]:
    """Every figure of a method by its name: from the folder, or stand-ins."""
    names = [step_key(way, i) for i in range(len(way.steps))] + [wrong_key(w) for w in way.mistakes] + ["finished"]
    if folder is None:
        return {name: stand_in(i, LOW if name.startswith("wrong") else HIGH) for i, name in enumerate(names)}
    return {name: (folder / f"{name}.svg").read_bytes() for name in names if (folder / f"{name}.svg").is_file()}


def main() -> None:
    """Prints the figures beside their bounds."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    plan, way = make_plan(read_job(DEMO)), method_of("locked-captive")
    drawn = figures(way, folder)
    print(f"{len(drawn)} figures, {sum(map(len, drawn.values())) / 1e6:.1f} MB")
    for paper in PAPERS:
        times, made = [], []
        for _ in range(2):
            began = time.perf_counter()
            made.append(handout(plan, way, drawn, paper))  # type: ignore[arg-type]
            times.append(time.perf_counter() - began)
        with pikepdf.open(io.BytesIO(made[0])) as document:
            pages = len(document.pages)
        size, same = len(made[0]) / 1e6, str(made[0] == made[1])
        beside = f"{pages} pages, {size:.2f} MB, again {times[1]:.2f} s, same bytes {same}"
        figure(f"handout on {paper} paper beyond its line art", times[0], "s", 2, beside=beside)


if __name__ == "__main__":
    main()
