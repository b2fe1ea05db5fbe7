"""A method's TOML file -> Method, read with the same care and messages as a job file."""

from __future__ import annotations

import difflib
import math
import re
from functools import lru_cache
from importlib import resources
from pathlib import Path as FilePath
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, PlainValidator

from fidpath.arrays import Vector
from fidpath.errors import JobError
from fidpath.job.locate import KeyedError
from fidpath.job.schema import Name, Table
from fidpath.job.toml_file import about, read_as
from fidpath.methods.method import Also, Method, Mover, Place, Step, ToolKind, ToolUse, View, When, WrongWay
from fidpath.methods.placeholders import unknown_in
from fidpath.units import UnitError

FILES = {
    "locked-captive": "locked_captive.toml",
    "locked-free": "locked_free.toml",
    "plain": "plain_bury.toml",
}
"""Methods that come with the program, by name: those of the splices a line's end can have."""

LONGEST = 300
FARTHEST = 1e3
MOST_STEPS = 60


def _kind(text: str) -> str:
    """A name that can stand in a file's name."""
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text) or len(text) > 40:
        raise UnitError(f'"{text}" is no name for a state or a method', 'Write small letters and hyphens: "tail-in".')
    return text


def _words(text: str) -> str:
    """One printable line whose placeholders are known."""
    if not text.strip() or not text.isprintable() or len(text) > LONGEST:
        raise UnitError("this is not a sentence on one line", f"Write 1 to {LONGEST} printable letters and marks.")
    unknown = unknown_in(text)
    if unknown:
        raise UnitError(*unknown)
    return text.strip()


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


def _sized(low: int, high: int, what: str) -> AfterValidator:
    """Refuse a list of another length."""

    def check(items: list[Any]) -> list[Any]:
        if not low <= len(items) <= high:
            raise UnitError(f"there are {len(items)} {what} here", f"Write {low} to {high}.")
        return items

    return AfterValidator(check)


Kind = Annotated[str, AfterValidator(_kind)]
Sentence = Annotated[str, AfterValidator(_words)]
Mark = Annotated[str, AfterValidator(_mark)]
Direction = Annotated[Vector, PlainValidator(_vector)]


class ViewTable(Table):
    """A camera."""

    look: Annotated[list[Place], _sized(1, 9, "places")]
    direction: Direction
    up: Direction = (0.0, 0.0, 1.0)


class ToolTable(Table):
    """A tool in use."""

    kind: ToolKind
    at: Place
    when: When = ""


class AlsoTable(Table):
    """A sentence under a condition."""

    when: When
    say: Sentence


class StepTable(Table):
    """[[steps]]"""

    number: int
    state: Kind
    caption: Sentence
    instructions: Annotated[list[Sentence], _sized(2, 4, "instructions")]
    check: Sentence
    views: Annotated[list[ViewTable], _sized(1, 2, "views")]
    caution: Sentence | None = None
    tools: Annotated[list[ToolTable], _sized(0, 10, "tools")] = Field(default=[])
    marks: Annotated[list[Mark], _sized(0, 20, "marks")] = Field(default=[])
    moves: Mover = ""
    start: Place | None = Field(default=None, alias="from")
    goal: Place | None = Field(default=None, alias="to")
    turns: bool = False
    also: Annotated[list[AlsoTable], _sized(0, 10, "sentences")] = Field(default=[])


class WrongWayTable(Table):
    """[[wrong_ways]]"""

    name: Kind
    title: Sentence
    at_step: int
    beside: Kind
    signs: Annotated[list[Sentence], _sized(2, 4, "signs")]
    way_back: Annotated[list[Sentence], _sized(2, 4, "sentences")]
    views: Annotated[list[ViewTable], _sized(1, 2, "views")]
    how_far_off: Sentence | None = None


class MethodTable(Table):
    """A whole method."""

    schema_version: Literal[1] = Field(alias="schema")
    name: Kind
    title: Name
    summary: Sentence
    steps: Annotated[list[StepTable], _sized(1, MOST_STEPS, "steps")]
    wrong_ways: Annotated[list[WrongWayTable], _sized(0, MOST_STEPS, "wrong ways")] = Field(default=[])


