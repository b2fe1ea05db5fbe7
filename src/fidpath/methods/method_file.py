"""A method's TOML file -> Method, read with the same care and messages as a job file."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from pathlib import Path as FilePath
from typing import Annotated

from pydantic import AfterValidator, Field, PlainValidator

from fidpath.arrays import Vector
from fidpath.job import KeyedError, Table, about, key_path, read_as
from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.method import (
    Also,
    CameraView,
    Group,
    Landmark,
    Method,
    Mistake,
    Mover,
    Step,
    ToolKind,
    ToolUse,
    Way,
    When,
)
from fidpath.methods.method_head import HeadTable, Kind, Sentence, card_of, check_words, sized
from fidpath.methods.placeholders import Wording
from fidpath.units import UnitError

FARTHEST = 1e3
MOST_STEPS = 60


def _mark(text: str) -> str:
    """A mark's letter, with a number where there are several."""
    if not re.fullmatch(r"[A-Z][0-9]{0,2}", text, re.ASCII):
        raise UnitError(f'"{text}" is no mark', 'Write a capital letter, with a number if need be: "H1", "X".')
    return text


def _vector(value: object) -> Vector:
    """Three finite numbers, not all nothing."""
    wanted = UnitError("this is not a direction", "Write three numbers, not all 0, such as [0.0, -0.4, 1.0].")
    if not isinstance(value, list) or len(value) != 3:
        raise wanted
    if any(isinstance(each, bool) or not isinstance(each, int | float) for each in value):
        raise wanted
    x, y, z = (float(each) if abs(each) <= FARTHEST else math.nan for each in value)
    if math.isnan(x + y + z) or x == y == z == 0.0:
        raise wanted
    return x, y, z


Mark = Annotated[str, AfterValidator(_mark)]
Direction = Annotated[Vector, PlainValidator(_vector)]


class ViewTable(Table):
    """A camera."""

    look: Annotated[list[Landmark], sized(1, 9, "places")]
    direction: Direction
    up: Direction = (0.0, 0.0, 1.0)
    state: Kind | None = None
    say: Sentence | None = None
    crossed: bool = False
    beside: Annotated[int, Field(ge=-3, le=3)] = 0
    tools: list[ToolKind] | None = None
    broken: bool = False
    arrow: Annotated[list[Mover | Landmark], sized(3, 3, "words: what moves, from where and to where")] | None = None
    group: Group | None = None


class ToolTable(Table):
    """A tool in use."""

    kind: ToolKind
    at: Landmark
    when: When = ""


class AlsoTable(Table):
    """A sentence under a condition."""

    when: When
    say: Sentence
    first: bool = False


class StepTable(Table):
    """[[steps]]"""

    number: int
    state: Kind
    caption: Sentence
    instructions: Annotated[list[Sentence], sized(2, 5, "instructions")]
    check: Sentence
    views: Annotated[list[ViewTable], sized(1, 4, "views")]
    caution: Sentence | None = None
    tools: Annotated[list[ToolTable], sized(0, 10, "tools")] = Field(default=[])
    marks: Annotated[list[Mark], sized(0, 20, "marks")] = Field(default=[])
    moves: Mover = ""
    start: Landmark | None = Field(default=None, alias="from")
    goal: Landmark | None = Field(default=None, alias="to")
    turns: bool = False
    between: Annotated[list[Kind], sized(0, 3, "states")] = Field(default=[])
    also: Annotated[list[AlsoTable], sized(0, 10, "sentences")] = Field(default=[])


class MistakeTable(Table):
    """[[mistakes]]"""

    name: Kind
    title: Sentence
    made_at: Kind
    beside: Kind
    signs: Annotated[list[Sentence], sized(2, 4, "signs")]
    remedy: Annotated[list[Sentence], sized(2, 4, "sentences")]
    views: Annotated[list[ViewTable], sized(1, 2, "views")]
    how_far_off: Sentence | None = None


class MethodTable(HeadTable):
    """A whole method."""

    steps: Annotated[list[StepTable], sized(1, MOST_STEPS, "steps")]
    mistakes: Annotated[list[MistakeTable], sized(0, MOST_STEPS, "mistakes")] = Field(default=[])


def read_method(path: FilePath, placeholders: Mapping[str, Wording] = OF_A_LOCK) -> Method:
    """The method in a file, whose words may hold these placeholders.

    Raises JobError, with file, line and what to do, where it says what can't be.
    """
    table, text = read_as(path, MethodTable)
    with about(text, str(path)):
        check_words(table, placeholders)
        _check_numbers(table)
        _check_views(table)
        _check_moves(table)
        _check_between(table)
        _check_mistakes(table)
    return Method(
        table.name,
        table.title,
        table.summary,
        tuple(_step(step, table.steps[:index]) for index, step in enumerate(table.steps)),
        tuple(_mistake(mistake, table) for mistake in table.mistakes),
        card_of(table),
    )


