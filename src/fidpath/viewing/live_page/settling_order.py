"""In which order a splice's states are settled for a person who looks at one of them: that one first, then the rest."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass
from functools import cached_property

from fidpath.errors import CannotBeMade
from fidpath.loading import state_in_hand
from fidpath.methods import Method
from fidpath.outputs import finished_report, refuse_failures
from fidpath.planning import Plan
from fidpath.settling import SettledState

Report = Callable[[float, str], None]
"""Told the share that is done and in words of what; no words where nobody waits for it. May raise Overtaken."""

THREADS = 2
"""States settled at a time: the compiled loops let go of the interpreter."""

FINISHED_SHARE = 0.8
"""Of the way to the finished splice, what the settling takes; the rest is drawing its sections and measuring it."""


@dataclass(frozen=True)
class SettlingOrder:
    """What is to be settled of a plan: the states of a method; `looked_at` names those a person looks at just then."""

    plan: Plan
    method: Method
    looked_at: Callable[[], tuple[str, ...]]
    report: Report

    @cached_property
    def names(self) -> dict[str, str]:
        """Every state by its kind, in the order of the work, with what it is called where it can't be made."""
        steps = {step.state: f"step {self.method.numbered(i)}" for i, step in enumerate(self.method.steps)}
        beside = {way.beside: f"beside {way.name}" for way in self.method.mistakes}
        wrong = {way.name: way.name for way in self.method.mistakes}
        ways = dict.fromkeys(self.between, "a moment between two steps")
        return {self.method.finished: "the finished splice", **ways, **beside, **wrong, **steps}

    @cached_property
    def between(self) -> list[str]:
        """Kinds between two steps that are no step's or mistake's own: one that can't be made is no loss."""
        own = {step.state for step in self.method.steps}
        own |= {kind for way in self.method.mistakes for kind in (way.beside, way.name)}
        return [kind for step in self.method.steps for kind in step.between if kind not in own]

    @cached_property
    def order(self) -> list[str]:
        """Kinds in the order of the work: the finished splice, the steps, the mistakes, what lies between steps."""
        steps = dict.fromkeys(step.state for step in self.method.steps)
        wrong = dict.fromkeys(kind for way in self.method.mistakes for kind in (way.beside, way.name))
        return [*dict.fromkeys((self.method.finished, *steps, *wrong, *self.between))]


@dataclass(frozen=True)
class Arrival:
    """One state settled, or None and in words why it can't be made; no words for a moment between two steps.

    urgent: somebody waits for it; left: how many are still to come.
    """

    kind: str
    state: SettledState | None
    words: str
    urgent: bool
    left: int


def arrivals(wanted: SettlingOrder) -> Iterator[Arrival]:
    """Every state as soon as it is settled, those looked at before all others.

    Raises CannotBeMade where the finished splice can't be made or misses its own check's bounds, and Overtaken.
    """
    todo, running = list(wanted.order), dict[Future[SettledState], str]()
    pool = ThreadPoolExecutor(THREADS, "fidpath step")
    try:
        while todo or running:
            while todo and len(running) < _at_a_time(wanted, running):
                kind = next_of(todo, wanted.looked_at())
                todo.remove(kind)
                running[pool.submit(_settled, wanted, kind)] = kind
            done, _ = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                kind = running.pop(future)
                yield _arrival(wanted, kind, future, len(todo) + len(running))
            if todo:
                made = len(wanted.order) - len(todo) - len(running)
                wanted.report(made / len(wanted.order), "settling the other steps and the mistakes")
    finally:
        pool.shutdown(cancel_futures=True)  # those under way hear of it several times a second


def next_of(todo: list[str], looked_at: tuple[str, ...]) -> str:
    """What is settled next: what is looked at, else what comes first in the order of the work."""
    return next((kind for kind in looked_at if kind in todo), todo[0])


def _at_a_time(wanted: SettlingOrder, running: dict[Future[SettledState], str]) -> int:
    """How many states are settled at a time: the finished splice, which all wait for, has the machine to itself."""
    return 1 if wanted.method.finished in running.values() else THREADS


def _settled(wanted: SettlingOrder, kind: str) -> SettledState:
    """One state settled; the finished splice also measured. Raises CannotBeMade, and Overtaken."""
    finished = kind == wanted.method.finished
    awaited = finished or kind in wanted.looked_at()
    words = "settling the strands" if finished else f"settling {wanted.names[kind]}"

    def tell(share: float) -> None:
        wanted.report(FINISHED_SHARE * share if finished else share, words if awaited else "")

    state = state_in_hand(wanted.plan, kind, tell)
    if finished:
        words = "measuring the finished splice"
        tell(1.1)
        refuse_failures("the settled splice", finished_report(wanted.plan, state), "It is not shown")
    return state


def _arrival(wanted: SettlingOrder, kind: str, future: Future[SettledState], left: int) -> Arrival:
    """One state, or in words why it can't be made for this job; without the finished splice nothing is shown."""
    urgent = kind in (*wanted.looked_at(), wanted.method.finished)
    try:
        return Arrival(kind, future.result(), "", urgent, left)
    except CannotBeMade as problem:
        if kind == wanted.method.finished:
            raise
        if kind in wanted.between:
            return Arrival(kind, None, "", urgent, left)
        words = f"{problem.what}. {problem.remedy}".rstrip(". ")
        return Arrival(kind, None, f"{wanted.names[kind]}: {words}", urgent, left)
