"""Start-up, plan and the whole of `build` for the demo, cold and warm, each in a process of its own; beside it the same
build by release 0.1.0, in the same run.

Cold = no compiled cache, warm = compiled cache filled, both with nothing settled before. Processor seconds are those of
all processes of a build together.
Run: python benchmarks/bench_build.py
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import wraps
from importlib import import_module
from pathlib import Path
from typing import Any

import earlier
from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"


@dataclass(frozen=True)
class Used:
    """What a command took, its processes with it: seconds by the clock and of the processor, MB of the largest process.

    pictured: seconds until the first picture was there, where one was waited for.
    """

    wall: float
    processor: float
    memory: float
    pictured: float = float("nan")


def used(command: list[str], setting: Mapping[str, str], pictures: Path | None = None) -> Used:
    """Runs a command to its end, its bytecode kept as an installed program's is.

    pictures: a folder, empty before, to which it writes pictures.
    """
    own = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    began = time.perf_counter()
    running = subprocess.Popen(command, env={**own, **setting}, stdout=subprocess.DEVNULL)
    pictured = float("nan") if pictures is None else _first_picture(running, pictures, began)
    _, status, taken = os.wait4(running.pid, 0)
    if status:
        raise SystemExit(f"{' '.join(command)} failed")
    wall = time.perf_counter() - began
    return Used(wall, taken.ru_utime + taken.ru_stime, taken.ru_maxrss / 1024, pictured)


def _first_picture(running: subprocess.Popen[bytes], folder: Path, began: float) -> float:
    """Seconds until a folder has a picture, looked for twenty times a second."""
    while not list(folder.glob("*.png")):
        if os.waitid(os.P_PID, running.pid, os.WEXITED | os.WNOHANG | os.WNOWAIT) is not None:
            return float("nan")
        time.sleep(0.05)
    return time.perf_counter() - began


def command(*arguments: str) -> list[str]:
    """A run of the command line by this Python."""
    return [sys.executable, "-m", "fidpath", *arguments]


def seconds(arguments: list[str], cache: str) -> float:
    """Wall-clock seconds of one run of the command line."""
    return used(command(*arguments), {"NUMBA_CACHE_DIR": cache}).wall


def median(arguments: list[str], cache: str, runs: int) -> float:
    """Median of several runs."""
    return sorted(seconds(arguments, cache) for _ in range(runs))[runs // 2]


def whole(out: Path, cache: str, **more: str) -> Used:
    """A build of everything into a folder that isn't there yet."""
    return used(command("build", str(DEMO), "--out", str(out)), {"NUMBA_CACHE_DIR": cache, **more}, out)


CAPTION = """
import sys
from dataclasses import replace
from pathlib import Path
from fidpath.building import request
from fidpath.building.pipeline import build
from fidpath.job.reader import read_job
from fidpath.machine.resources import one_blas_thread
if __name__ == "__main__":
    real = request.method_of
    def recaptioned(name):
        way = real(name)
        other = lambda step: replace(step, caption="Another caption") if step.state == "bight-in-h2" else step
        steps = [other(step) for step in way.steps]
        return replace(way, steps=tuple(steps))
    request.method_of = recaptioned
    with one_blas_thread():
        build(read_job(Path(sys.argv[1])), Path(sys.argv[2]))
"""

UNRELAXED = """
import sys
from pathlib import Path
from fidpath.building import pipeline, state_cache
from fidpath.job.reader import read_job
from fidpath.machine.resources import one_blas_thread
from fidpath.settling import settled_state
state_cache.state_in_hand = settled_state  # the processes of the build load this file too
if __name__ == "__main__":
    from fidpath.outputs.registered import all_outputs
    left = tuple(output for output in all_outputs() if output.name not in sys.argv[3:])
    pipeline.all_outputs = lambda: left
    with one_blas_thread():
        pipeline.build(read_job(Path(sys.argv[1])), Path(sys.argv[2]))
"""

PROCESSES = """
import sys
from pathlib import Path
from fidpath.building import pipeline, pool
from fidpath.job.reader import read_job
from fidpath.machine.resources import one_blas_thread
if __name__ == "__main__":
    pool.process_count = lambda: int(sys.argv[3])
    with one_blas_thread():
        pipeline.build(read_job(Path(sys.argv[1])), Path(sys.argv[2]))
"""


