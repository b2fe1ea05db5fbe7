"""A guessed pitch: what hangs on it, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from fidpath.errors import CannotBeMade
from fidpath.job import Job, rule
from fidpath.planning.figure import Figure
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.shown import shown


@dataclass(frozen=True)
class Spread:
    """A figure over the pitches that a guess allows for, mm: least and greatest, and how far from its own value.

    words: least and greatest as they are read.
    """

    least: float
    most: float
    off: float
    words: str


def spreads(plan: Plan) -> Mapping[str, Spread]:
    """What hangs on a guessed pitch, by the figure's name; nothing where the pitch was measured."""
    if not plan.job.rope.pitch_guessed:
        return {}
    found = {}
    every = [_figures(one) for one in (plan, *_others(plan.job))]
    for name, figure in every[0].items():
        same = [figures[name] for figures in every if name in figures and figure.kind == "mm"]
        low, high = (pick(same, key=lambda one: one.value) for pick in (min, max)) if same else (figure, figure)
        if shown(low, plan) != shown(high, plan):
            words = f"{shown(low, plan).rpartition(' ')[0]} to {shown(high, plan)}"
            off = max(high.value - figure.value, figure.value - low.value)
            found[name] = Spread(low.value, high.value, off, words)
    return found


def _figures(plan: Plan) -> dict[str, Figure]:
    """A plan's lengths and marks by name."""
    return {figure.name: figure for figure in (*lengths(plan), *marks(plan))}


@lru_cache(maxsize=4)
def _others(job: Job) -> tuple[Plan, ...]:
    """The same job at the least and the greatest pitch that a guess allows for, where it can be made."""
    found = []
    for name in ("pitch_guess_least", "pitch_guess_most"):
        rope = replace(job.rope, pitch_mm=rule(name).value * job.rope.diameter_mm)
        try:
            found.append(make_plan(replace(job, rope=rope)))
        except CannotBeMade:
            continue
    return tuple(found)
