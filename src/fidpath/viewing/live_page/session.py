"""One live session: the job as it stands, and its splice being settled behind it while the page answers.

A thread of its own settles; a change of the job stops what is under way and begins anew. What is looked at comes first.
What has been settled for the figures before stays, and is said to be old, until its own successor is there.
"""

from __future__ import annotations

import threading
import time
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from fidpath.errors import FidpathError
from fidpath.job import Job
from fidpath.machine import give_back_memory
from fidpath.methods import Method, method_of
from fidpath.outputs import page
from fidpath.planning import Plan
from fidpath.settling import SettledState
from fidpath.viewing.interruptible_settling import Overtaken, stand_back
from fidpath.viewing.live_page.following import Proposal, names_to_follow, proposals
from fidpath.viewing.live_page.form import Form, Refused, tried
from fidpath.viewing.live_page.settling_order import SettlingOrder, arrivals

Phase = Literal["settling", "steps", "done", "refused"]

LONGEST_END = 15.0
"""Seconds that closing waits for the settling to stop; it looks for that several times a second."""

TIDIED_EVERY = 5.0
"""Seconds between two looks for memory to give back: they keep answers waiting for a tenth of a second."""

APART = 0.7
"""Seconds between two pictures of what nobody looks at just then: a page draws anew for each."""


@dataclass(frozen=True)
class News:
    """Where the settling stands; `number` grows with every piece of news.

    `change` counts the job's changes; `shown` numbers the data that a page can fetch (0: none yet), `shown_change`
    says which change the newest of them are of, `waiting` how many states of that change are still to come.
    """

    number: int = 0
    change: int = 0
    phase: Phase = "settling"
    share: float = 0.0
    words: str = "settling the strands"
    shown: int = 0
    shown_change: int = -1
    waiting: int = 0


@dataclass(frozen=True)
class Shown:
    """The newest picture: the states settled for it, and the parts of a page with the old ones where none are yet."""

    plan: Plan
    method: Method
    states: tuple[SettledState, ...]
    fresh: page.Parts
    parts: page.Parts

    @cached_property
    def data(self) -> str:
        """The data that an open page is given."""
        return page.page_data(self.plan, self.method, self.parts)


