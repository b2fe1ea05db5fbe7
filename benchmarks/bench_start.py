"""How soon the start page is there, a job's figures follow a change, and the step looked at; memory over 200 changes.

The page is there when a browser has its list of jobs. Needs Chromium for that; all else goes over HTTP. Seconds of the
processors stand beside those of the clock: on a busy machine they say what an idle one takes at most.
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
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from figures import figure

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "scenes" / "demo.toml"
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
STEPS = ("step-5", "step-9b", "step-11")
CHANGES = 200
PITCHES = ("6.6 d", "7.2 d", "6.8 d", "7.1 d")


@dataclass(frozen=True)
class Served:
    """A start page's server: its address, its process, and when that began."""

    url: str
    pid: int
    began: float

    def ask(self, path: str, body: object = None) -> Any:
        """An answer's data."""
        data = None if body is None else json.dumps(body).encode()
        with urllib.request.urlopen(urllib.request.Request(self.url + path, data), timeout=120) as answer:
            return json.load(answer)

    def used(self) -> float:
        """Seconds of the processors it has used (Linux)."""
        fields = Path(f"/proc/{self.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def memory(self) -> float:
        """MB that are its own (Linux)."""
        rows = Path(f"/proc/{self.pid}/status").read_text(encoding="ascii").splitlines()
        return next(int(row.split()[1]) for row in rows if row.startswith("VmRSS")) / 1024


@contextmanager
def started() -> Iterator[Served]:
    """The command as a person gives it, in a folder with the demo's job; ended by its own button."""
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "jobs"
        folder.mkdir()
        shutil.copy(DEMO, folder / "demo.toml")
        env = {**os.environ, "XDG_STATE_HOME": home}
        env.pop("PYTHONDONTWRITEBYTECODE", None)
        began = time.perf_counter()
        command = [sys.executable, "-m", "fidpath", "start", str(folder), "--no-open"]
        process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=env)
        assert process.stdout is not None
        own = Served(process.stdout.readline().strip(), process.pid, began)
        try:
            yield own
        finally:
            with suppress(OSError):
                own.ask("end", {})
            process.wait(60)


def bench_shown() -> None:
    """From the command to the list of jobs in a browser that is open already."""
    path = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if path is None:
        print("start page shown: not measured, Chromium is missing")
        return
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=["--no-sandbox"])
        took, used = [], []
        for _ in range(4):
            tab = browser.new_page()
            with started() as own:
                tab.goto(own.url)
                tab.wait_for_selector("#job-list li")
                took.append(time.perf_counter() - own.began)
                used.append(own.used())
            tab.close()
        browser.close()
    beside = f"worst {max(took[1:]):.2f}, of processors {statistics.median(used[1:]):.2f}; the first writes bytecode"
    figure("start page shown, from the command", statistics.median(took[1:]), "s", 1.5, beside=beside)


def bench_job(own: Served) -> None:
    """A job's figures after a change, the step looked at, and memory over many changes."""
    job = own.ask("open", {"file": "demo.toml"})["url"]
    texts = own.ask(f"{job}state")["texts"]
    wait_done(own, job)
    looked, used = [], []
    for step, pitch in zip(STEPS, PITCHES, strict=False):
        own.ask(f"{job}look", {"key": step})
        began, before = time.perf_counter(), own.used()
        own.ask(f"{job}job", {"texts": {**texts, "rope.pitch": pitch}})
        wait_for_step(own, job, step)
        looked.append(time.perf_counter() - began)
        used.append(own.used() - before)
    beside = f"worst {max(looked):.2f}, of processors {statistics.median(used):.2f}; steps {', '.join(STEPS)}"
    figure("the step looked at after a change", statistics.median(looked), "s", 4.0, beside=beside)
    bench_changes(own, job, texts)


def bench_changes(own: Served, job: str, texts: dict[str, str]) -> None:
    """Changes one after the other, as a person types; what settles between them is whatever there is time for."""
    took, used, memory = [], [], []
    for number in range(CHANGES):
        began, before = time.perf_counter(), own.used()
        own.ask(f"{job}job", {"texts": {**texts, "practice.bury": f"{40 + number % 30} d"}})
        took.append(time.perf_counter() - began)
        used.append(own.used() - before)
        time.sleep(0.3)
        memory.append(own.memory())
    beside = f"worst {max(took):.2f}, of processors {statistics.median(used):.2f}, settling behind it counted"
    figure("figures after a change", statistics.median(took), "s", 0.2, beside=beside)
    first, last = statistics.median(memory[20:60]), statistics.median(memory[-40:])
    beside = f"from {first:.0f} to {last:.0f} MB, at most {max(memory):.0f}"
    figure(f"memory gained over {CHANGES} changes", max(0.0, 100 * (last / first - 1)), "%", 10.0, beside=beside)


def wait_for_step(own: Served, job: str, step: str) -> None:
    """Waits until the data a page is given hold this step's own picture, of the newest figures."""
    while True:
        news = own.ask(f"{job}state")["news"]
        if news["shown_change"] == news["change"]:
            data = own.ask(f"{job}data")
            found = next(one for one in data["steps"] if f"step-{one['name']}" == step)
            if found["state"] not in data.get("old", ()):
                return
        time.sleep(0.05)


def wait_done(own: Served, job: str) -> None:
    """Waits until all has settled."""
    while own.ask(f"{job}state")["news"]["phase"] != "done":
        time.sleep(0.3)


if __name__ == "__main__":
    bench_shown()
    with started() as served:
        bench_job(served)
