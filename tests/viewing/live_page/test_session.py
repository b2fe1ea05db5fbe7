"""The session behind the live page: what is settled, shown and refused."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from fidpath.methods.registry import method_of
from fidpath.viewing.live_page.form import Form, Refused, read_form
from fidpath.viewing.live_page.session import Session
from live import wait


@contextmanager
def session_of(form: Form) -> Iterator[Session]:
    """A session under way, with its data stood in for by the states' names."""
    own = Session(form, method_of("locked-captive"), lambda _plan, made: " ".join(one.kind for one in made))
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
        assert own.shown.data == "buried"
        before = own.shown
        found = own.change({**form.texts, "practice.bury": "16 d"})
        assert isinstance(found, Form)
        assert own.shown is before
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
    monkeypatch.setattr("fidpath.viewing.live_page.session.finished_report", lambda *_: {"failures": [failure]})
    with session_of(read_form(short)) as own:
        wait(lambda: own.news.phase == "refused")
        assert "strands run into one another by 50.0% of their thickness, 2.0% is allowed" in own.news.words
        assert own.shown is None


def test_a_state_that_cannot_be_made_is_said_and_the_rest_is_shown(short: Path) -> None:
    form = read_form(short)
    odd = replace(method_of("locked-captive"), steps=method_of("locked-captive").steps[-1:], mistakes=())
    step = replace(odd.steps[0], state="no-such-state")
    own = Session(form, replace(odd, steps=(step, odd.steps[0])), lambda _plan, made: " ".join(m.kind for m in made))
    own.start()
    try:
        wait(lambda: own.news.phase == "done")
        assert "no rope state of the kind 'no-such-state'" in own.news.words
        assert own.shown is not None
        assert own.shown.data == "buried"
    finally:
        own.close()
