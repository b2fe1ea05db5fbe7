"""One measured figure beside its bound: printed for people, and kept for the page that `make bench` writes."""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

ROWS = "FIDPATH_BENCH_ROWS"
"""Environment variable: the file that figures are added to, one line of JSON each."""


@dataclass(frozen=True)
class Figure:
    """What was measured. `bound` is the most it may be, or with `least` the least; None where there is none.

    beside: what it is held against in the same run, where it is a ratio or a peer was measured as well.
    """

    name: str
    value: float
    unit: str
    bound: float | None = None
    least: bool = False
    beside: str = ""

    @property
    def met(self) -> bool | None:
        """Whether the bound is kept."""
        if self.bound is None:
            return None
        return self.value >= self.bound if self.least else self.value <= self.bound


def figure(
    name: str, value: float, unit: str, bound: float | None = None, *, least: bool = False, beside: str = ""
) -> Figure:
    """Prints a figure and keeps it."""
    one = Figure(name, float(value), unit, bound, least, beside)
    print(as_line(one), flush=True)
    target = os.environ.get(ROWS)
    if target:
        with Path(target).open("a", encoding="utf-8") as rows:
            rows.write(json.dumps(asdict(one)) + "\n")
    return one


def as_line(one: Figure) -> str:
    """A figure for the terminal."""
    said = {None: "", True: "met", False: "MISSED"}[one.met]
    return f"{one.name:<58} {shown(one.value):>8} {one.unit:<5} {bound_of(one):<14} {said:<6} {one.beside}".rstrip()


def bound_of(one: Figure) -> str:
    """The bound in words."""
    if one.bound is None:
        return ""
    return f"{'at least' if one.least else 'at most'} {shown(one.bound)}"


def shown(value: float) -> str:
    """A number with about three digits that count."""
    size = abs(value)
    return (
        f"{value:.0f}"
        if size >= 100
        else f"{value:.1f}"
        if size >= 10
        else f"{value:.2f}"
        if size >= 0.1
        else f"{value:.3g}"
    )


def least(work: Callable[[], object], rounds: int = 3) -> float:
    """Least seconds of some runs."""
    seconds = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - began)
    return min(seconds)


def power(sizes: list[float], values: list[float]) -> float:
    """The exponent p of values that grow as sizes to the power p: least squares between their logarithms."""
    import numpy as np

    return float(np.polyfit(np.log(sizes), np.log(values), 1)[0])
