"""The session behind the live page: what is settled, shown and refused."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from fidpath.methods.method import Method
from fidpath.methods.registry import method_of
from fidpath.viewing.live_page.form import Form, Refused, read_form
from fidpath.viewing.live_page.session import Session
from fidpath.viewing.live_page.settling_order import next_of
from live import wait


def few(splice: str) -> Method:
    """A method with its first three steps and its last, and without mistakes."""
    whole = method_of(splice)
    return replace(whole, steps=(*whole.steps[:3], whole.steps[-1]), mistakes=())


def kinds(own: Session) -> list[str]:
    """The states that are shown and of the newest figures."""
    return [] if own.shown is None else [one.kind for one in own.shown.states]


@contextmanager
def session_of(form: Form) -> Iterator[Session]:
    """A session under way, with four steps of its method and no mistakes."""
    own = Session(form, few)
    own.start()
    try:
        yield own
    finally:
        own.close()


def test_the_finished_splice_comes_first_and_a_change_keeps_it_until_the_next(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        wait(lambda: own.shown)
        assert own.shown is not None
        assert kinds(own) == ["buried"]
        before = own.shown
        found = own.change({**form.texts, "practice.bury": "16 d"})
        assert isinstance(found, Form)
        assert own.shown.plan is before.plan or own.news.shown_change == 1
        wait(lambda: own.news.shown_change == 1)
        assert own.shown is not None
        assert own.shown.plan.bury_length == pytest.approx(160)
    assert not [thread for thread in threading.enumerate() if thread.name == "fidpath settling"]


def test_a_refused_change_leaves_the_job_and_the_settling_alone(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        assert isinstance(own.change({**form.texts, "practice.bury": "much"}), Refused)
        assert own.form is form
        assert own.news.change == 0
        assert isinstance(own.change({**form.texts, "rope.pitch": "70 mm"}), Form)
        assert own.news.change == 0


def test_a_splice_that_misses_its_own_check_is_not_shown(short: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failure = {"check": "overlap_max", "value": 0.5, "bound": 0.02}
    monkeypatch.setattr("fidpath.viewing.live_page.settling_order.finished_report", lambda *_: {"failures": [failure]})
    with session_of(read_form(short)) as own:
        wait(lambda: own.news.phase == "refused")
        assert "strands run into one another by 50.0% of their thickness, 2.0% is allowed" in own.news.words
        assert own.shown is None


def test_a_state_that_cannot_be_made_is_said_and_the_rest_is_shown(short: Path) -> None:
    form = read_form(short)
    odd = replace(method_of("locked-captive"), steps=method_of("locked-captive").steps[-1:], mistakes=())
    step = replace(odd.steps[0], state="no-such-state")
    whole = replace(odd, steps=(step, odd.steps[0]))
    own = Session(form, lambda _splice: whole)
    own.start()
    try:
        wait(lambda: own.news.phase == "done")
        assert "no rope state of the kind 'no-such-state'" in own.news.words
        assert kinds(own) == ["buried"]
    finally:
        own.close()


def test_what_is_looked_at_comes_first_and_the_others_stand_as_old_until_theirs_come(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        wait(lambda: own.news.phase == "done")
        assert own.shown is not None and own.shown.parts.old == ()
        own.look(("h1-first-fid", "wrapped"))
        own.change({**form.texts, "practice.bury": "16 d"})
        wait(lambda: own.shown and own.shown.plan.bury_length < 170)
        assert "buried" in own.shown.parts.old
        assert set(kinds(own)) <= {"h1-first-fid", "wrapped"}
        assert set(own.shown.parts.states) >= {step.state for step in few("locked-captive").steps}
        wait(lambda: "h1-first-fid" not in own.shown.parts.old)
        wait(lambda: own.news.phase == "done")
        assert own.shown.parts.old == ()


def test_a_name_alone_needs_no_settling_and_is_at_once_the_pictures(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        wait(lambda: own.news.phase == "done")
        change, shown = own.news.change, own.news.shown
        assert isinstance(own.change({**form.texts, "name": "another stay"}), Form)
        assert own.news.change == change
        assert own.news.shown == shown + 1
        assert own.shown is not None and own.shown.plan.job.name == "another stay"
        assert '"name":"another stay"' in own.shown.data


def test_another_method_brings_its_own_steps(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        wait(lambda: own.shown)
        assert isinstance(own.change({**form.texts, "line.ends[1].splice": "plain"}), Form)
        wait(lambda: own.news.shown_change == own.news.change)
        assert own.method.name == "plain"
        assert own.shown is not None and own.shown.method.name == "plain"
        assert own.shown.parts.old == ()


def test_what_a_person_looks_at_is_next_and_else_the_order_of_the_work() -> None:
    assert next_of(["a", "b", "c"], ("x", "c")) == "c"
    assert next_of(["a", "b", "c"], ("x",)) == "a"
