"""How fast the window and the live page answer: a step change, a cut, the plan's numbers, the settled finished splice.

Run from the repository's root; needs Xvfb for the window.
"""

from __future__ import annotations

import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from figures import figure

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "scenes" / "demo.toml"
Took = tuple[float, float]
"""Seconds by the clock, and of the processors: on a busy machine the second says what an idle one takes at most."""


def report(name: str, took: list[Took], bound: float) -> None:
    """One measure beside its bound."""
    clock, own = ([each[which] for each in took] for which in (0, 1))
    beside = f"worst {max(clock):.3f}, of processors {statistics.median(own):.3f}"
    figure(name, statistics.median(clock), "s", bound, beside=beside)


def timed(act: Callable[[], object], clock: Callable[[], float] = time.process_time) -> Took:
    """How long something takes."""
    began, own = time.perf_counter(), clock()
    act()
    return time.perf_counter() - began, clock() - own


def used_by(pid: int) -> float:
    """Seconds of the processors that a process has used (Linux)."""
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


@contextmanager
def virtual_display() -> Iterator[None]:
    """A virtual display for the window."""
    command = ["Xvfb", "-displayfd", "1", "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert server.stdout is not None
    os.environ["DISPLAY"] = f":{server.stdout.readline().strip()}"
    try:
        yield
    finally:
        server.terminate()
        server.wait()


def bench_window() -> None:
    """Step changes of the window with every state settled, first and second time, and its cuts."""
    from fidpath.job.reader import read_job
    from fidpath.methods.registry import method_of
    from fidpath.planning.planner import make_plan
    from fidpath.viewing.window.window import Window

    window = Window(make_plan(read_job(DEMO)), Path(tempfile.mkdtemp()), method_of("locked-captive"))
    window.settler.start()
    began = time.perf_counter()

    def first() -> None:
        window._open()
        while 0 not in window.views:
            window._take()
            time.sleep(0.005)

    try:
        report("window: first step shown", [timed(first)], 3.0)
        while len(window.views) < len(window.entries):
            window._take()
            time.sleep(0.02)
        print(f"{'window: all states settled and ready':<46} {time.perf_counter() - began:6.1f} s")
        window.key("Home")
        report("window: a step seen for the first time", [timed(lambda: window.key("Right")) for _ in range(18)], 0.3)
        window.key("Home")
        report("window: a step seen before", [timed(lambda: window.key("Right")) for _ in range(18)], 0.3)
        report("window: standing part seen through", [timed(lambda: window.key("t")) for _ in range(4)], 0.6)
        report("window: finished splice cut level", [timed(lambda: window.key("c"))], 0.6)
        report("window: the cut moved", [timed(lambda: window.key("bracketright")) for _ in range(4)], 0.6)
        report("window: cut across", [timed(lambda: window.key("c"))], 0.6)
    finally:
        window.settler.close()
        window.canvas.plotter.close()


def bench_live() -> None:
    """The live server: a change's plan, and its settled finished splice."""
    code = (
        "from fidpath.viewing.live_page.server import Wish, serve; from pathlib import Path; "
        f"serve(Wish(Path({str(DEMO)!r})), lambda url: print(url, flush=True), print)"
    )
    server = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, cwd=ROOT)
    assert server.stdout is not None
    url = server.stdout.readline().strip()
    try:
        wait_for(url, 1)
        wait_done(url)
        texts = ask(url + "state")["texts"]

        def change(pitch: str) -> None:
            ask(url + "job", {"texts": {**texts, "rope.pitch": pitch}})

        used = partial(used_by, server.pid)
        plans, settled = [], []
        for number, pitch in enumerate(("6.6 d", "7.2 d", "6.8 d")):
            plans.append(timed(partial(change, pitch), used))
            later = timed(partial(wait_for, url, number + 1, number + 1), used)
            settled.append((plans[-1][0] + later[0], plans[-1][1] + later[1]))
        plans += [timed(partial(change, pitch), used) for pitch in ("7.1 d", "7.3 d", "7.4 d")]
        report("live: the plan's numbers after a change", plans, 0.2)
        report("live: the settled finished splice", settled, 8.0)
    finally:
        server.terminate()
        server.wait()


def ask(url: str, body: object = None) -> dict:
    """A server's answer."""
    data = None if body is None else json.dumps(body).encode()
    with urllib.request.urlopen(urllib.request.Request(url, data), timeout=60) as answer:
        return json.load(answer)


def wait_for(url: str, shown: int, change: int = 0) -> None:
    """Waits until data of that change are there."""
    while True:
        news = ask(url + "state")["news"]
        if news["shown"] >= shown and news["shown_change"] >= change:
            return
        time.sleep(0.05)


def wait_done(url: str) -> None:
    """Waits until all has settled."""
    while ask(url + "state")["news"]["phase"] != "done":
        time.sleep(0.2)


if __name__ == "__main__":
    if shutil.which("Xvfb"):
        with virtual_display():
            bench_window()
    else:
        print("window: not measured, Xvfb is missing")
    bench_live()
