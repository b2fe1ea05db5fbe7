"""Start-up, plan and the whole of `build` for the demo, cold and warm, each in a process of its own.

Cold = no compiled cache, warm = compiled cache filled, both with nothing settled before.
Run: python benchmarks/bench_build.py
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import wraps
from importlib import import_module
from pathlib import Path
from typing import Any

from figures import figure

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


CAPTION = """
import sys
from dataclasses import replace
from pathlib import Path
from fidpath.building import request
from fidpath.building.pipeline import build
from fidpath.job.reader import read_job
if __name__ == "__main__":
    real = request.method_of
    def recaptioned(name):
        way = real(name)
        other = lambda step: replace(step, caption="Another caption") if step.state == "bight-in-h2" else step
        steps = [other(step) for step in way.steps]
        return replace(way, steps=tuple(steps))
    request.method_of = recaptioned
    build(read_job(Path(sys.argv[1])), Path(sys.argv[2]))
"""


def recaptioned(out: Path, cache: str) -> float:
    """Seconds of a build after one step's caption has changed, in a process of its own."""
    with tempfile.TemporaryDirectory() as folder:
        program = Path(folder) / "caption.py"
        program.write_text(CAPTION, encoding="utf-8")
        setting = {**os.environ, "NUMBA_CACHE_DIR": cache}
        began = time.perf_counter()
        subprocess.run([sys.executable, str(program), str(DEMO), str(out)], env=setting, check=True)
        return time.perf_counter() - began


def phases(cache: str) -> None:
    """Seconds of the processor by kind of work, all pieces one after the other in one process."""
    done = subprocess.run(
        [sys.executable, __file__, "--phases"],
        env={**os.environ, "NUMBA_CACHE_DIR": cache},
        capture_output=True,
        text=True,
        check=True,
    )
    for name, used in json.loads(done.stdout).items():
        figure(f"of that, {name}", used, "s")


def by_phase() -> dict[str, float]:
    """The same in this process: what each kind of work takes, by the clock."""
    from fidpath.building.request import request_for
    from fidpath.building.state_cache import StateCache
    from fidpath.job.reader import read_job
    from fidpath.outputs.registered import all_outputs
    from fidpath.outputs.registry import Context

    request = request_for(read_job(DEMO))
    took = dict.fromkeys(("settling and sections", *WORK.values()), 0.0)
    for (module, name), phase in WORK.items():
        place = import_module(module)
        setattr(place, name, timed(getattr(place, name), phase, took))
    with tempfile.TemporaryDirectory() as folder:
        states = StateCache(request.plan, Path(folder))
        context = Context(request, timed(states.settled, "settling and sections", took))
        began = time.perf_counter()
        for output in (one for one in all_outputs() if not one.needs):
            for item in output.items(request):
                output.make(context, item.name)
        took["solids, the page's parts and the rest"] = time.perf_counter() - began - sum(took.values())
    return took


REGISTERED = "fidpath.outputs.registered"
WORK = {
    (f"{REGISTERED}.finished_splice", "finished_report"): "the check",
    (f"{REGISTERED}.steps", "state_report"): "the check",
    (f"{REGISTERED}.mistakes", "state_report"): "the check",
    ("fidpath.outputs.scene_files", "_png"): "pictures",
    ("fidpath.outputs.scene_files", "_line_art"): "line art",
    (f"{REGISTERED}.finished_splice", "figure"): "the handout's figures",
    (f"{REGISTERED}.steps", "figure"): "the handout's figures",
    (f"{REGISTERED}.mistakes", "figure"): "the handout's figures",
    ("fidpath.outputs.jigs", "written"): "jigs",
}
"""Functions that outputs call, by what they are for."""


def timed(work: Callable[..., Any], phase: str, took: dict[str, float]) -> Callable[..., Any]:
    """The same function, its time added to its phase."""

    @wraps(work)
    def done(*given: Any, **named: Any) -> Any:
        began = time.perf_counter()
        try:
            return work(*given, **named)
        finally:
            took[phase] += time.perf_counter() - began

    return done


def main() -> None:
    """Prints the figures beside their bounds."""
    with tempfile.TemporaryDirectory() as cache, tempfile.TemporaryDirectory() as out:
        seconds(["--help"], cache)
        figure("fidpath --help", median(["--help"], cache, 5), "s", 0.25)
        figure("fidpath plan", median(["plan", str(DEMO)], cache, 5), "s", 1)
        build = ["build", str(DEMO), "--out"]
        figure("build --no-steps, cold", seconds([*build, f"{out}/1", "--no-steps"], cache), "s", 45)
        warm = sorted(seconds([*build, f"{out}/{k}", "--no-steps"], cache) for k in (2, 3, 4))[1]
        figure("build --no-steps, warm", warm, "s", 25)
        figure("verify, warm", median(["verify", str(DEMO)], cache, 3), "s")
    with tempfile.TemporaryDirectory() as cache, tempfile.TemporaryDirectory() as out:
        figure("build of everything, cold", seconds([*build, f"{out}/1"], cache), "s", 100)
        figure("build of everything, warm", seconds([*build, f"{out}/2"], cache), "s", 75)
        figure("the same again, nothing changed", median([*build, f"{out}/2"], cache, 3), "s", 2)
        figure("the same again, one step's caption changed", recaptioned(Path(out) / "2", cache), "s", 8)
        most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        figure("most memory of one of its processes", most, "MB")
        phases(cache)


if __name__ == "__main__":
    if sys.argv[1:] == ["--phases"]:
        print(json.dumps(by_phase()))
    else:
        main()
