"""Settling of the demo: cold and warm on one core, peak memory, and growth with the length of the bury.

Cold = no compiled cache, warm = compiled cache filled, both with nothing settled before; each in its own process.
Run: python benchmarks/bench_settling.py
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from figures import figure, power

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
BURIES = (14.4, 36.0, 72.0, 144.0)
STRANDS = (8, 12, 16)


def one(bury: float | None, strands: int | None) -> dict[str, float]:
    """Settles the demo once in this process, with another bury (in diameters) or count of strands if one is given."""
    from dataclasses import replace

    from fidpath.job.reader import read_job
    from fidpath.planning.planner import make_plan

    job = read_job(DEMO)
    if bury is not None:
        job = replace(job, practice=replace(job.practice, bury_diameters=bury))
    if strands is not None:
        practice = replace(job.practice, taper_drops=strands // 2 - 1)
        job = replace(job, rope=replace(job.rope, strands=strands), practice=practice)
    plan = make_plan(job)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    import time

    began = time.perf_counter()
    from fidpath.settling import settle
    from fidpath.settling.thin_start import clearest
    from fidpath.states.kinds import state_of

    settled = settle(clearest(state_of(plan, "buried")))
    return {
        "nodes": settled.strands.nodes,
        "seconds": time.perf_counter() - began,
        "solver_seconds": settled.log.settle_seconds,
        "megabytes_for_it": (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024,
        "certificate_min": float(settled.log.certificate_min),
    }


def apart(cache: str, bury: float | None = None, strands: int | None = None) -> dict[str, float]:
    """The same in a process of its own, on one core."""
    setting = {**os.environ, "NUMBA_CACHE_DIR": cache, "NUMBA_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
    given = ["" if value is None else str(value) for value in (bury, strands)]
    command = [sys.executable, __file__, "--one", *given]
    done = subprocess.run(command, env=setting, capture_output=True, text=True, check=True)
    result: dict[str, float] = json.loads(done.stdout)
    return result


def main() -> None:
    """Prints the figures."""
    with tempfile.TemporaryDirectory() as cache:
        cold = apart(cache)
        warm = sorted((apart(cache) for _ in range(3)), key=lambda r: r["seconds"])[1]
        figure("settling the demo, cold, one core", cold["seconds"], "s", 15)
        solver = f"solver {warm['solver_seconds']:.2f}"
        figure("settling the demo, warm, one core", warm["seconds"], "s", 1.5, beside=solver)
        figure("memory for it", max(run["megabytes_for_it"] for run in (warm, cold)), "MB", 300)
        figure("certificate of the demo", warm["certificate_min"], "", 0.3, least=True)
        rows = []
        for bury in BURIES:
            best = min((apart(cache, bury) for _ in range(2)), key=lambda r: r["solver_seconds"])
            rows.append((best["nodes"], best["solver_seconds"]))
            print(f"bury {bury:6.1f} d: {best['nodes']:6.0f} nodes {best['solver_seconds']:6.2f} s")
        grown = "of " + ", ".join(f"{bury:g}" for bury in BURIES) + " d"
        nodes, seconds = ([row[k] for row in rows] for k in (0, 1))
        figure("settling grows as nodes to the power", power(nodes, seconds), "", 1.15, beside=f"buries {grown}")
        figure("settling grows as bury length to the power", power(list(BURIES), seconds), "", beside=grown)
        found = [apart(cache, strands=count) for count in STRANDS]
        seconds = [run["solver_seconds"] for run in found]
        figure(
            "settling grows as strands to the power", power(list(STRANDS), seconds), "", beside="of 8, 12, 16 strands"
        )


if __name__ == "__main__":
    if len(sys.argv) > 2 and sys.argv[1] == "--one":
        given = sys.argv[2:4]
        print(json.dumps(one(float(given[0]) if given[0] else None, int(given[1]) if given[1] else None)))
    else:
        main()
