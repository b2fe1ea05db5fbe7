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

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
BURIES = (14.4, 36.0, 72.0, 144.0)


def one(bury: float | None) -> dict[str, float]:
    """Settles the demo once in this process, with another bury (in diameters) if one is given."""
    from dataclasses import replace

    from fidpath.planning import make_plan
    from fidpath.reading import read_job

    job = read_job(DEMO)
    if bury is not None:
        job = replace(job, practice=replace(job.practice, bury_diameters=bury))
    plan = make_plan(job)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    import time

    began = time.perf_counter()
    from fidpath.settle import clearest, settle

    settled = settle(clearest(plan))
    return {
        "nodes": settled.strands.nodes,
        "seconds": time.perf_counter() - began,
        "solver_seconds": settled.log.settle_seconds,
        "megabytes_for_it": (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024,
        "certificate_min": float(settled.log.certificate_min),
    }


def apart(cache: str, bury: float | None = None) -> dict[str, float]:
    """The same in a process of its own, on one core."""
    setting = {**os.environ, "NUMBA_CACHE_DIR": cache, "NUMBA_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
    command = [sys.executable, __file__, "--one", "" if bury is None else str(bury)]
    done = subprocess.run(command, env=setting, capture_output=True, text=True, check=True)
    result: dict[str, float] = json.loads(done.stdout)
    return result


def main() -> None:
    """Prints the figures."""
    import numpy as np

    with tempfile.TemporaryDirectory() as cache:
        cold = apart(cache)
        warm = sorted((apart(cache) for _ in range(3)), key=lambda r: r["seconds"])[1]
        print(f"cold  {cold['seconds']:6.2f} s   (bound 15 s)")
        print(f"warm  {warm['seconds']:6.2f} s   (bound 6 s; the solver's own share {warm['solver_seconds']:.2f} s)")
        memory = [run["megabytes_for_it"] for run in (warm, cold)]
        print(f"memory for it {memory[0]:.0f} MB warm, {memory[1]:.0f} MB cold (bound 300 MB)")
        print(f"certificate {warm['certificate_min']:.3f}   (bound 0.3 on the demo)")
        rows = []
        for bury in BURIES:
            best = min((apart(cache, bury) for _ in range(2)), key=lambda r: r["solver_seconds"])
            rows.append((best["nodes"], best["solver_seconds"]))
            print(f"bury {bury:6.1f} d: {best['nodes']:6.0f} nodes {best['solver_seconds']:6.2f} s")
        power = np.polyfit(*np.log(np.array(rows)).T, 1)[0]
        print(f"time grows as nodes to the power {power:.2f}   (bound 1.15)")


if __name__ == "__main__":
    if len(sys.argv) > 2 and sys.argv[1] == "--one":
        print(json.dumps(one(float(sys.argv[2]) if sys.argv[2] else None)))
    else:
        main()
