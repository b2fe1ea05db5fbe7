"""Start-up, plan and the whole of `build` for the demo, cold and warm, each in a process of its own.

Cold = no compiled cache, warm = compiled cache filled, both with nothing settled before.
Run: python benchmarks/bench_build.py
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"


def seconds(arguments: list[str], cache: str) -> float:
    """Wall-clock seconds of one run of the command line."""
    began = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "fidpath", *arguments],
        env={**os.environ, "NUMBA_CACHE_DIR": cache},
        stdout=subprocess.DEVNULL,
        check=True,
    )
    return time.perf_counter() - began


def median(arguments: list[str], cache: str, runs: int) -> float:
    """Median of several runs."""
    return sorted(seconds(arguments, cache) for _ in range(runs))[runs // 2]


def main() -> None:
    """Prints the figures beside their bounds."""
    with tempfile.TemporaryDirectory() as cache, tempfile.TemporaryDirectory() as out:
        seconds(["--help"], cache)
        print(f"fidpath --help {median(['--help'], cache, 5):6.2f} s   (bound 0.25 s)")
        print(f"fidpath plan   {median(['plan', str(DEMO)], cache, 5):6.2f} s   (bound 1 s)")
        build = ["build", "--no-steps", str(DEMO), "--out", out]
        print(f"build, cold    {seconds(build, cache):6.2f} s   (bound 45 s)")
        print(f"build, warm    {median(build, cache, 3):6.2f} s   (bound 25 s)")
        print(f"verify, warm   {median(['verify', str(DEMO)], cache, 3):6.2f} s")


if __name__ == "__main__":
    main()
