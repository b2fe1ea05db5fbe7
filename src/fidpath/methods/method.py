"""A method of splicing as data: its steps, their words, tools and cameras, and the usual mistakes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from fidpath.arrays import Vector
from fidpath.methods.placeholders import fill
from fidpath.planning.plan import Plan

ToolKind = Literal[
    "small fid", "large fid", "fids from both sides", "tape", "marker", "knife", "terminator", "post", "straight edge",
    "needle",
]  # fmt: skip
Place = Literal[
    "H1", "H2", "entry", "eye", "tail end", "standing part", "standing end", "terminator", "all",
]  # fmt: skip
Mover = Literal["", "tail end", "standing end", "bight", "H2", "terminator", "cover"]
When = Literal["", "always", "thread_on", "taper", "no_taper", "lock_stitch", "no_lock_stitch"]

CONDITIONS: Mapping[str, Callable[[Plan], bool]] = MappingProxyType(
    {
        "": lambda _plan: True,
        "always": lambda _plan: True,
        "thread_on": lambda plan: bool(plan.job.line.thread_on_first),
        "taper": lambda plan: plan.job.practice.taper_drops > 0,
        "no_taper": lambda plan: plan.job.practice.taper_drops == 0,
        "lock_stitch": lambda plan: plan.job.practice.lock_stitch,
        "no_lock_stitch": lambda plan: not plan.job.practice.lock_stitch,
    }
)
"""When a sentence or a tool belongs to a step."""


@dataclass(frozen=True)
class View:
    """A camera: the places it must hold, the direction from them to it, and what is up in the picture.

    Vectors `(3,)` in the model's frame, the standing part at H1 heading along x and z up from the table.
    """

    look: tuple[Place, ...]
    direction: Vector
    up: Vector


@dataclass(frozen=True)
class ToolUse:
    """A tool in use, and where on the rope."""

    kind: ToolKind
    at: Place
    when: When = ""


@dataclass(frozen=True)
class Also:
    """A sentence that belongs to a step only under a condition of the plan."""

    when: When
    say: str


@dataclass(frozen=True)
class Step:
    """One step of a method, or one of several states of it; `state` is the kind of rope state it shows.

    `moves` goes from place `start` to place `goal`; `turns`: whether the turns of a hole's groups are to be counted.
    """

    number: int
    state: str
    caption: str
    instructions: tuple[str, ...]
    check: str
    views: tuple[View, ...]
    caution: str = ""
    tools: tuple[ToolUse, ...] = ()
    marks: tuple[str, ...] = ()
    moves: Mover = ""
    start: Place | None = None
    goal: Place | None = None
    turns: bool = False
    also: tuple[Also, ...] = ()


@dataclass(frozen=True)
class WrongWay:
    """A usual mistake: the step it is made at, the right state to hold it against, its signs, and the way back."""

    name: str
    title: str
    at_step: int
    beside: str
    signs: tuple[str, ...]
    way_back: tuple[str, ...]
    views: tuple[View, ...]
    how_far_off: str = ""


@dataclass(frozen=True)
class Method:
    """A whole method. Words may hold figures in braces until `worded` has filled them in."""

    name: str
    title: str
    summary: str
    steps: tuple[Step, ...]
    wrong_ways: tuple[WrongWay, ...] = ()

    def step(self, state: str) -> Step:
        """The first step that shows this kind of state. Raises KeyError where there is none."""
        for step in self.steps:
            if step.state == state:
                return step
        raise KeyError(state)

    def part(self, index: int) -> str:
        """The letter of a step's state where the step has several, such as "b", else nothing."""
        number = self.steps[index].number
        same = [k for k, step in enumerate(self.steps) if step.number == number]
        return "abcdefgh"[same.index(index)] if len(same) > 1 else ""

    def numbered(self, index: int) -> str:
        """A step's number with its letter, such as "9b"."""
        return f"{self.steps[index].number}{self.part(index)}"

    def wrong_way(self, name: str) -> WrongWay:
        """The mistake of that name. Raises KeyError where there is none."""
        for way in self.wrong_ways:
            if way.name == name:
                return way
        raise KeyError(name)


def worded(step: Step, plan: Plan) -> Step:
    """The step with the plan's figures in its words, and only the sentences and tools that belong to this job.

    Raises JobError where a placeholder is unknown.
    """
    also = [extra.say for extra in step.also if CONDITIONS[extra.when](plan)]
    return replace(
        step,
        caption=fill(step.caption, plan),
        instructions=tuple(fill(text, plan) for text in (*step.instructions, *also)),
        check=fill(step.check, plan),
        caution=fill(step.caution, plan),
        tools=tuple(tool for tool in step.tools if CONDITIONS[tool.when](plan)),
        also=(),
    )


def worded_way(way: WrongWay, plan: Plan | None) -> WrongWay:
    """The mistake with the plan's figures in its words; without a plan, with words for them."""
    return replace(
        way,
        title=fill(way.title, plan),
        signs=tuple(fill(text, plan) for text in way.signs),
        way_back=tuple(fill(text, plan) for text in way.way_back),
        how_far_off=fill(way.how_far_off, plan),
    )


def worded_method(method: Method, plan: Plan) -> Method:
    """The whole method with the plan's figures in its words."""
    return replace(
        method,
        steps=tuple(worded(step, plan) for step in method.steps),
        wrong_ways=tuple(worded_way(way, plan) for way in method.wrong_ways),
    )
