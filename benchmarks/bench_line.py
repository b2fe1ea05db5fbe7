"""Whole lines: honesty of the intervals on simulated lofts, time for a line, 500 lines, their spools, a calibration.

Fixed seed. Run: python benchmarks/bench_line.py
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from figures import figure

ROOT = Path(__file__).parent.parent
SHROUD = ROOT / "scenes" / "lines" / "line-cap-shroud.toml"
LOFT = ROOT / "scenes" / "loft" / "loft.toml"
SEED, LOFTS, LINES = 20260314, 6_000, 500


def simulated(rng: np.random.Generator, scatter: float | None, tests: int) -> tuple[np.ndarray, np.ndarray]:
    """One loft: ratios of its test splices, and those of the two splices of its next line.

    Factor and scatter come from the prior, or the scatter is the one given and the factor normal, 15 % either way.
    """
    from fidpath.lines.uncertainty import prior

    known = prior()
    if scatter is None:
        scatter = known.scatter * float(np.sqrt(known.freedom / rng.chisquare(known.freedom)))
        factor = rng.normal(1.0, scatter / np.sqrt(known.weight))
    else:
        factor = rng.normal(1.0, 0.15)
    return rng.normal(factor, scatter, tests), rng.normal(factor, scatter, 2)


def coverage(scatter: float | None, tests: tuple[int, ...]) -> tuple[float, float]:
    """Share of simulated lofts whose 95 % intervals hold the next splice's ratio, and the next line's length."""
    from fidpath.job.reader import read_job
    from fidpath.lines.line import make_line
    from fidpath.lines.uncertainty import Cause, half_width, prior, take_up_scale, updated

    rng = np.random.default_rng(SEED)
    line = make_line(read_job(SHROUD))
    takes = np.array([end.take_up for end in line.ends])
    other = tuple(cause for cause in line.causes if cause.name != "take_up")
    errors = _other_errors(rng, line.ends[0].placing, other)
    splice, length = 0, 0
    for number in range(LOFTS):
        ratios, following = simulated(rng, scatter, tests[number % len(tests)])
        estimate = updated(prior(), ratios)
        splice += abs(following[0] - estimate.mean) <= estimate.half_width(0.95)
        cause = Cause("take_up", "", take_up_scale(estimate, tuple(takes)), "", estimate.freedom)
        off = float(((estimate.mean - following) * takes).sum()) + errors[number]
        length += abs(off) <= half_width((cause, *other), 0.95)
    return splice / LOFTS, length / LOFTS


def _other_errors(rng: np.random.Generator, pick: float, causes: tuple) -> np.ndarray:  # type: ignore[type-arg]
    """Errors of a line beside take-up: holes uniform within their pick, readings within a division, the rest normal."""
    total = np.zeros(LOFTS)
    for cause in causes:
        if cause.name.startswith("placing"):
            total += rng.uniform(-pick, pick, LOFTS)
        elif cause.name == "tape":
            total += rng.uniform(-0.5, 0.5, (2, LOFTS)).sum(axis=0)
        else:
            total += cause.scale * rng.standard_normal(LOFTS)
    return total


def timed(work: Callable[[], object]) -> float:
    """Seconds of one run."""
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def command(*args: str) -> float:
    """Seconds of the best of five runs of a command in a process of its own."""
    setting = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    whole = [sys.executable, "-m", "fidpath", *args]
    return min(
        timed(
            lambda: subprocess.run(whole, env=setting, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        )
        for _ in range(5)
    )


def a_set(folder: Path) -> Path:
    """500 lines of all lengths, six eyes, two tensions, and spools for them."""
    rng = np.random.default_rng(SEED)
    eyes = (110, 117, 124, 131, 138, 145)
    rows = ["name,job,finished length [m],tension [kN],second eye [mm]"]
    for number in range(LINES):
        tension, eye = (4, 6)[number % 2], eyes[number % len(eyes)]
        rows.append(f"line {number},{SHROUD},{rng.uniform(3, 18):.3f},{tension},{eye}")
    path = folder / "lines.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def stock(folder: Path) -> Path:
    """Sixty spools of the lines' rope, 100 m to 220 m."""
    rng = np.random.default_rng(SEED)
    rows = ["name,rope,length [m]"]
    rows += [f'spool {n},"12-strand HMPE, 10 mm",{rng.integers(100, 220)}' for n in range(60)]
    path = folder / "spools.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def large_loft(folder: Path, tests: int) -> Path:
    """The loft scene with more test splices, of burys that all differ."""
    rng = np.random.default_rng(SEED)
    text = LOFT.read_text(encoding="utf-8")
    for number in range(tests):
        bury = 500 + 4 * number
        after = 1500 - 0.115 * bury * rng.normal(1, 0.05)
        text += (
            f'\n[[test_splices]]\nname = "S{number}"\nrope = "12-strand HMPE, 10 mm"\nbefore = "1500 mm"\n'
            f'after = "{after:.1f} mm"\nbury = "{bury} mm"\n'
        )
    path = folder / "loft.toml"
    path.write_text(text, encoding="utf-8")
    return path


def main() -> None:
    """Prints the figures."""
    from fidpath.lines.loft_file import read_loft
    from fidpath.lines.set_file import read_set, read_spools
    from fidpath.lines.sets import make_set

    print(f"interval honesty, 95 %, {LOFTS} simulated lofts each, seed {SEED} (bound 93 % to 97 %)")
    for name, scatter, tests in (
        ("lofts as assumed, 0 to 12 tests", None, (0, 1, 2, 3, 5, 8, 12)),
        ("lofts as assumed, 3 tests", None, (3,)),
        ("scatter 5 %, factor 15 %, 8 tests", 0.05, (8,)),
        ("scatter 8 %, factor 15 %, 8 tests", 0.08, (8,)),
        ("scatter 3 %, factor 15 %, 8 tests", 0.03, (8,)),
    ):
        splice, length = coverage(scatter, tests)
        figure(f"95 % intervals, next splice, {name}", 100 * splice, "%")
        figure(f"95 % intervals, finished line, {name}", 100 * length, "%")
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home)
        lines, spools, loft = a_set(folder), stock(folder), large_loft(folder, 0)
        wanted, known, rolls = read_set(lines), read_loft(loft), read_spools(spools)
        planning = timed(lambda: make_set(read_set(lines), read_loft(loft)))
        both = timed(lambda: make_set(wanted, known, rolls))
        done = make_set(wanted, known, rolls)
        found = done.totals[0].allocation
        figure(f"{len(done.planned)} lines planned", planning, "s", 5, beside="six eyes, all lengths different")
        assert found is not None
        said = "proved least" if found.optimal else f"gap {found.gap:.2%}"
        figure(f"planned again and cut from {len(rolls)} spools", both, "s", 30, beside=said)
        figure("fidpath line", command("line", str(SHROUD)), "s", 1)
        figure("fidpath calibrate, three test splices", command("calibrate", str(LOFT)), "s", 1)
        many = large_loft(folder, 60)
        plot = str(folder / "residuals.png")
        figure("fidpath calibrate, 63 test splices", command("calibrate", str(many)), "s")
        figure("fidpath calibrate --plot", command("calibrate", str(LOFT), "--plot", plot), "s")


if __name__ == "__main__":
    main()