def _check_numbers(table: MethodTable) -> None:
    """Steps are numbered from 1, in order; states of one step share its number."""
    before = 0
    for index, step in enumerate(table.steps):
        if step.number not in ((before, before + 1) if before else (1,)):
            wanted = f"{before} or {before + 1}" if before else "1"
            raise KeyedError(
                key_path("steps") / index / "number", f"step {step.number} is out of order", f"Write {wanted}."
            )
        before = step.number


def _check_views(table: MethodTable) -> None:
    """A camera can't look along what it calls up."""
    steps = [(key_path("steps") / index, step.views) for index, step in enumerate(table.steps)]
    mistakes = [(key_path("mistakes") / index, mistake.views) for index, mistake in enumerate(table.mistakes)]
    for path, views in (*steps, *mistakes):
        for place, view in enumerate(views):
            if _parallel(view.direction, view.up):
                what = "up is parallel to the direction of view"
                raise KeyedError(path / "views" / place / "up", what, "Choose another up.")


def _parallel(a: Vector, b: Vector) -> bool:
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return math.hypot(*cross) <= 1e-6 * math.hypot(*a) * math.hypot(*b)


def _check_moves(table: MethodTable) -> None:
    """An arrow's ends need something that moves."""
    for index, step in enumerate(table.steps):
        for key, place in (("from", step.start), ("to", step.goal)):
            if place is not None and not step.moves:
                raise KeyedError(
                    key_path("steps") / index / key, "nothing moves in this step", 'Add moves, such as "tail end".'
                )


def _check_between(table: MethodTable) -> None:
    """What lies between two steps is shown by a view: only what is shown is checked."""
    shown = {view.state for step in table.steps for view in step.views if view.state}
    for index, step in enumerate(table.steps):
        for place, state in enumerate(step.between):
            path = key_path("steps") / index / "between" / place
            if index == 0:
                raise KeyedError(path, "no step comes before this one", "Leave it out.")
            if state not in shown:
                known = f"Known: {', '.join(sorted(shown))}." if shown else "Add a view of it."
                raise KeyedError(path, f'no view shows "{state}"', known)


def _check_mistakes(table: MethodTable) -> None:
    """A mistake is made at a state of the method, stands beside one, and has a name of its own."""
    states = [step.state for step in table.steps]
    names = [mistake.name for mistake in table.mistakes]
    for index, mistake in enumerate(table.mistakes):
        path = key_path("mistakes") / index
        for key, state in (("made_at", mistake.made_at), ("beside", mistake.beside)):
            if state not in states:
                raise KeyedError(path / key, f'no step shows "{state}"', f"Known: {', '.join(sorted(states))}.")
        if mistake.name in names[:index]:
            raise KeyedError(path / "name", f'"{mistake.name}" occurs twice', "Give each its own name.")


def _step(table: StepTable, before: Sequence[StepTable]) -> Step:
    return Step(
        number=table.number,
        state=table.state,
        caption=table.caption,
        instructions=tuple(table.instructions),
        check=table.check,
        views=tuple(_view(view) for view in table.views),
        caution=table.caution or "",
        tools=tuple(ToolUse(tool.kind, tool.at, tool.when) for tool in table.tools),
        marks=tuple(table.marks),
        moves=table.moves,
        start=table.start,
        goal=table.goal,
        turns=table.turns,
        also=tuple(Also(extra.when, extra.say, extra.first) for extra in table.also),
        between=tuple(table.between),
        known=tuple(mark for mark in table.marks if any(mark in step.marks for step in before)),
    )


def _mistake(table: MistakeTable, method: MethodTable) -> Mistake:
    return Mistake(
        name=table.name,
        title=table.title,
        made_at=table.made_at,
        step_number=next(step.number for step in method.steps if step.state == table.made_at),
        beside=table.beside,
        signs=tuple(table.signs),
        remedy=tuple(table.remedy),
        views=tuple(_view(view) for view in table.views),
        how_far_off=table.how_far_off or "",
    )


def _way(words: Sequence[str] | None) -> Way | None:
    if words is None:
        return None
    what, start, goal = words
    return what, start, goal


def _view(table: ViewTable) -> CameraView:
    return CameraView(
        tuple(table.look),
        table.direction,
        table.up,
        table.state or "",
        table.say or "",
        table.crossed,
        table.beside,
        None if table.tools is None else tuple(table.tools),
        table.broken,
        _way(table.arrow),
        table.group,
    )
