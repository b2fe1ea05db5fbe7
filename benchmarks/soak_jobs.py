"""Random jobs from end to end: each must meet every bound of the check, or be refused in words. Prints the shares.

Run: python benchmarks/soak_jobs.py [how many] [seed]
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from fidpath.errors import CannotBeMade
from fidpath.workshop import finished
from jobs import a_job

KINDS = ("ring", "teardrop", "deadeye", "pin")


def drawn(chance: np.random.Generator) -> dict[str, object]:
    """One random set of job parameters, lengths in rope diameters."""
    strands = int(chance.choice([8, 12, 16]))
    return {
        "d": float(round(chance.uniform(2, 40), 1)),
        "strands": strands,
        "weave": str(chance.choice(["over-two", "over-two", "over-one"])),
        "pitch": float(round(chance.uniform(5, 10), 2)),
        "bearing": float(round(chance.uniform(1, 12), 2)),
        "kind": str(chance.choice(KINDS)),
        "squeeze": float(round(chance.uniform(0.7, 1.0), 2)),
        "throat": float(round(chance.uniform(30, 60), 1)),
        "gap": float(round(chance.uniform(0.6, 2.0), 2)),
        "bury": 30.0,
    }


def main(count: int, seed: int) -> None:
    """Prints each job that isn't simply made, and the shares made, refused and wrong."""
    chance = np.random.default_rng(seed)
    tally: Counter[str] = Counter()
    for number in range(count):
        parameters = drawn(chance)
        usual = (
            parameters["weave"] == "over-two"
            and 6 <= float(parameters["pitch"]) <= 9
            and float(parameters["bearing"]) >= 1.5
        )
        group = "usual" if usual else "other"
        try:
            failures = finished(a_job(**parameters)).report["failures"]  # type: ignore[arg-type]
        except CannotBeMade as refusal:
            tally[f"{group} refused"] += 1
            print(f"{number} refused: {refusal} {parameters}", flush=True)
            continue
        tally[f"{group} {'missed a bound' if failures else 'made'}"] += 1
        if failures:
            told = "; ".join(f"{f['check']} {f['value']} at {f['where_mm']}" for f in failures)
            print(f"{number} missed: {told} {parameters}", flush=True)
    for outcome in sorted(tally):
        print(f"{outcome}: {tally[outcome]}")


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else 50, given[1] if len(given) > 1 else 1)
