"""Rules of practice, read from the data files in `practices/`."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from types import MappingProxyType
from typing import Literal, cast

Status = Literal["read", "memory", "practice", "own"]
FILES = ("trade.toml", "published.toml", "own.toml")
STATUS_WORDS = {
    "read": "read in a public copy",
    "memory": "from memory",
    "practice": "common practice, no source",
    "own": "chosen here, no source",
}


HOW_TO_COUNT = (
    "Count crossings along one line on top of the rope, under the reference tension, and give rope.crossings and the "
    "length they take, rope.over"
)
"""How a pitch is found: nobody measures it well by a strand's turn."""


@dataclass(frozen=True)
class Rule:
    """One rule: its value in `unit`, what it is about, where it comes from, how far that can be trusted."""

    name: str
    value: float
    unit: str
    what: str
    source: str
    status: Status


@lru_cache(maxsize=1)
def rules() -> Mapping[str, Rule]:
    """Every rule of practice by its name."""
    return MappingProxyType({name: rule for file in FILES for name, rule in _read(file).items()})


def rule(name: str) -> Rule:
    """The rule of this name; KeyError if there is none."""
    return rules()[name]


def _read(file: str) -> dict[str, Rule]:
    """The rules of one data file."""
    text = resources.files("fidpath.job.practices").joinpath(file).read_text(encoding="utf-8")
    return {name: _rule(name, cast(dict[str, object], table)) for name, table in tomllib.loads(text).items()}


def _rule(name: str, table: dict[str, object]) -> Rule:
    """One table of a data file as a rule."""
    status = str(table["status"])
    if status not in STATUS_WORDS:
        raise ValueError(f"{name}: unknown status {status!r}")
    value = table["value"]
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{name}: the value is not a number")
    words = {key: str(table[key]) for key in ("unit", "what", "source")}
    return Rule(name, float(value), status=cast(Status, status), **words)


def reference_tension_n(diameter_mm: float) -> float:
    """Tension in N under which a rope of this diameter in mm is measured, d^2/8 daN (ISO 2307 Annex A, from memory)."""
    return rule("reference_tension").value * diameter_mm**2 * 10


def taper_drops(strands: int) -> int:
    """Pairs of strands dropped in the taper, down to the strands the tail's tip keeps; at least one."""
    return max(1, (strands - round(rule("tail_end_strands").value)) // 2)