def by_program(program: str, cache: str, *arguments: str) -> Used:
    """A program run in a process of its own, from a file: the processes that it starts load it again."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "program.py"
        path.write_text(program, encoding="utf-8")
        return used([sys.executable, str(path), str(DEMO), *arguments], {"NUMBA_CACHE_DIR": cache})


def phases(cache: str) -> None:
    """Seconds of the processor by kind of work, all pieces one after the other in one process."""
    done = subprocess.run(
        [sys.executable, __file__, "--phases"],
        env={**os.environ, "NUMBA_CACHE_DIR": cache, "OPENBLAS_NUM_THREADS": "1"},
        capture_output=True,
        text=True,
        check=True,
    )
    for name, used in json.loads(done.stdout).items():
        figure(f"of that, {name}", used, "s")


def by_phase() -> dict[str, float]:
    """The same in this process: what each kind of work takes."""
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
        began = time.process_time()
        for output in (one for one in all_outputs() if not one.needs):
            for item in output.items(request):
                output.make(context, item.name)
        took["solids, the page's parts and the rest"] = time.process_time() - began - sum(took.values())
    return took


REGISTERED = "fidpath.outputs.registered"
SHOWN = ("finished_splice", "steps", "mistakes")
WORK = {
    (f"{REGISTERED}.finished_splice", "finished_report"): "the check",
    **{(f"{REGISTERED}.{name}", "state_report"): "the check" for name in ("steps", "mistakes")},
    ("fidpath.outputs.pictures", "drawn"): "pictures and line art",
    **{(f"{REGISTERED}.{name}", "scene_files"): "pictures and line art" for name in ("finished_splice", "mistakes")},
    (f"{REGISTERED}.steps", "scene_files_and_margins"): "pictures and line art",
    **{(f"{REGISTERED}.{name}", "figure"): "the handout's figures" for name in SHOWN},
    ("fidpath.outputs.jigs", "one"): "jigs",
}
"""Functions that outputs call, by what they are for."""


def timed(work: Callable[..., Any], phase: str, took: dict[str, float]) -> Callable[..., Any]:
    """The same function, its time added to its phase."""

    @wraps(work)
    def done(*given: Any, **named: Any) -> Any:
        began = time.process_time()
        try:
            return work(*given, **named)
        finally:
            took[phase] += time.process_time() - began

    return done


def finished_splice_alone() -> None:
    """Start-up, plan, and all of the finished splice without its steps."""
    with tempfile.TemporaryDirectory() as cache, tempfile.TemporaryDirectory() as out:
        seconds(["--help"], cache)
        figure("fidpath --help", median(["--help"], cache, 5), "s", 0.25)
        figure("fidpath plan", median(["plan", str(DEMO)], cache, 5), "s", 0.35)
        build = ["build", str(DEMO), "--out"]
        figure("build --no-steps, cold", seconds([*build, f"{out}/1", "--no-steps"], cache), "s", 45)
        warm = sorted(seconds([*build, f"{out}/{k}", "--no-steps"], cache) for k in (2, 3, 4))[1]
        figure("build --no-steps, warm", warm, "s", 25)
        figure("verify, warm", median(["verify", str(DEMO)], cache, 3), "s")


def everything(cache: str, out: Path) -> dict[str, Used]:
    """The build of everything, cold and warm, and what is made again."""
    found = {"cold": whole(out / "1", cache), "warm": whole(out / "2", cache)}
    for name, one in found.items():
        figure(f"build of everything, {name}", one.wall, "s", {"cold": 100, "warm": 75}[name])
        figure("processor seconds of it", one.processor, "s")
    figure("its first picture, warm", found["warm"].pictured, "s", 6)
    figure("most memory of one of its processes", max(one.memory for one in found.values()), "MB", 1000)
    again = str(out / "2")
    figure("the same again, nothing changed", median(["build", str(DEMO), "--out", again], cache, 3), "s", 1)
    figure("the same again, one step's caption changed", by_program(CAPTION, cache, again).wall, "s", 4)
    return found


def by_processes(cache: str, out: Path, two: Used) -> None:
    """The build of everything, warm, by 1, 2 and 4 processes on however many cores there are; `two`: by 2."""
    for count in (1, 2, 4):
        one = two if count == 2 else by_program(PROCESSES, cache, str(out / f"by {count}"), str(count))
        figure(f"build of everything by {count} process{'es' * (count > 1)}", one.wall, "s")
        figure("processor seconds of it", one.processor, "s")


MADE = {
    "everything, states as they settle": (),
    "the same without the splice under load": ("under-load",),
}
"""Builds that are held against release 0.1.0, which relaxes no states and loads no splice, and what each leaves out."""


def beside_the_release(cache: str, whole_now: Mapping[str, Used], out: Path) -> None:
    """The same build by release 0.1.0 and by this version, one after the other: a machine's pace changes."""
    with earlier.release() as home, tempfile.TemporaryDirectory() as earlier_cache:
        for name in ("cold", "warm"):
            setting = earlier.source(home) if home else {}
            then = whole(out / f"release, {name}", earlier_cache, **setting) if home else None
            for words, left in MADE.items():
                with tempfile.TemporaryDirectory() as empty:
                    used_cache = empty if name == "cold" else cache
                    now = by_program(UNRELAXED, used_cache, str(out / f"{words}, {name}"), *left)
                beside(f"{words}, {name}", now, then, BOUNDS[name])
                if name == "warm" and not left:
                    added = whole_now[name].processor - now.processor
                    figure("processor seconds that relaxing adds", added, "s", 45)
            beside(f"everything, states relaxed, {name}", whole_now[name], then, {})


BOUNDS: Mapping[str, Mapping[str, float]] = {"cold": {"wall": 0.55}, "warm": {"wall": 0.42, "processor": 0.40}}
"""At most so much of the release's time by the clock and of its processor seconds."""


def beside(words: str, now: Used, then: Used | None, bounds: Mapping[str, float]) -> None:
    """What a build took, and what share of the release's time that is, where it was measured."""
    for kind, name in (("wall", "by the clock"), ("processor", "processor")):
        after = getattr(now, kind)
        if then is None:
            figure(f"{words}: seconds, {name}", after, "s")
            continue
        before = getattr(then, kind)
        figure(
            f"{words}: share of 0.1.0's, {name}",
            after / before,
            "x",
            bounds.get(kind),
            beside=f"{after:.1f} s against {before:.1f} s",
        )


def main() -> None:
    """Prints the figures beside their bounds."""
    finished_splice_alone()
    with tempfile.TemporaryDirectory() as cache, tempfile.TemporaryDirectory() as folder:
        now = everything(cache, Path(folder))
        beside_the_release(cache, now, Path(folder))
        by_processes(cache, Path(folder), now["warm"])
        phases(cache)


if __name__ == "__main__":
    if sys.argv[1:] == ["--phases"]:
        print(json.dumps(by_phase()))
    else:
        main()
