"""A method of splicing as data: its steps, their words, tools and cameras, and the usual mistakes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from fidpath.arrays import Vector
from fidpath.planning import Plan

ToolKind = Literal[
    "small fid", "large fid", "fids from both sides", "tape", "marker", "knife", "terminator", "post", "straight edge",
    "needle", "long fid", "mark sleeve",
]  # fmt: skip
Landmark = Literal[
    "H1", "H2", "entry", "eye", "tail end", "standing part", "standing end", "terminator", "all", "tip",
    "R", "E", "B", "T", "X",
]  # fmt: skip
Mover = Literal["", "tail end", "standing end", "bight", "H2", "terminator", "cover", "leg"]
Group = Literal["top group", "bottom group"]
Way = tuple[str, str, str]
"""What moves, from where and to where."""

When = Literal["", "always", "thread_on", "no_thread_on", "taper", "no_taper", "lock_stitch", "no_lock_stitch"]

CONDITIONS: Mapping[str, Callable[[Plan], bool]] = MappingProxyType(
    {
        "": lambda _plan: True,
        "always": lambda _plan: True,
        "thread_on": lambda plan: bool(plan.job.line.thread_on_first),
        "no_thread_on": lambda plan: not plan.job.line.thread_on_first,
        "taper": lambda plan: plan.job.practice.taper_drops > 0,
        "no_taper": lambda plan: plan.job.practice.taper_drops == 0,
        "lock_stitch": lambda plan: plan.job.practice.lock_stitch,
        "no_lock_stitch": lambda plan: not plan.job.practice.lock_stitch,
    }
)
"""When a sentence or a tool belongs to a step."""


@dataclass(frozen=True)
class CameraView:
    """A camera: the places it must hold, the direction from them to it, and what is up in the picture.

    Vectors `(3,)` in the model's frame, the standing part at H1 heading along x and z up from the table.
    state: another moment of the step, by its kind of rope state; empty for the step's own. say: what stands in the
    panel's corner, empty for where it is seen from. crossed: whether it shows what is wrong, crossed out. beside: by
    how many picks the step's marks are off in it. tools: kinds of the step's tools that it shows, None for all.
    broken: whether the rope between the places it holds is left out, so that they show larger. arrow: what moves in
    this view, where that isn't what moves in the step. group: the one group of the opened place that it shows, the
    other left out.
    """

    look: tuple[Landmark, ...]
    direction: Vector
    up: Vector
    state: str = ""
    say: str = ""
    crossed: bool = False
    beside: int = 0
    tools: tuple[ToolKind, ...] | None = None
    broken: bool = False
    arrow: Way | None = None
    group: Group | None = None


@dataclass(frozen=True)
class ToolUse:
    """A tool in use, and where on the rope."""

    kind: ToolKind
    at: Landmark
    when: When = ""


@dataclass(frozen=True)
class Also:
    """A sentence that belongs to a step only under a condition of the plan. first: it comes before the others."""

    when: When
    say: str
    first: bool = False


@dataclass(frozen=True)
class Step:
    """One step of a method, or one of several states of it; `state` is the kind of rope state it shows.

    `moves` goes from place `start` to place `goal`; `turns`: whether the turns of a hole's groups are to be counted.
    known: letters of marks that an earlier step has made. between: kinds of rope states on the way from the step
    before to this one, in their order, which a motion goes through.
    """

    number: int
    state: str
    caption: str
    instructions: tuple[str, ...]
    check: str
    views: tuple[CameraView, ...]
    caution: str = ""
    tools: tuple[ToolUse, ...] = ()
    marks: tuple[str, ...] = ()
    moves: Mover = ""
    start: Landmark | None = None
    goal: Landmark | None = None
    turns: bool = False
    also: tuple[Also, ...] = ()
    known: tuple[str, ...] = ()
    between: tuple[str, ...] = ()

    @property
    def states(self) -> tuple[str, ...]:
        """All states that its picture shows, its own first."""
        return tuple(dict.fromkeys([self.state, *(view.state for view in self.views if view.state)]))

    @property
    def all_states(self) -> tuple[str, ...]:
        """All states that its picture shows or its motion goes through, its own first."""
        return tuple(dict.fromkeys([*self.states, *self.between]))


@dataclass(frozen=True)
class Mistake:
    """A usual mistake: the state it is made at, the right state to hold it against, its signs, and the way back.

    `step_number` is the number of the step that shows the state it is made at: for people, never for decisions.
    """

    name: str
    title: str
    made_at: str
    step_number: int
    beside: str
    signs: tuple[str, ...]
    remedy: tuple[str, ...]
    views: tuple[CameraView, ...]
    how_far_off: str = ""

    @property
    def moments(self) -> tuple[str, ...]:
        """The states that its views show besides its own and the right one."""
        return tuple(dict.fromkeys(view.state for view in self.views if view.state))


@dataclass(frozen=True)
class Head:
    """What a method is called, and its card: all that stands before its steps."""

    name: str
    title: str
    card: tuple[Also, ...]


@dataclass(frozen=True)
class Method:
    """A whole method. Words may hold figures in braces until `worded` has filled them in.

    `card`: the whole work in a few lines, in its order, for a rigger who knows the splice.
    """

    name: str
    title: str
    summary: str
    steps: tuple[Step, ...]
    mistakes: tuple[Mistake, ...] = ()
    card: tuple[Also, ...] = ()

    @property
    def finished(self) -> str:
        """The kind of the finished splice's state: the one that the last step shows."""
        return self.steps[-1].state

    def step(self, state: str) -> Step:
        """The first step that shows this kind of state. Raises KeyError where there is none."""
        return self.steps[self.index(state)]

    def index(self, state: str) -> int:
        """The place of the first step that shows this kind of state. Raises KeyError where there is none."""
        for index, step in enumerate(self.steps):
            if step.state == state:
                return index
        raise KeyError(state)

    def number(self, state: str) -> int:
        """The number of the step that shows this kind of state, for people. Raises KeyError where there is none."""
        return self.step(state).number

    def last_state(self, number: int) -> str | None:
        """The state that the rope is in once the step of this number is done; None where there is no such step."""
        states = [step.state for step in self.steps if step.number == number]
        return states[-1] if states else None

    def reaches(self, state: str, wanted: str) -> bool:
        """Whether a splice in one state has come as far as another. Raises KeyError for a state it has no step for."""
        return self.index(state) >= self.index(wanted)

    def part(self, index: int) -> str:
        """The letter of a step's state where the step has several, such as "b", else nothing."""
        number = self.steps[index].number
        same = [k for k, step in enumerate(self.steps) if step.number == number]
        return "abcdefgh"[same.index(index)] if len(same) > 1 else ""

    def numbered(self, index: int) -> str:
        """A step's number with its letter, such as "9b"."""
        return f"{self.steps[index].number}{self.part(index)}"

    @property
    def mistakes_in_order(self) -> tuple[Mistake, ...]:
        """The usual mistakes in the order of the steps they are made at, as sheets and pages number them from 1."""
        return tuple(sorted(self.mistakes, key=lambda mistake: mistake.step_number))

    def mistake(self, name: str) -> Mistake:
        """The mistake of that name. Raises KeyError where there is none."""
        for mistake in self.mistakes:
            if mistake.name == name:
                return mistake
        raise KeyError(name)
