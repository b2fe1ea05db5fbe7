"""One live session: the job as it stands, and its splice being settled behind it while the page answers.

A thread of its own settles; a change of the job stops what is under way and begins anew. What has been settled stays
until something newer is there, so that the page always has its last good picture.
"""

from __future__ import annotations

import threading
import traceback
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace
from typing import Literal

from fidpath.errors import CannotBeMade, FidpathError
from fidpath.loading import state_in_hand
from fidpath.methods import Method
from fidpath.outputs import finished_report, refuse_failures
from fidpath.planning import Plan
from fidpath.settling import SettledState
from fidpath.viewing.interruptible_settling import Overtaken, stand_back
from fidpath.viewing.live_page.form import Form, Refused, tried

Phase = Literal["settling", "steps", "done", "refused"]
Pack = Callable[[Plan, Sequence[SettledState]], str]

FINISHED_SHARE = 0.8
"""Of the way to the finished splice, what the settling takes; the rest is drawing its sections and measuring it."""

LONGEST_END = 15.0
"""Seconds that closing waits for the settling to stop; it looks for that several times a second."""


@dataclass(frozen=True)
class News:
    """Where the settling stands; `number` grows with every piece of news.

    `change` counts the job's changes; `shown` numbers the data that a page can fetch (0: none yet), `shown_change`
    says which change they are of.
    """

    number: int = 0
    change: int = 0
    phase: Phase = "settling"
    share: float = 0.0
    words: str = "settling the strands"
    shown: int = 0
    shown_change: int = -1


@dataclass(frozen=True)
class Shown:
    """The last good picture: settled states, the finished splice among them, and their data for the page."""

    plan: Plan
    states: tuple[SettledState, ...]
    data: str


class Session:
    """A job that can be changed while its splice settles. Safe to call from several threads."""

    def __init__(self, form: Form, method: Method, pack: Pack) -> None:
        self._form = form
        self._method = method
        self._pack = pack
        self._news = News()
        self._shown: Shown | None = None
        self._closing = False
        self._lock = threading.Condition()
        self._thread = threading.Thread(target=self._work, name="fidpath settling")

    def start(self) -> None:
        """Begins to settle."""
        self._thread.start()

    def close(self) -> None:
        """Stops settling and waits until it has stopped."""
        with self._lock:
            self._closing = True
            self._lock.notify_all()
        if self._thread.ident is not None:
            self._thread.join(LONGEST_END)

    @property
    def form(self) -> Form:
        """The job as it stands."""
        with self._lock:
            return self._form

    @property
    def news(self) -> News:
        """Where the settling stands."""
        with self._lock:
            return self._news

    @property
    def shown(self) -> Shown | None:
        """The last good picture, None where nothing has settled yet."""
        with self._lock:
            return self._shown

    def change(self, texts: Mapping[str, str]) -> Form | Refused:
        """The job with these texts in its fields, by key, becomes the session's; or what is wrong with them."""
        outcome = tried(self.form, texts)
        if isinstance(outcome, Form):
            with self._lock:
                same = outcome.job == self._form.job and outcome.job.length_unit == self._form.job.length_unit
                self._form = outcome
                if not same:
                    self._tell(change=self._news.change + 1, phase="settling", share=0.0, words=News.words)
        return outcome

    def _tell(self, **news: object) -> None:
        """Gives news; the lock is held."""
        self._news = replace(self._news, number=self._news.number + 1, **news)  # type: ignore[arg-type]
        self._lock.notify_all()

    def _say(self, change: int, phase: Phase, share: float, words: str) -> None:
        """Gives news of this change's settling. Raises Overtaken where it is wanted no more."""
        with self._lock:
            if self._closing or change != self._news.change:
                raise Overtaken
            self._tell(phase=phase, share=share, words=words)

    def _show(self, change: int, plan: Plan, states: Sequence[SettledState]) -> None:
        """Puts settled states before the page. Raises Overtaken where they are wanted no more."""
        shown = Shown(plan, tuple(states), self._pack(plan, states))
        with self._lock:
            if self._closing or change != self._news.change:
                raise Overtaken
            self._shown = shown
            self._tell(shown=self._news.shown + 1, shown_change=change)

    def _work(self) -> None:
        """Settles one change after the other until the session ends."""
        stand_back()
        done = -1
        while True:
            with self._lock:
                self._lock.wait_for(lambda done=done: self._closing or self._news.change != done)  # type: ignore[misc]
                if self._closing:
                    return
                done, form = self._news.change, self._form
            self._settled(done, form)

    def _settled(self, change: int, form: Form) -> None:
        """Settles one change: the finished splice first, then every step and mistake; says why where it can't."""
        try:
            finished = self._finished(change, form.plan)
            self._show(change, form.plan, [finished])
            self._steps(change, form.plan, finished)
        except Overtaken:
            return
        except FidpathError as problem:
            self._refuse(change, f"{problem.what}. {problem.remedy}".rstrip(". "))
        except Exception:
            traceback.print_exc()
            self._refuse(change, "a fault in fidpath: the terminal has the details")

    def _refuse(self, change: int, words: str) -> None:
        with self._lock:
            if change == self._news.change:
                self._tell(phase="refused", share=0.0, words=words)

    def _finished(self, change: int, plan: Plan) -> SettledState:
        """The finished splice, settled and measured. Raises CannotBeMade where it misses its own check's bounds."""
        words = News.words

        def tell(share: float) -> None:
            self._say(change, "settling", FINISHED_SHARE * share, words)

        state = state_in_hand(plan, self._method.finished, tell)
        words = "measuring the finished splice"
        tell(1.1)
        report = finished_report(plan, state)
        refuse_failures("the settled splice", report, "It is not shown")
        return state

    def _steps(self, change: int, plan: Plan, finished: SettledState) -> None:
        """Every step of the method and every usual mistake, shown when all steps are there and once more at the end."""
        right = {
            step.state: f"step {step.number}" for step in self._method.steps if step.state != self._method.finished
        }
        names = {**right, **{mistake.name: mistake.name for mistake in self._method.mistakes}}
        states, unmade = [finished], []
        pool = ThreadPoolExecutor(2, "fidpath step")
        try:
            waiting = {kind: pool.submit(self._state, change, plan, kind) for kind in names}
            for number, (kind, future) in enumerate(waiting.items()):
                if number == len(right):
                    self._show(change, plan, states)
                self._say(change, "steps", number / len(waiting), "settling the steps between and the mistakes")
                state = _one(future)
                if isinstance(state, SettledState):
                    states.append(state)
                else:
                    unmade.append(f"{names[kind]}: {state}")
        finally:
            pool.shutdown(wait=False, cancel_futures=True)
        self._show(change, plan, states)
        self._say(change, "done", 1.0, _left_out(unmade))

    def _state(self, change: int, plan: Plan, kind: str) -> SettledState:
        """One state settled. Raises CannotBeMade, and Overtaken where it is wanted no more."""

        def checkpoint(_share: float) -> None:
            with self._lock:
                if self._closing or change != self._news.change:
                    raise Overtaken

        return state_in_hand(plan, kind, checkpoint)


def _one(future: Future[SettledState]) -> SettledState | str:
    """One state, or in words why it can't be made for this job."""
    try:
        return future.result()
    except CannotBeMade as problem:
        return f"{problem.what}. {problem.remedy}".rstrip(". ")


def _left_out(unmade: list[str]) -> str:
    """What could not be made for this job."""
    return f"all settled but {len(unmade)}: {'; '.join(unmade)}" if unmade else "all settled"
