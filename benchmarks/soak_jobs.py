"""Random jobs from end to end: each must meet every bound of the check, or be refused in words. Prints the shares.

A job is made, refused by its plan, or settled and then found to miss a bound, at which `build` refuses it undrawn.

With a record (a file of JSON lines) a run that was stopped goes on where it was; `most` is how many jobs more this run
may do.

Run: python benchmarks/soak_jobs.py [how many] [seed] [record] [most]
"""

from __future__ import annotations

import json
import sys
import time
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

from fidpath.building.verification import verify_finished
from fidpath.errors import CannotBeMade
from fidpath.job.job import closes
from jobs import a_job

KINDS = ("ring", "teardrop", "deadeye", "pin")
WANTED = {"usual": 0.95, "other": 0.80}
"""Least share made: over-two with a pitch of 6 to 9 d and D/d of 1.5 or more; all others that close."""


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


def group(parameters: dict[str, object]) -> str:
    """Which of the two shares a job counts for."""
    pitch, bearing = float(str(parameters["pitch"])), float(str(parameters["bearing"]))
    return "usual" if parameters["weave"] == "over-two" and 6 <= pitch <= 9 and bearing >= 1.5 else "other"


def tried(number: int, parameters: dict[str, object]) -> dict[str, object]:
    """What came of one job: made, refused in words, missed a bound, or broke."""
    began = time.perf_counter()
    try:
        failures = verify_finished(a_job(**parameters))["failures"]  # type: ignore[arg-type]
        told = "; ".join(f"{f['check']} {f['value']:.4g} (bound {f['bound']}) at {f['where_mm']}" for f in failures)
        outcome = "missed a bound" if failures else "made"
    except CannotBeMade as refusal:
        outcome, told = "refused", str(refusal)
    except Exception as problem:
        outcome, told = "broke", repr(problem)
    seconds = round(time.perf_counter() - began, 2)
    return {"number": number, "outcome": outcome, "told": told, "seconds": seconds, "parameters": parameters}


def known(record: Path | None) -> dict[int, dict[str, object]]:
    """What a record already holds, by the job's number."""
    if record is None or not record.exists():
        return {}
    rows = [json.loads(line) for line in record.read_text(encoding="utf-8").splitlines()]
    return {int(row["number"]): row for row in rows}


def shares(rows: Iterable[dict[str, object]]) -> list[str]:
    """The shares of each outcome by class, beside the shares wanted."""
    tally = Counter((group(dict(row["parameters"])), str(row["outcome"])) for row in rows)  # type: ignore[call-overload]
    lines = []
    for name, least in WANTED.items():
        counts = {outcome: number for (of, outcome), number in tally.items() if of == name}
        total = sum(counts.values())
        if total:
            said = ", ".join(f"{outcome} {number}" for outcome, number in sorted(counts.items()))
            made = counts.get("made", 0) / total
            lines.append(f"{name}: {total} jobs: {said}; {made:.1%} made, {least:.0%} wanted")
    return lines


def main(count: int, seed: int, record: Path | None, most: int) -> int:
    """Prints each job that isn't simply made, and the shares; 1 where a job broke or a share falls short."""
    chance = np.random.default_rng(seed)
    jobs = [drawn(chance) for _ in range(count)]
    done = {number: row for number, row in known(record).items() if number < count}
    assert all(row["parameters"] == jobs[number] for number, row in done.items()), "the record is of other jobs"
    assert all(closes(int(str(job["strands"])), str(job["weave"])) for job in jobs)  # type: ignore[arg-type]
    todo = [number for number in range(count) if number not in done][:most]
    with ProcessPoolExecutor(2, get_context("spawn")) as pool:
        for row in pool.map(tried, todo, [jobs[number] for number in todo]):
            done[int(str(row["number"]))] = row
            if record is not None:
                with record.open("a", encoding="utf-8") as stream:
                    stream.write(json.dumps(row) + "\n")
            if row["outcome"] != "made":
                print(f"{row['number']} {row['outcome']}: {row['told']} {row['parameters']}", flush=True)
    print(f"{len(done)} of {count} jobs, seed {seed}", *shares(done.values()), sep="\n")
    broke = [row for row in done.values() if row["outcome"] == "broke"]
    short = [line for line in shares(done.values()) if float(line.split("; ")[1].split("%")[0]) < _wanted(line)]
    return 1 if (broke or short) and len(done) == count else 0


def _wanted(line: str) -> float:
    """The share wanted of the class that a line is about, in percent."""
    return 100 * WANTED[line.partition(":")[0]]


if __name__ == "__main__":
    given = sys.argv[1:]
    number, start = (int(given[k]) if len(given) > k else usual for k, usual in ((0, 50), (1, 1)))
    kept = Path(given[2]) if len(given) > 2 else None
    raise SystemExit(main(number, start, kept, int(given[3]) if len(given) > 3 else number))
