"""Runs every benchmark and writes docs/benchmarks.md: each figure beside its bound and the command that shows it.

A program that fails leaves a row that says so. Peers are measured in the same run of the same program. With names only
those programs run, and the others keep the figures of the last run here.
Run: make bench, or python benchmarks/report.py [NAME ...]
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from figures import ROWS, Figure, bound_of, shown

HERE = Path(__file__).parent
PAGE = HERE.parent / "docs" / "benchmarks.md"
KEPT = HERE.parent / "exports" / "benchmarks.json"
LONGEST = 2400.0
"""Seconds after which a program is given up."""

ORDER = (
    "bench_settling", "bench_contact", "bench_meshing", "bench_steps", "bench_motion", "bench_build", "bench_lineart",
    "bench_page", "bench_show", "bench_start", "bench_handout", "bench_jigs", "bench_line", "bench_setup",
)  # fmt: skip
"""Programs in the order of the page."""

ARGUMENTS = {"bench_lineart": ["--motion"]}


@dataclass(frozen=True)
class Run:
    """What one program showed: its figures, and what went wrong if something did."""

    name: str
    figures: tuple[Figure, ...]
    seconds: float
    trouble: str = ""


def run(name: str) -> Run:
    """One program, in a process of its own."""
    began = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        rows = Path(folder) / "rows"
        rows.touch()
        command = [sys.executable, str(HERE / f"{name}.py"), *ARGUMENTS.get(name, [])]
        trouble = ""
        try:
            done = subprocess.run(
                command,
                env={**os.environ, ROWS: str(rows)},
                stderr=subprocess.PIPE,
                text=True,
                timeout=LONGEST,
                check=False,
            )
            if done.returncode:
                trouble = (done.stderr.strip().splitlines() or ["no word"])[-1]
        except subprocess.TimeoutExpired:
            trouble = f"given up after {LONGEST:.0f} s"
        found = tuple(Figure(**json.loads(line)) for line in rows.read_text(encoding="utf-8").splitlines())
    return Run(name, found, time.perf_counter() - began, without_paths(trouble))


def without_paths(text: str) -> str:
    """A message without the folders of this machine."""
    return re.sub(r"(/[\w.\-]+)+/", "", text)[:200]


def machine() -> str:
    """The machine by its cores and memory alone."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    return f"{os.cpu_count()} cores, {memory:.0f} GB of memory"


def about(name: str) -> str:
    """The first paragraph of a program's own words."""
    text = (HERE / f"{name}.py").read_text(encoding="utf-8").split('"""')[1]
    return " ".join(text.split("\n\n")[0].split())


def page(runs: Iterable[Run], on: str) -> str:
    """The whole page as Markdown."""
    runs = list(runs)
    bounded = [one for r in runs for one in r.figures if one.met is not None]
    missed = [one for one in bounded if not one.met]
    lines = [
        "# Speed",
        "",
        f"Made by `make bench` on {on}, everything drawn in software. {len(bounded)} figures have a bound;",
        f"{len(bounded) - len(missed)} keep it" + ("." if not missed else f", {len(missed)} miss it:"),
        "",
        *(f"- {one.name}: {shown(one.value)} {one.unit}, {bound_of(one)}" for one in missed),
        "",
    ]
    for r in runs:
        command = " ".join(["python", f"benchmarks/{r.name}.py", *ARGUMENTS.get(r.name, [])])
        lines += [f"## {r.name.removeprefix('bench_').capitalize()}", "", about(r.name), "", f"`{command}`", ""]
        if r.trouble:
            lines += [f"**Not all measured:** {cell(r.trouble)}", ""]
        if r.figures:
            lines += ["| figure | measured | bound | | beside |", "|---|---|---|---|---|", *map(row, r.figures), ""]
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).rstrip() + "\n"


def row(one: Figure) -> str:
    """A figure as a row of a table."""
    said = {None: "", True: "met", False: "**missed**"}[one.met]
    return f"| {cell(one.name)} | {shown(one.value)} {one.unit} | {bound_of(one)} | {said} | {cell(one.beside)} |"


def cell(text: str) -> str:
    """A text that can't break a table."""
    return text.replace("|", "\\|").replace("\n", " ")


def main() -> None:
    """Runs them all, or those named, and writes the page."""
    runs = known() if sys.argv[1:] else {}
    for name in sys.argv[1:] or ORDER:
        print(f"== {name}", flush=True)
        runs[name] = run(name)
        if runs[name].trouble:
            print(runs[name].trouble)
        print(f"   {runs[name].seconds:.0f} s", flush=True)
    KEPT.parent.mkdir(exist_ok=True)
    KEPT.write_text(json.dumps([asdict(one) for one in runs.values()]), encoding="utf-8")
    PAGE.write_text(page([runs[name] for name in ORDER if name in runs], machine()), encoding="utf-8")
    print(f"wrote {PAGE.name}")


def known() -> dict[str, Run]:
    """The last run's programs by name."""
    if not KEPT.exists():
        return {}
    rows = json.loads(KEPT.read_text(encoding="utf-8"))
    return {row["name"]: Run(**row | {"figures": tuple(Figure(**one) for one in row["figures"])}) for row in rows}


if __name__ == "__main__":
    main()