class Session:
    """A job that can be changed while its splice settles. Safe to call from several threads."""

    def __init__(self, form: Form, choose: Callable[[str], Method] = method_of) -> None:
        self._form = self._base = form
        self._choose = choose
        self._news = News()
        self._shown: Shown | None = None
        self._looked_at: tuple[str, ...] = ()
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
    def method(self) -> Method:
        """The method of its splice."""
        return self._choose(self.form.job.line.ends[0].splice)

    @property
    def news(self) -> News:
        """Where the settling stands."""
        with self._lock:
            return self._news

    @property
    def shown(self) -> Shown | None:
        """The newest picture, None where nothing has settled yet."""
        with self._lock:
            return self._shown

    def change(self, texts: Mapping[str, str], agreed: bool = False) -> Form | Refused:
        """The job with these texts in its fields, by key, becomes the session's; or what is wrong with them.

        agreed: a person has said which other figures follow the rope; what follows is reckoned from here on.
        """
        outcome = tried(self.form, texts)
        if isinstance(outcome, Form):
            with self._lock:
                same = _without_words(outcome.job) == _without_words(self._form.job)
                reworded = outcome.job != self._form.job
                self._form = outcome
                self._base = outcome if agreed else self._base
                if not same:
                    self._tell(change=self._news.change + 1, phase="settling", share=0.0, words=News.words)
                elif reworded and self._shown is not None and self._news.shown_change == self._news.change:
                    self._shown = replace(self._shown, plan=outcome.plan)
                    self._tell(shown=self._news.shown + 1)
        return outcome

    def follows(self, texts: Mapping[str, str]) -> list[Proposal]:
        """What should follow the rope with these texts in the fields."""
        with self._lock:
            base = self._base
        return proposals(base.texts, texts)

    def lying_names(self) -> list[Proposal]:
        """Names that say what the rope was when they were last agreed to."""
        with self._lock:
            base, form = self._base, self._form
        return names_to_follow(base.texts, form.texts)

    def look(self, kinds: tuple[str, ...]) -> None:
        """Says which states a person looks at: they are settled before all others."""
        with self._lock:
            self._looked_at = kinds

    def looked_at(self) -> tuple[str, ...]:
        """The states that a person looks at."""
        with self._lock:
            return self._looked_at

    def _tell(self, **news: object) -> None:
        """Gives news; the lock is held."""
        self._news = replace(self._news, number=self._news.number + 1, **news)  # type: ignore[arg-type]
        self._lock.notify_all()

    def _wanted(self, change: int) -> None:
        """Raises Overtaken where this change's settling is wanted no more; the lock is held."""
        if self._closing or change != self._news.change:
            raise Overtaken

    def _say(self, change: int, **news: object) -> None:
        """Gives news of this change's settling. Raises Overtaken where it is wanted no more."""
        with self._lock:
            self._wanted(change)
            self._tell(**news)

    def _work(self) -> None:
        """Settles one change after the other until the session ends."""
        stand_back()
        done, tidied = -1, 0.0
        while True:
            with self._lock:
                self._lock.wait_for(lambda done=done: self._closing or self._news.change != done)  # type: ignore[misc]
                if self._closing:
                    return
                done, form = self._news.change, self._form
            self._settled(done, form)
            if time.monotonic() - tidied > TIDIED_EVERY:
                give_back_memory()
                tidied = time.monotonic()

    def _settled(self, change: int, form: Form) -> None:
        """Settles one change and shows what comes of it; says why where it can't be."""
        try:
            self._show_all(change, form.plan, self._choose(form.job.line.ends[0].splice))
        except Overtaken:
            return
        except FidpathError as problem:
            self._refuse(change, f"{problem.what}. {problem.remedy}".rstrip(". "))
        except Exception:
            traceback.print_exc()
            self._refuse(change, "a fault in fidpath: the terminal has the details")

    def _refuse(self, change: int, words: str) -> None:
        """Nothing of this change is to be believed: what is shown of it becomes old too."""
        with self._lock:
            if change == self._news.change:
                if self._shown is not None and self._news.shown_change == change:
                    old = replace(self._shown.parts, old=tuple(self._shown.parts.states))
                    self._shown = replace(self._shown, states=(), parts=old)
                    self._tell(shown=self._news.shown + 1, shown_change=change - 1)
                self._tell(phase="refused", share=0.0, words=words)

    def _show_all(self, change: int, plan: Plan, method: Method) -> None:
        """Every state of the method as it arrives, then what could not be made."""
        growing, states, unmade = page.GrowingParts(plan, method), list[SettledState](), list[str]()
        wanted = SettlingOrder(
            plan, method, self.looked_at, lambda share, words: self._checkpoint(change, share, words)
        )
        shown_at, to_come = 0.0, set(wanted.order)
        for arrival in arrivals(wanted):
            to_come.discard(arrival.kind)
            if arrival.state is None:
                unmade += [arrival.words] if arrival.words else []
            else:
                states.append(replace(arrival.state))  # without its drawn sections
                growing.add(arrival.state)
            if not states or not (arrival.urgent or time.monotonic() - shown_at > APART or arrival.left == 0):
                continue
            fresh = growing.parts(to_come)
            if fresh.states:
                parts = self._over_old(fresh, method) if to_come else fresh
                growing.lighten()
                self._show(change, Shown(plan, method, tuple(states), fresh, parts), arrival.left)
            shown_at = time.monotonic()
        self._say(change, phase="done", share=1.0, words=_left_out(unmade), waiting=0)

    def _over_old(self, fresh: page.Parts, method: Method) -> page.Parts:
        """These parts over the old ones of the same method, which stand in the place of those to come."""
        before = self.shown
        return fresh if before is None or before.method.name != method.name else fresh.over(before.parts)

    def _show(self, change: int, shown: Shown, left: int) -> None:
        """Puts settled states before the page, in the job's newest words. Raises Overtaken where they are too late."""
        with self._lock:
            self._wanted(change)
            self._shown = replace(shown, plan=self._form.plan)
            self._tell(shown=self._news.shown + 1, shown_change=change, waiting=left)

    def _checkpoint(self, change: int, share: float, words: str) -> None:
        """Where the settling is; words are empty where it is at nothing that is waited for."""
        if words:
            phase: Phase = "settling" if self.news.shown_change != change else "steps"
            self._say(change, phase=phase, share=share, words=words)
            return
        with self._lock:
            self._wanted(change)


def _without_words(job: Job) -> Job:
    """A job without its names: a splice that is only called otherwise needs no settling."""
    ends = tuple(replace(end, name="") for end in job.line.ends)
    line = replace(job.line, name="", captive_end="", thread_on_first=(), ends=ends)
    bare = replace(job, name="", line=line, rope=replace(job.rope, name=""), units={})
    return replace(bare, terminator=replace(job.terminator, name=""))


def _left_out(unmade: list[str]) -> str:
    """What could not be made for this job."""
    return f"all settled but {len(unmade)}: {'; '.join(unmade)}" if unmade else "all settled"