@lru_cache(maxsize=len(FILES))
def method(name: str) -> Method:
    """A method that comes with the program. Raises JobError where there is none of that name."""
    if name not in FILES:
        near = difflib.get_close_matches(name, FILES, n=1)
        hint = f'Did you mean "{near[0]}"' if near else f"There are {', '.join(FILES)}"
        raise JobError(f'no method is called "{name}"', hint)
    with resources.as_file(resources.files("fidpath.methods").joinpath(FILES[name])) as path:
        return read_method(path)


def read_method(path: FilePath) -> Method:
    """The method in a file. Raises JobError, with file, line and what to do, where it says what can't be."""
    table, text = read_as(path, MethodTable)
    with about(text, str(path)):
        _check_numbers(table)
        _check_views(table)
        _check_moves(table)
        _check_wrong_ways(table)
    return Method(
        table.name,
        table.title,
        table.summary,
        tuple(_step(step) for step in table.steps),
        tuple(_wrong_way(way) for way in table.wrong_ways),
    )


def _check_numbers(table: MethodTable) -> None:
    """Steps are numbered from 1, in order; states of one step share its number."""
    before = 0
    for index, step in enumerate(table.steps):
        if step.number not in ((before, before + 1) if before else (1,)):
            wanted = f"{before} or {before + 1}" if before else "1"
            raise KeyedError(("steps", index, "number"), f"step {step.number} is out of order", f"Write {wanted}.")
        before = step.number


def _check_views(table: MethodTable) -> None:
    """A camera can't look along what it calls up."""
    steps = [(("steps", index), step.views) for index, step in enumerate(table.steps)]
    ways = [(("wrong_ways", index), way.views) for index, way in enumerate(table.wrong_ways)]
    for path, views in (*steps, *ways):
        for place, view in enumerate(views):
            if _parallel(view.direction, view.up):
                what = "up lies along the direction of view"
                raise KeyedError((*path, "views", place, "up"), what, "Choose another up.")


def _parallel(a: Vector, b: Vector) -> bool:
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return math.hypot(*cross) <= 1e-6 * math.hypot(*a) * math.hypot(*b)


def _check_moves(table: MethodTable) -> None:
    """An arrow's ends need something that moves."""
    for index, step in enumerate(table.steps):
        for key, place in (("from", step.start), ("to", step.goal)):
            if place is not None and not step.moves:
                raise KeyedError(("steps", index, key), "nothing moves in this step", 'Add moves, such as "tail end".')


def _check_wrong_ways(table: MethodTable) -> None:
    """A mistake belongs to a step, stands beside a state of the method, and has a name of its own."""
    numbers = {step.number for step in table.steps}
    states = {step.state for step in table.steps}
    names = [way.name for way in table.wrong_ways]
    for index, way in enumerate(table.wrong_ways):
        path = ("wrong_ways", index)
        if way.at_step not in numbers:
            raise KeyedError((*path, "at_step"), f"there is no step {way.at_step}", f"Write 1 to {max(numbers)}.")
        if way.beside not in states:
            raise KeyedError((*path, "beside"), f'no step shows "{way.beside}"', f"Known: {', '.join(sorted(states))}.")
        if way.name in names[:index]:
            raise KeyedError((*path, "name"), f'"{way.name}" is there twice', "Give each its own name.")


def _step(table: StepTable) -> Step:
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
        also=tuple(Also(extra.when, extra.say) for extra in table.also),
    )


def _wrong_way(table: WrongWayTable) -> WrongWay:
    return WrongWay(
        name=table.name,
        title=table.title,
        at_step=table.at_step,
        beside=table.beside,
        signs=tuple(table.signs),
        way_back=tuple(table.way_back),
        views=tuple(_view(view) for view in table.views),
        how_far_off=table.how_far_off or "",
    )


def _view(table: ViewTable) -> View:
    return View(tuple(table.look), table.direction, table.up)
