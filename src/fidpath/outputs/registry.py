"""What a build can write: each kind of result is one registered `Output`.

An output lists its items, the files each becomes, what they are made from, and the function that makes one. A build
asks nothing else of it. The outputs of fidpath itself are in `registered`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeVar

from fidpath.arrays import Progress
from fidpath.machine import digest_of

if TYPE_CHECKING:
    from fidpath.methods import Method
    from fidpath.planning import Plan
    from fidpath.settling import SettledState

T = TypeVar("T")

Data = Mapping[str, Any]
"""Plain data that JSON holds."""

Option = Literal["always", "steps", "models", "motion", "film"]
"""What has to be asked for before an output is made."""


class Turn(IntEnum):
    """In which order tasks are begun: the finished splice first, for whoever waits.

    States are settled once if those who settle them come before those who draw, and right ones before the mistakes
    that stand beside them.
    """

    CHECK = 0
    FINISHED = 1
    STATES = 2
    MISTAKES = 3
    PICTURES = 4
    REST = 5
    FILMS = 6


@dataclass(frozen=True)
class PictureStyle:
    """How pictures are drawn: for "screen" or "print", and whether without the paper behind them."""

    look: str = "screen"
    transparent: bool = False


@dataclass(frozen=True)
class Request:
    """The splice that is built, by which method, and how its pictures look."""

    plan: Plan
    method: Method
    style: PictureStyle = PictureStyle()

    @property
    def finished(self) -> str:
        """The kind of the finished splice's state: the one that the method's last step shows."""
        return self.method.finished

    @cached_property
    def plan_digest(self) -> str:
        """A hash of the plan, wherever the job's file lies."""
        return digest_of(replace(self.plan, job=replace(self.plan.job, source="")))


@dataclass(frozen=True)
class Item:
    """One part of an output that is made and recorded by itself, such as one step's picture.

    name: put in the place of "{}" in the output's file names; empty where there is one item only.
    made_from: plain values that decide the item's bytes besides the plan.
    states: the rope states that it shows, which the plan must leave room for.
    """

    name: str = ""
    made_from: tuple[Any, ...] = ()
    states: tuple[str, ...] = ()


@dataclass(frozen=True)
class Product:
    """What making an item gave: files by their paths in the folder of results, and plain data about them."""

    files: Mapping[str, bytes]
    data: Data = field(default_factory=dict)


@dataclass(frozen=True)
class Result:
    """An item that is there: its data, its files by path with their hashes, and a hash of both."""

    folder: Path
    files: Mapping[str, str]
    data: Data
    digest: str

    def read(self, name: str) -> bytes:
        """The content of one of its files."""
        return (self.folder / name).read_bytes()


Results = Mapping[str, Mapping[str, Result]]
"""Results by output and item."""


@dataclass(frozen=True)
class Context:
    """What an item is made with. `settled` gives a rope state by its kind, settled once for all processes of a build.

    results: of the outputs that the item's output needs. memo: what is remembered from one item to the next.
    tell: told of progress within one item. earlier: what was made of the item before, from whatever, where an output
    asks for it and its files are as they were written.
    """

    request: Request
    settled: Callable[[str], SettledState]
    results: Results = field(default_factory=dict)
    memo: dict[str, Any] = field(default_factory=dict)
    tell: Progress = lambda _what, _share: None
    earlier: Result | None = None

    def remembered(self, name: str, make: Callable[[], T]) -> T:
        """A value made once in this process and build."""
        if name not in self.memo:
            self.memo[name] = make()
        value: T = self.memo[name]
        return value


def one_item(_request: Request) -> Iterable[Item]:
    """The items of an output that has only one, decided by the plan alone."""
    return (Item(),)


@dataclass(frozen=True)
class Output:
    """One kind of result of a build.

    title: what it is, as the help and the documentation list it.
    files: paths in the folder of results; "{}" stands for the item's name, "*" for names known only once it is made.
    make: makes one item, given a context and the item's name; a function of a module, since other processes call it.
    items: the items, from the request. needs: names of the outputs whose results `make` is given; an output that needs
    others is made after them, by the process that writes, from those of them that belong to the build.
    libraries: packages that decide its bytes besides those that settle. option: what has to be asked for.
    turn, seconds: of one turn those items are begun first that take a processor longest, in seconds, roughly.
    prepare: called while its needs are being made, with those results that are there already.
    replaced: whether another output writes over its files in the end, for which they stand until then.
    rewords: whether it can use what it made before, where only words have changed.
    """

    name: str
    title: str
    files: tuple[str, ...]
    make: Callable[[Context, str], Product]
    items: Callable[[Request], Iterable[Item]] = one_item
    needs: tuple[str, ...] = ()
    libraries: tuple[str, ...] = ()
    option: Option = "always"
    turn: Turn = Turn.REST
    seconds: float = 1.0
    prepare: Callable[[Context], None] | None = None
    replaced: bool = False
    rewords: bool = False

    @property
    def patterns(self) -> list[str]:
        """Its files as patterns of names, for a person."""
        return [path.replace("{}", "*") for path in self.files]

    def files_of(self, item: str) -> tuple[str, ...]:
        """Paths of an item's files, as far as they are known before it is made."""
        return tuple(path.format(item) for path in self.files if "*" not in path)


OUTPUTS: dict[str, Output] = {}
"""Every output that is registered, by its name."""


def register(output: Output) -> Output:
    """Adds an output to those that a build can write. Raises ValueError for a name that is taken."""
    if output.name in OUTPUTS:
        raise ValueError(f"there is an output {output.name!r} already")
    OUTPUTS[output.name] = output
    return output
